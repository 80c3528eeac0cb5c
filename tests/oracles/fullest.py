"""The fullest tanks, fullest first; of equal ones the upper row."""

import numpy as np
import pandas as pd

from tests.oracles import stocking
from tests.oracles.tools import Room, remember, through

LINES = 15


@remember
def _order(room: Room) -> list[int | None]:
    shares = stocking.binding_share(room).dropna()
    rows = sorted(shares.index, key=lambda row: (-round(shares[row], 8), row))[:LINES]
    return [*rows, *[None] * (LINES - len(rows))]


@remember
def found(room: Room) -> pd.Series:
    return pd.Series([np.nan if row is None else row + 1 for row in _order(room)], dtype=float)


@remember
def place(room: Room) -> pd.Series:
    return through(room.tanks["tank"], _order(room))


@remember
def share(room: Room) -> pd.Series:
    return through(stocking.binding_share(room), _order(room))


@remember
def under(room: Room) -> pd.Series:
    return share(room).clip(upper=1)


@remember
def over(room: Room) -> pd.Series:
    return (share(room) - 1).clip(lower=0)
