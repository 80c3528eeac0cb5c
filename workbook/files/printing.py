"""What of a sheet of tables is printed: which cells on which page, down to which row, at which scale."""

import itertools
import math
from typing import NamedTuple

import xlsxwriter
from xlsxwriter.utility import quote_sheetname
from xlsxwriter.worksheet import Worksheet

from workbook.cells.evaluating import Values
from workbook.cells.pages import Page
from workbook.cells.placing import Placed, PlacedSheet, Placing, letters
from workbook.files.paper import HEADER_PIXELS, LINE_PIXELS, printable, set_up_paper
from workbook.files.widths import width_of
from workbook.tables.table import Table

MORE_ROWS = 2
SMALLEST_SCALE = 25
LEGIBLE = 0.8  # ten point type at this scale is printed in eight
SMALL_LEGIBLE = 8 / 9  # and nine point type
ROW_PIXELS = 20
NARROW_DOWN = 720  # pixels between narrow margins, down the shorter of A4 and Letter in landscape


class Columns(NamedTuple):
    """The columns of one page."""

    first: int
    last: int

    def __contains__(self, column: object) -> bool:
        return isinstance(column, int) and self.first <= column <= self.last


def print_tables(
    book: xlsxwriter.Workbook, sheet: Worksheet, page: Page, values: Values, placing: Placing, heights: dict[int, int]
) -> None:
    """Each run of columns on pages of its own; heads are repeated on all of them.

    Of a list, and of answers in rows of one line, what stands first is printed, as much of it as can be read, and the
    charts; of workings nothing.
    """
    placed = page.placed
    set_up_paper(sheet, placed, placing.system)
    if placed.sheet.role == "workings":
        sheet.print_area(0, placed.last_column + 1, 0, placed.last_column + 1)
        return
    if placed.sheet.blocks:
        # Names that run upwards head a grid, which ends on its first page; on all others they would only take room.
        upright = any(s.column.look.upright for here in placing.on(placed.sheet.title) for s in here.slots)
        sheet.repeat_rows(placed.header_row, placed.header_row + placed.head - 2 - upright)
    leading = _leading(placed, placing)
    runs = leading or _runs(placed)
    ends = [_last_row(page, values, placing, heights, columns) for columns in runs]
    if len(runs) == 1:
        sheet.print_area(0, 0, ends[0] - 1, runs[0].last - 1)
        one_page = not placed.sheet.blocks or _has_room(placed, placing, heights, ends[0])
        sheet.fit_to_pages(1, 1 if one_page else 0)
        return
    # On further pages of a table each row is known by its first columns; charts need none.
    repeated = 0 if leading else placed.frozen_columns
    if repeated:
        sheet.repeat_columns(0, repeated - 1)
    sheet.set_v_pagebreaks([run.last for run in runs[:-1]])
    sheet.set_print_scale(_scale(placed, placing, runs, repeated))
    # Title, notes and forms are printed once: beside the columns that are repeated they would be cut. The name is the
    # one by which the file format knows what is printed; xlsxwriter's own way takes a single area.
    title, tops = quote_sheetname(placed.sheet.title), (1, *itertools.repeat(placed.header_row, len(runs) - 1))
    areas = (
        f"{title}!${letters(columns.first)}${top}:${letters(columns.last)}${end}"
        for columns, top, end in zip(runs, tops, ends, strict=True)
    )
    book.define_name(f"{title}!_xlnm.Print_Area", f"={','.join(areas)}")


def _has_room(placed: PlacedSheet, placing: Placing, heights: dict[int, int], end: int) -> bool:
    """Whether a sheet that is as wide as a page has room on one down to its last row, in type that can be read."""
    if not placed.sheet.all_printed:
        return False
    here = next(placing.tables[block.key] for block in placed.sheet.blocks if isinstance(block, Table))
    down = sum(heights.get(row, ROW_PIXELS) for row in range(1, here.first_row))
    return down + (end - here.first_row + 1) * (here.table.row_height or ROW_PIXELS) <= NARROW_DOWN / SMALL_LEGIBLE


def _runs(placed: PlacedSheet) -> list[Columns]:
    edges = [0, *placed.page_breaks, placed.last_printed_column]
    return [Columns(left + 1, right) for left, right in itertools.pairwise(edges)]


