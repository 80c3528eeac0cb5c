"""Who lives in the tank on the card, and what is said of them."""

import pandas as pd

from tests.oracles import tank_card
from tests.oracles.printed import listed, names, numbers, of_animal, texts
from tests.oracles.tools import Oracle, Room

LINES = 13


def found(room: Room) -> pd.Series:
    return numbers(listed(tank_card.residents(room), LINES))


def species(room: Room) -> pd.Series:
    return names(tank_card.residents(room), LINES, lambda group: room.livestock["species"].iloc[group], "groups")


def said_of(room: Room, level: int) -> list[str]:
    """All that is said of those who are listed."""
    return [text for group in tank_card.residents(room)[: LINES - 1] for text in of_animal(room, group, level)]


def _so_far(level: int) -> Oracle:
    def reckon(room: Room) -> pd.Series:
        rows = listed(tank_card.residents(room), LINES)
        said = [[] if group is None else of_animal(room, group, level) for group in rows]
        return texts(["¦".join(text for some in said[: line + 1] for text in some) for line in range(LINES)])

    return reckon


all_act, all_watch, all_note = (_so_far(level) for level in range(3))
