"""What the chart of the log draws: the readings of the chosen tank by date, and the band to aim at."""

import math

import pandas as pd

from tests.oracles import log, overlap_detail
from tests.oracles.tools import Room, remember, rows_of, through

LINES = 120


@remember
def _chosen(room: Room) -> int | None:
    return rows_of(room.tanks, "tank", [room.choice.get("log") or ""])[0]


@remember
def _drawn(room: Room) -> list[int | None]:
    """The row of the log that each line shows."""
    here = [row for row, home in enumerate(log.homes(room)) if home is not None and home == _chosen(room)]
    known = [row for row in here if not math.isnan(log.charted(room)[row])]
    by_date = sorted(known, key=lambda row: (log.typed(room, "date")[row], row))[-LINES:]
    return (by_date + [None] * LINES)[:LINES]


def chosen_row(room: Room) -> pd.Series:
    row = _chosen(room)
    return pd.Series([math.nan if row is None else row + 1.0] * LINES, dtype=float)


def reading(room: Room) -> pd.Series:
    return pd.Series([math.nan if row is None else row + 1.0 for row in _drawn(room)], dtype=float)


def day(room: Room) -> pd.Series:
    return through(log.typed(room, "date"), _drawn(room))


def value(room: Room) -> pd.Series:
    return through(log.charted(room), _drawn(room))


def _aim(room: Room, end: str) -> float:
    """What the residents share; no ammonia or nitrite; nitrate up to the target."""
    key = log.chosen_reading(room)
    if key in overlap_detail.PARAMETERS:
        row = _chosen(room)
        return math.nan if row is None else float(overlap_detail.shared(room)[key][end][row])
    target = room.settings.get("nitrate_target")
    if key == "nitrate" and end == "high":
        return math.nan if target is None else float(target)
    return 0.0


def _band(room: Room, end: str) -> pd.Series:
    return pd.Series([math.nan if row is None else _aim(room, end) for row in _drawn(room)], dtype=float)


def band_low(room: Room) -> pd.Series:
    return _band(room, "low")


def band_high(room: Room) -> pd.Series:
    return _band(room, "high")


# In metric files, which these are held against, what is drawn is what was read.
value_drawn, band_low_drawn, band_high_drawn = value, band_low, band_high
