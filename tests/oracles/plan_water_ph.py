"""pH that suits all of a tank: see plan_water.py."""

from tests.oracles.plan_water import now, then
from tests.oracles.tools import Room


def ph_now(room: Room) -> list[str]:
    return now(room, "ph")


def ph_then(room: Room) -> list[str]:
    return then(room, "ph")
