"""Takings in short."""

import pandas as pd

from tests.oracles import suppliers, takings
from tests.oracles.tools import Room


def _one(number: float) -> pd.Series:
    return pd.Series([number], dtype=float)


def week(room: Room) -> pd.Series:
    return _one(takings.taken(room).iloc[:7].sum())


def month(room: Room) -> pd.Series:
    return _one(takings.taken(room).sum())


def lost_cost(room: Room) -> pd.Series:
    return _one(takings.died_cost(room).sum())


def claim(room: Room) -> pd.Series:
    return _one(suppliers.claim(room).sum())
