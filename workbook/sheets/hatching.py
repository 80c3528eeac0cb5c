"""Hatching: kinds of cysts, how they are hatched, and how long they last."""

from workbook.equations import brine, reorder
from workbook.tables import Computed, Flag, Look, Said, Table, Typed, count, date, key, link, logic, number, text
from workbook.tables.formula import filled
from workbook.tables.idioms import first_known, in_rows_with, joined, only_if, taken_as
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
                "AND(COUNT({*},{low},{high})=3,OR({*}<{low},{*}>{high}))",
                each=key_,
                low=of("const", low),
                high=of("const", high),
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
        (
            "AND(COUNT({const.brine_salinity_low})=1,{salinity_used}<{const.brine_salinity_low})",
            '"salt from "&ROUND({const.brine_salinity_low},0)&" g/L"',
        )
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
    enough=("cysts", "stock", "temperature", "vessel", "vessels"),
    often=("cysts", "food", "stock", "temperature", "vessel", "vessels", "oldest", "cysts_note"),
    first="days_left",
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
