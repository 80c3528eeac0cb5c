"""What a new user does one after the other, and how far it has come."""

import pandas as pd

from tests.oracles.tools import Oracle, Room

BEFORE = ("Waters", "Tanks")
CARE = ("Feeding", "Foods", "Maintenance", "Log")
KEEPER = (*BEFORE, "Livestock", "Attention", "Stocking", "Candidates", *CARE)
ORDER = {
    "keeper": KEEPER,
    "shop": (*BEFORE, "Suppliers", "Stock list", "Attention", "Order", "Labels", "For a buyer", *CARE),
    "club": ("Guidance", *KEEPER, "Compatibility", "Proposals"),
}


def _filled(room: Room) -> dict[str, bool]:
    """The sheets on which one types at first, and whether anything stands there."""
    lists = {
        "Waters": room.waters["water"],
        "Tanks": room.tanks["tank"],
        "Livestock": room.livestock["tank"],
        "Feeding": room.feeding["tank"],
        "Maintenance": room.maintenance["task"],
        "Log": room.log["tank"],
    }
    if room.edition == "shop":
        lists |= {"Stock list": room.stock["code"], "Suppliers": room.suppliers["supplier"]}
    some = {sheet: bool((names != "").any()) for sheet, names in lists.items()}
    return some | {"Foods": bool(room.foods["stock"].notna().any())}


def empty(room: Room) -> list[str]:
    """Where nothing stands yet."""
    filled = _filled(room)
    return [sheet for sheet in ORDER[room.edition] if not filled.get(sheet, True)]


def _step(number: int) -> Oracle:
    def told(room: Room) -> pd.Series:
        sheet, filled, lacking = ORDER[room.edition][number], _filled(room), empty(room)
        open_before = [other for other in ORDER[room.edition][:number] if other in lacking]
        if filled.get(sheet):
            words = "done: "
        elif open_before:
            words = "later: "
        else:
            words = "next: go to " if sheet in filled else "look: go to "
        return pd.Series([words + sheet], dtype=object)

    return told


globals().update({f"step_{number + 1}": _step(number) for number in range(max(map(len, ORDER.values())))})
