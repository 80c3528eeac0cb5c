"""Completing: the columns that follow from a table's roles: rows of links, running numbers, flags and their texts."""

import math
from collections.abc import Iterable, Mapping
from dataclasses import replace
from types import MappingProxyType

from workbook.tables.columns import SERIOUSNESS, Column, Computed, Flag, Look, Pulled, Said, Typed
from workbook.tables.formula import Formula, filled, logic
from workbook.tables.idioms import all_said, iso_date, pieces
from workbook.tables.kinds import count, text
from workbook.tables.nowhere import Links, not_known
from workbook.tables.picking import names_by_group, sorted_names
from workbook.tables.row_ways import to_list
from workbook.tables.table import Table
from workbook.tables.template import column as names_of
from workbook.tables.template import for_each, here, of, quoted

SEPARATOR, ARROW = "¦", " → "
# Between the causes that one line gathers.
ALSO = "; also "
WHOLE = "ok"
# Said in the first row of a list, yet about the list.
NEARLY_FULL = "List nearly full"
NO_SENSE = "no_sense"  # a column by which a table tells of impossible numbers itself
SYMBOLS = {"act": "▲", "watch": "◆", "note": "○"}
# Three columns side by side, one for each seriousness, under one name.
FLAG_BLOCKS = {"@said": "said_act", "@run": "run_act"}
WORKING = Look(group="Working columns", working=True, width=9, show="0")


def complete(
    table: Table,
    mirrored: Table | None = None,
    titles: Mapping[str, str] = MappingProxyType({}),
    *,
    is_offered: bool = False,
    links: Links = (),
) -> Table:
    """The table with the columns that its roles call for: rows of links, running numbers, texts of flags.

    titles: what people call the other tables. is_offered: dropdowns elsewhere offer its names. links: all columns of
    lists that name rows of others.
    """
    if table.form:
        return table
    columns: list[Column] = list(table.columns)
    columns += [_row_of_link(c) for c in table.typed if c.kind.table]
    if mirrored:
        columns += _as_typed_there(table, mirrored)
    if is_offered or not (table.given or table.told):
        columns.append(
            Computed("line", "Line", Formula("{above.line}+1", "1", copes_with_blanks=True), seed="0", look=WORKING)
        )
        columns += sorted_names(table.key, table.row_name[0]) if is_offered else []
        columns += names_by_group(table) if is_offered and table.grouped else []
    if table.is_list:
        columns.append(
            Computed(
                "one", "One", Formula("1", "1", copes_with_blanks=True), help="What counting adds up.", look=WORKING
            )
        )
        columns += [to_list(), _formulas_here(table)]
        columns += [*_impossible(table), *_handed_lost(table)]
        columns += _flags_of_a_list(table, titles, links)
        columns.append(_formulas_behind(columns))
    if flags := [c for c in columns if isinstance(c, Flag)]:
        columns = [c for c in columns if not isinstance(c, Flag)]
        columns += _flag_columns(table, flags)
    return replace(table, columns=tuple(columns))


def _as_typed_there(table: Table, mirrored: Table) -> list[Column]:
    """What follows from columns typed in another table: the rows of its links, what counting adds up."""
    links = {c.key: c for c in mirrored.typed if c.kind.name == "link"}
    followed = [c for c in table.columns if isinstance(c, Pulled) and c.via == mirrored.key and c.origin in links]
    rows = [Pulled(f"{c.key}_row", via=mirrored.key, of=f"{c.origin}_row", look=WORKING) for c in followed]
    return [*rows, Pulled("one", via=mirrored.key, look=WORKING)]


def _row_of_link(column: Typed) -> Computed:
    """The row in which its name stands; blank where it stands nowhere."""
    row = "MATCH({name},{names},0)"
    if column.kind.name == "text":  # any text is allowed, so one that MATCH takes for a pattern must not lead anywhere
        row = 'IF(INDEX({names},MATCH({name},{names},0))={name},MATCH({name},{names},0),"")'
    name, names = here(column.key), names_of(column.kind.table, "@key")
    formula = logic(
        'IF({name}="","",IFERROR({row},""))', "1", copes=True, name=name, row=filled(row, name=name, names=names)
    )
    return Computed(f"{column.key}_row", f"Row of {column.label.lower()}", formula, look=WORKING)


