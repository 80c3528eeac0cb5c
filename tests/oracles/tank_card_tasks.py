"""What is due next in the tank on the card."""

import pandas as pd

from tests.oracles import maintenance, tank_card
from tests.oracles.printed import listed, names, numbers
from tests.oracles.tools import Room, through

LINES = 6


def found(room: Room) -> pd.Series:
    return numbers(listed(tank_card.duties(room), LINES))


def place(room: Room) -> pd.Series:
    return through(maintenance.in_tank(room), listed(tank_card.duties(room), LINES))


def task(room: Room) -> pd.Series:
    return names(tank_card.duties(room), LINES, lambda duty: room.maintenance["task"].iloc[duty], "tasks")
