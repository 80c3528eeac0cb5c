"""Lines of Attention as they are found, sheet by sheet: whose tank each is about, whether known, in which order."""

from collections.abc import Sequence

from workbook.sheets.matters import EVERYWHERE, MATTERS
from workbook.tables import Computed, Look, Pulled, Table, Typed, count, logic, text
from workbook.tables.columns import SERIOUSNESS
from workbook.tables.completing import NEARLY_FULL, SEPARATOR, complete
from workbook.tables.formula import filled
from workbook.tables.idioms import before, cell, picked, piece, pieces
from workbook.tables.template import column, quoted, starred

# Each line is searched for in the running counts of a whole table: without an end, the time would grow with the square
# of the room. Who has more than a thousand flags begins at the top; the summary says that there are more.
LINES, LINES_EACH, LINES_MOST = 300, 2, 1000
COUNT, WORDS = Look(working=True, show="0"), Look(working=True, width=14)
# In the place of its seriousness, for a line that stands on Known.
KNOWN_LEVEL = "10"


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


def whose_tank(tables: Sequence[Table]) -> tuple[Computed, ...]:
    """The tank that a line is about."""
    return (
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
    )


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
            *whose_tank(tables),
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
        "Seriousness, 10 if known",
        logic('IF({area}="","",IF({known_no}="",{level_no},{known}))', "1", copes=True, known=KNOWN_LEVEL),
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
            'IF({open_level}={known},10^3,IF({tank_rank}="",{open_level}*10^2+10^2-2,{tank_rank}))*10^9'
            '+IF({tank_rank}="",10^4-1,{tank_no})*10^5+{level_no}*10^4+{line}',
            "1",
            needs=("open_level", "tank_no"),
            known=KNOWN_LEVEL,
        ),
        look=Look(working=True, width=16, show="0"),
        help="The worst in the tank and how many lines are as serious, its row, the line's own seriousness.",
    ),
)


def of_level(level: str, formula: str) -> Computed:
    """How many open lines of one seriousness are about the tank."""
    return Computed(f"{level}_lines", f"{level.capitalize()}: lines", logic(formula, "1"), look=COUNT)


OPEN_TANKS = Table(
    "open_tanks",
    title="Lines of each tank",
    rows_of="tanks",
    row_name=("tank",),
    purpose="",
    columns=(
        Pulled("tank", via="tanks"),
        of_level("act", "COUNTIFS({open_lines.open_tank[]},{line},{open_lines.open_level[]},1)"),
        of_level("watch", "COUNTIFS({open_lines.open_tank[]},{line},{open_lines.open_level[]},2)"),
        of_level("note", "COUNTIFS({open_lines.open_tank[]},{line})-{act_lines}-{watch_lines}"),
        Computed(
            "rank",
            "Rank",
            logic(
                "IF({act_lines}>0,2*10^2-MIN({most},{act_lines}),"
                "IF({watch_lines}>0,2*10^2+10^2-MIN({most},{watch_lines}),2*2*10^2-MIN({most},{note_lines})))",
                "1",
                most="10^2-1",
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
