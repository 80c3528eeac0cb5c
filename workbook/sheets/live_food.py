"""Live food: nauplii wanted by tanks and fry, the hatches that give them, fresh for each feed, and the cysts left."""

from workbook.equations import brine, reorder
from workbook.tables import (
    Chart,
    Charts,
    Computed,
    Flag,
    Look,
    Pulled,
    Said,
    Series,
    Sheet,
    Table,
    Typed,
    count,
    date,
    key,
    link,
    logic,
    number,
    text,
)
from workbook.tables.formula import filled
from workbook.tables.idioms import counted, first_known, in_rows_with, joined, only_if, sum_of_rows, taken_as
from workbook.tables.template import here, of, quoted, said

LOT, LASTS, SET = (
    Look("The cysts", 10, "0"),
    Look("How long they last", 10, "0.00"),
    Look("How they are hatched", 10, "0.0"),
)
FEED, HATCH = Look("The feed", 9, "0.0"), Look("The hatch for it", 10, "0.0")
TANK, HIDDEN, COUNT = Look("Nauplii a day", 10, "0"), Look(working=True, show="0.00"), Look(working=True, show="0")
# Beyond these hardly a cyst hatches: a cell refuses more, what is pasted is flagged.
LIMITS = (
    ("temperature", "temperature", 15, 33, " °C (59 to 91 °F)"),
    ("salinity", "salt", 5, 35, " g/L"),
    ("ph", "pH", 7, 10, ""),
    ("density", "cysts", 0.1, 5, " g/L"),
)
BEST = (
    ("temperature", "temperature", "brine_temperature_low", "brine_temperature_high"),
    ("ph", "pH", "brine_ph_low", "brine_ph_high"),
)


def limits(key_: str) -> tuple[float, float]:
    """What a cell of the hatch takes."""
    return next((low, high) for k, _, low, high, _ in LIMITS if k == key_)


def never_hatches() -> Computed:
    """In words, what lies where hardly a cyst hatches."""
    tests = (
        (
            filled("AND(COUNT({*})=1,OR({*}<{low},{*}>{high}))", each=key_, low=str(low), high=str(high)),
            quoted(f"{word} from {low:g} to {high:g}{unit}"),
        )
        for key_, word, low, high, unit in LIMITS
    )
    return Computed(
        "beyond", "Where hardly any hatch", joined(*tests, between=", "), kind=text(), look=Look(working=True, width=14)
    )


def hatches_badly() -> Computed:
    """In words, what lies outside the best range."""
    tests = [
        (
            filled(
                "AND(COUNT({*})=1,OR({*}<{low},{*}>{high}))", each=key_, low=of("const", low), high=of("const", high)
            ),
            filled(
                '{word}&{low}&" to "&{high}',
                word=quoted(f"{word} "),
                low=said(f"const.{low}"),
                high=said(f"const.{high}"),
            ),
        )
        for key_, word, low, high in BEST
    ]
    tests.append(
        ("{salinity_used}<{const.brine_salinity_low}", '"salt from "&ROUND({const.brine_salinity_low},0)&" g/L"')
    )
    return Computed(
        "not_best",
        "What would be better",
        in_rows_with("cysts", joined(*tests, between=", ")),
        kind=text(),
        look=Look(working=True, width=14),
    )


def used(key_: str, label: str, const: str, unit: str, show: str) -> Computed:
    """What is typed, or else the constant."""
    return Computed(
        f"{key_}_used",
        f"{label} reckoned with",
        in_rows_with("cysts", first_known(here(key_), of("const", const), unit=unit)),
        look=Look(working=True, show=show),
    )


