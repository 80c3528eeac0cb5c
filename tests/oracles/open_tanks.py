"""How many open lines there are about each tank, and where the first of them stands."""

import numpy as np
import pandas as pd

from tests.oracles import attention, open_lines
from tests.oracles.tools import Oracle, Room, blank


def _many(level: int) -> Oracle:
    def reckon(room: Room) -> pd.Series:
        return pd.Series([float(found[level]) for found in open_lines.counts(room)], dtype=float).mask(_nameless(room))

    return reckon


def _nameless(room: Room) -> pd.Series:
    return pd.Series(blank(room.tanks["tank"]), dtype=bool)


act_lines, watch_lines, note_lines = (_many(level) for level in range(3))


def rank(room: Room) -> pd.Series:
    return pd.Series([float(open_lines.rank(found)) for found in open_lines.counts(room)], dtype=float).mask(
        _nameless(room)
    )


def first(room: Room) -> pd.Series:
    tanks = list(vars(attention)["open_tank"](room))
    found = [tanks.index(tank) + 1.0 if tank in tanks else np.nan for tank in range(1, len(room.tanks) + 1)]
    return pd.Series(found, dtype=float)
