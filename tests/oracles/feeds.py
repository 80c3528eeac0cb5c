"""Feeds of live nauplii: down the list, each is taken from the hatch before while that is fresh enough, or gets its own."""

import math

import numpy as np
import pandas as pd

from tests.oracles import hatching, live_summary
from tests.oracles.tools import Room, blank, lookup, remember, rows_of, said

DAY = 24


def typed(room: Room, key: str) -> pd.Series:
    return room.feeds[key].reset_index(drop=True)


def of_cysts(room: Room, wanted: str | pd.Series) -> pd.Series:
    return lookup(room.hatching, "cysts", typed(room, "cysts"), wanted)


def number(values: list[float]) -> pd.Series:
    return pd.Series(values, dtype=float)


@remember
def nauplii(room: Room) -> pd.Series:
    return typed(room, "share") * float(live_summary.nauplii(room).iloc[0])


@remember
def _hatches(room: Room) -> list[tuple[int, float] | None]:
    """Of each feed: the number of its hatch, and the hour at which that is ready."""
    found: list[tuple[int, float] | None] = []
    many = 0
    lots = rows_of(room.hatching, "cysts", typed(room, "cysts"))
    for row, (hour, lot, oldest) in enumerate(
        zip(typed(room, "hour"), lots, of_cysts(room, hatching.oldest_used(room)), strict=True)
    ):
        if blank(typed(room, "feed"))[row] or lot is None or math.isnan(hour) or math.isnan(oldest):
            found.append(None)
            continue
        before = found[row - 1] if row and lots[row - 1] == lot else None
        if before and 0 <= hour - before[1] <= oldest:
            found.append(before)
        else:
            many += 1
            found.append((many, hour))
    return found


@remember
def joins(room: Room) -> pd.Series:
    seen: set[int] = set()
    verdicts = []
    for hatch in _hatches(room):
        verdicts.append(math.nan if hatch is None else float(hatch[0] in seen))
        seen |= {hatch[0]} if hatch else set()
    return number(verdicts)


@remember
def batch_hour(room: Room) -> pd.Series:
    return number([math.nan if hatch is None else hatch[1] for hatch in _hatches(room)])


@remember
def batch(room: Room) -> pd.Series:
    return number([math.nan if hatch is None else float(hatch[0]) for hatch in _hatches(room)])


@remember
def batch_run(room: Room) -> pd.Series:
    return (joins(room) == 0).astype(float).cumsum()


@remember
def age(room: Room) -> pd.Series:
    return typed(room, "hour") - batch_hour(room)


@remember
def energy_left(room: Room) -> pd.Series:
    """The same share is lost in each hour."""
    hourly = (1 - room.const["nauplius_loss"]) ** (1 / DAY)
    return age(room).map(lambda hours: hourly**hours)


@remember
def batch_nauplii(room: Room) -> pd.Series:
    total = nauplii(room).groupby(batch(room)).sum()
    return batch(room).map(total).astype(float)


@remember
def slack(room: Room) -> pd.Series:
    eldest = age(room).groupby(batch(room)).max()
    return of_cysts(room, hatching.oldest_used(room)) - batch(room).map(eldest).astype(float)


def _first(room: Room, values: pd.Series) -> pd.Series:
    """Only for the feed for which the hatch is set."""
    return values.where(joins(room) == 0)


@remember
def cysts_to_set(room: Room) -> pd.Series:
    return _first(room, batch_nauplii(room) / of_cysts(room, hatching.yield_gram(room)))


@remember
def water(room: Room) -> pd.Series:
    return cysts_to_set(room) / of_cysts(room, hatching.density_used(room))


@remember
def salt(room: Room) -> pd.Series:
    return water(room) * of_cysts(room, hatching.salinity_used(room))


def _begin(room: Room, spare: pd.Series | float) -> pd.Series:
    """Hours before or after the midnight with which the day of the feed begins."""
    hours = of_cysts(room, hatching.hatch_hours(room)) + spare
    return _first(room, (batch_hour(room) - hours).round(9))


@remember
def start_hour(room: Room) -> pd.Series:
    return _begin(room, 0.0) % DAY


@remember
def start_from(room: Room) -> pd.Series:
    return _begin(room, slack(room)) % DAY


@remember
def days_before(room: Room) -> pd.Series:
    return -np.floor(_begin(room, 0.0) / DAY) + 0.0


@remember
def vessels_taken(room: Room) -> pd.Series:
    """Each hatch is set again every day, so a vessel that is taken for longer than a day wants a second one."""
    taken = (of_cysts(room, hatching.hatch_hours(room)) + room.const["vessel_turn"]) / DAY
    side_by_side = water(room) / of_cysts(room, "vessel")
    return np.ceil(taken.round(6)) * np.ceil(side_by_side.round(6))


@remember
def shares(room: Room) -> pd.Series:
    """Told once, in the first row."""
    named = len(room.feeds) > 0 and typed(room, "feed")[0] != ""
    total = typed(room, "share").sum() if named else math.nan
    return number([total] + [math.nan] * (len(room.feeds) - 1))[: len(room.feeds)]


@remember
def job(room: Room) -> pd.Series:
    rows = zip(cysts_to_set(room), salt(room), typed(room, "feed"), strict=True)
    return pd.Series(
        [
            ""
            if math.isnan(cysts + grams)
            else f"Set a hatch: {said(cysts, 2)} g cysts, {said(grams, 1)} g salt, for {feed}"
            for cysts, grams, feed in rows
        ],
        dtype=object,
    )


@remember
def job_at(room: Room) -> pd.Series:
    rows = zip(start_from(room), start_hour(room), strict=True)
    return pd.Series(
        ["" if math.isnan(first + last) else f"from {said(first, 1)} to {said(last, 1)} h" for first, last in rows],
        dtype=object,
    )


@remember
def order(room: Room) -> pd.Series:
    """Every day, behind the tasks of Maintenance and the jobs of the broods."""
    lines = number([0.2 + (row + 1) / 1e6 for row in range(len(room.feeds))])
    return lines.mask(blank(job(room)))


def shares_off(room: Room) -> pd.Series:
    return (shares(room) - 1).abs() > room.const["share_tolerance"]


def out_of_order(room: Room) -> pd.Series:
    lots = number([math.nan if row is None else row for row in rows_of(room.hatching, "cysts", typed(room, "cysts"))])
    hours = typed(room, "hour")
    return (lots.shift() == lots) & (hours < hours.shift().fillna(0.0))
