"""What stands over the chart."""

import pandas as pd

from tests.oracles.tools import Room


def in_view(room: Room) -> pd.Series:
    """The tank picked there, or the one in view."""
    return pd.Series([room.choice.get("path") or ""], dtype=object)


def title(room: Room) -> pd.Series:
    return pd.Series(
        ["Nitrate over the next twelve changes: " + room.choice["path"] if room.choice["path"] else ""], dtype=object
    )
