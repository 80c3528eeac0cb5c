"""The week ahead: what is due on each day, to print, pin up and tick off."""

from dataclasses import dataclass

from workbook.sheets.log import CHANGE_WATER
from workbook.sheets.week_days import DAY_NAME, NAMES
from workbook.tables import Computed, Look, Pulled, Sheet, Table, logic, text
from workbook.tables.formula import Formula, filled
from workbook.tables.idioms import cell
from workbook.tables.template import above, column, for_each, here, of, quoted

DAYS = 7


def day(n: int) -> Computed:
    """One day: a box to tick where the task falls on it. The day's name stands in the header."""
    return Computed(
        f"day_{n + 1}",
        "Today" if n == 0 else "",
        logic('IF(AND({n}>={first_day},MOD({n}-{first_day},{every_days})<1),"☐","")', n=str(n)),
        kind=text(),
        look=Look("Tick when done", 6),
        seed=filled(DAY_NAME, date=f"({of('settings', 'plan_date')}+{n})", names=NAMES),
    )


@dataclass(frozen=True)
class Source:
    """A table whose rows are tasks with an order in the week, and where each part of one stands: a column, or words."""

    table: str
    task: str = "{task}"
    tank: str = "{tank}"
    minutes: str = "{minutes}"
    supplies: str = "{supplies}"
    first_day: str = "{first_day}"
    every_days: str = "{every_days}"
    days_late: str = "{days_late}"

    def part(self, name: str) -> str:
        """Formula text: one part of the task in the row that was found; blank where it is not known."""
        where: str = getattr(self, name)
        if not where.startswith("{"):
            return where
        there = where if "." in where else cell(column(self.table, where[1:-1]), "{row}")
        return filled('IF({there}="","",{there})', there=there)

    @property
    def order(self) -> str:
        """The column of its order in the week."""
        return column(self.table, "order")


# Another table joins the week by a line here and a column of its order: the day, then a tenth for each table before it,
# then its row.
SOURCES = (
    Source("maintenance", minutes="{minutes_used}", supplies="{supplies_used}", every_days="{every}"),
    Source("breeding_jobs", minutes="{const.rearing_minutes}", supplies='""'),
    Source(
        "feeds",
        task="{job}",
        tank='"all"',
        minutes="{const.rearing_minutes}",
        supplies="{job_at}",
        first_day="0",
        every_days="1",
        days_late="0",
    ),
    Source(
        "next_change",
        task=quoted(CHANGE_WATER),
        minutes="{usual_minutes}",
        supplies="{usual_supplies}",
        every_days="{change_interval}",
        days_late="{late}",
    ),
)
NUMBERED = tuple(enumerate(SOURCES, 1))
# Where people type that a task of each source is done: the sheet, and the row; hatches are not written down.
TYPED_AT = (
    ("Maintenance", "{row}+{maintenance.@top}"),
    ("Breeding", cell("{breeding_jobs.event_row[]}", "{row}") + "+{breeding.@top}"),
    ("Live food", '""'),
    ("Log", "ROWS({log.date[]})-COUNTBLANK({log.date[]})+1+{log.@top}"),
)


def taken(n: int, source: Source) -> tuple[Computed, Computed]:
    """How many lines down to this one are a source's, and the order of the next that it has to give."""
    so_far = above(f"taken_{n}")
    return (
        Computed(
            f"taken_{n}",
            f"Lines of source {n}",
            logic("{so_far}+IF(SUM({source})={n},1,0)", "1", copes=True, so_far=so_far, n=str(n)),
            seed="0",
            look=Look(working=True, show="0"),
        ),
        Computed(
            f"next_{n}",
            f"Next of source {n}",
            logic(
                'IF({so_far}>=COUNT({order}),"",SMALL({order},{so_far}+1))',
                "1",
                copes=True,
                so_far=so_far,
                order=source.order,
            ),
            look=Look(working=True, width=11, show="0.000000"),
        ),
    )