def _flags_of_a_list(table: Table, titles: Mapping[str, str], links: Links) -> list[Flag]:
    """What can be wrong with any list that people type."""
    key = table.row_name[0]
    first = table[key]
    return [
        *(not_known(table.key, column, titles, links) for column in table.typed if column.kind.name == "link"),
        *_unfinished(table),
        *_words_for_numbers(table),
        *_out_of_bounds(table),
        *_formulas_gone(table),
        *_handed_gone(table),
        *([_twice(table.key, key)] if isinstance(first, Typed) and first.kind.name == "key" else []),
        Flag(
            "nearly_full",
            NEARLY_FULL,
            seriousness="note",
            copes=True,
            when=filled(
                "IF({line}=1,COUNTBLANK({names}),{few})<{few}",
                few="SUM({const.rows_left})",
                names=names_of(table.key, key),
            ),
            why="only a few ready rows are left in this list",
            do="Run 'shoalbook build' on this file: the fresh one has ready rows again.",
        ),
    ]


def _unfinished(table: Table) -> list[Flag]:
    """A row in which something stands, but not all that must."""
    needed = [column for column in table.typed if column.required]
    if not needed:
        return []
    keys = [column.key for column in needed]
    lacks = _listed('{*}=""', needed)
    return [
        Flag(
            "unfinished",
            "Row not finished",
            seriousness="watch",
            copes=True,
            when=filled(
                'AND({begun}<>"",OR({any_blank}))', begun=for_each(keys, "{*}", "&"), any_blank=for_each(keys, '{*}=""')
            ),
            why=filled('="this row was begun, but still lacks "&MID({lacks},3,200)', lacks=lacks),
            do="Fill the cell, or clear the row.",
        )
    ]


def _twice(table: str, key: str) -> Flag:
    """A name that must be one row's alone."""
    return Flag(
        "twice",
        "Name used twice",
        seriousness="act",
        copes=True,
        when=filled(
            'IF({*}="",0,SUMIFS({ones},{names},{*}))>1',
            ones=names_of(table, "one"),
            names=names_of(table, key),
            each=key,
        ),
        why=f"'{here(key)}' stands in more than one row, so rows that point to it find only the first",
        do="Give each row a name of its own.",
    )


def _formulas_here(table: Table) -> Computed:
    """What stands at the right end of a list: "ok", and after it the answers of its row that are no formula any more.

    A row that was put in has nothing there, which is how it is known.
    """
    # The sign says what the flags say, and one of them hangs on this: no cell may look at itself.
    listed = [table[key] for key in (*table.signs, *table.shown)]
    shown = [(column.key, column.label or column.key) for column in listed if not isinstance(column, Said)]
    parts = [
        filled('IF(_xlfn.ISFORMULA({@shown.*}),"",{label})', label=quoted(f", {label}"), each=key)
        for key, label in shown
    ]
    text_of = "&".join([quoted(WHOLE), *parts])
    return Computed(
        "formulas", "Formulas", Formula(text_of, copes_with_blanks=True), kind=text(), beside=True,
        look=Look("Self-check", 9, link=True), help="ok: every answer here is still a formula; a way to the steps.",
    )  # fmt: skip


def _formulas_behind(columns: list[Column]) -> Computed:
    """The columns of the workings of which the cell in a row is no formula any more.

    Not those that tell of it: no cell may look at itself.
    """
    keys = [
        c.key for c in columns if not (isinstance(c, Typed) and c.free) and c.key not in {"attention", "workings_gone"}
    ]
    parts = for_each(keys, 'IF(_xlfn.ISFORMULA({*}),"",{@letters.*})', "&")
    return Computed(
        "not_formulas",
        "No formula in",
        Formula(parts, copes_with_blanks=True),
        kind=text(),
        look=replace(WORKING, width=14),
    )


