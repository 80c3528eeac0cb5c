"""Attention: what asks for something, a line for each cause and place, with cause, remedy and a link to its row.

Behind it the lines are found sheet by sheet (open_lines), those set aside on Known among them; what stands on Attention
is the same in the order in which a keeper goes about it: tank by tank, the one in most trouble first.
"""

from collections.abc import Sequence
from dataclasses import replace

from workbook.sheets.first_steps import KEEPER_STEPS, Step, to_type
from workbook.sheets.matters import EVERYWHERE, MATTERS
from workbook.tables import Computed, Look, Pulled, Sheet, Table, Typed, count, logic, number, text
from workbook.tables.columns import SERIOUSNESS
from workbook.tables.completing import ALSO, ARROW, NEARLY_FULL, SEPARATOR, complete
from workbook.tables.formula import Formula, filled
from workbook.tables.idioms import after, before, between, cell, count_so_far, iso_date, joined, picked, piece, pieces
from workbook.tables.kinds import Value
from workbook.tables.template import column, quoted, starred

# Each line is searched for in the running counts of a whole table: without an end, the time would grow with the square
# of the room. Who has more than a thousand flags begins at the top; the summary says that there are more.
LINES, LINES_EACH, LINES_MOST = 300, 2, 1000
PRINTED = 50  # the most serious; the rest is read on the screen
# Within one seriousness, what makes other cells doubtful and what can kill soonest stand first; the tabs have an order
# of their own.
FIRST = (
    *("conflicts", "matters", "matters_everywhere", "tanks", "livestock", "stock", "suppliers", "species", "waters"),
    *("proposals", "foods", "feeding", "hatching", "feeds", "live_wants", "breeding", "log", "known", "maintenance"),
    "constants",
)
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
            logic("SUMIFS({open_lines.one[]},{open_lines.open_level[]},1)", "1"),
            look=Look(show="0"),
            help="Harm is near: today.",
        ),
        Computed(
            "watch",
            "◆ Watch",
            logic("SUMIFS({open_lines.one[]},{open_lines.open_level[]},2)", "1"),
            look=Look(show="0"),
            help="Not right, but there is time.",
        ),
        Computed(
            "note",
            "○ Note",
            logic("SUMIFS({open_lines.one[]},{open_lines.open_level[]},3)", "1"),
            look=Look(show="0"),
            help="Good to know.",
        ),
        Computed(
            "known",
            "Known",
            logic("SUMIFS({open_lines.one[]},{open_lines.open_level[]},4)", "1"),
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


# A line where it is found: its sentence, in which area of seriousness and table it stands, whose tank it is about.
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
    Computed(
        "sheet",
        "Sheet",
        logic(
            'IF(INDEX({flag_tables.sheet[]},{table_no})="",INDEX({matters_everywhere.leads_to[]},{row}),'
            "INDEX({flag_tables.sheet[]},{table_no}))"
        ),
        kind=text(),
        look=WORDS,
    ),
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


def rows_above(table: Table) -> str:
    """Formula text: the rows above that to which a line leads: a tank's own, or the first of a sheet."""
    if table.key == MATTERS.key:
        return "{tanks.@top}"
    return "0-{row}+1" if table.key == EVERYWHERE.key else starred("{*.@top}", table.key)


def place_of(table: Table) -> str:
    """Formula text: the row of the tank that a row of a table is about; 0 where it is about none."""
    if table.rows_of == "tanks" or table.key == "tanks":
        return "{row}"
    links = table.mirrors or any(c.key == "tank_row" for c in complete(table).columns)
    return cell(column(table.key, "tank_row"), "{row}") if links else "0"


def found_lines(tables: Sequence[Table]) -> Table:
    """Every line, sheet by sheet."""
    keys = [table.key for table in tables]
    names = ["row_label" if len(table.row_name) > 1 else table.row_name[0] for table in tables]
    where = [cell(column(key, name), "{row}") for key, name in zip(keys, names, strict=True)]
    row = logic(
        "{fewer}-({level_no}-1)*INDEX({flag_tables.rows[]},{table_no})+1",
        "1",
        fewer=of_each(keys, 'COUNTIF({*.@run[]},"<"&{place})'),
    )
    return Table(
        "open_lines",
        title="Lines, sheet by sheet",
        lines=LINES,
        lines_each=LINES_EACH,
        lines_most=LINES_MOST,
        lines_of=("tanks", "livestock", "stock"),
        row_name=("name",),
        purpose="",
        columns=(
            Computed(
                "name",
                "Line",
                logic('IF({where}="",{what},{where}&": "&{what})', needs=("where", "what")),
                kind=text(),
                look=WORDS,
            ),
            Computed("where", "Where", logic(picked("{table_no}", where)), kind=text(), look=WORDS),
            Computed("what", "What", before("{sentence}", ": ", 2), kind=text(), look=WORDS),
            *AREA_OF_A_LINE,
            Computed(
                "top",
                "Rows above",
                logic(
                    "CHOOSE({table_no},{tops})",
                    "1",
                    tops=[rows_above(table) for table in tables],
                    needs=("table_no", "row"),
                ),
                look=COUNT,
            ),
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
            Computed("one", "One", logic("1", "1", needs=("area",)), look=COUNT),
            Computed(
                "tank_there",
                "Row of the tank that its row names",
                logic(
                    'IF({what}={of_a_list},"",CHOOSE({table_no},{tanks}))',
                    "1",
                    of_a_list=quoted(NEARLY_FULL),
                    tanks=[place_of(table) for table in tables],
                    needs=("row",),
                ),
                look=COUNT,
            ),
            Computed(
                "tank_no",
                "Row of its tank",
                logic("SUM({tank_there})", "1", needs=("row",)),
                look=COUNT,
                help="0: it is about no tank, or about several.",
            ),
            *ORDER,
        ),
    )


ORDER = (
    Computed(
        "known_no",
        "Its row on Known",
        logic('IF(COUNTIF({known.holds[]},{line})=0,"",MATCH({line},{known.holds[]},0))', "1", copes=True),
        look=COUNT,
    ),
    Computed(
        "open_level",
        "Seriousness, 4 if known",
        logic('IF({area}="","",IF({known_no}="",{level_no},4))', "1", copes=True),
        look=COUNT,
    ),
    Computed(
        "open_tank",
        "Tank, if open",
        logic('IF({known_no}="",{tank_no},0)', "1", needs=("tank_no",)),
        look=COUNT,
    ),
    Computed(
        "tank_rank",
        "Rank of its tank",
        logic('IF({tank_no}=0,"",INDEX({open_tanks.rank[]},{tank_no}))', "1", needs=("tank_no",)),
        look=COUNT,
        help="Blank where it is about none that has a name.",
    ),
    Computed(
        "order",
        "Order",
        logic(
            'IF({open_level}=4,5*10^2,IF({tank_rank}="",{open_level}*10^2+10^2-2,{tank_rank}))*10^9'
            '+IF({tank_rank}="",10^4-1,{tank_no})*10^5+{level_no}*10^4+{line}',
            "1",
            needs=("open_level", "tank_no"),
        ),
        look=Look(working=True, width=16, show="0"),
        help="The worst seriousness in the tank and how many lines are as serious, its row, the line's own seriousness.",
    ),
)

OPEN_TANKS = Table(
    "open_tanks",
    title="Lines of each tank",
    rows_of="tanks",
    row_name=("tank",),
    purpose="",
    columns=(
        Pulled("tank", via="tanks"),
        *(
            Computed(
                f"{level}_lines",
                f"{level.capitalize()}: lines",
                logic(
                    "COUNTIFS({open_lines.open_tank[]},{line},{open_lines.open_level[]},{number})",
                    "1",
                    number=str(number),
                ),
                look=COUNT,
            )
            for number, level in enumerate(SERIOUSNESS, 1)
        ),
        Computed(
            "rank",
            "Rank",
            logic(
                "IF({act_lines}>0,2*10^2-MIN(99,{act_lines}),IF({watch_lines}>0,3*10^2-MIN(99,{watch_lines}),4*10^2-MIN(99,{note_lines})))",
                "1",
            ),
            look=COUNT,
        ),
        Computed(
            "first",
            "Its first line on Attention",
            logic(
                'IF({act_lines}+{watch_lines}+{note_lines}=0,"",MATCH({line},{attention.open_tank[]},0))',
                "1",
            ),
            look=COUNT,
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


LISTED = Look("Most serious first", 20)
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
            logic('IF({found}="","",CHOOSE({open_level},"▲ Act","◆ Watch","○ Note","· Known"))', copes=True),
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
        replace(of_line("what", "What"), look=replace(LISTED, width=19)),
        Computed(
            "why",
            "Why",
            logic(
                'IF({more}=0,{full},LEFT({full},SEARCH({also},{full})-1)&" (and "&{more}&" more)")',
                also=quoted(ALSO),
                needs=("more",),
            ),
            kind=text(),
            look=replace(LISTED, width=56),
            help="The first cause; all of them stand at the right, and on the tank's page.",
        ),
        Computed("do", "What to do", after("{sentence}", ARROW), kind=text(), look=replace(LISTED, width=62)),
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
                'IF({open_level}=4,INDEX({known.reason[]},{known_no})&"; until "&{until},{because})',
                until=iso_date(cell("{known.until[]}", "{known_no}")),
                because=between("{sentence}", ": ", ARROW),
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
        of_line("open_tank", "Row of its tank", "1"),
        of_line("known_no", "Its row on Known", "1"),
        of_line("sheet", "Sheet"),
        of_line("row", "Its row", "1"),
        of_line("top", "Rows above", "1"),
        of_line("sentence", "Sentence"),
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
