"""What is due next in the tank on the card."""

import pandas as pd

from tests.oracles import maintenance, tank_card
from tests.oracles.printed import listed, names, numbers, tell
from tests.oracles.tools import Room, through

LINES = 4


def found(room: Room) -> pd.Series:
    return numbers(listed(tank_card.duties(room), LINES))


def place(room: Room) -> pd.Series:
    return through(maintenance.in_tank(room), listed(tank_card.duties(room), LINES))


def task(room: Room) -> pd.Series:
    """With how late it is."""

    def told(duty: int) -> str:
        late = maintenance.days_late(room).iloc[duty]
        return (f"{tell(late, 0, 'days')} late: " if late > 0 else "") + str(room.maintenance["task"].iloc[duty])

    return names(tank_card.duties(room), LINES, told, "tasks")
