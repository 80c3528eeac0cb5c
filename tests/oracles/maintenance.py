"""Tasks: when each is next due and how late it is."""

import numpy as np
import pandas as pd

from tests.oracles.tools import Room, blank, lookup, remember

WEEK = 7


def _days(room: Room) -> pd.Series:
    """Days from the plan date to the next date; below 0 it is past."""
    return (next_due(room) - room.plan_date).dt.days.astype(float)


def _usual(room: Room, key: str) -> pd.Series:
    """What the task list says of each task; nothing of tasks that are the person's own."""
    return lookup(room.tasks, "task", room.maintenance["task"], key)


@remember
def every(room: Room) -> pd.Series:
    """The row's own interval goes before the usual one."""
    return room.maintenance["every_days"].fillna(_usual(room, "usual_days")).astype(float)


@remember
def minutes_used(room: Room) -> pd.Series:
    return room.maintenance["minutes"].fillna(_usual(room, "usual_minutes")).astype(float)


@remember
def supplies_used(room: Room) -> pd.Series:
    """Only where there is a task."""
    own, usual = room.maintenance["supplies"], _usual(room, "usual_supplies")
    return own.where(~blank(own), usual).mask(blank(room.maintenance["task"]), "").astype(object)


def no_interval(room: Room) -> pd.Series:
    """A task with its tank, of which nobody says how often."""
    begun = ~blank(room.maintenance["task"]) & ~blank(room.maintenance["tank"])
    return begun & every(room).isna()


@remember
def next_due(room: Room) -> pd.Series:
    """The last date and the rhythm; today where it was never done; unknown without a rhythm."""
    table = room.maintenance
    dates = pd.to_datetime(table["last_done"]) + pd.to_timedelta(every(room), unit="D")
    return dates.fillna(room.plan_date).where(every(room).notna())


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