def _formulas_gone(table: Table) -> list[Flag]:
    """A list watches itself: nothing else says that an answer was typed over, or that a row was put in without any."""
    whole = quoted(WHOLE)
    return [
        Flag(
            "formulas_gone",
            "Formulas gone",
            seriousness="watch",
            copes=True,
            when=filled('AND({key}<>"",{formulas}<>{whole})', key=here(table.row_name[0]), whole=whole,
                        formulas=here("formulas")),
            why='=IF({formulas}="","this row was put in, and its answers at the left and right are empty",'
            '"no formula stands any more in this row under: "&MID({formulas},5,200))',
            do="Copy those cells from the row above or below.",
        ),
        Flag(
            "workings_gone",
            "Workings gone",
            seriousness="act",
            copes=True,
            when='{not_formulas}<>""',
            why="on the sheet of its workings no formula stands any more in this row, in the columns{not_formulas}",
            do="Copy those cells from the row above or below.",
        ),
    ]  # fmt: skip


def _words_for_numbers(table: Table) -> list[Flag]:
    """A number or a date that stands there as text: its cell would have refused it, but pasting goes round that."""
    numbers = [c for c in table.typed if c.kind.is_number and not (c.locked or c.free)]
    if not numbers:
        return []
    texts = _listed('AND(ISTEXT({*}),{*}<>"")', numbers)
    return [
        Flag(
            "not_read",
            "Words instead of a number",
            seriousness="watch",
            copes=True,
            when=f'{texts}<>""',
            why=filled(
                '="taken as unknown, because a number or date was pasted or typed as text: "&MID({texts},3,200)',
                texts=texts,
            ),
            do="Type it anew: a plain number without its unit, or a date such as 2026-03-31.",
        )
    ]


def _bounded(table: Table) -> list[Typed]:
    """Numbers that have an end somewhere, but for those that a flag of the table itself looks after."""
    own = {c.key: c.formula.names for c in table.columns if isinstance(c, Computed)}.get(NO_SENSE, ())
    numbers = (c for c in table.typed if c.kind.name in {"number", "count"} and not (c.locked or c.free))
    return [c for c in numbers if c.key not in own and not (math.isinf(c.kind.low) and math.isinf(c.kind.high))]


def _impossible(table: Table) -> list[Computed]:
    """The labels of the numbers of a row that lie outside of what their cells take: pasting goes round that."""
    parts = [
        filled(
            'IF(COUNT({*})=1,IF(MEDIAN({*},{low},{high})<>{*},{label},""),"")',
            low="{*}" if math.isinf(column.kind.low) else str(column.kind.low),
            high="{*}" if math.isinf(column.kind.high) else str(column.kind.high),
            label=quoted(f", {column.label}"),
            each=column.key,
        )
        for column in _bounded(table)
    ]
    if not parts:
        return []
    formula = Formula("&".join(parts), copes_with_blanks=True)
    return [Computed("impossible", "Out of bounds", formula, kind=text(), look=replace(WORKING, width=14))]


def _out_of_bounds(table: Table) -> list[Flag]:
    """A number that can't be, which would count as unknown, or be reckoned with, without a word."""
    if not _bounded(table):
        return []
    return [
        Flag(
            "out_of_bounds",
            "Number that can't be",
            seriousness="watch",
            copes=True,
            when='{impossible}<>""',
            why='="outside of what can be, so what hangs on it is unknown or wrong: "&MID({impossible},3,200)',
            do="Check the cell: its unit, a decimal point, a % sign; clear it where it is not known.",
        )
    ]


