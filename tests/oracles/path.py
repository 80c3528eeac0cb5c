"""The next twelve changes of the chosen tank, one after the other."""

import math
from collections.abc import Callable

import numpy as np
import pandas as pd

from tests.oracles import changes, stocking, tanks
from tests.oracles.tools import Room, remember, rows_of

LINES = 13


@remember
def _chosen(room: Room) -> int | None:
    return rows_of(room.tanks, "tank", [room.choice.get("path") or ""])[0]


def _same(value: float) -> pd.Series:
    return pd.Series([value] * LINES, dtype=float)


def _of_tank(room: Room, column: Callable[[Room], pd.Series]) -> float:
    row = _chosen(room)
    return math.nan if row is None else float(column(room).iloc[row])


def chosen_row(room: Room) -> pd.Series:
    row = _chosen(room)
    return _same(math.nan if row is None else row + 1.0)


def number(room: Room) -> pd.Series:
    return pd.Series(range(LINES), dtype=float)


@remember
def start(room: Room) -> pd.Series:
    """So that the level before the first change is today's; without a reading as if it had long settled."""
    now, step = _of_tank(room, changes.nitrate_now), _of_tank(room, stocking.nitrate_interval)
    return _same(_of_tank(room, changes.nitrate_trough) + 0 * step if math.isnan(now) else now - step)


def rise(room: Room) -> pd.Series:
    return _same(_of_tank(room, stocking.nitrate_interval))


def share(room: Room) -> pd.Series:
    return _same(_of_tank(room, lambda r: r.tanks["change_share"]))


def source(room: Room) -> pd.Series:
    return _same(_of_tank(room, lambda r: tanks.source(r, "nitrate")))


@remember
def _walk(room: Room) -> pd.DataFrame:
    """Levels just before and just after each change; no path without all that the steps need."""
    level, d, f, s = (column(room)[0] for column in (start, rise, share, source))
    if np.isnan([d, f, s]).any():
        level = math.nan
    found = []
    for _ in range(LINES):
        high = level + d
        level = high + f * (s - high)
        found.append((high, level))
    return pd.DataFrame(found, columns=["before", "after"], dtype=float)


def before(room: Room) -> pd.Series:
    return _walk(room)["before"]


def after(room: Room) -> pd.Series:
    return _walk(room)["after"]


def target(room: Room) -> pd.Series:
    value = room.settings.get("nitrate_target")
    return _same(np.nan if value is None else float(value)).where(before(room).notna())
