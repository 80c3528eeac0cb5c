"""The place it likes, and its food."""

import pandas as pd

from tests.oracles import care_card
from tests.oracles.printed import tell, texts, word
from tests.oracles.tools import Room

LABELS = ("Light", "Cover", "Ground", "Background", "Flow", "Eats", "Food up to", "Plants")


def label(room: Room) -> pd.Series:
    return texts(LABELS)


def said(room: Room) -> pd.Series:
    at = care_card.chosen(room)
    if at is None:
        return texts([""] * len(LABELS))
    typed = room.species.iloc[at]
    plants = {"yes": "eats them", "no": "leaves them alone"}.get(typed["eats_plants"], "unknown")
    liked = [word(typed[key]) for key in ("light", "cover", "ground", "background", "flow", "diet")]
    return texts([*liked, tell(typed["food_size"], 2, "mm"), plants])
