"""Attention: what asks for something, a line for each cause and place, with cause, remedy and a link to its row.

Behind it the lines are found sheet by sheet (open_lines), those set aside on Known among them; what stands on Attention
is the same in the order in which a keeper goes about it: tank by tank, the one in most trouble first.
"""

from collections.abc import Sequence
from dataclasses import replace

from workbook.sheets.first_steps import KEEPER_STEPS, Step, to_type
from workbook.sheets.matters import EVERYWHERE, MATTERS
from workbook.sheets.open_lines import (
    AREAS,
    COUNT,
    KNOWN_LEVEL,
    LINES,
    LINES_EACH,
    LINES_MOST,
    OPEN_TANKS,
    WORDS,
    flag_tables,
    found_lines,
)
from workbook.tables import Computed, Look, Sheet, Table, logic, number, text
from workbook.tables.completing import ALSO, ARROW, SEPARATOR, complete
from workbook.tables.formula import Formula, filled
from workbook.tables.idioms import after, between, cell, count_so_far, iso_date, joined
from workbook.tables.kinds import Value
from workbook.tables.template import above, column, quoted

PRINTED = 50  # the most serious; the rest is read on the screen
# Within one seriousness, what makes other cells doubtful and what can kill soonest stand first; the tabs have an order
# of their own.
FIRST = (
    *(
        "conflicts",
        "matters",
        "matters_everywhere",
        "tanks",
        "livestock",
        "stock",
        "suppliers",
        "ledger",
        "species",
        "waters",
    ),
    *("proposals", "foods", "feeding", "hatching", "feeds", "live_wants", "breeding", "log", "maintenance"),
    "constants",
)


def still_to_type(steps: Sequence[Step]) -> Formula:
    """The sheets on which nothing stands yet, in the order of the first steps."""
    return joined(*((f"{step.typed}=0", quoted(step.sheet)) for step in to_type(steps)), between=", ")


def of_all(level: int) -> Formula:
    """How many lines of one seriousness there are, even beyond the end of the list, less those that are known."""
    return logic(
        "SUMIFS({flag_areas.raised[]},{flag_areas.level_no[]},{level})"
        "-COUNTIFS({open_lines.open_level[]},{known_level},{open_lines.level_no[]},{level})",
        "1",
        level=str(level),
        known_level=KNOWN_LEVEL,
    )


SUMMARY = Table(
    "attention_summary",
    title="Over the whole room",
    form=True,
    row_name=("act",),
    purpose="",
    columns=(
        Computed(
            "act",
            "▲ Act",
            of_all(1),
            look=Look(show="0"),
            help="Harm is near: today.",
        ),
        Computed(
            "watch",
            "◆ Watch",
            of_all(2),
            look=Look(show="0"),
            help="Not right, but there is time.",
        ),
        Computed(
            "note",
            "○ Note",
            logic("SUM({flag_areas.raised[]})-{act}-{watch}-{known}", "1"),
            look=Look(show="0"),
            help="Good to know.",
        ),
        Computed(
            "known",
            "Known",
            logic("COUNTIF({open_lines.open_level[]},{known_level})", "1", known_level=KNOWN_LEVEL),
            look=Look(show="0"),
            help="Set aside on Known, with a reason and a day.",
        ),
        Computed("steps", "Still to type", still_to_type(KEEPER_STEPS), kind=text(), look=Look(width=60, runs_on=True)),
        Computed(
            "verdict",
            "In short",
            logic(
                'IF({all_flags}=0,IF({steps}="","nothing needs attention",{nothing_typed}),'
                '{act}&" to act on, "&{watch}&" to watch, "&{note}&" to note"&IF({known}>0,", "&{known}&" known",""))'
                '&IF({raised}>{lines},"; only the first "&{lines}&" are listed","")',
                copes=True,
                all_flags="{act}+{watch}+{note}+{known}",
                raised="SUM({flag_areas.raised[]})",
                lines="ROWS({attention.line[]})",
                nothing_typed=quoted("nothing to check yet: see the first steps on Start"),
            ),
            kind=text(),
            look=Look(width=60, runs_on=True),
        ),
    ),
)


