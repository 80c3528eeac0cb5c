"""This week: the tasks due within seven days, in the order of their first day, with a box on each day they fall on."""

import math
from typing import NamedTuple

import numpy as np
import pandas as pd

from tests.oracles import breeding_jobs, feeds, maintenance, next_change
from tests.oracles.tools import Room, remember, rows_of

LINES = 80
BOX = "☐"


class Task(NamedTuple):
    """A task of the week; the fields in the order by which tasks stand: day, list, row of the list."""

    first_day: float
    source: int
    row: int
    task: str
    tank: str
    minutes: float
    supplies: str
    every_days: float
    days_late: float
    order: float


def _of_maintenance(room: Room) -> list[Task]:
    days, late, table = maintenance.first_day(room), maintenance.days_late(room), room.maintenance
    rows = zip(
        days,
        table["task"],
        table["tank"],
        maintenance.minutes_used(room),
        maintenance.supplies_used(room),
        maintenance.every(room),
        late,
        maintenance.order(room),
        strict=True,
    )
    return [Task(day, 1, row, *rest) for row, (day, *rest) in enumerate(rows, 1)]


def _of_broods(room: Room) -> list[Task]:
    minutes = room.const["rearing_minutes"]
    rows = zip(breeding_jobs.first_day(room), breeding_jobs.task(room), breeding_jobs.tank(room), breeding_jobs.every_days(room),
               breeding_jobs.days_late(room), breeding_jobs.order(room), strict=True)  # fmt: skip
    return [
        Task(day, 2, row, task, tank, minutes, "", every, late, order)
        for row, (day, task, tank, every, late, order) in enumerate(rows, 1)
    ]


def _of_hatches(room: Room) -> list[Task]:
    """Each is set every day."""
    minutes = room.const["rearing_minutes"]
    rows = zip(feeds.job(room), feeds.job_at(room), feeds.order(room), strict=True)
    return [
        Task(0.0 if job else np.nan, 3, row, job, "all", minutes, at, 1.0, 0.0, order)
        for row, (job, at, order) in enumerate(rows, 1)
    ]


def _by_interval(room: Room) -> list[Task]:
    """Changes of tanks of which Maintenance has none."""
    usual = room.tasks[room.tasks["task"] == "Change water"]
    minutes, supplies = (usual[key].iloc[0] if len(usual) else "" for key in ("usual_minutes", "usual_supplies"))
    rows = zip(next_change.first_day(room), room.tanks["tank"], room.tanks["change_interval"], next_change.late(room),
               next_change.order(room), strict=True)  # fmt: skip
    return [
        Task(day, 4, row, "Change water", tank, minutes, supplies, every, late, order)
        for row, (day, tank, every, late, order) in enumerate(rows, 1)
    ]


@remember
def all_due(room: Room) -> list[Task]:
    """Whatever falls within seven days, day by day; within a day list by list."""
    tasks = [*_of_maintenance(room), *_of_broods(room), *_of_hatches(room), *_by_interval(room)]
    return sorted(task for task in tasks if task.first_day < maintenance.WEEK)


def _shown(room: Room, part: str) -> pd.Series:
    values = [getattr(task, part) for task in all_due(room)[:LINES]]
    is_word = part in {"task", "tank", "supplies"}
    return pd.Series(values + ["" if is_word else np.nan] * (LINES - len(values)), dtype=object if is_word else float)


def _ticks(room: Room, day: int) -> pd.Series:
    """A box where the task falls on this day, 0 today; from its first day on it comes again in its rhythm."""
    found = []
    for first, every in zip(first_day(room), every_days(room), strict=True):
        falls = not np.isnan(first) and day in _days_of(int(first), every)
        found.append(BOX if falls else "")
    return pd.Series(found, dtype=object)


def _days_of(first: int, every: float) -> set[int]:
    """The days of the week on which it falls; every two and a half days is on the third day, then on the fifth."""
    return {first + math.ceil(turn * every) for turn in range(math.ceil(maintenance.WEEK / every))}


@remember
def row(room: Room) -> pd.Series:
    return _shown(room, "row")


@remember
def source(room: Room) -> pd.Series:
    return _shown(room, "source")


@remember
def order(room: Room) -> pd.Series:
    return _shown(room, "order")


@remember
def task(room: Room) -> pd.Series:
    return _shown(room, "task")


@remember
def tank(room: Room) -> pd.Series:
    return _shown(room, "tank")


