"""GH that suits all of a tank: see plan_water.py."""

from tests.oracles.plan_water import now, then
from tests.oracles.tools import Room


def gh_now(room: Room) -> list[str]:
    return now(room, "gh")


def gh_then(room: Room) -> list[str]:
    return then(room, "gh")
