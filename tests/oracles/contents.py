"""Links to the sheets, in their order."""

import pandas as pd

from tests.oracles.tools import Oracle, Room

SHEETS = ("Attention", "Species", "Waters", "Tanks", "Livestock", "Overlap", "Stocking", "Tankmates", "Comfort", "Candidates", "Foods", "Feeding", "Live food", "Breeding", "Log", "Water changes", "Maintenance",
          "This week", "Power cut", "Tank card", "Cards", "Care card", "Task list", "Constants", "Sources")  # fmt: skip


def _link(title: str) -> Oracle:
    def told(room: Room) -> pd.Series:
        return pd.Series([f"go to {title}"], dtype=object)

    return told


globals().update({f"go_{number}": _link(title) for number, title in enumerate(SHEETS, 1)})
