"""What of a sheet of tables is printed: which cells on which page, down to which row, at which scale."""

import itertools
import math
from dataclasses import replace
from typing import NamedTuple

import xlsxwriter
from xlsxwriter.utility import quote_sheetname
from xlsxwriter.worksheet import Worksheet

from workbook.cells.evaluating import Values
from workbook.cells.pages import Page
from workbook.cells.placing import BESIDE_A_FORM, Placing, letters
from workbook.cells.slots import Placed, PlacedSheet
from workbook.files.paper import HEADER_PIXELS, ROW_PIXELS, printable, set_up_paper
from workbook.files.widths import LEFT_GAP, LEFT_WIDTHS, width_of
from workbook.tables.columns import Computed
from workbook.tables.sheet import Sheet
from workbook.tables.table import Table

MORE_ROWS = 2
SMALLEST_SCALE = 25
NEWEST_DAYS = 42  # of a list that grows from day to day
# How far down a page goes, upright or not, on the lower of A4 and Letter, in pixels.
DOWN_PIXELS = {False: 680, True: 940}
WORTH_FEWER_COLUMNS = 2  # pages
LEGIBLE = 0.8  # ten point type at this scale is printed in eight
SMALL_LEGIBLE = 8 / 9  # and nine point type
NARROW_DOWN = 720  # pixels between narrow margins, down the shorter of A4 and Letter in landscape


class Columns(NamedTuple):
    """The columns of one page."""

    first: int
    last: int

    def __contains__(self, column: object) -> bool:
        return isinstance(column, int) and self.first <= column <= self.last


class Print(NamedTuple):
    """How a sheet is printed: which columns on which pages, in which direction, and whether as small as can be read."""

    sheet: Sheet
    runs: list[Columns]
    small: bool = False


def print_tables(
    book: xlsxwriter.Workbook, sheet: Worksheet, page: Page, values: Values, placing: Placing, heights: dict[int, int]
) -> None:
    """Each run of columns on pages of its own; heads are repeated on all of them.

    What stands first is printed, as much of it as can be read, and the charts; of workings nothing.
    """
    placed = page.placed
    if placed.sheet.role in {"workings", "detail"} or not placed.sheet.on_paper:
        set_up_paper(sheet, placed.sheet, placing.system)
        sheet.print_area(0, placed.last_column + 1, 0, placed.last_column + 1)
        return
    if not placed.sheet.blocks:
        set_up_paper(sheet, placed.sheet, placing.system)
        ends = _last_row(page, values, placing, heights, Columns(1, placed.last_printed_column))
        sheet.print_area(0, 0, ends - 1, placed.last_printed_column - 1)
        sheet.fit_to_pages(1, 0)
        return
    # Names that run upwards head a grid, which ends on its first page; on all others they would only take room.
    upright = any(s.column.look.upright for here in placing.on(placed.sheet.title) for s in here.slots)
    sheet.repeat_rows(placed.header_row, placed.header_row + placed.head - 2 - upright)
    chosen = _print(page, values, placing, heights)
    set_up_paper(sheet, chosen.sheet, placing.system)
    ends_of = [_last_row(page, values, placing, heights, columns) for columns in chosen.runs]
    first = _first_row(page, values, placing)
    if len(chosen.runs) == 1:
        sheet.print_area(first - 1, 0, ends_of[0] - 1, chosen.runs[0].last - 1)
        if placed.sheet.all_printed:
            sheet.fit_to_pages(1, 1 if _has_room(placed, placing, heights, ends_of[0]) else 0)
        elif chosen.small:
            sheet.set_print_scale(round(100 * LEGIBLE))
        else:
            sheet.fit_to_pages(1, 0)
        return
    sheet.set_v_pagebreaks([run.last for run in chosen.runs[:-1]])
    sheet.set_print_scale(_scale(chosen, _widths(placed, placing)))
    # Title, notes and forms are printed once: beside further columns they would be cut. The name is the one by which
    # the file format knows what is printed; xlsxwriter's own way takes a single area.
    title, tops = quote_sheetname(placed.sheet.title), (first, *itertools.repeat(placed.header_row, len(ends_of) - 1))
    areas = (
        f"{title}!${letters(columns.first)}${top}:${letters(columns.last)}${end}"
        for columns, top, end in zip(chosen.runs, tops, ends_of, strict=True)
    )
    book.define_name(f"{title}!_xlnm.Print_Area", f"={','.join(areas)}")


def _print(page: Page, values: Values, placing: Placing, heights: dict[int, int]) -> Print:
    """Across; of rows of one line upright, with fewer columns, where that saves pages; small where there are several."""
    placed = page.placed
    if placed.sheet.all_printed:
        return Print(placed.sheet, [Columns(1, placed.last_printed_column)])
    tables = [placing.tables[block.key] for block in placed.sheet.blocks if isinstance(block, Table)]
    first = tables[0]
    printed = [first, *(here for here in tables if here.table.key in placed.sheet.new_page_before)]
    charts = [Columns(at, at + charts.columns - 1) for charts, at in placed.charts if charts.on_paper]
    across, upright = (
        Print(
            sheet,
            sorted([*(run for here in printed for run in _pages_across(here, page, values, placing, sheet)), *charts]),
        )
        for sheet in (placed.sheet, replace(placed.sheet, portrait=True))
    )
    if len(across.runs) > 1:
        return across
    rows = range(_first_row(page, values, placing), _last_row(page, values, placing, heights, across.runs[0]) + 1)
    down, heads = sum(heights.get(row, ROW_PIXELS) for row in rows) + HEADER_PIXELS, placed.head * ROW_PIXELS

    def pages(way: Print) -> int:
        whole = DOWN_PIXELS[way.sheet.portrait] / LEGIBLE
        return 1 + max(0, math.ceil((down - whole) / (whole - heads)))

    one_line = first.workings or first.table.one_line
    way = upright if one_line and pages(across) - pages(upright) >= WORTH_FEWER_COLUMNS else across
    return way._replace(small=down > DOWN_PIXELS[way.sheet.portrait])


