"""Attention: every flag of every sheet, most serious first, each with cause, remedy and a link to its row."""

from collections.abc import Sequence
from dataclasses import replace

from workbook.sheets.first_steps import KEEPER_STEPS, Step, to_type
from workbook.tables import Computed, Look, Sheet, Table, Typed, count, logic, text
from workbook.tables.columns import SERIOUSNESS
from workbook.tables.completing import ARROW, SEPARATOR, complete
from workbook.tables.formula import Formula, filled
from workbook.tables.idioms import after, before, between, cell, joined, picked, piece, pieces
from workbook.tables.kinds import Value
from workbook.tables.template import column, quoted, starred

# Each line is searched for in the running counts of a whole table: without an end, the time would grow with the square
# of the room. Who has more than a thousand flags begins at the top; the summary says that there are more.
LINES, LINES_EACH, LINES_MOST = 300, 2, 1000
PRINTED = 50  # the most serious; the rest is read on the screen
# Within one seriousness, what makes other cells doubtful and what can kill soonest stand first; the rest as the sheets
# follow one another.
FIRST = ("conflicts", "readings", "stocking", "changes", "tanks", "livestock", "overlap")
COUNT, WORDS = Look(working=True, show="0"), Look(working=True, width=14)


def still_to_type(steps: Sequence[Step]) -> Formula:
    """The sheets on which nothing stands yet, in the order of the first steps."""
    return joined(*((f"{step.typed}=0", quoted(step.sheet)) for step in to_type(steps)), between=", ")


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
            logic("SUMIFS({flag_areas.raised[]},{flag_areas.level_no[]},1)", "1"),
            look=Look(show="0"),
            help="Harm is near: today.",
        ),
        Computed(
            "watch",
            "◆ Watch",
            logic("SUMIFS({flag_areas.raised[]},{flag_areas.level_no[]},2)", "1"),
            look=Look(show="0"),
            help="Not right, but there is time.",
        ),
        Computed(
            "note",
            "○ Note",
            logic("SUM({flag_areas.raised[]})-{act}-{watch}", "1"),
            look=Look(show="0"),
            help="Good to know.",
        ),
        Computed("steps", "Still to type", still_to_type(KEEPER_STEPS), kind=text(), look=Look(width=60, runs_on=True)),
        Computed(
            "verdict",
            "In short",
            logic(
                'IF({all_flags}=0,IF({steps}="","nothing needs attention",{nothing_typed}),'
                '{act}&" to act on, "&{watch}&" to watch, "&{note}&" to note")'
                '&IF({all_flags}>{lines},"; only the first "&{lines}&" are listed","")',
                copes=True,
                all_flags="{act}+{watch}+{note}",
                lines="ROWS({attention.line[]})",
                nothing_typed=quoted("nothing to check yet: see the first steps on Start"),
            ),
            kind=text(),
            look=Look(width=60, runs_on=True),
        ),
    ),
)


# One line of the list: its words, in which area of seriousness and table it stands, and its sentence.
SERIOUS = Computed(
    "serious",
    "How serious",
    logic('IF({area}="","",CHOOSE({level_no},"▲ Act","◆ Watch","○ Note"))', copes=True),
    kind=text(),
    look=Look("Most serious first", 11, status=True),
)
WORDS_OF_A_LINE = (
    Computed("what", "What", before("{sentence}", ": ", 2), kind=text(), look=Look("Most serious first", 22)),
    Computed("why", "Why", between("{sentence}", ": ", ARROW), kind=text(), look=Look("Most serious first", 45)),
    Computed("do", "What to do", after("{sentence}", ARROW), kind=text(), look=Look("Most serious first", 54)),
    Computed(
        "go",
        "Go to",
        logic('HYPERLINK("#\'"&{sheet}&"\'!A"&({row}+{top}),{sheet}&", row "&({row}+{top}))'),
        kind=text(),
        look=Look("Most serious first", 20, link=True),
    ),
)
AREA_OF_A_LINE = (
    Computed(
        "area",
        "Area",
        logic(
            'IF({line}>SUM({flag_areas.raised[]}),"",COUNTIF({flag_areas.start[]},"<="&{line}))',
            "1",
            copes=True,
        ),
        look=COUNT,
    ),
    Computed("table_no", "Table", logic("INDEX({flag_areas.table_no[]},{area})", "1"), look=COUNT),
    Computed("level_no", "Seriousness", logic("INDEX({flag_areas.level_no[]},{area})", "1"), look=COUNT),
    Computed("sheet", "Sheet", logic("INDEX({flag_tables.sheet[]},{table_no})"), kind=text(), look=WORDS),
)
PLACE_IN_ITS_AREA = Computed(
    "place",
    "Its count there",
    logic("INDEX({flag_areas.base[]},{area})+{line}-INDEX({flag_areas.start[]},{area})+1", "1"),
    look=COUNT,
)
SENTENCE_OF_A_LINE = (
    Computed(
        "piece",
        "Which of them",
        logic("{pieces}-({run}-{place})", "1", pieces=pieces("{said}", SEPARATOR)),
        look=COUNT,
    ),
    Computed("sentence", "Sentence", piece("{said}", "{piece}", SEPARATOR), kind=text(), look=WORDS),
)

