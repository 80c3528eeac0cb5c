"""Formulas that people put beside a row: told by their own row, so that a sorted or joined table keeps them."""

import re
from dataclasses import replace

from workbook.copies.content import Entry, Place, Places
from workbook.copies.values import is_formula
from workbook.tables.kinds import Value

# A cell without a sheet's name before it, in a row that is not fixed by $.
CELL = re.compile(r"(?<![\w.!$])(\$?[A-Za-z]{1,3})([0-9]{1,7})(?![\w.(!])")
MARK = "[row]"


def told(entry: Entry, header: str) -> Value | None:
    """What stands in an added column, with cells of the formula's own row marked as such."""
    value, row = entry.added.get(header), row_of(entry)
    if row is None or not is_formula(value):
        return value
    parts = value.split('"')
    parts[::2] = [CELL.sub(lambda m: m[1] + MARK if int(m[2]) == row else m[0], part) for part in parts[::2]]
    return '"'.join(parts)


def put(value: Value, row: int | None) -> Value:
    """The formula in a row."""
    if row is None or not is_formula(value):
        return value
    return value.replace(MARK, str(row))


def row_of(entry: Entry) -> int | None:
    """The row in which an entry was read."""
    if isinstance(entry.places, Places):
        return entry.places.row
    rows = [int(found[1]) for place in entry.places.values() if (found := re.search(r"([0-9]+)$", place.cell))]
    return rows[0] if rows else None


def moved(entry: Entry, row: int, file: str = "") -> Entry:
    """The entry as if it had been read in another row; where it was read in truth is remembered, with its file."""
    if not entry.places:
        return entry
    added = {header: put(told(entry, header) or "", row) for header in entry.added}
    stood = entry.stood or ((file, entry.places) if file else None)
    if isinstance(entry.places, Places):
        return replace(entry, added=added, places=entry.places.moved(row), stood=stood)
    places = {key: Place(place.sheet, re.sub(r"[0-9]+$", str(row), place.cell)) for key, place in entry.places.items()}
    return replace(entry, added=added, places=places, stood=stood)
