"""Cells and their values become a file, in one pass; the only user of xlsxwriter."""

import datetime
import math
import warnings
from dataclasses import dataclass
from pathlib import Path

import xlsxwriter
from xlsxwriter.exceptions import FileCreateError
from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

from workbook.cells.evaluating import Values
from workbook.cells.pages import Page, serial
from workbook.cells.placing import Placing, before_a_cell, letters
from workbook.cells.slots import Placed, Slot
from workbook.cells.watching import is_watched
from workbook.files import look
from workbook.files.charts import add_charts
from workbook.files.heights import heights_of_text
from workbook.files.pale_rows import pale_rows
from workbook.files.paper import HEADER_PIXELS, ROW_PIXELS, heights_above, lay_out
from workbook.files.plain_sheet import PlainSheet
from workbook.files.printing import print_tables
from workbook.files.tall_rows import tall_rows
from workbook.files.targets import moved_in
from workbook.files.widths import FORM_WIDTHS, LEFT_GAP, LEFT_WIDTHS, width_of
from workbook.tables.columns import Flag, Said, Typed
from workbook.tables.completing import SYMBOLS
from workbook.tables.kinds import FIRST_DATE, LAST_DATE, LONGEST_KEY, LONGEST_TEXT, Kind, in_full
from workbook.tables.units import written

CREATED = datetime.datetime(2020, 1, 1)  # noqa: DTZ001  the same input gives the same bytes
UPRIGHT_PIXELS, TITLE_PIXELS, BARE_PIXELS = 132, 24, 6  # BARE: of a row of units that says none
LONGEST_NOTE = 30_000
OWN_NARROWEST, OWN_WIDEST = 9, 100


HANDED = "given line"
# No rule is kept by what stands in the cell, so it asks about anything that is typed.
HANDED_OUT = {
    "validate": "custom",
    "value": "=FALSE",
    "ignore_blank": False,
    "error_type": "warning",
    "error_title": "Handed out by the club",
    "error_message": "Type your own in the column beside, where there is one: it counts instead. What is changed here is "
    "not taken when files are merged.",
}


@dataclass(frozen=True)
class About:
    """What the file says about itself, in its properties."""

    title: str
    facts: dict[str, str | int]


