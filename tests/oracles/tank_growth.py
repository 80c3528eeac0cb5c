"""How full the tank in view is today, some weeks on, and when its young animals are grown."""

import pandas as pd

from tests.oracles import stocking, tank_card
from tests.oracles.printed import tell, texts
from tests.oracles.tools import Room, rounded

WHEN = (stocking.binding_share, stocking.binding_share_later, stocking.binding_share_grown)


def day(room: Room) -> pd.Series:
    ahead = room.const["growth_ahead"]
    return texts(["Today", f"In {tell(ahead, 3, 'days')}" if ahead == ahead else "In ", "All grown"])


def share(room: Room) -> pd.Series:
    return pd.Series([tank_card.of_tank(room, of(room)) for of in WHEN], dtype=float)


def told(room: Room) -> pd.Series:
    return texts(["" if value != value else tell(value * 100, 0, "%") for value in share(room)])


def drawn(room: Room) -> pd.Series:
    """A letter for each tenth of the limit, no more than all of it, then a block for what is over it."""
    bars = ["" if value != value else "▒" * min(10, int(rounded(round(value * 10, 9)))) for value in share(room)]
    return texts([bar + ("█" if value > 1 else "") for bar, value in zip(bars, share(room), strict=True)])
