"""Nauplii that each tank wants: its share of the ration by dry mass, or as counted; and those of its young."""

import math

import pandas as pd

from tests.oracles import breeding, feeding
from tests.oracles.tools import Room, blank, remember, rows_of


def _named(room: Room) -> pd.Series:
    return ~blank(room.tanks["tank"].reset_index(drop=True))


def _by_tank(room: Room, names: pd.Series, values: pd.Series) -> list[list[float]]:
    found: list[list[float]] = [[] for _ in range(len(room.tanks))]
    for row, value in zip(rows_of(room.tanks, "tank", names), values, strict=True):
        if row is not None:
            found[row].append(value)
    return found


def _sums(room: Room, found: list[list[float]]) -> pd.Series:
    return pd.Series([math.fsum(v for v in values if v == v) for values in found], dtype=float).where(_named(room))


@remember
def dry(room: Room) -> pd.Series:
    """Of the rows of the feeding plan whose food is hatched here; unknown where none of them is known."""
    hatched = feeding.hatched_row(room).notna()
    of_tank = _by_tank(room, room.feeding["tank"].where(hatched, ""), feeding.dry(room))
    unknown = pd.Series([bool(values) and all(v != v for v in values) for values in of_tank], dtype=bool)
    return _sums(room, of_tank).mask(unknown)


@remember
def by_plan(room: Room) -> pd.Series:
    micrograms = dry(room) * 1_000_000
    return micrograms / room.const["nauplius_mass"]


@remember
def _counted(room: Room) -> list[list[float]]:
    return _by_tank(room, room.live_wants["tank"], room.live_wants["nauplii"])


@remember
def typed_rows(room: Room) -> pd.Series:
    return pd.Series([float(len(values)) for values in _counted(room)], dtype=float).where(_named(room))


@remember
def typed(room: Room) -> pd.Series:
    return _sums(room, _counted(room))


@remember
def wanted(room: Room) -> pd.Series:
    return by_plan(room).mask(typed_rows(room) > 0, typed(room)).where(_named(room))


@remember
def fry(room: Room) -> pd.Series:
    """Today's, in the tank in which the young are."""
    found = [0.0] * len(room.tanks)
    for row, value in zip(breeding.fry_row(room), breeding.nauplii_now(room), strict=True):
        if row == row and value == value:
            found[int(row) - 1] += value
    return pd.Series(found, dtype=float).where(_named(room))


def feeds(room: Room) -> float:
    """How many feeds have a name."""
    return float((room.feeds["feed"] != "").sum())


@remember
def each_feed(room: Room) -> pd.Series:
    return (wanted(room).fillna(0.0) + fry(room)) / (feeds(room) or math.nan)


def no_feed(room: Room) -> pd.Series:
    return (wanted(room).fillna(0.0) + fry(room).fillna(0.0) > 0) & (feeds(room) == 0)
