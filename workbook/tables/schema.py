"""All tables of one workbook, completed with what follows from their roles; every name and unit checked once."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType

from workbook.tables.columns import SERIOUSNESS, Column, Computed, Flag, Look, Pulled, Said, Typed
from workbook.tables.formula import NAME, WORDS, Formula
from workbook.tables.idioms import all_said, iso_date, pieces
from workbook.tables.kinds import text
from workbook.tables.table import Table

SEPARATOR, ARROW = "¦", " → "
SYMBOLS = {"act": "▲", "watch": "◆", "note": "○"}
# Three columns side by side, one for each seriousness, under one name.
FLAG_BLOCKS = {"@said": "said_act", "@run": "run_act"}
WORKING = Look(group="Working columns", working=True, width=9, show="0")


def complete(table: Table, mirrored: Table | None = None, titles: Mapping[str, str] = MappingProxyType({})) -> Table:
    """The table with the columns that its roles call for: rows of links, running numbers, texts of flags.

    titles: what people call the other tables.
    """
    if table.form:
        return table
    columns: list[Column] = list(table.columns)
    columns += [_row_of_link(c) for c in table.typed if c.kind.table]
    if mirrored:
        columns += _as_typed_there(table, mirrored)
    if not (table.given or table.told):
        columns.append(
            Computed("line", "Line", Formula("{above.line}+1", "1", copes_with_blanks=True), seed="0", look=WORKING)
        )
    if table.is_list:
        columns.append(
            Computed(
                "one", "One", Formula("1", "1", copes_with_blanks=True), help="What counting adds up.", look=WORKING
            )
        )
        columns += _flags_of_a_list(table, titles)
    if flags := [c for c in columns if isinstance(c, Flag)]:
        columns = [c for c in columns if not isinstance(c, Flag)]
        columns += _flag_columns(table, flags)
    return replace(table, columns=tuple(columns))


def _as_typed_there(table: Table, mirrored: Table) -> list[Column]:
    """What follows from the roles of columns typed in another table's rows: the rows of its links, what counting adds up."""
    links = {c.key: c for c in mirrored.typed if c.kind.name == "link"}
    followed = [c for c in table.columns if isinstance(c, Pulled) and c.via == mirrored.key and c.origin in links]
    rows = [Pulled(f"{c.key}_row", via=mirrored.key, of=f"{c.origin}_row", look=WORKING) for c in followed]
    return [*rows, Pulled("one", via=mirrored.key, look=WORKING)]


def _row_of_link(column: Typed) -> Computed:
    name = f"{{{column.key}}}"
    target = f"{{{column.kind.table}.@key[]}}"
    row = f"MATCH({name},{target},0)"
    if column.kind.name == "text":  # any text is allowed, so one that MATCH takes for a pattern must not lead anywhere
        row = f'IF(INDEX({target},{row})={name},{row},"")'
    formula = Formula(f'IF({name}="","",IFERROR({row},""))', "1", copes_with_blanks=True)
    return Computed(f"{column.key}_row", f"Row of {column.label.lower()}", formula, look=WORKING)


