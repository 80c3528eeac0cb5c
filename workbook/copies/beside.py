"""What people put beside our tables: columns of their own, and whole sheets; cells that belong to neither get a sheet."""

import re
from collections.abc import Iterable, Iterator

from workbook.cells.placing import WORKINGS, letters, workings_of
from workbook.cells.ways import BACK, FORWARD
from workbook.copies.content import AddedSheet
from workbook.copies.grids import At, Book, Grid, Held, Raw, address
from workbook.copies.locating import Located
from workbook.copies.values import as_content, as_value, shown
from workbook.tables.kinds import Value
from workbook.tables.sheet import Sheet
from workbook.tables.units import SYSTEMS, twin, written

FORM_WIDTH = 4
LABEL = re.compile(r'HYPERLINK\(.*"([^"]*)"\)$')


def beside(places: dict[str, Located]) -> dict[str, dict[int, str]]:
    """The columns that people added to each list, with their headers."""
    found: dict[str, dict[int, str]] = {}
    for sheet in {place.grid.title for place in places.values()}:
        here = [p for p in places.values() if p.grid.title == sheet and not p.table.form]
        for place, at, header in _unknown(here):
            columns = found.setdefault(place.table.key, {})
            taken = {*columns.values(), *(c.key for c in place.table.columns)}
            columns[at] = _unlike(header or f"Column {letters(at)}", taken)
    return {key: dict(sorted(columns.items())) for key, columns in found.items()}


def _unlike(header: str, taken: set[str]) -> str:
    """The header, told apart from others of the same words."""
    return next(name for name in (header, *(f"{header} ({i})" for i in range(2, 10_000))) if name not in taken)


def _unknown(here: list[Located]) -> Iterator[tuple[Located, int, str]]:
    """Columns with content among the rows of a list, or beside them, that are none of ours; the list on their left has them."""
    ours = {at for place in here for at in place.ours}
    owner = {at: place for place in here if place.table.is_list for at in place.ours}
    if not owner:
        return
    grid = here[0].grid
    start = min(place.header_row for place in here)
    for at in sorted({column for (row, column) in grid.cells if row >= start and column not in ours}):
        left = [column for column in owner if column < at]
        place = owner[max(left) if left else min(owner)]
        header = shown(grid.cells.get((place.header_row, at), Raw(None)).value)
        if header or _among_rows(place, at):
            yield place, at, header


def _among_rows(place: Located, at: int) -> bool:
    """Whether something stands in this column in a row that holds data."""
    typed = [column.at for column in place.typed.values()]
    return any(
        at in cells and any(column in cells for column in typed)
        for row, cells in place.grid.rows.items() if row >= place.first_row
    )  # fmt: skip


def added_sheets(
    book: Book,
    places: dict[str, Located],
    added: dict[str, dict[int, str]],
    ours: tuple[Sheet, ...],
    read: set[tuple[str, str]],
) -> tuple[AddedSheet, ...]:
    """Sheets that people added, and a sheet for what they put on one of ours outside of everything.

    read: sheet and cell of every note that a table has taken.
    """
    parts = [*places.values(), *(place.behind for place in places.values() if place.behind)]
    known = {place.grid.title for place in parts}
    names = {title for sheet in ours for title in (sheet.title, workings_of(sheet).title)}
    words = _words(ours, places)
    taken = {title for title in book.grids if title in known or title in names}
    found: list[AddedSheet] = []
    for title, grid in book.grids.items():
        if title not in known:
            cells = {} if title in names else _cells(grid, grid.cells)
            notes = {} if title in names else grid.notes
        else:
            here = [place for place in parts if place.grid.title == title]
            said = {place.last_row: _said(place) for place in here if place.table.form}
            strays = [at for at in _strays(grid, here, added) if _shown(grid, at) not in words]
            moved = {at for at in strays for last, ours in said.items() if at[0] <= last and grid.text(*at) in ours}
            cells = _cells(grid, (at for at in strays if at not in moved))
            notes = {at: words for at, words in grid.notes.items() if (title, address(*at)) not in read}
        cells |= {at: f"{shown(_held(grid, at))} [note: {note}]".strip() for at, note in notes.items()}
        if cells:
            origin = title if title in taken else ""
            then = {at: as_value(grid.cells[at].value) for at in cells if at in grid.cells and grid.cells[at].formula}
            shown_then = {at: value for at, value in then.items() if value is not None}
            named = _unlike(f"From {title}" if origin else title, {*book.grids} - {title} | {s.title for s in found})
            found.append(AddedSheet(named, cells, shown_then, origin))
    return tuple(found)


def _shown(grid: Grid, at: At) -> str:
    """The words in a cell; those of a link also where a program has saved no value of it."""
    label = LABEL.search(grid.cells[at].formula or "")
    return grid.text(*at) or (label[1] if label else "")


def _said(form: Located) -> set[str]:
    """Labels, units and helps of a form, which a column that was moved or put in may have taken out of its place."""
    found = {form.table.title}
    for column in form.table.columns:
        base = getattr(column, "unit", "")
        found |= {getattr(column, "label", ""), getattr(column, "help", ""), written(base)}
        found |= {written(other.unit) for system in SYSTEMS if (other := twin(base, system, bought=column.look.bought))}
    return found - {""}


def _words(ours: tuple[Sheet, ...], places: dict[str, Located]) -> set[str]:
    """Our own titles and notes, wherever they were moved to."""
    found = {words for sheet in ours for words in (sheet.title, sheet.purpose, *sheet.remarks)}
    found |= {
        way + title for sheet in ours for title in (sheet.title, sheet.title + WORKINGS) for way in (BACK, FORWARD)
    }
    for table in (place.table for place in places.values()):
        found |= {table.title, table.purpose, *(column.look.group for column in table.columns)}
    return found - {""}


def _held(grid: Grid, at: At) -> Held | None:
    return grid.cells.get(at, Raw(None)).value


def _cells(grid: Grid, wanted: Iterable[At]) -> dict[At, Value]:
    found: dict[At, Value] = {}
    for at in wanted:
        raw = grid.cells[at]
        value = as_content(*raw)
        if value is not None:
            found[at] = value
    return found


def _strays(grid: Grid, here: list[Located], added: dict[str, dict[int, str]]) -> list[At]:
    """Cells on a sheet of ours that are neither ours nor of an added column."""
    tables = [place for place in here if not place.table.form]
    forms = [place for place in here if place.table.form]
    start = min((place.header_row for place in tables), default=0)
    ours: dict[int, int] = {}
    for place in tables:
        for at in (*place.ours, *(added.get(place.table.key, {}) if place.typed else {})):
            ours[at] = min(place.header_row - 1, ours.get(at, place.header_row))
    # Title, purpose and notes of the sheet stand in the first column above the tables.
    return [
        (row, column) for (row, column) in grid.cells
        if not any(row <= form.last_row and -1 <= column - form.across < FORM_WIDTH - 1 for form in forms)
        and not (column == 1 and row < start)
        and not (column in ours and row >= ours[column])
    ]  # fmt: skip


def describe(sheet: AddedSheet) -> str:
    """An added sheet in one line."""
    first = min(sheet.cells)
    return f"{sheet.title}: {len(sheet.cells)} cells, from {address(*first)} on"
