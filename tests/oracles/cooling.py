"""How each tank holds out without power."""

import numpy as np
import pandas as pd

from tests.oracles import stocking, tanks
from tests.oracles.tools import Room, blank, remember

HEAT_OF_WATER = 4180.0  # J to warm a kilogram by a degree
HOUR = 3600.0


@remember
def loss_per_degree(room: Room) -> pd.Series:
    return tanks.heat_flow(room)


@remember
def time_constant(room: Room) -> pd.Series:
    """Heat that a degree of the water holds over the heat that a degree loses; whatever the room's air is."""
    held = tanks.net_volume(room) * room.const["water_density"] * HEAT_OF_WATER
    flow = tanks.heat_flow(room)
    return held / flow.where(flow > 0) / HOUR


@remember
def rank(room: Room) -> pd.Series:
    """Hours of oxygen; of equal ones the upper row first. Before all, an hour, those that hold animals and are not known."""
    rows = pd.Series((np.arange(len(room.tanks)) + 1) / 1e6)
    known, unknown = stocking.reserve(room) + rows, (rows - 1).where(tanks.animals(room) > 0)
    return known.fillna(unknown).mask(blank(room.tanks["tank"]))
