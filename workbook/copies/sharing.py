"""Shared formulas: written out in one cell of many, and meant in each from where it lies."""

import re

from workbook.cells.placing import letters
from workbook.copies.grids import At, column_number

LAST_ROW, LAST_COLUMN = 1_048_576, 16_384  # of any sheet
# Strings, quoted titles and what stands in brackets stay; then cells, whole columns and whole rows.
PIECE = re.compile(
    r"\"(?:[^\"]|\"\")*\"|'(?:[^']|'')*'|\[[^\]]*\]"
    r"|(?<![\w.$\\])(?:"
    r"(?P<fixed>\$?)(?P<column>[A-Za-z]{1,3})(?P<pinned>\$?)(?P<row>[1-9][0-9]{0,6})"
    r"|(?P<columns>\$?[A-Za-z]{1,3}:\$?[A-Za-z]{1,3})|(?P<rows>\$?[1-9][0-9]{0,6}:\$?[1-9][0-9]{0,6})"
    r")(?![\w.(!\\])"
)


class Shared:
    """One shared formula: its text cut up once, put together again for each cell."""

    def __init__(self, text: str, origin: At) -> None:
        self.origin = origin
        self.pieces: list[str | tuple[str, int, str, int]] = []
        end = 0
        for found in PIECE.finditer(text):
            self.pieces.append(text[end : found.start()])
            self.pieces += self._references(found)
            end = found.end()
        self.pieces.append(text[end:])
        self._down()

    def _references(self, found: re.Match[str]) -> list[str | tuple[str, int, str, int]]:
        if found["column"]:
            column, row = column_number(found["column"]), int(found["row"])
            if column > LAST_COLUMN or row > LAST_ROW:  # a name, not a cell
                return [found[0]]
            return [(found["fixed"], column, found["pinned"], row)]
        if found["columns"]:
            first, last = found["columns"].split(":")
            return [self._edge(first, is_row=False), ":", self._edge(last, is_row=False)]
        if found["rows"]:
            first, last = found["rows"].split(":")
            return [self._edge(first, is_row=True), ":", self._edge(last, is_row=True)]
        return [found[0]]

    @staticmethod
    def _edge(text: str, *, is_row: bool) -> str | tuple[str, int, str, int]:
        bare = text.lstrip("$")
        if bare != text:
            return text
        return ("", 0, "", int(bare)) if is_row else ("", column_number(bare), "", 0)

    def at(self, place: At) -> str:
        """The formula as it is meant in a cell."""
        down, across = place[0] - self.origin[0], place[1] - self.origin[1]
        # Most are shared down one column, where nothing but the numbers of rows differs.
        if across or down < self.least or down > self.most:
            return "".join(piece if isinstance(piece, str) else _written(piece, down, across) for piece in self.pieces)
        return self.before + "".join([f"{row + down}{after}" for row, after in self.moving])

    def _down(self) -> None:
        """Each row that moves with the text up to the next, and how far all of them can before one leaves the sheet."""
        parts: list[tuple[int, str]] = [(0, "")]
        for piece in self.pieces:
            row = 0 if isinstance(piece, str) or piece[2] else piece[3]
            text = (
                piece if isinstance(piece, str) else _written((*piece[:3], 0), 0, 0) if row else _written(piece, 0, 0)
            )
            last, after = parts[-1]
            parts[-1] = (last, after + text)
            if row:
                parts.append((row, ""))
        (_, self.before), *self.moving = parts
        rows = [row for row, _ in self.moving]
        self.least, self.most = 1 - min(rows, default=1), LAST_ROW - max(rows, default=LAST_ROW)


def _written(piece: tuple[str, int, str, int], down: int, across: int) -> str:
    """A reference so many rows and columns on; column or row 0 is none."""
    fixed, column, pinned, row = piece
    column += across if column and not fixed else 0
    row += down if row and not pinned else 0
    if (piece[1] and not 1 <= column <= LAST_COLUMN) or (piece[3] and not 1 <= row <= LAST_ROW):
        return "#REF!"
    return f"{fixed}{letters(column) if column else ''}{pinned}{row or ''}"
