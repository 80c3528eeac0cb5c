"""Temperature that suits all of a tank: see plan_water.py."""

from tests.oracles.plan_water import now, then
from tests.oracles.tools import Room


def temperature_now(room: Room) -> list[str]:
    return now(room, "temperature")


def temperature_then(room: Room) -> list[str]:
    return then(room, "temperature")