def _handed_lost(table: Table) -> list[Computed]:
    """In the first row: how many cells fewer hold something than were handed out; own ones in ready rows count too."""
    handed = [column.key for column in table.typed if column.handed]
    if not handed:
        return []
    formula = filled(
        'IF(AND({line}=1,COUNT({as_handed_out})=1),MAX(0,{as_handed_out}-({filled_now})),"")',
        as_handed_out=of("about", f"handed_{table.key}"),
        filled_now="+".join(
            filled("ROWS({cells})-COUNTBLANK({cells})", cells=names_of(table.key, key)) for key in handed
        ),
    )
    made = Formula(formula, "1", copes_with_blanks=True)
    return [Computed("handed_lost", "Handed out and gone", made, look=WORKING)]


def handed_counts(tables: Iterable[Table]) -> tuple[Typed, ...]:
    """How many cells of each list are handed out: what a file says of itself when it is built."""
    return tuple(
        Typed(
            f"handed_{table.key}", f"Cells handed out: {table.title}", count(0, 10**9), locked=True, look=Look(show="0")
        )
        for table in tables
        if table.is_list and any(column.handed for column in table.typed)
    )


def _handed_gone(table: Table) -> list[Flag]:
    """What was handed out only asks before it changes, so that rows can be sorted: here it is seen to be cleared."""
    if not any(column.handed for column in table.typed):
        return []
    return [
        Flag(
            "handed_gone",
            "Handed-out cells cleared",
            seriousness="note",
            copes=True,
            when="SUM({handed_lost})>0",
            why="cells that held something when this file was handed out and are blank: {handed_lost} or more",
            do="Take them from the file as it was handed out; a value of your own belongs in the column beside.",
        )
    ]


def _listed(test: str, columns: list[Typed]) -> str:
    """Formula text: the labels of the columns for which a test holds, each after a comma."""
    return "&".join(
        filled('IF({test},{label},"")', test=test, label=quoted(f", {column.label}"), each=column.key)
        for column in columns
    )


def _words(table: Table, key: str) -> str:
    """Formula text: a part of a row's name, a date as people write it everywhere."""
    column = table[key]
    is_date = isinstance(column, Typed) and column.kind.name == "date"
    return filled('IF(SUM({*})>0,{day},{*}&"")', day=iso_date(here(key)), each=key) if is_date else here(key)


def _flag_columns(table: Table, flags: list[Flag]) -> list[Column]:
    """Flags in order of seriousness, their texts joined by seriousness, and running numbers for Attention."""
    columns: list[Column] = []
    if len(table.row_name) > 1:
        first, second = (_words(table, key) for key in table.row_name[:2])
        label = logic('{first}&IF(OR({first}="",{second}=""),"",": ")&{second}', copes=True, first=first, second=second)
        columns.append(Computed("row_label", "Row", label, kind=text(), look=WORKING))
    for level in SERIOUSNESS:
        columns += [flag for flag in flags if flag.seriousness == level]
    levels = SERIOUSNESS if any(not flag.gathered for flag in flags) else ()
    for level in levels:
        keys = [here(flag.key) for flag in flags if flag.seriousness == level and not flag.gathered]
        columns.append(
            Computed(f"said_{level}", f"Told: {level}", all_said(keys, SEPARATOR), kind=text(), look=WORKING)
        )
    by_level = [here(flag.key) for level in SERIOUSNESS for flag in flags if flag.seriousness == level]
    columns.append(Computed("said", "All that is said", all_said(by_level, SEPARATOR), kind=text(), look=WORKING))
    columns.append(
        Computed(
            "said_count", "How many", Formula(pieces("{said}", SEPARATOR), "1", copes_with_blanks=True), look=WORKING
        )
    )
    seed = "0"
    for level in levels:
        columns.append(
            Computed(
                f"run_{level}",
                f"Count: {level}",
                logic(
                    "{above.run_*}+{pieces}",
                    "1",
                    copes=True,
                    each=level,
                    pieces=pieces(here(f"said_{level}"), SEPARATOR),
                ),
                seed=seed,
                look=WORKING,
            )
        )
        seed = of("@last", f"run_{level}")
    return columns
