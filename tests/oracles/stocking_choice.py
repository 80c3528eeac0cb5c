"""What stands over the chart."""

import pandas as pd

from tests.oracles.tools import Room


def title(room: Room) -> pd.Series:
    return pd.Series(
        ["Share of each limit: " + room.choice["stocking"] if room.choice["stocking"] else ""], dtype=object
    )
