"""Decisions: which version of a conflict people chose, and carrying that out."""

import datetime
from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from workbook.cells.pages import serial
from workbook.copies import conflicts, own_rows, words
from workbook.copies.conflicts import BASE, BOTH, LINES, REMOVE, ROW, SHEET, TABLE, TAKE, Conflict, Side
from workbook.copies.content import AddedSheet, Content, Entry
from workbook.copies.identity import (
    ADDED,
    TYPED,
    Held,
    Line,
    Rows,
    Spot,
    Unread,
    cells,
    declared,
    entry_of,
    folded,
    is_keyed,
    plain,
    with_links,
)
from workbook.tables.kinds import NUMBER
from workbook.tables.table import Table

NEW_ROWS = 2_000_000  # rows of decisions are read as if they stood below everything

if TYPE_CHECKING:
    from workbook.tables.kinds import Value


def decided(conflict: Conflict, table: Table, system: str) -> Side | None:
    """The version that was decided for; none while nothing, or not one thing, is said."""
    versions = [Side(conflict.base, ()), *conflict.sides]
    chosen = {_meant(whose, text, conflict, table, system) for whose, text in conflict.decisions}
    return versions[at] if len(chosen) == 1 and (at := chosen.pop()) is not None else None


def _meant(whose: str, text: str, conflict: Conflict, table: Table, system: str) -> int | None:
    """Which version a decision names, 0 being the base; none when it names no version, or several."""
    wanted = folded(text.strip())
    tests: tuple[Callable[[Side], bool], ...] = (
        lambda side: wanted == TAKE and side.whose == whose,
        lambda side: wanted == BASE and not side.names,
        lambda side: any(wanted in {folded(name), folded(name).rpartition(".")[0]} for name in side.names),
        lambda side: wanted in _spellings(conflict, side.held, table, system),
        lambda side: _is_number(wanted, conflict, side.held, table, system),
    )
    for test in tests:
        named = [at for at, side in enumerate((Side(conflict.base, ()), *conflict.sides)) if test(side)]
        if len(named) == 1:
            return named[0]
    return None


def _spellings(conflict: Conflict, held: Held, table: Table, system: str) -> set[str]:
    """How people may name a value: as shown, without its unit, or as another program shows it."""
    shown = conflicts.value(conflict, held, table, system)
    found = {shown, shown.strip("()'"), plain(held)[1]}
    if held == BOTH:
        found |= {"both", "keep all", "all"}
    if isinstance(held, Line) and len(held.cells) == 1:
        # One cell tells the rows apart, so its value does.
        [(spot, one)] = held.cells
        found |= _spellings(replace(conflict, spot=spot), one, table, system)
    if isinstance(held, datetime.date):
        found.add(str(serial(held)))  # a date that the office program took for one
    return {folded(text) for text in found if text}


def _is_number(wanted: str, conflict: Conflict, held: Held, table: Table, system: str) -> bool:
    """Whether it names a number, however that is written."""
    shown = conflicts.value(conflict, held, table, system).partition(" ")[0]
    if isinstance(held, bool) or not isinstance(held, int | float) or not NUMBER.fullmatch(wanted):
        return False
    return plain(float(wanted)) == plain(float(shown))


