"""What each of the first products makes for every tank: the dose goes with the water."""

import math

import pandas as pd

from tests.oracles import dose_lines, tanks, week_tanks
from tests.oracles.printed import tell
from tests.oracles.tools import Oracle, Room

PARTS = (dose_lines.product, dose_lines.dose, dose_lines.dose_unit, dose_lines.stated_for, dose_lines.dose_into)


def _amounts(room: Room, line: int) -> list[float]:
    """Of one line for each tank: for its change if the label says so, else for all its water."""
    _, dose, _, stated_for, goes = (of(room)[line] for of in PARTS)
    litres = week_tanks.litres(room) if str(goes).casefold() == "each change" else tanks.net_volume(room)
    return [dose * volume / stated_for if stated_for > 0 else math.nan for volume in litres]


def _of(line: int) -> Oracle:
    return lambda room: pd.Series(_amounts(room, line), dtype=float)


globals().update({f"amount_{line + 1}": _of(line) for line in range(dose_lines.LINES)})


def _listed(room: Room, into: str) -> pd.Series:
    found: list[list[str]] = [[] for _ in range(len(room.tanks))]
    for line, (name, _, unit, _, goes) in enumerate(zip(*(of(room) for of in PARTS), strict=True)):
        if str(goes).casefold() == into:
            for told, amount in zip(found, _amounts(room, line), strict=True):
                if amount == amount:
                    told.append(f"{tell(amount, 2, '')} {unit} {name}")
    return pd.Series([" + ".join(told) for told in found], dtype=object)


def into_change(room: Room) -> pd.Series:
    return _listed(room, "each change")


def into_all(room: Room) -> pd.Series:
    return _listed(room, "all the water")
