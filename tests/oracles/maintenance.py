"""Tasks: when each is next due and how late it is."""

import numpy as np
import pandas as pd

from tests.oracles import lists, log, so_far
from tests.oracles.tools import Room, blank, folded, lookup, remember, rows_of, said, same

WEEK = 7


def _days(room: Room) -> pd.Series:
    """Days from the plan date to the next date; below 0 it is past."""
    return (next_due(room) - room.plan_date).dt.days.astype(float)


def _usual(room: Room, key: str) -> pd.Series:
    """What the task list says of each task; nothing of tasks that are the person's own."""
    return lookup(room.tasks, "task", room.maintenance["task"], key)


@remember
def every(room: Room) -> pd.Series:
    """The row's own interval goes before the usual one; of a tank's water change that on Tanks goes before it, too."""
    own = room.maintenance["every_days"].astype(float).reset_index(drop=True)
    usual = _usual(room, "usual_days").astype(float).reset_index(drop=True)
    return own.where(own > 0).fillna(tank_days(room)).fillna(usual.where(usual > 0))


@remember
def tank_days(room: Room) -> pd.Series:
    """The interval on Tanks, of a tank's water change."""
    interval = lookup(room.tanks, "tank", room.maintenance["tank"], "change_interval").astype(float)
    interval = interval.reset_index(drop=True).where(changes_water(room) == 1)
    return interval.where(interval > 0)


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
def _entries(room: Room) -> list[list[pd.Timestamp] | None]:
    """Of each task of the list, the days on which the Log has it: of its tank, or of any for the whole room."""
    log, tasks = room.log, rows_of(room.tasks, "task", room.maintenance["task"])
    logged = list(
        zip(
            rows_of(room.tasks, "task", log["task"]), rows_of(room.tanks, "tank", log["tank"]), log["date"], strict=True
        )
    )
    homes = rows_of(room.tanks, "tank", room.maintenance["tank"])
    nowhere = blank(room.maintenance["tank"])
    found: list[list[pd.Timestamp] | None] = []
    for task, home, no_tank in zip(tasks, homes, nowhere, strict=True):
        if task is None or no_tank:
            found.append(None)
        else:
            dated = [entry for entry in logged if entry[2] == entry[2]]
            found.append([day for other, tank, day in dated if other == task and (home is None or tank == home)])
    return found


@remember
def logged(room: Room) -> pd.Series:
    return pd.Series([np.nan if days is None else float(len(days)) for days in _entries(room)], dtype=float)


@remember
def logged_on(room: Room) -> pd.Series:
    newest = [max(days or (), default=pd.NaT) for days in _entries(room)]
    return pd.Series(newest, dtype="datetime64[ns]")


@remember
def changes_water(room: Room) -> pd.Series:
    """1 where the task is the water change of a tank that is there; of all tanks it is none."""
    homes = rows_of(room.tanks, "tank", room.maintenance["tank"])
    begun = ~blank(room.maintenance["task"]) & ~blank(room.maintenance["tank"])
    is_change = [task == "change water" and home is not None for task, home in zip(folded(room.maintenance["task"]), homes, strict=True)]  # fmt: skip
    return pd.Series(is_change, dtype=float).where(begun)


@remember
def watered_on(room: Room) -> pd.Series:
    """The last day on which the Log has litres or a water change for the tank, whatever task it names."""
    homes = rows_of(room.tanks, "tank", room.maintenance["tank"])
    to = rows_of(room.tanks, "tank", room.log["tank"])
    entries = list(zip(to, room.log["date"], log.is_change(room), strict=True))
    days = [
        max((day for tank, day, changed in entries if tank == home and changed == 1), default=pd.NaT)
        if is_change == 1
        else pd.NaT
        for home, is_change in zip(homes, changes_water(room), strict=True)
    ]
    return pd.Series(days, dtype="datetime64[ns]")


@remember
def only_typed(room: Room) -> pd.Series:
    """1 where a day is typed for a water change on which the Log has none of that tank."""
    homes = rows_of(room.tanks, "tank", room.maintenance["tank"])
    to = rows_of(room.tanks, "tank", room.log["tank"])
    logged_ = {
        (tank, day) for tank, day, one in zip(to, room.log["date"], log.is_change(room), strict=True) if one == 1
    }
    rows = zip(homes, room.maintenance["last_done"], changes_water(room), strict=True)
    found = [float(change == 1 and day == day and (home, day) not in logged_) for home, day, change in rows]
    return pd.Series(found, dtype=float).where(changes_water(room).notna())


@remember
def unlogged(room: Room) -> list[list[pd.Timestamp]]:
    """Those days of each tank."""
    homes = rows_of(room.tanks, "tank", room.maintenance["tank"])
    rows = list(zip(homes, room.maintenance["last_done"], only_typed(room), strict=True))
    return [[day for home, day, one in rows if home == tank and one == 1] for tank in range(len(room.tanks))]


@remember
def done(room: Room) -> pd.Series:
    """The latest of what was typed, what was logged, and of a water change the litres that were."""
    typed = pd.to_datetime(room.maintenance["last_done"]).reset_index(drop=True)
    return pd.concat([typed, logged_on(room), watered_on(room)], axis=1).max(axis=1)


@remember
def next_due(room: Room) -> pd.Series:
    """The last date and the rhythm; today where it was never done; unknown without a rhythm."""
    dates = (done(room) + pd.to_timedelta(every(room), unit="D")).dt.floor("D")
    stands = ~same(lookup(room.tanks, "tank", room.maintenance["tank"], "standing"), "no").reset_index(drop=True)
    return dates.fillna(room.plan_date).where(every(room).notna() & stands)


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


def late_names(room: Room) -> list[str]:
    """Each task that is late, and by how many days; "" for the others."""
    labels, days = lists.row_label(room, "maintenance"), days_late(room)
    return [f"{label} ({said(late)} d)" if late > 0 else "" for label, late in zip(labels, days, strict=True)]


globals().update(so_far.running("late_tasks", late_names))
