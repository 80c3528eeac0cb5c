"""What stands over the chart of the tank in view."""

import pandas as pd

from tests.oracles import tank_card
from tests.oracles.printed import texts
from tests.oracles.tools import Room


def said(room: Room) -> pd.Series:
    tank = tank_card.chosen(room)
    return texts([f"Nitrate, mg/L: {'no tank' if tank is None else room.tanks['tank'].iloc[tank]}"])
