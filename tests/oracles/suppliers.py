"""Suppliers: what the next order from each comes to, added up line by line."""

import numpy as np
import pandas as pd

from tests.oracles import ledger, stock
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


@remember
def sold_lately(room):
    return _of_each(room, stock.sold_lately(room))


@remember
def lost_lately(room):
    return _of_each(room, stock.lost_lately(room))


@remember
def here(room):
    return _of_each(room, stock.here(room))


@remember
def loss_share(room):
    total = lost_lately(room) + sold_lately(room) + here(room)
    return lost_lately(room) / total.where(total > 0)


def _unsettled(room, values):
    """Over the events of each supplier's lines that are later than what is settled; the first of a name has them."""
    names = folded(room.suppliers["supplier"])
    whose = folded(room.stock["supplier"])
    found = []
    for row, (name, settled) in enumerate(zip(names, room.suppliers["settled_to"].tolist(), strict=True)):
        first = name != "" and names.index(name) == row

        def counts(event, name=name, settled=settled, first=first):
            later = settled is pd.NaT or event["day"] > settled
            return first and whose[event["line"]] == name and later

        found.append(ledger.sum_of(room, values, counts) if name else np.nan)
    return pd.Series(found, dtype=float)


@remember
def dead(room):
    return _unsettled(room, ledger.dead(room))


@remember
def claim(room):
    return _unsettled(room, ledger.claim(room))


def to_claim(room):
    return dead(room) > 0


def small_order(room):
    least = room.suppliers["least_order"].astype(float)
    return ~blank(room.suppliers["supplier"]) & (lines_to_order(room) > 0) & (order_value(room) < least)
