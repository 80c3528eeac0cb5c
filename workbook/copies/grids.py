"""A file as sheets of cells, the same for every file format."""

import datetime
import functools
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from workbook.cells.placing import letters

At = tuple[int, int]  # row, column
Held = str | float | bool | datetime.date | datetime.datetime | datetime.time | datetime.timedelta
CONSTANTS = {"=TRUE()": True, "=FALSE()": False}
LONGEST_CONSTANT = max(map(len, CONSTANTS))
# 'Water changes'!$B$4:$B$9, as .xlsx writes it.
AREA = re.compile(
    r"(?:'(?P<quoted>(?:[^']|'')+)'|(?P<plain>[^'!:$\[\]*/\\?]+))!"
    r"\$?(?P<left>[A-Za-z]{1,3})\$?(?P<top>[0-9]{1,7})(?::\$?(?P<right>[A-Za-z]{1,3})\$?(?P<bottom>[0-9]{1,7}))?"
)


class Raw(NamedTuple):
    """What a cell holds: its value, and its formula with its = if it has one."""

    value: Held | None
    formula: str = ""


def held(value: Held | None, formula: str) -> Raw:
    """A cell as it was read; some programs save yes and no as formulas that nobody typed."""
    return Raw(CONSTANTS[formula.upper()]) if formula and is_constant(formula) else Raw(value, formula)


def is_constant(formula: str) -> bool:
    """Whether a formula is a yes or no that somebody typed."""
    return len(formula) <= LONGEST_CONSTANT and formula.upper() in CONSTANTS


class Area(NamedTuple):
    """A rectangle of cells."""

    sheet: str
    top: int
    left: int
    bottom: int
    right: int


@dataclass
class Grid:
    """One sheet: its cells that are not blank, and the notes on cells.

    passed: rows and columns of formulas of ours that nobody asked for, which are not among the cells.
    shared: the cells whose formula was written once for many, with what these have in common.
    """

    title: str
    cells: dict[At, Raw] = field(default_factory=dict)
    notes: dict[At, str] = field(default_factory=dict)
    passed: tuple[set[int], set[int]] = field(default_factory=lambda: (set(), set()))
    shared: dict[At, object] = field(default_factory=dict, compare=False)

    @functools.cached_property
    def rows(self) -> dict[int, dict[int, Raw]]:
        """The cells of each row by column; a row that holds nothing but formulas that were passed is there too."""
        numbers = {row for row, _ in self.cells} | self.passed[0]
        found: dict[int, dict[int, Raw]] = {row: {} for row in sorted(numbers)}
        for (row, column), raw in sorted(self.cells.items()):
            found[row][column] = raw
        return found

    @property
    def reckoning(self) -> set[int]:
        """The columns in which a formula stands."""
        return {column for (_, column), raw in self.cells.items() if raw.formula} | self.passed[1]

    def text(self, row: int, column: int) -> str:
        """The words in a cell; nothing where it is blank or holds something else."""
        raw = self.cells.get((row, column))
        return raw.value.strip() if raw and isinstance(raw.value, str) else ""


@dataclass
class Book:
    """A file: its sheets in order, its defined names, its custom properties, and day 0 of its dates."""

    name: str
    grids: dict[str, Grid]
    names: dict[str, Area]
    facts: dict[str, str]
    epoch: datetime.date = datetime.date(1899, 12, 30)


# By sheet and column: the rows in which formulas are ours, so that nobody need look at them; told by names and properties.
Passing = Callable[[Mapping[str, Area], Mapping[str, str]], Mapping[str, Mapping[int, range]]]


def pass_nothing(_: Mapping[str, Area], __: Mapping[str, str]) -> Mapping[str, Mapping[int, range]]:
    """Every formula is wanted."""
    return {}


def column_number(text: str) -> int:
    """A is 1, AA is 27."""
    return functools.reduce(lambda n, letter: n * 26 + ord(letter) - 64, text.upper(), 0)


def address(row: int, column: int) -> str:
    """B7."""
    return f"{letters(column)}{row}"


def area_of(text: str) -> Area | None:
    """The rectangle that a defined name stands for; none when it is something else, #REF! for one."""
    found = AREA.fullmatch(text.strip().removeprefix("="))
    if not found:
        return None
    sheet = (found["quoted"] or found["plain"]).replace("''", "'")
    top, left = int(found["top"]), column_number(found["left"])
    return Area(sheet, top, left, int(found["bottom"] or top), column_number(found["right"] or found["left"]))
