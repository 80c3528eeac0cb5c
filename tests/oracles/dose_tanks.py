"""What each of the first products makes for every tank: the dose goes with the water."""

import pandas as pd

from tests.oracles import dose_lines, tanks, week_tanks
from tests.oracles.printed import tell
from tests.oracles.tools import Room


def _listed(room: Room, litres: float, into: str) -> str:
    found = []
    keys = (dose_lines.product, dose_lines.dose, dose_lines.dose_unit, dose_lines.stated_for, dose_lines.dose_into)
    for name, dose, unit, stated_for, goes in zip(*(of(room) for of in keys), strict=True):
        amount = dose * litres / stated_for
        if amount == amount and str(goes).casefold() == into:
            found.append(f"{tell(amount, 2, '')} {unit} {name}")
    return " + ".join(found)


def into_change(room: Room) -> pd.Series:
    return pd.Series([_listed(room, litres, "each change") for litres in week_tanks.litres(room)], dtype=object)


def into_all(room: Room) -> pd.Series:
    return pd.Series([_listed(room, litres, "all the water") for litres in tanks.net_volume(room)], dtype=object)
