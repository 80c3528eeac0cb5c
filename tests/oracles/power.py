"""The tanks in the order in which they need help, and how they cool."""

import math

import numpy as np
import pandas as pd

from tests.oracles import cooling, outage, overlap_detail, stocking, tanks
from tests.oracles.tools import Room, remember, through

LINES = 60
BOX = "☐"


@remember
def _order(room: Room) -> list[int | None]:
    """Rows of Tanks by need; those in which nothing is known to live are left out."""
    ranks = cooling.rank(room).dropna()
    rows = sorted(ranks.index, key=lambda row: ranks[row])[:LINES]
    return [*rows, *[None] * (LINES - len(rows))]


def _shown(room: Room, column: pd.Series) -> pd.Series:
    return through(column, _order(room))


@remember
def found(room: Room) -> pd.Series:
    return pd.Series([np.nan if row is None else row + 1.0 for row in _order(room)], dtype=float)


@remember
def tank(room: Room) -> pd.Series:
    return _shown(room, room.tanks["tank"])


@remember
def hours(room: Room) -> pd.Series:
    known = stocking.reserve(room).astype(object)
    told = _shown(room, known.where(known.notna(), "unknown: look first"))
    return told.where(tank(room) != "", "")


@remember
def animals(room: Room) -> pd.Series:
    return _shown(room, tanks.animals(room))


@remember
def net_volume(room: Room) -> pd.Series:
    return _shown(room, tanks.net_volume(room))


@remember
def temperature(room: Room) -> pd.Series:
    return _shown(room, tanks.column(room, "temperature"))


@remember
def coldest(room: Room) -> pd.Series:
    """The shared low end of the residents' temperatures."""
    return _shown(room, overlap_detail.temperature_low(room))


@remember
def time_constant(room: Room) -> pd.Series:
    return _shown(room, cooling.time_constant(room))


def _air(room: Room) -> float:
    return float(outage.air_used(room)[0])


def _after(room: Room, hours_: float) -> pd.Series:
    """The lead over the room shrinks by the same part in each time constant."""
    left = 0.5 ** (hours_ / (time_constant(room) * math.log(2)))
    return left * temperature(room) + (1 - left) * _air(room)


@remember
def after_four(room: Room) -> pd.Series:
    return _after(room, 4)


@remember
def after_twelve(room: Room) -> pd.Series:
    return _after(room, 12)


@remember
def hours_to_cold(room: Room) -> pd.Series:
    """Words where it is that cold already, or never gets there."""
    told: list[float | str] = []
    for start, limit, constant in zip(temperature(room), coldest(room), time_constant(room), strict=True):
        lead, wanted = start - _air(room), limit - _air(room)
        if np.isnan([lead, wanted, constant]).any():
            told.append(math.nan)
        elif lead <= wanted:
            told.append("at once")
        else:
            told.append("stays above" if wanted <= 0 else constant * (math.log(lead) - math.log(wanted)))
    return pd.Series(told, dtype=object)


@remember
def done(room: Room) -> pd.Series:
    return pd.Series(["" if row is None else BOX for row in _order(room)], dtype=object)