@remember
def minutes(room: Room) -> pd.Series:
    return _shown(room, "minutes")


@remember
def others(room: Room) -> pd.Series:
    return _shown(room, "supplies")


@remember
def change_of(room: Room) -> pd.Series:
    """The tank, of the change of one."""
    homes = rows_of(room.tanks, "tank", room.maintenance["tank"])
    changes = maintenance.changes_water(room)
    found = []
    for task in all_due(room)[:LINES]:
        of_task = task.source == 1 and changes[task.row - 1] == 1
        found.append(homes[task.row - 1] + 1.0 if of_task else float(task.row) if task.source == 4 else np.nan)
    return pd.Series(found + [np.nan] * (LINES - len(found)), dtype=float)


def supplies(room: Room) -> pd.Series:
    """Of a water change first of which waters it is made."""
    recipes = next_change.recipe(room)
    made = ["" if of != of else recipes[int(of) - 1] for of in change_of(room)]
    return pd.Series(
        ["; ".join(part for part in pair if part) for pair in zip(made, others(room), strict=True)], dtype=object
    )


def type_at(room: Room) -> pd.Series:
    """Where the day is typed: in the row of the task, of the brood, or below the last of the Log."""
    below = int(room.log["date"].notna().sum()) + 1 + room.top["log"]
    broods = breeding_jobs.event_row(room)
    found = []
    for task in all_due(room)[:LINES]:
        rows = (task.row + room.top["maintenance"], None, np.nan, below)
        found.append(broods[task.row - 1] + room.top["breeding"] if task.source == 2 else rows[task.source - 1])
    return pd.Series([*found, *[np.nan] * (LINES - len(found))], dtype=float)


def done_on(room: Room) -> pd.Series:
    names = ("Maintenance", "Breeding", "Live food", "Log")
    sheets = [names[task.source - 1] for task in all_due(room)[:LINES]]
    sheets += [""] * (LINES - len(sheets))
    rows = zip(sheets, type_at(room), strict=True)
    return pd.Series([f"{sheet}, row {at:.0f}" if at == at else "" for sheet, at in rows], dtype=object)


@remember
def every_days(room: Room) -> pd.Series:
    return _shown(room, "every_days")


@remember
def first_day(room: Room) -> pd.Series:
    return _shown(room, "first_day")


@remember
def days_late(room: Room) -> pd.Series:
    return _shown(room, "days_late")


def _taken(room: Room, source: int) -> pd.Series:
    """Lines of one list down to this one."""
    found = [task.source == source for task in all_due(room)[:LINES]]
    return pd.Series(found + [False] * (LINES - len(found)), dtype=float).cumsum()


def _next(room: Room, source: int) -> pd.Series:
    """What each list has still to give, once the lines above are filled."""
    own = [task.order for task in all_due(room) if task.source == source]
    above = [0, *(int(many) for many in _taken(room, source)[:-1])]
    return pd.Series([own[many] if many < len(own) else np.nan for many in above], dtype=float)


def taken_1(room: Room) -> pd.Series:
    return _taken(room, 1)


def next_1(room: Room) -> pd.Series:
    return _next(room, 1)


def taken_2(room: Room) -> pd.Series:
    return _taken(room, 2)


def next_2(room: Room) -> pd.Series:
    return _next(room, 2)


def taken_3(room: Room) -> pd.Series:
    return _taken(room, 3)


def next_3(room: Room) -> pd.Series:
    return _next(room, 3)


def taken_4(room: Room) -> pd.Series:
    return _taken(room, 4)


def next_4(room: Room) -> pd.Series:
    return _next(room, 4)


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


@remember
def is_change(room: Room) -> pd.Series:
    """Of a task of Maintenance whether it is a tank's water change; what stands by its interval always is."""
    changes = maintenance.changes_water(room)
    found = [changes[task.row - 1] if task.source == 1 else float(task.source == 4) for task in all_due(room)[:LINES]]
    return pd.Series(found + [np.nan] * (LINES - len(found)), dtype=float)


@remember
def today(room: Room) -> pd.Series:
    """What is due today or late, water changes of tanks apart; the latest first, then in the order of the lines."""
    found = []
    for line, (task, change) in enumerate(zip(all_due(room)[:LINES], is_change(room), strict=False), 1):
        found.append(np.nan if task.first_day > 0 or change == 1 else task.days_late + 1 - line / 1e6)
    return pd.Series(found + [np.nan] * (LINES - len(found)), dtype=float)
