"""Takings: the events of each day added up, today first."""

import pandas as pd

from tests.oracles import ledger
from tests.oracles.tools import Room, remember

DAYS = 28


@remember
def day(room: Room) -> pd.Series:
    return pd.Series([room.plan_date - pd.Timedelta(days=n) for n in range(DAYS)])


def weekday(room: Room) -> pd.Series:
    return pd.Series([f"{at:%a} {at.day}" for at in day(room)], dtype=object)


def _of_each_day(room: Room, values: pd.Series) -> pd.Series:
    return pd.Series([ledger.sum_of(room, values, lambda e, at=at: e["day"] == at) for at in day(room)], dtype=float)


def pieces(room: Room) -> pd.Series:
    return _of_each_day(room, ledger.went(room))


@remember
def taken(room: Room) -> pd.Series:
    return _of_each_day(room, ledger.taken(room))


@remember
def goods(room: Room) -> pd.Series:
    return _of_each_day(room, ledger.went_cost(room))


def left_over(room: Room) -> pd.Series:
    return taken(room) - goods(room)


def died(room: Room) -> pd.Series:
    return _of_each_day(room, ledger.died(room))


@remember
def died_cost(room: Room) -> pd.Series:
    return _of_each_day(room, ledger.died_cost(room))


def delivered(room: Room) -> pd.Series:
    return _of_each_day(room, ledger.paid(room))
