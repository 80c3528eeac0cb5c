"""What stands over the chart."""

import pandas as pd

from tests.oracles.tools import Room


def in_view(room: Room) -> pd.Series:
    """The tank picked there, or the one in view."""
    return pd.Series([room.choice.get("stocking") or ""], dtype=object)


def title(room: Room) -> pd.Series:
    return pd.Series(
        ["Share of each limit: " + room.choice["stocking"] if room.choice["stocking"] else ""], dtype=object
    )
