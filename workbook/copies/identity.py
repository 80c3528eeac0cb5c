"""What a row is known by, when two cells hold the same, and which row of one workbook is which of another."""

import datetime
import functools
import unicodedata
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from workbook.copies import own_rows
from workbook.copies.content import Content, Entry, Place
from workbook.tables.columns import Typed
from workbook.tables.kinds import Value
from workbook.tables.table import Table

TYPED, ADDED, NOTE = "typed", "added", "note"
Plain = tuple[str, str]
BLANK: Plain = ("blank", "")


class Spot(NamedTuple):
    """One cell of a row: typed, in a column that people added, or a cell's note; by column key or header."""

    part: str
    name: str


@dataclass(frozen=True)
class Unread:
    """What stands in a cell but is no value of its column; of a version to decide on also where, with its file."""

    text: str
    where: str = field(default="", compare=False)


@dataclass(frozen=True)
class Line:
    """Several cells of a row as one: what tells a new row from another one of its name."""

    cells: tuple[tuple[Spot, "Value | Unread | None"], ...]


Held = Value | Unread | Line | None
# By table: the small letters of a row's name in one workbook, and the name that the same row has in the other.
Names = Mapping[str, Mapping[str, str]]


def cells(entry: Entry) -> dict[Spot, Held]:
    """Everything that stands in a row."""
    found: dict[Spot, Held] = {Spot(TYPED, key): value for key, value in entry.values.items()}
    found |= {Spot(TYPED, key): Unread(text) for key, text in entry.unread.items()}
    found |= {Spot(ADDED, header): value for header, value in entry.added.items()}
    return found | {Spot(NOTE, key): text for key, text in entry.notes.items()}


def told(entry: Entry, spot: Spot) -> Held:
    """What stands in a cell; of a formula beside the row, by its own row."""
    return own_rows.told(entry, spot.name) if spot.part == ADDED else cells(entry).get(spot)


def entry_of(found: Mapping[Spot, Held], places: Mapping[str, Place], shown: Mapping[str, Value]) -> Entry:
    """The row in which this stands; nothing stands in a blank cell. shown: what formulas of people's own showed."""
    parts: dict[str, dict[str, Value]] = {TYPED: {}, ADDED: {}, NOTE: {}}
    unread: dict[str, str] = {}
    for (part, name), held in found.items():
        if isinstance(held, Unread):
            unread[name] = held.text
        elif held is not None and not isinstance(held, Line):
            parts[part][name] = held
    notes = {name: str(text) for name, text in parts[NOTE].items()}
    then = {header: value for header, value in shown.items() if header in parts[ADDED]}
    return Entry(parts[TYPED], parts[ADDED], places, unread, notes, then)


def plain(held: Held, typed: Typed | None = None) -> Plain:  # noqa: PLR0911  one return for each sort
    """A form in which two cells are alike when they hold the same: 20 and 20.0, one letter written in two ways."""
    if held is None:
        return BLANK
    if isinstance(held, Unread):
        return "unread", _text(held.text)
    if isinstance(held, Line):
        return "line", repr([(spot, plain(one)) for spot, one in held.cells])
    if isinstance(held, bool):
        return "truth", str(held)
    if isinstance(held, int | float):
        # Ten digits: what was typed in inches and comes back in centimetres is off in the thirteenth.
        return "number", f"{float(held) + 0.0:.10g}"  # + 0.0 makes of -0 a 0
    if isinstance(held, datetime.date):
        return "day", held.isoformat()
    small = typed is not None and typed.kind.name in {"link", "choice"}
    return "text", _text(held).casefold() if small else _text(held)


def _text(text: str) -> str:
    return unicodedata.normalize("NFC", text).replace("\r\n", "\n")


def folded(name: Held) -> str:
    """A name as office programs compare it: capitals do not count."""
    return plain(name)[1].casefold()


