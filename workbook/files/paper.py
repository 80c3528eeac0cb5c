"""Paper: margins and footers of every sheet, and pages to pin up, laid out on a grid of their own."""

import itertools
import math
from collections.abc import Iterator

import xlsxwriter
from xlsxwriter.worksheet import Worksheet

from workbook.cells.evaluating import Values
from workbook.cells.pages import Page
from workbook.cells.placing import Placing
from workbook.cells.slots import Placed, PlacedSheet
from workbook.files import look
from workbook.tables.sheet import Sheet

# Printable width in characters of 10 point Arial at 100 %, the narrower of A4 and Letter, landscape and portrait.
PRINTABLE = {False: 128, True: 92}
LINE_PIXELS, HEADER_PIXELS = 17, 36
ROW_PIXELS = 17  # of a row that is given no height
A_HAIR = 1 / 100
PAPERS = {"A3": 8, "A4": 9, "Letter": 1, "Tabloid": 3}
USUAL = {"metric": ("A4", "A3"), "us": ("Letter", "Tabloid")}  # and the larger one
# Left, right, top, bottom, in inches; narrow where a sheet is as wide as a page.
MARGINS, NARROW = (0.4, 0.4, 0.5, 0.6), (0.25, 0.25, 0.3, 0.45)
# Above each table of a page: room, its title, its labels; and where it has no labels.
HEAD_PIXELS, BARE_HEAD_PIXELS = (9, 21, 17), (9, 21, 4)
CLOSE_HEAD_PIXELS = 19
WORKING_WIDTH = 12


def printable(sheet: Sheet) -> float:
    """The printable width of its paper; the sides of A3 are those of A4 times the root of two."""
    return PRINTABLE[sheet.portrait] * (math.sqrt(2) if sheet.large else 1)


def set_up_paper(sheet: Worksheet, of: Sheet, system: str) -> None:
    """A4 (or A3), in US units Letter (or Tabloid), with margins that leave the other its room too, and a footer that tells file, sheet and page; or paper for pieces."""
    if paper := of.paper:
        sheet.set_paper(PAPERS[paper.name])
        sheet.set_margins(paper.left, paper.right, paper.top, paper.bottom)
    else:
        sheet.set_paper(PAPERS[USUAL[system][of.large]])
        sheet.set_margins(*(NARROW if of.all_printed else MARGINS))
        sheet.set_footer("&L&8&F  ·  &A&R&8Page &P of &N")
    if not of.portrait:
        sheet.set_landscape()
    sheet.hide_gridlines(2)
    sheet.set_zoom(100)


def lay_out(
    book: xlsxwriter.Workbook, sheet: Worksheet, page: Page, values: Values, placing: Placing
) -> frozenset[int]:
    """A page to pin up: the widths of its grid and heights that do not follow the text; gives the rows that stay so."""
    placed = page.placed
    grid = placed.sheet.grid
    for at, width in enumerate(grid):
        sheet.set_column(at, at, width)
    for at in range(len(grid) + 1, placed.last_column):
        # A mark with which they could be folded away would take a line of the screen.
        sheet.set_column(at, at, WORKING_WIDTH, None, {} if placed.sheet.close else {"level": 1})
    tables = _on_page(placed, placing)
    heights = _set_heights(sheet, placed, tables)
    if placed.sheet.close:
        sheet.freeze_panes(placed.header_row - 1, 0)
    first = tables[0].first_row - (tables[0].titles if tables[0].table.title else 0)
    set_up_paper(sheet, placed.sheet, placing.system)
    if not placed.sheet.paper:
        sheet.center_horizontally()
    cards = next((here for here in tables if here.table.a_page), None)
    if cards:
        last = _last_card(cards, values)
        sheet.set_h_pagebreaks(list(range(first - 1 + cards.table.a_page, last, cards.table.a_page)))
        sheet.set_print_scale(100 if placed.sheet.paper else _fits(placed))
        if not cards.table.turns:
            _edges(book, sheet, cards)
    else:
        last = max(here.last_row for here in tables)
        _in_pages(sheet, placed, tables)
    sheet.print_area(first - 1, 0, last - 1, len(grid) - 1)
    return frozenset(heights)