def of_source(name: str, unit: str = "") -> Formula:
    """One part of the task, of whichever table it comes from."""
    parts = [source.part(name) for source in SOURCES]
    return logic("CHOOSE({source},{parts})", unit, needs=("row",), parts=parts)


NEXT = tuple(here(f"next_{n}") for n, _ in NUMBERED)
# The first source whose next task is the one of this line.
FOUND = logic(
    "_xlfn.IFS({each_source})",
    "1",
    each_source=[
        *(filled("{next_*}={order},{n}", each=str(n), n=str(n)) for n in range(1, len(SOURCES))),
        f"1=1,{len(SOURCES)}",
    ],
).text

WEEK = Table(
    "week",
    title="This week",
    lines=80,
    row_name=("task",),
    purpose="Late tasks stand under today.",
    columns=(
        Computed("task", "Task", of_source("task"), kind=text(), look=Look("Task", 32)),
        Computed("tank", "Tank", of_source("tank"), kind=text(), look=Look("Task", 16)),
        *(day(n) for n in range(DAYS)),
        Computed("minutes", "Minutes", of_source("minutes", "min"), look=Look("Task", 8, "0")),
        Computed("late", "Days late", logic('IF({days_late}>0,{days_late},"")', "day"), look=Look("Task", 7, "0")),
        Computed(
            "supplies",
            "Water of a change, supplies",
            logic(
                '{recipe}&IF(AND({recipe}<>"",{others}<>""),"; ","")&{others}',
                copes=True,
                recipe=filled('IF(SUM({change_of})=0,"",{there})', there=cell("{next_change.recipe[]}", "{change_of}")),
            ),
            kind=text(),
            look=Look("Task", 24),
        ),
        Computed(
            "done_on",
            "Done: type it on",
            logic(
                'IF({type_at}="","",HYPERLINK("#\'"&{sheet}&"\'!A"&{type_at},{sheet}&" "&{type_at}))',
                needs=("row", "type_at"),
                sheet=filled("CHOOSE({source},{sheets})", sheets=[quoted(sheet) for sheet, _ in TYPED_AT]),
            ),
            kind=text(),
            look=Look("Task", 13, link=True),
            help="Where the day is typed: Last done on Maintenance, steps on Breeding, a new row of the Log.",
        ),
        Computed("others", "Supplies", of_source("supplies"), kind=text(), look=Look(working=True, width=18)),
        Computed(
            "type_at",
            "Row in which the day is typed",
            logic("CHOOSE({source},{rows})", "1", needs=("row",), rows=[at for _, at in TYPED_AT]),
            look=Look(working=True, show="0"),
        ),
        Computed(
            "change_of",
            "Row of the tank whose water is changed",
            logic(
                'CHOOSE({source},IF(SUM({is_change})=1,{of_task},""),"","",{row})',
                "1",
                needs=("row",),
                of_task=cell("{maintenance.tank_row[]}", "{row}"),
            ),
            look=Look(working=True, show="0"),
        ),
        *(made for n, source in NUMBERED for made in taken(n, source)),
        Computed(
            "order",
            "Order in the week",
            logic('IF(COUNT({next_of_each})=0,"",MIN({next_of_each}))', "1", copes=True, next_of_each=NEXT),
            look=Look(working=True, width=11, show="0.000000"),
        ),
        Computed("source", "Which source", logic(FOUND, "1", needs=("order",)), look=Look(working=True, show="0")),
        Computed(
            "row",
            "Row there",
            logic(
                "CHOOSE({source},{row_of_each})",
                "1",
                row_of_each=[filled("MATCH({order},{orders},0)", orders=source.order) for source in SOURCES],
            ),
            look=Look(working=True, show="0"),
        ),
        Computed("first_day", "First day", of_source("first_day", "1"), look=Look(working=True, show="0")),
        Computed("every_days", "Every", of_source("every_days", "day"), look=Look(working=True, show="0")),
        Computed("days_late", "Late by", of_source("days_late", "day"), look=Look(working=True, show="0")),
        Computed(
            "is_change",
            "A tank's water change: 1",
            logic(
                "CHOOSE({source},{it},0,0,1)",
                "1",
                needs=("row",),
                it=cell("{maintenance.changes_water[]}", "{row}"),
            ),
            look=Look(working=True, show="0"),
        ),
        Computed(
            "today",
            "Due, by lateness and line",
            logic(
                'IF(AND({first_day}=0,SUM({is_change})=0),{days_late}+1-{line}/10^6,"")',
                "1",
                needs=("first_day", "days_late"),
            ),
            look=Look(working=True, width=11, show="0.000000"),
            help="Tasks of today and late ones, water changes apart: those stand on Room with litres and waters.",
        ),
    ),
)


