"""Breeding in short."""

import pandas as pd

from tests.oracles import care_card
from tests.oracles.printed import tell, texts, word
from tests.oracles.tools import Room

LABELS = ("Spawning", "Parents", "Hatching", "Swimming free", "First food")


def label(room: Room) -> pd.Series:
    return texts(LABELS)


def said(room: Room) -> pd.Series:
    at = care_card.chosen(room)
    if at is None:
        return texts([""] * len(LABELS))
    typed = room.species.iloc[at]
    parents = {"yes": "eat eggs or young", "no": "spare their young"}.get(typed["eats_own_eggs"], "unknown")
    hatch, warmth = tell(typed["days_to_hatch"], 1, "days"), tell(typed["hatch_temperature"], 1, "°C")
    swims = tell(typed["days_to_swim"], 1, "days")
    swims += "" if swims == "unknown" else " after that"
    hatch += "" if "unknown" in {hatch, warmth} else f" at {warmth}"
    return texts(
        [
            word(typed["spawning"]),
            parents,
            hatch,
            swims,
            word(typed["first_food"]),
        ]
    )
