"""In which tanks the species on the card is kept, and with whom."""

import pandas as pd

from tests.oracles import cards, care_card, livestock
from tests.oracles.printed import listed, names, numbers, texts
from tests.oracles.tools import Room, through

LINES = 5


def found(room: Room) -> pd.Series:
    return numbers(listed(care_card.kept(room), LINES))


def tank(room: Room) -> pd.Series:
    return names(care_card.kept(room), LINES, lambda group: room.livestock["tank"].iloc[group], "groups")


def home(room: Room) -> pd.Series:
    return through(livestock.lives_in(room), listed(care_card.kept(room), LINES))


def company(room: Room) -> list[str]:
    """Of each group listed, its tank and all who live there."""
    where = livestock.lives_in(room).reset_index(drop=True)
    everyone = [
        (room.livestock["tank"].iloc[g], cards.who(room).iloc[int(where[g]) - 1])
        for g in care_card.kept(room)[: LINES - 1]
    ]
    return [f"{name}: {who}" if who else "" for name, who in everyone]


def all(room: Room) -> pd.Series:  # noqa: A001
    told = company(room)
    return texts(["¦".join(filter(None, told[: line + 1])) for line in range(LINES)])