def _flags_of_a_list(table: Table, titles: Mapping[str, str]) -> list[Flag]:
    """What can be wrong with any list that people type."""
    found = []
    for column in table.typed:
        if column.kind.name == "link":
            there = titles.get(column.kind.table, column.kind.table)
            known = "".join(f',{{{column.key}}}<>"{word}"' for word in column.kind.choices)
            found.append(
                Flag(
                    f"unknown_{column.key}",
                    f"{column.label} not known",
                    seriousness="act",
                    copes=True,
                    when=f'AND({{{column.key}}}<>"",{{{column.key}_row}}=""{known})',
                    why=f"'{{{column.key}}}' does not stand in the list {there}, so what hangs on it is not reckoned",
                    do=f"Pick a name from the dropdown, or add it to {there} first.",
                )
            )
    if needed := [c for c in table.typed if c.required]:
        empty = ",".join(f'{{{c.key}}}=""' for c in needed)
        begun = "&".join(f"{{{c.key}}}" for c in needed)
        names = "&".join(f'IF({{{c.key}}}="",", {c.label}","")' for c in needed)
        found.append(
            Flag(
                "unfinished",
                "Row not finished",
                seriousness="watch",
                copes=True,
                when=f'AND({begun}<>"",OR({empty}))',
                why=f'="this row was begun, but still lacks "&MID({names},3,200)',
                do="Fill the cell, or clear the row.",
            )
        )
    found += _words_for_numbers(table)
    first = f"{{{table.key}.{table.row_name[0]}[]}}"
    if table[table.row_name[0]].kind.name == "key":  # type: ignore[union-attr]
        found.append(
            Flag(
                "twice",
                "Name used twice",
                seriousness="act",
                copes=True,
                when=f'IF({{{table.row_name[0]}}}="",0,SUMIFS({{{table.key}.one[]}},{first},{{{table.row_name[0]}}}))>1',
                why=f"'{{{table.row_name[0]}}}' stands in more than one row, so rows that point to it find only the first",
                do="Give each row a name of its own.",
            )
        )
    found.append(
        Flag(
            "nearly_full",
            "List nearly full",
            seriousness="note",
            copes=True,
            when=f"IF({{line}}=1,ROWS({first})-COUNTA({first}),ROWS({first})+{{const.rows_left}})<{{const.rows_left}}",
            why="only a few ready rows are left in this list",
            do="Build the workbook again with more spare rows before they run out.",
        )
    )
    return found


def _words_for_numbers(table: Table) -> list[Flag]:
    """A number or a date that stands there as text: its cell would have refused it, but pasting goes round that."""
    numbers = [c for c in table.typed if c.kind.is_number and not (c.locked or c.free)]
    if not numbers:
        return []
    names = "&".join(f'IF(ISTEXT({{@typed.{c.key}}}),", {c.label}","")' for c in numbers)
    return [
        Flag(
            "not_read",
            "Words instead of a number",
            seriousness="watch",
            copes=True,
            when=f'{names}<>""',
            why=f'="taken as unknown, because a number or date was pasted or typed as text: "&MID({names},3,200)',
            do="Type it anew: a plain number without its unit, or a date such as 2026-03-31.",
        )
    ]


def _words(table: Table, key: str) -> str:
    """Formula text: a part of a row's name, a date as people write it everywhere."""
    column = table[key]
    is_date = isinstance(column, Typed) and column.kind.name == "date"
    return f'IF({{{key}}}="","",{iso_date(f"{{{key}}}")})' if is_date else f"{{{key}}}"


def _flag_columns(table: Table, flags: list[Flag]) -> list[Column]:
    """Flags in order of seriousness, their texts joined by seriousness, and running numbers for Attention."""
    columns: list[Column] = []
    if len(table.row_name) > 1:
        first, second = (_words(table, key) for key in table.row_name[:2])
        label = f'{first}&IF(OR({first}="",{second}=""),"",": ")&{second}'
        columns.append(Computed("row_label", "Row", Formula(label, copes_with_blanks=True), kind=text(), look=WORKING))
    for level in SERIOUSNESS:
        columns += [flag for flag in flags if flag.seriousness == level]
    for level in SERIOUSNESS:
        keys = [f"{{{flag.key}}}" for flag in flags if flag.seriousness == level]
        columns.append(
            Computed(f"said_{level}", f"Said: {level}", all_said(keys, SEPARATOR), kind=text(), look=WORKING)
        )
    levels = [f"{{said_{level}}}" for level in SERIOUSNESS]
    columns.append(Computed("said", "All that is said", all_said(levels, SEPARATOR), kind=text(), look=WORKING))
    columns.append(
        Computed(
            "said_count", "How many", Formula(pieces("{said}", SEPARATOR), "1", copes_with_blanks=True), look=WORKING
        )
    )
    seed = "0"
    for level in SERIOUSNESS:
        columns.append(
            Computed(
                f"run_{level}",
                f"Count: {level}",
                Formula(f"{{above.run_{level}}}+{pieces(f'{{said_{level}}}', SEPARATOR)}", "1", copes_with_blanks=True),
                seed=seed,
                look=WORKING,
            )
        )
        seed = f"{{@last.run_{level}}}"
    return columns


