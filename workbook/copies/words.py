"""Rows, columns and values of a copy in words, in the units that its people see."""

import datetime
from collections.abc import Iterable

from workbook.copies.content import Content, Entry
from workbook.copies.identity import ADDED, NOTE, TYPED, Held, Line, Spot, Unread, cells
from workbook.tables.columns import Typed
from workbook.tables.table import Table
from workbook.tables.units import twin, written

NOTHING = "(blank)"


def column(table: Table, spot: Spot) -> str:
    """The column as its header says it."""
    label = next((c.label for c in table.columns if c.key == spot.name and c.label), spot.name)
    return {ADDED: f"{spot.name} (added)", NOTE: f"{label}: note"}.get(spot.part, label)


def place(table: Table, entry: Entry, spot: Spot) -> str:
    """A cell, by its table, row and column."""
    return f"{table.title}, {row(table, entry)}, {column(table, spot)}"


def gone_columns(content: Content, tables: Iterable[Table]) -> list[str]:
    """A line for each table that is in a file without some of its columns."""
    found = []
    for table in tables:
        gone = [c.label for c in table.typed if c.key in content.lacking.get(table.key, ())]
        if gone:
            found.append(
                f"{table.title}: no {'column' if len(gone) == 1 else 'columns'} {', '.join(gone)} in {content.name}"
            )
    return found


def unit(typed: Typed | None, system: str) -> str:
    """The unit in which a column is shown."""
    if typed is None:
        return ""
    other = twin(typed.unit, system, bought=typed.look.bought)
    return written(other.unit if other else typed.unit)


def value(held: Held, typed: Typed | None = None, system: str = "metric") -> str:
    """What stands in a cell, with its unit."""
    if held is None:
        return NOTHING
    if isinstance(held, Unread):
        return f"'{held.text}'"
    if isinstance(held, Line):
        return "; ".join(value(one) for _, one in held.cells)
    if isinstance(held, datetime.date):
        return held.isoformat()
    if isinstance(held, str | bool):
        return str(held)
    other = twin(typed.unit, system, bought=typed.look.bought) if typed else None
    shown = other.shown(held) if other else held
    said = unit(typed, system)
    return f"{shown:.10g}" + (f" {said}" if said else "")


def row(table: Table, entry: Entry) -> str:
    """What a row is called."""
    if table.form:
        return table.title
    found = cells(entry)
    parts = [found.get(Spot(TYPED, key)) for key in table.row_name]
    if all(part is None for part in parts):
        return "(no name)"
    # A line of goods has a code and no species: what is blank is not part of the name.
    return ": ".join(value(part) for part in parts if part is not None)


def whole(table: Table, entry: Entry, system: str) -> str:
    """All that stands in a row but its name."""
    typed = {c.key: c for c in table.typed}
    order = {key: at for at, key in enumerate(typed)}
    found = sorted(
        cells(entry).items(), key=lambda pair: (pair[0].part != TYPED, order.get(pair[0].name, 999), pair[0])
    )
    return "; ".join(
        f"{column(table, spot)} {value(held, typed.get(spot.name) if spot.part == TYPED else None, system)}"
        for spot, held in found
        if not (spot.part == TYPED and spot.name in table.row_name)
    )
