"""The one thing that the settings reckon."""

import pandas as pd

from tests.oracles.tools import Room


def plan_date(room: Room) -> pd.Series:
    """The day that was typed, otherwise today."""
    return pd.Series([room.plan_date])
