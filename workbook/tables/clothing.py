"""A second clothing: columns that are declared once, over other rows, under other names.

Only those columns come along that what is wanted follows from. What people type there, and what comes from tables that
keep their first clothing, is replaced by columns that are handed along.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from workbook.tables.columns import Column, Computed, Flag, Pulled, Said, Typed
from workbook.tables.formula import Formula
from workbook.tables.table import Table
from workbook.tables.template import NAME, WORDS, here

Spot = tuple[str, str]  # a table, by its first name, and a column of it
BESIDE = {"above", "@last", "@shown", "@letters", "@list"}  # places in names that stand for the table itself
FOLLOWING = {"line", "said"}  # columns that a table gets when it is completed


@dataclass(frozen=True)
class Clothing:
    """Tables by the prefix of their second names, and what is put in the place of their columns.

    instead: by first name of a table, columns that replace those of the same key, or come besides; they say themselves
    whether they look at the first clothing or at the second, and stay as they are.
    brought: by name of a column elsewhere (table.key), the key in the table that is named by the link.
    """

    tables: Mapping[str, Table]
    prefix: str
    instead: Mapping[str, tuple[Column, ...]]
    brought: Mapping[str, str] = field(default_factory=dict)

    def clothed(self, wanted: Mapping[str, tuple[str, ...]], lines: Mapping[str, int]) -> dict[str, Table]:
        """The tables anew, each with the columns that what is wanted needs; lines: of those that follow no other."""
        needed = self._needed([(table, key) for table, keys in wanted.items() for key in keys])
        return {table: self._table(table, needed, lines.get(table, 0)) for table in self.tables}

    def _column(self, spot: Spot) -> Column | None:
        table, key = spot
        return self._given(spot) or next((c for c in self.tables[table].columns if c.key == key), None)

    def _given(self, spot: Spot) -> Column | None:
        """What is put in the place of a column, or besides."""
        return next((column for column in self.instead.get(spot[0], ()) if column.key == spot[1]), None)

    def _needed(self, wanted: list[Spot]) -> set[Spot]:
        """What is wanted, and everything that it follows from."""
        wanted = [*wanted, *((table, self.tables[table].row_name[0]) for table in self.tables)]
        found: set[Spot] = set()
        while wanted:
            spot = wanted.pop()
            if spot in found or spot[1] in FOLLOWING:
                continue
            column = self._column(spot)
            if column is None or (isinstance(column, Typed) and not column.kind.table):
                raise KeyError(f"{self.prefix}{spot[0]}.{spot[1]}: nothing is put in its place")
            found.add(spot)
            wanted += self._by_given(spot[0], column) if self._given(spot) else self._looked_at(spot[0], column)
        return found

    def _by_given(self, table: str, column: Column) -> list[Spot]:
        """The columns of these tables that a column looks at which is written for their second clothing."""
        if isinstance(column, Pulled):
            via = self._column((table, column.via))
            to = via.kind.table if isinstance(via, Computed) else ""
            link = (table, column.via)
            key = to.removeprefix(self.prefix)
            return [link, (key, column.origin)] if to != key and key in self.tables else [link]
        found: list[Spot] = []
        for name in _names(column):
            place, dot, key = name.removeprefix(WORDS).removesuffix("[]").partition(".")
            first = place.removeprefix(self.prefix)
            if not dot or place in BESIDE:
                found.append((table, key or place))
            elif first != place and first in self.tables:
                found.append((first, key))
        return found

    def _looked_at(self, table: str, column: Column) -> list[Spot]:
        """The columns of these tables that a column names."""
        if isinstance(column, Pulled):
            return self._followed(table, column)
        return [spot for name in _names(column) if (spot := self._spot(table, name))]

    def _spot(self, table: str, name: str) -> Spot | None:
        """The column that a name stands for, by the first name of its table; None where that keeps its clothing."""
        place, dot, key = name.removeprefix(WORDS).removesuffix("[]").partition(".")
        if not dot or place in BESIDE:
            return table, key or place
        return (place, key) if place in self.tables else None

    def _followed(self, table: str, column: Pulled) -> list[Spot]:
        """The link by which a pulled column goes, and what it shows where that is clothed anew."""
        link = [] if self._same_rows(table, column) else [(table, self._row_of(table, column.via))]
        place, _, key = self._target(table, column).rpartition(".")
        return [*link, (place, key)] if place in self.tables else link

    def _same_rows(self, table: str, column: Pulled) -> bool:
        return column.via == self.tables[table].rows_of

    def _row_of(self, table: str, via: str) -> str:
        """The column with the number of the row that a link leads to."""
        first = next((c for c in self.tables[table].columns if c.key == via), None)
        return f"{via}_row" if isinstance(first, Typed) else via

    def _target(self, table: str, column: Pulled) -> str:
        """What a pulled column shows, by the first name of its table."""
        if self._same_rows(table, column):
            to = self.tables[table].rows_of
        else:
            via = self._column((table, self._row_of(table, column.via)))
            to = via.kind.table.removeprefix(self.prefix) if isinstance(via, Computed) else ""  # a given one, perhaps
        place, dot, key = column.origin.rpartition(".")
        if place in self.tables:
            return f"{place}.{key}"
        if not dot:
            return f"{to}.{key}"
        return f"{to}.{self.brought[column.origin]}" if to in self.tables else column.origin

    # --- the columns under their second names ---

    def _table(self, key: str, needed: set[Spot], lines: int) -> Table:
        table = self.tables[key]
        own = [column.key for column in table.columns]
        keys = [*(c.key for c in self.instead.get(key, ()) if c.key not in own), *own]
        columns = (self._column((key, one)) for one in keys if (key, one) in needed)
        rows_of = "" if lines else self.prefix + table.rows_of
        return Table(
            self.prefix + key,
            title=f"{table.title}, as planned",
            purpose="",
            row_name=table.row_name,
            rows_of=rows_of,
            lines=lines,
            listed=False,
            columns=tuple(self._renamed(key, column) for column in columns if column),
        )

    def _renamed(self, table: str, column: Column) -> Column:
        look = replace(column.look, working=True, measure="", drawn=False)
        if self._given((table, column.key)):
            return replace(column, look=look)
        if isinstance(column, Pulled):
            return self._pulled(table, replace(column, look=look))
        if isinstance(column, Flag):
            return replace(
                column, when=self._text(column.when), why=self._text(column.why), do=self._text(column.do), look=look
            )
        if isinstance(column, Typed | Said):
            raise TypeError(f"{self.prefix}{table}.{column.key}: typed, and nothing is put in its place")
        kind = replace(column.kind, table=self._second(column.kind.table))
        return replace(
            column, formula=self._formula(column.formula), kind=kind, seed=self._text(column.seed), look=look
        )

    def _pulled(self, table: str, column: Pulled) -> Pulled:
        place, _, key = self._target(table, column).rpartition(".")
        to = self.tables[table].rows_of if self._same_rows(table, column) else ""
        via = self._second(to) if to else self._row_of(table, column.via)
        home = place if place in self.tables else ""
        return replace(column, via=via, of=f"{self._second(place)}.{key}" if home or "." in column.of else key)

    def _second(self, table: str) -> str:
        return self.prefix + table if table in self.tables else table

    def _text(self, text: str) -> str:
        return NAME.sub(lambda m: here(self._name(m[1])), text)

    def _name(self, name: str) -> str:
        words = WORDS if name.startswith(WORDS) else ""
        place, dot, key = name.removeprefix(WORDS).partition(".")
        return f"{words}{self._second(place)}.{key}" if dot else name

    def _formula(self, formula: Formula) -> Formula:
        return replace(
            formula,
            text=self._text(formula.text),
            expects=tuple((self._name(name), unit) for name, unit in formula.expects),
            needs=tuple(self._name(name) for name in formula.needs),
            decides=self._text(formula.decides),
            within=tuple((self._text(text), unit) for text, unit in formula.within),
        )


def _names(column: Column) -> list[str]:
    """Every name in the formula, the seed or the sentences of a column."""
    if isinstance(column, Flag):
        return NAME.findall(column.when + column.why + column.do)
    if isinstance(column, Computed):
        return [*NAME.findall(column.formula.text + column.seed), *column.formula.needs]
    return []
