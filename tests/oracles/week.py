"""This week: the tasks due within seven days, in the order of their first day, with a box on each day they fall on."""

import numpy as np
import pandas as pd

from tests.oracles import maintenance
from tests.oracles.tools import Room, remember, through

LINES = 80
BOX = "☐"


@remember
def _due(room: Room) -> list[int | None]:
    """Rows of Maintenance that stand on the lines; None where a line is empty."""
    days = maintenance.first_day(room)
    due = sorted((day, row) for row, day in enumerate(days) if day < maintenance.WEEK)
    found: list[int | None] = [row for _, row in due[:LINES]]
    return found + [None] * (LINES - len(found))


def _shown(room: Room, column: str | pd.Series) -> pd.Series:
    return through(room.maintenance[column] if isinstance(column, str) else column, _due(room))


def _ticks(room: Room, day: int) -> pd.Series:
    """A box where the task falls on this day, 0 today; from its first day on it comes again in its rhythm."""
    found = []
    for first, every in zip(first_day(room), every_days(room), strict=True):
        falls = not np.isnan(first) and day in range(int(first), maintenance.WEEK, int(every))
        found.append(BOX if falls else "")
    return pd.Series(found, dtype=object)


@remember
def row(room: Room) -> pd.Series:
    return pd.Series([np.nan if at is None else at + 1 for at in _due(room)], dtype=float)


@remember
def task(room: Room) -> pd.Series:
    return _shown(room, "task")


@remember
def tank(room: Room) -> pd.Series:
    return _shown(room, "tank")


@remember
def minutes(room: Room) -> pd.Series:
    return _shown(room, maintenance.minutes_used(room))


@remember
def supplies(room: Room) -> pd.Series:
    return _shown(room, maintenance.supplies_used(room))


@remember
def every_days(room: Room) -> pd.Series:
    return _shown(room, maintenance.every(room))


@remember
def first_day(room: Room) -> pd.Series:
    return _shown(room, maintenance.first_day(room))


@remember
def days_late(room: Room) -> pd.Series:
    return _shown(room, maintenance.days_late(room))


@remember
def late(room: Room) -> pd.Series:
    days = days_late(room)
    return days.where(days > 0)


@remember
def day_1(room: Room) -> pd.Series:
    return _ticks(room, 0)


@remember
def day_2(room: Room) -> pd.Series:
    return _ticks(room, 1)


@remember
def day_3(room: Room) -> pd.Series:
    return _ticks(room, 2)


@remember
def day_4(room: Room) -> pd.Series:
    return _ticks(room, 3)


@remember
def day_5(room: Room) -> pd.Series:
    return _ticks(room, 4)


@remember
def day_6(room: Room) -> pd.Series:
    return _ticks(room, 5)


@remember
def day_7(room: Room) -> pd.Series:
    return _ticks(room, 6)