def _has_room(placed: PlacedSheet, placing: Placing, heights: dict[int, int], end: int) -> bool:
    """Whether a sheet that is as wide as a page has room on one down to its last row, in type that can be read."""
    if not placed.sheet.all_printed:
        return False
    here = next(placing.tables[block.key] for block in placed.sheet.blocks if isinstance(block, Table))
    down = sum(heights.get(row, ROW_PIXELS) for row in range(1, here.first_row))
    height = here.table.row_height or ROW_PIXELS
    down += sum(heights.get(row, height) for row in range(here.first_row, end + 1))
    return down <= NARROW_DOWN / SMALL_LEGIBLE


def _pages_across(here: Placed, page: Page, values: Values, placing: Placing, sheet: Sheet) -> list[Columns]:
    """As many columns of a table, from its first on, as can be read on one page; a grid goes on on further pages."""
    placed, title = page.placed, page.placed.sheet.title
    slots = [s for s in here.on(title) if s.shows != "beside" and s.at <= placed.last_printed_column]
    widths, most = _widths(placed, placing), printable(sheet) / LEGIBLE
    # What was picked is printed beside what it steers.
    is_beside = bool(placed.sheet.left) and slots[0].at == BESIDE_A_FORM + 1
    runs, across = [Columns(1 if is_beside else slots[0].at, slots[0].at)], 0.0
    if is_beside:
        across = sum(widths[at] for at in range(1, slots[0].at))
    for slot in slots:
        across += widths.get(slot.at, math.inf)
        if across > most and slot.at > runs[-1].first:
            runs.append(Columns(slot.at, slot.at))
            across = widths.get(slot.at, math.inf)
        runs[-1] = Columns(runs[-1].first, slot.at)
    is_grid = sum(isinstance(slot.column, Computed) and bool(slot.column.seed) for slot in slots) > 1
    rows = range(here.first_row, here.last_row + 1)

    def holds(run: Columns) -> bool:
        return any(values.get((title, row, at), "") != "" for at in range(run.first, run.last + 1) for row in rows)

    return [run for run in runs if run == runs[0] or (is_grid and holds(run))]


def _first_row(page: Page, values: Values, placing: Placing) -> int:
    """The first row printed: of what grows from day to day, the newest days only, and no title on top."""
    placed = page.placed
    here = next((here for here in placing.on(placed.sheet.title) if here.workings and here.table.newest), None)
    if not here:
        return 1
    at = here.base[here.table.newest]
    days = {row: values[here.workings, row, at] for row in range(here.first_row, here.last_row + 1)}
    dated = {row: day for row, day in days.items() if isinstance(day, float | int)}
    newest = max(dated.values(), default=0)
    first = min((row for row, day in dated.items() if day > newest - NEWEST_DAYS), default=1)
    return first if first > here.first_row else 1


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
    last = max(min(max(ends) + (MORE_ROWS if grows else 0), page.last_row), *charts, 1)
    most = [
        t.first_row + t.table.on_paper - 1 for t in placing.on(title) if t.table.on_paper and t.slots[0].at in columns
    ]
    return min([last, *most])


def _scale(chosen: Print, widths: dict[int, float]) -> int:
    """The scale at which the widest run of columns fits on A4 and on Letter, or on A3 and on Tabloid."""
    pages = [sum(widths[at] for at in range(a, b + 1)) for a, b in chosen.runs]
    return max(SMALLEST_SCALE, min(100, math.floor(100 * printable(chosen.sheet) / max(pages))))


def _widths(placed: PlacedSheet, placing: Placing) -> dict[int, float]:
    """How much room each printed column takes, in characters."""
    widths = dict.fromkeys(range(1, placed.last_printed_column + 1), 1.6)
    for here in placing.on(placed.sheet.title):
        slots = [] if here.table.form or here.on_page else here.on(placed.sheet.title)
        # What is folded away takes no room.
        widths |= {s.at: 0 if s.rare else width_of(placing, here, s) + 0.8 for s in slots if s.at in widths}
    if placed.sheet.left:
        widths |= {at: width + 0.8 for at, width in enumerate((*LEFT_WIDTHS, LEFT_GAP), 1)}
    for charts, at in placed.charts:
        widths |= {at + i: 9.8 for i in range(charts.columns)}
    return widths


def _row_below(first: int, pixels: int, heights: dict[int, int]) -> int:
    """The row in which something ends that begins at the top of a header row and is so many pixels high."""
    row, left = first, pixels - HEADER_PIXELS
    while left > 0:
        row += 1
        left -= heights.get(row, ROW_PIXELS)
    return row