@dataclass
class Merging:
    """A content while conflicts in it are found and settled; rows keep their positions until the end.

    found: conflicts that are not in its Conflicts sheet yet, with the position of their row.
    names: by table and old name, what rows are called now.
    aside: what the sheet Kept aside says of rows that got a name of their own because another has theirs.
    """

    content: Content
    known: Mapping[str, Table]
    tables: dict[str, list[Entry | None]]
    sheets: dict[str, AddedSheet]
    found: list[tuple[Conflict, int | None]] = field(default_factory=list)
    names: dict[str, dict[str, str]] = field(default_factory=dict)
    aside: list[tuple[str, str, str, str, str]] = field(default_factory=list)

    @classmethod
    def of(cls, content: Content, tables: Iterable[Table]) -> "Merging":
        """A content as it is."""
        known = declared(tables, content)
        rows: dict[str, list[Entry | None]] = {key: list(entries) for key, entries in content.tables.items()}
        return cls(content, known, rows, {s.title: s for s in content.added_sheets})

    def table(self, conflict: Conflict) -> Table:
        """The table of a conflict; an added sheet is a table without columns."""
        return self.known.get(conflict.table) or Table(conflict.table, "Added sheet", "", (), ())

    def rows(self, key: str) -> list[Entry]:
        """The rows of a table, a removed one as an empty one."""
        return [entry or Entry({}) for entry in self.tables.get(key, ())]

    def locate(self, conflict: Conflict) -> int | None:
        """The position of the row that a listed conflict is about; none when it is not there any more."""
        rows = Rows(self.table(conflict), self.rows(conflict.table))
        here = [at for at, known in enumerate(rows.known) if known == conflict.row or rows.table.form]
        wanted = rows.plain_of(conflict.spot, conflict.base)
        untouched = [at for at in here if rows.plain[at].get(conflict.spot, plain(None)) == wanted]
        if len(untouched) == 1:
            return untouched[0]
        return here[min(conflict.nth, len(here)) - 1] if here else None

    # --- carrying out ---

    def settle(self) -> Content:
        """The content with every decision carried out and its conflict gone; what is undecided stays listed."""
        self._round(lambda conflict: conflict.table == TABLE)  # copies may differ in what they decide, too
        self._round(lambda conflict: is_keyed_by(self.table(conflict), conflict.spot))  # links follow names
        self._round(lambda _: True)
        self.tables[TABLE] = [*self.tables.get(TABLE, ()), *self._newly_listed()]
        return self._content()

    def _round(self, wanted: Callable[[Conflict], bool]) -> None:
        """Carry out the decisions of some conflicts."""
        listed = [(conflict, self.locate(conflict)) for conflict in conflicts.read(self.listed())]
        names: dict[str, dict[str, str]] = {}
        left: tuple[list[tuple[Conflict, int | None]], ...] = ([], [])
        for still_open, pairs in zip(left, (listed, self.found), strict=True):
            for conflict, at in pairs:
                side = decided(conflict, self.table(conflict), self.content.units) if wanted(conflict) else None
                if side is None or not self._carry_out(conflict, at, side, names):
                    still_open.append((conflict, at))
        self.found = [pair for pair in left[1] if not self._is_moot(*pair)]
        self.follow(names)
        self._list_still([pair for pair in left[0] if not self._is_moot(*pair)])

    def _is_moot(self, conflict: Conflict, at: int | None) -> bool:
        """Whether a decision took its row away."""
        return at is not None and conflict.spot != SHEET and self.tables[conflict.table][at] is None

    def listed(self) -> list[Entry]:
        """The rows of its Conflicts sheet that still stand."""
        return [entry for entry in self.tables.get(TABLE, ()) if entry is not None]

    def _carry_out(self, conflict: Conflict, at: int | None, side: Side, names: dict[str, dict[str, str]]) -> bool:
        """Put the chosen version in its place; False when there is no place for it. Names that change are told."""
        if conflict.spot == SHEET:
            self._choose_sheet(conflict, side)
        elif not side.names:
            return True  # the table holds the base's, or what was typed there since
        elif at is None or (entry := self.tables[conflict.table][at]) is None:
            return False
        elif conflict.spot == ROW:
            self.tables[conflict.table][at] = None if side.held == REMOVE else entry
        elif conflict.spot == LINES:
            self._choose_line(conflict, at, entry, side)
        else:
            table, spot, old = self.table(conflict), conflict.spot, entry.values.get(conflict.spot.name)
            self.tables[table.key][at] = _with(entry, {spot: side.held}, side.where)
            if is_keyed_by(table, spot) and old is not None and isinstance(side.held, str):
                names.setdefault(table.key, {})[folded(old)] = side.held
        return True

    def follow(self, names: Mapping[str, Mapping[str, str]]) -> None:
        """Links to rows that got another name, in the tables and in what conflicts hold."""
        for key, table in self.known.items():
            if key in self.tables and names:
                self.tables[key] = [e and with_links(table, [e], names)[0] for e in self.tables[key]]
        self.found = [(self._following(c, names), at) for c, at in self.found]
        for at, entry in enumerate(self.tables.get(TABLE, ())):
            if entry is not None and names:
                self.tables[TABLE][at] = self._row_following(entry, names)

    def _following(self, conflict: Conflict, names: Mapping[str, Mapping[str, str]]) -> Conflict:
        typed = conflicts.column_of(conflict, self.table(conflict))
        to = names.get(typed.kind.table, {}) if typed else {}

        def told(held: Held) -> Held:
            if isinstance(held, Line):
                return self._line_following(held, self.table(conflict), names)
            return to.get(folded(held), held) if isinstance(held, str) else held

        sides = tuple(replace(side, held=told(side.held)) for side in conflict.sides)
        return replace(conflict, base=told(conflict.base), sides=sides)

    @staticmethod
    def _line_following(line: Line, table: Table, names: Mapping[str, Mapping[str, str]]) -> Line:
        values = {s.name: h for s, h in line.cells if s.part == TYPED and h is not None and not isinstance(h, Unread)}
        now = with_links(table, [Entry(values)], names)[0].values
        return Line(tuple((s, now.get(s.name, h) if s.part == TYPED else h) for s, h in line.cells))

    def _row_following(self, entry: Entry, names: Mapping[str, Mapping[str, str]]) -> Entry:
        conflict = conflicts.read([entry])[0]
        held = conflict.sides[0].held if conflict.sides else conflict.base
        now = self._following(conflict, names)
        after = now.sides[0].held if now.sides else now.base
        return (
            replace(
                entry,
                values=entry.values
                | {
                    "says": conflicts.value(conflict, after, self.table(conflict), self.content.units),
                    "value": conflicts.stored(after)[1],
                },
            )
            if after != held
            else entry
        )

    def _choose_line(self, conflict: Conflict, at: int, entry: Entry, side: Side) -> None:
        """Put one of several new rows of a name in its place, or all: each but the first under a name of its own."""
        table = self.table(conflict)
        rows, key = self.tables[table.key], Spot(TYPED, table.row_name[0])
        every = [s.held for s in (Side(conflict.base, ()), *conflict.sides) if isinstance(s.held, Line)]
        first = every[0] if side.held == BOTH else side.held
        more = every[1:] if side.held == BOTH else []
        rows[at] = _with(entry, dict(first.cells)) if isinstance(first, Line) else entry
        # A side whose names differ in their letters only holds a name as well.
        name = words.value(cells(rows[at] or entry).get(key))
        taken = {folded(other.values.get(key.name)) for other in rows if other}
        for line in more:
            free = next(told for n in range(2, 10_000) if folded(told := f"{name} ({n})") not in taken)
            taken.add(folded(free))
            here = own_rows.moved(entry, NEW_ROWS + len(rows))
            rows.append(replace(_with(here, dict(line.cells) | {key: free}), stood=("", {})))
            why = f"another row of this name was kept as well: this one is now {free}, type a name of its own there"
            self.aside.append((table.title, free, words.column(table, key), name, why))

    def _choose_sheet(self, conflict: Conflict, side: Side) -> None:
        chosen = self.sheets.get(str(side.held)) if side.held else None
        for held in (conflict.base, *(s.held for s in conflict.sides)):
            self.sheets.pop(str(held), None)
        if chosen:
            self.sheets[conflict.row_words] = replace(chosen, title=conflict.row_words)

    # --- listing ---

    def named(self, pairs: Iterable[tuple[Conflict, int | None]]) -> list[Conflict]:
        """The conflicts, each with what its row is called now."""
        names: dict[str, list[tuple[tuple[str, ...], int, str]]] = {}
        found = []
        for conflict, at in pairs:
            if at is None:
                found.append(conflict)
                continue
            if conflict.table not in names:
                names[conflict.table] = self._row_names(conflict.table)
            row, nth, said = names[conflict.table][at]
            found.append(replace(conflict, row=row, nth=nth, row_words=said))
        return found

    def _row_names(self, key: str) -> list[tuple[tuple[str, ...], int, str]]:
        """What each row is known by, which of several of that name it is, and the same in words."""
        rows, count = Rows(self.known[key], self.rows(key)), Counter[tuple[str, ...]]()
        found = []
        for at, (known, entry) in enumerate(zip(rows.known, rows.entries, strict=True)):
            count[known] += self.tables[key][at] is not None
            found.append((known, count[known], words.row(rows.table, entry)))
        return found

    def _list_still(self, still_open: list[tuple[Conflict, int | None]]) -> None:
        """The rows of the sheet that stay, under the name that their row has now."""
        now = {before.place: after for (before, _), after in zip(still_open, self.named(still_open), strict=True)}
        for at, entry in enumerate(self.tables.get(TABLE, ())):
            conflict = now.get(conflicts.read([entry])[0].place) if entry else None
            if conflict and entry:
                told: dict[str, Value] = {
                    "row": conflict.row_words,
                    "row_key": conflicts.as_text(conflict.row),
                    "nth": conflict.nth,
                }
                same = conflicts.texts(entry).items() >= {key: str(value) for key, value in told.items()}.items()
                self.tables[TABLE][at] = entry if same else replace(entry, values=entry.values | told)
            else:
                self.tables[TABLE][at] = None

    def _newly_listed(self) -> list[Entry]:
        order = {key: at for at, key in enumerate(self.known)}
        said = sorted(self.named(self.found), key=lambda conflict: (order.get(conflict.table, -1), conflict.place))
        return [row for c in said for row in conflicts.as_rows(c, self.table(c), self.content.units)]

    def _content(self) -> Content:
        tables = {key: tuple(entry for entry in rows if entry is not None) for key, rows in self.tables.items()}
        if not tables[TABLE] and self.content.tables.get(TABLE) != ():
            del tables[TABLE]
        aside = (*self.content.aside, *self.aside)
        return replace(self.content, tables=tables, added_sheets=tuple(self.sheets.values()), aside=aside)


def _with(entry: Entry, found: Mapping[Spot, Held], where: str = "") -> Entry:
    """The row with other cells in it, which stood elsewhere; a formula beside it by its own row."""
    row, put, came = own_rows.row_of(entry), dict(cells(entry)), dict(entry.came)
    for spot, held in found.items():
        if stood := where or (held.where if isinstance(held, Unread) else ""):
            came[spot.name] = stood
        if spot.part == ADDED and held is not None and not isinstance(held, Unread | Line):
            put[spot] = own_rows.put(held, row)
        else:
            put[spot] = held
    return replace(entry_of(put, entry.places, entry.shown), stood=entry.stood, came=came)


def is_keyed_by(table: Table, spot: Spot) -> bool:
    """Whether other tables know a row by this cell."""
    return bool(table.typed) and is_keyed(table) and spot == (TYPED, table.row_name[0])


def settle(content: Content, tables: Sequence[Table]) -> Content:
    """The content with every decision on its Conflicts sheet carried out."""
    return Merging.of(content, tables).settle() if content.tables.get(TABLE) else content
