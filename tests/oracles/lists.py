"""What every list that people type has in common: running numbers, rows of links, and four flags."""

import importlib
import math
import re

import pandas as pd

from tests.oracles.tools import Room, folded, remember, rows_of
from tests.oracles.typed_cells import RULES

LINKS = {
    "species": {"body_form": "body_forms"},
    "waters": {"first_water": "waters", "second_water": "waters"},
    "tanks": {"water": "waters"},
    "livestock": {"tank": "tanks", "species": "species"},
    "foods": {},
    "feeding": {"tank": "tanks", "food": "foods"},
    "hatching": {"food": "foods"},
    "feeds": {"cysts": "hatching"},
    "live_wants": {"tank": "tanks"},
    "breeding": {"species": "species", "tank": "tanks", "grow_tank": "tanks"},
    "maintenance": {"task": "tasks", "tank": "tanks"},
    "log": {"tank": "tanks", "task": "tasks", "species": "species"},
    "stock": {"species": "species", "tank": "tanks", "supplier": "suppliers"},
    "ledger": {"code": "stock", "to_tank": "tanks"},
    "suppliers": {},
    "proposals": {"body_form": "body_forms"},
    "known": {"known_line": "open_lines"},
    "doses": {},
}
# Dropdowns on sheets of answers; nothing else of a list is there.
PICKED = {
    "compared": {"species": "species"},
    "plan_lines": {"species": "species", "from_tank": "tanks", "to_tank": "tanks"},
    "plan_values": {"tank": "tanks", "water": "waters"},
}
# Names that are only offered: any other text is as good.
OFFERED = {("maintenance", "task"), ("known", "known_line")}
ALSO = {("maintenance", "tank"): "all"}
NAMES = {
    "stock": "code",
    "suppliers": "supplier",
    "species": "species",
    "waters": "water",
    "tanks": "tank",
    "foods": "food",
    "body_forms": "form",
    "tasks": "task",
    "hatching": "cysts",
    "feeds": "feed",
    "proposals": "proposed",
    "doses": "product",
    "open_lines": "name",
}
FIRST = NAMES | {
    "livestock": "tank",
    "feeding": "tank",
    "maintenance": "task",
    "log": "tank",
    "live_wants": "tank",
    "breeding": "species",
    "known": "known_line",
    "ledger": "date",
}
WANTED = {
    "species": ["species"],
    "waters": ["water"],
    "tanks": ["tank"],
    "livestock": ["tank", "species", "animals"],
    "foods": ["food"],
    "feeding": ["tank", "food", "share"],
    "hatching": ["cysts", "temperature"],
    "feeds": ["feed", "hour", "share", "cysts"],
    "live_wants": ["tank", "nauplii"],
    "breeding": ["species", "tank", "date"],
    "maintenance": ["task", "tank"],
    "log": ["date", "tank"],
    "stock": ["code", "on_hand"],
    "ledger": ["date", "code", "event", "pieces"],
    "suppliers": ["supplier"],
    "proposals": ["proposed"],
    "known": ["known_line", "until", "no_worse", "reason"],
    "doses": ["product", "dose_kind"],
}
LABELS = {
    "livestock": ("tank", "species"),
    "feeding": ("tank", "food"),
    "maintenance": ("task", "tank"),
    "live_wants": ("tank", "live_note"),
    "breeding": ("species", "date"),
    "log": ("tank", "date"),
    "ledger": ("date", "code"),
    "stock": ("code", "name"),
}
BETWEEN = ": "
# Lists that grow fastest have more ready rows than the others.
READY = {"livestock": 2, "feeding": 2, "log": 16, "ledger": 8, "suppliers": 0.25}


def rows(room: Room, table: str) -> int:
    """How many rows a list has, the ready ones with it."""
    ready = READY.get(table, 1)
    if table == "log":  # a year of entries, one each time that water is to be changed; forty ready rows are usual
        days = room.tanks["change_interval"]
        ready = max(ready, min(2000.0, (365 / days.where(days >= 1, 7.0)).sum()) / 40)
    return max(2, len(getattr(room, table)) + math.ceil(round(room.spare_rows * ready, 6)))


def _said(values: pd.Series) -> pd.Series:
    return values.notna() & (values.astype(object) != "")


def link_row(room: Room, table: str, link: str) -> pd.Series:
    """Which row a link leads to, counted from 1; blank when nowhere."""
    target = (LINKS | PICKED)[table][link]
    found = rows_of(offered(room, target), NAMES[target], getattr(room, table)[link])
    return pd.Series([math.nan if row is None else row + 1.0 for row in found], dtype=float)


def offered(room: Room, target: str) -> pd.DataFrame:
    """The list whose names a dropdown offers: one that people type, or the lines of Attention."""
    if target == "open_lines":
        return pd.DataFrame({"name": importlib.import_module("tests.oracles.open_lines").name(room)})
    frame: pd.DataFrame = getattr(room, target)
    return frame


def unknown(room: Room, table: str, link: str) -> pd.Series:
    """A link that leads nowhere, unless it is a word that means something of its own."""
    typed = getattr(room, table)[link]
    allowed = [name == ALSO.get((table, link), "\0") for name in folded(typed)]
    return _said(typed) & link_row(room, table, link).isna() & ~pd.Series(allowed, dtype=bool)


