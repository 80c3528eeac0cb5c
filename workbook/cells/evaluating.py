"""Values of formula cells; with loading.py the only user of ironcalc."""

import contextlib
import datetime
import math
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, cast

import ironcalc

from workbook.cells.loading import loaded
from workbook.cells.pages import Page, serial
from workbook.cells.placing import letters
from workbook.findings import FormulaError

WORD = re.compile(r"(?<![\w.])[a-z]\w+(?![\w(])")
NOT_VALUES = (
    "#ERROR!",
    "#NAME?",
    "#N/IMPL!",
    "#CIRC!",
    "#REF!",
    "#VALUE!",
    "#DIV/0!",
    "#N/A",
    "#NUM!",
    "#NULL!",
    "#SPILL!",
)
# What a formula may show because of what stands in other cells; the rest says that the engine did not take it.
ERRORS_OF_DATA = ("#VALUE!", "#DIV/0!", "#N/A", "#NUM!")


class Values(Mapping[tuple[str, int, int], str | float]):
    """Values by sheet, row and column, kept column by column: a key for each of a million cells would outweigh them."""

    def __init__(self) -> None:
        self._columns: dict[tuple[str, int], tuple[int, list[str | float | None]]] = {}
        self._texts: dict[str, str] = {}

    def put(self, sheet: str, row: int, column: int, value: str | float) -> None:
        """Remember a value; the same text is kept once."""
        if isinstance(value, str):
            value = self._texts.setdefault(value, value)
        first, cells = self._columns.setdefault((sheet, column), (row, []))
        if row < first:
            cells[:0] = [None] * (first - row)
            first = row
            self._columns[sheet, column] = first, cells
        cells += [None] * (row - first + 1 - len(cells))
        cells[row - first] = value

    def put_run(self, sheet: str, first_row: int, column: int, values: list[str | float]) -> None:
        """Remember the values of cells below each other."""
        if (sheet, column) in self._columns:
            for row, value in enumerate(values, first_row):
                self.put(sheet, row, column, value)
        elif values:
            once = self._texts.setdefault
            self._columns[sheet, column] = first_row, [once(v, v) if type(v) is str else v for v in values]

    def __getitem__(self, at: tuple[str, int, int]) -> str | float:
        sheet, row, column = at
        first, cells = self._columns.get((sheet, column), (0, []))
        value = cells[row - first] if 0 <= row - first < len(cells) else None
        if value is None:
            raise KeyError(at)
        return value

    def column(self, sheet: str, column: int, rows: range) -> list[str | float]:
        """The values of a column in some rows, all of which have one."""
        first, cells = self._columns.get((sheet, column), (0, []))
        found = cells[rows.start - first : rows.stop - first] if rows.start >= first else []
        if len(found) != len(rows) or None in found:
            raise KeyError((sheet, rows, column))
        return cast("list[str | float]", found)

    def __iter__(self) -> Iterator[tuple[str, int, int]]:
        for (sheet, column), (first, cells) in self._columns.items():
            for row, value in enumerate(cells, first):
                if value is not None:
                    yield sheet, row, column

    def __len__(self) -> int:
        return sum(value is not None for _, cells in self._columns.values() for value in cells)


class Plain:
    """Formulas with addresses for names: ironcalc looks a name up along a list, an address at once."""

    def __init__(self, names: dict[str, tuple[str, int, int, int, int]], plan_date: datetime.date) -> None:
        self.names = names
        self.areas: dict[str, str] = {}  # of those that were met
        self.today = str(serial(plan_date))

    def __call__(self, text: str) -> str:
        """The same formula; TODAY stands for the plan date. Words in quotes stay as they are."""
        parts = text.replace("TODAY()", self.today).split('"')
        parts[::2] = [WORD.sub(self._area_for, part) for part in parts[::2]]
        return '"'.join(parts)

    def _area_for(self, word: re.Match[str]) -> str:
        found = self.areas.get(word[0])
        if found is None:
            place = self.names.get(word[0])
            found = self.areas[word[0]] = _area(*place) if place else word[0]
        return found


