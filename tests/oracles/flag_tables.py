"""The flags of every table, as the oracles raise them, in the order in which Attention lists them."""

import importlib
from typing import NamedTuple

import pandas as pd

from tests.oracles import lists
from tests.oracles.tools import Room, remember

LEVELS = ("act", "watch", "note")
SYMBOLS = dict(zip(LEVELS, "▲◆○", strict=True))
# First what can kill soonest, the rest in the order of the sheets; each with the list whose rows it has.
TABLES = {
    "readings": "tanks", "stocking": "tanks", "changes": "tanks", "tanks": "tanks", "livestock": "livestock", "overlap": "tanks",
    "species": "species", "waters": "waters", "comfort": "tanks", "foods": "foods", "feeding": "feeding", "feeding_tanks": "tanks",
    "hatching": "hatching", "feeds": "feeds", "live_wants": "live_wants", "live_tanks": "tanks", "breeding": "breeding", "log": "log",
    "maintenance": "maintenance", "constants": "",
}  # fmt: skip
# A shop's stock list and suppliers come first of the rest; its Livestock has the rows of the stock list.
SHOP_TABLES = {
    **{table: "stock" if table == "livestock" else own for table, own in list(TABLES.items())[:6]},
    "stock": "stock", "suppliers": "suppliers", **{table: TABLES[table] for table in ("waters", "species", *list(TABLES)[8:])},
}  # fmt: skip
# A club's proposals stand before its foods.
CLUB_TABLES = dict(
    pair
    for table, own in TABLES.items()
    for pair in ([("proposals", "proposals")] if table == "foods" else []) + [(table, own)]
)
LABEL = {
    "proposals": "proposed",
    "suppliers": "supplier",
    "species": "species",
    "waters": "water",
    "tanks": "tank",
    "foods": "food",
    "hatching": "cysts",
    "feeds": "feed",
}


class Raised(NamedTuple):
    """One flag of one row; the order of the fields is the order of the list."""

    level: int
    table: int
    row: int
    flag: int
    key: str
    title: str


def tables(room: Room) -> dict[str, str]:
    """The flagged tables of the room's edition."""
    return {"shop": SHOP_TABLES, "club": CLUB_TABLES}.get(room.edition, TABLES)


def common(table: str, edition: str = "keeper") -> list[tuple[str, str, str]]:
    """The flags that every list has besides its own; a shop's Livestock is no list."""
    if table not in lists.LINKS or (edition, table) == ("shop", "livestock"):
        return []
    names = {
        "tank": {"breeding": "Tank it happened in", "stock": "Display tank"}.get(table, "Tank"),
        "supplier": "Supplier",
        "grow_tank": "Growing-on tank",
        "cysts": "Cysts",
        "species": "Species",
        "food": "Food it becomes" if table == "hatching" else "Food",
        "water": "Water it is filled with",
        "first_water": "First water",
        "second_water": "Second water",
        "body_form": "Body form",
        "task": "Task done",
    }
    found = [
        (f"unknown_{link}", "act", f"{names[link]} not known")
        for link in lists.LINKS[table]
        if (table, link) not in lists.OFFERED
    ]
    found.append(("unfinished", "watch", "Row not finished"))
    found.append(("not_read", "watch", "Words instead of a number"))
    found.append(("out_of_bounds", "watch", "Number that can't be"))
    found += [("formulas_gone", "watch", "Formulas gone"), ("workings_gone", "act", "Workings gone")]
    if edition == "club" and table in {"species", "foods"}:
        found.append(("handed_gone", "note", "Handed-out cells cleared"))
    if table in lists.NAMES:
        found.append(("twice", "act", "Name used twice"))
    return [*found, ("nearly_full", "note", "List nearly full")]


@remember
def verdict(room: Room, table: str, key: str) -> pd.Series:
    """In which rows a flag is raised."""
    if key in {name for name, *_ in common(table, room.edition)}:
        if key.startswith("unknown_"):
            return lists.unknown(room, table, key.removeprefix("unknown_"))
        return getattr(lists, key)(room, table)
    reckon = getattr(importlib.import_module(f"tests.oracles.{table}"), key, None)  # a test of its own misses oracles
    return reckon(room).astype(bool) if reckon else pd.Series(dtype=bool)


@remember
def all_raised(room: Room) -> list[Raised]:
    """Every flag: act before watch before note, then sheet by sheet, row by row, column by column."""
    found = []
    for number, table in enumerate(tables(room)):
        for place, (key, level, title) in enumerate([*room.flags[table], *common(table, room.edition)]):
            raised = verdict(room, table, key)
            found += [
                Raised(LEVELS.index(level), number, row, place, key, title) for row, is_so in enumerate(raised) if is_so
            ]
    return sorted(found)


def count(room: Room, table: int, *levels: int) -> float:
    """How many flags of these levels a table raises."""
    return float(sum(r.table == table and r.level in levels for r in all_raised(room)))


def _up_to(room: Room, *levels: int) -> pd.Series:
    return pd.Series([count(room, number, *levels) for number in range(len(tables(room)))], dtype=float)


def act_to(room: Room) -> pd.Series:
    """The running number goes on from act to watch to note."""
    return _up_to(room, 0)


def watch_to(room: Room) -> pd.Series:
    return _up_to(room, 0, 1)


def note_to(room: Room) -> pd.Series:
    return _up_to(room, 0, 1, 2)


def rows(room: Room) -> pd.Series:
    return pd.Series(
        [float(lists.rows(room, own) if own else len(room.constants)) for own in tables(room).values()], dtype=float
    )


@remember
def labels(room: Room) -> dict[str, list[str]]:
    """How each row of each table is called."""
    found = {table: list(lists.row_label(room, table)) or [""] for table in lists.LABELS if table in tables(room)}
    found |= {
        table: list(getattr(room, own)[LABEL[own]]) or [""]
        for table, own in tables(room).items()
        if table not in found and own
    }
    return found | {"constants": list(room.constants["label"])}
