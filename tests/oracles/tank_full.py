"""How full the tank in view is by each measure, and which of them binds."""

import pandas as pd

from tests.oracles import stocking, tank_card
from tests.oracles.printed import tell, texts
from tests.oracles.tools import Room, rounded

KEYS = ("nitrogen", "oxygen", "swim", "bottom", "volume")


def measure(room: Room) -> pd.Series:
    return texts(stocking.MEASURES)


def share(room: Room) -> pd.Series:
    return pd.Series([tank_card.of_tank(room, getattr(stocking, f"{key}_share")(room)) for key in KEYS], dtype=float)


def told(room: Room) -> pd.Series:
    return texts(["" if value != value else tell(value * 100, 0, "%") for value in share(room)])


def drawn(room: Room) -> pd.Series:
    """A letter for each tenth of the limit, no more than all of it, then a block for what is over it."""
    tank, found = tank_card.chosen(room), []
    for name, value in zip(stocking.MEASURES, share(room), strict=True):
        if value != value:
            found.append("")
            continue
        tenths = min(10, int(rounded(round(value * 10, 9))))
        binds = stocking.binding(room).iloc[tank] == name
        found.append("▒" * tenths + ("█" if value > 1 else "") + (" binds" if binds else ""))
    return texts(found)
