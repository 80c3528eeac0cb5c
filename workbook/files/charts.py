"""Charts: bars over the cells of a table, with title, axis, units and alternative text."""

import xlsxwriter
from xlsxwriter.worksheet import Worksheet

from workbook.cells.placing import Placing, letters
from workbook.cells.slots import Placed, PlacedSheet, Slot
from workbook.files import look
from workbook.tables.sheet import Chart, Series
from workbook.tables.units import written

# How the days along the bottom of a chart are written: months apart, or days.
DAYS: dict[str, dict[str, object]] = {
    "day": {"num_format": "yyyy-mm", "major_unit": 61},
    "near": {"num_format": "mm-dd"},
}


def add_charts(book: xlsxwriter.Workbook, sheet: Worksheet, placed: PlacedSheet, placing: Placing) -> None:
    """All charts of a sheet, one below the other in the room kept for them."""
    for charts, at in placed.charts:
        down = 0
        for i, chart in enumerate(charts.charts):
            across = i % charts.across
            sheet.insert_chart(placed.header_row, at - 1, _chart(book, chart, placing), {
                "x_offset": 6 + across * (chart.width + 10), "y_offset": 6 + down, "object_position": 3,
                "description": chart.describes,
            })  # fmt: skip
            down += (chart.height + 10) * (across == charts.across - 1)
    for charts, at, row in placed.page_charts:
        for chart in charts.charts:
            sheet.insert_chart(row - 1, at - 1, _chart(book, chart, placing), {
                "x_offset": 2, "y_offset": 2, "object_position": 3, "description": chart.describes,
            })  # fmt: skip


def _drawn(placing: Placing, name: str) -> tuple[Placed, Slot]:
    """Where a column is drawn from: its twin, where the file shows one."""
    table, _, key = name.partition(".")
    here = placing.tables[table]
    return here, next(s for s in here.slots if s.column.key == key and s.shows != "from typed")


def _area(placing: Placing, name: str) -> list[str | int]:
    here, slot = _drawn(placing, name)
    return [slot.sheet, here.first_row - 1, slot.at - 1, here.last_row - 1, slot.at - 1]


def _series(series: Series, placing: Placing) -> dict[str, object]:
    made: dict[str, object] = {
        "name": series.name, "categories": _area(placing, series.labels), "values": _area(placing, series.values),
    }  # fmt: skip
    if not series.colour:
        return made | {"fill": {"none": True}, "border": {"none": True}}
    return made | {"fill": {"color": look.BARS[series.colour]}, "border": {"none": True}}


def _chart(book: xlsxwriter.Workbook, chart: Chart, placing: Placing) -> object:
    kind = (
        {"type": "scatter", "subtype": "straight"}
        if chart.over_time
        else {"type": "bar"} | ({"subtype": "stacked"} if chart.stacked else {})
    )
    made = book.add_chart(kind)
    for series in chart.series:
        made.add_series(_series(series, placing) | (_line(series) if chart.over_time else {"gap": 40}))
    font = {"name": look.FONT, "size": 9, "color": look.INK}
    title = {"name": _title(chart.title, placing), "name_font": {**font, "size": 11, "bold": True}, "overlay": False}
    made.set_title(title if chart.title else {"none": True})
    grid = {"visible": True, "line": {"color": look.LINE, "width": 0.5}}
    slot = _drawn(placing, chart.series[0].values)[1]
    value: dict[str, object] = {
        "name": chart.axis.replace("{unit}", written(slot.unit)),
        "name_font": {**font, "bold": False},
        "num_font": font,
        "major_gridlines": grid,
    }
    ends = {"min": chart.low, "max": chart.high}
    value |= {end: slot.twin.shown(at) if slot.twin else at for end, at in ends.items() if at is not None}
    if chart.percent:
        value["num_format"] = "0%"
    if chart.dates:
        value["num_format"] = "yyyy-mm-dd"
    if chart.over_time:
        date = DAYS.get(chart.days, {})
        made.set_x_axis(
            {
                "name": chart.days_axis,
                "name_font": {**font, "bold": False},
                "num_font": font,
                "major_gridlines": {"visible": False},
                **date,
            }
        )
        made.set_y_axis(value)
    else:
        made.set_x_axis(value)
        line = {"color": look.LINE}
        made.set_y_axis(
            {
                "reverse": True,
                "num_font": {**font, "size": 8},
                "interval_unit": 1,
                "major_gridlines": {"visible": False},
                "line": line,
            }
        )
    undrawn = [i for i, series in enumerate(chart.series) if not series.colour]
    alone = len(chart.series) - len(undrawn) < 2
    # The undrawn ones, nameless and without colour, stay in the legend: taken out, LibreOffice leaves out the last one.
    legend = {**font, "size": 9 if chart.title else 8}
    made.set_legend({"none": True} if alone or not chart.legend else {"position": "bottom", "font": legend})
    made.set_size({"width": chart.width, "height": chart.height})
    made.set_chartarea({"border": {"color": look.LINE}})
    made.show_blanks_as("gap")
    return made


def _title(title: str, placing: Placing) -> str:
    """A title as it is, or the cell that holds it: of a form, or the first of a column."""
    table, dot, key = title.partition(".")
    if not dot or table not in placing.tables:
        return title
    here = placing.tables[table]
    column, row = (here.across, here.base[key]) if here.table.form else (here.base[key], here.first_row)
    return f"='{here.base_sheet}'!${letters(column)}${row}"


def _line(series: Series) -> dict[str, object]:
    """A line with points; the ends of a band are thin and dashed."""
    colour = look.BARS[series.colour]
    if series.colour == "shared":
        return {"line": {"color": colour, "width": 1.25, "dash_type": "dash"}, "marker": {"type": "none"}}
    mark = {"type": "circle", "size": 5, "fill": {"color": colour}, "border": {"color": colour}}
    return {"line": {"color": colour, "width": 1.75}, "marker": mark}
