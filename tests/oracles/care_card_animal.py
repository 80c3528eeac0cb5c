"""What stands about the animal."""

import math

import pandas as pd

from tests.oracles import care_card
from tests.oracles.printed import tell, texts, word
from tests.oracles.tools import Room

LABELS = ("Scientific", "Adult length", "Lives", "Group", "Tank volume", "Tank length", "Swims", "Temper")


def label(room: Room) -> pd.Series:
    return texts(LABELS)


def _life(low: float, high: float) -> str:
    if math.isnan(high):
        return "unknown" if math.isnan(low) else f"at least {low:g} years"
    return f"up to {high:g} years" if math.isnan(low) else f"{low:g} to {high:g} years"


def _group(least: float, best: float) -> str:
    known = [
        words
        for words, value in ((f"at least {tell(least)}", least), (f"best {tell(best)}", best))
        if not math.isnan(value)
    ]
    return ", ".join(known) or "unknown"


def said(room: Room) -> pd.Series:
    at = care_card.chosen(room)
    if at is None:
        return texts([""] * len(LABELS))
    typed = room.species.iloc[at]
    length, temper = tell(typed["length_min"], 0, "cm"), tell(typed["temper"])
    return texts([
        word(typed["scientific"]), tell(typed["adult_length"], 1, "cm"), _life(typed["lifespan_low"], typed["lifespan_high"]),
        _group(typed["group_min"], typed["group_best"]), "unknown" if math.isnan(typed["volume_min"]) else f"{tell(typed['volume_min'], 0, 'L')} or more",
        "see Livestock" if length == "unknown" else f"{length} or more", word(", ".join(typed[key] for key in ("zone", "swim") if typed[key])),
        "unknown" if temper == "unknown" else f"{temper} (1 gentle to 5 hostile)",
    ])  # fmt: skip
