"""What stands about the tank itself."""

import pandas as pd

from tests.oracles import tank_card, tanks
from tests.oracles.printed import tell, texts, word
from tests.oracles.tools import Room

LABELS = ("Stands", "Shape", "Size", "Net volume", "Set to", "Filled from", "Filter", "Heater", "Filled mass")


def label(room: Room) -> pd.Series:
    return texts(LABELS)


def said(room: Room) -> pd.Series:
    at = tank_card.chosen(room)
    if at is None:
        return texts([""] * len(LABELS))
    typed = room.tanks.iloc[at]
    sides = [tell(typed[side], 1, "cm") for side in ("length", "width", "height") if typed[side] == typed[side]]
    return texts([
        word(typed["place"]), word(typed["shape"]), " × ".join(sides) or "unknown", tell(tanks.net_volume(room).iloc[at], 1, "L"), tell(typed["temperature"], 1, "°C"),
        word(typed["water"]), tell(typed["filter_flow"], 0, "L/h"), tell(tanks.heater_size(room).iloc[at], 0, "W"), tell(tanks.filled_mass(room).iloc[at], 0, "kg"),
    ])  # fmt: skip
