"""Which tank the charts of Overlap show, and whether they show all of it."""

import pandas as pd

from tests.oracles import livestock, overlap_bars
from tests.oracles.tools import Room


def in_view(room: Room) -> pd.Series:
    """The one on the page Tank."""
    return pd.Series([room.choice.get("card") or ""], dtype=object)


def title(room: Room) -> pd.Series:
    tank = room.choice.get("card")
    return pd.Series([f"Ranges of the residents of {tank}" if tank else ""], dtype=object)


def drawn(room: Room) -> pd.Series:
    """How many residents have a bar, beside those of the shared band and the tank."""
    residents, bars = len(livestock.drawn_groups(room)), overlap_bars.LINES - overlap_bars.FIRST
    return pd.Series([f"all {residents}" if residents <= bars else f"◆ only the first {bars}"], dtype=object)
