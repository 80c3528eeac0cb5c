"""What speaks against pairs, most serious first; the words from the sheet on which the pairs stand."""

import itertools
import re
from collections.abc import Callable
from types import ModuleType
from typing import Any, NamedTuple

import numpy as np
import pandas as pd

from tests.oracles.tools import Room

LEVELS = ("act", "watch", "note")


class Reason(NamedTuple):
    """One thing about one pair."""

    level: int
    line: int
    key: str
    title: str
    piece: int


def reckoned(pairs: ModuleType, key: str, lines: int) -> dict[str, Any]:
    """The oracles of a list of reasons about those pairs."""

    def all_of_them(room: Room) -> list[Reason]:
        name = f"reasons of {key}"
        if name not in room.remembered:
            room.remembered[name] = listed(room)
        return room.remembered[name]  # type: ignore[no-any-return]

    def listed(room: Room) -> list[Reason]:
        raised = {flag: getattr(pairs, flag)(room) for flag, *_ in room.flags[key]}
        found = []
        for level, line in itertools.product(range(len(LEVELS)), range(len(pairs.PAIRS))):
            here = [f for f in room.flags[key] if f[1] == LEVELS[level] and raised[f[0]].iloc[line]]
            found += [Reason(level, line, flag, title, piece) for piece, (flag, _, title) in enumerate(here, 1)]
        return found

    def _lines(room: Room, tell: Callable[[Reason], Any], empty: Any = "") -> pd.Series:
        found = [tell(reason) for reason in all_of_them(room)[:lines]]
        return pd.Series(found + [empty] * (lines - len(found)), dtype=object if empty == "" else float)

    def _said_there(room: Room, reason: Reason) -> str:
        """Its words on the sheet of pairs; question marks where that does not raise it."""
        return str(room.sentences[key, reason.key][reason.line]) or "?: ? → ?"

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

    return {
        function.__name__: function
        for function in (all_of_them, sentence, verdict, why, do, said, passed, level_no, pair, piece)
    }
