"""Takings: what the ledger comes to day by day, and of which species most are lost."""

from workbook.equations import trade
from workbook.sheets.week_days import DAY_NAME, NAMES
from workbook.tables import Computed, Look, Pulled, Sheet, Table, logic, text
from workbook.tables.idioms import cell_of, only_if
from workbook.tables.kinds import date
from workbook.tables.template import column

DAYS, WORST = 4 * 7, 20
DAY, MONEY, PIECES = Look("Day by day", 15), Look("Day by day", 11, "0.00"), Look("Day by day", 8, "0")
KIND, COUNT = Look("Most lost, of each species", 9, "0"), Look(working=True, show="0")


def of_day(key: str, label: str, of: str, unit: str, help: str = "") -> Computed:  # noqa: A002
    """The sum of a column of the ledger over one day."""
    total = logic("SUMIFS({values},{ledger.counts_on[]},{day})", unit, needs=("day",), values=column("ledger", of))
    return Computed(key, label, total, help=help, look=MONEY if unit == "currency" else PIECES)


TAKINGS = Table(
    "takings",
    title="Takings",
    lines=DAYS,
    row_name=("day",),
    purpose="The last four weeks, today first.",
    columns=(
        Computed("day", "Day", logic("{settings.plan_date}-{line}+1", "date"), kind=date(), look=DAY),
        Computed(
            "weekday",
            "Weekday",
            logic(DAY_NAME, needs=("day",), date="{day}", names=NAMES),
            kind=text(),
            look=Look("Day by day", 8),
        ),
        of_day("pieces", "Sold", "went", "1", "Less what came back."),
        of_day("taken", "Takings", "taken", "currency", "What has no price counts for nothing."),
        of_day("goods", "They cost", "went_cost", "currency", "What was sold, at its mean cost."),
        Computed(
            "left_over", "Left", logic("{taken}-{goods}", "currency"), look=MONEY, help="Takings less their cost."
        ),
        of_day("died", "Lost", "died", "1", "Dead on arrival too."),
        of_day("died_cost", "which cost", "died_cost", "currency"),
        of_day("delivered", "Delivered for", "paid", "currency"),
    ),
)


def of_species(key: str, label: str, of: str) -> Computed:
    """The sum over the lines of stock of a species."""
    made = logic("SUMIFS({values},{stock.species_row[]},{line})", "1", needs=("species",), values=column("stock", of))
    return Computed(key, label, made, look=COUNT)


BY_SPECIES = Table(
    "species_sales",
    title="Every species",
    rows_of="species",
    row_name=("species",),
    purpose="What the list of losses is made of.",
    columns=(
        Pulled("species", via="species", label="Species", look=Look(working=True, width=22)),
        of_species("sold", "Sold lately", "sold_lately"),
        of_species("lost", "Lost lately", "lost_lately"),
        of_species("here", "On hand now", "here"),
        Computed(
            "loss_share",
            "Share lost",
            only_if("{lost}>0", trade.loss_share(lost="{lost}", sold="{sold}", on_hand="{here}")),
            look=Look(working=True, show="0.0%"),
        ),
        Computed(
            "rank_key",
            "Share and line",
            logic("{loss_share}-{line}/10^9", "1"),
            look=Look(working=True, width=12, show="0.000000000"),
            help="No two are the same: of equal shares the first stands first.",
        ),
    ),
)


def of_worst(key: str, label: str, look: Look, unit: str = "") -> Computed:
    """What is known of the species of the row."""
    made = cell_of(column("species_sales", key), "{row}", unit)
    return Computed(key, label, made, look=look) if unit else Computed(key, label, made, kind=text(), look=look)


LOSSES = Table(
    "losses",
    title="Losses by species",
    lines=WORST,
    row_name=("species",),
    purpose="The last 30 days (a constant); the largest share first.",
    columns=(
        Computed(
            "species",
            "Species",
            cell_of("{species.species[]}", "{row}"),
            kind=text(),
            look=Look(KIND.group, 24),
        ),
        of_worst("lost", "Lost", KIND, "1"),
        of_worst("sold", "Sold", KIND, "1"),
        of_worst("here", "On hand", KIND, "1"),
        of_worst("loss_share", "Share lost", Look(KIND.group, 9, "0.0%"), "1"),
        Computed(
            "row",
            "Row of Species",
            logic(
                'IF({line}>COUNT({keys}),"",MATCH(LARGE({keys},{line}),{keys},0))',
                "1",
                copes=True,
                keys="{species_sales.rank_key[]}",
            ),
            look=COUNT,
        ),
    ),
)

SUMMARY = Table(
    "takings_summary",
    title="In short",
    form=True,
    row_name=("week",),
    purpose="",
    columns=(
        Computed(
            "week",
            "Seven days",
            logic('SUMIFS({takings.taken[]},{takings.line[]},"<=7")', "currency"),
            look=Look(show="0.00"),
        ),
        Computed("month", "Four weeks", logic("SUM({takings.taken[]})", "currency"), look=Look(show="0.00")),
        Computed(
            "lost_cost",
            "Lost, at cost",
            logic("SUM({takings.died_cost[]})", "currency"),
            look=Look(show="0.00"),
            help="In the four weeks, dead on arrival too.",
        ),
        Computed(
            "claim",
            "Credit to claim",
            logic("SUM({suppliers.claim[]})", "currency"),
            look=Look(show="0.00"),
            help="For what was dead on arrival: supplier by supplier on Suppliers.",
        ),
    ),
)

SHEET = Sheet(
    "Takings",
    blocks=(TAKINGS, LOSSES, BY_SPECIES),
    forms=(SUMMARY,),
    new_page_before=("losses",),
    frozen_columns=0,
    purpose="What Sales and losses comes to: takings, what they cost and what was lost, by day; losses by species.",
)
