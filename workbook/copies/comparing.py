"""What was typed differently in two workbooks: by table, row and column."""

from collections.abc import Iterable, Iterator
from dataclasses import asdict, dataclass

from workbook.copies import words
from workbook.copies.alike import level
from workbook.copies.content import AddedSheet, Content, Entry, Place
from workbook.copies.grids import address
from workbook.copies.identity import NOTE, TYPED, Rows, Spot, cells, completed, declared, pair_rows, renames, with_links
from workbook.copies.meanings import as_ours
from workbook.tables.kinds import Value
from workbook.tables.table import Table

WHOLE_ROW = ("added", "removed")


@dataclass(frozen=True)
class Change:
    """One difference.

    what: added or removed (a row, an added column, an added sheet), changed, renamed, or note.
    column: its key or header; of a row that was added or removed nothing. old, new: in words, with units.
    places: where it stands in each of the two.
    """

    what: str
    table: str
    title: str
    row: str
    column: str
    label: str
    old: str
    new: str
    places: tuple[str, str] = ("", "")


def compare(ours: Content, theirs: Content, tables: Iterable[Table]) -> list[Change]:
    """Every difference, in the order of the tables; values in the units of the first.

    Where rows stand in their table is none. A link that only follows a renamed row is none of its own.
    """
    known = declared(tables, ours, theirs)
    both = ours, theirs
    ours, theirs = completed(theirs, ours, known.values()), completed(ours, theirs, known.values())
    names = renames(ours, theirs, known.values())
    found: list[Change] = []
    for key, table in known.items():
        mine, yours = ours.tables.get(key, ()), with_links(table, theirs.tables.get(key, ()), names)
        found += _gone(table, *(content.lacking.get(key, ()) if key in content.tables else () for content in both))
        found += _columns(table, ours.added_columns.get(key, ()), theirs.added_columns.get(key, ()))
        found += _rows(table, mine, yours, (ours.units, theirs.units))
    return [*found, *_sheets(ours.added_sheets, theirs.added_sheets)]


def as_json(changes: Iterable[Change]) -> list[dict[str, object]]:
    """The same for other programs."""
    return [asdict(change) for change in changes]


def _rows(table: Table, ours: tuple[Entry, ...], theirs: list[Entry], systems: tuple[str, str]) -> Iterator[Change]:
    a, b = Rows(table, ours, systems[0]), Rows(table, theirs, systems[1])
    found = pair_rows(a, b)
    level(a, b, found.together)
    renamed = {i for i, _ in found.renamed}
    for i, j in found.together:
        if a.plain[i] != b.plain[j]:
            yield from _cells(a, i, b, j, "renamed" if i in renamed else "changed")
    for what, entries, positions in (("removed", ours, found.gone), ("added", theirs, found.new)):
        for at in positions:
            if entry := entries[at] if cells(entries[at]) else None:
                said, place = words.whole(table, entry, a.system), next((str(p) for p in entry.places.values()), "")
                old, new = (said, "") if what == "removed" else ("", said)
                places = (place, "") if what == "removed" else ("", place)
                yield Change(what, table.key, table.title, words.row(table, entry), "", "the row", old, new, places)


def _cells(a: Rows, i: int, b: Rows, j: int, what: str) -> Iterator[Change]:
    table, ours, theirs, system = a.table, a.entries[i], b.entries[j], a.system
    mine, yours = cells(ours), cells(theirs)
    for spot in dict.fromkeys((*mine, *yours)):
        if a.plain[i].get(spot) == b.plain[j].get(spot):
            continue
        typed = a.typed.get(spot.name) if spot.part == TYPED else None
        old, new = (words.value(side.get(spot), typed, system) for side in (mine, yours))
        places = (str(ours.places.get(spot.name, "")), str(theirs.places.get(spot.name, "")))
        sort = "note" if spot.part == NOTE else what
        yield Change(sort, table.key, table.title, words.row(table, ours), spot.name, words.column(table, spot), old, new, places)  # fmt: skip


def _gone(table: Table, ours: tuple[str, ...], theirs: tuple[str, ...]) -> Iterator[Change]:
    """Columns of ours that only one of the two has: one difference each, whatever stood in their rows."""
    for column in table.typed:
        if (column.key in ours) != (column.key in theirs):
            what, old, new = ("added", "", column.label) if column.key in ours else ("removed", column.label, "")
            yield Change(what, table.key, table.title, "", column.key, f"the column {column.label}", old, new)


def _columns(table: Table, ours: tuple[str, ...], theirs: tuple[str, ...]) -> Iterator[Change]:
    for what, headers, others in (("removed", ours, theirs), ("added", theirs, ours)):
        for header in headers:
            if header not in others:
                old, new = (header, "") if what == "removed" else ("", header)
                yield Change(what, table.key, table.title, "", header, "the column", old, new)


def _sheets(ours: tuple[AddedSheet, ...], theirs: tuple[AddedSheet, ...]) -> Iterator[Change]:
    mine, yours = ({s.title.casefold(): s for s in sheets} for sheets in (ours, theirs))
    for key in dict.fromkeys((*mine, *yours)):
        a, b = mine.get(key), yours.get(key)
        if a is None and b is not None:
            yield Change("added", "", b.title, "", "", "the sheet", "", f"{len(b.cells)} cells")
        elif b is None and a is not None:
            yield Change("removed", "", a.title, "", "", "the sheet", f"{len(a.cells)} cells", "")
        elif a is not None and b is not None:
            yield from _sheet(a, as_ours(a, b))


def _sheet(ours: AddedSheet, theirs: AddedSheet) -> Iterator[Change]:
    table = Table("", ours.title, "", (), ())
    for at in sorted({*ours.cells, *theirs.cells}):
        old, new = ours.cells.get(at), theirs.cells.get(at)
        rows = Rows(table, [])
        if rows.plain_of(Spot("", ""), old) != rows.plain_of(Spot("", ""), new):
            yield Change("changed", "", ours.title, address(*at), "", "the cell", _said(old), _said(new), _cells_of(at, ours, theirs))  # fmt: skip


def _cells_of(at: tuple[int, int], *sheets: AddedSheet) -> tuple[str, str]:
    """Where a cell of an added sheet stands in each file; what lay beside our tables stands on their sheet."""
    one, other = (str(Place(sheet.origin or sheet.title, address(*at))) for sheet in sheets)
    return one, other


def _said(held: Value | None) -> str:
    return words.value(held)
