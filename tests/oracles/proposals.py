"""Proposals, looked at anew: what is there already, what is missing, what cannot be or looks odd."""

from collections.abc import Callable

import pandas as pd

from tests.oracles.tools import Room, blank, remember, rows_of, said

# What the library needs of a species, by what it is called in a sentence.
CALLED = {
    "scientific": "scientific name", "kind": "kind", "adult_length": "adult length", "body_form": "body form", "group_min": "smallest group", "volume_min": "smallest tank",
    "temper": "temper", "mouth_share": "swallows, share of own length",
    "temperature_low": "temperature from", "temperature_high": "temperature to", "ph_low": "pH from", "ph_high": "pH to", "gh_low": "GH from", "gh_high": "GH to",
    "kh_low": "KH from", "kh_high": "KH to", "proposer": "proposed by", "why": "why", "proposal_source": "source", "sure": "how sure",
}  # fmt: skip
PAIRS = {
    "temperature": ("temperature_low", "temperature_high"), "pH": ("ph_low", "ph_high"), "GH": ("gh_low", "gh_high"), "KH": ("kh_low", "kh_high"),
    "life": ("lifespan_low", "lifespan_high"), "group": ("group_min", "group_best"),
}  # fmt: skip
# What the cells of Species take.
TAKES = {
    "adult_length": ("Adult length", 0.3, 200), "group_min": ("Smallest group", 1, 500), "group_best": ("Best group", 1, 1000), "volume_min": ("Smallest tank", 1, 20000),
    "lifespan_low": ("Lives from", 0.1, 150), "lifespan_high": ("Lives to", 0.1, 150),
    **{f"{key}_{end}": (f"{label} {word}", low, high) for key, label, low, high in (("temperature", "Temperature", 0, 40), ("ph", "pH", 3, 11), ("gh", "GH", 0, 60), ("kh", "KH", 0, 60))
       for end, word in (("low", "from"), ("high", "to"))},
    "temper": ("Temper 1 gentle to 5 hostile", 1, 5), "mouth_share": ("Swallows, share of own length", 0, 0.8), "food_size": ("Largest food particle", 0.02, 100),
}  # fmt: skip
UNITS = {"adult_length": (1, " cm"), "group_min": (0, ""), "mouth_share": (2, "")}
MORE = {"mouth_share": "swallows a share of", "adult_length": "grows to", "group_min": "a smallest group of"}


def _named(room: Room) -> pd.Series:
    return room.proposals["proposed"] != ""


def _where(room: Room, key: str, own: str) -> pd.Series:
    found = rows_of(room.species, key, room.proposals[own])
    return pd.Series([float("nan") if row is None else row + 1.0 for row in found], dtype=float)


@remember
def by_name(room: Room) -> pd.Series:
    return _where(room, "species", "proposed")


@remember
def by_scientific(room: Room) -> pd.Series:
    return _where(room, "scientific", "scientific")


def in_library(room: Room) -> pd.Series:
    found = by_name(room).fillna(by_scientific(room))
    words = ["no" if row != row else f"yes, as {room.species['species'][int(row) - 1]}" for row in found]
    return pd.Series(words, dtype=object).where(_named(room), "")


def complete(room: Room) -> pd.Series:
    filled = pd.DataFrame({key: ~blank(room.proposals[key]) for key in CALLED}).astype(float)
    return filled.mean(axis=1).where(_named(room))


def _told(room: Room, tell: Callable[[pd.Series], list[str]]) -> pd.Series:
    words = [", ".join(tell(row)) if row["proposed"] else "" for _, row in room.proposals.iterrows()]
    return pd.Series(words, dtype=object)


@remember
def missing(room: Room) -> pd.Series:
    gaps = pd.DataFrame({key: blank(room.proposals[key]) for key in CALLED})
    words = [", ".join(CALLED[key] for key in CALLED if gaps[key][row]) for row in gaps.index]
    return pd.Series(words, dtype=object).where(_named(room), "")


@remember
def reversed(room: Room) -> pd.Series:  # noqa: A001
    return _told(room, lambda row: [word for word, (low, high) in PAIRS.items() if row[low] > row[high]])


@remember
def beyond(room: Room) -> pd.Series:
    def tell(row: pd.Series) -> list[str]:
        return [label for key, (label, low, high) in TAKES.items() if row[key] < low or row[key] > high]

    return _told(room, tell)


@remember
def odd(room: Room) -> pd.Series:
    def tell(row: pd.Series) -> list[str]:
        found = []
        for key, words in MORE.items():
            places, unit = UNITS[key]
            if row[key] > room.species[key].max():
                found.append(f"{words} {said(row[key], places)}{unit}, more than any in the library")
        for key, word in (("temperature", "temperature"), ("ph", "pH"), ("gh", "GH"), ("kh", "KH")):
            low, high = row[f"{key}_low"], row[f"{key}_high"]
            if low <= high and high - low < room.const[f"narrow_{key}"]:
                found.append(f"hardly any range of {word}")
        return found

    return _told(room, tell)


def wrong_way(room: Room) -> pd.Series:
    return reversed(room) != ""


def no_sense(room: Room) -> pd.Series:
    return beyond(room) != ""


def looks_odd(room: Room) -> pd.Series:
    return odd(room) != ""


def already(room: Room) -> pd.Series:
    return in_library(room).str.startswith("yes")


def incomplete(room: Room) -> pd.Series:
    return missing(room) != ""
