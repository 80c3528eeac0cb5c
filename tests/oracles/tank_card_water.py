"""The shared range of the tank on the card, drawn on a scale of all that its listed residents bear."""

import math

import pandas as pd

from tests.oracles import tank_card, tank_card_residents
from tests.oracles.overlap_detail import PARAMETERS, brought, kept_at, shared
from tests.oracles.printed import bar as drawn_bar
from tests.oracles.printed import letter, tell, texts, with_ends
from tests.oracles.tools import Room

UNITS = {"temperature": "°C", "ph": "", "gh": "°dH", "kh": "°dH"}


def name(room: Room) -> pd.Series:
    return texts(["Temperature", "pH", "GH", "KH"])


def _numbers(values: list[float]) -> pd.Series:
    return pd.Series(values, dtype=float)


def low(room: Room) -> pd.Series:
    return _numbers([tank_card.of_tank(room, shared(room)[p]["low"]) for p in PARAMETERS])


def high(room: Room) -> pd.Series:
    return _numbers([tank_card.of_tank(room, shared(room)[p]["high"]) for p in PARAMETERS])


def kept(room: Room) -> pd.Series:
    return _numbers([tank_card.of_tank(room, kept_at(room, p)) for p in PARAMETERS])


def _scale(room: Room, which: str) -> pd.Series:
    """From the least to the greatest that a listed resident bears, the tank has, or all share."""
    groups = tank_card.residents(room)[: tank_card_residents.LINES - 1]
    found = []
    for p, at, a, b in zip(PARAMETERS, kept(room), low(room), high(room), strict=True):
        ends = pd.Series([*brought(room, p, which).iloc[groups], at, a, b], dtype=float)
        found.append(math.nan if math.isnan(a) or math.isnan(b) else ends.min() if which == "low" else ends.max())
    return _numbers(found)


def start(room: Room) -> pd.Series:
    return _scale(room, "low")


def end(room: Room) -> pd.Series:
    return _scale(room, "high")


def _letters(room: Room, values: pd.Series) -> pd.Series:
    return _numbers([letter(*at) for at in zip(values, start(room), end(room), strict=True)])


def low_letter(room: Room) -> pd.Series:
    return _letters(room, low(room))


def high_letter(room: Room) -> pd.Series:
    return _letters(room, high(room))


def kept_letter(room: Room) -> pd.Series:
    return _letters(room, kept(room))


def plain(room: Room) -> pd.Series:
    return texts([drawn_bar(*at) for at in zip(low(room), high(room), start(room), end(room), strict=True)])


def drawn(room: Room) -> pd.Series:
    """A full block where the tank stands."""
    found = []
    for p, text, at, a, b in zip(PARAMETERS, plain(room), kept_letter(room), start(room), end(room), strict=True):
        marked = "".join("█" if place == at else sign for place, sign in enumerate(text, 1))
        found.append(with_ends(marked, tell(a, 1, UNITS[p]), tell(b, 1, UNITS[p])))
    return texts(found)


def told(room: Room) -> pd.Series:
    if tank_card.chosen(room) is None:
        return texts([""] * len(PARAMETERS))
    found = []
    for p, a, b, at in zip(PARAMETERS, low(room), high(room), kept(room), strict=True):
        ends = f"{tell(a, 1, UNITS[p])} to {tell(b, 1, UNITS[p])}"
        ends = "unknown" if "unknown" in ends else ends if a <= b else "nothing shared"
        stands = tell(at, 1, UNITS[p])
        found.append(f"{ends}\nkept at{':' if stands == 'unknown' else ''} {stands}")
    return texts(found)


def set_by(room: Room) -> pd.Series:
    at, found = tank_card.chosen(room), []
    for p, a, b in zip(PARAMETERS, low(room), high(room), strict=True):
        known = at is not None and a == a and b == b
        frame = shared(room)[p]
        found.append(f"low: {frame['low_by'].iloc[at]}\nhigh: {frame['high_by'].iloc[at]}" if known else "")
    return texts(found)
