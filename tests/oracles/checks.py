"""The self-test: published values beside what is reckoned."""

import pandas as pd

from tests.oracles.check_values import REACHED
from tests.oracles.tools import Room


def here(room: Room) -> pd.Series:
    values = list(REACHED.values())
    return pd.Series([values[int(number) - 1] for number in room.checks["number"]], dtype=float)


def holds(room: Room) -> pd.Series:
    return ((here(room) - room.checks["expected"]).abs() <= room.checks["tolerance"]).astype(float)


def verdict(room: Room) -> pd.Series:
    return holds(room).map({1.0: "right", 0.0: "▲ differs"}).astype(object)
