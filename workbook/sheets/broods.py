"""The stages of the broods that are going on, as bars along the calendar."""

from workbook.tables import Chart, Computed, Look, Series, Table, date, logic, row, text
from workbook.tables.idioms import cell_of, iso_date, nth_row, reckoned_in
from workbook.tables.template import column

DRAWN = 10  # a chart of more could not be read
DAY, DAYS, COUNT, WORDS = (
    Look(working=True, width=11),
    Look(working=True, show="0.0"),
    Look(working=True, show="0"),
    Look(working=True, width=30),
)
DATES = (
    ("hatch_on", "Hatching"),
    ("swim_on", "Swimming free"),
    ("second_on", "Second food"),
    ("move_on", "Move on"),
    ("sale_on", "To part with"),
)


def stage(key: str, label: str, start: str, end: str) -> Computed:
    """Days from one date to the next; none where the next lies before it."""
    return Computed(key, label, logic("MAX(0,{end}-{start})", "day", start=start, end=end), look=DAYS)


BARS = Table(
    "brood_bars",
    title="What the chart draws",
    lines=1 + DRAWN,
    row_name=("bar",),
    purpose="",
    columns=(
        Computed(
            "title",
            "Title of the chart",
            logic(
                'IF({broods}=0,"No brood is going on: type one, and its stages are drawn here",'
                '"Broods: from spawning or birth until large enough to part with"'
                '&IF({broods}>={lines},", the first "&({lines}-1)&" of "&{broods},""))',
                copes=True,
                broods="MAX({breeding.in_chart[]})",
                lines="ROWS({brood_bars.line[]})",
            ),
            kind=text(),
            look=WORDS,
        ),
        Computed(
            "brood",
            "Row of the brood",
            logic(
                'IF({line}=1,"",{nth_brood})', "1", copes=True, nth_brood=nth_row("({line}-1)", "{breeding.in_chart[]}")
            ),
            kind=row("breeding"),
            look=COUNT,
        ),
        Computed(
            "species",
            "Its species",
            cell_of("{breeding.species[]}", "{brood}"),
            kind=text(),
            look=Look(working=True, width=20),
        ),
        Computed("date", "Its day", reckoned_in("{breeding.date[]}", "{brood}", "date"), kind=date(), look=DAY),
        Computed(
            "bar",
            "Bar",
            logic('IF({line}=1,"Today",IF(SUM({date})>0,{species}&", "&{day},""))', copes=True, day=iso_date("{date}")),
            kind=text(),
            look=WORDS,
        ),
        *(
            Computed(key, label, reckoned_in(column("breeding", key), "{brood}", "date"), kind=date(), look=DAY)
            for key, label in DATES
        ),
        Computed(
            "start",
            "Bar starts",
            logic("IF({line}=1,{settings.plan_date},{date})", "date", copes=True),
            kind=date(),
            look=DAY,
        ),
        Computed(
            "today",
            "Today",
            logic(
                'IF({line}=1,MAX(1,(MAX({brood_bars.sale_on[]})-MIN({brood_bars.start[]}))/10^2),"")', "day", copes=True
            ),
            look=DAYS,
            help="A hundredth of what the chart spans, a day at least.",
        ),
        stage("eggs", "Eggs", "{start}", "{hatch_on}"),
        stage("larvae", "Hatched, not swimming", "{hatch_on}", "{swim_on}"),
        Computed(
            "moved_on",
            "Moved, or else parted with",
            logic("IF(COUNT({move_on})=1,{move_on},{sale_on})", "date", copes=True),
            kind=date(),
            look=DAY,
        ),
        Computed(
            "first_until",
            "First food until",
            logic("IF(COUNT({second_on})=1,{second_on},{moved_on})", "date", copes=True),
            kind=date(),
            look=DAY,
        ),
        stage("first_food", "First food", "{swim_on}", "{first_until}"),
        stage("second_food", "Second food", "{second_on}", "{moved_on}"),
        Computed(
            "growing",
            "In the growing-on tank",
            logic("MAX(0,{sale_on}-MAX({move_on},{first_until}))", "day"),
            look=DAYS,
        ),
    ),
)

STAGES = (
    ("Today", "today", "value"),
    ("eggs", "eggs", "eggs"),
    ("hatched, not swimming", "larvae", "larvae"),
    ("swimming, first food", "first_food", "range"),
    ("second food", "second_food", "shared"),
    ("moved to grow on", "growing", "grown"),
)
CHART = Chart(
    "brood_bars.title",
    axis="date (year-month-day)",
    stacked=True,
    dates=True,
    width=980,
    height=460,
    describes=(
        "Bars along the calendar, one for each brood that is going on: "
        "eggs, hatched but not swimming, first food, second food, moved to grow on; "
        "each ends when the young are large enough to part with. A short bar marks today."
    ),
    series=(
        Series(" ", "brood_bars.bar", "brood_bars.start"),
        *(Series(name, "brood_bars.bar", f"brood_bars.{key}", colour) for name, key, colour in STAGES),
    ),
)
