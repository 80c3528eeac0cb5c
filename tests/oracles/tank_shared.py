"""What all residents of the tank in view share, drawn, with a mark where the tank stands."""

from typing import Any

import pandas as pd

from tests.oracles import tank_card, tank_water
from tests.oracles.overlap_detail import PARAMETERS
from tests.oracles.printed import bar, letter, texts
from tests.oracles.tools import Oracle, Room

LETTERS, MARGIN = 13, 2  # of a bar of the page


def drawn(room: Room, p: str, low: float, high: float) -> str:
    """Dots, and the letters from low to high shaded."""
    return bar(low, high, tank_water.start(room, p), tank_water.end(room, p), LETTERS, MARGIN)


def letter_of(room: Room, p: str, value: float) -> float:
    """Where a value lies among them."""
    return letter(value, tank_water.start(room, p), tank_water.end(room, p), LETTERS, MARGIN)


def marked(room: Room, p: str, text: str) -> str:
    """A full block where the tank stands; words where the range or its scale is not known."""
    at = letter_of(room, p, tank_water.kept(room, p))
    return "".join("█" if place == at else sign for place, sign in enumerate(text, 1)) or "not known"


def name(room: Room) -> pd.Series:
    return texts(["▒ suits all, below: suits it   · does not   █ the tank is kept at"])


def _plain(p: str) -> Any:
    return lambda room: texts([drawn(room, p, tank_water.low(room, p), tank_water.high(room, p))])


def _bar(p: str) -> Oracle:
    plain = _plain(p)
    return lambda room: texts(["" if tank_card.chosen(room) is None else marked(room, p, plain(room).iloc[0])])


globals().update({f"{p}_plain": _plain(p) for p in PARAMETERS} | {f"{p}_bar": _bar(p) for p in PARAMETERS})
