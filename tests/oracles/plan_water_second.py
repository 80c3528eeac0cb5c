"""The same of hardness: see plan_water_first.py."""

from tests.oracles.plan_water_first import now, then
from tests.oracles.tools import Room


def gh_now(room: Room) -> list[str]:
    return now(room, "gh")


def gh_then(room: Room) -> list[str]:
    return then(room, "gh")


def kh_now(room: Room) -> list[str]:
    return now(room, "kh")


def kh_then(room: Room) -> list[str]:
    return then(room, "kh")
