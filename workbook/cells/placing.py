"""Where everything lies: sheets, header rows, the column of each key, the names of ranges."""

import functools
import re
from dataclasses import dataclass, field

from workbook.tables.columns import SERIOUSNESS, Column, Computed, Pulled, Typed
from workbook.tables.completing import FLAG_BLOCKS
from workbook.tables.schema import Schema
from workbook.tables.sheet import Charts, Sheet
from workbook.tables.table import Table
from workbook.tables.units import Twin, in_a_name, twin

FORM_COLUMNS = ("label", "value", "unit", "help")


@dataclass(frozen=True)
class Slot:
    """One column of cells: whose it is, and whether it shows the base value, its twin or what a person typed."""

    column: Column
    at: int
    unit: str
    twin: Twin | None = None
    shows: str = "base"  # base | twin (computed from base) | typed (a person's, in the twin's unit) | from typed


@dataclass
class Placed:
    """Where one table lies. A form lies on its side: its slots are rows, `across` is its value column.

    on_page: it is part of a printed page, up to the column page_end. head: the rows of group, label, example, unit.
    """

    table: Table
    sheet: str
    first_row: int
    rows: int
    slots: list[Slot] = field(default_factory=list)
    across: int = 0
    on_page: bool = False
    page_end: int = 0
    head: int = 3

    def __post_init__(self) -> None:
        self.base: dict[str, int] = {}

    def add(self, slot: Slot) -> None:
        """Put a slot in place."""
        self.slots.append(slot)
        if slot.shows in {"base", "from typed"}:
            self.base[slot.column.key] = slot.at

    @property
    def last_row(self) -> int:
        """The lowest row."""
        return self.first_row + self.rows - 1


@dataclass
class PlacedSheet:
    """Where the parts of one sheet lie."""

    sheet: Sheet
    header_row: int = 0
    note_rows: list[int] = field(default_factory=list)
    charts: list[tuple[Charts, int]] = field(default_factory=list)
    page_breaks: list[int] = field(default_factory=list)
    last_printed_column: int = 1
    last_column: int = 1

    @property
    def head(self) -> int:
        """How many rows stand above the first one of its lists: group, label, perhaps an example, unit."""
        return 3 + any(isinstance(block, Table) and block.example for block in self.sheet.blocks)


@functools.cache
def letters(number: int) -> str:
    """Letters of a column: 1 is A, 27 is AA."""
    found = ""
    while number:
        number, rest = divmod(number - 1, 26)
        found = chr(65 + rest) + found
    return found


def before_a_cell(sheet: str) -> str:
    """The title of a sheet as it stands before an address, in quotes only where it needs them.

    LibreOffice takes a formula over from the row above when it is spelled as it would spell it, and that is without:
    with needless quotes a sheet of 2,000 rows took twice as long to open.
    """
    return sheet if re.fullmatch("[A-Z][a-z]{2,}", sheet) else f"'{sheet}'"


