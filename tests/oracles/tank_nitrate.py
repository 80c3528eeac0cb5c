"""Nitrate of the tank in view: read, newest first, and reckoned change after change from its next one on."""

import math

import pandas as pd

from tests.oracles import changes, log, next_change, readings, stocking, tank_card, tanks
from tests.oracles.tools import Room, remember, through

LINES = 13


def _one(room: Room, values: pd.Series) -> float:
    return float(tank_card.of_tank(room, values))


@remember
def _read(room: Room) -> list[int | None]:
    """Rows of the log from the newest reading back; the oldest once more where there are no more of them."""
    newest = _one(room, readings.newest(room)["nitrate"])
    if math.isnan(newest):
        return [None] * LINES
    found = [int(newest)]
    while len(found) < LINES:
        then = log.earlier(room)[found[-1]]
        found.append(found[-1] if then is None else then)
    return list(found)


def reading(room: Room) -> pd.Series:
    return pd.Series([math.nan if row is None else row + 1.0 for row in _read(room)], dtype=float)


def read_on(room: Room) -> pd.Series:
    return through(log.typed(room, "date"), _read(room))


def read(room: Room) -> pd.Series:
    return through(log.typed(room, "nitrate"), _read(room))


@remember
def _first(room: Room) -> pd.Timestamp:
    """The day of the next change, or today."""
    at = tank_card.chosen(room)
    due = pd.NaT if at is None else next_change.next_change(room)[at]
    return room.plan_date if pd.isna(due) else max(room.plan_date, due)


@remember
def start(room: Room) -> pd.Series:
    """So that the level before the next change is today's and the rise of the days until then."""
    now, rise, a_day = (
        _one(room, column(room)) for column in (changes.nitrate_now, stocking.nitrate_interval, changes.rise_day)
    )
    days = (_first(room) - room.plan_date) / pd.Timedelta(days=1)
    level = _one(room, changes.nitrate_trough(room)) + 0 * a_day if math.isnan(now) else now + a_day * days - rise
    return pd.Series([level + 0 * rise] * LINES, dtype=float)


@remember
def _walk(room: Room) -> list[tuple[float, float]]:
    """Levels just before and just after each change."""
    level, rise = start(room)[0], _one(room, stocking.nitrate_interval(room))
    share, source = _one(room, room.tanks["change_share"]), _one(room, tanks.source(room, "nitrate"))
    found = []
    for _ in range(LINES):
        before = level + rise
        level = before + share * (source - before) if share > 0 else math.nan
        found.append((before + 0 * level, level))
    return found


def _change(line: int) -> int:
    return max(0, (line - 1) // 2)


def before(room: Room) -> pd.Series:
    return pd.Series([_walk(room)[_change(line)][0] for line in range(LINES)], dtype=float)


def after(room: Room) -> pd.Series:
    return pd.Series([_walk(room)[_change(line)][1] for line in range(LINES)], dtype=float)


def day(room: Room) -> pd.Series:
    every, now = _one(room, room.tanks["change_interval"]), _one(room, changes.nitrate_now(room))
    if math.isnan(before(room)[0]) or not every > 0:
        return pd.Series([pd.NaT] * LINES)
    days = [_first(room) + pd.Timedelta(days=every * _change(line)) for line in range(LINES)]
    return pd.Series([_first(room) if math.isnan(now) else room.plan_date, *days[1:]])


def reckoned(room: Room) -> pd.Series:
    now = _one(room, changes.nitrate_now(room))
    levels = [_walk(room)[_change(line)][(line + 1) % 2] for line in range(LINES)]
    first = before(room)[0] if math.isnan(now) else now + 0 * before(room)[0]
    return pd.Series([first, *levels[1:]], dtype=float)


def target(room: Room) -> pd.Series:
    wanted = room.settings.get("nitrate_target")
    return pd.Series([math.nan if pd.isna(at) or wanted is None else float(wanted) for at in day(room)], dtype=float)