HATCHING = Table(
    "hatching",
    title="Cysts",
    row_name=("cysts",),
    purpose="One row for each kind of cysts that you hatch, and how you hatch it.",
    columns=(
        Typed("cysts", "Cysts", key(), required=True, look=Look("The cysts", 22)),
        Typed(
            "food",
            "Food it becomes",
            link("foods"),
            look=Look("The cysts", 24),
            help="The food of the feeding plan that these nauplii are: its share of each ration is wanted from here.",
        ),
        Typed("stock", "On hand", number(0, 100_000), unit="g", look=Look(LOT.group, 10, "0.0", bought=True)),
        Typed(
            "temperature",
            "Temperature",
            number(*limits("temperature")),
            unit="degC",
            required=True,
            look=Look(SET.group, 12, "0.0"),
            help="Of the hatching water. Best 25 to 28; the cooler, the longer.",
        ),
        Typed("vessel", "Vessel holds", number(0.05, 1000), unit="L", look=SET, help="Water in one hatching vessel."),
        Typed("vessels", "Vessels", count(1, 100), unit="1", look=Look(SET.group, 8, "0")),
        Typed(
            "salinity", "Salt", number(*limits("salinity")), unit="g/L", look=SET, help="5 to 35. Blank: the constant."
        ),
        Typed("ph", "pH", number(*limits("ph")), unit="1", look=SET, help="Best 8 to 8.5; baking soda lifts it."),
        Typed(
            "density",
            "Cysts in a litre",
            number(*limits("density")),
            unit="g/L",
            look=SET,
            help="Up to 5 in small vessels with strong air, 2 in large ones. Blank: the constant.",
        ),
        Computed(
            "hatch_hours",
            "Hatches in",
            only_if("{temperature}>{const.brine_zero}", brine.hatch_time(temperature="{temperature}")),
            look=Look("How long they last", 10, "0.0"),
            help="An estimate; watch your own and type the temperature that gives its hours.",
        ),
        Computed(
            "cysts_day",
            "Cysts a day",
            taken_as(logic("SUMIFS({feeds.cysts_to_set[]},{feeds.cysts_row[]},{line})", "g"), "g/day"),
            look=Look(LASTS.group, 10, "0.00"),
        ),
        Computed(
            "vessels_wanted",
            "Vessels wanted",
            logic("SUMIFS({feeds.vessels_taken[]},{feeds.cysts_row[]},{line})", "1"),
            look=Look(LASTS.group, 9, "0"),
            help="In rotation, so that each hatch is ready when it is fed.",
        ),
        Computed(
            "days_left",
            "Days of stock",
            only_if("{cysts_day}>0", reorder.days_of_stock(stock="{stock}", use="{cysts_day}")),
            look=Look(LASTS.group, 10, "0"),
        ),
        Computed(
            "order_by",
            "Order by",
            only_if(
                "{days_left}<10^4", logic("{settings.plan_date}+INT(ROUND({days_left},6))-{settings.lead_days}", "date")
            ),
            kind=date(),
            look=Look(LASTS.group, 11),
            help="So that it arrives before the stock ends.",
        ),
        Said(look=Look(LASTS.group, 42)),
        Computed("again", "Cysts", logic('{cysts}&""'), kind=text(), look=Look("From the label or counted", 22)),
        Typed(
            "per_gram",
            "Cysts in a gram",
            number(50_000, 500_000),
            unit="1/g",
            look=Look("From the label or counted", 10, "0"),
            help="Blank: the constant.",
        ),
        Typed(
            "hatched",
            "Share that hatches",
            number(0.01, 1),
            unit="1",
            look=Look("From the label or counted", 9, "0%"),
            help="Blank: the constant.",
        ),
        Typed(
            "harvested",
            "Share harvested",
            number(0.01, 1),
            unit="1",
            look=Look("From the label or counted", 10, "0%"),
            help="Blank: the constant.",
        ),
        Typed(
            "oldest",
            "Oldest when fed",
            number(0, 48),
            unit="h",
            look=Look("From the label or counted", 9, "0.0"),
            help=(
                "A later feed within this time is taken from the same hatch, otherwise it gets one of its own. Blank: "
                "the constant."
            ),
        ),
        Typed("cysts_note", "Note", text(), look=Look("From the label or counted", 40)),
        used("per_gram", "Cysts in a gram", "cysts_per_gram", "1/g", "0"),
        used("hatched", "Share that hatches", "hatched_share", "1", "0%"),
        used("harvested", "Share harvested", "harvested_share", "1", "0%"),
        used("oldest", "Oldest age", "nauplius_oldest", "h", "0.0"),
        used("salinity", "Salt", "brine_salinity", "g/L", "0"),
        used("density", "Cysts in a litre", "cyst_density", "g/L", "0.0"),
        Computed(
            "yield_gram",
            "Nauplii for a gram",
            brine.yield_of_cysts(per_gram="{per_gram_used}", hatched="{hatched_used}", harvested="{harvested_used}"),
            look=COUNT,
        ),
        Computed(
            "density_most",
            "Most in a litre here",
            logic("IF({vessel}<{const.vessel_large},{const.cyst_density_most},{const.cyst_density})", "g/L"),
            look=HIDDEN,
        ),
        never_hatches(),
        hatches_badly(),
        Flag(
            "no_hatch",
            "Hardly any will hatch",
            seriousness="act",
            when='{beyond}<>""',
            why="this lies outside what hatches: {beyond}",
            do="Check the cell, then bring the water into that range.",
        ),
        Flag(
            "slow_hatch",
            "Not the best water for a hatch",
            seriousness="watch",
            when='AND({not_best}<>"",{beyond}="")',
            copes=True,
            why="fewer hatch, or later; better is {not_best}",
            do=(
                "Heat or cool the water, add salt without iodine, lift pH with baking soda; "
                "strong light and strong air from below."
            ),
        ),
        Flag(
            "crowded",
            "Too many cysts in a litre",
            seriousness="watch",
            when="{density_used}>{density_most}",
            why="{density_used} where at most {density_most} is usual for a vessel of {vessel}: oxygen runs short",
            do="Use more water or several vessels, and strong air.",
        ),
        Flag(
            "few_vessels",
            "Too few vessels",
            seriousness="watch",
            when="{vessels_wanted}>{vessels}",
            why="{vessels_wanted} are wanted in rotation, {vessels} are there",
            do="Add a vessel, warm the water, feed two feeds from one hatch or take larger vessels.",
        ),
        Flag(
            "none_left",
            "Out of cysts",
            seriousness="watch",
            when="AND({stock}<=0,{cysts_day}>0)",
            why="{cysts_day} are wanted, but none is left",
            do="Order them; until then frozen food, and infusoria or fine dust for fry.",
        ),
        Flag(
            "runs_out",
            "Order cysts now",
            seriousness="watch",
            when="AND({stock}>0,{order_by}<={settings.plan_date})",
            why="the stock lasts {days_left}, an order takes {settings.lead_days}",
            do="Order them today; keep the rest dry, cold and closed.",
        ),
    ),
)

