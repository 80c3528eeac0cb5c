"""Where in the list of Attention the flags of one table and one seriousness begin and end."""

import numpy as np
import pandas as pd

from tests.oracles import flag_tables
from tests.oracles.tools import Room, remember


def areas(room: Room) -> list[tuple[int, int]]:
    """Level by level, table by table."""
    return [(level, table) for level in range(3) for table in range(len(flag_tables.tables(room)))]


def base(room: Room) -> pd.Series:
    """How many flags of the table are more serious."""
    return pd.Series([flag_tables.count(room, table, *range(level)) for level, table in areas(room)], dtype=float)


@remember
def raised(room: Room) -> pd.Series:
    return pd.Series([flag_tables.count(room, table, level) for level, table in areas(room)], dtype=float)


def start(room: Room) -> pd.Series:
    return pd.Series(1 + np.concatenate([[0.0], np.cumsum(raised(room))[:-1]]))


def next(room: Room) -> pd.Series:  # noqa: A001  the column's key
    return start(room) + raised(room)
