"""Live food: nauplii wanted by tanks and fry, the hatches that give them, fresh for each feed, and the cysts left."""

from workbook.equations import brine
from workbook.sheets.feeds import FEEDS
from workbook.sheets.hatching import COUNT, HATCHING, TANK
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
    date,
    link,
    logic,
    number,
    text,
)
from workbook.tables.idioms import counted, only_if, sum_of_rows, taken_as

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
                    logic("(SUM({wanted})+{fry})/{live_summary.feeds}", "1/day", needs=("fry", "live_summary.feeds")),
                    "1",
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
            gathered=True,
            seriousness="watch",
            when="AND(SUM({wanted})+SUM({fry})>0,{live_summary.feeds}=0)",
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
        Computed("feeds", "Feeds", logic("ROWS({feeds.feed[]})-COUNTBLANK({feeds.feed[]})", "1"), look=Look(show="0")),
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
    on_paper=False,
)

SHEET = Sheet(
    "Live food",
    role="input",
    blocks=(HATCHING, CHARTS, FEEDS, WANTS, AHEAD),
    forms=(SUMMARY,),
    frozen_columns=0,
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
            "Ranges: FAO Fisheries Technical Paper 361; hours by temperature: an estimate from memory. "
            "Air pump and heater: residual-current protection, drip loops, a check valve."
        ),
    ),
)

TANKS_SHEET = Sheet(
    "Live food by tank",
    role="detail",
    blocks=(BY_TANK,),
    purpose="How many nauplii each tank takes in a day: by the feeding plan or as wanted, and for its fry.",
)
