"""What has to be reckoned for a value: the formulas that it reads, what they read, and so on; all else is left out.

A test that asks for a few columns of a room need not wait for every sheet.
"""

import datetime
import functools
import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Set
from dataclasses import replace
from typing import NamedTuple
from unittest import mock

from openpyxl.utils import column_index_from_string

from tests import remembering
from workbook.build import Built, Plan, compiled
from workbook.cells import compiling, evaluating
from workbook.cells.pages import ROW_MARK, Cell, Page, Records
from workbook.editions import Edition

At = tuple[str, int, int]  # sheet, row, column
NAME_IN_FORMULA = re.compile(r"(?<![\w.])[a-z]\w+(?![\w(])")
# A cell or a range of them, here or on another sheet, with the number of its row or the mark where a column's own row goes.
ROW = rf"(\d+|{ROW_MARK.pattern.replace('(', '(?:')})"
BESIDE = re.compile(rf"(?:('[^']+'|\w+)!)?(?<![\w$.])\$?([A-Z]{{1,3}})\$?{ROW}(?::\$?([A-Z]{{1,3}})\$?{ROW})?")


class Formulas(NamedTuple):
    """One formula in a cell, or in the rows of a column."""

    sheet: str
    column: int
    top: int
    bottom: int
    text: str


class Lineage:
    """Which formulas of a workbook another one reads; nothing else has to be reckoned for it."""

    def __init__(self, pages: Iterable[Page], names: dict[str, tuple[str, int, int, int, int]]) -> None:
        self.names = names
        self.read: dict[Formulas, list[tuple[str, int, int, int, int]]] = {}
        self.columns: dict[tuple[str, int], list[Formulas]] = defaultdict(list)
        for page in pages:
            for found in formulas_of(page):
                self.columns[found.sheet, found.column].append(found)

    def areas(self, reader: Formulas) -> list[tuple[str, int, int, int, int]]:
        """The cells that it reads."""
        if (found := self.read.get(reader)) is None:
            found = self.read[reader] = self._areas(reader)
        return found

    def _areas(self, reader: Formulas) -> list[tuple[str, int, int, int, int]]:
        words, places = _looked_at(reader.text)
        areas = [self.names[word] for word in words if word in self.names]
        for title, left, right, numbers, moving in places:
            rows = [*numbers, *(number + shift for number in moving for shift in (reader.top, reader.bottom))]
            areas.append((title or reader.sheet, min(rows), left, max(rows), right))
        return areas

    def read_by(self, reader: Formulas) -> set[Formulas]:
        """The formulas that it reads the values of."""
        return {found for sheet, top, left, bottom, right in self.areas(reader) for column in range(left, right + 1)
                for found in self.columns[sheet, column] if found.top <= bottom and found.bottom >= top}  # fmt: skip

    def of(self, wanted: Iterable[Formulas], known: Set[Formulas] = frozenset()) -> set[Formulas]:
        """These, what they read, what that reads, and so on, as far as it is not known."""
        found, todo = set(), list(wanted)
        while todo:
            if (one := todo.pop()) not in found:
                found.add(one)
                todo += self.read_by(one) if one not in known else ()
        return found


@functools.lru_cache(maxsize=30_000)
def _looked_at(text: str) -> tuple[list[str], list[tuple[str, int, int, list[int], list[int]]]]:
    """The words of a formula that may be names; and the areas of cells, with their rows and those of them that move."""
    bare, places = "".join(text.split('"')[::2]), []
    for title, first, row, last, end in BESIDE.findall(bare):
        rows = [(int(number.strip("\0")), "\0" in number) for number in (row, end or row)]
        left, right = (column_index_from_string(letters) for letters in (first, last or first))
        moving = [number for number, moves in rows if moves]
        places.append((title.strip("'"), left, right, [number for number, _ in rows], moving))
    return NAME_IN_FORMULA.findall(bare), places


def formulas_of(page: Page) -> Iterator[Formulas]:
    """Every formula of a page."""
    title = page.placed.sheet.title
    for cell in page.cells:
        if cell.kind == "formula":
            yield Formulas(title, cell.column, cell.row, cell.row, str(cell.content))
    for run in page.runs:
        yield Formulas(title, run.column, run.first_row, run.first_row + run.rows - 1, run.template)


def only(page: Page, needed: set[Formulas]) -> Page:
    """A page without all other formulas."""
    places = {(one.column, one.top) for one in needed if one.sheet == page.placed.sheet.title}
    cells = [cell for cell in page.cells if cell.kind != "formula" or (cell.column, cell.row) in places]
    return replace(page, cells=cells, runs=[run for run in page.runs if (run.column, run.first_row) in places])


class AsAsked(Mapping[At, str | float]):
    """The values of a workbook, each reckoned when it is asked for."""

    def __init__(self, pages: list[Page], names: dict[str, tuple[str, int, int, int, int]], day: datetime.date) -> None:
        self.pages, self.names, self.day = pages, names, day
        self.lineage = Lineage(pages, names)
        self.found: dict[At, str | float] = {}
        self.known: set[Formulas] = set()

    def __getitem__(self, at: At) -> str | float:
        sheet, row, column = at
        if at not in self.found:
            asked = [one for one in self.lineage.columns.get((sheet, column), ()) if one.top <= row <= one.bottom]
            if not asked:
                raise KeyError(at)
            needed = self.lineage.of(asked, self.known)
            new = needed - self.known
            sheets = {one.sheet for one in needed} | {area[0] for one in new for area in self.lineage.areas(one)}
            pages = [only(page, new) for page in self.pages if page.placed.sheet.title in sheets]
            for page in pages:
                page.cells += self._as_typed(page.placed.sheet.title, needed & self.known)
            self.found |= evaluating.evaluate(pages, self.names, self.day)
            self.known |= needed
        return self.found[at]

    def _as_typed(self, sheet: str, known: Set[Formulas]) -> Iterator[Cell]:
        """Cells with what is known already in the place of its formulas."""
        for one in (one for one in known if one.sheet == sheet):
            for row in range(one.top, one.bottom + 1):
                value = self.found[sheet, row, one.column]
                kind = "text" if isinstance(value, str) else "number"
                # A cell in which nothing is typed is no empty text.
                yield (
                    Cell(row, one.column, kind, value, ("", ""))
                    if value != ""
                    else Cell(row, one.column, "formula", '=""', ("", ""))
                )

    def __iter__(self) -> Iterator[At]:
        return iter(self.found)

    def __len__(self) -> int:
        return len(self.found)


def as_asked(edition: Edition, records: Records, plan: Plan) -> Built:
    """A workbook of which nothing is reckoned before it is asked for; what texts lead to is no part of it."""
    without_ways = mock.patch.multiple(compiling, linked=lambda _, __, cell: cell, ways=lambda *_: [])
    with remembering.compiled(), without_ways:
        placing, pages = compiled(edition, records, plan)
    return Built(edition, placing, pages, AsAsked(pages, placing.names(), plan.plan_date))  # type: ignore[arg-type]