# What stands above the list: the counts in words, and on which sheets nothing stands yet.
IN_SHORT = Table(
    "attention_short",
    title="In short",
    form=True,
    row_name=("short",),
    purpose="",
    columns=(
        Computed(
            "short",
            "In short",
            logic(
                '{attention_summary.verdict}&IF({attention_summary.steps}="","","; still to type: "&'
                "{attention_summary.steps})",
                copes=True,
            ),
            kind=text(),
            look=Look(width=60, runs_on=True),
        ),
    ),
)


def of_line(of: str, label: str, unit: str = "", *, key: str = "") -> Computed:
    """The same of the line that stands here."""
    return Computed(
        key or of,
        label,
        logic('IF({found}="","",{there})', unit, copes=True, there=cell(column("open_lines", of), "{found}")),
        kind=number() if unit else text(),
        look=COUNT if unit else WORDS,
    )


# The row's name without the tank's: of "Rack A1: Neon tetra" the animal, of "Trim the plants: Rack A1" the task.
ABOUT = filled(
    'IF(OR({place}="",{place}={tank}),"",SUBSTITUTE(SUBSTITUTE({place},{tank}&{colon},""),{colon}&{tank},"")&{colon})',
    tank=cell("{tanks.tank[]}", "{open_tank}"),
    colon=quoted(": "),
)

# Nine points: two lines of a sentence take little of a screen.
LISTED, SMALL = Look("Most serious first", 20), "small said"
ATTENTION = Table(
    "attention",
    title="Attention",
    lines=LINES,
    lines_each=LINES_EACH,
    lines_most=LINES_MOST,
    lines_of=("tanks", "livestock", "stock"),
    row_name=("where",),
    purpose="",
    on_paper=PRINTED,
    columns=(
        Computed(
            "serious",
            "Sign",
            logic(
                'IF({found}="","",IF({open_level}={known},"· Known",CHOOSE({open_level},"▲ Act","◆ Watch","○ Note")))',
                copes=True,
                known=KNOWN_LEVEL,
            ),
            kind=text(),
            look=Look("Most serious first", 9, status=True),
        ),
        Computed(
            "where",
            "Where",
            logic('HYPERLINK("#\'"&{sheet}&"\'!A"&({row}+{top}),{place})'),
            kind=text(),
            look=Look("Most serious first", 18, link=True),
        ),
        replace(of_line("what", "What"), look=replace(LISTED, width=19, style=SMALL)),
        Computed(
            "why",
            "Why",
            logic(
                'IF({more}=0,{full},LEFT({full},SEARCH({also},{full})-1)&" (and "&{more}&" more)")',
                also=quoted(ALSO),
                needs=("more",),
            ),
            kind=text(),
            look=replace(LISTED, width=52, style=SMALL),
            help="The first cause; all of them stand at the right, and on the tank's page.",
        ),
        Computed(
            "do", "What to do", after("{sentence}", ARROW), kind=text(), look=replace(LISTED, width=54, style=SMALL)
        ),
        Computed(
            "go",
            "Go to",
            logic('HYPERLINK("#\'"&{sheet}&"\'!A"&({row}+{top}),{sheet}&", row "&({row}+{top}))'),
            kind=text(),
            look=Look("Most serious first", 20, link=True),
        ),
        Computed(
            "full",
            "Why, in full",
            logic(
                'IF({open_level}={known},INDEX({known.reason[]},{known_no})&"; until "&{until},{because})',
                until=iso_date(cell("{known.until[]}", "{known_no}")),
                because=between("{sentence}", ": ", ARROW),
                known=KNOWN_LEVEL,
                needs=("found",),
            ),
            kind=text(),
            look=Look(working=True, width=60),
        ),
        Computed(
            "more",
            "Further causes",
            logic(
                '(LEN({full})-LEN(SUBSTITUTE({full},{also},"")))/LEN({also})', "1", also=quoted(ALSO), needs=("full",)
            ),
            look=COUNT,
        ),
        Computed(
            "found",
            "Its line, sheet by sheet",
            logic(
                'IF({line}>COUNT({open_lines.order[]}),"",'
                "MATCH(SMALL({open_lines.order[]},{line}),{open_lines.order[]},0))",
                "1",
                copes=True,
            ),
            look=COUNT,
        ),
        of_line("where", "Place", key="place"),
        Computed(
            "acts_so_far",
            "Acts so far",
            count_so_far("acts_so_far", "SUM({open_level})=1"),
            seed="0",
            look=COUNT,
        ),
        of_line("open_level", "Seriousness", "1"),
        replace(of_line("open_tank", "Row of its tank", "1"), seed="0"),
        of_line("known_no", "Its row on Known", "1"),
        of_line("sheet", "Sheet"),
        of_line("row", "Its row", "1"),
        of_line("top", "Rows above", "1"),
        of_line("sentence", "Sentence"),
        Computed(
            "about",
            "What in the tank it is about",
            logic('IF(SUM({open_tank})=0,"",{about})', copes=True, about=ABOUT),
            kind=text(),
            look=WORDS,
        ),
        Computed(
            "of_tank",
            "Lines of its tank so far",
            logic(
                'IF(SUM({open_tank})=0,"",IF({open_tank}={tank_above},{so_far}&{mark},"")'
                '&LEFT({serious},1)&" "&{about}&{what}&{colon}&{full}&{arrow}&{do})',
                copes=True,
                tank_above=above("open_tank"),
                so_far=above("of_tank"),
                mark=quoted(SEPARATOR),
                colon=quoted(": "),
                arrow=quoted(ARROW),
            ),
            kind=text(),
            look=WORDS,
            help="In full, for the page of one tank.",
        ),
    ),
)


