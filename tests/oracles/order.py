"""The order: lines sorted by pandas, subtotals by group."""

import math

import numpy as np
import pandas as pd

from tests.oracles import stock
from tests.oracles.tools import remember

LINES = 400


@remember
def _listed(room):
    """Rows of the stock list in the order of the order."""
    wanted = stock.orders(room) == 1
    frame = pd.DataFrame({"supplier": stock.supplier_number(room)})[wanted]
    return list(frame.sort_values("supplier", kind="stable").index)


def _shown(room):
    return _listed(room)[:LINES]


def _column(values, empty=np.nan):
    return pd.Series(list(values) + [empty] * (LINES - len(values)), dtype=object if empty == "" else float)


def _number(key):
    def told(room):
        return _column([float(room.stock[key].iloc[row]) for row in _shown(room)])

    return told


cost, minimum, order_up_to = map(_number, ("cost", "minimum", "order_up_to"))


def incoming(room):
    return _column([stock.coming(room).iloc[row] for row in _shown(room)])


def on_hand(room):
    return _column([stock.here(room).iloc[row] for row in _shown(room)])


def reserved(room):
    return _column([stock.promised(room).iloc[row] for row in _shown(room)])


def sold(room):
    return _column([stock.sold_lately(room).iloc[row] for row in _shown(room)])


def code(room):
    return _column([room.stock["code"].iloc[row] for row in _shown(room)], "")


def name(room):
    return _column([stock.name(room).iloc[row] for row in _shown(room)], "")


def to_order(room):
    return _column([stock.to_order(room).iloc[row] for row in _shown(room)])


def order_cost(room):
    return _column([stock.order_cost(room).iloc[row] for row in _shown(room)])


def tick(room):
    return _column(["☐"] * len(_shown(room)), "")


@remember
def supplier_no(room):
    return _column([stock.supplier_number(room).iloc[row] for row in _shown(room)])


def supplier(room):
    names = [*room.suppliers["supplier"]]
    numbers = [int(n) - 1 for n in supplier_no(room).dropna()]
    return _column([names[n] if n < len(names) else "(no supplier)" for n in numbers], "")


def row(room):
    return _column([row + 1.0 for row in _shown(room)])


def in_order(room):
    return supplier_no(room) * 1e6 + row(room)


@remember
def next_no(room):
    numbers = list(supplier_no(room).dropna())
    return _column([*numbers[1:], 0.0] if numbers else [])


@remember
def so_far(room):
    costs = order_cost(room).fillna(0.0)
    return costs.groupby(supplier_no(room)).cumsum().where(supplier_no(room).notna())


def subtotal(room):
    """On the last line of each supplier."""
    numbers, sums = list(supplier_no(room)), list(so_far(room))
    after = [*numbers[1:], math.nan]
    return pd.Series(
        [s if n == n and n != follows else np.nan for n, follows, s in zip(numbers, after, sums, strict=True)],
        dtype=float,
    )
