"""How many labels are wanted, and whether all of them are made."""

import pandas as pd

from tests.oracles.labels import LINES


def wanted(room):
    return pd.Series([float(room.stock["label"].sum())])


def shown(room):
    return pd.Series([f"◆ only the first {LINES}" if wanted(room)[0] > LINES else "all of them"], dtype=object)
