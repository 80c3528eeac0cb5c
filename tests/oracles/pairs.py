"""The residents of the chosen tank two by two: what speaks against each pair."""

import itertools
import math
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import pandas as pd

from tests.oracles import livestock, mates, overlap_detail, stocking, tanks
from tests.oracles.tools import Room, folded, remember

# Each with everyone before it: the pairs of the first few residents are the first few pairs.
PAIRS = sorted(itertools.combinations(range(1, 17), 2), key=lambda pair: pair[::-1])
SYMBOLS = {"act": "▲", "watch": "◆", "note": "○"}
WATERS = ("temperature", "ph", "gh", "kh")
FAR, OPPOSITE = 2, 3  # steps of light or flow


@dataclass
class Resident:
    """What one brings to a pair; NaN and "" are not known."""

    name: str
    kind: str
    mouthful: float
    victim_length: float
    temper: float
    bites: str
    long_fins: str
    eats: dict[str, str]
    light: float
    flow: float
    floor: float
    lacking: str
    low: dict[str, float] = field(default_factory=dict)
    high: dict[str, float] = field(default_factory=dict)


@remember
def residents(room: Room) -> list[Resident]:
    rows = mates.shown(room)

    def words(column: str) -> list[str]:
        return folded(livestock.of_species(room, room.species[column]))

    found = []
    for place, row in enumerate(rows):
        found.append(Resident(
            mates.name(room).iloc[place], words("kind")[row], *(f(room).iloc[row] for f in (livestock.mouthful, livestock.victim_length, livestock.temper_counted)),
            words("bites_fins")[row], words("long_fins")[row], {"shrimp": words("eats_shrimp")[row], "snail": words("eats_snails")[row]},
            *(f(room).iloc[row] for f in (livestock.light_no, livestock.flow_no, livestock.bottom_wanted)), mates.lacking(room).iloc[place],
            *({p: overlap_detail.brought(room, p, end).iloc[row] for p in WATERS} for end in ("low", "high")),
        ))  # fmt: skip
    return found


@remember
def couples(room: Room) -> list[tuple[Resident, Resident] | None]:
    """Both of each pair; None below the last."""
    here = residents(room)
    return [(here[a - 1], here[b - 1]) if b <= len(here) else None for a, b in PAIRS]


def _floor(room: Room) -> tuple[float, float]:
    """What there is and what all want of it."""
    at = mates.tank(room)
    if at is None:
        return math.nan, math.nan
    return float(tanks.plan_area(room).iloc[at]), float(stocking.bottom_wanted(room).iloc[at])


def _each(room: Room, tell: Callable[[Resident, Resident], Any], empty: Any) -> pd.Series:
    values = [empty if couple is None else tell(*couple) for couple in couples(room)]
    return pd.Series(values, dtype=bool if empty is False else object if empty == "" else float)


def second_place(room: Room) -> pd.Series:
    return pd.Series([float(b) for _, b in PAIRS])


def first_place(room: Room) -> pd.Series:
    return pd.Series([float(a) for a, _ in PAIRS])


def pair(room: Room) -> pd.Series:
    return _each(room, lambda a, b: f"{a.name} and {b.name}", "")


def temper_gap(room: Room) -> pd.Series:
    return _each(room, lambda a, b: abs(a.temper - b.temper), np.nan)


def light_gap(room: Room) -> pd.Series:
    return _each(room, lambda a, b: abs(a.light - b.light), np.nan)


def flow_gap(room: Room) -> pd.Series:
    return _each(room, lambda a, b: abs(a.flow - b.flow), np.nan)


def both_want(room: Room) -> pd.Series:
    return _each(room, lambda a, b: a.floor + b.floor, np.nan)


@remember
def unknown(room: Room) -> pd.Series:
    floor, _ = _floor(room)

    def tell(a: Resident, b: Resident) -> str:
        parts = [f"{one.name}: {one.lacking}" for one in (a, b) if one.lacking]
        for eater, prey in ((a, b), (b, a)):
            for kind, many in (("shrimp", "shrimp"), ("snail", "snails")):
                parts += [f"whether {eater.name} eats {many}"] if prey.kind == kind and not eater.eats[kind] else []
        parts += ["the floor of the tank"] if a.floor + b.floor > 0 and math.isnan(floor) else []
        return "; ".join(parts)

    return _each(room, tell, "")


@remember
def verdict(room: Room) -> pd.Series:
    """The word of the most serious thing, in the order in which the sheet declares things of equal seriousness."""
    raised = {key: globals()[key](room) for key, *_ in room.flags["pairs"]}
    words = []
    for line, couple in enumerate(couples(room)):
        wrong = [
            f"{SYMBOLS[level]} {title}"
            for wanted in SYMBOLS
            for key, level, title in room.flags["pairs"]
            if level == wanted and raised[key].iloc[line]
        ]
        words.append("" if couple is None else [*wrong, "fine"][0])
    return pd.Series(words, dtype=object)


# --- flags ---

Test = Callable[[Room], pd.Series]


def one_way(test: Callable[[Resident, Resident], bool]) -> tuple[Test, Test]:
    """The first does it to the second, and the second to the first."""
    return (
        lambda room: _each(room, test, empty=False),
        lambda room: _each(room, lambda a, b: test(b, a), empty=False),
    )


first_swallows, second_swallows = one_way(lambda a, b: a.mouthful > b.victim_length)
first_hunts_shrimp, second_hunts_shrimp = one_way(lambda a, b: b.kind == "shrimp" and a.eats["shrimp"] == "yes")
first_bites, second_bites = one_way(lambda a, b: a.bites == b.long_fins == "yes")
first_eats_snails_too, second_eats_snails_too = one_way(lambda a, b: b.kind == "snail" and a.eats["snail"] == "yes")
first_takes_young, second_takes_young = one_way(lambda a, b: b.kind == "shrimp" and a.eats["shrimp"] == "young")


def _above(parameter: str) -> tuple[Test, Test]:
    return one_way(lambda a, b: a.low[parameter] > b.high[parameter])


for _parameter in WATERS:
    globals()[f"{_parameter}_first_above"], globals()[f"{_parameter}_second_above"] = _above(_parameter)


def not_known(room: Room) -> pd.Series:
    return unknown(room) != ""


def clash_of_temper(room: Room) -> pd.Series:
    return temper_gap(room) >= room.const["temper_clash"]


def gap_of_temper(room: Room) -> pd.Series:
    gap = temper_gap(room)
    return (gap >= room.const["temper_watch"]) & (gap < room.const["temper_clash"])


def _on_the_floor(room: Room) -> pd.Series:
    return _each(room, lambda a, b: a.floor > 0 and b.floor > 0, empty=False)


def floor_short(room: Room) -> pd.Series:
    floor, _ = _floor(room)
    return _on_the_floor(room) & (both_want(room) > floor)


def floor_short_for_all(room: Room) -> pd.Series:
    """These two would do, but there are more."""
    floor, wanted = _floor(room)
    return _on_the_floor(room) & (both_want(room) <= floor) & (wanted > floor)


def flow_far_apart(room: Room) -> pd.Series:
    return flow_gap(room) >= OPPOSITE


def flow_apart(room: Room) -> pd.Series:
    return (flow_gap(room) >= FAR) & (flow_gap(room) < OPPOSITE)


def light_apart(room: Room) -> pd.Series:
    return light_gap(room) >= FAR
