"""The newest readings of the tank in view."""

import pandas as pd

from tests.oracles import log, readings, tank_card
from tests.oracles.printed import tell, texts
from tests.oracles.tools import Room

LABELS = ("Temperature", "pH", "GH", "KH", "Ammonia", "Nitrite", "Nitrate")
# Places after the point, and the unit.
SAID = ((1, "°C"), (2, ""), (1, "°dH"), (1, "°dH"), (2, "mg/L"), (2, "mg/L"), (0, "mg/L"))


def name(room: Room) -> pd.Series:
    return texts(LABELS)


def told(room: Room) -> pd.Series:
    if tank_card.chosen(room) is None:
        return texts([""] * len(LABELS))
    values = (tank_card.of_tank(room, readings.value_of(key)(room)) for key in log.READINGS)
    return texts([tell(value, *how) for value, how in zip(values, SAID, strict=True)])


def on(room: Room) -> pd.Series:
    days = [tank_card.of_tank(room, readings.day_of(key)(room)) for key in log.READINGS]
    return texts(["" if pd.isna(day) else tell(day) for day in days])
