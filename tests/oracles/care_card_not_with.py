"""Whom it harms, and who harms it."""

import pandas as pd

from tests.oracles import care_card
from tests.oracles.printed import tell, texts
from tests.oracles.tools import Room

LABELS = ("Small animals", "Gentler kinds", "Long fins", "Its own fins", "Shrimp", "Snails")


def label(room: Room) -> pd.Series:
    return texts(LABELS)


def said(room: Room) -> pd.Series:
    at = care_card.chosen(room)
    if at is None:
        return texts([""] * len(LABELS))
    typed = room.species.iloc[at]
    mouthful, gentle = care_card.swallows(room)[0], care_card.gentlest(room)[0]
    small, kinder = "unknown", "unknown"
    if mouthful == mouthful:
        small = f"swallows under {tell(mouthful, 1, 'cm')}" if mouthful else "swallows nothing whole"
    if gentle == gentle:
        kinder = (
            "fits the gentlest"
            if gentle < 1
            else f"not with temper {tell(gentle, 9)}" + (" or gentler" if gentle > 1 else "")
        )
    alone = "leaves them alone"
    words = (("bites_fins", {"yes": "bites them", "no": alone}), ("long_fins", {"yes": "long: no fin biters", "no": "not long"}),
             ("eats_shrimp", {"yes": "hunts grown ones", "young": "takes their young", "no": alone}), ("eats_snails", {"yes": "eats them", "no": alone}))  # fmt: skip
    return texts([small, kinder, *(told.get(typed[key], "unknown") for key, told in words)])
