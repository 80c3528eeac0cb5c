"""What every list that people type has in common: running numbers, rows of links, and four flags."""

import math

import pandas as pd

from tests.oracles.tools import Room, folded, rows_of

LINKS = {
    "species": {"body_form": "body_forms"},
    "waters": {"first_water": "waters", "second_water": "waters"},
    "tanks": {"water": "waters"},
    "livestock": {"tank": "tanks", "species": "species"},
    "foods": {},
    "feeding": {"tank": "tanks", "food": "foods"},
    "maintenance": {"task": "tasks", "tank": "tanks"},
    "log": {"tank": "tanks", "task": "tasks"},
}
# Names that are only offered: any other text is as good.
OFFERED = {("maintenance", "task")}
ALSO = {("maintenance", "tank"): "all"}
NAMES = {
    "species": "species",
    "waters": "water",
    "tanks": "tank",
    "foods": "food",
    "body_forms": "form",
    "tasks": "task",
}
FIRST = NAMES | {"livestock": "tank", "feeding": "tank", "maintenance": "task", "log": "tank"}
WANTED = {
    "species": ["species"],
    "waters": ["water"],
    "tanks": ["tank"],
    "livestock": ["tank", "species", "animals"],
    "foods": ["food"],
    "feeding": ["tank", "food", "share"],
    "maintenance": ["task", "tank"],
    "log": ["date", "tank"],
}
LABELS = {
    "livestock": ("tank", "species"),
    "feeding": ("tank", "food"),
    "maintenance": ("task", "tank"),
    "log": ("tank", "date"),
}
BETWEEN = ": "
# Lists that grow fastest have more ready rows than the others.
READY = {"livestock": 2, "feeding": 2, "log": 10}


def rows(room: Room, table: str) -> int:
    """How many rows a list has, the ready ones with it."""
    return max(2, len(getattr(room, table)) + math.ceil(room.spare_rows * READY.get(table, 1)))


def _said(values: pd.Series) -> pd.Series:
    return values.notna() & (values.astype(object) != "")


def link_row(room: Room, table: str, link: str) -> pd.Series:
    """Which row a link leads to, counted from 1; blank when nowhere."""
    target = LINKS[table][link]
    found = rows_of(getattr(room, target), NAMES[target], getattr(room, table)[link])
    return pd.Series([math.nan if row is None else row + 1.0 for row in found], dtype=float)


def unknown(room: Room, table: str, link: str) -> pd.Series:
    """A link that leads nowhere, unless it is a word that means something of its own."""
    typed = getattr(room, table)[link]
    allowed = [name == ALSO.get((table, link), "\0") for name in folded(typed)]
    return _said(typed) & link_row(room, table, link).isna() & ~pd.Series(allowed, dtype=bool)


def unfinished(room: Room, table: str) -> pd.Series:
    """A row in which some, but not all of the cells that are wanted hold something."""
    filled = pd.DataFrame({key: _said(getattr(room, table)[key]) for key in WANTED[table]}, dtype=bool)
    return (filled.any(axis=1) & ~filled.all(axis=1)).astype(bool)


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
    pairs = ((_word(a), _word(b)) for a, b in zip(frame[first], frame[second], strict=True))
    return pd.Series([a + (BETWEEN + b if b else "") for a, b in pairs], dtype=object)


def _word(value: str | pd.Timestamp) -> str:
    """A date is written as in all sentences of the workbook."""
    return value if isinstance(value, str) else "" if pd.isna(value) else value.strftime("%Y-%m-%d")
