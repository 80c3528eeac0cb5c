"""What stands in each display tank, and the nitrate that its animals bring before plants take any."""

import numpy as np
import pandas as pd

from tests.oracles import changes, stock, stocking, tanks
from tests.oracles.tools import blank, remember, rows_of


def _of_tank(room, values):
    at = rows_of(room.tanks, "tank", room.stock["tank"])
    sums = [
        float(np.nansum([v for v, t in zip(values, at, strict=True) if t == tank])) for tank in range(len(room.tanks))
    ]
    return pd.Series(sums, dtype=float).where(~blank(room.tanks["tank"]))


@remember
def value_cost(room):
    return _of_tank(room, stock.value_cost(room))


@remember
def value_price(room):
    return _of_tank(room, stock.value_price(room))


@remember
def rise(room):
    milligrams = stocking.ammonia(room) * 1000 * room.tanks["change_interval"] * changes.yield_used(room)
    return (milligrams * stocking.NITRATE_IN_NITROGEN / tanks.net_volume(room)).where(~blank(room.tanks["tank"]))
