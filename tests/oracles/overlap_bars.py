"""What the charts of Overlap draw: the shared band, the tank's value, and a bar for each resident of one tank."""

import math

import pandas as pd

from tests.oracles import livestock
from tests.oracles.overlap_detail import brought, each, kept_at, shared
from tests.oracles.tools import Room, remember, rows_of

LINES = 18
SHARED, TANK, FIRST = 0, 1, 2  # rows of the bars
THIN = 0.02  # breadth of the mark of the tank's value, as a share of what the bars span


@remember
def tank_row(room: Room) -> int | None:
    return rows_of(room.tanks, "tank", [room.choice["card"]])[0]


@remember
def residents(room: Room) -> list[int | None]:
    """The row of Livestock that each bar shows."""
    here = livestock.drawn_groups(room)
    return ([None] * FIRST + here + [None] * LINES)[:LINES]


@remember
def chosen_row(room: Room) -> pd.Series:
    row = tank_row(room)
    return pd.Series([math.nan if row is None else row + 1.0] * LINES)


@remember
def resident(room: Room) -> pd.Series:
    return pd.Series([math.nan if row is None else row + 1.0 for row in residents(room)], dtype=float)


@remember
def bar(room: Room) -> pd.Series:
    names = ["" if row is None else room.livestock["species"].iloc[row] for row in residents(room)]
    return pd.Series(
        ["All share", f"{room.choice['card']} is kept at" if room.choice["card"] else "", *names[FIRST:]],
        dtype=object,
    )


def value(room: Room, parameter: str) -> float:
    row = tank_row(room)
    return math.nan if row is None else float(kept_at(room, parameter).iloc[row])


def end(room: Room, parameter: str, which: str) -> pd.Series:
    """The shared end, nothing for the tank's own value, then each resident's end."""
    ends, tank = brought(room, parameter, which), tank_row(room)
    found = [math.nan if row is None else float(ends.iloc[row]) for row in residents(room)]
    found[SHARED] = math.nan if tank is None else float(shared(room)[parameter][which].iloc[tank])
    return pd.Series(found, dtype=float)


def only(row: int, number: float) -> pd.Series:
    """A column with one number in it."""
    return pd.Series([number if line == row else math.nan for line in range(LINES)], dtype=float)


def chosen(room: Room, parameter: str) -> pd.Series:
    return pd.Series([value(room, parameter)] * LINES, dtype=float)


def start(room: Room, parameter: str) -> pd.Series:
    """Where the drawn part of a bar begins; at the tank's value for its mark."""
    found = end(room, parameter, "low")
    found[TANK] = value(room, parameter)
    return found


def band(room: Room, parameter: str) -> pd.Series:
    """Breadth of what all share; nothing is drawn where they share nothing."""
    breadth = (end(room, parameter, "high") - end(room, parameter, "low"))[SHARED]
    return only(SHARED, breadth if math.isnan(breadth) else max(0.0, breadth))


def mark(room: Room, parameter: str) -> pd.Series:
    """A thin bar at the tank's value, in keeping with the span of all bars."""
    span = end(room, parameter, "high").max() - end(room, parameter, "low").min()
    thin = 0.0 if math.isnan(span) else THIN * span
    return only(TANK, math.nan if math.isnan(value(room, parameter)) else thin)


def breadth(room: Room, parameter: str) -> pd.Series:
    found = end(room, parameter, "high") - end(room, parameter, "low")
    found[:FIRST] = math.nan
    return found


chosen_temperature, chosen_ph, chosen_gh, chosen_kh = each(chosen)
temperature_from, ph_from, gh_from, kh_from = each(lambda room, p: end(room, p, "low"))
temperature_to, ph_to, gh_to, kh_to = each(lambda room, p: end(room, p, "high"))
temperature_start, ph_start, gh_start, kh_start = each(start)
temperature_shared, ph_shared, gh_shared, kh_shared = each(band)
temperature_tank, ph_tank, gh_tank, kh_tank = each(mark)
temperature_range, ph_range, gh_range, kh_range = each(breadth)
