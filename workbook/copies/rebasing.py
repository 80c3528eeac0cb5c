"""What was typed in a copy since it was handed out, told as edits of another workbook: nothing older comes along with it."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from workbook.copies import own_rows, words
from workbook.copies.adding import total_of
from workbook.copies.alike import level
from workbook.copies.content import AddedSheet, Content, Entry
from workbook.copies.identity import (
    BLANK,
    TYPED,
    Held,
    Line,
    Plain,
    Ready,
    Rows,
    Spot,
    Unread,
    cells,
    completed,
    entry_of,
    is_dated,
    is_keyed,
    pair_rows,
    renames,
    with_links,
)
from workbook.copies.meanings import as_ours
from workbook.tables.table import Table


@dataclass(frozen=True)
class Told:
    """A copy as one of the base: its own edits on what the base says now.

    Where both changed since the copy was taken nobody's version wins:
    both: cells, by table, position of the row in this copy, and spot.
    gone: rows that the copy removed and the base edited, by table and position in the base.
    back: rows that the copy edited and the base removed, by table and position in this copy.
    twice: rows of one name that both added and that differ, by table and position in this copy.
    kept: what is handed out and was changed in the copy all the same, in words: that is not taken.
    """

    content: Content
    both: frozenset[tuple[str, int, Spot]] = frozenset()
    gone: frozenset[tuple[str, int]] = frozenset()
    back: frozenset[tuple[str, int]] = frozenset()
    twice: frozenset[tuple[str, int]] = frozenset()
    kept: tuple[str, ...] = ()


class HandOut:
    """A hand-out, its own base, from which copies are told as copies of another base: what is the same for each of them.

    What somebody hands out is never taken from a copy, also where both bases are one.
    """

    def __init__(self, base: Content, own: Content, tables: Iterable[Table]) -> None:
        self.base, self.own = Ready(base), Ready(own)
        self.known = {table.key: table for table in tables}
        self.since = {} if own is base else renames(self.base, own, self.known.values())
        self._pairs: dict[str, _Bases] = {}

    def table(self, key: str) -> Table:
        """Of one that no edition knows, rows go together by what stands in them."""
        return self.known.get(key) or Table(key, key, "", (), ())

    def bases(self, key: str) -> "_Bases":
        """One table of both bases."""
        if key not in self._pairs:
            table, own = self.table(key), self.own.content
            now = then = self.base.rows(table)
            if own is not self.base.content:
                then = Rows(table, with_links(table, own.tables.get(key, ()), self.since), own.units)
            self._pairs[key] = _Bases(now, then)
        return self._pairs[key]


@dataclass
class _Bases:
    """The base's rows, what they were when copies were taken, and which is which.

    raw: what they were, before what is alike in both compares as one.
    """

    now: Rows
    then: Rows

    def __post_init__(self) -> None:
        self.raw = self.then
        if self.now is self.then:
            self.kept = {at: at for at in range(len(self.now.entries))}
            return
        self.kept = dict(pair_rows(self.now, self.then).together)
        self.then = Rows(self.raw.table, self.raw.entries, self.raw.system, self.raw)
        level(self.now, self.then, self.kept.items())


def rebased(hand_out: HandOut, copy: Content) -> Told:
    """The copy of a hand-out as a copy of the base."""
    base, own, known, since = hand_out.base.content, hand_out.own.content, hand_out.known, hand_out.since
    copy = completed(own, copy, known.values())
    mine = renames(hand_out.own, copy, known.values())
    found: dict[str, tuple[Entry, ...]] = {}
    kept: list[str] = []
    both: set[tuple[str, int, Spot]] = set()
    gone: set[tuple[str, int]] = set()
    back: set[tuple[str, int]] = set()
    twice: set[tuple[str, int]] = set()
    for key, entries in copy.tables.items():
        table, bases = hand_out.table(key), hand_out.bases(key)
        after = with_links(table, with_links(table, entries, mine), since)
        told = _Rebasing(bases, Rows(table, after, copy.units, bases.raw), copy.name)
        found[key] = tuple(told.rows)
        both |= {(key, at, spot) for at, spot in told.both}
        gone |= {(key, at) for at in told.gone}
        back |= {(key, at) for at in told.back}
        twice |= {(key, at) for at in told.twice}
        kept += [words.place(table, told.base[b], spot) for b, spot in told.kept]
    content = replace(
        copy,
        tables=found,
        added_columns=_columns(base, own, copy),
        added_sheets=_sheets(base, own, copy),
        lacking={},
    )
    return Told(content, frozenset(both), frozenset(gone), frozenset(back), frozenset(twice), tuple(kept))


@dataclass
class _Rebasing:
    """One table: the base's rows, what the copy's rows were when it was taken, and what they are."""

    bases: _Bases
    theirs: Rows
    file: str
    rows: list[Entry] = field(default_factory=list)
    both: set[tuple[int, Spot]] = field(default_factory=set)
    gone: set[int] = field(default_factory=set)
    back: set[int] = field(default_factory=set)
    twice: set[int] = field(default_factory=set)
    kept: list[tuple[int, Spot]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.now, self.then, kept = self.bases.now, self.bases.then, self.bases.kept
        self.table, self.typed = self.now.table, self.now.typed
        self.base, self.before, self.after = self.now.entries, self.then.entries, self.theirs.entries
        self.handed = {Spot(TYPED, column.key) for column in self.table.typed if column.handed}
        taken = dict(pair_rows(self.then, self.theirs).together)
        # What is shown alike is one value, from the base on, whatever the units of the files between.
        level(self.then, self.theirs, taken.items())
        level(self.now, self.theirs, ((b, taken[i]) for b, i in kept.items() if i in taken))
        paired = set(taken.values())
        new = [j for j in range(len(self.after)) if j not in paired]
        alike = self._alike([b for b in range(len(self.base)) if b not in kept], new)
        level(self.now, self.theirs, alike.items())
        for b, entry in enumerate(self.base):
            if b not in kept:
                self._new_in_base(entry, b, alike.get(b))
            elif kept[b] in taken:
                self.rows.append(self._joined(b, kept[b], taken[kept[b]]))
            else:
                self._removed(entry, b, kept[b])
        still_there = set(kept.values())
        for i, j in taken.items():
            if i not in still_there and self._edited(i, j):
                self.rows.append(self._without_handed(self.after[j]))
                self.back.add(len(self.rows) - 1)
        twins = set(alike.values())
        self.rows += [self.after[j] for j in new if j not in twins]

    def _alike(self, in_base: Iterable[int], in_copy: Iterable[int]) -> dict[int, int]:
        """Rows that both have and its own base had not: of one name, or of events the same one."""
        found: dict[int, int] = {}
        by_look: dict[object, list[int]] = defaultdict(list)
        for j in reversed(list(in_copy)):
            by_look[self._look(self.theirs, j)].append(j)
        for b in in_base:
            if by_look[self._look(self.now, b)]:
                found[b] = by_look[self._look(self.now, b)].pop()
        return found

    def _look(self, rows: Rows, at: int) -> object:
        return rows.content(at) if is_dated(self.table) or not self.table.row_name else rows.known[at]

    def _new_in_base(self, entry: Entry, b: int, twin: int | None) -> None:
        if twin is None:
            self.rows.append(entry)
            return
        row = self._row(b, {}, {}, twin)
        if self.table.typed and is_keyed(self.table) and any(at == len(self.rows) for at, _ in self.both):
            # One name for two rows: each is told whole, with the cells that are blank in it.
            blank = {spot for spot in self.now.plain[b] if spot not in self.theirs.plain[twin]} - self.handed
            row = entry_of(dict(cells(row)) | dict.fromkeys(blank), row.places, row.shown)
            own = {spot for spot in self.theirs.plain[twin] if spot not in self.now.plain[b]} - self.handed
            self.both |= {(len(self.rows), spot) for spot in blank | own}
            self.twice.add(len(self.rows))
        self.rows.append(row)

    def _joined(self, b: int, i: int, j: int) -> Entry:
        if self.theirs.plain[j] == self.then.plain[i]:
            return self.base[b]
        return self._row(b, self.then.plain[i], cells(self.before[i]), j)

    def _row(self, b: int, then: Mapping[Spot, Plain], held_then: Mapping[Spot, Held], j: int) -> Entry:
        """The base's row with what the copy changed in it."""
        base, copy = self.base[b], self.after[j]
        found, theirs = dict(cells(base)), cells(copy)
        places, shown, row = dict(base.places), dict(base.shown), own_rows.row_of(base)
        came = dict(base.came)
        for spot in dict.fromkeys((*then, *self.theirs.plain[j])):
            was, is_now = then.get(spot, BLANK), self.now.plain[b].get(spot, BLANK)
            wanted = self.theirs.plain[j].get(spot, BLANK)
            if wanted in {was, is_now}:
                continue
            if spot in self.handed:
                self.kept.append((b, spot))
                continue
            held = own_rows.told(copy, spot.name) if spot.part != TYPED and spot in theirs else theirs.get(spot)
            if is_now != was:
                column = self.typed.get(spot.name) if spot.part == TYPED else None
                total = total_of(column, found.get(spot), held_then.get(spot), [(theirs.get(spot), 1)])
                if total is None:
                    self.both.add((len(self.rows), spot))
                else:
                    held = total
            found[spot] = held if held is None or isinstance(held, Unread | Line) else own_rows.put(held, row)
            if spot.name in copy.places:
                came[spot.name] = copy.where(spot.name, self.file)
                places[spot.name] = (
                    copy.places[spot.name] if row is None else places.get(spot.name, copy.places[spot.name])
                )
            shown |= {spot.name: copy.shown[spot.name]} if spot.name in copy.shown else {}
        return replace(entry_of(found, places, shown), came=came)

    def _removed(self, entry: Entry, b: int, i: int) -> None:
        """A row that the copy has no more: what was handed out stays, an edited one is for people to decide."""
        if any(spot in self.handed for spot in self.now.plain[b]):
            self.rows.append(entry)
        elif self.now.content(b) != self.then.content(i):
            self.gone.add(b)

    def _edited(self, i: int, j: int) -> bool:
        changed = set(self.theirs.content(j)) ^ set(self.then.content(i))
        return any(spot not in self.handed for spot, _ in changed)

    def _without_handed(self, entry: Entry) -> Entry:
        """Of a row that is not handed out any more only its name and what is a person's own."""
        name = {Spot(TYPED, key) for key in self.table.row_name}
        kept = {spot: held for spot, held in cells(entry).items() if spot not in self.handed - name}
        return entry_of(kept, entry.places, entry.shown)


