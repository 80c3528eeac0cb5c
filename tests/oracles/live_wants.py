"""Nauplii that a keeper counts for a tank."""

import math

import pandas as pd

from tests.oracles.tools import Room, remember, rows_of


@remember
def together(room: Room) -> pd.Series:
    rows = rows_of(room.tanks, "tank", room.live_wants["tank"])
    return pd.Series([math.nan if row is None else float(rows.count(row)) for row in rows], dtype=float)


def same_tank(room: Room) -> pd.Series:
    return together(room) > 1
