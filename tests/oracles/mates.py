"""The residents of the chosen tank, found anew, and the verdict of each beside each."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pandas as pd

from tests.oracles import livestock, overlap_detail, pairs
from tests.oracles.tools import Room, blank, living, remember, rows_of, same

LINES = 16
PARAMETERS = {"temperature": "temperature", "ph": "pH", "gh": "GH", "kh": "KH"}


@remember
def tank(room: Room) -> int | None:
    return rows_of(room.tanks, "tank", [room.choice.get("card") or ""])[0]


@remember
def everyone(room: Room) -> list[int]:
    """Rows of Livestock that live in the chosen tank."""
    at = tank(room)
    return [] if at is None else [int(str(row)) for row, home in livestock.lives_in(room).items() if home == at + 1]


def shown(room: Room) -> list[int]:
    return everyone(room)[:LINES]


def _lines(values: list[Any], empty: Any) -> pd.Series:
    return pd.Series(values + [empty] * (LINES - len(values)), dtype=object if empty == "" else float)


def chosen_row(room: Room) -> pd.Series:
    at = tank(room)
    return pd.Series([np.nan if at is None else at + 1.0] * LINES)


def no(room: Room) -> pd.Series:
    return _lines([place + 1.0 for place in range(len(shown(room)))], np.nan)


def group(room: Room) -> pd.Series:
    return _lines([row + 1.0 for row in shown(room)], np.nan)


@remember
def name(room: Room) -> pd.Series:
    return _lines([room.livestock["species"].iloc[row] or "(no species)" for row in shown(room)], "")


@remember
def lacking(room: Room) -> pd.Series:
    """What of each is not typed, as far as it matters to any pair."""
    ranges = {
        f"{word} range": overlap_detail.brought(room, key, "low").isna() | overlap_detail.brought(room, key, "high").isna()
        for key, word in PARAMETERS.items()
    }  # fmt: skip

    def of(column: str) -> pd.Series:
        return livestock.of_species(room, room.species[column])

    gaps = {
        "how many": living(room).isna(),
        "kind": blank(of("kind")),
        "length": livestock.length(room).isna(),
        "what it can swallow": livestock.mouthful(room).isna(),
        "temper": of("temper").isna() & same(of("kind"), "fish"),
        "whether it bites fins": blank(of("bites_fins")),
        "whether it has long fins": blank(of("long_fins")),
        **ranges,
        "light": blank(of("light")),
        "flow": blank(of("flow")),
        "bottom room": livestock.bottom_wanted(room).isna(),
    }
    return _lines([", ".join(word for word, gap in gaps.items() if gap.iloc[row]) for row in shown(room)], "")


@remember
def verdicts(room: Room) -> dict[tuple[int, int], str]:
    """By the places of both, the smaller first."""
    return dict(zip(pairs.PAIRS, pairs.verdict(room), strict=True))


def beside(room: Room, other: int) -> pd.Series:
    """One column of the grid."""
    here = len(shown(room))
    words = []
    for own in range(1, here + 1):
        pair = (min(own, other), max(own, other))
        words.append("" if other > here else "itself" if own == other else verdicts(room)[pair])
    return _lines(words, "")


def fine_with(room: Room) -> pd.Series:
    here = len(shown(room))
    words = []
    for own in range(1, here + 1):
        fine = sum(beside(room, other).iloc[own - 1] == "fine" for other in range(1, here + 1))
        words.append("alone in it" if here == 1 else f"fine with {fine} of {here - 1}")
    return _lines(words, "")


def _column(place: int) -> Callable[[Room], pd.Series]:
    return lambda room: beside(room, place)


for _place in range(1, LINES + 1):
    globals()[f"with_{_place}"] = _column(_place)
