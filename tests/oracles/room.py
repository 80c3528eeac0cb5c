"""The room, one line a tank: each cell as the sheet that it is taken from has it, in short."""

import math
import re

import numpy as np
import pandas as pd

from tests.oracles import changes, feeding_tanks, log, maintenance, next_change, open_flags, readings, stocking
from tests.oracles.tools import Oracle, Room, blank, remember, rounded, rows_of

LETTERS, LAST_READINGS = 7, 5
WHOLE = 1e-6


def _texts(values: list[str]) -> pd.Series:
    return pd.Series(values, dtype=object)


def in_short(words: str) -> str:
    """Up to the first stop of any kind."""
    return re.split(r"\. |; |, |: ", f"{words} ")[0].strip()


def day_in_words(room: Room, day: pd.Timestamp) -> str:
    """In the coming week by the day of the week, later by the month."""
    return f"{day:%a} {day.day}" if (day - room.plan_date).days < 7 else f"{day.day} {day:%b}"


def sign(room: Room) -> pd.Series:
    found = []
    for worst, many in zip(open_flags.worst_sign(room), open_flags.open_all(room), strict=True):
        found.append(worst + (f" +{many - 1:.0f}" if worst and many > 1 else ""))
    return _texts(found)


def go(room: Room) -> pd.Series:
    """The words of the link."""
    return room.tanks["tank"].reset_index(drop=True)


def bar(room: Room) -> pd.Series:
    found = []
    for share in stocking.binding_share(room):
        if math.isnan(share):
            found.append("")
        elif rounded(share, 2) > 1:
            found.append("█" * (LETTERS - 1) + "»")
        else:
            full = min(LETTERS, int(rounded(rounded(share * LETTERS, 6))))
            found.append("█" * full + "░" * (LETTERS - full))
    return _texts(found)


# --- nitrate ---


@remember
def _last(room: Room) -> list[list[int]]:
    """The rows of the log with the last few nitrate readings of each tank, the newest last."""
    read = log.typed(room, "nitrate").notna()
    return [[row for row in rows if read[row]][-LAST_READINGS:] for rows in log.diaries(room).values()]


def _reading(number: int) -> Oracle:
    """Its row in the log, from 1."""

    def of(room: Room) -> pd.Series:
        back = LAST_READINGS - number
        return pd.Series([rows[-1 - back] + 1.0 if len(rows) > back else np.nan for rows in _last(room)], dtype=float)

    return of


def _nitrate(number: int) -> Oracle:
    def of(room: Room) -> pd.Series:
        values = log.typed(room, "nitrate")
        return pd.Series(
            [np.nan if row != row else values[int(row) - 1] for row in _reading(number)(room)], dtype=float
        )

    return of


for _number in range(1, LAST_READINGS + 1):
    globals()[f"nitrate_{_number}"] = _nitrate(_number)
    globals()[f"reading_{_number}"] = _reading(_number)


def nitrate_line(room: Room) -> pd.Series:
    return _texts([""] * len(room.tanks))


def read_count(room: Room) -> pd.Series:
    return pd.Series([float(len(rows)) for rows in _last(room)], dtype=float)


def nitrate_words(room: Room) -> pd.Series:
    values, found = log.typed(room, "nitrate"), []
    for rows, nameless in zip(_last(room), blank(room.tanks["tank"]), strict=True):
        if not rows or nameless:
            found.append("")
            continue
        oldest, newest = values[rows[0]], values[rows[-1]]
        arrow = "↗" if newest > oldest else "↘" if newest < oldest else "→"
        new = f"{rounded(newest):.0f}"
        found.append(new if len(rows) == 1 else f"{arrow} {rounded(oldest):.0f} to {new}")
    return _texts(found)


def nitrate_age(room: Room) -> pd.Series:
    return (room.plan_date - pd.to_datetime(readings.nitrate_date(room))).dt.days.astype(float)


def passes(room: Room) -> pd.Series:
    """The day on which the reckoned line crosses the target."""
    target, found = room.settings.get("nitrate_target"), []
    for now, days in zip(changes.nitrate_now(room), changes.days_to_target(room), strict=True):
        if target is None or math.isnan(now):
            found.append("")
        elif rounded(now) > target:
            found.append("over it")
        elif now >= target:
            found.append("today")
        elif math.isnan(days):
            found.append("no rise")
        elif (whole := math.floor(days + WHOLE / 2)) < 1:
            found.append("today")
        elif whole >= 100:
            found.append("100+ days")
        else:
            found.append(day_in_words(room, room.plan_date + pd.Timedelta(days=whole)))
    return _texts(found)


# --- what is due ---


def change_on(room: Room) -> pd.Series:
    found = []
    for day, late in zip(next_change.next_change(room), next_change.days_late(room), strict=True):
        if math.isnan(late):
            found.append("")
        else:
            found.append(f"{late:.0f} late" if late > 0 else "today" if late == 0 else day_in_words(room, day))
    return _texts(found)


@remember
def _tasks(room: Room) -> list[list[tuple[pd.Timestamp, int]]]:
    """Day and row of each task of a tank, its water change apart, in the order of the days."""
    homes = rows_of(room.tanks, "tank", room.maintenance["tank"])
    rows = zip(homes, maintenance.changes_water(room), maintenance.next_due(room), strict=True)
    found: list[list[tuple[pd.Timestamp, int]]] = [[] for _ in range(len(room.tanks))]
    for row, (home, change, day) in enumerate(rows):
        if home is not None and change == 0 and day == day and room.tanks["tank"][home]:
            found[home].append((day, row))
    return [sorted(tasks) for tasks in found]


@remember
def task_row(room: Room) -> pd.Series:
    return pd.Series([tasks[0][1] + 1.0 if tasks else np.nan for tasks in _tasks(room)], dtype=float)


def task_place(room: Room) -> pd.Series:
    places = maintenance.in_tank(room)
    return pd.Series([np.nan if row != row else places[int(row) - 1] for row in task_row(room)], dtype=float)


def tasks_late(room: Room) -> pd.Series:
    many = [float(sum(day < room.plan_date for day, _ in tasks)) for tasks in _tasks(room)]
    return pd.Series(many, dtype=float).where(~blank(room.tanks["tank"]).reset_index(drop=True))


def task_next(room: Room) -> pd.Series:
    found = []
    for tasks in _tasks(room):
        if not tasks:
            found.append("")
            continue
        late = sum(day < room.plan_date for day, _ in tasks)
        day = tasks[0][0]
        when = f"{late} late" if late else "today" if day == room.plan_date else day_in_words(room, day)
        found.append(f"{when}: {room.maintenance['task'][tasks[0][1]]}")
    return _texts(found)


def grams_meal(room: Room) -> pd.Series:
    return feeding_tanks.grams_day(room) / room.tanks["meals"].where(room.tanks["meals"] > 0)


def worst(room: Room) -> pd.Series:
    parts = zip(open_flags.worst_about(room), open_flags.worst_what(room), open_flags.worst_do(room), strict=True)
    return _texts([f"{about}{what}: {in_short(do)}" if what else "" for about, what, do in parts])
