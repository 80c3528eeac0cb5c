"""Room: one line a tank, what is wrong, how full, its readings, what is due, and what to do about the worst."""

from dataclasses import replace

from workbook.sheets.next_change import NEXT_CHANGE, day_in_words
from workbook.sheets.room_today import FIGURES, SIX
from workbook.sheets.tank_flags_open import OPEN, first_clause
from workbook.tables import Computed, Look, Pulled, Sheet, Table, logic, row, text
from workbook.tables.columns import Column
from workbook.tables.formula import filled
from workbook.tables.idioms import cell_of
from workbook.tables.sheet import Band
from workbook.tables.template import here, quoted

COUNT, WORDS, DAY = Look(working=True, show="0"), Look(working=True, width=18), Look(working=True, width=11)
# Nine point type, so that a line of it fits on a small screen and on one page.
NUMBER, SAID = "room number", "room text"
# A tank's name leads to the cell in which the page of one tank is chosen: no link can choose it.
LINKED, PICKED = "Tank, to its page", "'Tank'!B"
TANK, LIMIT, WARMTH, NITRATE, CHANGE, CARE, WORST = (
    Look(LINKED, 5.5, style="room sign", status=True),
    Look("Nearest limit", 6.5, style="room bar"),
    Look("Degrees", 5, "0.0", style=NUMBER),
    Look("Nitrate, last readings", 5, style=SAID),
    Look("Next water change", 6.5, style=SAID),
    Look("Care", 18, style=SAID),
    Look("Worst flag, and what to do", 25.5, style=SAID),
)
# Letters of a bar, the limit at its end; beyond it the last one says so.
LETTERS, FULL, FREE, BEYOND = 7, "█", "░", "»"
READINGS = 5
ALL_READINGS = tuple(here(f"nitrate_{n}") for n in range(1, READINGS + 1))
TASKS_HERE = "{maintenance.tank_row[]},{line},{maintenance.changes_water[]},0"

SIGN_AND_NAME: tuple[Column, ...] = (
    Computed(
        "sign",
        "▲◆○",
        logic('{worst_sign}&IF({open_all}>1," +"&({open_all}-1),"")', needs=("worst_sign", "open_all")),
        kind=text(),
        look=TANK,
        help="The sign of the worst open flag, and how many more there are.",
    ),
    Computed(
        "go",
        "Tank",
        logic("HYPERLINK({picker}&({card_choice.@top}+1),{tank})", needs=("tank",), picker=quoted(f"#{PICKED}")),
        kind=text(),
        look=Look(LINKED, 12.5, style="room link"),
        help="No link can pick it there: it leads to the cell in which you do.",
    ),
)

HOW_FULL: tuple[Column, ...] = (
    Computed(
        "bar",
        "how far",
        logic(
            "IF({over},REPT({full},{letters}-1)&{beyond},REPT({full},{filled})&REPT({free},{letters}-{filled}))",
            over="ROUND({binding_share},2)>1",
            filled=filled("MIN({letters},ROUND(ROUND({letters}*{binding_share},6),0))", letters=str(LETTERS)),
            letters=str(LETTERS),
            full=quoted(FULL),
            free=quoted(FREE),
            beyond=quoted(BEYOND),
        ),
        kind=text(),
        look=LIMIT,
        help=f"{BEYOND} at its end: over the limit.",
    ),
    Pulled("binding", via="tanks", of="stocking.binding", label="which", look=replace(LIMIT, width=10, style=SAID)),
)

WHOLE_DAYS = "INT(ROUND({days_to_target},6))"
PASSES = (
    '_xlfn.IFS(ROUND({now},0)>{target},"over it",{now}>={target},"today",{days}="","no rise",{whole}<1,"today",'
    '{whole}>=10^2,"100+ days",1=1,{day})'
)
NITRATE_COLUMNS: tuple[Column, ...] = (
    Computed(
        "nitrate_line",
        "last",
        logic('""', copes=True),
        kind=text(),
        look=replace(NITRATE, drawn_from="nitrate_1", drawn_to=f"nitrate_{READINGS}"),
        help="The last five readings, where a program draws in cells.",
    ),
    Computed(
        "nitrate_words",
        "from, to",
        logic(
            'IF({read_count}=1,{newest}&"",'
            'CHOOSE(2+({nitrate}>{oldest})-({nitrate}<{oldest}),"↘ ","→ ","↗ ")&ROUND({oldest},0)&" to "&{newest})',
            needs=("nitrate", "read_count"),
            newest="ROUND({nitrate},0)",
            oldest=filled("CHOOSE({after}-{read_count},{all})", after=str(READINGS + 1), all=ALL_READINGS),
        ),
        kind=text(),
        look=replace(NITRATE, width=8.5),
        help="In mg/L: the oldest of the last five readings, and the newest.",
    ),
    Computed(
        "nitrate_age", "age", logic("{settings.plan_date}-{nitrate_date}", "day"), look=replace(NITRATE, show="0")
    ),
    Computed(
        "passes",
        "passes target",
        logic(
            PASSES,
            needs=("nitrate_now", "settings.nitrate_target", "settings.plan_date"),
            now="{nitrate_now}",
            target="{settings.nitrate_target}",
            days="{days_to_target}",
            whole=WHOLE_DAYS,
            day=day_in_words("{settings.plan_date}+" + WHOLE_DAYS),
        ),
        kind=text(),
        look=replace(NITRATE, width=8),
        help="The day on which nitrate passes the target, reckoned from the newest reading, if no water is changed.",
    ),
)

