"""What the tank on the card gets at each meal."""

import pandas as pd

from tests.oracles import feeding, tank_card
from tests.oracles.printed import listed, names, numbers, tell, texts
from tests.oracles.tools import Room

LINES = 4


def found(room: Room) -> pd.Series:
    return numbers(listed(tank_card.meals(room), LINES))


def food(room: Room) -> pd.Series:
    return names(tank_card.meals(room), LINES, lambda meal: room.feeding["food"].iloc[meal], "foods")


def _said(room: Room, values: pd.Series, unit: str) -> pd.Series:
    told = ["" if meal is None else tell(values.iloc[meal], 3, unit) for meal in listed(tank_card.meals(room), LINES)]
    return texts(["" if text == "unknown" else text for text in told])


def grams(room: Room) -> pd.Series:
    return _said(room, feeding.grams_meal(room), "g")


def measured(room: Room) -> pd.Series:
    told = ["" if meal is None else feeding.measured(room).iloc[meal] for meal in listed(tank_card.meals(room), LINES)]
    return texts(told)
