"""Live food over the whole room."""

import pandas as pd

from tests.oracles import breeding, hatching, live_tanks
from tests.oracles import feeds as feeds_
from tests.oracles.tools import Room, remember


def _one(value: float) -> pd.Series:
    return pd.Series([float(value)])


@remember
def tanks(room: Room) -> pd.Series:
    return _one(live_tanks.wanted(room).sum())


@remember
def fry(room: Room) -> pd.Series:
    return _one(breeding.nauplii_now(room).sum())


@remember
def nauplii(room: Room) -> pd.Series:
    return tanks(room) + fry(room)


def feeds(room: Room) -> pd.Series:
    return _one(live_tanks.feeds(room))


def hatches(room: Room) -> pd.Series:
    return _one(feeds_.batch(room).nunique())


def cysts(room: Room) -> pd.Series:
    return _one(hatching.cysts_day(room).sum())


def vessels(room: Room) -> pd.Series:
    return _one(hatching.vessels_wanted(room).sum())
