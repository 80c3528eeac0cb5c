"""Reported range and own one of each parameter, drawn on the scale of both."""

import pandas as pd

from tests.oracles import care_card
from tests.oracles.overlap_detail import PARAMETERS
from tests.oracles.printed import bar, letter, tell, texts, with_ends
from tests.oracles.tools import Room

UNITS = {"temperature": "°C", "ph": "", "gh": "°dH", "kh": "°dH"}
WHOSE = ("", "own_")


def _pairs() -> list[tuple[str, str]]:
    return [(p, own) for p in PARAMETERS for own in WHOSE]


def name(room: Room) -> pd.Series:
    return texts(["Temperature", "", "pH", "", "GH", "", "KH", ""])


def which(room: Room) -> pd.Series:
    return texts(["as reported", "own experience"] * 4)


def low(room: Room) -> pd.Series:
    return pd.Series([care_card.typed(room, f"{own}{p}_low") for p, own in _pairs()], dtype=float)


def high(room: Room) -> pd.Series:
    return pd.Series([care_card.typed(room, f"{own}{p}_high") for p, own in _pairs()], dtype=float)


def _scale(room: Room, which_: str) -> pd.Series:
    return pd.Series([care_card.scale(room, p, which_) for p, _ in _pairs()], dtype=float)


def start(room: Room) -> pd.Series:
    return _scale(room, "min")


def end(room: Room) -> pd.Series:
    return _scale(room, "max")


def low_letter(room: Room) -> pd.Series:
    return pd.Series([letter(*at) for at in zip(low(room), start(room), end(room), strict=True)], dtype=float)


def high_letter(room: Room) -> pd.Series:
    return pd.Series([letter(*at) for at in zip(high(room), start(room), end(room), strict=True)], dtype=float)


def plain(room: Room) -> pd.Series:
    return texts([bar(*at) for at in zip(low(room), high(room), start(room), end(room), strict=True)])


def drawn(room: Room) -> pd.Series:
    rows = zip(_pairs(), plain(room), start(room), end(room), strict=True)
    return texts([with_ends(text, tell(a, 1, UNITS[p]), tell(b, 1, UNITS[p])) for (p, _), text, a, b in rows])


def said(room: Room) -> pd.Series:
    if care_card.chosen(room) is None:
        return texts([""] * 8)
    found = [
        f"{tell(a, 1, UNITS[p])} to {tell(b, 1, UNITS[p])}"
        for (p, _), a, b in zip(_pairs(), low(room), high(room), strict=True)
    ]
    return texts(["unknown" if "unknown" in text else text for text in found])
