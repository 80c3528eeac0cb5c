"""When each tank's water is next changed, how much of it, and of which waters that is made."""

import math

import numpy as np
import pandas as pd

from tests.oracles import log, maintenance, waters, week_tanks
from tests.oracles.tools import Room, blank, remember, rounded, rows_of, said, through


def _named(room: Room) -> pd.Series:
    return ~blank(room.tanks["tank"]).reset_index(drop=True)


@remember
def last_change(room: Room) -> pd.Series:
    litres, days = log.typed(room, "litres_changed"), log.typed(room, "date")
    found = [max((days[row] for row in rows if litres[row] > 0), default=pd.NaT) for rows in log.diaries(room).values()]
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
    return (last_change(room) + days).fillna(room.plan_date).where(days.notna() & _named(room))


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
