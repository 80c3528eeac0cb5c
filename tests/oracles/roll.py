"""The roll: groups sorted by tank and line with pandas, and everything about a tank so far by growing slices."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pandas as pd

from tests.oracles import cards, comfort, livestock, matters, overlap_detail, tools
from tests.oracles.tools import Room, blank, living, remember

PARAMETERS = ("temperature", "ph", "gh", "kh")
Oracle = Callable[[Room], pd.Series]


@remember
def _homes(room: Room) -> pd.Series:
    """The tank of each group that has one, tank by tank, in the order of the lines within one."""
    homes = livestock.lives_in(room).reset_index(drop=True).dropna()
    return homes.sort_values(kind="stable")


@remember
def _so_far(room: Room) -> list[list[int]]:
    """For each line of the roll, the rows of Livestock in the same tank up to it."""
    homes = _homes(room)
    found: list[list[int]] = []
    for place, row in enumerate(homes.index):
        tank = homes.loc[row]
        found.append([r for r in homes.index[: place + 1] if homes.loc[r] == tank])
    return found


def _column(room: Room, values: list[Any], empty: Any) -> pd.Series:
    """Values down the roll, then blanks: one line for each row of Livestock, however few have a tank."""
    rows = len(room.livestock)
    kind: Any = object if isinstance(empty, str) else float
    return pd.Series(values + [empty] * (rows - len(values)), dtype=kind)


def _numbers(room: Room, values: list[float]) -> pd.Series:
    return _column(room, values, np.nan)


@remember
def group(room: Room) -> pd.Series:
    return _numbers(room, [float(row + 1) for row in _homes(room).index])


@remember
def tank_no(room: Room) -> pd.Series:
    return _numbers(room, [float(tank) for tank in _homes(room)])


@remember
def in_order(room: Room) -> pd.Series:
    return tank_no(room) * 1_000_000 + group(room)


@remember
def same(room: Room) -> pd.Series:
    return _numbers(room, [float(len(rows) > 1) for rows in _so_far(room)])


@remember
def groups(room: Room) -> pd.Series:
    return _numbers(room, [float(len(rows)) for rows in _so_far(room)])


# --- sums, counts and extremes of a slice ---


def summed(of: Oracle) -> Oracle:
    def reckon(room: Room) -> pd.Series:
        values = of(room).astype(float).reset_index(drop=True)
        return _numbers(room, [values.iloc[rows].sum(min_count=1) for rows in _so_far(room)])

    return reckon


def counted(test: Callable[[Room], Any]) -> Oracle:
    def reckon(room: Room) -> pd.Series:
        passed = np.asarray(test(room), dtype=bool)
        return _numbers(room, [float(passed[rows].sum()) for rows in _so_far(room)])

    return reckon


def who(test: Callable[[Room], Any], place: int) -> Oracle:
    """Species of the first (or with -1 the last) group that passes."""

    def reckon(room: Room) -> pd.Series:
        passed, names = np.asarray(test(room), dtype=bool), room.livestock["species"].tolist()
        found = [[names[row] for row in rows if passed[row]] for rows in _so_far(room)]
        return _column(room, [some[place] if some else "" for some in found], "")

    return reckon


def extreme(of: Oracle, *, least: bool = False) -> tuple[Oracle, Oracle]:
    """Greatest or least so far, and the species of the first group that has it."""

    def best(room: Room) -> list[tuple[float, str]]:
        values, names = of(room).astype(float).tolist(), room.livestock["species"].tolist()
        found = []
        for rows in _so_far(room):
            known = [row for row in rows if values[row] == values[row]]
            top = (min if least else max)(known, key=lambda row: values[row]) if known else None
            found.append((np.nan, "") if top is None else (values[top], names[top]))
        return found

    def value(room: Room) -> pd.Series:
        return _numbers(room, [number for number, _ in best(room)])

    def name(room: Room) -> pd.Series:
        return _column(room, [text for _, text in best(room)], "")

    return value, name


def of_species(column: str) -> Oracle:
    return lambda room: livestock.of_species(room, room.species[column]).astype(float)


def habit(column: str, word: str) -> Callable[[Room], Any]:
    return lambda room: tools.same(livestock.of_species(room, room.species[column]), word) & (living(room) > 0)


def end(parameter: str, which: str) -> Oracle:
    return lambda room: overlap_detail.brought(room, parameter, which)


def both_known(parameter: str) -> Callable[[Room], Any]:
    return lambda room: ~(blank(end(parameter, "low")(room)) | blank(end(parameter, "high")(room)))


in_quarantine = counted(lambda room: livestock.waiting(room) == 1)
small_groups = counted(lambda room: livestock.small_group_no(room) == 1)
weighed = counted(lambda room: livestock.mass(room).notna())
animals = summed(living)
mass, oxygen_draw, food, nitrogen, body_length, scaled_length, bottom_wanted = map(
    summed,
    (
        livestock.mass,
        livestock.oxygen_draw,
        livestock.food,
        livestock.nitrogen,
        livestock.body_length,
        livestock.scaled_length,
        livestock.bottom_wanted,
    ),
)
draw_later, nitrogen_later, draw_grown, nitrogen_grown = map(
    summed, (livestock.draw_later, livestock.nitrogen_later, livestock.draw_grown, livestock.nitrogen_grown)
)
length_wanted, _ = extreme(livestock.length_wanted)
volume_wanted, _ = extreme(of_species("volume_min"))
mouthful_max, mouthful_who = extreme(livestock.mouthful)
victim_min, victim_who = extreme(livestock.victim_length, least=True)
temper_max, temper_who = extreme(livestock.temper_counted)
mouth_min, mouth_who = extreme(of_species("food_size"), least=True)
biters = counted(habit("bites_fins", "yes"))
first_biter, last_biter = who(habit("bites_fins", "yes"), 0), who(habit("bites_fins", "yes"), -1)
shrimp_hunters, shrimp_hunter = counted(habit("eats_shrimp", "yes")), who(habit("eats_shrimp", "yes"), 0)
young_eaters, young_eater = counted(habit("eats_shrimp", "young")), who(habit("eats_shrimp", "young"), 0)
snail_eaters, snail_eater = counted(habit("eats_snails", "yes")), who(habit("eats_snails", "yes"), 0)
bottom_dwellers = counted(lambda room: livestock.bottom_wanted(room) > 0)
first_bottom, last_bottom = (who(lambda room: livestock.bottom_wanted(room) > 0, place) for place in (0, -1))


def wants(thing: str, choice: str) -> Callable[[Room], Any]:
    """Whether a group's species likes this choice."""
    return lambda room: tools.same(livestock.of_species(room, room.species[thing]), choice)


