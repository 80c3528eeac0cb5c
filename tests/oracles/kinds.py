"""The species of the short list two by two: what speaks against each pair."""

import itertools
import math
from collections.abc import Callable
from typing import Any

import pandas as pd

from tests.oracles import compared, pairs
from tests.oracles.pairs import Resident
from tests.oracles.tools import Room, folded, remember

PAIRS = sorted(itertools.combinations(range(1, 31), 2), key=lambda pair: pair[::-1])
SIGNS = {"fine": "·", "○ unknown": "?"}


@remember
def grown(room: Room) -> list[Resident | None]:
    """Each line of the list as one grown animal; None where nothing, or no such species, is picked."""
    found: list[Resident | None] = []
    for line, at in enumerate(compared.picked(room)):
        if at is None:
            found.append(None)
            continue
        row = {key: folded([room.species[key][at]])[0] for key in ("kind", "bites_fins", "long_fins", "eats_shrimp", "eats_snails")}  # fmt: skip
        found.append(Resident(
            room.species["species"][at], row["kind"], *(f(room).iloc[line] for f in (compared.mouthful, compared.victim_length, compared.temper_counted)),
            row["bites_fins"], row["long_fins"], {"shrimp": row["eats_shrimp"], "snail": row["eats_snails"]},
            *(f(room).iloc[line] for f in (compared.light_no, compared.flow_no)), math.nan, compared.lacking(room).iloc[line],
            *({p: compared.used(room, p, end).iloc[at] for p in pairs.WATERS} for end in ("low", "high")),
        ))  # fmt: skip
    return found


@remember
def couples(room: Room) -> list[tuple[Resident, Resident] | None]:
    here, found = grown(room), []
    for first, second in PAIRS:
        a, b = here[first - 1], here[second - 1]
        found.append((a, b) if a and b else None)
    return found


def _each(room: Room, tell: Callable[[Resident, Resident], Any], empty: Any) -> pd.Series:
    values = [empty if couple is None else tell(*couple) for couple in couples(room)]
    return pd.Series(values, dtype=bool if empty is False else object if empty == "" else float)


def second_place(room: Room) -> pd.Series:
    return pd.Series([float(b) for _, b in PAIRS])


def first_place(room: Room) -> pd.Series:
    return pd.Series([float(a) for a, _ in PAIRS])


def both(room: Room) -> pd.Series:
    return _each(room, lambda _, __: 1.0, math.nan)


def pair(room: Room) -> pd.Series:
    return _each(room, lambda a, b: f"{a.name} and {b.name}", "")


def _apart(room: Room, thing: str) -> pd.Series:
    """Also known of a pair that is none: then one side is blank, and so is this."""
    return _each(room, lambda a, b: abs(getattr(a, thing) - getattr(b, thing)), math.nan)


def temper_gap(room: Room) -> pd.Series:
    return _apart(room, "temper")


def light_gap(room: Room) -> pd.Series:
    return _apart(room, "light")


def flow_gap(room: Room) -> pd.Series:
    return _apart(room, "flow")


@remember
def unknown(room: Room) -> pd.Series:
    def tell(a: Resident, b: Resident) -> str:
        parts = [f"{one.name}: {one.lacking}" for one in (a, b) if one.lacking]
        for eater, prey in ((a, b), (b, a)):
            for kind, many in (("shrimp", "shrimp"), ("snail", "snails")):
                parts += [f"whether {eater.name} eats {many}"] if prey.kind == kind and not eater.eats[kind] else []
        return "; ".join(parts)

    return _each(room, tell, "")


@remember
def verdict(room: Room) -> pd.Series:
    """The word of the most serious thing, in the order in which the sheet declares things of equal seriousness."""
    raised = {key: globals()[key](room) for key, *_ in room.flags["kinds"]}
    words = []
    for line, couple in enumerate(couples(room)):
        wrong = [
            f"{pairs.SYMBOLS[level]} {title}"
            for wanted in pairs.SYMBOLS
            for key, level, title in room.flags["kinds"]
            if level == wanted and raised[key].iloc[line]
        ]
        words.append("" if couple is None else [*wrong, "fine"][0])
    return pd.Series(words, dtype=object)


def sign(room: Room) -> pd.Series:
    return verdict(room).map(lambda word: SIGNS.get(word, word[:1]))


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


for _parameter in pairs.WATERS:
    globals()[f"{_parameter}_first_above"], globals()[f"{_parameter}_second_above"] = _above(_parameter)


def not_known(room: Room) -> pd.Series:
    return unknown(room) != ""


def clash_of_temper(room: Room) -> pd.Series:
    return temper_gap(room) >= room.const["temper_clash"]


def gap_of_temper(room: Room) -> pd.Series:
    gap = temper_gap(room)
    return (gap >= room.const["temper_watch"]) & (gap < room.const["temper_clash"])


def flow_far_apart(room: Room) -> pd.Series:
    return flow_gap(room) >= pairs.OPPOSITE


def flow_apart(room: Room) -> pd.Series:
    return (flow_gap(room) >= pairs.FAR) & (flow_gap(room) < pairs.OPPOSITE)


def light_apart(room: Room) -> pd.Series:
    return light_gap(room) >= pairs.FAR
