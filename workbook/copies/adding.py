"""Columns that add up: what each of several people put in or took out counts, whoever came first."""

from collections.abc import Iterable

from workbook.copies.identity import Held
from workbook.tables.columns import Typed


def total_of(
    typed: Typed | None, start: Held, before: Held, versions: Iterable[tuple[Held, int]]
) -> int | float | None:
    """What stands there now, and the difference of each version from what it was before, so many times.

    None where that makes no sense: in another column, where something is no number, or out of the column's limits.
    """
    counted = [(_number(held), times) for held, times in versions]
    begun, was = _number(start), _number(before)
    if typed is None or not typed.adds_up or not counted or begun is None or was is None:
        return None
    total = begun
    for number, times in counted:
        if number is None:
            return None
        total += (number - was) * times
    return _within(typed, float(f"{total:.12g}"))


def _number(held: Held) -> float | None:
    return float(held) if isinstance(held, int | float) and not isinstance(held, bool) else None


def _within(typed: Typed, total: float) -> int | float | None:
    if not typed.kind.low <= total <= typed.kind.high:
        return None
    return int(total) if typed.kind.name == "count" and total == int(total) else total
