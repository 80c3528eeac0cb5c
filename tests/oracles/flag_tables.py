"""The flags of every table, as the oracles raise them, in the order in which Attention lists them."""

import importlib
import math
from typing import NamedTuple

import pandas as pd

from tests.oracles import lists
from tests.oracles.tools import Room, remember

LEVELS = ("act", "watch", "note")
SYMBOLS = dict(zip(LEVELS, "▲◆○", strict=True))
# What is told of each tank and of the room, then lists by which others are reckoned, the rest in the order of the
# sheets; each with the list whose rows it has.
TABLES = {
    "matters": "tanks", "matters_everywhere": "", "tanks": "tanks", "livestock": "livestock", "species": "species", "waters": "waters",
    "foods": "foods", "feeding": "feeding", "hatching": "hatching", "feeds": "feeds", "live_wants": "live_wants", "breeding": "breeding",
    "log": "log", "maintenance": "maintenance", "constants": "", "doses": "doses",
}  # fmt: skip
# A shop's stock list and suppliers come first of the rest; its Livestock has the rows of the stock list.
SHOP_TABLES = {
    **{table: "stock" if table == "livestock" else own for table, own in list(TABLES.items())[:4]},
    "stock": "stock", "suppliers": "suppliers", "ledger": "ledger", **{table: TABLES[table] for table in list(TABLES)[4:]},
}  # fmt: skip
# A club's proposals stand before its foods.
CLUB_TABLES = dict(
    pair
    for table, own in TABLES.items()
    for pair in ([("proposals", "proposals")] if table == "foods" else []) + [(table, own)]
)
# Where what is told of the whole room leads to.
LEADS_TO = ("This week", "Breeding", "Breeding", "Water changes", "Foods", "Feeding", "Comfort")
LABEL = {
    "proposals": "proposed",
    "suppliers": "supplier",
    "species": "species",
    "waters": "water",
    "tanks": "tank",
    "foods": "food",
    "hatching": "cysts",
    "feeds": "feed",
    "doses": "product",
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
        "known_line": "Line of Attention",
        "code": "Article",
        "to_tank": "To tank",
    }
    found = [
        (f"unknown_{link}", "act", f"{names[link]} not known")
        for link in lists.LINKS[table]
        if (table, link) not in lists.OFFERED
    ]
    found.append(("unfinished", "watch", "Row not finished"))
    found.append(("not_read", "watch", "Words instead of a number"))
    if table != "known":  # it holds no number that could be out of bounds
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
            return lists.gone(room, table, key.removeprefix("unknown_"))
        return getattr(lists, key)(room, table)
    reckon = getattr(importlib.import_module(f"tests.oracles.{table}"), key, None)  # a test of its own misses oracles
    return pd.Series(list(reckon(room))).astype(bool) if reckon else pd.Series(dtype=bool)


@remember
def all_raised(room: Room) -> list[Raised]:
    """Every flag: act before watch before note, then sheet by sheet, row by row, column by column."""
    found = []
    for number, table in enumerate(tables(room)):
        for place, (key, level, title) in enumerate([*room.flags[table], *common(table, room.edition)]):
            if (table, key) in room.gathered:
                continue
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
        [float(lists.rows(room, own) if own else _given(room, table)) for table, own in tables(room).items()],
        dtype=float,
    )


def _given(room: Room, table: str) -> int:
    return len(room.constants) if table == "constants" else len(LEADS_TO)


@remember
def labels(room: Room) -> dict[str, list[str]]:
    """How each row of each table is called."""
    found = {table: list(lists.row_label(room, table)) or [""] for table in lists.LABELS if table in tables(room)}
    found |= {
        table: list(getattr(room, own)[LABEL[own]]) or [""]
        for table, own in tables(room).items()
        if table not in found and own
    }
    return found | {"constants": list(room.constants["label"]), "matters_everywhere": ["whole room"] * len(LEADS_TO)}


def leads(room: Room, flag: Raised) -> tuple[str, int]:
    """Sheet and row to which a line leads: of a tank its own row, of the whole room the sheet that tells more."""
    table = list(tables(room))[flag.table]
    if table == "matters_everywhere":
        return LEADS_TO[flag.row], 1
    there = "tanks" if table == "matters" else table
    return room.sheets[there], flag.row + 1 + room.top[there]


def tank_of(room: Room, flag: Raised) -> float:
    """The tank that a line is about, counted from 1; 0 where it is about none or about several."""
    table = list(tables(room))[flag.table]
    if flag.title == "List nearly full":  # it stands in the first row, but is about the list
        return 0.0
    if tables(room)[table] == "tanks":
        return flag.row + 1.0
    if table == "livestock" and room.edition == "shop":
        homes = lists.link_row(room, "stock", "tank")
    elif "tank" not in lists.LINKS.get(table, {}):
        return 0.0
    else:
        homes = lists.link_row(room, table, "tank")
    return 0.0 if flag.row >= len(homes) or math.isnan(homes.iloc[flag.row]) else float(homes.iloc[flag.row])
