"""What is wrong with what people typed: cells out of rule, names that are not known or used twice, lists nearly full."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from workbook.cells.slots import Slot
from workbook.copies import words
from workbook.copies.content import Content, Entry
from workbook.copies.grids import Held
from workbook.copies.identity import TYPED, Spot, folded, is_keyed
from workbook.copies.values import shown
from workbook.tables.columns import Typed
from workbook.tables.table import Table
from workbook.tables.units import written


@dataclass(frozen=True)
class Fault:
    """One thing that is wrong: where, in which column, what it is, what stands there and what should."""

    sheet: str
    cell: str
    column: str
    what: str
    found: str
    expected: str


def expected(typed: Typed, slot: Slot | None) -> str:
    """What a cell of this column should hold, in the unit that it shows."""
    kind, other = typed.kind, slot.twin if slot else None
    if kind.name == "number" and other and abs(kind.low) < 1e9 and abs(kind.high) < 1e9:
        return f"a number from {other.shown(kind.low):g} to {other.shown(kind.high):g} {written(other.unit)}"
    unit = f" {written(typed.unit)}" if kind.name == "number" and written(typed.unit) and not other else ""
    return kind.expected + unit


def of_content(content: Content, tables: Mapping[str, Table], slots: Mapping[tuple[str, str], Slot]) -> Iterator[Fault]:
    """Faults that show in the content alone."""
    names = {key: _names(tables[key], entries) for key, entries in content.tables.items() if key in tables}
    for key, entries in content.tables.items():
        if table := tables.get(key):
            for entry in entries:
                yield from _of_entry(table, entry, names, slots)
            if table.typed and is_keyed(table):
                yield from _twice(table, entries)


def _names(table: Table, entries: tuple[Entry, ...]) -> set[str]:
    return {folded(entry.values.get(table.row_name[0])) for entry in entries} - {""}


def _fault(table: Table, entry: Entry, key: str, what: str, found: str, wanted: str) -> Fault:
    place = entry.places.get(key)
    label = words.column(table, Spot(TYPED, key))
    return Fault(
        place.sheet if place else table.title,
        place.cell if place else words.row(table, entry),
        label,
        what,
        found,
        wanted,
    )


def _of_entry(
    table: Table, entry: Entry, names: Mapping[str, set[str]], slots: Mapping[tuple[str, str], Slot]
) -> Iterator[Fault]:
    typed = {column.key: column for column in table.typed if not column.free}
    for key, text in entry.unread.items():
        if key in typed:
            yield _fault(
                table, entry, key, "not what belongs there", text, expected(typed[key], slots.get((table.key, key)))
            )
    for key, column in typed.items():
        value = entry.values.get(key)
        if column.kind.name == "link" and value is not None:
            known = names.get(column.kind.table, set()) | {folded(word) for word in column.kind.choices}
            if folded(value) not in known:
                yield _fault(table, entry, key, "a name that is not known", str(value), column.kind.expected)
        if key.split("_")[-1] == "low" and not column.locked:
            high = key.removesuffix("low") + "high"
            other = entry.values.get(high)
            if isinstance(value, int | float) and isinstance(other, int | float) and value > other:
                yield _fault(
                    table, entry, key, "a low end above the high end", f"{value:g} above {other:g}", "low, then high"
                )


def _twice(table: Table, entries: tuple[Entry, ...]) -> Iterator[Fault]:
    key = table.row_name[0]
    first: dict[str, Entry] = {}
    for entry in entries:
        name = folded(entry.values.get(key))
        if name and name in first:
            place = first[name].places.get(key)
            found = f"{entry.values[key]}, as in {place.cell if place else 'another row'}"
            yield _fault(table, entry, key, "a name used twice", found, "each name once")
        elif name:
            first[name] = entry


def of_cell(column: Typed, held: Held | None) -> tuple[str, str, str] | None:
    """What is wrong with a cell that the reader understands, but the workbook's own formulas do not: what, found, expected."""
    if not isinstance(held, str) or not shown(held):
        return None
    if column.kind.is_number:
        return "text where a number is wanted", f"the text '{shown(held)}'", "a number: formulas do not see this one"
    if column.kind.name in {"key", "link", "choice"} and held != " ".join(held.split()):
        return "blanks around a name", f"'{held}'", f"'{' '.join(held.split())}'"
    return None


def nearly_full(entries: tuple[Entry, ...], rows: int, least: float) -> tuple[str, str] | None:
    """Whether only a few ready rows are left: found and expected."""
    left = rows - sum(bool(entry.values or entry.unread) for entry in entries)
    if left >= least:
        return None
    return f"{max(0, left)} rows left", f"at least {least:g}: build it anew, with more spare rows"
