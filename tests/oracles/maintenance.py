"""Tasks: when each is next due and how late it is."""

import numpy as np
import pandas as pd

from tests.oracles.tools import Room, remember, rows_of

WEEK = 7


def _days(room: Room) -> pd.Series:
    """Days from the plan date to the next date; below 0 it is past."""
    return (next_due(room) - room.plan_date).dt.days.astype(float)


@remember
def next_due(room: Room) -> pd.Series:
    """The last date and the rhythm; today where it was never done; unknown without a rhythm."""
    table = room.maintenance
    dates = pd.to_datetime(table["last_done"]) + pd.to_timedelta(table["every_days"], unit="D")
    return dates.fillna(room.plan_date).where(table["every_days"].notna())


@remember
def days_late(room: Room) -> pd.Series:
    return (-_days(room)).clip(lower=0) + 0.0


@remember
def state(room: Room) -> pd.Series:
    unknown = np.isnan([room.const["days_very_late"], room.const["soon_days"]]).any()

    def word(days: float) -> str:
        if np.isnan(days) or unknown:
            return ""
        if days < 0:
            return "◆ very late" if -days > room.const["days_very_late"] else "◆ late"
        if days == 0:
            return "due today"
        return "due soon" if days <= room.const["soon_days"] else "later"

    return _days(room).map(word).astype(object)


@remember
def first_day(room: Room) -> pd.Series:
    """0 is today, and late tasks fall on today."""
    return _days(room).clip(lower=0)


@remember
def order(room: Room) -> pd.Series:
    """By day, then by row; only what falls within seven days."""
    day = first_day(room)
    return (day + (np.arange(len(day)) + 1) / 1e6).where(day < WEEK)


def very_late(room: Room) -> pd.Series:
    return days_late(room) > room.const["days_very_late"]


def late(room: Room) -> pd.Series:
    days = days_late(room)
    return (days > 0) & (days <= room.const["days_very_late"])


def in_tank(room: Room) -> pd.Series:
    """By tank, then by the next date as it is counted since the end of 1899, then by row: one number for all three."""
    to = pd.Series(rows_of(room.tanks, "tank", room.maintenance["tank"]), dtype=float) + 1
    days = (next_due(room) - pd.Timestamp("1899-12-30")).dt.days.astype(float).reset_index(drop=True)
    return (to * 1e6 + days) * 1e5 + np.arange(1, len(to) + 1)
