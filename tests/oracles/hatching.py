"""Cysts: how long they take and last, what one gram gives, what is wrong with the water they hatch in."""

import math

import numpy as np
import pandas as pd

from tests.oracles import feeds, foods
from tests.oracles.tools import Room, blank, folded, remember, rows_of, said

# FAO Fisheries Technical Paper 361 as given in the domain notes, and where hatching stops for certain.
LIMITS = {
    "temperature": ("temperature", 15, 33, " °C (59 to 91 °F)"),
    "salinity": ("salt", 5, 35, " g/L"),
    "ph": ("pH", 7, 10, ""),
    "density": ("cysts", 0.1, 5, " g/L"),
}


def typed(room: Room, key: str) -> pd.Series:
    return room.hatching[key].reset_index(drop=True)


def _used(key: str, const: str):
    def reckon(room: Room) -> pd.Series:
        return typed(room, key).fillna(room.const[const]).mask(blank(typed(room, "cysts")))

    return reckon


def again(room: Room) -> pd.Series:
    return typed(room, "cysts").fillna("")


per_gram_used = _used("per_gram", "cysts_per_gram")
hatched_used = _used("hatched", "hatched_share")
harvested_used = _used("harvested", "harvested_share")
oldest_used = _used("oldest", "nauplius_oldest")
salinity_used = _used("salinity", "brine_salinity")
density_used = _used("density", "cyst_density")


@remember
def yield_gram(room: Room) -> pd.Series:
    return per_gram_used(room) * hatched_used(room) * harvested_used(room)


@remember
def hatch_hours(room: Room) -> pd.Series:
    """The speed of hatching grows in a straight line from a rest at zero."""
    c = room.const
    warmth = typed(room, "temperature") - c["brine_zero"]
    degree_hours = c["brine_hatch_hours"] * (c["brine_hatch_temperature"] - c["brine_zero"])
    return degree_hours / warmth.where(warmth > 0)


def _of_feeds(room: Room, values: pd.Series) -> pd.Series:
    found = [0.0] * len(room.hatching)
    for row, value in zip(rows_of(room.hatching, "cysts", room.feeds["cysts"]), values, strict=True):
        if row is not None and value == value:
            found[row] += value
    return pd.Series(found, dtype=float).mask(blank(typed(room, "cysts")))


@remember
def cysts_day(room: Room) -> pd.Series:
    return _of_feeds(room, feeds.cysts_to_set(room))


@remember
def vessels_wanted(room: Room) -> pd.Series:
    return _of_feeds(room, feeds.vessels_taken(room))


@remember
def days_left(room: Room) -> pd.Series:
    return typed(room, "stock") / cysts_day(room).where(cysts_day(room) > 0)


@remember
def order_by(room: Room) -> pd.Series:
    days = days_left(room).where(days_left(room) < foods.CALENDAR)
    return float((room.plan_date - foods.EPOCH).days) + np.floor(days.round(6)) - foods.lead_days(room)


@remember
def density_most(room: Room) -> pd.Series:
    vessel, c = typed(room, "vessel"), room.const
    small = vessel < c["vessel_large"]
    return small.map({True: c["cyst_density_most"], False: c["cyst_density"]}).astype(float).where(vessel.notna())


@remember
def beyond(room: Room) -> pd.Series:
    found = []
    for row in range(len(room.hatching)):
        values = {key: typed(room, key)[row] for key in LIMITS}
        found.append(
            ", ".join(
                f"{word} from {low} to {high}{unit}"
                for key, (word, low, high, unit) in LIMITS.items()
                if values[key] < low or values[key] > high
            )
        )
    return pd.Series(found, dtype=object)


@remember
def not_best(room: Room) -> pd.Series:
    c, found = room.const, []
    for name, warm, ph, salt in zip(
        typed(room, "cysts"), typed(room, "temperature"), typed(room, "ph"), salinity_used(room), strict=True
    ):
        texts = []
        if warm < c["brine_temperature_low"] or warm > c["brine_temperature_high"]:
            texts.append(
                f"temperature {said(c['brine_temperature_low'], 6)} °C to {said(c['brine_temperature_high'], 6)} °C"
            )
        if ph < c["brine_ph_low"] or ph > c["brine_ph_high"]:
            texts.append(f"pH {said(c['brine_ph_low'], 6)} to {said(c['brine_ph_high'], 6)}")
        if salt < c["brine_salinity_low"]:
            texts.append(f"salt from {said(c['brine_salinity_low'])} g/L")
        found.append(", ".join(texts) if name else "")
    return pd.Series(found, dtype=object)


def no_hatch(room: Room) -> pd.Series:
    return ~blank(beyond(room))


def slow_hatch(room: Room) -> pd.Series:
    return ~blank(not_best(room)) & blank(beyond(room))


def crowded(room: Room) -> pd.Series:
    return density_used(room) > density_most(room)


def few_vessels(room: Room) -> pd.Series:
    return vessels_wanted(room) > typed(room, "vessels")


def none_left(room: Room) -> pd.Series:
    return (typed(room, "stock") <= 0) & (cysts_day(room) > 0)


def runs_out(room: Room) -> pd.Series:
    return (typed(room, "stock") > 0) & (order_by(room) <= float((room.plan_date - foods.EPOCH).days))


def food_rows(room: Room) -> list[int | None]:
    """Which food each kind of cysts becomes."""
    return rows_of(room.foods, "food", typed(room, "food"))


def hatched_foods(room: Room) -> list[float]:
    """How many kinds of cysts become each food."""
    rows = food_rows(room)
    return [float(rows.count(row)) if name else math.nan for row, name in enumerate(folded(room.foods["food"]))]
