"""How sure the values are."""

import pandas as pd

from tests.oracles import care_card, species
from tests.oracles.printed import texts, word
from tests.oracles.tools import Room

LABELS = ("Size", "Water", "Keeping", "Breeding", "Which counts")


def label(room: Room) -> pd.Series:
    return texts(LABELS)


def said(room: Room) -> pd.Series:
    at = care_card.chosen(room)
    if at is None:
        return texts([""] * len(LABELS))
    typed = room.species.iloc[at]
    counts = species.counts_used(room).iloc[at]
    return texts(
        [
            word(text)
            for text in (*(typed[f"confidence_{part}"] for part in ("size", "water", "keeping", "breeding")), counts)
        ]
    )
