"""What speaks against the pairs of the chosen tank, most serious first; the words from the sheet of pairs."""

import itertools
import re
from collections.abc import Callable
from typing import Any, NamedTuple

import numpy as np
import pandas as pd

from tests.oracles import pairs
from tests.oracles.tools import Room, remember

LINES = 120
LEVELS = ("act", "watch", "note")


class Reason(NamedTuple):
    """One thing about one pair."""

    level: int
    line: int
    key: str
    title: str
    piece: int


@remember
def all_of_them(room: Room) -> list[Reason]:
    raised = {key: getattr(pairs, key)(room) for key, *_ in room.flags["pairs"]}
    found = []
    for level, line in itertools.product(range(len(LEVELS)), range(len(pairs.PAIRS))):
        here = [f for f in room.flags["pairs"] if f[1] == LEVELS[level] and raised[f[0]].iloc[line]]
        found += [Reason(level, line, key, title, piece) for piece, (key, _, title) in enumerate(here, 1)]
    return found


def _lines(room: Room, tell: Callable[[Reason], Any], empty: Any = "") -> pd.Series:
    found = [tell(reason) for reason in all_of_them(room)[:LINES]]
    return pd.Series(found + [empty] * (LINES - len(found)), dtype=object if empty == "" else float)


def _said_there(room: Room, reason: Reason) -> str:
    """Its words on the sheet of pairs; question marks where that does not raise it."""
    return str(room.sentences["pairs", reason.key][reason.line]) or "?: ? → ?"


def sentence(room: Room) -> pd.Series:
    return _lines(room, lambda reason: re.sub(" +", " ", _said_there(room, reason)))


def verdict(room: Room) -> pd.Series:
    return _lines(room, lambda reason: f"{'▲◆○'[reason.level]} {reason.title}")


def why(room: Room) -> pd.Series:
    return sentence(room).map(lambda text: text and text.split(" → ")[0].split(": ", 1)[1])


def do(room: Room) -> pd.Series:
    return sentence(room).map(lambda text: text and text.split(" → ")[1])


def said(room: Room) -> pd.Series:
    """All that is said of the pair at this level."""
    texts = {
        place: "¦".join(_said_there(room, reason) for reason in some)
        for place, some in itertools.groupby(all_of_them(room), lambda reason: reason[:2])
    }
    return _lines(room, lambda reason: texts[reason[:2]])


def passed(room: Room) -> pd.Series:
    """Cells of running numbers that come before it: whole columns of more serious ones, and the pairs above."""
    return _lines(room, lambda reason: float(reason.level * len(pairs.PAIRS) + reason.line), np.nan)


def level_no(room: Room) -> pd.Series:
    return _lines(room, lambda reason: reason.level + 1.0, np.nan)


def pair(room: Room) -> pd.Series:
    return _lines(room, lambda reason: reason.line + 1.0, np.nan)


def piece(room: Room) -> pd.Series:
    return _lines(room, lambda reason: float(reason.piece), np.nan)
