"""Tanks that a plan names: those that animals leave, those they come to, those with other values."""

from tests.oracles import planned
from tests.oracles.tools import Room


def tank_row(room: Room) -> list[float]:
    plan = planned.lines(room)
    return [*plan["from_row"], *plan["to_row"], *planned.value_rows(room)]
