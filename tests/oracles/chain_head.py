"""What stands over the chain."""

import pandas as pd

from tests.oracles import chain_tank
from tests.oracles.printed import texts
from tests.oracles.tools import Room


def said(room: Room) -> pd.Series:
    tank = chain_tank.chosen(room)
    named = tank is not None
    return texts(
        [f"From length to water change: {room.tanks['tank'].iloc[tank]}" if named else "Choose a tank beside the page"]
    )
