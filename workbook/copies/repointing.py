"""Formulas that people wrote, pointed at the places where the cells they name lie in a fresh workbook."""

import re
from bisect import bisect_left, bisect_right
from dataclasses import dataclass, field

from workbook.cells.placing import Placing, letters
from workbook.copies.content import Content
from workbook.copies.grids import column_number
from workbook.copies.untrusted import REACHES_OUT, at

LONGEST_FORMULA = 8_000
REFERENCE = re.compile(
    r"(?:(?P<sheet>'(?:[^']|'')+'|[^'!:\[\]]+)!)?(?P<first>\$?[A-Z]{1,3}\$?[0-9]{1,7})(?::(?P<last>\$?[A-Z]{1,3}\$?[0-9]{1,7}))?",
    re.IGNORECASE,
)
NAME = re.compile(r"[A-Za-z_][\w.]*")
# Functions that files mark as newer than the format; some programs save them without the mark.
NEWER = re.compile(
    r"(?<![\w.])(?:COM\.MICROSOFT\.)?(MAXIFS|MINIFS|IFS|SWITCH|TEXTJOIN|CONCAT|XOR|IFNA|DAYS|ISOWEEKNUM)\("
)


class NotCarriedError(Exception):
    """A formula that can't stand in the fresh workbook; says why."""


@dataclass
class Lane:
    """One column of a table in the old file: the rows of its entries, and where they lie now."""

    sheet: str
    column: int
    first_row: int
    last_row: int
    old_rows: list[int] = field(default_factory=list)


class Repointing:
    """From the places of one file to those of a fresh workbook."""

    def __init__(self, content: Content, placing: Placing) -> None:
        self.names = {name.casefold() for name in placing.names()}
        self.ours = set(placing.sheets)
        self.own = {sheet.title for sheet in content.added_sheets}
        self.lanes: dict[tuple[str, int], Lane] = {}
        self.single: dict[tuple[str, int, int], tuple[str, int, int]] = {}
        for key, entries in content.tables.items():
            here = placing.tables.get(key)
            if here is None:
                continue
            headers = {f"added_{i}": header for i, header in enumerate(content.added_columns.get(key, ()), 1)}
            new: dict[str, tuple[str, int]] = {}
            for slot in here.slots:
                new.setdefault(headers.get(slot.column.key, slot.column.key), (slot.sheet, slot.at))
            for index, entry in enumerate(entries):
                for column, place in entry.cells():
                    where = at(place.cell)
                    if where is None or column not in new:
                        continue
                    sheet, lies = new[column]
                    if here.table.form:
                        self.single[place.sheet, *where] = (sheet, lies, here.across)
                        continue
                    fresh = Lane(sheet, lies, here.first_row, here.last_row)
                    lane = self.lanes.setdefault((place.sheet, where[1]), fresh)
                    lane.old_rows.append(where[0])
                    self.single[place.sheet, *where] = (sheet, here.first_row + index, lies)

    def formula(self, text: str, from_sheet: str, on_sheet: str) -> str:
        """The formula with every reference pointed anew; NotCarriedError when one can't be."""
        if REACHES_OUT.search(text):
            raise NotCarriedError("it reaches out of the file")
        if len(text) > LONGEST_FORMULA:
            raise NotCarriedError("it is too long")
        # Slow to load, and few files have formulas of a person's own.
        from openpyxl.formula.tokenizer import Token, Tokenizer, TokenizerError  # noqa: PLC0415

        try:
            tokens = Tokenizer(NEWER.sub(r"_xlfn.\1(", text)).items
        except (TokenizerError, IndexError) as error:
            raise NotCarriedError("it is not whole") from error
        if any("{" in token.value and token.type == Token.ARRAY for token in tokens):
            raise NotCarriedError("it holds a list in braces")
        return "=" + "".join(
            self._operand(token.value, from_sheet, on_sheet) if (token.type, token.subtype) == (Token.OPERAND, Token.RANGE) else token.value
            for token in tokens
        )  # fmt: skip

    def _operand(self, text: str, from_sheet: str, on_sheet: str) -> str:
        found = REFERENCE.fullmatch(text)
        if not found:
            if NAME.fullmatch(text) and text.casefold() in self.names:
                return text.casefold()
            if text.upper() in {"TRUE", "FALSE"}:
                return text
            raise NotCarriedError(f"the fresh workbook has no {text}")
        sheet = (found["sheet"] or "").strip("'").replace("''", "'") or from_sheet
        first, last = self._end(sheet, found["first"]), found["last"]
        if last:
            ends = self._range(sheet, found["first"], last)
            if ends is None:
                raise NotCarriedError(f"{text} does not lie in one column of a table")
            where, top, left, bottom, right = ends
            cells = _written(top, left, found["first"]) + ":" + _written(bottom, right, last)
        elif first:
            where, row, column = first
            cells = _written(row, column, found["first"])
        else:
            raise NotCarriedError(f"{text} is no cell of a table")
        return cells if where == on_sheet else f"'{where.replace(chr(39), chr(39) * 2)}'!{cells}"

    def _end(self, sheet: str, cell: str) -> tuple[str, int, int] | None:
        row, column = cell_of(cell)
        if sheet in self.own and sheet not in self.ours:
            return sheet, row, column
        return self.single.get((sheet, row, column))

    def _range(self, sheet: str, first: str, last: str) -> tuple[str, int, int, int, int] | None:
        (top, left), (bottom, right) = cell_of(first), cell_of(last)
        if sheet in self.own and sheet not in self.ours:
            return sheet, top, left, bottom, right
        one, other = self.lanes.get((sheet, left)), self.lanes.get((sheet, right))
        if one is None or other is None or one.sheet != other.sheet or one.first_row != other.first_row:
            return None
        rows = sorted(set(one.old_rows))
        start, end = bisect_left(rows, top), bisect_right(rows, bottom) - 1
        if start > end or other.column - one.column != right - left:
            return None
        # A range that goes on below the data means the whole list.
        lowest = one.last_row if bottom > rows[-1] else one.first_row + end
        return one.sheet, one.first_row + start, one.column, lowest, other.column


def cell_of(text: str) -> tuple[int, int]:
    """Row and column of a reference, with $ or without."""
    found = re.fullmatch(r"\$?([A-Za-z]+)\$?([0-9]+)", text)
    if found is None:
        raise NotCarriedError(f"{text} is no cell")
    return int(found[2]), column_number(found[1])


def _written(row: int, column: int, like: str) -> str:
    """The address, fixed by $ as the old one was."""
    return ("$" if like.startswith("$") else "") + letters(column) + ("$" if "$" in like[1:] else "") + str(row)