def of_day(template: str) -> str:
    """Formula text: the same for the column of each day, picked by the line."""
    return filled("CHOOSE({line},{days})", days=for_each((str(n) for n in range(1, DAYS + 1)), template))


BY_DAY = Table(
    "week_days",
    title="Minutes by day",
    lines=DAYS,
    row_name=("name",),
    purpose="How long each day takes.",
    columns=(
        Computed(
            "name",
            "Day",
            logic(DAY_NAME, date="{settings.plan_date}+{line}-1", names=NAMES),
            kind=text(),
            look=Look("Each day", 9),
        ),
        Computed("tasks", "Tasks", logic(of_day('COUNTIF({week.day_*[]},"☐")'), "1"), look=Look("Each day", 7, "0")),
        Computed(
            "minutes",
            "Minutes",
            logic(of_day('SUMIFS({week.minutes[]},{week.day_*[]},"☐")'), "min"),
            look=Look("Each day", 9, "0"),
        ),
    ),
)

BY_TANK = Table(
    "week_tanks",
    title="Tank by tank",
    rows_of="tanks",
    row_name=("tank",),
    purpose="Food and water of each tank; the foods stand on Feeding.",
    columns=(
        Pulled("tank", via="tanks", look=Look("Each tank", 20)),
        Pulled(
            "grams_day",
            via="tanks",
            of="feeding_tanks.grams_day",
            label="Food a day, as fed",
            look=Look("Each tank", 9),
        ),
        Pulled("meals", via="tanks", look=Look("Each tank", 8)),
        Pulled("fasting_days", via="tanks", label="Fasting days", look=Look("Each tank", 8)),
        Computed(
            "litres", "Water at a change", logic("{net_volume}*{change_share}", "L"), look=Look("Each tank", 9, "0.0")
        ),
        Pulled("change_interval", via="tanks", label="every", look=Look("Each tank", 7)),
        Pulled("net_volume", via="tanks"),
        Pulled("change_share", via="tanks"),
    ),
)

SUMMARY = Table(
    "week_summary",
    title="The week at a glance",
    form=True,
    row_name=("due",),
    purpose="",
    columns=(
        Computed(
            "due",
            "Tasks due in seven days",
            logic(for_each((source.table for source in SOURCES), "COUNT({*.order[]})", "+"), "1"),
            look=Look(show="0"),
        ),
        Computed("minutes", "Minutes in all", logic("SUM({week_days.minutes[]})", "min"), look=Look(show="0")),
        Computed(
            "shown",
            "Listed below",
            logic('IF({due}>ROWS({week.line[]}),"◆ only the first "&ROWS({week.line[]})&" tasks","all of them")'),
            kind=text(),
            look=Look(width=22, status=True),
        ),
    ),
)

SHEET = Sheet(
    "This week",
    role="printable",
    blocks=(WEEK, BY_DAY, BY_TANK),
    forms=(SUMMARY,),
    frozen_columns=0,
    purpose=(
        "From the plan date on: what is due on which day. Print it, pin it up, tick it off; "
        "the link beside a task leads to the cell in which its day is typed."
    ),
)
