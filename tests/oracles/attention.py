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


@remember
def about(room: Room) -> pd.Series:
    """What in the tank it is about, when not the tank itself: its row's name without the tank's."""
    found = []
    for where_, tank in zip(where(room), vars(open_lines)["open_tank"](room).iloc[_listed(room)], strict=False):
        name = str(room.tanks["tank"].iloc[int(tank) - 1]) if tank else where_
        rest = where_.replace(f"{name}: ", "").replace(f": {name}", "")
        found.append("" if where_.casefold() in {"", name.casefold()} else f"{rest}: ")
    return pd.Series(found + [""] * (lines(room) - len(found)), dtype=object)


@remember
def of_tank(room: Room) -> pd.Series:
    """All lines of a tank down to this one, in full, parted by a mark."""
    so_far: dict[float, list[str]] = {}
    tanks = vars(open_lines)["open_tank"](room).iloc[_listed(room)]
    parts = zip(
        tanks,
        serious(room),
        about(room),
        vars(open_lines)["what"](room).iloc[_listed(room)],
        full(room),
        do(room),
        strict=False,
    )
    found = []
    for tank, sign, of, title, because, remedy in parts:
        here = so_far.setdefault(tank, [])
        here.append(f"{sign[:1]} {of}{title}: {because} → {remedy}")
        found.append("¦".join(here) if tank else "")
    return pd.Series(found + [""] * (lines(room) - len(found)), dtype=object)


def go(room: Room) -> pd.Series:
    sheets, rows, tops = (vars(open_lines)[key](room) for key in ("sheet", "row", "top"))
    return _filled(room, lambda line: f"{sheets.iloc[line]}, row {rows.iloc[line] + tops.iloc[line]:.0f}")