def _fits(placed: PlacedSheet) -> int:
    """The scale at which its grid is as wide as the paper."""
    across = sum(width + 0.8 for width in placed.sheet.grid)
    return min(100, math.floor(100 * PRINTABLE[placed.sheet.portrait] / across))


def _in_pages(sheet: Worksheet, placed: PlacedSheet, tables: list[Placed]) -> None:
    """All on one page, or in pages as wide as the paper that begin with certain tables."""
    begins = [here.first_row - here.titles for here in tables if here.table.key in placed.sheet.new_page_before]
    if begins:
        # Programs that fit a sheet to pages look at no break.
        sheet.set_h_pagebreaks([row - 1 for row in begins])
        sheet.set_print_scale(_fits(placed))
    else:
        sheet.fit_to_pages(1, 1)


def heights_above(sheet: Worksheet, page: Page, placing: Placing) -> dict[int, int]:
    """The same of what stands above the tables of a sheet; gives the heights."""
    return _set_heights(sheet, page.placed, _on_page(page.placed, placing))


def _on_page(placed: PlacedSheet, placing: Placing) -> list[Placed]:
    return [placing.tables[t.key] for t in placed.sheet.tables if placing.tables[t.key].on_page]


def _set_heights(sheet: Worksheet, placed: PlacedSheet, tables: list[Placed]) -> dict[int, int]:
    """Pixels of each row of a page: where tables stand side by side, the higher one counts."""
    heights: dict[int, int] = {}
    for charts, _, row in placed.page_charts:
        heights |= dict.fromkeys(range(row, row + charts.rows), LINE_PIXELS)
    for here in tables:
        for row, pixels in _heights(here):
            heights[row] = max(pixels, heights.get(row, 0))
    for row, pixels in heights.items():
        # A height that is the usual one is not written, and then would follow the text after all.
        sheet.set_row_pixels(row - 1, pixels + (0 if placed.sheet.paper else A_HAIR))
    return heights


def _heights(here: Placed) -> Iterator[tuple[int, int]]:
    """Heights of the rows of a table on a page; a page that begins with a table without a title prints no head."""
    if here.titles == 1:
        yield here.first_row - 1, CLOSE_HEAD_PIXELS
    elif here.table.title:
        labelled = any(slot.at <= here.page_end and slot.column.label for slot in here.slots)
        pixels = HEAD_PIXELS if labelled else BARE_HEAD_PIXELS
        yield from zip(range(here.first_row - len(pixels), here.first_row), pixels, strict=True)
    turns = [pixels for _, pixels in here.table.turns] or [here.table.row_height or LINE_PIXELS]
    yield from zip(range(here.first_row, here.last_row + 1), itertools.cycle(turns), strict=False)


def _last_card(cards: Placed, values: Values) -> int:
    """The end of the page of the last card that shows something: one added there is printed, and no page is empty."""
    rows = range(cards.first_row, cards.last_row + 1)
    filled = [row for row in rows if values[cards.sheet, row, cards.slots[0].at] != ""]
    pages = math.ceil((max(filled, default=1) - cards.first_row + 1) / cards.table.a_page)
    return min(cards.last_row, cards.first_row + max(1, pages) * cards.table.a_page - 1)


def _edges(book: xlsxwriter.Workbook, sheet: Worksheet, cards: Placed) -> None:
    """A line round each card that holds something: ready rows show and print nothing."""
    top, last, end = cards.first_row - 1, cards.last_row - 1, cards.page_end - 1
    for (left, right), edge in zip(((0, 0), (1, end - 1), (end, end)), look.CARD_EDGES, strict=True):
        sheet.conditional_format(top, left, last, right, {
            "type": "formula", "criteria": f'=$A{cards.first_row}<>""', "format": book.add_format(edge),
        })  # fmt: skip
