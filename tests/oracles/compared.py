"""The short list of species and its grid of signs, found anew."""

import math
from collections.abc import Callable
from typing import Any

import pandas as pd

from tests.oracles import comfort, kinds, species
from tests.oracles.tools import Room, folded, remember, rows_of

LINES = 30
WORDS = {"temperature": "temperature", "ph": "pH", "gh": "GH", "kh": "KH"}


@remember
def picked(room: Room) -> list[int | None]:
    """The row of the library on each line."""
    return rows_of(room.species, "species", room.compared["species"])


def _each(room: Room, tell: Callable[[int], Any], empty: Any = math.nan) -> pd.Series:
    values = [empty if at is None else tell(at) for at in picked(room)]
    return pd.Series(values, dtype=object if empty == "" else float)


def no(room: Room) -> pd.Series:
    return pd.Series([math.nan if at is None else line for line, at in enumerate(picked(room), 1)], dtype=float)


def mouthful(room: Room) -> pd.Series:
    return _each(room, lambda at: round(room.species["mouth_share"][at] * room.species["adult_length"][at], 6))


def _kind(room: Room, at: int) -> str:
    return folded(room.species["kind"])[at]


def victim_length(room: Room) -> pd.Series:
    """Of an animal of which it is known what it is; shells are not swallowed."""
    return _each(
        room, lambda at: math.nan if _kind(room, at) in {"", "snail"} else round(room.species["adult_length"][at], 6)
    )


def temper_counted(room: Room) -> pd.Series:
    return _each(room, lambda at: room.species["temper"][at] if _kind(room, at) == "fish" else math.nan)


def _step(room: Room, thing: str) -> pd.Series:
    places = {word: float(place) for place, word in enumerate(comfort.CHOICES[thing], 1)}
    return _each(room, lambda at: places.get(folded(room.species[thing])[at], math.nan))


def light_no(room: Room) -> pd.Series:
    return _step(room, "light")


def flow_no(room: Room) -> pd.Series:
    return _step(room, "flow")


def used(room: Room, parameter: str, end: str) -> pd.Series:
    return pd.Series(getattr(species, f"used_{parameter}_{end}")(room))


@remember
def lacking(room: Room) -> pd.Series:
    """What is not known of each, as far as it matters to any pair."""

    def tell(at: int) -> str:
        row = room.species.iloc[at]
        gaps = {
            "kind": row["kind"] == "",
            "length": math.isnan(row["adult_length"]),
            "what it can swallow": math.isnan(row["mouth_share"]),
            "temper": math.isnan(row["temper"]) and _kind(room, at) == "fish",
            "whether it bites fins": row["bites_fins"] == "",
            "whether it has long fins": row["long_fins"] == "",
            **{f"{word} range": any(math.isnan(used(room, p, end).iloc[at]) for end in ("low", "high")) for p, word in WORDS.items()},
            "light": row["light"] == "",
            "flow": row["flow"] == "",
        }  # fmt: skip
        return ", ".join(word for word, gap in gaps.items() if gap)

    return _each(room, tell, "")


@remember
def signs(room: Room) -> dict[tuple[int, int], str]:
    return dict(zip(kinds.PAIRS, kinds.sign(room), strict=True))


def beside(room: Room, other: int) -> pd.Series:
    """One column of the grid."""
    here, words = picked(room), []
    for own in range(1, LINES + 1):
        both = here[own - 1] is not None and here[other - 1] is not None
        words.append(("–" if own == other else signs(room)[min(own, other), max(own, other)]) if both else "")
    return pd.Series(words, dtype=object)


def fine_with(room: Room) -> pd.Series:
    here = [line for line, at in enumerate(picked(room), 1) if at is not None]
    words = []
    for own, name in enumerate(room.compared["species"], 1):
        fine = sum(beside(room, other).iloc[own - 1] == "·" for other in here)
        said = "alone on the list" if len(here) == 1 else f"fine with {fine} of {len(here) - 1}"
        words.append(said if own in here else "◆ not in the library" if name else "")
    return pd.Series(words, dtype=object)


def _column(place: int) -> Callable[[Room], pd.Series]:
    return lambda room: beside(room, place)


for _place in range(1, LINES + 1):
    globals()[f"with_{_place}"] = _column(_place)
