"""All tables of one workbook, completed with what follows from their roles; every name and unit checked once."""

from dataclasses import dataclass, field

from workbook.tables.columns import Column, Computed, Flag, Pulled, Said, Typed
from workbook.tables.completing import FLAG_BLOCKS, complete
from workbook.tables.measuring import BARE, TEXT, UNKNOWN, Measured, agreed, measured, unit_of
from workbook.tables.measuring import written as in_words
from workbook.tables.table import Table
from workbook.tables.template import NAME, WORDS


@dataclass(frozen=True)
class Schema:
    """All tables of one workbook and its constants (name to unit)."""

    tables: tuple[Table, ...]
    constants: dict[str, str]
    by_key: dict[str, Table] = field(init=False, repr=False, compare=False)
    measures: dict[str, dict[str, Measured]] = field(init=False, repr=False, compare=False, default_factory=dict)

    def __post_init__(self) -> None:
        lists = {table.key: table for table in self.tables}
        titles = {table.key: table.title for table in self.tables}
        offered = {column.kind.table for table in self.tables for column in table.typed if column.kind.table}
        links = sorted(
            (table.key, column.key, column.kind.table)
            for table in self.tables
            for column in table.typed
            if table.is_list and column.kind.name == "link"
        )
        done = tuple(
            complete(
                table,
                lists[table.rows_of] if table.mirrors else None,
                titles,
                is_offered=table.key in offered,
                links=links,
            )
            for table in self.tables
        )
        object.__setattr__(self, "tables", done)
        object.__setattr__(self, "by_key", {table.key: table for table in done})
        for table in done:
            for column in table.columns:
                self._check(table, column)
                self._check_units(table, column)
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
        if not dot or place in {"above", "@last", "@shown", "@letters", "@list"}:
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

    def measure(self, table: Table, name: str) -> Measured:
        """What a name in a formula of this table gives: a unit, words, or what differs from row to row."""
        if name.startswith(WORDS):
            return TEXT
        found = self.find(table, name)[1]
        if name.endswith((".@top", ".@run[]")):
            return BARE
        if isinstance(found, Flag | Said) or not found.kind.is_number:
            return TEXT
        unit = "date" if found.kind.name == "date" else self.unit(table, name)
        return unit_of(unit) if unit else UNKNOWN

    def decided(self, table: Table, column: Column) -> list[tuple[str, str, Measured]]:
        """What is decided in a column: the text, the unit that it should have, and the one that it has."""
        units = self.measures.setdefault(table.key, {})

        def unit(name: str) -> Measured:
            if name not in units:
                units[name] = self.measure(table, name)
            return units[name]

        decisions: tuple[tuple[str, str], ...] = ()
        if isinstance(column, Flag):
            decisions = ((column.when, ""),)
        elif isinstance(column, Computed):
            decisions = column.formula.decisions
        mixed = isinstance(column, Computed) and column.kind.is_number and not column.unit
        return [(decision, wanted, measured(decision, unit, mixed=mixed)) for decision, wanted in decisions]

    def _check_units(self, table: Table, column: Column) -> None:
        """Nothing is added to, compared with or put in the place of what is measured otherwise."""
        try:
            decided = self.decided(table, column)
        except TypeError as error:
            raise TypeError(f"{table.key}.{column.key}: {error}") from None
        for decision, wanted, found in decided:
            if wanted and agreed(found, unit_of(wanted)) is None:
                raise TypeError(
                    f"{table.key}.{column.key}: {decision} is in [{in_words(found)}], said to be in [{wanted}]"
                )
