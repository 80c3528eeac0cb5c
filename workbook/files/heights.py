"""How high rows are: as high as their wrapped text needs, which not every program finds out on opening."""

import functools
import math
from collections.abc import Iterator

from xlsxwriter.utility import xl_pixel_width
from xlsxwriter.worksheet import Worksheet

from workbook.cells.evaluating import Values
from workbook.cells.pages import Page
from workbook.cells.placing import Placing
from workbook.files import look
from workbook.files.widths import FORM_WIDTHS, LEFT_WIDTHS, width_of

MEASURED_IN = 10  # points of the letters that are measured
BOLD = 1.1  # beside the letters that xlsxwriter knows the widths of, which are as wide as ours
DIGIT, INDENT = 7, 9  # pixels of a column for each character, and of an indent
ONE_MORE, REST = 1.6, 2  # pixels of a line for each point of its letters, and around all lines


def heights_of_text(sheet: Worksheet, page: Page, values: Values, placing: Placing) -> dict[int, int]:
    """Rows high enough for their wrapped text. Their heights in pixels."""
    widths = _widths(page, placing)
    heights: dict[int, int] = {}
    for row, column, style, text in _texts(page, values, set(widths)):
        has = _properties(*style)
        if row != page.placed.header_row + 1:
            lines = lines_of(text, widths[column], has)
            if lines > 1:
                heights[row] = max(heights.get(row, 0), math.ceil(lines * ONE_MORE * _points(has)) + REST)
    for row, pixels in heights.items():
        sheet.set_row_pixels(row - 1, pixels)
    return heights


def lines_of(text: str, width: float, has: dict[str, object]) -> int:
    """How many lines a text takes in a column of this width, broken between words, in letters of this look."""
    room = width * DIGIT - INDENT * bool(has.get("indent"))
    scale = _points(has) / MEASURED_IN * (BOLD if has.get("bold") else 1)
    return sum(_lines(part, room / scale) for part in text.split("\n"))


def _points(has: dict[str, object]) -> float:
    return float(str(has["font_size"]))


def _lines(text: str, room: float) -> int:
    """The same of a text without breaks; a word that is wider than the column is broken anywhere."""
    count, filled, blank = 1, 0.0, xl_pixel_width(" ")
    if xl_pixel_width(text) <= room:
        return count
    for word in text.split():
        wide = xl_pixel_width(word)
        if filled and filled + blank + wide > room:
            count, filled = count + 1, 0.0
        filled += (blank if filled else 0) + wide
        if filled > room:
            more = math.ceil(filled / room) - 1
            count, filled = count + more, filled - more * room
    return count


def _widths(page: Page, placing: Placing) -> dict[int, float]:
    """The columns in which text is wrapped, by their widths: of what people read, and of forms that stand alone."""
    placed, title = page.placed, page.placed.sheet.title
    widths: dict[int, float] = {} if placed.sheet.blocks else dict(enumerate(FORM_WIDTHS, 1))
    for here in placing.on(title):
        if not (here.table.form or here.on_page or here.table.row_height):
            widths |= {slot.at: width_of(placing, here, slot) for slot in here.on(title)}
    if placed.sheet.left:
        widths |= dict(enumerate(LEFT_WIDTHS, 1))
    return {column: width for column, width in widths.items() if column <= placed.last_printed_column}


def _texts(page: Page, values: Values, columns: set[int]) -> Iterator[tuple[int, int, tuple[str, str], str]]:
    """Row, column, look and words of every cell in some columns that wraps the words it shows."""
    title = page.placed.sheet.title
    for cell in page.cells:
        if cell.column not in columns or not _wraps(cell.style):
            continue
        if cell.kind == "text":
            yield cell.row, cell.column, cell.style, str(cell.content)
        elif cell.kind == "formula":
            yield cell.row, cell.column, cell.style, str(values[title, cell.row, cell.column])
    for run in page.runs:
        if run.column in columns and _wraps(run.style):
            for row in range(run.first_row, run.first_row + run.rows):
                yield row, run.column, run.style, str(values[title, row, run.column])


_properties = functools.cache(look.properties)


def _wraps(style: tuple[str, str]) -> bool:
    return bool(_properties(*style).get("text_wrap"))