@dataclass(frozen=True)
class Schema:
    """All tables of one workbook and its constants (name to unit)."""

    tables: tuple[Table, ...]
    constants: dict[str, str]
    by_key: dict[str, Table] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        lists = {table.key: table for table in self.tables}
        titles = {table.key: table.title for table in self.tables}
        done = tuple(complete(table, lists[table.rows_of] if table.mirrors else None, titles) for table in self.tables)
        object.__setattr__(self, "tables", done)
        object.__setattr__(self, "by_key", {table.key: table for table in done})
        for table in done:
            for column in table.columns:
                self._check(table, column)
            kinds = {column.key: column.kind for column in table.typed}
            for key, example in table.example.items():
                kinds[key].parse(str(example))

    def __getitem__(self, key: str) -> Table:
        if key not in self.by_key:
            raise KeyError(f"no table '{key}'; there are {', '.join(self.by_key)}")
        return self.by_key[key]

    @property
    def flagged(self) -> tuple[Table, ...]:
        """The tables that can raise a problem."""
        return tuple(t for t in self.tables if t.flags)

    def key_of(self, table: str) -> str:
        """The column by which others point to this table."""
        return self[table].row_name[0]

    def origin(self, table: Table, key: str) -> tuple[Table, Typed | Computed | Flag | Said]:
        """The column itself, or the one that a pulled column shows, with its table."""
        column = table[key]
        if isinstance(column, Pulled):
            return self.origin(*self.source(table, column))
        return table, column

    def source(self, table: Table, column: Pulled) -> tuple[Table, str]:
        """Table and key that a pulled column looks at."""
        target = self.target(table, column)
        other, dot, key = column.origin.rpartition(".")
        if not dot:
            return target, key
        if other != target.key and self[other].rows_of != target.key:
            raise TypeError(f"{table.key}.{column.key}: {other} has not the rows of {target.key}")
        return self[other], key

    def target(self, table: Table, column: Pulled) -> Table:
        """The table whose row a pulled column reads."""
        if table.rows_of and column.via == table.rows_of:
            return self[table.rows_of]
        via = self.origin(table, column.via)[1]
        if not isinstance(via, Typed | Computed) or not via.kind.table:
            raise TypeError(f"{table.key}.{column.key}: {column.via} is neither a link to a table nor a row of one")
        return self[via.kind.table]

    def find(self, table: Table, name: str) -> tuple[Table, Typed | Computed | Flag | Said]:
        """The column that a name in a formula of this table stands for."""
        place, dot, key = name.removeprefix(WORDS).removesuffix("[]").partition(".")
        if not dot or place in {"above", "@last", "@typed"}:
            return self.origin(table, key or place)
        if key in {"@key", "@top"}:
            key = self.key_of(place)
        if key in FLAG_BLOCKS:
            key = FLAG_BLOCKS[key]
        if place == "const":
            if key not in self.constants:
                raise KeyError(f"{table.key}: no constant '{key}'")
            return self["constants"], self["constants"]["value"]  # type: ignore[return-value]
        return self.origin(self[place], key)

    def unit(self, table: Table, name: str) -> str:
        """What a name in a formula of this table is measured in."""
        place, dot, key = name.partition(".")
        found = self.find(table, name)[1]
        return self.constants[key] if dot and place == "const" else found.unit

    def _check(self, table: Table, column: Column) -> None:
        """Every name is there, every operand measured in what its equation wants."""
        if isinstance(column, Pulled):
            self.origin(table, column.key)
            return
        if isinstance(column, Flag):
            for name in NAME.findall(column.when + column.why + column.do):
                self.find(table, name)
        if not isinstance(column, Computed):
            return
        for name in (*column.formula.names, *column.formula.needs, *NAME.findall(column.seed)):
            self.find(table, name)
        for name, wanted in column.formula.expects:
            if (found := self.unit(table, name)) != wanted:
                raise TypeError(f"{table.key}.{column.key}: {name} is in [{found}], wanted in [{wanted}]")