IN_TIME_FOR_THE_HATCH_BEFORE = (
    "AND({above.cysts_row}={cysts_row},COUNT({above.batch_hour})=1,"
    "{hour}>=N({above.batch_hour}),{hour}-N({above.batch_hour})<={oldest_used})"
)

FEEDS = Table(
    "feeds",
    title="Feeds",
    row_name=("feed",),
    purpose="One row for each feed with live nauplii, in the order of the day.",
    columns=(
        Typed("feed", "Feed", key(), required=True, look=Look("The feed", 14)),
        Typed(
            "hour",
            "Hour of the day",
            number(0, 24),
            unit="h",
            required=True,
            look=FEED,
            help="7.5 is half past seven in the morning.",
        ),
        Typed(
            "share",
            "Share of the day's nauplii",
            number(0, 1),
            unit="1",
            required=True,
            look=Look("The feed", 10, "0%"),
            help="The shares of all feeds add up to 100 %.",
        ),
        Typed("cysts", "Cysts", link("hatching"), required=True, look=Look("The feed", 22)),
        Computed(
            "nauplii",
            "Nauplii in this feed",
            taken_as(logic("{share}*{live_summary.nauplii}", "1/day"), "1"),
            look=Look("The feed", 10, "0"),
        ),
        Computed(
            "age",
            "Their age when fed",
            logic("{hour}-{batch_hour}", "h"),
            look=FEED,
            help="Hours since the harvest; 0 where the hatch is ready just then.",
        ),
        Computed(
            "energy_left",
            "Energy left in them",
            brine.energy_left(age="{age}"),
            look=Look("The feed", 10, "0%"),
            help="Unfed nauplii live on their yolk and lose food value by the hour.",
        ),
        Computed(
            "cysts_to_set",
            "Cysts to set",
            only_if("{joins}=0", brine.cysts(nauplii="{batch_nauplii}", yield_="{yield_gram}")),
            look=Look(HATCH.group, 9, "0.00"),
            help="Blank where this feed is taken from the hatch of the one before.",
        ),
        Computed(
            "water",
            "Water",
            brine.litres(cysts="{cysts_to_set}", density="{density_used}"),
            look=Look(HATCH.group, 8, "0.00"),
        ),
        Computed(
            "salt", "Salt", brine.salt(volume="{water}", salinity="{salinity_used}"), look=Look(HATCH.group, 8, "0.0")
        ),
        Computed(
            "start_from",
            "Set it from",
            only_if("{joins}=0", brine.start_hour(feed="{batch_hour}", hours=logic("{hatch_hours}+{slack}", "h"))),
            look=HATCH,
            help="Hour of the day; set then, the last feed from it is as old as is allowed.",
        ),
        Computed(
            "start_hour",
            "to",
            only_if("{joins}=0", brine.start_hour(feed="{batch_hour}", hours="{hatch_hours}")),
            look=HATCH,
            help="Hour of the day at the latest, so that it is ready for the feed.",
        ),
        Computed(
            "days_before",
            "Days before",
            only_if("{joins}=0", brine.days_before(feed="{batch_hour}", hours="{hatch_hours}")),
            look=Look(HATCH.group, 9, "0"),
            help="Of the latest hour; 1 is the day before.",
        ),
        Computed(
            "vessels_taken",
            "Vessels taken",
            only_if("{joins}=0", brine.vessels(hours="{hatch_hours}", volume="{water}", vessel="{vessel}")),
            look=Look(HATCH.group, 8, "0"),
            help="By this hatch on all days on which it stands.",
        ),
        Said(look=Look(HATCH.group, 40)),
        Typed("feed_note", "Note", text(), look=Look("Note", 28)),
        Pulled("hatch_hours", via="cysts"),
        Pulled("oldest_used", via="cysts"),
        Pulled("density_used", via="cysts"),
        Pulled("salinity_used", via="cysts"),
        Pulled("yield_gram", via="cysts"),
        Pulled("vessel", via="cysts"),
        Computed(
            "joins",
            "Taken from the hatch before",
            logic(
                "IF({in_time_for_the_hatch_before},1,0)",
                "1",
                needs=("hour", "cysts_row", "oldest_used"),
                in_time_for_the_hatch_before=IN_TIME_FOR_THE_HATCH_BEFORE,
            ),
            look=COUNT,
        ),
        Computed(
            "batch_hour",
            "Hour of its hatch",
            logic("IF({joins}=1,{above.batch_hour},{hour})", "h"),
            seed="0-1",
            look=Look(working=True, show="0.0"),
        ),
        Computed(
            "batch_run",
            "Hatches so far",
            logic("{above.batch_run}+IF(COUNT({joins})=1,1-{joins},0)", "1", copes=True),
            seed="0",
            look=COUNT,
        ),
        Computed("batch", "Its hatch", logic("{batch_run}", "1", needs=("joins",)), look=COUNT),
        Computed(
            "batch_nauplii",
            "Nauplii of its hatch",
            logic("SUMIFS({feeds.nauplii[]},{feeds.batch[]},{batch})", "1"),
            look=COUNT,
        ),
        Computed(
            "slack",
            "Hours to spare",
            logic("{oldest_used}-_xlfn.MAXIFS({feeds.age[]},{feeds.batch[]},{batch})", "h"),
            look=Look(working=True, show="0.0"),
        ),
        Computed(
            "shares",
            "Shares of all feeds",
            logic('IF({line}=1,SUM({feeds.share[]}),"")', "1", needs=("feed",)),
            look=Look(working=True, show="0%"),
        ),
        Computed(
            "job",
            "For the week",
            logic('"Set a hatch: "&ROUND({cysts_to_set},2)&" g cysts, "&ROUND({salt},1)&" g salt, for "&{feed}'),
            kind=text(),
            look=Look(working=True, width=20),
        ),
        Computed(
            "job_at",
            "at",
            logic('"from "&ROUND({start_from},1)&" to "&ROUND({start_hour},1)&" h"'),
            kind=text(),
            look=Look(working=True, width=9),
        ),
        Computed(
            "order",
            "Order in the week",
            logic("2/10+{line}/10^6", "1", needs=("job",)),
            look=Look(working=True, width=11, show="0.000000"),
        ),
        Flag(
            "shares_off",
            "Shares of the feeds do not add up",
            seriousness="watch",
            when="ABS({shares}-1)>{const.share_tolerance}",
            why="the shares of all feeds add up to {shares}",
            do="Set them so that they add up to 100 %.",
        ),
        Flag(
            "out_of_order",
            "Feeds not in the order of the day",
            seriousness="note",
            when="AND({above.cysts_row}={cysts_row},{hour}<N({above.hour}))",
            why="it stands below a later feed from the same cysts",
            do="Bring the rows into the order of the day, so that two feeds can share a hatch.",
        ),
    ),
)