def _leading(placed: PlacedSheet, placing: Placing) -> list[Columns]:
    """What of a sheet is printed whose rows are one line high: its first columns, and its charts; else nothing."""
    tables = [placing.tables[block.key] for block in placed.sheet.blocks if isinstance(block, Table)]
    if placed.sheet.all_printed or not tables or not (tables[0].workings or tables[0].table.one_line):
        return []
    lists = [here for here in tables if here.workings and here.table.is_list] or tables[:1]
    charts = [Columns(at, at + charts.columns - 1) for charts, at in placed.charts]
    return sorted([*(_first_columns(here, placed, placing) for here in lists), *charts])


def _first_columns(here: Placed, placed: PlacedSheet, placing: Placing) -> Columns:
    """As many columns of a table, from its first on, as can be read on one page."""
    slots = [slot for slot in here.on(placed.sheet.title) if slot.shows != "beside"]
    widths, across, last = _widths(placed, placing), 0.0, slots[0].at
    for slot in slots:
        across += widths.get(slot.at, math.inf)
        if across > printable(placed.sheet) / LEGIBLE:
            break
        last = slot.at
    return Columns(slots[0].at, last)


def _last_row(page: Page, values: Values, placing: Placing, heights: dict[int, int], columns: Columns) -> int:
    """Down to the last row in use and a few more: empty ready rows would print page after page.

    All pages of one table end in the same row.
    """
    placed, title = page.placed, page.placed.sheet.title
    tables = {here.table.key: here.on(title) for here in placing.on(title) if not here.table.form}
    tables = {key: [slot for slot in slots if slot.shows != "beside"] for key, slots in tables.items()}
    beside = [slots for slots in tables.values() if any(s.at in columns for s in slots)]
    across = {slot.at for slots in beside for slot in slots}
    watching = {slot.at for here in placing.on(title) for slot in here.on(title) if slot.shows == "beside"}
    shown = {at for at in (across | {*range(columns.first, columns.last + 1)}) if at <= placed.last_printed_column}
    shown -= watching
    ends = [1, *(cell.row for cell in page.cells if cell.kind != "blank" and cell.column in shown)]
    for run in page.runs:
        if run.column in shown:
            rows = range(run.first_row, run.first_row + run.rows)
            ends.append(max((row for row in rows if values[title, row, run.column] != ""), default=1))
    charts = [
        _row_below(placed.header_row + 1, sum(chart.height + 10 for chart in c.charts[:: c.across]), heights)
        for c, at in placed.charts
        if at in columns
    ]
    grows = any(
        not placing.tables[key].table.given for key, slots in tables.items() if any(s.at in columns for s in slots)
    )
    return max(min(max(ends) + (MORE_ROWS if grows else 0), page.last_row), *charts, 1)


def _scale(placed: PlacedSheet, placing: Placing, runs: list[Columns], repeated: int) -> int:
    """The scale at which the widest run of columns fits on A4 and on Letter, or on A3 and on Tabloid."""
    widths = _widths(placed, placing)
    known_by = sum(widths[at] for at in range(1, repeated + 1))
    pages = [sum(widths[at] for at in range(a, b + 1)) + (known_by if a > 1 else 0) for a, b in runs]
    return max(SMALLEST_SCALE, min(100, math.floor(100 * printable(placed.sheet) / max(pages))))


def _widths(placed: PlacedSheet, placing: Placing) -> dict[int, float]:
    """How much room each printed column takes, in characters."""
    widths = dict.fromkeys(range(1, placed.last_printed_column + 1), 1.6)
    for here in placing.on(placed.sheet.title):
        slots = [] if here.table.form or here.on_page else here.on(placed.sheet.title)
        # What is folded away takes no room.
        widths |= {s.at: 0 if s.rare else width_of(placing, here, s) + 0.8 for s in slots if s.at in widths}
    for charts, at in placed.charts:
        widths |= {at + i: 9.8 for i in range(charts.columns)}
    return widths


def _row_below(first: int, pixels: int, heights: dict[int, int]) -> int:
    """The row in which something ends that begins at the top of a header row and is so many pixels high."""
    row, left = first, pixels - HEADER_PIXELS
    while left > 0:
        row += 1
        left -= heights.get(row, LINE_PIXELS)
    return row
