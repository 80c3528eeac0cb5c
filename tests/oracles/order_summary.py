"""The order in four numbers."""

import pandas as pd

from tests.oracles import stock
from tests.oracles.order import LINES


def lines(room):
    return pd.Series([float((stock.to_order(room) > 0).where(stock.coded(room), other=False).sum())])


def cost(room):
    return pd.Series([float(stock.order_cost(room).sum())])


def unpriced(room):
    wanted = stock.orders(room) == 1
    return pd.Series([float((wanted & room.stock["cost"].isna()).sum())])


def shown(room):
    return pd.Series([f"◆ only the first {LINES} lines" if lines(room)[0] > LINES else "all of them"], dtype=object)
