"""Charts: bars over the cells of a table, with title, axis, units and alternative text."""

import xlsxwriter
from xlsxwriter.worksheet import Worksheet

from workbook.cells.placing import PlacedSheet, Placing
from workbook.files import look
from workbook.tables.sheet import Chart, Series


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


def _area(placing: Placing, name: str) -> list[str | int]:
    table, _, key = name.partition(".")
    here = placing.tables[table]
    at = next(s.at for s in here.slots if s.column.key == key and s.shows != "from typed") - 1
    return [here.sheet, here.first_row - 1, at, here.last_row - 1, at]


def _series(series: Series, placing: Placing) -> dict[str, object]:
    made: dict[str, object] = {
        "name": series.name, "categories": _area(placing, series.labels), "values": _area(placing, series.values), "gap": 40,
    }  # fmt: skip
    if not series.colour:
        return made | {"fill": {"none": True}, "border": {"none": True}}
    return made | {"fill": {"color": look.BARS[series.colour]}, "border": {"none": True}}


def _chart(book: xlsxwriter.Workbook, chart: Chart, placing: Placing) -> object:
    made = book.add_chart({"type": "bar", "subtype": "stacked"} if chart.stacked else {"type": "bar"})
    for series in chart.series:
        made.add_series(_series(series, placing))
    font = {"name": look.FONT, "size": 9, "color": look.INK}
    made.set_title({"name": chart.title, "name_font": {**font, "size": 11, "bold": True}, "overlay": False})
    axis: dict[str, object] = {"name": chart.axis, "name_font": {**font, "bold": False}, "num_font": font,
                               "major_gridlines": {"visible": True, "line": {"color": look.LINE, "width": 0.5}}}  # fmt: skip
    if chart.low is not None:
        axis["min"] = chart.low
    if chart.high is not None:
        axis["max"] = chart.high
    if chart.percent:
        axis["num_format"] = "0%"
    made.set_x_axis(axis)
    made.set_y_axis(
        {
            "reverse": True,
            "num_font": {**font, "size": 8},
            "interval_unit": 1,
            "major_gridlines": {"visible": False},
            "line": {"color": look.LINE},
        }
    )
    drawn = [i for i, series in enumerate(chart.series) if not series.colour]
    made.set_legend(
        {"none": True}
        if len(chart.series) - len(drawn) < 2
        else {"position": "bottom", "font": font, "delete_series": drawn}
    )
    made.set_size({"width": chart.width, "height": chart.height})
    made.set_chartarea({"border": {"color": look.LINE}})
    return made
