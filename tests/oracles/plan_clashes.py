"""Clashes that a plan brings or ends, one a line; of each group first those that come."""

import math
from typing import NamedTuple

from tests.oracles import plan_livestock
from tests.oracles.tools import Room, remember

LINES = 14


class Told(NamedTuple):
    """One of them: the row of its group, which of its own it is, whether it comes, and its sentence."""

    row: float
    nth: float
    is_new: float
    sentence: str


@remember
def told(room: Room) -> list[Told | None]:
    """One for each line, as far as there are any."""
    found: list[Told | None] = []
    for row, (new, gone) in enumerate(zip(plan_livestock.new(room), plan_livestock.gone(room), strict=True), 1):
        both = [(1.0, text) for text in new.split("¦") if text] + [(0.0, text) for text in gone.split("¦") if text]
        found += [Told(float(row), at, comes, text) for at, (comes, text) in enumerate(both, 1)]
    return [*found, *[None] * LINES][:LINES]


def group(room: Room) -> list[float]:
    return [one.row if one else math.nan for one in told(room)]


def nth(room: Room) -> list[float]:
    return [one.nth if one else math.nan for one in told(room)]


def is_new(room: Room) -> list[float]:
    return [one.is_new if one else math.nan for one in told(room)]


def sentence(room: Room) -> list[str]:
    return [one.sentence if one else "" for one in told(room)]


def change(room: Room) -> list[str]:
    return [("comes" if one.is_new else "ceases") if one else "" for one in told(room)]


def why(room: Room) -> list[str]:
    return [(one.sentence if one.is_new else one.sentence.partition(" → ")[0]) if one else "" for one in told(room)]
