"""What stands over the chart."""

import pandas as pd

from tests.oracles.tools import Room


def title(room: Room) -> pd.Series:
    return pd.Series(
        ["Nitrate over the next twelve changes: " + room.choice["path"] if room.choice["path"] else ""], dtype=object
    )
