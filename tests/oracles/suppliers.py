"""Suppliers: what the next order from each comes to, added up line by line."""

import numpy as np
import pandas as pd

from tests.oracles import stock
from tests.oracles.tools import blank, folded, remember


def _of_each(room, values):
    """Sum over the lines of each supplier; the first of a name has them all."""
    sums: dict[str, float] = {}
    known = set(folded(room.suppliers["supplier"]))
    for name, value in zip(folded(room.stock["supplier"]), values, strict=True):
        if name and name in known and value == value:
            sums[name] = sums.get(name, 0.0) + value
    found, seen = [], set()
    for name in folded(room.suppliers["supplier"]):
        found.append(np.nan if not name else 0.0 if name in seen else sums.get(name, 0.0))
        seen.add(name)
    return pd.Series(found, dtype=float)


@remember
def lines_to_order(room):
    return _of_each(room, stock.orders(room))


@remember
def order_value(room):
    return _of_each(room, stock.order_cost(room))


def small_order(room):
    least = room.suppliers["least_order"].astype(float)
    return ~blank(room.suppliers["supplier"]) & (lines_to_order(room) > 0) & (order_value(room) < least)