def _columns(base: Content, own: Content, copy: Content) -> dict[str, tuple[str, ...]]:
    """The base's own columns, then those that were added in the copy since it was taken."""
    found = dict(base.added_columns)
    for key, headers in copy.added_columns.items():
        had = {*own.added_columns.get(key, ()), *found.get(key, ())}
        found[key] = (*found.get(key, ()), *(header for header in headers if header not in had))
    return found


def _sheets(base: Content, own: Content, copy: Content) -> tuple[AddedSheet, ...]:
    """Added sheets as the base has them now, with the copy's edits; where both changed one, both stay."""
    now, was, theirs = ({s.title.casefold(): s for s in content.added_sheets} for content in (base, own, copy))
    return tuple(
        sheet for small in dict.fromkeys((*now, *theirs)) for sheet in _kept(small, now, was, theirs, copy.name)
    )


def _kept(
    small: str,
    now: Mapping[str, AddedSheet],
    was: Mapping[str, AddedSheet],
    theirs: Mapping[str, AddedSheet],
    name: str,
) -> Iterator[AddedSheet]:
    before, present, after = (sheets.get(small) for sheets in (was, now, theirs))
    if before and present:
        before = as_ours(present, before)
    if before and after:
        after = as_ours(before, after)
    looks = [sheet and sorted(sheet.cells.items(), key=lambda pair: pair[0]) for sheet in (before, present, after)]
    if looks[2] == looks[0] or looks[2] == looks[1]:
        if present:
            yield present
    elif looks[1] == looks[0]:
        if after:
            yield after
    else:
        if present:
            yield present
        if after:
            yield replace(after, title=f"{after.title[:18]} ({name[:10]})")
