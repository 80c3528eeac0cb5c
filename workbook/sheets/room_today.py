"""What stands above the room: how it is in three lines, and the first six things to do today."""

from workbook.sheets.tank_flags_open import MARKS, MOST_NAMES, first_clause
from workbook.tables import Computed, Look, Table, logic, text
from workbook.tables.columns import Column
from workbook.tables.formula import filled
from workbook.tables.idioms import cell
from workbook.tables.template import above, column, here, said

COUNT, WORDS = Look(working=True, show="0"), Look(working=True, width=18)
LINES = 6


def number(key_: str, label: str, formula: str, unit: str = "1", show: str = "0") -> Computed:
    """A figure that the lines tell of."""
    return Computed(key_, label, logic(formula, unit, copes=True), look=Look(working=True, show=show))


def last(key_: str) -> str:
    """Formula text: where a running column of the tanks' open flags ends."""
    return filled("INDEX({column},ROWS({column}))", column=column("open_flags", key_))


TANKS_ASK = (
    'IF({tanks}=0,"No tank stands here yet: see the first steps on Start",IF({asking}=0,"No tank asks for action",'
    '{asking}&" of "&{tanks}&IF({tanks}=1," tank asks"," tanks ask")&" for action"))'
)
NAMES_OF_THEM = filled('{names}&IF({asking}>{most},", …","")', names=last("asking_names"), most=str(MOST_NAMES))
CHANGES_DUE = (
    'IF({changes}=0,"No water to change",{changes}&IF({changes}=1," water change, "," water changes, ")&{litres_said}'
    '&IF({changes_late}>0,"; "&{changes_late}&" late",""))'
)
TASKS_DUE = (
    'IF({tasks}=0,"No other task",{tasks}&IF({tasks}=1," other task"," other tasks")'
    '&IF({tasks_late}>0,", "&{tasks_late}&" late","")&IF({minutes}>0,"; about "&{minutes_said},""))'
)

FIGURES = Table(
    "room_figures",
    title="Today",
    lines=4,
    row_name=("said",),
    purpose="",
    columns=(
        Computed(
            "said",
            "",
            logic(
                "CHOOSE({line},{tanks_ask},{names},{changes_due},{tasks_due})",
                copes=True,
                tanks_ask=TANKS_ASK,
                names=NAMES_OF_THEM,
                changes_due=filled(CHANGES_DUE, litres_said=said("litres")),
                tasks_due=filled(TASKS_DUE, minutes_said=said("minutes")),
            ),
            kind=text(),
            look=Look(style="room figure", span=8),
        ),
        number("tanks", "Tanks", "SUM({tanks.stands_now[]})"),
        number("asking", "Tanks to act on", last("asking")),
        number("changes", "Changes due", "COUNT({next_change.due[]})"),
        number("changes_late", "Changes late", 'COUNTIF({next_change.due[]},">1")'),
        number("litres", "Water of those due", 'SUMIFS({next_change.poured[]},{next_change.due[]},">0")', "L"),
        number("tasks", "Tasks due", "COUNT({week.today[]})"),
        number("tasks_late", "Tasks late", 'COUNTIF({week.today[]},">1")'),
        number("minutes", "Minutes of those due", 'SUMIFS({week.minutes[]},{week.today[]},">0")', "min"),
    ),
)


# What the six lines are taken from, one of each in turn: how many there are, and in which row the next one stands.
SOURCES = (
    ("act", "Acts", "{attention_summary.act}", "MATCH({nth},{attention.acts_so_far[]},0)"),
    ("change", "Water changes", "COUNT({orders})", "MATCH(LARGE({orders},{nth}),{orders},0)"),
    ("task", "Tasks", "COUNT({orders})", "MATCH(LARGE({orders},{nth}),{orders},0)"),
)


def days_late(days: str) -> str:
    """Formula text: how late it is, where it is late at all."""
    return filled('IF({days}>0,"; "&{days}&IF({days}=1," day late"," days late"),"")', days=days)


ORDERS = {"change": "{next_change.due[]}", "task": "{week.today[]}"}
SAID = {
    "act": filled(
        '"▲ "&{where}&": "&{what}&". "&{do}',
        where=cell("{attention.place[]}", "{row}"),
        what=cell("{attention.what[]}", "{row}"),
        do=first_clause(cell("{attention.do[]}", "{row}"), MARKS[:2]),
    ),
    "change": filled(
        '{tank}&": change water, "&{recipe}&{late}',
        tank=cell("{next_change.tank[]}", "{row}"),
        recipe=cell("{next_change.recipe[]}", "{row}"),
        late=days_late(cell("{next_change.days_late[]}", "{row}")),
    ),
    "task": filled(
        'IF({tank}="all","",{tank}&": ")&{task}&{late}',
        tank=cell("{week.tank[]}", "{row}"),
        task=cell("{week.task[]}", "{row}"),
        late=days_late(cell("{week.days_late[]}", "{row}")),
    ),
}


def source(number_: int, key_: str, label: str, how_many: str) -> tuple[Column, ...]:
    """How many lines so far are a source's, and its turn: how many were taken, then a digit for the source."""
    orders = {"orders": ORDERS[key_]} if key_ in ORDERS else {}
    return (
        Computed(
            f"{key_}s_taken",
            f"{label} so far",
            logic(
                "{so_far}+IF(SUM({source})={number},1,0)",
                "1",
                copes=True,
                so_far=above(f"{key_}s_taken"),
                number=str(number_),
            ),
            seed="0",
            look=COUNT,
        ),
        Computed(
            f"{key_}s_turn",
            f"{label}: next turn",
            logic(
                'IF({so_far}>={how_many},"",{so_far}*10+{number})',
                "1",
                copes=True,
                so_far=above(f"{key_}s_taken"),
                how_many=filled(how_many, **orders),
                number=str(number_),
            ),
            look=COUNT,
        ),
    )


KEYS = tuple(key_ for key_, *_ in SOURCES)
TURNS = tuple(here(f"{key_}s_turn") for key_ in KEYS)
ROW_OF_EACH = tuple(
    filled(row, nth=above(f"{key_}s_taken") + "+1", **({"orders": ORDERS[key_]} if key_ in ORDERS else {}))
    for key_, _, _, row in SOURCES
)

SIX = Table(
    "room_today",
    title="First to do today",
    lines=LINES,
    row_name=("said",),
    purpose="",
    columns=(
        Computed(
            "said",
            "",
            logic("CHOOSE({source},{said_of_each})", needs=("row",), said_of_each=tuple(SAID[key_] for key_ in KEYS)),
            kind=text(),
            look=Look(style="room due", span=7),
        ),
        *(made for n, (key_, label, how_many, _) in enumerate(SOURCES, 1) for made in source(n, key_, label, how_many)),
        Computed(
            "turn",
            "Turn",
            logic('IF(COUNT({turns})=0,"",MIN({turns}))', "1", copes=True, turns=TURNS),
            look=COUNT,
        ),
        Computed("source", "Which source", logic("MOD({turn},10)", "1"), look=COUNT),
        Computed(
            "row",
            "Row there",
            logic("CHOOSE({source},{row_of_each})", "1", needs=("source",), row_of_each=ROW_OF_EACH),
            look=COUNT,
        ),
    ),
)
