"""Conflicts: cells on which copies do not agree, as rows of a table of their own, and the decisions typed beside them."""

import datetime
import json
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field

from workbook.copies import words
from workbook.copies.content import Entry
from workbook.copies.identity import BLANK, TYPED, Held, Line, Plain, Spot, Unread, cells
from workbook.tables.columns import Typed
from workbook.tables.kinds import Value
from workbook.tables.table import Table

TABLE, BASE, TAKE = "conflicts", "base", "take"
ROW = Spot("row", "")
SHEET = Spot("sheet", "")
LINES = Spot("lines", "")  # two new rows of one name, whole
KEEP, REMOVE = "keep", "remove"
BOTH = "keep both"
PLACE = ("table_key", "row_key", "nth", "part", "column_key")


@dataclass(frozen=True)
class Side:
    """What some copies hold; where: the cell in which one of them has it, with its file."""

    held: Held
    names: tuple[str, ...]
    where: str = field(default="", compare=False)

    @property
    def whose(self) -> str:
        """The copies that hold it; the base when there are none."""
        return ", ".join(self.names) or BASE


@dataclass(frozen=True)
class Conflict:
    """A cell, or a row, on which copies do not agree.

    row: what its row is known by; nth: which of several of that name. spot: its cell; ROW: whether the row stays;
    LINES: which of several new rows of one name it is, or all of them, the others under names of their own.
    undecided the table holds what the base holds. decisions: what people typed, side by side with the versions.
    """

    table: str
    row: tuple[str, ...]
    nth: int
    spot: Spot
    base: Held
    sides: tuple[Side, ...]
    row_words: str = ""
    decisions: tuple[tuple[str, str], ...] = ()

    @property
    def place(self) -> tuple[str, tuple[str, ...], int, Spot]:
        """Where it lies, whatever is said about it."""
        return self.table, self.row, self.nth, self.spot


def said(conflict: Conflict, table: Table, system: str) -> str:
    """One line: where it is, who says what, and which decisions typed there don't decide it."""
    versions = (Side(conflict.base, ()), *conflict.sides)
    sides = (
        f"or {BOTH}" if side.held == BOTH else f"{side.whose}: {value(conflict, side.held, table, system)}"
        for side in versions
    )
    return f"{_where(conflict, table)}: {'; '.join(sides)}" + "".join(f" ({why})" for why in _in_vain(conflict))


def undecided(conflict: Conflict, table: Table) -> str:
    """One line about a point in which what was typed as a decision does not decide; nothing where none was typed."""
    why = "; ".join(_in_vain(conflict))
    return f"still to decide: {_where(conflict, table)}: {why}" if why else ""


def _where(conflict: Conflict, table: Table) -> str:
    return f"{table.title}, {conflict.row_words}, {label(conflict.spot, table)}"


def _in_vain(conflict: Conflict) -> Iterator[str]:
    """Why decisions that are left after all others were carried out don't decide."""
    texts = list(dict.fromkeys(text for _, text in conflict.decisions))
    if len(texts) > 1:
        yield f"the decisions {' and '.join(repr(text) for text in texts)} differ"
    elif texts and conflict.spot in {ROW, SHEET, LINES}:
        yield f"the decision {texts[0]!r} names no version"
    elif texts:
        yield f"the decision {texts[0]!r} names no version; type another value into the table itself, and base here"


def label(spot: Spot, table: Table) -> str:
    """What the copies do not agree on."""
    return {ROW: "the row", SHEET: "the sheet", LINES: "the new row"}.get(spot) or words.column(table, spot)


def column_of(conflict: Conflict, table: Table) -> Typed | None:
    """The declared column that it is about."""
    return next((c for c in table.typed if conflict.spot == (TYPED, c.key)), None)


def value(conflict: Conflict, held: Held, table: Table, system: str) -> str:
    """One version in words."""
    if conflict.spot == ROW:
        return "removed" if held == REMOVE else "kept"
    if conflict.spot == SHEET:
        return "removed" if held is None else f"as on the sheet '{held}'"
    if conflict.spot == LINES:
        return _line(held, table, system)
    return words.value(held, column_of(conflict, table), system)


def _line(held: Held, table: Table, system: str) -> str:
    """What differs in one of several new rows of a name."""
    if held == BOTH:
        return f"all of them, each but the first under a {label(Spot(TYPED, table.row_name[0]), table)} of its own"
    if not isinstance(held, Line):
        return "none"
    typed = {column.key: column for column in table.typed}
    found = (f"{words.column(table, s)} {words.value(h, typed.get(s.name) if s.part == TYPED else None, system)}"
             for s, h in held.cells)  # fmt: skip
    return ", ".join(found)


