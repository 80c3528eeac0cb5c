"""KH that suits all of a tank: see plan_water.py."""

from tests.oracles.plan_water import now, then
from tests.oracles.tools import Room


def kh_now(room: Room) -> list[str]:
    return now(room, "kh")


def kh_then(room: Room) -> list[str]:
    return then(room, "kh")
