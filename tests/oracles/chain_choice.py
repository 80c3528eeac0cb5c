"""Which tank is shown."""

import pandas as pd

from tests.oracles.tools import Room


def in_view(room: Room) -> pd.Series:
    """The tank picked there, or the one in view."""
    return pd.Series([room.choice.get("chain") or ""], dtype=object)
