"""The first lines that may be sold, but do not fit."""

import numpy as np
import pandas as pd

from tests.oracles import buyer_lines, stock
from tests.oracles.buyer_list import BEST, lines
from tests.oracles.tools import remember


@remember
def _rows(room):
    refused = (buyer_lines.considered(room) == 1) & (buyer_lines.fits(room) == 0)
    return list(np.flatnonzero(refused))[:BEST]


def found(room):
    return pd.Series([row + 1.0 for row in _rows(room)] + [np.nan] * (BEST - len(_rows(room))), dtype=float)


def name(room):
    return lines(_rows(room), stock.name(room))


def why_not(room):
    return lines(_rows(room), buyer_lines.why_not(room))
