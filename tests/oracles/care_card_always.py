"""What always holds of keeping an animal."""

import pandas as pd

from tests.oracles.printed import texts
from tests.oracles.tools import Room


def said(room: Room) -> pd.Series:
    return texts([
        "Check local lists of restricted species before you keep, breed or pass it on; never release it. Illness and medicines: a veterinarian, and the label.",
        "Lengths are total lengths of a typical adult. Planning estimates: watch the animals, they overrule this card.",
    ])  # fmt: skip
