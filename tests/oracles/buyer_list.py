"""The lines that fit, sorted by pandas."""

import numpy as np
import pandas as pd

from tests.oracles import buyer_lines, stock
from tests.oracles.tools import lookup, remember

BEST = 20


@remember
def _rows(room):
    return list(buyer_lines.rank(room).dropna().sort_values(ascending=False).index[:BEST])


def lines(rows, values, empty=""):
    found = [values.iloc[row] for row in rows]
    return pd.Series(found + [empty] * (BEST - len(found)), dtype=object if empty == "" else float)


def found(room):
    return pd.Series([row + 1.0 for row in _rows(room)] + [np.nan] * (BEST - len(_rows(room))), dtype=float)


def name(room):
    return lines(_rows(room), stock.name(room))


def reasons(room):
    return lines(_rows(room), buyer_lines.reasons(room))


def how_many(room):
    return lines(_rows(room), buyer_lines.how_many(room))


def price(room):
    return lines(_rows(room), room.stock["price"], np.nan)


def tank(room):
    return lines(_rows(room), room.stock["tank"])


def code(room):
    return lines(_rows(room), room.stock["code"])


def caution(room):
    return lines(_rows(room), lookup(room.species, "species", room.stock["species"], "caution"))
