"""Foods: how fast they go, when to order, what they cost."""

import math

import numpy as np
import pandas as pd

from tests.oracles import feeding, so_far
from tests.oracles.tools import Room, blank, overridden, remember, rows_of, said

EPOCH = pd.Timestamp("1899-12-30")  # day 0
CALENDAR = 10_000  # days, 27 years


def column(room: Room, key: str) -> pd.Series:
    return room.foods[key].reset_index(drop=True)


def lead_days(room: Room) -> float:
    found = room.settings.get("lead_days")
    return math.nan if found is None else float(found)


@remember
def daily_use(room: Room) -> pd.Series:
    """Grams a day of every row of the feeding plan that names the food; rows that are not known add nothing."""
    found = [0.0] * len(room.foods)
    rows = rows_of(room.foods, "food", room.feeding["food"])
    for row, grams in zip(rows, feeding.grams_mean(room), strict=True):
        if row is not None and grams == grams:
            found[row] += grams
    return pd.Series(found, dtype=float).mask(blank(column(room, "food")))


@remember
def days_left(room: Room) -> pd.Series:
    """A food that nobody gets never runs out."""
    return column(room, "stock") / daily_use(room).where(daily_use(room) > 0)


@remember
def order_by(room: Room) -> pd.Series:
    """The last day on which the stock still covers the whole day, less the days an order takes.

    Counted in days as office programs do; a cupboard that lasts for decades needs no date.
    """
    plan_day = float((room.plan_date - EPOCH).days)
    days = days_left(room).where(days_left(room) < CALENDAR)
    return plan_day + np.floor(days.round(6)) - lead_days(room)


@remember
def monthly_cost(room: Room) -> pd.Series:
    price_of_a_gram = column(room, "pack_price") / column(room, "pack_mass")
    return price_of_a_gram * daily_use(room) * room.const["month_days"]


@remember
def protein_dry(room: Room) -> pd.Series:
    return column(room, "protein") / column(room, "dry_matter")


@remember
def unknown_rows(room: Room) -> pd.Series:
    """Rows of the feeding plan that name the food and can't be reckoned."""
    unknown = [0.0] * len(room.foods)
    for row, grams in zip(rows_of(room.foods, "food", room.feeding["food"]), feeding.grams_mean(room), strict=True):
        if row is not None and grams != grams:
            unknown[row] += 1
    return pd.Series(unknown, dtype=float).mask(blank(column(room, "food")))


@remember
def hatched_here(room: Room) -> pd.Series:
    """How many kinds of cysts become this food."""
    rows = rows_of(room.foods, "food", room.hatching["food"])
    many = pd.Series([float(rows.count(row)) for row in range(len(room.foods))], dtype=float)
    return many.mask(blank(column(room, "food")))


@remember
def understated(room: Room) -> pd.Series:
    return unknown_rows(room) > 0


@remember
def none_left(room: Room) -> pd.Series:
    return (column(room, "stock") <= 0) & (daily_use(room) > 0)


@remember
def runs_out(room: Room) -> pd.Series:
    """An order of today would come too late, or just in time; an empty box has its own flag."""
    due = order_by(room) <= (room.plan_date - EPOCH).days
    return (column(room, "stock") > 0) & due


@remember
def cannot_reckon(room: Room) -> pd.Series:
    lacks = blank(column(room, "protein")) | blank(column(room, "dry_matter"))
    return ~blank(column(room, "food")) & lacks


@remember
def more_than_dry(room: Room) -> pd.Series:
    return column(room, "protein") > column(room, "dry_matter")


# In the files of a club.
globals().update(overridden("foods", "protein", "dry_matter", "spoon_mass", "piece_mass", "particle"))


def wanted_names(room: Room) -> list[str]:
    """Each food to order: all gone, or gone before an order comes."""
    rows = zip(room.foods["food"], none_left(room), runs_out(room), days_left(room), strict=True)
    return [
        f"{food}: none left" if gone else f"{food}: lasts {said(days, 0)} days" if soon else ""
        for food, gone, soon, days in rows
    ]


globals().update(so_far.running("foods_wanted", wanted_names))
