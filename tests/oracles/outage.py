"""The air that a power cut is reckoned with."""

import pandas as pd

from tests.oracles import tanks
from tests.oracles.tools import Room


def air_used(room: Room) -> pd.Series:
    """As typed; otherwise the coldest air of the room."""
    return pd.Series([room.outage_air]).fillna(tanks.setting(room, "room_temperature"))
