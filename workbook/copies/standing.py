"""Formulas as they should be beside those that stand in a file, column by column."""

import itertools
from collections.abc import Iterator
from dataclasses import dataclass

from workbook.cells.pages import Cell, Page, Run
from workbook.cells.slots import Placed, Slot
from workbook.copies.formulas import Lanes
from workbook.copies.grids import Area, At, Grid, Raw
from workbook.copies.sharing import Shared

FEW = 3  # rows that are as quickly looked at one by one


@dataclass
class Column:
    """One column as it lies in the fresh workbook and in the file; of a form, one cell."""

    here: Placed
    slot: Slot
    area: Area
    top: int
    count: int

    @property
    def rows(self) -> range:
        """Its rows, from the top of the table, as many as the file has; -1 is the row in which a running count starts."""
        first = -1 if getattr(self.slot.column, "seed", "") else 0
        return range(1) if self.here.table.form else range(first, min(self.here.rows, self.count))

    @property
    def lost(self) -> list[At]:
        """The cells of rows that the file has no more."""
        rows = () if self.here.table.form else range(max(0, self.count), self.here.rows)
        return [self.fresh(i) for i in rows]

    def there(self, index: int) -> At:
        """The cell of a row in the file."""
        return (self.area.top if self.here.table.form else self.top + index), self.area.left

    def fresh(self, index: int) -> At:
        """The same cell in the fresh workbook."""
        return (self.slot.at, self.here.across) if self.here.table.form else (self.here.first_row + index, self.slot.at)

    @property
    def label(self) -> str:
        """The column as its header says it."""
        return self.slot.column.label or self.slot.column.key


class Sheet:
    """One page of the fresh workbook while cells are put into it."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.cells = {(cell.row, cell.column): cell for cell in page.cells}
        self.single = {(cell.row, cell.column): str(cell.content) for cell in page.cells if cell.kind == "formula"}
        self.alone: dict[int, list[int]] = {}
        for row, at in self.single:
            self.alone.setdefault(at, []).append(row)
        self.runs: dict[int, list[Run]] = {}
        for run in page.runs:
            self.runs.setdefault(run.column, []).append(run)
        self.instead: dict[int, set[int]] = {}

    def run(self, place: At) -> Run | None:
        """The column of formulas in which a cell lies."""
        runs = self.runs.get(place[1], ())
        return next((run for run in runs if 0 <= place[0] - run.first_row < run.rows), None)

    def reckons(self, place: At) -> bool:
        """Whether a formula belongs there."""
        return place in self.single or self.run(place) is not None

    def reckoned(self, column: Column) -> list[int]:
        """The rows of a column in which formulas belong."""
        rows, at = column.rows, column.slot.at
        if column.here.table.form:
            return [i for i in rows if self.reckons(column.fresh(i))]
        first = column.here.first_row
        alone = (row - first for row in self.alone.get(at, ()))
        runs = (range(run.first_row - first, run.first_row - first + run.rows) for run in self.runs.get(at, ()))
        return sorted({i for i in (*alone, *itertools.chain.from_iterable(runs)) if i in rows})

    def text(self, place: At) -> str:
        """The formula that belongs there."""
        run = self.run(place)
        return run.text(place[0]) if run else self.single[place]

    def put(self, place: At, cell: Cell) -> None:
        """A cell in the place of what was there."""
        self.cells[place] = cell
        self.instead.setdefault(place[1], set()).add(place[0])

    def write(self) -> None:
        """The page as it is now: runs of formulas end where something else stands."""
        self.page.cells = list(self.cells.values())
        self.page.runs = [part for run in self.page.runs for part in _around(run, self.instead.get(run.column, set()))]


def _around(run: Run, rows: set[int]) -> Iterator[Run]:
    """The run without some of its rows."""
    start = run.first_row
    for row in sorted(r for r in rows if run.first_row <= r < run.first_row + run.rows):
        if row > start:
            yield Run(run.column, start, row - start, run.template, run.style)
        start = row + 1
    if start < run.first_row + run.rows:
        yield Run(run.column, start, run.first_row + run.rows - start, run.template, run.style)


@dataclass
class Comparison:
    """The formulas of a column as it is built, beside those that stand in the file."""

    built: Lanes
    found: Lanes
    to_the_letter: bool

    def wanted(self, column: Column, index: int, fresh: Sheet) -> str:
        """What the formula of a row should be, told by names."""
        return self.built.alike(fresh.text(column.fresh(index)), column.slot.sheet, index)

    def stands(self, column: Column, index: int, there: Grid) -> str:
        """What it is; nothing where there is none."""
        formula = there.cells.get(column.there(index), Raw(None)).formula
        return self.found.alike(formula, there.title, index) if formula else ""

    def same(self, column: Column, index: int, fresh: Sheet, there: Grid) -> bool:
        """Whether it is what it should be."""
        formula = there.cells.get(column.there(index), Raw(None)).formula
        if self.to_the_letter and _same_text(formula, fresh.text(column.fresh(index))):
            return True
        return bool(formula) and self.stands(column, index, there) == self.wanted(column, index, fresh)

    def apart(self, column: Column, rows: list[int], fresh: Sheet, there: Grid) -> tuple[list[int], list[int]]:
        """The rows with the right formula, and those to be looked at one by one.

        A formula that many rows share is right in all of them when it is in the first two and the last: from row to
        row both move alike.
        """
        same: list[int] = []
        odd: list[int] = []
        for is_moving, group in _moving_alike(column, rows, there):
            if is_moving and all(self.same(column, index, fresh, there) for index in {*group[:2], group[-1]}):
                same += group
                continue
            for index in group:
                formula = there.cells.get(column.there(index), Raw(None)).formula
                right = self.to_the_letter and _same_text(formula, fresh.text(column.fresh(index)))
                (same if right else odd).append(index)
        return same, odd


def _moving_alike(column: Column, rows: list[int], there: Grid) -> list[tuple[bool, list[int]]]:
    """The rows of a column in groups, and of each whether it is one formula that moves from row to row.

    Many share it by the file's own word, or each has it written out, as some programs save them.
    """
    shared: dict[int, list[int]] = {}
    alone: list[int] = []
    found: list[tuple[bool, list[int]]] = []
    last: Shared | None = None
    for index in rows:
        place = column.there(index)
        formula = there.cells.get(place, Raw(None)).formula
        if formula and (by := there.shared.get(place)):
            shared.setdefault(id(by), []).append(index)
        elif not formula:
            alone.append(index)
        elif last and last.at(place) == formula:
            found[-1][1].append(index)
        else:
            last = Shared(formula, place)
            found.append((True, [index]))
    written = [(len(group) > FEW, group) for _, group in found]
    return [*((True, group) for group in shared.values()), *written, (False, alone)]


def _same_text(one: str, other: str) -> bool:
    return one.removeprefix("=") == other.removeprefix("=")
