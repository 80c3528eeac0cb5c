"""What stops the candidates that pass the filters."""

import pandas as pd

from tests.oracles import candidates
from tests.oracles.tools import Room

STOPS = ("water", "company", *candidates.MEASURES.values())


def stop(room: Room) -> pd.Series:
    return pd.Series(STOPS, dtype=object)


def stopped(room: Room) -> pd.Series:
    pairs = list(zip(candidates.stop(room), candidates.passes(room), strict=True))
    return pd.Series([float(sum(1 for word, passes in pairs if word == s and passes == 1)) for s in STOPS], dtype=float)
