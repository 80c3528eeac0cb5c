"""When each tank's water is next changed, how much of it, and of which waters that is made."""

import math

import numpy as np
import pandas as pd

from tests.oracles import log, maintenance, so_far, waters, week_tanks
from tests.oracles.tools import Room, blank, only_planned, remember, rounded, rows_of, said, through


def _named(room: Room) -> pd.Series:
    return ~blank(room.tanks["tank"]).reset_index(drop=True)


@remember
def last_change(room: Room) -> pd.Series:
    changed, days = log.is_change(room), log.typed(room, "date")
    found = [
        max((days[row] for row in rows if changed[row] == 1), default=pd.NaT) for rows in log.diaries(room).values()
    ]
    return pd.Series(found, dtype="datetime64[ns]").where(_named(room))


def _plans(room: Room) -> list[list[pd.Timestamp]]:
    """The days on which Maintenance has a change of each tank."""
    homes = rows_of(room.tanks, "tank", room.maintenance["tank"])
    rows = list(zip(homes, maintenance.changes_water(room), maintenance.next_due(room), strict=True))
    return [
        [day for home, change, day in rows if home == tank and change == 1 and day == day]
        for tank in range(len(room.tanks))
    ]


@remember
def planned(room: Room) -> pd.Series:
    return pd.Series([float(len(days)) for days in _plans(room)], dtype=float).where(_named(room))


@remember
def next_change(room: Room) -> pd.Series:
    """The first day that Maintenance has; where it has none, the day by the interval."""
    planned_on = [min(days, default=pd.NaT) for days in _plans(room)]
    return pd.Series(planned_on, dtype="datetime64[ns]").fillna(by_interval(room)).where(_named(room))


@remember
def days_late(room: Room) -> pd.Series:
    """Below 0 it is still to come."""
    return (room.plan_date - next_change(room)).dt.days.astype(float)


@remember
def due(room: Room) -> pd.Series:
    """Those of today and the late ones, the latest greatest; the upper of two goes first."""
    late = days_late(room)
    return (late + 1 - np.arange(1, len(late) + 1) / 1e6).where(late >= 0)


def _of_water(room: Room, values: pd.Series) -> pd.Series:
    return through(values, rows_of(room.waters, "water", room.tanks["water"]))


def first_water(room: Room) -> pd.Series:
    return _of_water(room, room.waters["first_water"].astype(object))


def second_water(room: Room) -> pd.Series:
    return _of_water(room, room.waters["second_water"].astype(object))


def share_used(room: Room) -> pd.Series:
    return _of_water(room, waters.share_used(room))


def _measured(room: Room, litres: pd.Series) -> pd.Series:
    """Whole litres, tenths where less than ten are changed in all."""
    total = week_tanks.litres(room)
    found = [
        math.nan if math.isnan(part + whole) else rounded(part, 1 if whole < 10 else 0)
        for part, whole in zip(litres, total, strict=True)
    ]
    return pd.Series(found, dtype=float)


@remember
def poured(room: Room) -> pd.Series:
    return _measured(room, week_tanks.litres(room))


@remember
def poured_first(room: Room) -> pd.Series:
    return _measured(room, week_tanks.litres(room) * share_used(room))


@remember
def poured_second(room: Room) -> pd.Series:
    return (poured(room) - poured_first(room)).map(lambda litres: rounded(litres, 1))


@remember
def by_interval(room: Room) -> pd.Series:
    """So many whole days after the Log's last change."""
    days = pd.to_timedelta(np.floor(room.tanks["change_interval"]), unit="D").reset_index(drop=True)
    return (last_change(room) + days).fillna(room.plan_date).where(days.notna() & _named(room) & ~only_planned(room))


@remember
def blend(room: Room) -> pd.Series:
    """Litres of both waters; of one alone where the other has none to give."""
    found = []
    rows = zip(poured_first(room), poured_second(room), first_water(room), second_water(room), strict=True)
    for one, other, first, second in rows:
        known = not math.isnan(one) and first and second
        parts = [f"{said(litres, 1)} L {name}" for litres, name in ((one, first), (other, second)) if litres > 0]
        found.append(" + ".join(parts) if known else "")
    return pd.Series(found, dtype=object)


@remember
def recipe(room: Room) -> pd.Series:
    """Of a water that is no blend all of it."""
    found = []
    for tank, water, whole, both in zip(
        room.tanks["tank"], room.tanks["water"], poured(room), blend(room), strict=True
    ):
        alone = water if math.isnan(whole) else f"{said(whole, 1)} L {water}".strip()
        found.append((both or alone) if tank else "")
    return pd.Series(found, dtype=object)


# --- what stands in the week by the interval on Tanks alone ---


@remember
def first_day(room: Room) -> pd.Series:
    """0 is today, and late changes fall on today; none of a tank of which Maintenance has a change."""
    return (-days_late(room)).clip(lower=0).where(planned(room) == 0) + 0.0


@remember
def order(room: Room) -> pd.Series:
    """Behind what other lists have on the same day."""
    day = first_day(room)
    return (day + 0.5 + (np.arange(len(day)) + 1) / 1e6).where(day < maintenance.WEEK)


@remember
def late(room: Room) -> pd.Series:
    return days_late(room).clip(lower=0).where(first_day(room).notna())


@remember
def change_task(room: Room) -> pd.Series:
    at = rows_of(room.tasks, "task", ["Change water"])[0]
    return pd.Series([np.nan if at is None else at + 1.0] * len(room.tanks), dtype=float).where(_named(room))


def late_names(room: Room) -> list[str]:
    """Each tank whose change is late by its interval; "" for the others."""
    rows = zip(room.tanks["tank"], late(room), strict=True)
    return [f"Change water: {tank} ({said(days)} d)" if days > 0 else "" for tank, days in rows]


def _with_tasks(room: Room) -> dict[str, pd.Series]:
    """The list goes on with those after the late tasks of Maintenance."""
    before = [name for name in maintenance.late_names(room) if name]
    rows = [[*before, *(name for name in late_names(room)[: row + 1] if name)] for row in range(len(room.tanks))]
    return {
        "late_changes_count": pd.Series([float(len(names)) for names in rows], dtype=float),
        "late_changes": pd.Series([so_far.ALSO.join(names[: so_far.MOST]) for names in rows], dtype=object),
    }


def late_changes_count(room: Room) -> pd.Series:
    return _with_tasks(room)["late_changes_count"]


def late_changes(room: Room) -> pd.Series:
    return _with_tasks(room)["late_changes"]
