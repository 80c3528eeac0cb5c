"""Breeding in short."""

import pandas as pd

from tests.oracles import care_card
from tests.oracles.printed import tell, texts, word
from tests.oracles.tools import Room

LABELS = ("Spawning", "Parents", "Days to hatch", "To swim free", "First food")


def label(room: Room) -> pd.Series:
    return texts(LABELS)


def said(room: Room) -> pd.Series:
    at = care_card.chosen(room)
    if at is None:
        return texts([""] * len(LABELS))
    typed = room.species.iloc[at]
    parents = {"yes": "eat eggs or young", "no": "spare their young"}.get(typed["eats_own_eggs"], "unknown")
    hatch, warmth = tell(typed["days_to_hatch"], 1), tell(typed["hatch_temperature"], 1, "°C")
    hatch += "" if "unknown" in {hatch, warmth} else f" at {warmth}"
    return texts(
        [
            word(typed["spawning"]),
            parents,
            hatch,
            tell(typed["days_to_swim"], 1),
            word(typed["first_food"]),
        ]
    )
