"""What each tank gets: ration, mix and cost, recomputed from the feeding plan."""

import numpy as np
import pandas as pd

from tests.oracles import feeding, stocking
from tests.oracles.tools import Room, blank, remember, rows_of


def _planned(room: Room, values: pd.Series) -> pd.Series:
    """Sum over the rows of the feeding plan of each tank: 0 without rows, unknown where no row's value is known."""
    to = rows_of(room.tanks, "tank", room.feeding["tank"])
    found = []
    for tank, nameless in enumerate(blank(room.tanks["tank"])):
        of_tank = values.iloc[[i for i, at in enumerate(to) if at == tank]]
        unknown = nameless or (len(of_tank) > 0 and of_tank.isna().all())
        found.append(np.nan if unknown else float(of_tank.sum()))
    return pd.Series(found, dtype=float)


@remember
def ration(room: Room) -> pd.Series:
    return stocking.food(room)


@remember
def mass_share(room: Room) -> pd.Series:
    weight = stocking.mass(room)
    return ration(room) / weight.where(weight > 0)


@remember
def shares(room: Room) -> pd.Series:
    """A row that still lacks its share plans nothing; the row itself says so."""
    return _planned(room, room.feeding["share"].fillna(0.0))


@remember
def protein_parts(room: Room) -> pd.Series:
    return _planned(room, feeding.protein_part(room))


@remember
def protein(room: Room) -> pd.Series:
    """Mean of the foods' protein, weighed by their shares; the default where no food is planned."""
    total = shares(room)
    mean = protein_parts(room) / total.where(total > 0)
    return mean.mask(total == 0, room.const["protein_default"])


@remember
def protein_day(room: Room) -> pd.Series:
    return ration(room) * protein(room)


@remember
def grams_day(room: Room) -> pd.Series:
    return _planned(room, feeding.as_fed(room))


@remember
def monthly_cost(room: Room) -> pd.Series:
    return _planned(room, feeding.cost(room))


def shares_off(room: Room) -> pd.Series:
    total = shares(room)
    return (total > 0) & ((total - 1).abs() > room.const["share_tolerance"])


def no_food(room: Room) -> pd.Series:
    return (ration(room) > 0) & (shares(room) == 0)
