"""A name that was changed in its own list, but not where others name its row: which one it is now, and followed there."""

import csv
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace

from workbook.build import templates_folder
from workbook.copies.content import Content
from workbook.copies.identity import folded, is_keyed, with_links
from workbook.tables.table import Table


@dataclass(frozen=True)
class Renamed:
    """A row that others still know by the name it had: where they are, and how many."""

    table: Table
    old: str
    new: str
    held: dict[str, int]

    @property
    def where(self) -> str:
        """The lists that hold the old name, with how many rows."""
        return ", ".join(f"{title} ({rows})" for title, rows in self.held.items())


def followed(content: Content, tables: Iterable[Table], *, follow: bool) -> tuple[Content, list[str]]:
    """The content with such names followed, or as it is with an offer to; what is told of each, a line for a name."""
    tables, said, names = list(tables), [], {}
    for one in renamed(content, tables):
        if follow:
            names[one.table.key] = {folded(one.old): one.new}
            said.append(f"{one.table.title}: '{one.old}' is '{one.new}' now, followed in {one.where}")
        else:
            said.append(
                f"{one.table.title}: '{one.old}' is not there any more, but stands in {one.where}; if it is "
                f"'{one.new}' now, build with --follow to put that in its place"
            )
    known = {table.key: table for table in tables}
    done = {
        key: tuple(with_links(known[key], entries, names)) if key in known else entries
        for key, entries in content.tables.items()
    }
    return (replace(content, tables=done) if names else content), said


def renamed(content: Content, tables: Iterable[Table]) -> list[Renamed]:
    """Only where there can be no doubt: one name of a list is gone, and one of its rows is named nowhere.

    A row that the package's own library has under the same name is none of them.
    """
    tables, found = list(tables), []
    for table in tables:
        if not is_keyed(table) or table.key not in content.tables:
            continue
        key = table.row_name[0]
        there = {folded(name): str(name) for e in content.tables[table.key] if (name := e.values.get(key))}
        used, held = _named(content, tables, table.key)
        gone = [name for name in used if name not in there]
        fresh = [name for name in there if name not in used and name not in _given(table)]
        if len(gone) == len(fresh) == 1:
            found.append(Renamed(table, used[gone[0]], there[fresh[0]], held[gone[0]]))
    return found


def _named(content: Content, tables: Iterable[Table], target: str) -> tuple[dict[str, str], dict[str, dict[str, int]]]:
    """The names by which rows of a list are known elsewhere, as they are spelled there, and in how many rows of which."""
    used: dict[str, str] = {}
    held: dict[str, dict[str, int]] = {}
    for table in tables:
        links = [c for c in table.typed if c.kind.name == "link" and c.kind.table == target]
        for column in links if table.is_list else ():
            words = {folded(word) for word in column.kind.choices}
            names = [e.values.get(column.key) for e in content.tables.get(table.key, ())]
            for name, many in Counter(folded(name) for name in names if name).items():
                if name not in words:
                    used.setdefault(name, next(str(one) for one in names if folded(one) == name))
                    rows = held.setdefault(name, {})
                    rows[table.title] = rows.get(table.title, 0) + many
    return used, held


def _given(table: Table) -> set[str]:
    """The names that the package gives the rows of a list."""
    path = templates_folder() / "shared" / f"{table.key}.csv"
    if not path.is_file():
        return set()
    with path.open(encoding="utf-8", newline="") as file:
        return {folded(row.get(table.row_name[0])) for row in csv.DictReader(file)}