AREAS = Table(
    "flag_areas",
    title="Flags by seriousness",
    given=True,
    row_name=("level_no",),
    purpose="",
    columns=(
        Typed("level_no", "Seriousness", count(1, 3), locked=True, look=COUNT),
        Typed("table_no", "Table", count(1, 99), locked=True, look=COUNT),
        Computed(
            "base",
            "Counts from",
            logic(
                "CHOOSE({level_no},0,"
                "INDEX({flag_tables.act_to[]},{table_no}),INDEX({flag_tables.watch_to[]},{table_no}))",
                "1",
            ),
            look=COUNT,
        ),
        Computed(
            "raised",
            "Raised",
            logic(
                "CHOOSE({level_no},INDEX({flag_tables.act_to[]},{table_no}),"
                "INDEX({flag_tables.watch_to[]},{table_no}),INDEX({flag_tables.note_to[]},{table_no}))-{base}",
                "1",
            ),
            look=COUNT,
        ),
        Computed("start", "Listed from", logic("{above.next}", "1"), look=COUNT),
        Computed("next", "up to before", logic("{above.next}+{raised}", "1"), seed="1", look=COUNT),
    ),
)


def of_each(keys: Sequence[str], template: str, by: str = "{table_no}") -> str:
    """Formula text: the same for each table, picked by its number."""
    return filled("CHOOSE({by},{tables})", by=by, tables=[starred(template, key) for key in keys])


def flag_tables(keys: Sequence[str]) -> Table:
    """The register of the tables that can raise a flag."""
    return Table(
        "flag_tables",
        title="Where flags come from",
        given=True,
        row_name=("sheet",),
        purpose="",
        columns=(
            Typed("number", "Number", count(1, 99), locked=True, look=COUNT),
            Typed("sheet", "Sheet", text(), locked=True, look=WORDS),
            *(
                Computed(
                    f"{level}_to",
                    f"{level}: up to",
                    logic(of_each(keys, "MAX({*.run_" + level + "[]})", "{number}"), "1"),
                    look=COUNT,
                )
                for level in SERIOUSNESS
            ),
            Computed("rows", "Rows", logic(of_each(keys, "ROWS({*.run_act[]})", "{number}"), "1"), look=COUNT),
        ),
    )


def listing(keys: Sequence[str], names: Sequence[str]) -> Table:
    """The list itself; names: the column of each table that says which row it is."""
    where = [cell(column(key, name), "{row}") for key, name in zip(keys, names, strict=True)]
    row = logic(
        "{fewer}-({level_no}-1)*INDEX({flag_tables.rows[]},{table_no})+1",
        "1",
        fewer=of_each(keys, 'COUNTIF({*.@run[]},"<"&{place})'),
    )
    return Table(
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
            SERIOUS,
            Computed(
                "where",
                "Where",
                logic(picked("{table_no}", where)),
                kind=text(),
                look=Look("Most serious first", 22),
            ),
            *WORDS_OF_A_LINE,
            *AREA_OF_A_LINE,
            Computed("top", "Rows above", logic(of_each(keys, "{*.@top}"), "1", needs=("table_no",)), look=COUNT),
            PLACE_IN_ITS_AREA,
            Computed("row", "Its row", row, look=COUNT),
            Computed(
                "run",
                "Count at its row",
                logic(of_each(keys, "INDEX({*.@run[]},{row},{level_no})"), "1"),
                look=COUNT,
            ),
            Computed(
                "said",
                "Said there",
                logic(of_each(keys, "INDEX({*.@said[]},{row},{level_no})")),
                kind=text(),
                look=WORDS,
            ),
            *SENTENCE_OF_A_LINE,
        ),
    )


def attention_sheet(
    sheets: tuple[Sheet, ...], steps: Sequence[Step] = KEEPER_STEPS
) -> tuple[Sheet, list[dict[str, Value]], list[dict[str, Value]]]:
    """The sheet for all tables that can raise a flag, and the rows of its two registers."""
    flagged = [
        (sheet.title, table) for sheet in sheets for table in sheet.tables if table.listed and complete(table).flags
    ]
    flagged.sort(key=lambda found: FIRST.index(found[1].key) if found[1].key in FIRST else len(FIRST))
    keys = [table.key for _, table in flagged]
    names = ["row_label" if len(table.row_name) > 1 else table.row_name[0] for _, table in flagged]
    table_rows: list[dict[str, Value]] = [{"number": i, "sheet": title} for i, (title, _) in enumerate(flagged, 1)]
    area_rows: list[dict[str, Value]] = [
        {"level_no": level, "table_no": n} for level in (1, 2, 3) for n in range(1, len(keys) + 1)
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
        blocks=(listing(keys, names), AREAS, flag_tables(keys)),
        forms=(summary,),
        frozen_columns=0,
        purpose="Every flag raised on any sheet, most serious first: why, what to do, and a link to its row.",
    )
    return sheet, table_rows, area_rows
