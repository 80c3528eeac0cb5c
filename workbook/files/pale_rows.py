"""Rows whose day is still to come stand pale: they count for nothing yet."""

from xlsxwriter import Workbook
from xlsxwriter.worksheet import Worksheet

from workbook.cells.placing import letters
from workbook.cells.slots import Placed
from workbook.files import look


def pale_rows(book: Workbook, sheet: Worksheet, here: Placed, title: str) -> None:
    """A rule for all columns of a list on one of its sheets, if that holds the day."""
    slots = here.on(title)
    day = next((letters(slot.at) for slot in slots if slot.column.key == here.table.not_before), "")
    if not day or title != here.sheet:
        return
    cell = f"${day}{here.first_row}"
    sheet.conditional_format(
        *(here.first_row - 1, slots[0].at - 1, here.last_row - 1, slots[-1].at - 1),
        {
            "type": "formula",
            "criteria": f"=AND(ISNUMBER({cell}),{cell}>settings_plan_date)",
            "format": book.add_format(look.STILL_TO_COME),
        },
    )
