"""What is told of the whole room in one line for each cause."""

import pandas as pd

from tests.oracles import breeding, changes, comfort, feeding, foods, maintenance, next_change
from tests.oracles.tools import Room

MOST, ALSO = 10, "; also "
NAMES = {
    "tasks": (lambda room: [*maintenance.late_names(room), *next_change.late_names(room)], "This week"),
    "broods": (breeding.waiting_names, "Breeding"),
    "rearing": (breeding.rearing_names, "Breeding"),
    "cold_water": (changes.cold_names, "Water changes"),
    "foods": (foods.wanted_names, "Foods"),
    "coarse": (feeding.coarse_names, "Feeding"),
    "comfort": (comfort.unlike_names, "Comfort"),
}


def place(room: Room) -> pd.Series:
    return pd.Series(["whole room"] * len(NAMES), dtype=object)


def cause(room: Room) -> pd.Series:
    return pd.Series(list(NAMES), dtype=object)


def leads_to(room: Room) -> pd.Series:
    return pd.Series([sheet for _, sheet in NAMES.values()], dtype=object)


def _named(room: Room) -> list[list[str]]:
    return [[name for name in names(room) if name] for names, _ in NAMES.values()]


def many(room: Room) -> pd.Series:
    return pd.Series([float(len(names)) for names in _named(room)])


def which(room: Room) -> pd.Series:
    return pd.Series(
        [
            ALSO.join(names[:MOST]) + (f"{ALSO}{len(names) - MOST} more" if len(names) > MOST else "")
            for names in _named(room)
        ],
        dtype=object,
    )


def _raised(key: str):  # type: ignore[no-untyped-def]
    line = list(NAMES).index(key)
    return lambda room: pd.Series([i == line and bool(many(room)[line]) for i in range(len(NAMES))], dtype=bool)


for _key in NAMES:
    globals()[_key] = _raised(_key)
