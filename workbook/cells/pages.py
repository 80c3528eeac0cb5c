"""What a sheet holds once names have become addresses: single cells, and columns of formulas that differ in their row."""

import datetime
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from workbook.cells.slots import PlacedSheet
from workbook.tables.kinds import Value

EPOCH = datetime.date(1899, 12, 30)
Records = dict[str, list[dict[str, Value]]]
ROW_MARK = re.compile(r"\x00(-?\d+)\x00")


class Cell(NamedTuple):
    """One cell: kind is blank, number, text, formula or link; style is a role with a number format."""

    row: int
    column: int
    kind: str
    content: str | float | None
    style: tuple[str, str]


@dataclass(frozen=True)
class Run:
    """The formulas of one column: the same text in every row, but for the row's number. turns: styles that take turns."""

    column: int
    first_row: int
    rows: int
    template: str
    style: tuple[str, str]
    turns: tuple[tuple[str, str], ...] = ()

    def style_of(self, row: int) -> tuple[str, str]:
        """How the cell in a row looks."""
        return self.turns[(row - self.first_row) % len(self.turns)] if self.turns else self.style

    def text(self, row: int) -> str:
        """The formula of the cell in a row."""
        return ROW_MARK.sub(lambda mark: str(row + int(mark[1])), self.template)

    def texts(self, template: str = "") -> Iterator[tuple[int, str]]:
        """Row and formula of each cell; or of another wording of the same formula."""
        parts = ROW_MARK.split(template or self.template)
        fixed, offsets = parts[::2], [int(p) for p in parts[1::2]]
        pairs = list(zip(offsets, fixed[1:], strict=True))
        for row in range(self.first_row, self.first_row + self.rows):
            yield row, fixed[0] + "".join([f"{row + offset}{text}" for offset, text in pairs])


@dataclass
class Page:
    """All cells of one sheet, with how it was laid out: single cells, columns of formulas, notes on cells.

    own: the cells in which a person's own formulas stand; those may fail. links: the sheet that the text of a cell names.
    """

    placed: PlacedSheet
    cells: list[Cell] = field(default_factory=list)
    runs: list[Run] = field(default_factory=list)
    notes: dict[tuple[int, int], str] = field(default_factory=dict)
    own: set[tuple[int, int]] = field(default_factory=set)
    links: dict[tuple[int, int], str] = field(default_factory=dict)

    def formulas(self) -> Iterator[tuple[int, int, str, tuple[str, str]]]:
        """Row, column, text and style of every formula."""
        for cell in self.cells:
            if cell.kind == "formula":
                yield cell.row, cell.column, str(cell.content), cell.style
        for run in self.runs:
            for row, text in run.texts():
                yield row, run.column, text, run.style_of(row)

    def places(self) -> Iterator[tuple[int, int]]:
        """Row and column of every formula."""
        yield from ((cell.row, cell.column) for cell in self.cells if cell.kind == "formula")
        for run in self.runs:
            yield from ((row, run.column) for row in range(run.first_row, run.first_row + run.rows))

    @property
    def last_row(self) -> int:
        """The lowest row that holds something."""
        return max([1, *(cell.row for cell in self.cells), *(run.first_row + run.rows - 1 for run in self.runs)])

    def __len__(self) -> int:
        return len(self.cells) + sum(run.rows for run in self.runs)


def serial(day: datetime.date) -> int:
    """A date as office programs count it."""
    return (day - EPOCH).days


def own_cell(at: tuple[int, int], value: Value | None) -> Cell:
    """What a person put there, as it is: a text that begins with = is a formula."""
    if value is None or value == "":
        return Cell(*at, "blank", None, ("typed", ""))
    if isinstance(value, datetime.date):
        return Cell(*at, "number", serial(value), ("typed", "date"))
    if isinstance(value, str):
        return Cell(*at, "formula" if value.startswith("=") else "text", value, ("typed", ""))
    return Cell(*at, "number", value, ("typed", ""))
