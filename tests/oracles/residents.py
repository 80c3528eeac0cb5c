"""Who lives in the chosen tank, group by group."""

import math
from collections.abc import Callable

import numpy as np
import pandas as pd

from tests.oracles import lists, livestock, species, tools
from tests.oracles.tools import Room, blank, lookup, remember, rows_of

LINES = 40


@remember
def tank(room: Room) -> int | None:
    """The row of the chosen tank."""
    return rows_of(room.tanks, "tank", [room.choice.get("candidates") or ""])[0]


@remember
def here(room: Room) -> list[int]:
    """The rows of Livestock that live in it, as many as there are lines."""
    homes = livestock.lives_in(room)
    return [int(g) for g in homes.index[homes == (tank(room) or 0) + 1]][:LINES] if tank(room) is not None else []


def _lines(room: Room, values: pd.Series) -> pd.Series:
    """A column of Livestock, line by line."""
    blank_value = np.nan if pd.api.types.is_numeric_dtype(values) else ""
    found = [values.iloc[g] for g in here(room)]
    return pd.Series(found + [blank_value] * (LINES - len(found)), dtype=values.dtype)


@remember
def group(room: Room) -> pd.Series:
    return pd.Series([g + 1.0 for g in here(room)] + [math.nan] * (LINES - len(here(room))), dtype=float)


@remember
def species_row(room: Room) -> pd.Series:
    return _lines(room, lists.link_row(room, "livestock", "species"))


@remember
def names(room: Room) -> pd.Series:
    return _lines(room, room.livestock["species"])


@remember
def alive(room: Room) -> pd.Series:
    return _lines(room, tools.living(room).astype(float)) > 0


@remember
def said(room: Room, column: str) -> pd.Series:
    """A word of the species of each line, in small letters."""
    words = lookup(room.species, "species", names(room), column)
    return pd.Series([str(word).casefold() for word in words], dtype=object)


@remember
def gone(room: Room) -> pd.Series:
    """Those of the kind that can't be had: whoever comes takes their place."""
    wanted = rows_of(room.species, "species", [room.choice.get("instead_of") or ""])[0]
    found = [float(wanted is not None and row == wanted + 1) for row in species_row(room)]
    return pd.Series(found).where(group(room).notna())


@remember
def stays(room: Room) -> pd.Series:
    return alive(room) & (gone(room) != 1)


def _flag(room: Room, test: pd.Series) -> pd.Series:
    return test.astype(float).where(group(room).notna())


@remember
def living(room: Room) -> pd.Series:
    return _flag(room, stays(room))


def _who_is(kind: str, column: str) -> Callable[[Room], pd.Series]:
    return lambda room: _flag(room, stays(room) & (said(room, column) == kind))


shrimp, snail = _who_is("shrimp", "kind"), _who_is("snail", "kind")
hunter, young_eater = _who_is("yes", "eats_shrimp"), _who_is("young", "eats_shrimp")
snail_eater = _who_is("yes", "eats_snails")


def measured(room: Room, column: str) -> pd.Series:
    """A number of the species of each line."""
    return lookup(room.species, "species", names(room), room.species[column].astype(float))


@remember
def one_show(room: Room) -> pd.Series:
    """Kept alone, in pairs or threes, to be looked at, or bold: it does not bear another of its family."""
    few = ~(measured(room, "group_min") > room.const["choose_few"])
    proud = said(room, "role").isin(["show", "hunter"]) | (temper(room) >= 3)
    return _flag(room, stays(room) & few & proud)


@remember
def size(room: Room) -> pd.Series:
    lengths = measured(room, "adult_length")
    return np.log(lengths.where(stays(room) & (lengths > 0)))


@remember
def pace(room: Room) -> pd.Series:
    paces = said(room, "swim").map({"sedentary": 0.0, "calm": 1.0, "active": 2.0})
    return paces.astype(float).where(stays(room))


@remember
def current(room: Room) -> pd.Series:
    liked = said(room, "flow").map({"still": 0.0, "gentle": 1.0, "medium": 2.0, "strong": 3.0})
    return liked.astype(float).where(stays(room))


def _staying(column: Callable[[Room], pd.Series]) -> Callable[[Room], pd.Series]:
    return lambda room: _lines(room, column(room)).where(stays(room))


temper, gape = _staying(livestock.temper_counted), _staying(livestock.mouthful)
prey_length, room_wanted = _staying(livestock.victim_length), _staying(livestock.length_wanted)


@remember
def snail_gape(room: Room) -> pd.Series:
    """What a snail eater takes at once."""
    return gape(room).where(said(room, "eats_snails") == "yes")


@remember
def bold_length(room: Room) -> pd.Series:
    """Length of one with a temper of three or more."""
    return measured(room, "adult_length").where(temper(room) >= 3)


def litres_wanted(room: Room) -> pd.Series:
    return measured(room, "volume_min").where(stays(room))


def part_gone(room: Room, column: Callable[[Room], pd.Series]) -> float:
    """Of what all groups here take of something, the part of those that are gone."""
    values = _lines(room, column(room).astype(float))
    return float(np.nansum(values[gone(room) == 1]) / np.nansum(values)) if np.nansum(values) > 0 else 0.0


def _numbered(test: pd.Series) -> pd.Series:
    return pd.Series(np.where(test, np.arange(1.0, LINES + 1), np.nan), dtype=float)


@remember
def finned_line(room: Room) -> pd.Series:
    return _numbered(stays(room) & (said(room, "long_fins") == "yes"))


@remember
def biter_line(room: Room) -> pd.Series:
    return _numbered(stays(room) & (said(room, "bites_fins") == "yes"))


def _other_than_the_first(room: Room, lines: pd.Series) -> pd.Series:
    """Those lines that are not of the kind of the first of them."""
    first = names(room)[int(lines.min()) - 1] if lines.notna().any() else ""
    return lines.where(pd.Series([n.casefold() != first.casefold() for n in names(room)], dtype=bool))


@remember
def other_finned_line(room: Room) -> pd.Series:
    return _other_than_the_first(room, finned_line(room))


@remember
def other_biter_line(room: Room) -> pd.Series:
    return _other_than_the_first(room, biter_line(room))


@remember
def half_known(room: Room) -> pd.Series:
    lacks = species.lacking(room)
    lacking = lookup(room.species, "species", names(room), lacks)
    counted = _lines(room, tools.living(room).astype(float)).notna()
    known = species_row(room).notna() & blank(lacking) & counted & (said(room, "kind") != "")
    return _flag(room, ~known)
