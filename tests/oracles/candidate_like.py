"""How like each species is to one that can't be had: each part from 0 to 1, and their mean by weights."""

import math

import numpy as np

from tests.oracles import candidates as c
from tests.oracles import sought, species
from tests.oracles.overlap_detail import PARAMETERS
from tests.oracles.tools import Room


def both_numbers(room: Room, key: str, row: int) -> tuple[float, float]:
    at = sought.species_at(room, "instead_of")
    return c.number(room, key, row), math.nan if at is None else c.number(room, key, at)


def both_words(room: Room, key: str, row: int) -> tuple[str, str]:
    at = sought.species_at(room, "instead_of")
    return c.word(room, key, row), "" if at is None else c.word(room, key, at)


def _nearer(pair: tuple[float, float]) -> float:
    return math.nan if np.isnan(pair).any() else min(pair) / max(pair)


def _same(pair: tuple[str, str]) -> float:
    return float(pair[0] == pair[1]) if all(pair) else math.nan


@c.every
def like_kin(room: Room, row: int) -> float:
    """One genus, one family, one order, or strangers."""
    if math.isnan(sought.like_ready(room)[0]) or any(
        math.isnan(room.const[key]) for key in ("kin_family", "kin_order")
    ):
        return math.nan
    genus, theirs = (species.genus(room)[at].casefold() for at in (row, sought.species_at(room, "instead_of")))
    if genus and genus == theirs:
        return 1.0
    home, its = both_words(room, "home", row)
    if (home == "rift lakes") != (its == "rift lakes"):
        return 0.0  # apart for so long that they live another life in another water
    if known_same(room, "family", row):
        return room.const["kin_family"]
    return room.const["kin_order"] if known_same(room, "taxon_order", row) else 0.0


def known_same(room: Room, key: str, row: int) -> float:
    own, theirs = both_words(room, key, row)
    return float(own != "" and own == theirs)


@c.every
def like_size(room: Room, row: int) -> float:
    """By how many times the one is longer than the other."""
    lengths = both_numbers(room, "adult_length", row)
    if math.isnan(sought.like_ready(room)[0]):
        return math.nan
    times = max(lengths) / min(lengths) if not np.isnan(lengths).any() else math.nan
    return times if math.isnan(times) else max(0.0, 1 - math.log(times, room.const["alike_lengths"]))


@c.every
def like_swim(room: Room, row: int) -> float:
    return known_same(room, "swim", row)


@c.every
def like_role(room: Room, row: int) -> float:
    return known_same(room, "role", row)


@c.every
def like_diet(room: Room, row: int) -> float:
    return known_same(room, "diet", row)


@c.every
def like_form(room: Room, row: int) -> float:
    return _same(both_words(room, "body_form", row))


@c.every
def like_zone(room: Room, row: int) -> float:
    pair = both_words(room, "zone", row)
    return 0.5 if all(pair) and pair[0] != pair[1] and "all" in pair else _same(pair)


@c.every
def like_temper(room: Room, row: int) -> float:
    first, second = both_numbers(room, "temper", row)
    left = 1 - abs(first - second) / room.const["temper_clash"]
    return left if math.isnan(left) else max(0.0, left)


@c.every
def like_colour(room: Room, row: int) -> float:
    return _same(both_words(room, "colour_group", row))


@c.every
def like_group(room: Room, row: int) -> float:
    return _nearer(both_numbers(room, "group_min", row))


@c.every
def like_ranges(room: Room, row: int) -> float:
    """Of the water that the one wanted lives in, how much the other lives in too; mean of the four."""
    at = sought.species_at(room, "instead_of")
    if at is None or math.isnan(sought.like_ready(room)[0]):
        return math.nan
    parts = []
    for p in PARAMETERS:
        (low, high), (their_low, their_high) = c._ends(room, p, row), c._ends(room, p, at)
        common = min(high, their_high) - max(low, their_low) + 0.01
        known = not np.isnan([low, high, their_low, their_high]).any()
        parts.append(max(0.0, common) / (max(0.0, their_high - their_low) + 0.01) if known else math.nan)
    return sum(parts) / len(parts)


PARTS = {
    "kin": like_kin, "size": like_size, "form": like_form, "swim": like_swim, "zone": like_zone, "role": like_role,
    "diet": like_diet, "temper": like_temper, "group": like_group, "colour": like_colour, "ranges": like_ranges,
}  # fmt: skip


@c.every
def likeness(room: Room, row: int) -> float:
    weights = [room.const[f"like_{part}"] for part in PARTS]
    return float(np.average([column(room)[row] for column in PARTS.values()], weights=weights))
