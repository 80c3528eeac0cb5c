"""What the tank on the card gets at each meal."""

import pandas as pd

from tests.oracles import feeding, tank_card
from tests.oracles.printed import listed, names, numbers, sentences, tell, texts
from tests.oracles.tools import Oracle, Room

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


def _of_food(room: Room, meal: int, level: int) -> list[str]:
    """What is said of a row of the feeding plan, with the food's name behind the sign."""
    name, sign = str(room.feeding["food"].iloc[meal]), "▲◆○"[level] + " "
    return [text.replace(sign, f"{sign}{name}: ") for text in sentences(room, "feeding", meal, level)]


def said_of(room: Room, level: int) -> list[str]:
    """All that is said of those that are listed."""
    return [text for meal in tank_card.meals(room)[: LINES - 1] for text in _of_food(room, meal, level)]


def _so_far(level: int) -> Oracle:
    def reckon(room: Room) -> pd.Series:
        said = [[] if meal is None else _of_food(room, meal, level) for meal in listed(tank_card.meals(room), LINES)]
        return texts(["¦".join(text for some in said[: line + 1] for text in some) for line in range(LINES)])

    return reckon


all_act, all_watch, all_note = (_so_far(level) for level in range(3))