def as_rows(conflict: Conflict, table: Table, system: str) -> list[Entry]:
    """The rows of the Conflicts sheet that tell of it: one for each version."""
    wrote = dict(conflict.decisions)
    found = []
    for side in (Side(conflict.base, ()), *conflict.sides):
        whose, (sort, text) = side.whose, stored(side.held)
        row: dict[str, Value] = {
            "where": table.title, "row": conflict.row_words, "column": label(conflict.spot, table), "whose": whose,
            "says": value(conflict, side.held, table, system), "stands": side.where, "decision": wrote.get(whose, ""),
            "table_key": conflict.table, "row_key": as_text(conflict.row), "nth": conflict.nth,
            "part": conflict.spot.part, "column_key": conflict.spot.name, "names": as_text(side.names),
            "sort": sort, "value": text,
        }  # fmt: skip
        found.append(Entry({key: told for key, told in row.items() if told != ""}))
    return found


def as_text(parts: tuple[str, ...]) -> str:
    """Several texts in one cell."""
    return json.dumps(parts, ensure_ascii=False)


def stored(held: Held) -> Plain:
    """A value as text, with its sort; words in quotes, so that they never look like a formula."""
    if held is None:
        return BLANK
    if isinstance(held, Unread):
        return "unread", json.dumps([held.text, held.where] if held.where else held.text, ensure_ascii=False)
    if isinstance(held, Line):
        return "line", json.dumps([[*spot, *stored(one)] for spot, one in held.cells], ensure_ascii=False)
    if isinstance(held, bool):
        return "truth", str(held)
    if isinstance(held, int | float):
        return ("whole", str(held)) if isinstance(held, int) else ("number", repr(held))
    return (
        ("day", held.isoformat()) if isinstance(held, datetime.date) else ("text", json.dumps(held, ensure_ascii=False))
    )


RESTORE: dict[str, Callable[[str], Held]] = {
    "blank": lambda _: None,
    "unread": lambda text: _unread(json.loads(text)),
    "truth": lambda text: text == str(True),
    "whole": int,
    "number": float,
    "day": datetime.date.fromisoformat,
    "text": json.loads,
    "line": lambda text: Line(tuple(_cell(*one) for one in json.loads(text))),
}


def _unread(told: str | list[str]) -> Unread:
    return Unread(told) if isinstance(told, str) else Unread(*told)


def _cell(part: str, name: str, sort: str, text: str) -> tuple[Spot, Value | Unread | None]:
    held = RESTORE[sort](text)
    return Spot(part, name), None if isinstance(held, Line) else held


def read(entries: Iterable[Entry]) -> list[Conflict]:
    """The conflicts that the rows of a Conflicts sheet tell of, however they were sorted."""
    groups: dict[tuple[str, ...], list[dict[str, str]]] = {}
    for entry in entries:
        row = texts(entry)
        groups.setdefault(tuple(row.get(key, "") for key in PLACE), []).append(row)
    return [_conflict(rows) for rows in groups.values()]


def texts(entry: Entry) -> dict[str, str]:
    """A row of the sheet; what the reader can't take for text, such as a formula, is text here all the same."""
    found = {s.name: h.text if isinstance(h, Unread) else str(h) for s, h in cells(entry).items() if s.part == TYPED}
    return {key: text.removesuffix(".0") if key == "nth" else text for key, text in found.items()}


def _conflict(rows: list[dict[str, str]]) -> Conflict:
    first = rows[0]
    sides: list[Side] = []
    base: Held = None
    for row in rows:
        held = RESTORE[row.get("sort", "blank")](row.get("value", ""))
        if names := tuple(json.loads(row.get("names", "[]"))):
            sides.append(Side(held, names, row.get("stands", "")))
        else:
            base = held
    decisions = tuple((row.get("whose", ""), row["decision"]) for row in rows if row.get("decision", "").strip())
    return Conflict(
        first.get("table_key", ""), tuple(json.loads(first.get("row_key", "[]"))), int(first.get("nth", "1")),
        Spot(first.get("part", ""), first.get("column_key", "")), base, tuple(sides), first.get("row", ""), decisions,
    )  # fmt: skip