def _area(sheet: str, top: int, left: int, bottom: int, right: int) -> str:
    a, b = letters(left), letters(right)
    return f"'{sheet}'!${a}${top}" + ("" if (top, left) == (bottom, right) else f":${b}${bottom}")


def evaluate(
    pages: Iterable[Page],
    names: dict[str, tuple[str, int, int, int, int]],
    plan_date: datetime.date,
    *,
    may_fail: bool = False,
) -> Values:
    """Value of every formula cell, with TODAY standing for the plan date.

    may_fail: people may have typed anything over the cells that the formulas look at, so an error is a value too.
    """
    pages = list(pages)
    plain = Plain(names, plan_date)
    model = loaded(pages, plain)
    for i, page in enumerate(pages):
        _fill(model, i, page, plain)
    model.evaluate()
    found = Values()
    for i, page in enumerate(pages):
        _read(model, i, page, found, may_fail=may_fail)
    return found


def _fill(model: ironcalc.Model, i: int, page: Page, plain: Plain) -> None:
    """Every single cell of a sheet as the engine takes it."""
    put: dict[str, Callable[[int, int, int, Any], None]] = {
        "number": model.update_cell_with_number,
        "text": model.update_cell_with_text,
        "formula": model.update_cell_with_formula,
    }
    for row, column, kind, content, _ in page.cells:
        if (row, column) in page.own:
            _put_own(model, (i, row, column), plain(str(content)))
        elif kind != "blank":
            put[kind](i, row, column, plain(str(content)) if kind == "formula" else content)


def _read(model: ironcalc.Model, i: int, page: Page, found: Values, *, may_fail: bool) -> None:
    """The values of a sheet's formulas."""
    title, take = page.placed.sheet.title, model.get_cell_value

    def known(row: int, column: int, value: object) -> str | float:
        if (row, column) in page.own:
            return _own_value(model, (i, row, column))
        if may_fail:
            return (
                "" if value is None else str(value).upper() if isinstance(value, bool) else cast("str | float", value)
            )
        if type(value) is float or (type(value) is str and value[:1] != "#"):
            return value
        return _value(model, title, (i, row, column))

    for cell in page.cells:
        if cell.kind == "formula":
            found.put(title, cell.row, cell.column, known(cell.row, cell.column, take(i, cell.row, cell.column)))
    for run in page.runs:
        rows, at = range(run.first_row, run.first_row + run.rows), run.column
        values = [take(i, row, at) for row in rows]
        # Most are numbers, or the blank of a row in which nothing stands yet.
        found.put_run(title, run.first_row, at, [v if v == "" or type(v) is float else known(row, at, v)
                                                 for row, v in zip(rows, values, strict=True)])  # fmt: skip


def is_error(value: object) -> bool:
    """Whether a cell shows that its formula failed."""
    return isinstance(value, str) and value in NOT_VALUES


def _put_own(model: ironcalc.Model, at: tuple[int, int, int], text: str) -> None:
    """A person's own formula; what the engine won't take stays blank until an office program reckons it."""
    with contextlib.suppress(Exception):
        model.update_cell_with_formula(*at, text)


def _own_value(model: ironcalc.Model, at: tuple[int, int, int]) -> str | float:
    """The value of a person's own formula, which may be an error; blank where only this engine fails."""
    found = model.get_cell_value(*at)
    if found is None or (isinstance(found, str) and found in NOT_VALUES and found not in ERRORS_OF_DATA):
        return ""
    value: str | float = found
    return value if isinstance(value, str) or math.isfinite(value) else ""


def _value(model: ironcalc.Model, title: str, at: tuple[int, int, int]) -> str | float:
    found = model.get_cell_value(*at)
    if found is None:
        return ""
    if isinstance(found, bool):
        raise FormulaError(
            f"{title}, row {at[1]}, column {at[2]}: the formula gives {found}; words or numbers are wanted"
        )
    if is_error(found):
        text = model.get_cell_formula(*at)
        raise FormulaError(f"{title}, row {at[1]}, column {at[2]}: {text} gives {found}")
    value: str | float = found
    return value
