"""What stands over the chart."""

import pandas as pd

from tests.oracles.tools import Room


def in_view(room: Room) -> pd.Series:
    """The tank picked there, or the one in view."""
    return pd.Series([room.choice.get("log") or ""], dtype=object)


def title(room: Room) -> pd.Series:
    return pd.Series(
        [
            room.choice["log_parameter"] + " of " + room.choice["log"]
            if room.choice["log"] and room.choice["log_parameter"]
            else ""
        ],
        dtype=object,
    )
