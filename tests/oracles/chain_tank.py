"""The tank that the chain is followed through."""

import math

import pandas as pd

from tests.oracles.printed import one
from tests.oracles.tools import Room, rows_of


def chosen(room: Room) -> int | None:
    return rows_of(room.tanks, "tank", [room.choice["chain"]])[0]


def row(room: Room) -> pd.Series:
    tank = chosen(room)
    return one(math.nan if tank is None else tank + 1)