CHANGE_COLUMNS: tuple[Column, ...] = (
    Computed(
        "change_on",
        "when",
        logic(
            '_xlfn.IFS({days_late}>0,{days_late}&" late",{days_late}=0,"today",1=1,{day})',
            needs=("days_late", "next_change"),
            day=day_in_words("{next_change}"),
        ),
        kind=text(),
        look=CHANGE,
    ),
    Pulled("recipe", via="tanks", of="next_change.recipe", label="what", look=replace(CHANGE, width=22.5)),
)

CARE_COLUMNS: tuple[Column, ...] = (
    Computed(
        "task_next",
        "Next task",
        logic(
            '_xlfn.IFS({tasks_late}>0,{tasks_late}&" late",{task_due}<={settings.plan_date},"today",1=1,{day})'
            '&": "&{task}',
            needs=("task_row", "task_due", "tasks_late", "settings.plan_date"),
            day=day_in_words("{task_due}"),
        ),
        kind=text(),
        look=CARE,
        help="The first of Maintenance, water changes apart; how many are late.",
    ),
    Computed(
        "grams_meal",
        "A meal",
        logic("{grams_day}/{meals}", "g"),
        look=Look("Care", 5.5, "0.00", style=NUMBER),
        help="Food at the next meal, as fed.",
    ),
)

WORST_COLUMNS: tuple[Column, ...] = (
    Computed(
        "worst",
        "The rest stands on Attention",
        logic('{worst_about}&{worst_what}&": "&{do}', needs=("worst_what", "worst_do"), do=first_clause("{worst_do}")),
        kind=text(),
        look=WORST,
    ),
)


def reading(number: int) -> tuple[Column, ...]:
    """One of the last nitrate readings, the newest with the highest number; each tells which one was before it."""
    where: Column = Pulled("reading_5", via="tanks", of="readings.nitrate_row", label="Row of the newest")
    if number < READINGS:
        before = cell_of("{log.before_row[]}", here(f"reading_{number + 1}"), "1")
        where = Computed(f"reading_{number}", "Row of the one before", before, look=COUNT)
    value = cell_of("{log.nitrate[]}", here(f"reading_{number}"), "mg/L")
    return where, Computed(f"nitrate_{number}", f"Reading {number}", value, look=COUNT)


PAIRS = tuple(reading(n) for n in range(1, READINGS + 1))
# Those that are drawn stand side by side.
STEPS: tuple[Column, ...] = (
    *(where for where, _ in reversed(PAIRS)),
    *(value for _, value in PAIRS),
    Computed(
        "read_count", "How many of them", logic("COUNT({all})", "1", needs=("tank",), all=ALL_READINGS), look=COUNT
    ),
)

ROOM = Table(
    "room",
    title="The room",
    rows_of="tanks",
    row_name=("tank",),
    purpose="",
    row_height=16,
    most_lines=2,
    columns=(
        *SIGN_AND_NAME,
        *HOW_FULL,
        Pulled("read_temperature", via="tanks", of="readings.temperature", label="was", look=WARMTH),
        Pulled("temperature", via="tanks", label="set", look=WARMTH),
        *NITRATE_COLUMNS,
        *CHANGE_COLUMNS,
        *CARE_COLUMNS,
        *WORST_COLUMNS,
        Pulled("tank", via="tanks"),
        *(
            Pulled(of.partition(".")[2], via="tanks", of=of)
            for of in (
                "open_flags.open_all",
                "open_flags.worst_sign",
                "open_flags.worst_about",
                "open_flags.worst_what",
                "open_flags.worst_do",
                "stocking.binding_share",
                "readings.nitrate",
                "readings.nitrate_date",
                "changes.nitrate_now",
                "changes.days_to_target",
                "next_change.next_change",
                "next_change.days_late",
                "feeding_tanks.grams_day",
            )
        ),
        Pulled("meals", via="tanks"),
        Computed(
            "task_place",
            "Place of the next task",
            logic(
                "IF(SUMIFS({maintenance.one[]},{here},{maintenance.in_tank[]},{known})=0,{none},"
                "_xlfn.MINIFS({maintenance.in_tank[]},{here}))",
                "1",
                needs=("tank",),
                here=TASKS_HERE,
                known=quoted(">0"),
                none='""',
            ),
            look=COUNT,
        ),
        Computed(
            "task_row",
            "Its row",
            logic("{task_place}-INT({task_place}/10^5)*10^5", "1"),
            kind=row("maintenance"),
            look=COUNT,
        ),
        Pulled("task", via="task_row"),
        Pulled("task_due", via="task_row", of="next_due"),
        Computed(
            "tasks_late",
            "Tasks late",
            logic(
                "SUMIFS({maintenance.one[]},{here},{maintenance.days_late[]},{late})",
                "1",
                needs=("tank",),
                here=TASKS_HERE,
                late=quoted(">0"),
            ),
            look=COUNT,
        ),
        *STEPS,
    ),
)

SHEET = Sheet(
    "Room",
    above=(Band(((FIGURES,), (SIX,)), (1, 9)),),
    blocks=(ROOM, OPEN, NEXT_CHANGE),
    frozen_columns=2,
    opens_when="tanks",
    all_printed=True,
    purpose=(
        "Every tank in one line; its name leads to Tank, where you pick it. "
        "First to do: what asks for action, water, tasks in turn, the latest first."
    ),
)
