"""Whom it harms, and who harms it."""

import pandas as pd

from tests.oracles import care_card
from tests.oracles.printed import texts, word
from tests.oracles.tools import Room

LABELS = ("Small animals", "Gentler kinds", "Long fins", "Its own fins", "Shrimp", "Snails")


def label(room: Room) -> pd.Series:
    return texts(LABELS)


def said(room: Room) -> pd.Series:
    at = care_card.chosen(room)
    if at is None:
        return texts([""] * len(LABELS))
    typed = room.species.iloc[at]
    small, kinder = (word(told[0]) for told in (care_card.small_ones(room), care_card.gentle_ones(room)))
    alone = "leaves them alone"
    words = (("bites_fins", {"yes": "bites them", "no": alone}), ("long_fins", {"yes": "long: no fin biters", "no": "not long"}),
             ("eats_shrimp", {"yes": "hunts grown ones", "young": "takes their young", "no": alone}), ("eats_snails", {"yes": "eats them", "no": alone}))  # fmt: skip
    return texts([small, kinder, *(told.get(typed[key], "unknown") for key, told in words)])
