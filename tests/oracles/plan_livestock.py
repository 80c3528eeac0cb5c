"""Groups as they would live: see planned.py; and what comes to speak against them, or ceases to."""

import math

import pandas as pd

from tests.oracles import livestock, planned
from tests.oracles.tools import Room
from tests.oracles.words import saying

ROWS = planned.GROUPS + planned.LINES
__getattr__ = planned.asked_about("livestock", ROWS)
CLASHES = (
    "eaten", "clash_of_temper", "fins", "shrimp_hunted", "tiny_tank", "small_tank", "short_tank", "small_group", "gap_of_temper", "snails_hunted", "shrimp_young",
)  # fmt: skip
# As Attention puts what is to be done: most serious first.
BY_LEVEL = ("eaten", "clash_of_temper", "fins", "shrimp_hunted", "tiny_tank", "small_tank", "short_tank", "small_group", "gap_of_temper", "snails_hunted", "shrimp_young")  # fmt: skip
MEND = " → Choose another tank, or bring the water slowly into its range."

old_tank_row, species_row, brought, taken, above_it = (
    planned.old_tank_row, planned.species_row, planned.brought, planned.taken, planned.above_it,
)  # fmt: skip


def entry(room: Room) -> list[float]:
    return [math.nan] * planned.GROUPS + [line + 1.0 for line in range(planned.LINES)]


def group(room: Room) -> list[float]:
    return planned.group(room)


def tank_row(room: Room) -> list[float]:
    places = {row: at + 1.0 for at, row in enumerate(planned.touched(room))}
    return [places.get(row, math.nan) for row in planned.old_tank_row(room)]


def species(room: Room) -> list[str]:
    return list(planned.room_then(room).livestock["species"])


def one(room: Room) -> list[float]:
    return [1.0] * ROWS


def pair_there(room: Room) -> pd.Series:
    return planned.old_tank_row(room) + planned.species_row(room) / 1e6


def living(room: Room) -> pd.Series:
    return planned.room_then(room).livestock["animals"]


def base_row(room: Room) -> list[float]:
    return [*planned.group(room)[: planned.GROUPS], *[math.nan] * planned.LINES]


def _lives(then: Room, row: int) -> bool:
    number = livestock.lives_in(then)[row]
    return number == number and number != ""


def outside_then(room: Room) -> list[str]:
    then = planned.room_then(room)
    words = list(livestock.outside(then))
    return [words[row] if _lives(then, row) else "" for row in range(ROWS)]


def outside_now(room: Room) -> list[str]:
    words = list(livestock.outside(room))
    return ["" if at != at or not _lives(room, int(at) - 1) else words[int(at) - 1] for at in base_row(room)]


def _sentences(room: Room, of: Room) -> dict[str, list[str]]:
    found = {}
    for key in CLASHES:
        says, raised = saying.of("livestock", key), [bool(one) for one in getattr(livestock, key)(of)]
        found[key] = says.texts(of, raised, room.units)
    return found


def _water(words: str, room: Room) -> str:
    return f"◆ Outside its water: {words}{MEND}"


def new_company(room: Room) -> list[str]:
    then, now = _sentences(room, planned.room_then(room)), _sentences(room, room)
    found = []
    for row, at in enumerate(base_row(room)):
        told = [then[key][row] for key in BY_LEVEL if then[key][row] and (at != at or not now[key][int(at) - 1])]
        found.append("¦".join(told))
    return found


def new_water(room: Room) -> list[str]:
    pairs = zip(outside_then(room), outside_now(room), strict=True)
    return [_water(then, room) if then and then != now else "" for then, now in pairs]


def new(room: Room) -> list[str]:
    both = zip(new_company(room), new_water(room), strict=True)
    return ["¦".join(filter(None, parts)) for parts in both]


def gone(room: Room) -> list[str]:
    then, now = _sentences(room, planned.room_then(room)), _sentences(room, room)
    water = zip(outside_then(room), outside_now(room), strict=True)
    found = []
    for row, (at, (wet, dry)) in enumerate(zip(base_row(room), water, strict=True)):
        if at != at:
            found.append("")
            continue
        told = [now[key][int(at) - 1] for key in CLASHES if now[key][int(at) - 1] and not then[key][row]]
        found.append("¦".join([*told, *([_water(dry, room)] if dry and not wet else [])]))
    return found


def _many(text: str) -> int:
    return len(text.split("¦")) if text else 0


def new_count(room: Room) -> list[float]:
    return [float(_many(text)) for text in new(room)]


def told_run(room: Room) -> list[float]:
    each = [_many(a) + _many(b) for a, b in zip(new(room), gone(room), strict=True)]
    return [float(sum(each[: at + 1])) for at in range(ROWS)]