class Placing:
    """Lays out all sheets for one schema, one number of rows and one unit system."""

    def __init__(self, schema: Schema, sheets: tuple[Sheet, ...], rows: dict[str, int], system: str) -> None:
        self.schema, self.rows, self.system = schema, rows, system
        self.tables: dict[str, Placed] = {}
        self.sheets: dict[str, PlacedSheet] = {}
        self.row_names: dict[str, tuple[str, int, int, int, int]] = {}
        for sheet in sheets:
            self._place(sheet)

    def _place(self, sheet: Sheet) -> None:
        placed = PlacedSheet(sheet)
        self.sheets[sheet.title] = placed
        row = 3
        for _ in sheet.remarks:
            placed.note_rows.append(row)
            row += 1
        for form in sheet.forms:
            row = self._place_form(sheet, self.schema[form.key], row + 1)
            placed.last_printed_column = placed.last_column = 4
        placed.header_row = row + 1
        if sheet.bands:
            self._place_page(placed)
        else:
            self._place_blocks(placed)

    def _place_blocks(self, placed: PlacedSheet) -> None:
        """Blocks side by side, and their working columns at the right of all."""
        sheet, at = placed.sheet, 1
        working: list[tuple[Placed, list[Slot]]] = []
        for block in sheet.blocks:
            if at > 1 and block.key in sheet.new_page_before:
                placed.page_breaks.append(at - 1)
            if isinstance(block, Charts):
                placed.charts.append((block, at))
                at += block.columns + 1
                continue
            table = self.schema[block.key]
            here = Placed(table, sheet.title, placed.header_row + placed.head, self.rows[table.key], head=placed.head)
            self.tables[table.key] = here
            shown, hidden = self._slots(table)
            for slot in shown:
                if f"{table.key}.{slot.column.key}" in sheet.new_page_before:
                    placed.page_breaks.append(at - 1)
                here.add(Slot(slot.column, at, slot.unit, slot.twin, slot.shows))
                at += 1
            working.append((here, hidden))
            at += 1
        placed.last_printed_column = max(placed.last_printed_column, at - 2)
        for here, hidden in working:
            for slot in hidden:
                here.add(Slot(slot.column, at, slot.unit, slot.twin, slot.shows))
                at += 1
            at += bool(hidden)
        placed.last_column = max(placed.last_column, at - 2)

    def _place_page(self, placed: PlacedSheet) -> None:
        """Bands one below the other on the grid; then, at its right, working columns and the forms beside it."""
        sheet, top, working = placed.sheet, placed.header_row, []
        for band in sheet.bands:
            ends = []
            for begin, stack in band.placed:
                row = top
                for table in (self.schema[t.key] for t in stack):
                    here = Placed(table, sheet.title, row + 3, self.rows[table.key], on_page=True)
                    self.tables[table.key] = here
                    shown, hidden = self._slots(table)
                    at = begin
                    for slot in shown:
                        here.add(Slot(slot.column, at, slot.unit, slot.twin, slot.shows))
                        at += slot.column.look.span
                    here.page_end = at - 1
                    working.append((here, hidden))
                    row = here.last_row + 1
                ends.append(row)
            top = max(ends)
        placed.last_printed_column, at = len(sheet.grid), len(sheet.grid) + 2
        for here, hidden in working:
            for slot in hidden:
                here.add(Slot(slot.column, at, slot.unit, slot.twin, slot.shows))
                at += 1
        for form in sheet.beside:
            self._place_form(sheet, self.schema[form.key], placed.header_row, at + 2)
            at += 5
        placed.last_column = at

    def _place_form(self, sheet: Sheet, form: Table, row: int, across: int = 2) -> int:
        here = Placed(form, sheet.title, row + 1, 1, across=across)
        self.tables[form.key] = here
        at = row + 1
        for slot in (slot for slots in self._slots(form) for slot in slots):
            here.add(Slot(slot.column, at, slot.unit, slot.twin, slot.shows))
            at += 1
        return at

    def _slots(self, table: Table) -> tuple[list[Slot], list[Slot]]:
        """Slots that people read, and working slots; each still without its place."""
        shown: list[Slot] = []
        working: list[Slot] = []
        for column in table.columns:
            unit = self.schema.origin(table, column.key)[1].unit
            other = twin(unit, self.system, bought=column.look.bought)
            aside = column.look.working or (column.look.metric_only and self.system == "us")
            place = working if aside else shown
            if isinstance(column, Typed) and other and not column.locked:
                place.append(Slot(column, 0, other.unit, other, "typed"))
                working.append(Slot(column, 0, unit, other, "from typed"))
            elif isinstance(column, Computed | Pulled) and other and (column.look.drawn or not column.look.working):
                place.append(Slot(column, 0, other.unit, other, "twin"))
                working.append(Slot(column, 0, unit, other))
            else:
                place.append(Slot(column, 0, unit))
        return shown, working

    def range_name(self, table: str, slot: Slot) -> str:
        """The defined name of a column or of a form's cell."""
        return f"{table}_{slot.column.key.lstrip('@')}{in_a_name(slot.unit)}"

    def column_name(self, table: str, key: str) -> str:
        """The defined name under which formulas find the base values of a column."""
        here = self.tables[table]
        slot = next(s for s in here.slots if s.column.key == key and s.at == here.base[key])
        return self.range_name(table, slot)

    def name_rows(self, table: str, column: str, prefix: str, keys: list[str]) -> None:
        """Give each row's cell of a column a name of its own."""
        here = self.tables[table]
        for row, key in enumerate(keys, here.first_row):
            self.row_names[f"{prefix}_{key}"] = (here.sheet, row, here.base[column], row, here.base[column])

    def names(self) -> dict[str, tuple[str, int, int, int, int]]:
        """Every defined name with its sheet, first row, first column, last row, last column."""
        found = dict(self.row_names)
        for key, here in self.tables.items():
            for slot in here.slots:
                name = self.range_name(key, slot)
                if here.table.form:
                    found[name] = (here.sheet, slot.at, here.across, slot.at, here.across)
                else:
                    found[name] = (here.sheet, here.first_row, slot.at, here.last_row, slot.at)
            if here.table.flags:
                for block, first in FLAG_BLOCKS.items():
                    left = here.base[first]
                    found[f"{key}_{block[1:]}_block"] = (
                        here.sheet,
                        here.first_row,
                        left,
                        here.last_row,
                        left + len(SERIOUSNESS) - 1,
                    )
        return found
