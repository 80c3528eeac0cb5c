"""Which tank the charts of Overlap show, and whether they show all of it."""

import pandas as pd

from tests.oracles import livestock, overlap_bars
from tests.oracles.tools import Room


def drawn(room: Room) -> pd.Series:
    """How many residents have a bar, beside those of the shared band and the tank."""
    residents, bars = len(livestock.drawn_groups(room)), overlap_bars.LINES - overlap_bars.FIRST
    return pd.Series([f"all {residents}" if residents <= bars else f"◆ only the first {bars}"], dtype=object)


def _title(label: str):
    def title(room: Room) -> pd.Series:
        return pd.Series([f"{label}: {room.choice['overlap']}" if room.choice["overlap"] else ""], dtype=object)

    return title


title_temperature, title_ph, title_gh, title_kh = map(_title, ("Temperature", "pH", "GH", "KH"))
