"""What stands about the animal."""

import pandas as pd

from tests.oracles import care_card
from tests.oracles.printed import tell, texts, word
from tests.oracles.tools import Room

LABELS = ("Scientific", "Adult length", "Lives", "Group", "Tank volume", "Tank length", "Swims", "Temper")


def label(room: Room) -> pd.Series:
    return texts(LABELS)


def said(room: Room) -> pd.Series:
    at = care_card.chosen(room)
    if at is None:
        return texts([""] * len(LABELS))
    typed = room.species.iloc[at]
    length, temper = tell(typed["length_min"], 0, "cm"), tell(typed["temper"])
    return texts([
        word(typed["scientific"]), tell(typed["adult_length"], 1, "cm"), f"{tell(typed['lifespan_low'], 1)} to {tell(typed['lifespan_high'], 1)} years",
        f"at least {tell(typed['group_min'])}, best {tell(typed['group_best'])}", f"{tell(typed['volume_min'], 0, 'L')} or more",
        "see Livestock" if length == "unknown" else f"{length} or more", f"{word(typed['zone'])}, {word(typed['swim'])}", f"{temper} (1 gentle to 5 hostile)",
    ])  # fmt: skip
