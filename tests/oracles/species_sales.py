"""Sales and losses by species: the lines of stock, grouped by the species that they name."""

import numpy as np
import pandas as pd

from tests.oracles import stock_now
from tests.oracles.tools import Room, blank, remember, rows_of


def _by_species(room: Room, values: pd.Series) -> pd.Series:
    places = pd.Series(rows_of(room.species, "species", room.stock["species"]), dtype=float)
    sums = values.reset_index(drop=True).groupby(places).sum()
    found = pd.Series(range(len(room.species)), dtype=float).map(sums).fillna(0.0)
    return found.astype(float).where(~blank(room.species["species"]).reset_index(drop=True))


@remember
def sold(room: Room) -> pd.Series:
    return _by_species(room, stock_now.sold_lately(room))


@remember
def lost(room: Room) -> pd.Series:
    return _by_species(room, stock_now.lost_lately(room))


@remember
def here(room: Room) -> pd.Series:
    return _by_species(room, stock_now.here(room))


@remember
def loss_share(room: Room) -> pd.Series:
    total = lost(room) + sold(room) + here(room)
    return (lost(room) / total.where(total > 0)).where(lost(room) > 0)


@remember
def rank_key(room: Room) -> pd.Series:
    return loss_share(room) - np.arange(1, len(room.species) + 1) / 1e9
