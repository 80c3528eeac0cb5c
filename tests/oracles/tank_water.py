"""What all residents of the tank in view share, what it is kept at, and from where to where the bars run."""

import math
from typing import Any

import pandas as pd

from tests.oracles import tank_card, tank_card_residents
from tests.oracles.overlap_detail import PARAMETERS, brought, kept_at, shared
from tests.oracles.printed import tell, texts
from tests.oracles.tools import Room

UNITS = {"temperature": "°C", "ph": "", "gh": "°dH", "kh": "°dH"}


def low(room: Room, p: str) -> float:
    return float(tank_card.of_tank(room, shared(room)[p]["low"]))


def high(room: Room, p: str) -> float:
    return float(tank_card.of_tank(room, shared(room)[p]["high"]))


def kept(room: Room, p: str) -> float:
    return float(tank_card.of_tank(room, kept_at(room, p)))


def _scale(room: Room, p: str, which: str) -> float:
    """From the least to the greatest that a listed resident bears, the tank has, or all share."""
    groups = tank_card.residents(room)[: tank_card_residents.LINES - 1]
    a, b = low(room, p), high(room, p)
    ends = pd.Series([*brought(room, p, which).iloc[groups], kept(room, p), a, b], dtype=float)
    return math.nan if math.isnan(a) or math.isnan(b) else float(ends.min() if which == "low" else ends.max())


def start(room: Room, p: str) -> float:
    return _scale(room, p, "low")


def end(room: Room, p: str) -> float:
    return _scale(room, p, "high")


def name(room: Room) -> pd.Series:
    return texts(["All of them share", "The tank is kept at", "The bars run from"])


def _span(p: str, a: float, b: float) -> str:
    return f"{tell(a, 1, UNITS[p])} to {tell(b, 1, UNITS[p])}"


def _told(p: str) -> Any:
    def tell_of(room: Room) -> pd.Series:
        if tank_card.chosen(room) is None:
            return texts([""] * 3)
        a, b = low(room, p), high(room, p)
        both = not math.isnan(a + b)
        share = ("nothing shared" if b < a else _span(p, a, b)) if both else "unknown"
        return texts([share, tell(kept(room, p), 1, UNITS[p]), _span(p, start(room, p), end(room, p)) if both else ""])

    return tell_of


temperature, ph, gh, kh = map(_told, PARAMETERS)
