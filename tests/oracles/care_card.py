"""What is known of the species on the care card."""

import math

import numpy as np
import pandas as pd

from tests.oracles import livestock
from tests.oracles.printed import one, tell, texts
from tests.oracles.tools import Room, remember, rows_of


@remember
def chosen(room: Room) -> int | None:
    return rows_of(room.species, "species", [room.choice["care"]])[0]


@remember
def _kinds(room: Room) -> pd.Series:
    """The species of each group that lives in a tank."""
    to = pd.Series(rows_of(room.species, "species", room.livestock["species"]), dtype=float)
    return to.where(livestock.lives_in(room).reset_index(drop=True).notna())


@remember
def kept(room: Room) -> list[int]:
    """Rows of Livestock with this species."""
    at = chosen(room)
    return [] if at is None else [int(i) for i in np.flatnonzero(_kinds(room) == at)]


def typed(room: Room, key: str) -> float:
    at = chosen(room)
    return math.nan if at is None else float(room.species[key].iloc[at])


def row(room: Room) -> pd.Series:
    at = chosen(room)
    return one(math.nan if at is None else at + 1)


def swallows(room: Room) -> pd.Series:
    return one(typed(room, "mouth_share") * typed(room, "adult_length"))


def gentlest(room: Room) -> pd.Series:
    """The gap that clashes, below its own temper."""
    return one(typed(room, "temper") - room.const["temper_clash"])


def groups_before(room: Room) -> pd.Series:
    at = chosen(room)
    return one(math.nan if at is None else float((_kinds(room) < at).sum()))


def groups(room: Room) -> pd.Series:
    at = chosen(room)
    return one(math.nan if at is None else float(len(kept(room))))


def small_ones(room: Room) -> pd.Series:
    """What it can take whole."""
    mouthful = swallows(room)[0]
    if mouthful != mouthful:
        return texts([""])
    return texts([f"swallows under {tell(mouthful, 1, 'cm')}" if mouthful else "swallows nothing whole"])


def gentle_ones(room: Room) -> pd.Series:
    """Tempers so far below its own that they clash."""
    gentle = gentlest(room)[0]
    if gentle != gentle:
        return texts([""])
    if gentle < 1:
        return texts(["fits the gentlest"])
    return texts([f"not with temper {tell(gentle, 9)}" + (" or gentler" if gentle > 1 else "")])


def scale(room: Room, parameter: str, which: str) -> float:
    """Least or greatest end of both ranges."""
    keys = [f"{own}{parameter}_{end}" for own in ("", "own_") for end in ("low", "high")]
    return float(getattr(pd.Series([typed(room, key) for key in keys], dtype=float), which)())


for _parameter in ("temperature", "ph", "gh", "kh"):
    for _end, _which in (("start", "min"), ("end", "max")):
        globals()[f"{_parameter}_{_end}"] = lambda room, p=_parameter, w=_which: one(scale(room, p, w))
