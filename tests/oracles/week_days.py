"""Each day of the week: how many of the listed tasks fall on it and how long they take."""

import pandas as pd

from tests.oracles import week
from tests.oracles.tools import Room, remember

NAMES = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
BOXES = (week.day_1, week.day_2, week.day_3, week.day_4, week.day_5, week.day_6, week.day_7)


@remember
def name(room: Room) -> pd.Series:
    dates = [room.plan_date + pd.Timedelta(days=n) for n in range(7)]
    return pd.Series([f"{NAMES[date.weekday()]} {date.day}" for date in dates], dtype=object)


@remember
def tasks(room: Room) -> pd.Series:
    return pd.Series([float((boxes(room) == week.BOX).sum()) for boxes in BOXES], dtype=float)


@remember
def minutes(room: Room) -> pd.Series:
    """Tasks whose minutes are not typed count for nothing."""
    taken = week.minutes(room)
    return pd.Series([float(taken[boxes(room) == week.BOX].sum()) for boxes in BOXES], dtype=float)