def attention_sheet(
    sheets: tuple[Sheet, ...], steps: Sequence[Step] = KEEPER_STEPS
) -> tuple[Sheet, Sheet, list[dict[str, Value]], list[dict[str, Value]]]:
    """The sheet for all tables that can raise a flag, and the rows of its two registers."""
    flagged = [
        (sheet.title, table)
        for sheet in sheets
        for table in sheet.tables
        if table.listed and any(not flag.gathered for flag in complete(table).flags)
    ]
    of_tanks = next(sheet.title for sheet in sheets if any(table.key == "tanks" for table in sheet.tables))
    flagged = [(of_tanks, MATTERS), ("", EVERYWHERE), *flagged]
    flagged.sort(key=lambda found: FIRST.index(found[1].key) if found[1].key in FIRST else len(FIRST))
    tables = [table for _, table in flagged]
    table_rows: list[dict[str, Value]] = [{"number": i, "sheet": title} for i, (title, _) in enumerate(flagged, 1)]
    area_rows: list[dict[str, Value]] = [
        {"level_no": level, "table_no": n} for level in (1, 2, 3) for n in range(1, len(tables) + 1)
    ]
    summary = replace(
        SUMMARY,
        columns=tuple(
            replace(c, formula=still_to_type(steps)) if isinstance(c, Computed) and c.key == "steps" else c
            for c in SUMMARY.columns
        ),
    )
    sheet = Sheet(
        "Attention",
        blocks=(ATTENTION,),
        forms=(IN_SHORT,),
        frozen_columns=0,
        folds=False,
        purpose="One line for each cause and place: why, and what to do. To let one wait, write it on Known.",
    )
    behind = Sheet(
        "Behind Attention",
        forms=(summary,),
        blocks=(
            MATTERS,
            EVERYWHERE,
            found_lines(tables),
            OPEN_TANKS,
            AREAS,
            flag_tables([t.key for t in tables]),
        ),
        purpose="How the lines of Attention are found and put in order.",
        role="workings",
    )
    return sheet, behind, table_rows, area_rows
