"""Links to the sheets, in their order."""

import pandas as pd

from tests.oracles.tools import Oracle, Room

SHEETS = ("Attention", "Room", "Species", "Waters", "Tanks", "Livestock", "Overlap", "Stocking", "Tankmates", "Comfort", "Candidates", "All candidates", "Foods", "Feeding", "Food by tank", "Live food", "Live food by tank", "Breeding", "Log", "Water changes", "Known", "Maintenance",
          "This week", "Power cut", "Tank card", "Cards", "Care card", "Task list", "How this workbook thinks", "Constants", "Sources")  # fmt: skip
SHOP_SHEETS = (
    "Attention", "Room", "Stock list", "Suppliers", "Tanks", "Waters", "Species", "Livestock", "Overlap", "Stocking", "Tankmates", "Comfort", "Room left", "Room by line", "For a buyer", "Order", "Labels",
    "Labels A4 24", "Labels A4 8", "Labels Letter 30", "Labels Letter 10", "Foods", "Feeding", "Food by tank", "Live food", "Live food by tank", "Breeding", "Log", "Water changes", "Known", "Maintenance", "This week", "Power cut", "Tank card", "Cards",
    "Care card", "Task list", "How this workbook thinks", "Constants", "Sources",
)  # fmt: skip
CLUB_SHEETS = (
    "Attention", "Room", "Guidance", "Species", "Waters", "Tanks", "Livestock", "Overlap", "Stocking", "Tankmates", "Comfort", "Candidates", "All candidates", "Compatibility", "Proposals", "Foods", "Feeding", "Food by tank", "Live food", "Live food by tank", "Breeding", "Log",
    "Water changes", "Known", "Maintenance", "This week", "Power cut", "Tank card", "Cards", "Care card", "Task list", "How this workbook thinks", "Constants", "Sources",
)  # fmt: skip


def _link(number: int) -> Oracle:
    def told(room: Room) -> pd.Series:
        return pd.Series([f"go to {EDITIONS[room.edition][number]}"], dtype=object)

    return told


EDITIONS = {"keeper": SHEETS, "shop": SHOP_SHEETS, "club": CLUB_SHEETS}
globals().update({f"go_{number + 1}": _link(number) for number in range(max(map(len, EDITIONS.values())))})
