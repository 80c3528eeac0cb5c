"""Shared water: what is wrong with the range that the residents of a tank share."""

import pandas as pd

from tests.oracles.overlap_detail import each, groups, read, shared, source
from tests.oracles.tools import Room, blank, folded

NOISE = 1e-9  # a width is a difference of typed numbers: 7.3 - 7.0 is 0.3


def named(room: Room) -> pd.Series:
    return ~blank(room.tanks["tank"]).reset_index(drop=True)


def meet(room: Room, parameter: str) -> pd.Series:
    """Whether the residents share anything."""
    return named(room) & (shared(room)[parameter]["low"] <= shared(room)[parameter]["high"])


def within(room: Room, parameter: str, values: pd.Series) -> pd.Series:
    return values.between(shared(room)[parameter]["low"], shared(room)[parameter]["high"])


def clash(room: Room, parameter: str) -> pd.Series:
    """Two species that want waters apart; one whose own range is upside down is told of on Species."""
    found = shared(room)[parameter]
    two = [a != b for a, b in zip(folded(found["low_by"]), folded(found["high_by"]), strict=True)]
    return named(room) & (found["low"] > found["high"]) & pd.Series(two, dtype=bool)


def outside(room: Room, parameter: str) -> pd.Series:
    """Where nothing else is said the tank is its source water, and that has a flag of its own."""
    kept = room.tanks[parameter].reset_index(drop=True)
    return meet(room, parameter) & kept.notna() & ~within(room, parameter, kept)


def narrow(room: Room, parameter: str) -> pd.Series:
    width = shared(room)[parameter]["high"] - shared(room)[parameter]["low"]
    return meet(room, parameter) & (width < room.const[f"narrow_{parameter}"] - NOISE)


def not_known(room: Room, parameter: str) -> pd.Series:
    some = pd.Series([bool(here) for here in groups(room)], dtype=bool)
    return named(room) & some & (shared(room)[parameter]["no_data"] > 0)


def pulls_away(room: Room, parameter: str) -> pd.Series:
    """Its new water is none that all residents bear."""
    new = source(room, parameter)
    return meet(room, parameter) & new.notna() & ~within(room, parameter, new)


def reads_otherwise(room: Room, parameter: str) -> pd.Series:
    """The newest reading is none that all residents bear."""
    newest = read(room, parameter)
    return meet(room, parameter) & newest.notna() & ~within(room, parameter, newest)


temperature_clash, ph_clash, gh_clash, kh_clash = each(clash)
temperature_outside, ph_outside, gh_outside, kh_outside = each(outside)
temperature_narrow, ph_narrow, gh_narrow, kh_narrow = each(narrow)
temperature_no_data_flag, ph_no_data_flag, gh_no_data_flag, kh_no_data_flag = each(not_known)
temperature_read, ph_read, gh_read, kh_read = each(reads_otherwise)
_, ph_source, gh_source, kh_source = each(pulls_away)