def _names_of(room: Room, target: str) -> list[tuple[str, str]]:
    """Every column of a list of the room's edition whose names lead to another, in the order of their names."""
    found = [
        (table, link)
        for table, links in LINKS.items()
        for link, to in links.items()
        if to == target and (table, link) not in OFFERED and len(getattr(room, table, ()))
        and (room.edition, table) != ("shop", "livestock")
    ]  # fmt: skip
    return sorted(found)


def holding(room: Room, table: str, link: str) -> list[dict[str, int]]:
    """Of each row, in how many rows of each list its name stands."""
    columns = _names_of(room, LINKS[table][link])
    found = []
    for name in folded(getattr(room, table)[link]):
        many: dict[str, int] = {}
        for other, key in columns:
            many[other] = many.get(other, 0) + folded(getattr(room, other)[key]).count(name)
        found.append({other: n for other, n in many.items() if n})
    return found


def gone(room: Room, table: str, link: str) -> pd.Series:
    """A name that leads nowhere is told in the first row that holds it, list by list in the order of their names."""
    columns, names = _names_of(room, LINKS[table][link]), folded(getattr(room, table)[link])
    before = {
        name for other, key in columns if (other, key) < (table, link) for name in folded(getattr(room, other)[key])
    }
    first = [name not in before and names.index(name) == row for row, name in enumerate(names)]
    return unknown(room, table, link) & pd.Series(first, dtype=bool)


def unfinished(room: Room, table: str) -> pd.Series:
    """A row in which some, but not all of the cells that are wanted hold something."""
    filled = pd.DataFrame({key: _said(getattr(room, table)[key]) for key in WANTED[table]}, dtype=bool)
    return (filled.any(axis=1) & ~filled.all(axis=1)).astype(bool)


def not_read(room: Room, table: str) -> pd.Series:
    """Words where a number belongs: what is read from plain files never holds any."""
    words = getattr(room, "words", {}).get(table, {})
    return pd.Series([row in words for row in range(len(getattr(room, table)))], dtype=bool)


# Readings that no water has are told by a flag of the Log itself.
SENSELESS = {"log": {"temperature", "ph", "gh", "kh", "ammonia", "nitrite", "nitrate"}}
ENDS = re.compile(r"(?:whole )?(-?[\d.]+)\.\.(-?[\d.]+)")


@remember
def outside(room: Room, table: str) -> list[list[str]]:
    """Of each row the cells whose number is less or more than they take; a member's own beside the club's."""
    found: list[list[str]] = [[] for _ in range(len(getattr(room, table)))]
    for rule, keys in RULES[table].items():
        if not (ends := ENDS.match(rule)):
            continue
        for key in (key for key in keys.split() if key not in SENSELESS.get(table, ())):
            handed = room.handed.get(table, pd.DataFrame())
            cells = {key: getattr(room, table).get(key)} if f"own_{key}" not in handed else {
                name: handed[name] for name in (f"club_{key}", f"own_{key}")
            }  # fmt: skip
            for name, values in cells.items():
                numbers = pd.to_numeric(pd.Series(values, dtype=object), errors="coerce")
                wrong = (numbers < float(ends[1])) | (numbers > float(ends[2]))
                for row in wrong[wrong].index:
                    found[int(row)].append(name)
    return found


def out_of_bounds(room: Room, table: str) -> pd.Series:
    """A number that its cell would have refused: pasting, and a folder drawn at random, go round that."""
    return pd.Series([bool(keys) for keys in outside(room, table)], dtype=bool)


# Nothing of what a club hands out is missing in a fresh workbook.
def handed_gone(room: Room, table: str) -> pd.Series:
    return pd.Series(False, index=range(len(getattr(room, table))), dtype=bool)


def formulas_gone(room: Room, table: str) -> pd.Series:
    """Nobody typed over a formula in a fresh workbook."""
    return pd.Series(False, index=range(len(getattr(room, table))), dtype=bool)


workings_gone = formulas_gone


def twice(room: Room, table: str) -> pd.Series:
    """A name that stands in several rows of its list; capitals do not tell names apart."""
    names = pd.Series(folded(getattr(room, table)[NAMES[table]]), dtype=object)
    return names.duplicated(keep=False) & (names != "")


def nearly_full(room: Room, table: str) -> pd.Series:
    """Few ready rows left: said once, in the first row, even if nothing is typed there yet."""
    names = getattr(room, table)[FIRST[table]]
    free = rows(room, table) - int(_said(names).sum())
    few = free < room.const["rows_left"]
    return pd.Series([few] + [False] * (len(names) - 1), dtype=bool)


def row_label(room: Room, table: str) -> pd.Series:
    """How Attention names a row that has no single name."""
    first, second = LABELS[table]
    frame = getattr(room, table)
    if table == "stock":  # a line is called what it is, once it has a code
        what = zip(frame["code"], frame["species"], frame["goods"], strict=True)
        frame = frame.assign(name=[(species or goods) if code else "" for code, species, goods in what])
    pairs = ((_word(a), _word(b)) for a, b in zip(frame[first], frame[second], strict=True))
    return pd.Series([BETWEEN.join(word for word in (a, b) if word) for a, b in pairs], dtype=object)


def _word(value: str | pd.Timestamp) -> str:
    """A date is written as in all sentences of the workbook."""
    return value if isinstance(value, str) else "" if pd.isna(value) else value.strftime("%Y-%m-%d")