class Rows:
    """One table's rows as they compare: what stands in each, and what each is known by; system: its workbook's units.

    like: rows of the same table of another workbook, most of which hold the same: those need not be looked at again.
    """

    def __init__(
        self, table: Table, entries: Sequence[Entry], system: str = "metric", like: "Rows | None" = None
    ) -> None:
        self.table, self.entries, self.system = table, entries, system
        self.typed = {column.key: column for column in table.typed}
        self.plain: list[dict[Spot, Plain]] = []
        for at, entry in enumerate(entries):
            twin = like.twin(at, entry) if like else None
            self.plain.append(self._plain(entry) if like is None or twin is None else dict(like.plain[twin]))
        self.known = [self.identity(row) for row in self.plain]

    def twin(self, at: int, entry: Entry) -> int | None:
        """The row that is the very same, or that holds the same in the same place; none where that is not plain to see."""
        if (same := self._by_id.get(id(entry))) is not None:
            return same
        if entry.added or at >= len(self.entries) or (other := self.entries[at]).added:
            return None  # a formula is told by its own row
        alike = entry.values == other.values and entry.unread == other.unread and entry.notes == other.notes
        return at if alike else None

    @functools.cached_property
    def _by_id(self) -> dict[int, int]:
        return {id(entry): at for at, entry in enumerate(self.entries)}

    def _plain(self, entry: Entry) -> dict[Spot, Plain]:
        return {
            s: self.plain_of(s, own_rows.told(entry, s.name) if s.part == ADDED else held)
            for s, held in cells(entry).items()
        }

    def plain_of(self, spot: Spot, held: Held) -> Plain:
        """What a cell holds, as it compares."""
        return plain(held, self.typed.get(spot.name) if spot.part == TYPED else None)

    def identity(self, row: Mapping[Spot, Plain]) -> tuple[str, ...]:
        """What a row is known by: the table's key, or the columns that name its rows; a form has but one row."""
        if self.table.form:
            return ()
        return tuple(row.get(Spot(TYPED, key), BLANK)[1].casefold() for key in self.table.row_name)

    def content(self, at: int, without: str = "") -> frozenset[tuple[Spot, Plain]]:
        """All that stands in a row, perhaps without one column."""
        return frozenset((s, p) for s, p in self.plain[at].items() if s != (TYPED, without))


@dataclass(frozen=True)
class Pairing:
    """Which row is which: pairs of positions, those with another name, and the rows that only one side has."""

    pairs: list[tuple[int, int]] = field(default_factory=list)
    renamed: list[tuple[int, int]] = field(default_factory=list)
    gone: list[int] = field(default_factory=list)
    new: list[int] = field(default_factory=list)

    @property
    def together(self) -> list[tuple[int, int]]:
        """All pairs, in the order of the first side."""
        return sorted([*self.pairs, *self.renamed])


def pair(table: Table, ours: Sequence[Entry], theirs: Sequence[Entry]) -> Pairing:
    """Rows of one identity go together by most equal content, then by order; then those that only changed their name."""
    return pair_rows(Rows(table, ours), Rows(table, theirs))


def pair_rows(a: Rows, b: Rows) -> Pairing:
    """The same of rows that are made ready for it."""
    groups: dict[tuple[str, ...], tuple[list[int], list[int]]] = defaultdict(lambda: ([], []))
    for side, rows in enumerate((a, b)):
        for at, known in enumerate(rows.known):
            groups[known][side].append(at)
    pairs: list[tuple[int, int]] = []
    for first, second in groups.values():
        pairs += _closest(a, b, first, second)
    gone = sorted(set(range(len(a.entries))) - {i for i, _ in pairs})
    new = sorted(set(range(len(b.entries))) - {j for _, j in pairs})
    renamed = list(_renamed(a, b, gone, new))
    gone = [i for i in gone if i not in {r[0] for r in renamed}]
    new = [j for j in new if j not in {r[1] for r in renamed}]
    return Pairing(sorted(pairs), sorted(renamed), gone, new)


def _closest(a: Rows, b: Rows, first: list[int], second: list[int]) -> list[tuple[int, int]]:
    """Pairs within one identity."""
    if len(first) == len(second) == 1:
        return [(first[0], second[0])]
    by_content: dict[frozenset[tuple[Spot, Plain]], list[int]] = defaultdict(list)
    for j in reversed(second):
        by_content[b.content(j)].append(j)
    found = [(i, by_content[a.content(i)].pop()) for i in first if by_content[a.content(i)]]
    rest = [sorted(set(side) - {p[n] for p in found}) for n, side in enumerate((first, second))]
    scored = sorted((-len(a.content(i) & b.content(j)), i, j) for i in rest[0] for j in rest[1])
    taken: tuple[set[int], set[int]] = (set(), set())
    for _, i, j in scored:
        if i not in taken[0] and j not in taken[1]:
            found.append((i, j))
            taken[0].add(i)
            taken[1].add(j)
    return found


