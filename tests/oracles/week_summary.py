"""The week at a glance."""

import pandas as pd

from tests.oracles import week, week_days
from tests.oracles.tools import Room, remember


@remember
def due(room: Room) -> pd.Series:
    return pd.Series([float(len(week.all_due(room)))])


@remember
def minutes(room: Room) -> pd.Series:
    """Of the listed tasks, each as often as it falls within the week."""
    return pd.Series([float(week_days.minutes(room).sum())])


@remember
def shown(room: Room) -> pd.Series:
    some = due(room).iloc[0] > week.LINES
    return pd.Series([f"◆ only the first {week.LINES} tasks" if some else "all of them"], dtype=object)
