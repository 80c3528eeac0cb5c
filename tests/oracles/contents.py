"""Links to the sheets, in their order."""

import pandas as pd

from tests.oracles.tools import Oracle, Room

SHEETS = ("Attention", "Species", "Waters", "Tanks", "Livestock", "Overlap", "Stocking", "Tankmates", "Comfort", "Candidates", "Foods", "Feeding", "Live food", "Breeding", "Log", "Water changes", "Maintenance",
          "This week", "Power cut", "Tank card", "Cards", "Care card", "Task list", "Constants", "Sources")  # fmt: skip
SHOP_SHEETS = (
    "Attention", "Stock list", "Suppliers", "Tanks", "Waters", "Species", "Livestock", "Overlap", "Stocking", "Tankmates", "Comfort", "Room left", "Room by line", "For a buyer", "Order", "Labels",
    "Labels A4 24", "Labels A4 8", "Labels Letter 30", "Labels Letter 10", "Foods", "Feeding", "Live food", "Breeding", "Log", "Water changes", "Maintenance", "This week", "Power cut", "Tank card", "Cards",
    "Care card", "Task list", "Constants", "Sources",
)  # fmt: skip


def _link(number: int) -> Oracle:
    def told(room: Room) -> pd.Series:
        sheets = SHOP_SHEETS if room.edition == "shop" else SHEETS
        return pd.Series([f"go to {sheets[number]}"], dtype=object)

    return told


globals().update({f"go_{number + 1}": _link(number) for number in range(max(len(SHEETS), len(SHOP_SHEETS)))})