def _renamed(a: Rows, b: Rows, gone: list[int], new: list[int]) -> Iterator[tuple[int, int]]:
    """Rows that differ in one part of their name and in nothing else; only where there can be no doubt."""
    left: tuple[set[int], set[int]] = (set(), set())
    for key in a.table.row_name:
        by_rest: dict[frozenset[tuple[Spot, Plain]], tuple[list[int], list[int]]] = defaultdict(lambda: ([], []))
        for side, (rows, only) in enumerate(((a, gone), (b, new))):
            for at in only:
                if at not in left[side] and (rest := rows.content(at, key)):
                    by_rest[rest][side].append(at)
        for ours, theirs in by_rest.values():
            if len(ours) == len(theirs) == 1:
                left[0].add(ours[0])
                left[1].add(theirs[0])
                yield ours[0], theirs[0]


def with_links(table: Table, entries: Iterable[Entry], names: Names) -> list[Entry]:
    """The rows with their links named as the other workbook names what they point to."""
    links = [(c.key, names[c.kind.table]) for c in table.typed if c.kind.name == "link" and names.get(c.kind.table)]
    found = []
    for entry in entries:
        told = {
            key: map_[folded(entry.values.get(key))] for key, map_ in links if folded(entry.values.get(key)) in map_
        }
        found.append(replace(entry, values=entry.values | told) if told else entry)
    return found


class Ready:
    """A workbook whose rows are made ready for comparing once, however many others they are compared with."""

    def __init__(self, content: Content) -> None:
        self.content = content
        self._rows: dict[str, Rows] = {}

    def rows(self, table: Table) -> Rows:
        """Those of one table; whoever levels them takes a copy."""
        if table.key not in self._rows:
            self._rows[table.key] = Rows(table, self.content.tables.get(table.key, ()), self.content.units)
        return self._rows[table.key]


def renames(base: Content | Ready, copy: Content, tables: Iterable[Table]) -> dict[str, dict[str, str]]:
    """By table: names in the copy, and what the same rows are called in the base.

    Again until nothing new is found: a row that points to a renamed one has changed in nothing else.
    """
    ready = base if isinstance(base, Ready) else Ready(base)
    base = ready.content
    keyed = [t for t in tables if t.typed and is_keyed(t) and t.key in base.tables and t.key in copy.tables]
    found: dict[str, dict[str, str]] = {}
    for _ in range(len(keyed) + 1):
        more: dict[str, dict[str, str]] = {}
        for table in keyed:
            ours, key = base.tables[table.key], table.row_name[0]
            theirs = with_links(table, copy.tables[table.key], found)
            paired = pair_rows(ready.rows(table), Rows(table, theirs, copy.units, ready.rows(table)))
            pairs = {folded(theirs[j].values.get(key)): str(ours[i].values.get(key, ""))
                     for i, j in paired.renamed if key in theirs[j].values and key in ours[i].values}  # fmt: skip
            if pairs:
                more[table.key] = pairs
        if more == found:
            break
        found = more
    return found


def completed(base: Content, copy: Content, tables: Iterable[Table]) -> Content:
    """The copy; of a column that is not in its file it says what the base says."""
    found = dict(copy.tables)
    for table in tables:
        gone = copy.lacking.get(table.key, ())
        if not gone or table.key not in base.tables:
            continue
        spots = {Spot(part, key) for part in (TYPED, NOTE) for key in gone}
        ours = [_without(entry, spots) for entry in base.tables[table.key]]
        theirs = [_without(entry, spots) for entry in copy.tables[table.key]]
        for i, j in pair(table, ours, theirs).together:
            entry = base.tables[table.key][i]
            before = {spot: held for spot, held in cells(entry).items() if spot in spots}
            theirs[j] = entry_of(cells(theirs[j]) | before, theirs[j].places, theirs[j].shown)
        found[table.key] = tuple(theirs)
    return replace(copy, tables=found)


def _without(entry: Entry, spots: Iterable[Spot]) -> Entry:
    return entry_of({s: h for s, h in cells(entry).items() if s not in spots}, entry.places, entry.shown)


def is_keyed(table: Table) -> bool:
    """Whether other tables know its rows by one name."""
    return any(c.kind.name == "key" for c in table.typed if c.key == table.row_name[0])


def is_dated(table: Table) -> bool:
    """Whether its rows are events: a day may well have two of them."""
    return any(c.kind.name == "date" for c in table.typed if c.key in table.row_name)


def declared(tables: Iterable[Table], *contents: Content) -> dict[str, Table]:
    """The tables by key; one that no edition knows has its rows paired by what stands in them."""
    found = {table.key: table for table in tables}
    for content in contents:
        for key in content.tables:
            found.setdefault(key, Table(key, key, "", (), ()))
    return found
