"""Tank by tank: water that a change takes."""

import pandas as pd

from tests.oracles import tanks
from tests.oracles.tools import Room, blank, remember


@remember
def litres(room: Room) -> pd.Series:
    return (room.tanks["change_share"] * tanks.net_volume(room)).mask(blank(room.tanks["tank"]))
