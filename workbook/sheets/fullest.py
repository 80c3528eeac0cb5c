"""Fullest: what the charts of Stocking draw, the measures of a chosen tank and the tanks that are fullest."""

from workbook.sheets.company import COUNT, WHO
from workbook.sheets.in_view import tank_shown
from workbook.tables import Chart, Charts, Computed, Look, Series, Table, logic, text
from workbook.tables.idioms import cell, row_of
from workbook.tables.template import column, quoted

MEASURES = (
    ("nitrogen", "Water change"),
    ("oxygen", "Oxygen"),
    ("swim", "Swim room"),
    ("bottom", "Bottom room"),
    ("volume", "Volume"),
)
LABELS = tuple(quoted(label) for _, label in MEASURES)
SHARE = Look(working=True, show="0%")
WITHIN = Computed("under", "Within the limit", logic("MIN(1,{share})", "1"), look=SHARE)
BEYOND = Computed("over", "Over the limit", logic("MAX(0,{share}-1)", "1"), look=SHARE)

CHOICE = Table(
    "stocking_choice",
    title="Tank for the chart",
    purpose="",
    row_name=("tank",),
    form=True,
    chosen=True,
    columns=(
        *tank_shown("Tank to draw", "The first chart follows."),
        Computed(
            "title", "Chart", logic('"Share of each limit: "&{in_view}'), kind=text(), look=Look(width=22, runs_on=True)
        ),
    ),
)
FULLEST = Table(
    "fullest",
    title="Fullest tanks",
    lines=15,
    row_name=("place",),
    purpose="",
    columns=(
        Computed(
            "found",
            "Row",
            logic(
                'IF({line}>COUNT({ranks}),"",MATCH(LARGE({ranks},{line}),{ranks},0))',
                "1",
                copes=True,
                ranks="{stocking.rank[]}",
            ),
            look=COUNT,
        ),
        Computed(
            "place",
            "Tank",
            logic('IF({found}="","",INDEX({stocking.tank[]},{found}))', copes=True),
            kind=text(),
            look=WHO,
        ),
        Computed("share", "Share", logic("INDEX({stocking.binding_share[]},{found})", "1"), look=SHARE),
        WITHIN,
        BEYOND,
    ),
)
CHOSEN = Table(
    "chosen_measures",
    title="Measures of the chosen tank",
    lines=len(MEASURES),
    row_name=("measure",),
    purpose="",
    columns=(
        Computed(
            "chosen_row",
            "Row of the chosen tank",
            row_of("{stocking_choice.in_view}", "{tanks.tank[]}"),
            look=COUNT,
        ),
        Computed("measure", "Measure", logic("CHOOSE({line},{labels})", labels=LABELS), kind=text(), look=WHO),
        Computed(
            "share",
            "Share",
            logic(
                "CHOOSE({line},{share_of_each_measure})",
                "1",
                share_of_each_measure=[cell(column("stocking", f"{key}_share"), "{chosen_row}") for key, _ in MEASURES],
            ),
            look=SHARE,
        ),
        WITHIN,
        BEYOND,
    ),
)


def bars(table: str, names: str) -> tuple[Series, Series]:
    """Each share in two colours: up to the limit, and beyond it."""
    return (
        Series("Within the limit", f"{table}.{names}", f"{table}.under", "range"),
        Series("Over the limit", f"{table}.{names}", f"{table}.over", "limit"),
    )


CHARTS = Charts(
    "stocking_charts",
    (
        Chart(
            "Share of each limit",
            axis="share of the limit, 100 % is full",
            percent=True,
            stacked=True,
            low=0,
            width=540,
            height=420,
            describes="Bars: each stocking measure of the chosen tank as a share of its limit.",
            series=bars("chosen_measures", "measure"),
        ),
        Chart(
            "Fullest tanks",
            axis="share of the limit by the binding measure, 100 % is full",
            percent=True,
            low=0,
            stacked=True,
            width=540,
            height=420,
            describes=(
                "Bars: the binding measure of the fifteen fullest tanks as a share of its limit, fullest first; "
                "what is over the limit in another colour."
            ),
            series=bars("fullest", "place"),
        ),
    ),
    on_paper=False,
)
