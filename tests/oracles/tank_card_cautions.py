"""What always holds where hands go into a tank."""

import pandas as pd

from tests.oracles.printed import texts
from tests.oracles.tools import Room


def said(room: Room) -> pd.Series:
    return texts([
        "Electricity: residual-current (ground-fault) protection, drip loops; unplug before hands go in. Heavy when filled: never move it with water in.",
        "Gloves and covered cuts, never start a siphon by mouth, wash hands afterwards. Chemicals and medicines: by their label and a veterinarian.",
        "Never release animals, plants or water. Figures are planning estimates: test the water and watch the animals.",
    ])  # fmt: skip
