"""Rows of a fixed height that are made higher where a text of theirs needs another line, while the page has room."""

from collections.abc import Iterator, Mapping

from workbook.cells.evaluating import Values
from workbook.cells.pages import Page
from workbook.cells.placing import Placing
from workbook.cells.slots import Placed
from workbook.files import look
from workbook.files.paper import ROW_PIXELS
from workbook.files.printing import MORE_ROWS, NARROW_DOWN, SMALL_LEGIBLE
from workbook.files.widths import width_of

# A further line of nine point type; in a column, each letter of its width, and what stands at its sides: pixels.
LINE_PIXELS, LETTER, SIDES = 14, 7, 5
# Widths of letters in that type; of all others that of a digit.
DIGIT_PIXELS = 6.7
LETTER_PIXELS = (
    dict.fromkeys("ijl'|", 2.7) | dict.fromkeys(" tfI.,;:/!", 3.4) | dict.fromkeys("r()-", 4.0)
    | dict.fromkeys("ckJsvxyz", 6.0) | dict.fromkeys("mMW", 10.0) | dict.fromkeys("w%", 9.0)
    | dict.fromkeys("ABCDEGHKNOPQRSUVX↗→↘▲◆", 8.4)
)  # fmt: skip


def tall_rows(page: Page, values: Values, placing: Placing, heights: Mapping[int, int]) -> dict[int, int]:
    """The heights in pixels of the rows that take more than a line."""
    found: dict[int, int] = {}
    for here in placing.on(page.placed.sheet.title):
        if here.table.most_lines > 1:
            left = _left_on_page(page, values, here, heights) if page.placed.sheet.all_printed else float("inf")
            for row, lines in _lines(page, values, placing, here):
                if 0 < (more := (lines - 1) * LINE_PIXELS) <= left:
                    left -= more
                    found[row] = here.table.row_height + more
    return found


def _lines(page: Page, values: Values, placing: Placing, here: Placed) -> Iterator[tuple[int, int]]:
    """How many lines each row wants, as many as it may have."""
    title = page.placed.sheet.title
    wide = {slot.at: width_of(placing, here, slot) * LETTER + SIDES for slot in here.on(title)}
    wrapped = [r for r in page.runs if r.column in wide and look.properties(*r.style).get("text_wrap")]
    for row in range(here.first_row, here.last_row + 1):
        texts = ((run.column, str(values[title, row, run.column])) for run in wrapped)
        yield row, min(here.table.most_lines, max((_lines_of(text, wide[at]) for at, text in texts), default=1))


def _lines_of(text: str, wide: float) -> int:
    """How many lines a text takes in a column of so many pixels, broken between words."""
    lines, filled = 1, 0.0
    for word in text.split():
        pixels = sum(LETTER_PIXELS.get(letter, DIGIT_PIXELS) for letter in f"{word} ")
        if filled and filled + pixels - LETTER_PIXELS[" "] > wide:
            lines, filled = lines + 1, 0.0
        filled += pixels
    return lines


def _left_on_page(page: Page, values: Values, here: Placed, heights: Mapping[int, int]) -> float:
    """Pixels that are left below the rows that are printed; without end where they take more than a page anyhow."""
    title = page.placed.sheet.title
    at = next(slot.at for slot in here.on(title) if slot.column.key == here.table.row_name[0])
    used = [row for row in range(here.first_row, here.last_row + 1) if values[title, row, at] != ""]
    down = sum(heights.get(row, ROW_PIXELS) for row in range(1, here.first_row))
    left = NARROW_DOWN / SMALL_LEGIBLE - down - (len(used) + MORE_ROWS) * here.table.row_height
    return left if left >= 0 else float("inf")
