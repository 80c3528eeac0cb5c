"""What always holds where hands go into a tank."""

import pandas as pd

from tests.oracles.printed import texts
from tests.oracles.tools import Room


def said(room: Room) -> pd.Series:
    return texts([
        "Residual-current (ground-fault) protection, drip loops; unplug before hands go in. Never move a filled tank. Gloves and covered cuts, no siphon by mouth, wash hands.",
        "Chemicals and medicines by their label and a veterinarian. Never release animals, plants or water. Planning estimates: test the water, watch the animals.",
    ])  # fmt: skip
