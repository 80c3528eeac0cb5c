"""The name over the care card."""

import pandas as pd

from tests.oracles import care_card
from tests.oracles.printed import texts
from tests.oracles.tools import Room


def said(room: Room) -> pd.Series:
    at = care_card.chosen(room)
    return texts(["Choose a species above" if at is None else room.species["species"].iloc[at]])
