"""The lines of Attention in the order in which a keeper goes about them."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pandas as pd

from tests.oracles import open_lines
from tests.oracles.open_lines import lines, running
from tests.oracles.tools import Room, remember

__all__ = ["lines", "running"]
ALSO = "; also "
SIGNS = {1: "▲ Act", 2: "◆ Watch", 3: "○ Note", 10: "· Known"}


@remember
def _listed(room: Room) -> list[int]:
    """The lines, counted from 0, by their order."""
    return [int(row) for row in open_lines.order(room).dropna().sort_values().index]


def found(room: Room) -> pd.Series:
    return _filled(room, lambda line: line + 1.0, np.nan)


def _filled(room: Room, tell: Callable[[int], Any], blank: Any = "") -> pd.Series:
    listed = [tell(line) for line in _listed(room)]
    rest = [blank] * (lines(room) - len(listed))
    return pd.Series(listed + rest, dtype=object if blank == "" else float)


def _same(key: str) -> Callable[[Room], pd.Series]:
    def reckon(room: Room) -> pd.Series:
        there = vars(open_lines)[key](room)
        blank: Any = "" if there.dtype == object else np.nan
        return _filled(room, there.iloc.__getitem__, blank)

    return reckon


for _key in ("what", "open_level", "open_tank", "known_no", "sheet", "row", "top", "sentence"):
    globals()[_key] = _same(_key)


where = place = _same("where")


def serious(room: Room) -> pd.Series:
    levels = open_lines.open_level(room)
    return _filled(room, lambda line: SIGNS[int(levels.iloc[line])])


def acts_so_far(room: Room) -> pd.Series:
    return (serious(room) == "▲ Act").cumsum().astype(float)


def more(room: Room) -> pd.Series:
    """How many causes there are besides the first."""
    return _filled(room, lambda line: float(_told(room)[line].count(ALSO)), np.nan)


def why(room: Room) -> pd.Series:
    """The first of them, and how many more there are."""

    def tell(line: int) -> str:
        first, *others = _told(room)[line].split(ALSO)
        return f"{first} (and {len(others)} more)" if others else first

    return _filled(room, tell)


def full(room: Room) -> pd.Series:
    return _filled(room, _told(room).__getitem__)


@remember
def _told(room: Room) -> dict[int, str]:
    """What the sentence of each line says; of a known one the reason, and until when."""
    sentences, rows = open_lines.sentence(room), open_lines.known_no(room)

    def tell(line: int) -> str:
        if rows.iloc[line] == rows.iloc[line]:
            typed = room.known.iloc[int(rows.iloc[line]) - 1]
            return f"{typed['reason']}; until {typed['until']:%Y-%m-%d}"
        return str(sentences.iloc[line].split(": ", 1)[1].split(" → ")[0])

    return {line: tell(line) for line in _listed(room)}


def do(room: Room) -> pd.Series:
    sentences = open_lines.sentence(room)
    return _filled(room, lambda line: sentences.iloc[line].split(" → ")[1])


def go(room: Room) -> pd.Series:
    sheets, rows, tops = (vars(open_lines)[key](room) for key in ("sheet", "row", "top"))
    return _filled(room, lambda line: f"{sheets.iloc[line]}, row {rows.iloc[line] + tops.iloc[line]:.0f}")
