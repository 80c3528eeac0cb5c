"""Numbers typed into a form that can't be: told beside the cell as they are typed, or pasted past its check."""

import math

from workbook.cells.pages import Cell
from workbook.cells.placing import letters
from workbook.cells.slots import Placed, Slot
from workbook.tables.columns import Typed
from workbook.tables.completing import SYMBOLS
from workbook.tables.kinds import in_full
from workbook.tables.template import quoted
from workbook.tables.units import written

WHAT_FOLLOWS = ": outside of that, what hangs on it is unknown or wrong"


def is_watched(slot: Slot) -> bool:
    """Whether a cell takes only some numbers."""
    column = slot.column
    if not isinstance(column, Typed) or slot.shows == "from typed" or column.kind.name not in {"number", "count"}:
        return False
    return not (column.locked or math.isinf(column.kind.low) or math.isinf(column.kind.high))


def watched(here: Placed, slot: Slot, cell: Cell, *, in_short: bool) -> Cell:
    """A cell of words beside a typed one; where that takes only some numbers, one that tells which if it holds another."""
    if not is_watched(slot):
        return cell
    formula = _unless_impossible(here, slot, str(cell.content), in_short=in_short)
    return cell._replace(kind="formula", content=formula)


def _unless_impossible(here: Placed, slot: Slot, else_shown: str, *, in_short: bool) -> str:
    """A formula that shows some words, but in their place what the cell of a form takes when it holds anything else.

    In short where there is only the room of a label.
    """
    assert isinstance(slot.column, Typed)  # noqa: S101  as is_watched says
    kind, cell = slot.column.kind, f"${letters(here.across)}${slot.at}"
    low, high = (slot.twin.shown(end) if slot.twin else end for end in (kind.low, kind.high))
    unit = f" {written(slot.unit)}" if slot.unit not in {"", "1"} else ""
    ends = f"{in_full(low)} to {in_full(high)}{unit}"
    if "%" in slot.column.look.show:
        ends = f"{kind.low:.0%} to {kind.high:.0%}"
    told = f"{SYMBOLS['watch']} {ends}" if in_short else f"{SYMBOLS['watch']} Must be {ends}{WHAT_FOLLOWS}."
    within = f"MEDIAN({cell},{low!r},{high!r})={cell}"
    return f"=IF(COUNT({cell})=0,{quoted(else_shown)},IF({within},{quoted(else_shown)},{quoted(told)}))"
