"""The feeding plan: grams and spoons of each food at each meal, recomputed from the tank's ration."""

import math

import pandas as pd

from tests.oracles import company, feeding_tanks, foods, lists, so_far
from tests.oracles.printed import tell
from tests.oracles.tools import Room, blank, lookup, remember, rounded, rows_of


def _of_tank(room: Room, wanted: str | pd.Series) -> pd.Series:
    return lookup(room.tanks, "tank", room.feeding["tank"], wanted)


def _of_food(room: Room, wanted: str | pd.Series) -> pd.Series:
    return lookup(room.foods, "food", room.feeding["food"], wanted)


@remember
def dry(room: Room) -> pd.Series:
    return _of_tank(room, feeding_tanks.ration(room)) * room.feeding["share"]


@remember
def as_fed(room: Room) -> pd.Series:
    return dry(room) / _of_food(room, "dry_matter")


@remember
def grams_meal(room: Room) -> pd.Series:
    return as_fed(room) / _of_tank(room, "meals")


@remember
def pieces_meal(room: Room) -> pd.Series:
    return grams_meal(room) / _of_food(room, "piece_mass")


def _quarters(room: Room, number: float) -> float:
    part = room.const["measured_part"]
    return float(rounded(round(number / part, 9))) * part


@remember
def in_pieces(room: Room) -> pd.Series:
    part, found = room.const["measured_part"], []
    for number, name in zip(pieces_meal(room), _of_food(room, "piece"), strict=True):
        if number != number or not isinstance(name, str) or not name or part != part:
            found.append("")
        elif number < part:
            found.append(f"less than {tell(part, 2, '')} {name}")
        else:
            count = _quarters(room, number)
            many = "" if count <= 1 else "es" if name.casefold() == "pinch" else "s"
            found.append(f"{tell(count, 2, '')} {name}{many}")
    return pd.Series(found, dtype=object)


@remember
def in_spoons(room: Room) -> pd.Series:
    part, found = room.const["measured_part"], []
    for number in spoons_meal(room):
        if number != number or not number >= part:
            found.append("")
        else:
            count = _quarters(room, number)
            found.append(f"{tell(count, 2, '')} teaspoon{'s' if count > 1 else ''}")
    return pd.Series(found, dtype=object)


@remember
def measured(room: Room) -> pd.Series:
    return in_pieces(room).where(in_pieces(room) != "", in_spoons(room))


@remember
def spoons_meal(room: Room) -> pd.Series:
    return grams_meal(room) / _of_food(room, "spoon_mass")


@remember
def grams_mean(room: Room) -> pd.Series:
    fed_days = 7 - _of_tank(room, "fasting_days")
    return as_fed(room) * fed_days / 7


@remember
def cost(room: Room) -> pd.Series:
    packs_a_day = grams_mean(room) / _of_food(room, "pack_mass")
    return packs_a_day * _of_food(room, "pack_price") * room.const["month_days"]


@remember
def protein_counted(room: Room) -> pd.Series:
    known = _of_food(room, foods.protein_dry(room)).fillna(room.const["protein_default"])
    return known.mask(blank(room.feeding["food"]))


@remember
def protein_part(room: Room) -> pd.Series:
    return room.feeding["share"] * protein_counted(room)


@remember
def hatched_row(room: Room) -> pd.Series:
    """The tank, where the food is hatched here."""
    homes = rows_of(room.tanks, "tank", room.feeding["tank"])
    hatched = _of_food(room, foods.hatched_here(room)) > 0
    rows = [home + 1.0 if is_so and home is not None else math.nan for is_so, home in zip(hatched, homes, strict=True)]
    return pd.Series(rows, dtype=float)


def too_coarse(room: Room) -> pd.Series:
    finest, who = _of_tank(room, company.mouth_min(room)), _of_tank(room, company.mouth_who(room))
    return (room.feeding["share"] > 0) & (_of_food(room, "particle") > finest) & ~blank(who)


def in_tank(room: Room) -> pd.Series:
    """By tank, then by row; a million leaves room for every row."""
    to = pd.Series(rows_of(room.tanks, "tank", room.feeding["tank"]), dtype=float) + 1
    return 1e6 * to + pd.RangeIndex(1, len(to) + 1).to_series(index=to.index)


def coarse_names(room: Room) -> list[str]:
    """Each food of a tank that is too coarse for somebody there, and for whom."""
    rows = zip(lists.row_label(room, "feeding"), too_coarse(room), _of_tank(room, company.mouth_who(room)), strict=True)
    return [f"{label} for {who}" if is_so else "" for label, is_so, who in rows]


globals().update(so_far.running("coarse_foods", coarse_names))
