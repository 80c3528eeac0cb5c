"""How wide a column is: as wide as it asks for, and so that its head is two lines at most."""

import functools

from workbook.cells.compiling import label_of
from workbook.cells.placing import Placing
from workbook.cells.slots import Placed, Slot
from workbook.tables.columns import Said

FORM_WIDTHS = (34, 30, 14, 78)  # label, value, unit, help
LEFT_WIDTHS = (20, 24, 6)  # label, value, unit of a form at the left of a list
LEFT_GAP = 1.5
SIGN_WIDTH = 27
HEAD_LINES = 2
BOLD = 1.1  # a bold letter beside one of the width by which columns are measured


def width_of(placing: Placing, here: Placed, slot: Slot) -> float:
    """In characters; a sign is short."""
    if isinstance(slot.column, Said) and slot.shows == "answer":
        return SIGN_WIDTH
    if slot.column.look.upright or here.on_page:
        return slot.column.look.width
    return max(slot.column.look.width, _narrowest(label_of(placing.schema, here.table, slot)))


@functools.cache
def _narrowest(label: str) -> int:
    """The narrowest column in which a label does not take more than two lines."""
    widths = range(1, len(label) + 3)
    return next((width for width in widths if _lines(label, (width - 1) / BOLD) <= HEAD_LINES), 0)


def _lines(text: str, fits: float) -> int:
    """How many lines a text takes that is broken between words; one that does not fit takes more than any head has."""
    count, filled = 1, 0
    for word in text.split():
        if len(word) > fits:
            return HEAD_LINES + 1
        if filled and filled + 1 + len(word) > fits:
            count, filled = count + 1, len(word)
        else:
            filled += len(word) + bool(filled)
    return count