WANTS = Table(
    "live_wants",
    title="Typed wants",
    row_name=("tank", "live_note"),
    purpose="Only for tanks whose nauplii you count yourself; they replace the plan.",
    columns=(
        Typed("tank", "Tank", link("tanks"), required=True, look=Look("Counted yourself", 20)),
        Typed(
            "nauplii",
            "Nauplii a day",
            number(0, 100_000_000),
            unit="1/day",
            required=True,
            look=Look("Counted yourself", 10, "0"),
        ),
        Typed("live_note", "Note", text(), look=Look("Counted yourself", 26)),
        Said(look=Look("Counted yourself", 34)),
        Computed(
            "together",
            "Rows of this tank",
            logic("SUMIFS({live_wants.one[]},{live_wants.tank_row[]},{tank_row})", "1"),
            look=COUNT,
        ),
        Flag(
            "same_tank",
            "Tank in two rows",
            seriousness="watch",
            when="{together}>1",
            why="rows of this tank: {together}; they are added up",
            do="Keep one row for each tank.",
        ),
    ),
)

BY_TANK = Table(
    "live_tanks",
    title="Nauplii by tank",
    rows_of="tanks",
    row_name=("tank",),
    purpose="By the feeding plan, or as counted; fry from Breeding.",
    columns=(
        Pulled("tank", via="tanks", look=Look("Nauplii a day", 20)),
        Computed(
            "by_plan",
            "By the feeding plan",
            brine.nauplii_by_mass(dry="{dry}"),
            look=TANK,
            help="Its share of the ration, by dry mass.",
        ),
        Computed(
            "wanted", "Reckoned with", logic("IF({typed_rows}>0,{typed},{by_plan})", "1/day", copes=True), look=TANK
        ),
        Computed(
            "fry",
            "Fry today",
            logic("SUMIFS({breeding.nauplii_now[]},{breeding.fry_row[]},{line})", "1/day"),
            look=TANK,
        ),
        Computed(
            "each_feed",
            "At each feed",
            only_if(
                "{live_summary.feeds}>0",
                taken_as(
                    logic("(N({wanted})+{fry})/{live_summary.feeds}", "1/day", needs=("fry", "live_summary.feeds")), "1"
                ),
            ),
            look=TANK,
            help="Of equal feeds.",
        ),
        Said(look=Look("Nauplii a day", 40)),
        Computed(
            "dry",
            "Dry food from nauplii",
            sum_of_rows("{feeding.hatched_row[]}", "{feeding.dry[]}", "g/day"),
            look=Look(working=True, show="0.0000"),
        ),
        Computed("typed_rows", "Typed rows", logic(counted("{live_wants.tank_row[]}"), "1"), look=COUNT),
        Computed(
            "typed",
            "Typed",
            logic("SUMIFS({live_wants.nauplii[]},{live_wants.tank_row[]},{line})", "1/day"),
            look=COUNT,
        ),
        Flag(
            "no_feed",
            "Nauplii wanted, no feed planned",
            seriousness="watch",
            when="AND(N({wanted})+N({fry})>0,{live_summary.feeds}=0)",
            copes=True,
            why="its animals want nauplii, but no feed stands in the list of feeds",
            do="Type at least two feeds a day with their hour.",
        ),
    ),
)

