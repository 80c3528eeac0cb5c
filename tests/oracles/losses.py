"""The species of which most are lost, sorted by pandas."""

import math

import pandas as pd

from tests.oracles import species_sales
from tests.oracles.tools import Room, remember

LINES = 20


@remember
def worst(room: Room) -> list[int | None]:
    shares = species_sales.loss_share(room).dropna().sort_values(ascending=False, kind="stable")
    found: list[int | None] = [int(row) for row in shares.index[:LINES]]
    return found + [None] * (LINES - len(found))


def row(room: Room) -> pd.Series:
    return pd.Series([math.nan if at is None else at + 1.0 for at in worst(room)], dtype=float)


def species(room: Room) -> pd.Series:
    return pd.Series(["" if at is None else room.species["species"].iloc[at] for at in worst(room)], dtype=object)


def _of(room: Room, values: pd.Series) -> pd.Series:
    return pd.Series([math.nan if at is None else values[at] for at in worst(room)], dtype=float)


def lost(room: Room) -> pd.Series:
    return _of(room, species_sales.lost(room))


def sold(room: Room) -> pd.Series:
    return _of(room, species_sales.sold(room))


def here(room: Room) -> pd.Series:
    return _of(room, species_sales.here(room))


def loss_share(room: Room) -> pd.Series:
    return _of(room, species_sales.loss_share(room))
