"""Made-up tables and workbooks of them, and edits that people might make: material for comparing and merging."""

import datetime
import random
from dataclasses import replace

from hypothesis import strategies as st

from workbook.copies.content import AddedSheet, Content, Entry
from workbook.tables import Table, Typed, choice, count, date, key, link, number, text
from workbook.tables.kinds import Value

WATERS = Table(
    "waters", "Waters", "", ("water",), (Typed("water", "Water", key()), Typed("ph", "pH", number(3, 11), unit="1"))
)
TANKS = Table("tanks", "Tanks", "", ("tank",), (
    Typed("tank", "Tank", key()), Typed("length", "Length", number(2, 1000), unit="cm"), Typed("place", "Place", text()),
    Typed("water", "Water", link("waters")), Typed("lid", "Lid", choice("yes", "no")),
))  # fmt: skip
LIVESTOCK = Table("livestock", "Livestock", "", ("tank", "species"), (
    Typed("tank", "Tank", link("tanks")), Typed("species", "Species", text()), Typed("animals", "How many", count(0, 10_000), unit="1"),
    Typed("stock_note", "Note", text()),
))  # fmt: skip
LOG = Table("log", "Log", "", ("tank", "date"), (
    Typed("date", "Date", date()), Typed("tank", "Tank", link("tanks")), Typed("nitrate", "Nitrate", number(0, 1000), unit="mg/L"),
))  # fmt: skip
GOODS = Table("goods", "Goods", "", ("item",), (
    Typed("item", "Item", key()), Typed("on_hand", "On hand", count(0, 10_000), unit="1", adds_up=True),
    Typed("price", "Price", number(0, 10_000), unit="currency"),
))  # fmt: skip
ROOM = Table("room", "Your room", "", ("room_name",), (
    Typed("room_name", "Name", text()), Typed("altitude", "Altitude", number(-430, 6000), unit="m"),
), form=True)  # fmt: skip
TABLES = (WATERS, TANKS, LIVESTOCK, LOG, GOODS, ROOM)


def content(name: str = "base.xlsx", units: str = "metric", **tables: list[dict[str, Value] | Entry]) -> Content:
    """A workbook of these rows; what is not said is an empty table."""
    rows = {t.key: tables.get(t.key, [{}] if t.form else []) for t in TABLES}
    return Content(name, "keeper", units, 1, {k: tuple(r if isinstance(r, Entry) else Entry(r) for r in v) for k, v in rows.items()})  # fmt: skip


def edited(base: Content, name: str, **tables: list[dict[str, Value] | Entry]) -> Content:
    """A copy of it in which some tables hold something else."""
    rows = {k: tuple(r if isinstance(r, Entry) else Entry(r) for r in v) for k, v in tables.items()}
    return replace(base, name=name, tables=base.tables | rows)


NAMES = st.sampled_from(["Long", "Bow", "Drum", "Cube", "Über", "long"])
WORDS = st.sampled_from(["Hall", "Study", "by the window", "x"])
DAYS = st.dates(datetime.date(2026, 1, 1), datetime.date(2026, 1, 4))
VALUES = {
    "ph": st.sampled_from([6.5, 7, 7.0, 8]), "length": st.sampled_from([60, 60.0, 80, 120.5]), "place": WORDS, "lid": st.sampled_from(["yes", "no"]),
    "animals": st.integers(0, 5), "stock_note": WORDS, "nitrate": st.sampled_from([0, 10, 20.0]), "price": st.sampled_from([1, 2.5]),
    "on_hand": st.integers(0, 30), "room_name": WORDS, "altitude": st.integers(0, 3), "date": DAYS, "species": WORDS,
    "water": NAMES, "tank": NAMES, "item": NAMES,
}  # fmt: skip


def _rows(table: Table) -> st.SearchStrategy[tuple[Entry, ...]]:
    named = {k: VALUES[k] for k in table.row_name}
    others = {c.key: VALUES[c.key] for c in table.typed if c.key not in named}
    if table.form:
        return st.fixed_dictionaries({}, optional=named | others).map(lambda row: (Entry(row),))
    rows = st.fixed_dictionaries(named, optional=others)
    added = st.dictionaries(st.sampled_from(["shelf", "who"]), WORDS, max_size=1)
    entries = st.builds(lambda row, more: Entry(row, added=more), rows, added)
    if len(table.row_name) > 1:
        return st.lists(entries, max_size=5).map(tuple)
    return st.lists(entries, max_size=5, unique_by=lambda e: str(e.values[table.row_name[0]]).casefold()).map(tuple)


SHEETS = st.lists(st.dictionaries(st.just((1, 1)), WORDS, min_size=1).map(lambda cells: AddedSheet("Mine", cells)), max_size=1).map(tuple)  # fmt: skip
BASES = st.builds(
    lambda tables, sheets: replace(content(), tables=tables, added_sheets=sheets),
    st.fixed_dictionaries({t.key: _rows(t) for t in TABLES}), SHEETS,
)  # fmt: skip


@st.composite
def copies(draw: st.DrawFn, base: Content, name: str) -> Content:
    """A copy with some cells typed over or blanked, rows added, removed, renamed, and tables sorted."""
    tables = {}
    for table in TABLES:
        rows = list(base.tables[table.key])
        if not table.form and rows:
            gone = draw(st.sets(st.integers(0, len(rows) - 1), max_size=1))
            rows = [row for at, row in enumerate(rows) if at not in gone]
        for at in draw(st.lists(st.integers(0, len(rows) - 1), max_size=2)) if rows else []:
            column = draw(st.sampled_from([c.key for c in table.typed]))
            values = dict(rows[at].values)
            typed = draw(st.none() | VALUES[column])
            taken = {str(r.values.get(column)).casefold() for r in rows}
            unique = len(table.row_name) == 1 and column == table.row_name[0] and not table.form
            if unique and (typed is None or str(typed).casefold() in taken):
                continue
            values.pop(column, None)
            rows[at] = replace(rows[at], values=values if typed is None else values | {column: typed})
        if not table.form:
            keys = {str(r.values.get(table.row_name[0])).casefold() for r in rows}
            for row in draw(_rows(table))[:1]:
                if len(table.row_name) > 1 or str(row.values[table.row_name[0]]).casefold() not in keys:
                    rows.append(row)
        tables[table.key] = tuple(draw(st.permutations(rows)))
    return replace(base, name=name, tables=tables, added_sheets=draw(st.just(base.added_sheets) | SHEETS))


@st.composite
def families(draw: st.DrawFn, most: int = 3) -> tuple[Content, list[Content]]:
    """A base and edited copies of it."""
    base = draw(BASES)
    names = ["anna.xlsx", "ben.xlsx", "cara.xlsx"][: draw(st.integers(1, most))]
    return base, [draw(copies(base, name)) for name in names]


def shuffled(found: list[Content], seed: int) -> list[Content]:
    """The same in another order."""
    return random.Random(seed).sample(found, len(found))