SUMMARY = Table(
    "live_summary",
    title="Each day",
    form=True,
    row_name=("nauplii",),
    purpose="",
    columns=(
        Computed("tanks", "Nauplii for tanks", logic("SUM({live_tanks.wanted[]})", "1/day"), look=Look(show="0")),
        Computed(
            "fry",
            "and for fry today",
            logic("SUM({breeding.nauplii_now[]})", "1/day"),
            look=Look(show="0"),
            help="From Breeding: the count, or what is reckoned to swim.",
        ),
        Computed("nauplii", "in all", logic("{tanks}+{fry}", "1/day"), look=Look(show="0")),
        Computed("feeds", "Feeds", logic("COUNTA({feeds.feed[]})", "1"), look=Look(show="0")),
        Computed(
            "hatches",
            "Hatches a day",
            logic("MAX({feeds.batch[]})", "1"),
            look=Look(show="0"),
            help="A feed within the typed age of the one before is taken from the same hatch.",
        ),
        Computed("cysts", "Cysts", logic("SUM({hatching.cysts_day[]})", "g/day"), look=Look(show="0.00")),
        Computed(
            "vessels",
            "Vessels in rotation",
            logic("SUM({hatching.vessels_wanted[]})", "1"),
            look=Look(show="0"),
            help="So that nauplii are fresh at each feed.",
        ),
    ),
)

