"""A new library under a member's file: what is handed out comes from the club, all else stays the member's."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from workbook.copies import words
from workbook.copies.alike import same
from workbook.copies.content import Content, Entry
from workbook.copies.identity import TYPED, Held, Spot, cells, entry_of, folded, plain
from workbook.findings import BadInputError, Finding
from workbook.tables.columns import Typed
from workbook.tables.table import Table


def with_library(member: Content, library: Content, tables: Iterable[Table]) -> tuple[Content, list[str]]:
    """The member's content on the library of another file, and what changed by that, a line for each row."""
    if member.edition != library.edition:
        found, expected = f"a workbook of the edition {library.edition}", f"the edition {member.edition}"
        raise BadInputError([Finding(library.name, None, "", found, f"{expected}, as {member.name}")])
    handed = [t for t in tables if any(c.handed for c in t.typed) and t.key in library.tables]
    if not handed:
        expected = "a club's workbook: only a club hands out a library"
        raise BadInputError([Finding(library.name, None, "", f"the edition {library.edition}", expected)])
    made, said = dict(member.tables), []
    for table in handed:
        mine, theirs = member.tables.get(table.key, ()), library.tables[table.key]
        under = _Under(table, mine, theirs, (member.units, library.units))
        made[table.key] = tuple(under.rows())
        said += under.said
    return replace(member, tables=made), said


class _Under:
    """One table: the library's rows with what a member has beside them, then the member's own rows."""

    def __init__(self, table: Table, mine: Sequence[Entry], theirs: Sequence[Entry], systems: tuple[str, str]) -> None:
        self.table, self.mine, self.theirs, self.systems = table, mine, theirs, systems
        self.handed = {Spot(TYPED, c.key): c for c in table.typed if c.handed or c.locked}
        self.said: list[str] = []

    def rows(self) -> Iterator[Entry]:
        """The rows of the fresh file, in the order of the library."""
        left = {self._name(entry): entry for entry in reversed(self.mine)}
        for entry in self.theirs:
            had = left.pop(self._name(entry), None)
            yield self._row(entry, had)
        for entry in self.mine:
            if self._name(entry) in left and (entry.values or entry.unread):
                self.said.append(f"{self._words(entry)}: not in the library, kept as your own")
                yield entry

    def _name(self, entry: Entry) -> str:
        """What a row of the library is known by."""
        locked = [column.key for column in self.table.typed if column.locked]
        key = "key" if "key" in locked else self.table.row_name[0]
        return folded(entry.values.get(key))

    def _words(self, entry: Entry) -> str:
        return f"{self.table.title}, {words.row(self.table, entry)}"

    def _row(self, entry: Entry, had: Entry | None) -> Entry:
        theirs = {spot: held for spot, held in cells(entry).items() if spot in self.handed}
        if had is None:
            self.said.append(f"{self._words(entry)}: new")
            return Entry({spot.name: held for spot, held in theirs.items() if isinstance(held, str | int | float)})
        before = {spot: held for spot, held in cells(had).items() if spot in self.handed}
        changes = [self._change(column, before.get(spot), theirs.get(spot)) for spot, column in self.handed.items()]
        if any(changes):
            self.said.append(f"{self._words(entry)}: {'; '.join(filter(None, changes))}")
        own = {spot: held for spot, held in cells(had).items() if spot not in self.handed}
        return entry_of(theirs | own, had.places, had.shown)

    def _change(self, column: Typed, before: Held, now: Held) -> str:
        if same((plain(before, column), self.systems[0]), (plain(now, column), self.systems[1]), column):
            return ""
        old, new = (words.value(held, column, self.systems[0]) for held in (before, now))
        return f"{column.label} {old}, now {new}"
