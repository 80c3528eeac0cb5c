"""Who lives in the chosen tank, group by group."""

import math

import numpy as np
import pandas as pd

from tests.oracles import company, lists, livestock, species, tools
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


def _flag(room: Room, test: pd.Series) -> pd.Series:
    return test.astype(float).where(group(room).notna())


@remember
def living(room: Room) -> pd.Series:
    return _flag(room, alive(room))


@remember
def shrimp(room: Room) -> pd.Series:
    return _flag(room, alive(room) & (said(room, "kind") == "shrimp"))


@remember
def snail(room: Room) -> pd.Series:
    return _flag(room, alive(room) & (said(room, "kind") == "snail"))


def _numbered(test: pd.Series) -> pd.Series:
    return pd.Series(np.where(test, np.arange(1.0, LINES + 1), np.nan), dtype=float)


@remember
def finned_line(room: Room) -> pd.Series:
    return _numbered(alive(room) & (said(room, "long_fins") == "yes"))


def _other_than(room: Room, name: str) -> pd.Series:
    return pd.Series([n.casefold() != name.casefold() for n in names(room)], dtype=bool)


@remember
def other_finned_line(room: Room) -> pd.Series:
    """Those with long fins that are not of the kind of the first of them."""
    lines = finned_line(room)
    first = names(room)[int(lines.min()) - 1] if lines.notna().any() else ""
    return lines.where(_other_than(room, first))


@remember
def other_biter_line(room: Room) -> pd.Series:
    at = tank(room)
    first = "" if at is None else company.first_biter(room)[at]
    return _numbered(alive(room) & (said(room, "bites_fins") == "yes") & _other_than(room, first))


@remember
def half_known(room: Room) -> pd.Series:
    lacks = species.lacking(room)
    lacking = lookup(room.species, "species", names(room), lacks)
    counted = _lines(room, tools.living(room).astype(float)).notna()
    known = species_row(room).notna() & blank(lacking) & counted & (said(room, "kind") != "")
    return _flag(room, ~known)