AHEAD = Table(
    "nauplii_days",
    title="The next weeks",
    lines=29,
    row_name=("ahead",),
    purpose="",
    columns=(
        Computed("ahead", "Days ahead", logic("{line}-1", "1", copes=True), look=COUNT),
        Computed(
            "day", "Day", logic("{settings.plan_date}+{ahead}", "date"), kind=date(), look=Look(working=True, width=11)
        ),
        Computed(
            "fry",
            "Nauplii for fry",
            logic(
                'SUMIFS({breeding.nauplii_day[]},{breeding.nauplii_from[]},"<="&{day},'
                '{breeding.nauplii_until[]},">"&{day})',
                "1/day",
            ),
            look=COUNT,
        ),
        Computed("total", "Nauplii in all", logic("{fry}+{live_summary.tanks}", "1/day"), look=COUNT),
    ),
)

CHARTS = Charts(
    "nauplii_charts",
    (
        Chart(
            "Nauplii over the next four weeks",
            axis="nauplii a day",
            over_time=True,
            days="number",
            days_axis="days from the plan date",
            width=560,
            height=330,
            low=0,
            describes=(
                "Lines: nauplii wanted on each of the next 28 days, by the fry alone and by tanks and fry together."
            ),
            series=(
                Series("Fry", "nauplii_days.ahead", "nauplii_days.fry", "range"),
                Series("Tanks and fry", "nauplii_days.ahead", "nauplii_days.total", "value"),
            ),
        ),
    ),
    columns=9,
)

SHEET = Sheet(
    "Live food",
    role="input",
    blocks=(HATCHING, CHARTS, FEEDS, WANTS, BY_TANK, AHEAD),
    forms=(SUMMARY,),
    frozen_columns=0,
    new_page_before=("hatching.again", "feeds", "live_wants"),
    purpose=(
        "How many nauplii tanks and fry want each day, which hatch gives them fresh to each feed, "
        "and how long the cysts last."
    ),
    notes=(
        (
            "Newly hatched nauplii are the best: feed them at once. "
            "Let shells settle, draw the nauplii off through a fine sieve and rinse the salt away with fresh water."
        ),
        (
            "Ranges by FAO Fisheries Technical Paper 361; hours by temperature are an estimate from memory. "
            "Keep air pump and heater to the rules of electricity near water: "
            "residual-current protection, drip loops, a check valve."
        ),
    ),
)
