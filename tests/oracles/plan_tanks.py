"""Tanks as they would be: see planned.py."""

import math

from tests.oracles import planned
from tests.oracles.tools import Room, rows_of

__getattr__ = planned.asked_about("tanks", planned.TOUCHED)
REST = [math.nan] * planned.TOUCHED


def _six(found: list[float]) -> list[float]:
    return [*found, *REST][: planned.TOUCHED]


def own_row(room: Room) -> list[float]:
    return _six([float(row) for row in planned.touched(room)])


def value_row(room: Room) -> list[float]:
    values = list(planned.value_rows(room))
    return _six([values.index(row) + 1.0 if row in values else math.nan for row in planned.touched(room)])


def water_row(room: Room) -> list[float]:
    then = planned.room_then(room)
    found = rows_of(then.waters, "water", then.tanks["water"])
    return _six([math.nan if row is None else row + 1.0 for row in found])


def _then(key: str):
    def column(room: Room) -> list[object]:
        found: list[object] = list(planned.room_then(room).tanks[key])
        return [*found, *[""] * (planned.TOUCHED - len(found))]

    return column


shape, water, net_volume_measured = _then("shape"), _then("water"), _then("net_volume_measured")
temperature, length, width, height = (_then(key) for key in ("temperature", "length", "width", "height"))
change_share, change_interval, filter_flow = (_then(key) for key in ("change_share", "change_interval", "filter_flow"))