class Writer:
    """One workbook being written."""

    def __init__(self, book: xlsxwriter.Workbook, placing: Placing) -> None:
        self.book, self.placing = book, placing
        self.formats: dict[tuple[str, str], Format] = {}
        self.handed = 0  # the last row on this sheet in which something was handed out

    def format(self, style: tuple[str, str]) -> Format:
        """The format of a role and number format, made once."""
        if style not in self.formats:
            self.formats[style] = self.book.add_format(look.properties(*style))
        return self.formats[style]

    def add_page(self, page: Page, values: Values) -> None:
        """One sheet with its cells, checks, colours, charts and print set-up."""
        title = page.placed.sheet.title
        sheet = self.book.add_worksheet(title, worksheet_class=PlainSheet)
        sheet.set_tab_color(look.TABS[page.placed.sheet.role])
        sheet.set_row_pixels(0, TITLE_PIXELS)
        self._cells(sheet, page, values)
        here_on = self.placing.on(title)
        self.handed = max((cell.row for cell in page.cells if cell.style[0] == HANDED), default=0)
        for here in here_on:
            for slot in here.on(title):
                self._slot(sheet, here, slot)
            pale_rows(self.book, sheet, here, title)
        if page.placed.sheet.bands:
            sheet.fixed_rows = lay_out(self.book, sheet, page, values, self.placing)
        else:
            self._widths(sheet, page)
            above = heights_above(sheet, page, self.placing)
            heights = heights_of_text(sheet, page, values, self.placing) | above
            tall = tall_rows(page, values, self.placing, heights)
            for row, pixels in tall.items():
                sheet.set_row_pixels(row - 1, pixels)
            sheet.fixed_rows = frozenset(above | tall)
            print_tables(self.book, sheet, page, values, self.placing, heights | tall)
        add_charts(self.book, sheet, page.placed, self.placing)
        for (row, column), words in page.notes.items():
            sheet.write_comment(row - 1, column - 1, words[:LONGEST_NOTE], {"author": "", "font_size": 10})
        first = next((here for here in here_on if here.workings and here.sheet == title), None)
        if first:
            last = first.on(title)[-1].at
            sheet.autofilter(first.first_row - 2, 0, first.last_row - 1, last - 1)
        # Rows that are known by their place are locked against slips where a club hands them out: constants, tasks. The
        # rows of its lists are sorted like all others, so there a cell only asks before it takes something.
        tables = (table for table in page.placed.sheet.tables if not table.is_list)
        if not any(column.handed for table in tables for column in table.typed):
            return
        sheet.protect("", {
            "sort": True, "autofilter": True, "format_columns": True, "format_rows": True, "format_cells": True,
            "insert_rows": False, "objects": False,
        })  # fmt: skip

    def _cells(self, sheet: PlainSheet, page: Page, values: Values) -> None:
        title = page.placed.sheet.title
        for row, column, kind, content, style in page.cells:
            made = self.format(style)
            if kind == "number":
                sheet.write_number(row - 1, column - 1, content, made)
            elif there := page.links.get((row, column)):
                sheet.write_url(
                    row - 1, column - 1, f"internal:'{there}'!A1", made, string=content, tip=f"go to {there}"
                )
            elif kind == "text":
                sheet.write_string(row - 1, column - 1, content, made)
            elif kind == "blank":
                sheet.write_blank(row - 1, column - 1, None, made)
            elif kind == "formula":
                value = _cached(values[title, row, column])
                sheet.put_formula(row - 1, column - 1, str(content), made, value)
        for run in page.runs:
            shown = [
                _cached(v) for v in values.column(title, run.column, range(run.first_row, run.first_row + run.rows))
            ]
            looks = [self.format(style) for style in run.turns or [run.style]]
            formats = (looks * (run.rows // len(looks) + 1))[: run.rows]
            sheet.put_run(run, formats, shown)

    def _area(self, here: Placed, slot: Slot) -> tuple[int, int, int, int]:
        if here.table.form:
            return slot.at - 1, here.across - 1, slot.at - 1, here.across - 1
        return here.first_row - 1, slot.at - 1, here.last_row - 1, slot.at - 1

    def _slot(self, sheet: Worksheet, here: Placed, slot: Slot) -> None:
        column, area = slot.column, self._area(here, slot)
        if isinstance(column, Typed):
            if here.table.form and is_watched(slot):
                for at in {here.across - 1, here.across + 2}:
                    self._colour_by_symbol(sheet, (slot.at - 1, at - 1, slot.at - 1, at - 1))
            if slot.shows == "from typed" or column.locked:
                return
            if column.handed and here.table.is_list and self.handed:
                sheet.data_validation(*area[:2], self.handed - 1, area[3], HANDED_OUT)
                area = (self.handed, *area[1:])
            if area[0] <= area[2] and (rule := self._rule(column, slot, area)):
                sheet.data_validation(*area, rule)
        elif isinstance(column, Said | Flag) or column.look.status:
            self._colour_by_symbol(sheet, area)
        elif column.look.measure:
            self._colour_by_limit(sheet, area, column.look.measure)
        elif column.look.drawn_from:
            self._small_bars(sheet, here, slot)

    @staticmethod
    def _small_bars(sheet: Worksheet, here: Placed, slot: Slot) -> None:
        """In each row a bar for the cell of each column, from nought up; blank texts count as nought, so none shows."""
        first, last = (letters(here.base[key]) for key in (slot.column.look.drawn_from, slot.column.look.drawn_to))
        looks = {"type": "column", "min": 0, "series_color": look.BARS["range"], "last_color": look.BARS["grown"]}
        for row in range(here.first_row, here.last_row + 1):
            area = f"{before_a_cell(here.base_sheet)}!{first}{row}:{last}{row}"
            sheet.add_sparkline(row - 1, slot.at - 1, {"range": area, "last_point": True, **looks})

    def _rule(self, column: Typed, slot: Slot, area: tuple[int, int, int, int]) -> dict[str, object] | None:
        kind, first = column.kind, f"{letters(area[1] + 1)}{area[0] + 1}"
        rule = {"ignore_blank": True, **_limits(kind, slot, first)}
        if kind.table:
            offered = self.placing.offered(kind.table, slot.sheet)
            rule |= {"validate": "list", "source": f"={offered}", "ignore_blank": False}
        if column.help:
            rule |= {"input_title": column.label[:32], "input_message": column.help[:255]}
        rule |= {
            "error_title": "Please check",
            "error_message": f"{column.label}: expected {self._expected(kind, slot)}."[:255],
        }
        # A list of some of the names can't tell the others from unknown ones, so it asks; Attention names the unknown.
        if kind.name == "link" and (kind.choices or self.placing.narrowing(slot.sheet, kind.table)):
            rule["error_type"] = "warning"
        if kind.name == "text" and kind.table:  # the names are only offered
            rule["show_error"] = False
        return rule

    def _expected(self, kind: Kind, slot: Slot) -> str:
        """What may be typed, in words: with the unit of the cell, or with the list that the name must stand in."""
        if kind.name == "link":
            also = "".join(f", or {word}" for word in kind.choices)
            here = self.placing.tables[kind.table]
            any_ = ", of any group" if self.placing.narrowing(slot.sheet, kind.table) else ""
            return f"a name of the list on the sheet {here.sheet}{any_}; add it there first{also}"
        if kind.name == "number" and slot.unit not in {"", "1"}:
            low, high = max(kind.low, -1e9), min(kind.high, 1e9)
            if slot.twin:
                low, high = slot.twin.shown(low), slot.twin.shown(high)
            return f"a bare number from {in_full(low)} to {in_full(high)} ({written(slot.unit)})"
        if kind.name == "number" and "%" in slot.column.look.show:
            return f"a share from {kind.low:.0%} to {kind.high:.0%}, typed with its % sign"
        return kind.expected

    def _colour_by_symbol(self, sheet: Worksheet, area: tuple[int, int, int, int]) -> None:
        first = f"{letters(area[1] + 1)}{area[0] + 1}"
        for level, (fill, ink) in look.SERIOUS.items():
            made = self._serious(level, fill, ink)
            sheet.conditional_format(
                *area, {"type": "formula", "criteria": f'=LEFT({first},1)="{SYMBOLS[level]}"', "format": made}
            )

    def _serious(self, level: str, fill: str, ink: str, show: str = "") -> Format:
        key = ("serious " + level, show)
        if key not in self.formats:
            more = {"num_format": show} if show else {}
            self.formats[key] = self.book.add_format({"bg_color": fill, "font_color": ink, **more})
        return self.formats[key]

    def _colour_by_limit(self, sheet: Worksheet, area: tuple[int, int, int, int], measure: str) -> None:
        first = f"{letters(area[1] + 1)}{area[0] + 1}"
        limits = (("act", "1"), ("watch", "const_nearly_full")) if measure == "load" else (("act", "1"),)
        for level, limit in limits:
            made = self._serious(level, *look.SERIOUS[level], f'"{SYMBOLS[level]} "0%')
            sheet.conditional_format(*area, {
                "type": "formula", "criteria": f"=AND(ISNUMBER({first}),ROUND(SUM({first}),2)>{limit})", "format": made, "stop_if_true": True,
            })  # fmt: skip

    def _widths(self, sheet: Worksheet, page: Page) -> None:
        placed = page.placed
        if placed.sheet.role == "own":
            _own_widths(sheet, page)
        of_form = (*LEFT_WIDTHS, LEFT_GAP) if placed.sheet.left else () if placed.sheet.blocks else FORM_WIDTHS
        for at, wide in enumerate(of_form if placed.sheet.tables and not placed.sheet.bands else ()):
            sheet.set_column(at, at, wide)
        for here in self.placing.on(placed.sheet.title):
            if here.table.form:
                continue
            if not here.on_page:
                self._table_widths(sheet, here, placed.sheet.title)
        for charts, at in placed.charts:
            sheet.set_column(at - 1, at + charts.columns - 2, 9)
        heads = placed.header_row + placed.head - 1
        if placed.sheet.blocks and all(c.style[0] == "seed" or not c.content for c in page.cells if c.row == heads):
            sheet.set_row_pixels(heads - 1, BARE_PIXELS)
        if (placed.sheet.blocks or placed.sheet.role == "workings") and placed.sheet.frozen_head:
            sheet.freeze_panes(placed.header_row + placed.head - 1, placed.frozen_columns)

    def _table_widths(self, sheet: Worksheet, here: Placed, title: str) -> None:
        """The columns of a table on one of its sheets, and the heights of its head and rows."""
        for slot in here.on(title):
            width = width_of(self.placing, here, slot)
            folds = slot.rare or here.workings or self.placing.sheets[title].sheet.folds
            sheet.set_column(slot.at - 1, slot.at - 1, width, None, _outline(here, slot) if folds else {})
        self._header_heights(sheet, here)
        for row in range(here.first_row, here.last_row + 1) if here.table.row_height else ():
            sheet.set_row_pixels(row - 1, here.table.row_height)

    @staticmethod
    def _header_heights(sheet: Worksheet, here: Placed) -> None:
        sheet.set_row_pixels(here.first_row - here.head, HEADER_PIXELS)
        if any(slot.column.look.upright for slot in here.slots):
            sheet.set_row_pixels(here.first_row - 2, UPRIGHT_PIXELS)


def _own_widths(sheet: Worksheet, page: Page) -> None:
    """Columns of a person's own sheet: as wide as what stands in them."""
    for column in {cell.column for cell in page.cells}:
        longest = max(len(str(c.content or "")) for c in page.cells if c.column == column)
        sheet.set_column(column - 1, column - 1, min(OWN_WIDEST, max(OWN_NARROWEST, longest + 2)))


def _outline(here: Placed, slot: Slot) -> dict[str, object]:
    """Working columns are a group that can be folded; on a list what is seldom typed is one, folded from the start."""
    if here.workings:
        slots = here.on(slot.sheet)
        before = next((left for left in slots if left.at == slot.at - 1), slots[-1])
        return {"level": 1, "hidden": True} if slot.rare else {"collapsed": True} if before.rare else {}
    return {"level": 1} if slot.column.look.working or slot.shows == "from typed" else {}


def _limits(kind: Kind, slot: Slot, first: str) -> dict[str, object]:
    """The rule of a kind, in the unit that the cell shows."""
    low, high = (max(min(x, 1e9), -1e9) for x in (kind.low, kind.high))
    if slot.twin:
        low, high = slot.twin.shown(low), slot.twin.shown(high)
    match kind.name:
        case "number":
            return {"validate": "decimal", "criteria": "between", "minimum": low, "maximum": high}
        case "count":
            return {"validate": "integer", "criteria": "between", "minimum": int(low), "maximum": int(high)}
        case "date":
            return {
                "validate": "integer",
                "criteria": "between",
                "minimum": serial(FIRST_DATE),
                "maximum": serial(LAST_DATE),
            }
        case "choice":
            return {"validate": "list", "source": list(kind.choices)}
        case "key":
            wild = ",".join(f'ISERROR(SEARCH("{mark}",{first}))' for mark in ("~*", "~?", "~~", "¦", "→"))
            return {"validate": "custom", "value": f"=AND(LEN({first})<={LONGEST_KEY},{wild})"}
    return {"validate": "length", "criteria": "<=", "value": LONGEST_TEXT}


def _cached(value: str | float) -> str | float:
    """What a program that does not recalculate shows."""
    if isinstance(value, float) and not math.isfinite(value):
        raise ValueError(f"a formula gives {value}")
    return value


def write(target: Path, pages: list[Page], values: Values, placing: Placing, about: About) -> None:
    """Write the file beside its place and move it in."""
    with moved_in(target) as beside, warnings.catch_warnings():
        warnings.simplefilter("error")  # xlsxwriter drops features with a mere warning
        try:
            _write(beside, pages, values, placing, about)
        except FileCreateError as error:  # a full disk, say
            raise (
                error.args[0]
                if error.args and isinstance(error.args[0], OSError)
                else OSError(0, str(error), str(target))
            ) from error


def _opening(pages: list[Page], values: Values, placing: Placing) -> str:
    """The sheet that is seen first: the first one, or one that wants a list in which something stands."""
    for sheet in (page.placed.sheet for page in pages if page.placed.sheet.opens_when):
        here = placing.tables[sheet.opens_when]
        at, rows = here.base[here.table.row_name[0]], range(here.first_row, here.last_row + 1)
        if any(values[here.base_sheet, row, at] != "" for row in rows):
            return sheet.title
    return pages[0].placed.sheet.title


def _write(path: Path, pages: list[Page], values: Values, placing: Placing, about: About) -> None:
    book = xlsxwriter.Workbook(str(path), {
        "strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False,
        "default_format_properties": {"font_name": look.FONT, "font_size": 10}, "default_row_height": ROW_PIXELS,
    })  # fmt: skip
    book.set_properties(
        {
            "title": about.title,
            "created": CREATED,
            "comments": "Planning estimates: test the water and watch the animals.",
        }
    )
    for key, fact in about.facts.items():
        book.set_custom_property(key, fact)
    book.set_calc_mode("auto")
    writer = Writer(book, placing)
    for page in pages:
        writer.add_page(page, values)
    book.get_worksheet_by_name(_opening(pages, values, placing)).activate()
    for name, (sheet, top, left, bottom, right) in placing.names().items():
        a, b = letters(left), letters(right)
        area = f"${a}${top}" if (top, left) == (bottom, right) else f"${a}${top}:${b}${bottom}"
        book.define_name(name, f"='{sheet}'!{area}")
    for name, formula in placing.dropdowns().items():
        book.define_name(name, f"={formula}")
    book.close()
