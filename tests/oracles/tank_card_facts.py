"""What stands about the tank itself."""

import pandas as pd

from tests.oracles import tank_card, tanks
from tests.oracles.printed import tell, texts, word
from tests.oracles.tools import Room

LABELS = ("Measures", "Water and works", "Note")


def label(room: Room) -> pd.Series:
    return texts(LABELS)


def said(room: Room) -> pd.Series:
    at = tank_card.chosen(room)
    if at is None:
        return texts([""] * len(LABELS))
    typed = room.tanks.iloc[at]
    sides = [tell(typed[side], 1, "cm") for side in ("length", "width", "height") if typed[side] == typed[side]]
    size, mass = " × ".join(sides) or "size unknown", tell(tanks.filled_mass(room).iloc[at], 0, "kg")
    heater = tell(tanks.heater_size(room).iloc[at], 0, "W")
    return texts([
        f"{size}, {word(typed['shape'])}; filled mass {mass}",
        f"filled from {word(typed['water'])}; filter {tell(typed['filter_flow'], 0, 'L/h')}; heater {heater}",
        typed["tank_note"],
    ])  # fmt: skip
