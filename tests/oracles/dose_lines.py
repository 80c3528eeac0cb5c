"""The first products of the list."""

import math

import pandas as pd

from tests.oracles.tools import Oracle, Room

LINES = 8


def _of(key: str, missing: object) -> Oracle:
    def reckon(room: Room) -> pd.Series:
        known = list(room.doses[key])[:LINES]
        return pd.Series(known + [missing] * (LINES - len(known)))

    return reckon


product, dose_unit, dose_into = (_of(key, "") for key in ("product", "dose_unit", "dose_into"))
dose, stated_for = (_of(key, math.nan) for key in ("dose", "stated_for"))
