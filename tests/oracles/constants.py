"""What can be wrong with a constant."""

import pandas as pd

from tests.oracles.tools import Room, overridden


def _values(room: Room) -> pd.Series:
    return room.constants["key"].map(room.const).astype(float)


def no_value(room: Room) -> pd.Series:
    return _values(room).isna()


def odd_value(room: Room) -> pd.Series:
    """Outside what is sensible; an empty one is not odd but empty."""
    values = _values(room)
    return (values < room.constants["low"]) | (values > room.constants["high"])


# In the files of a club.
globals().update(overridden("constants", "value"))
