"""Formulas apart from where they lie: two are alike when they name the same columns of the same tables, row by row."""

import functools
import re
from collections.abc import Mapping
from typing import NamedTuple

from workbook.cells.placing import LISTED
from workbook.copies.grids import Area, column_number

REFERENCE = re.compile(
    r"(?:(?:'(?P<quoted>(?:[^']|'')+)'|(?P<plain>[A-Za-z_][\w.]*))!)?"
    r"(?<![\w.])\$?(?P<column>[A-Za-z]{1,3})\$?(?P<row>[0-9]{1,7})(?![\w.(])"
)
# Functions that files mark as newer than the format, each program in its own way.
MARKS = re.compile(r"_XLFN\.|_XLWS\.|COM\.MICROSOFT\.")
NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d*)?(?:E[+-]?\d+)?(?![\w.])")


class Lane(NamedTuple):
    """One column of a table, or one cell of a form: its defined name, its first row and how many rows it has."""

    name: str
    top: int
    rows: int


class Lanes:
    """Whose column each column of each sheet is."""

    def __init__(self, names: Mapping[str, Area]) -> None:
        self.lanes: dict[tuple[str, int], list[Lane]] = {}
        self.known: dict[tuple[str, str, str], tuple[str, int | None]] = {}
        # Single cells last: a row's own name lies within the column's.
        for name, area in sorted(names.items(), key=lambda pair: pair[1].top == pair[1].bottom):
            if area.left == area.right and not name.endswith(LISTED):
                lane = Lane(name, area.top, area.bottom - area.top + 1)
                self.lanes.setdefault((area.sheet, area.left), []).append(lane)

    def alike(self, formula: str, sheet: str, index: int) -> str:
        """The formula with its references told by name; index: the row of its cell, from the top of its table.

        [tanks_length_cm 0] is the same row, [tanks_length_cm -1] the one above.
        """
        parts = formula.removeprefix("=").split('"')
        parts[::2] = [self._plain(part, sheet, index) for part in parts[::2]]
        return '"'.join(parts)

    def _plain(self, text: str, sheet: str, index: int) -> str:
        pieces: list[str] = []
        end, there = 0, sheet
        for found in REFERENCE.finditer(text):
            between = text[end : found.start()]
            # The last cell of a range lies on the sheet of its first.
            named = (found["quoted"] or found["plain"] or "").replace("''", "'")
            there = there if between == ":" and not named else named or sheet
            pieces += [bare(between), self._told(found, there, index)]
            end = found.end()
        return "".join([*pieces, bare(text[end:])])

    def _told(self, found: re.Match[str], there: str, index: int) -> str:
        place = there, found["column"], found["row"]
        if place not in self.known:
            self.known[place] = self._lane(there, column_number(found["column"]), int(found["row"]))
        name, below = self.known[place]
        return f"[{name}]" if below is None else f"[{name} {below - index}]"

    def _lane(self, there: str, column: int, row: int) -> tuple[str, int | None]:
        """What a cell is called, and how far it lies below the first row of its column."""
        lanes = self.lanes.get((there, column), ())
        # The row above the first belongs to the column as well: running counts start there.
        lane = next((x for x in lanes if x.top - (x.rows > 1) <= row < x.top + x.rows), None)
        if lane is None:
            # A whole list is told from its head to the row below it, wherever that lies by now.
            above = next((x for x in lanes if x.rows > 1 and x.top + x.rows == row), None)
            return (f"{above.name} end" if above else f"{there} {column} {row}"), None
        return lane.name, None if lane.rows == 1 else row - lane.top


@functools.lru_cache(maxsize=100_000)  # a column's formulas differ in their references, and hardly in what is between
def bare(text: str) -> str:
    """A part of a formula without references, however programs write it."""
    told = MARKS.sub("", re.sub(r"\s+", "", text).upper())
    # LibreOffice saves fifteen digits of a number in a formula, and does not round the last.
    return NUMBER.sub(lambda found: f"{float(found[0]):.13g}", told)
