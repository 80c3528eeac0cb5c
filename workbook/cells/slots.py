"""A place: of one column of cells, of a table, of what stands on a sheet."""

from dataclasses import dataclass, field, replace

from workbook.tables.columns import Column
from workbook.tables.sheet import Charts, Sheet
from workbook.tables.table import Table
from workbook.tables.units import Twin


@dataclass(frozen=True)
class Slot:
    """One column of cells: whose it is, on which sheet, and what it shows.

    shows: base; twin (computed from base); typed (a person's, in the unit of the file); from typed (the same as
    everything reckons with it); answer (on a list, what its workings found).
    rare: seldom typed, so its column starts folded away.
    """

    column: Column
    at: int
    unit: str
    twin: Twin | None = None
    shows: str = "base"
    sheet: str = ""
    rare: bool = False


@dataclass
class Placed:
    """Where one table lies. A form lies on its side: its slots are rows, `across` is its value column.

    on_page: it is part of a printed page, up to the column page_end, below so many titles, its rows of room, title and
    labels. head: the rows of group, label, example, unit.
    workings: the sheet where everything of a list is reckoned, in the same rows; "" where that is its own.
    """

    table: Table
    sheet: str
    first_row: int
    rows: int
    slots: list[Slot] = field(default_factory=list)
    across: int = 0
    on_page: bool = False
    page_end: int = 0
    titles: int = 3
    head: int = 3
    workings: str = ""

    def __post_init__(self) -> None:
        self.base: dict[str, int] = {}
        self._on: dict[str, list[Slot]] = {}

    def add(self, slot: Slot, at: int) -> None:
        """Put a slot in place."""
        is_base = slot.shows in {"base", "from typed"}
        there = self.base_sheet if is_base or slot.shows == "drawn" else self.sheet
        placed = replace(slot, at=at, sheet=there)
        self.slots.append(placed)
        self._on.setdefault(there, []).append(placed)
        if is_base:
            self.base[slot.column.key] = at

    @property
    def base_sheet(self) -> str:
        """The sheet where all that formulas look at stands."""
        return self.workings or self.sheet

    def on(self, sheet: str) -> list[Slot]:
        """Its columns on one of its sheets."""
        return self._on.get(sheet, [])

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
    page_charts: list[tuple[Charts, int, int]] = field(default_factory=list)  # with the row in which they begin
    last_printed_column: int = 1
    last_column: int = 1
    head: int = 3  # rows above the first one of its lists: group, label, perhaps an example, unit
    frozen_columns: int = 0
