"""The five measures of the tank that was chosen for the chart."""

import numpy as np
import pandas as pd

from tests.oracles import stocking
from tests.oracles.tools import Room, remember, rows_of


def _chosen(room: Room) -> int | None:
    return rows_of(room.tanks, "tank", [room.choice.get("stocking") or ""])[0]


@remember
def chosen_row(room: Room) -> pd.Series:
    at = _chosen(room)
    return pd.Series([np.nan if at is None else at + 1.0] * len(stocking.MEASURES))


@remember
def measure(room: Room) -> pd.Series:
    return pd.Series(stocking.MEASURES, dtype=object)


@remember
def share(room: Room) -> pd.Series:
    at = _chosen(room)
    if at is None:
        return pd.Series(np.nan, index=range(len(stocking.MEASURES)))
    functions = (
        stocking.nitrogen_share,
        stocking.oxygen_share,
        stocking.swim_share,
        stocking.bottom_share,
        stocking.volume_share,
    )
    return pd.Series([f(room).iloc[at] for f in functions], dtype=float)


@remember
def under(room: Room) -> pd.Series:
    return share(room).clip(upper=1)


@remember
def over(room: Room) -> pd.Series:
    return (share(room) - 1).clip(lower=0)
