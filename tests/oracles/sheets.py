"""The sheets of each edition by what one does there, in the order of the tabs."""

import pandas as pd

from tests.oracles.tools import Oracle

LISTS = (
    "Log",
    "Maintenance",
    "Known",
    "Livestock",
    "Tanks",
    "Waters",
    "Species",
    "Feeding",
    "Foods",
    "Live food",
    "Breeding",
)
DETAILS = ("Stocking", "Overlap", "Tankmates", "Comfort", "Food by tank", "Live food by tank", "Doses by tank")
KEEPER = {
    "answer": ("Attention", "Room", "Tank", "Water changes"),
    "input": LISTS,
    "choice": ("Candidates", "Plan"),
    "printable": ("This week", "Cards"),
    "reference": ("Care card", "Power cut", "Dosing", "Task list", "Constants", "How this workbook thinks", "Sources"),
    "detail": (*DETAILS, "Plan in detail", "All candidates"),
}
LABELS = ("Labels", "Labels A4 24", "Labels A4 8", "Labels Letter 30", "Labels Letter 10")
SHEETS = {
    "keeper": KEEPER,
    "shop": KEEPER
    | {
        "answer": (*KEEPER["answer"], "Room left", "Room by line", "Takings", "Livestock"),
        "input": ("Stock list", "Sales and losses", "Suppliers", *(title for title in LISTS if title != "Livestock")),
        "choice": ("For a buyer",),
        "printable": ("Order", *LABELS, *KEEPER["printable"]),
        "detail": DETAILS,
    },
    "club": KEEPER
    | {
        "guide": ("Guidance",),
        "input": (*LISTS, "Proposals"),
        "choice": ("Candidates", "Compatibility"),
        "detail": (*DETAILS, "All candidates"),
    },
}


def links(role: str) -> dict[str, Oracle]:
    """The links of one list of Start."""

    def link(number: int) -> Oracle:
        return lambda room: pd.Series([f"go to {SHEETS[room.edition][role][number]}"], dtype=object)

    most = max(len(sheets.get(role, ())) for sheets in SHEETS.values())
    return {f"go_{number + 1}": link(number) for number in range(most)}