def names(test: Callable[[Room], Any]) -> Oracle:
    """The first ten that pass, as people list them."""

    def reckon(room: Room) -> pd.Series:
        passed, species = np.asarray(test(room), dtype=bool), room.livestock["species"].tolist()
        found = [[species[row] for row in rows if passed[row]][: comfort.MOST_NAMES] for rows in _so_far(room)]
        return _column(room, [", ".join(some) for some in found], "")

    return reckon


for _thing, _choices in comfort.CHOICES.items():
    for _choice in _choices:
        _key = f"{_thing}_{_choice.replace(' ', '_')}"
        globals()[f"{_key}_groups"] = counted(wants(_thing, _choice))
        globals()[_key] = names(wants(_thing, _choice))
for _parameter in PARAMETERS:
    for _end, _least in (("low", False), ("high", True)):
        _value, _name = extreme(end(_parameter, _end), least=_least)
        globals()[f"{_parameter}_{_end}"], globals()[f"{_parameter}_{_end}_by"] = _value, _name
    globals()[f"{_parameter}_known"] = counted(both_known(_parameter))


def kept(room: Room) -> pd.Series:
    return _column(room, [", ".join(cards.animal_words(room, row) for row in rows) for rows in _so_far(room)], "")


def _told(what: str, which: int = 0) -> dict[str, Oracle]:
    """How many groups of the tank so far something is said of, and for all of it which ones and why."""

    def rows(room: Room) -> list[list[int]]:
        is_wrong = matters.wrong(room, what, which)
        return [[row for row in few if is_wrong[row]] for few in _so_far(room)]

    def count(room: Room) -> pd.Series:
        return _numbers(room, [float(len(few)) for few in rows(room)])

    def words(room: Room) -> pd.Series:
        return _column(room, [matters.listed(room, what, few) for few in rows(room)], "")

    return {f"{what}_now": count} if which else {f"{what}_groups": count, what: words}


for _what in ("company", "size", "quarantine", "temper"):
    globals().update(_told(_what) | _told(_what, 1))
