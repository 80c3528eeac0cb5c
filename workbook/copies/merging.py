"""Many edited copies become one workbook: against their common base, all at once, so that no order of them matters."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from workbook.copies import conflicts, own_rows, own_sheets
from workbook.copies.adding import total_of
from workbook.copies.alike import level, level_versions
from workbook.copies.conflicts import BOTH, KEEP, LINES, REMOVE, ROW, TABLE, Conflict, Side
from workbook.copies.content import Content, Entry
from workbook.copies.deciding import Merging
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
    declared,
    entry_of,
    folded,
    is_dated,
    is_keyed,
    pair_rows,
    renames,
    told,
    with_links,
)
from workbook.copies.rebasing import Told
from workbook.tables.table import Table

NEW_ROWS = 1_000_000  # rows that copies added are read as if they stood below everything
Clash = tuple[Spot, Held, list[Side]]  # a cell, what the base holds, and what the copies hold


@dataclass(frozen=True)
class Merged:
    """What came of it: the content, its Conflicts sheet with it, what still has to be decided, how much was decided."""

    content: Content
    conflicts: tuple[Conflict, ...]
    decided: int = 0


def merge(
    base: Content, taken: Iterable[Content | Told], tables: Iterable[Table], earlier: Sequence[Entry] = ()
) -> Merged:
    """Join what was typed in the copies; where they do not agree, the base's stands and all sides are listed.

    earlier: rows of the Conflicts sheet of an earlier outcome, with what was decided there.
    """
    told_as = sorted(
        (copy if isinstance(copy, Told) else Told(copy) for copy in taken), key=lambda one: one.content.name
    )
    copies = [one.content for one in told_as]
    if len({copy.name for copy in copies}) < len(copies):
        raise ValueError("each copy needs a name of its own")
    known, ready = declared(tables, base, *copies), Ready(base)
    copies = [completed(base, copy, known.values()) for copy in copies]
    work = Merging(base, known, {}, {})
    followed = [(copy, renames(ready, copy, known.values())) for copy in copies]
    for key, table in known.items():
        # A copy that lacks a table says nothing about it.
        theirs = {copy.name: with_links(table, copy.tables[key], names) for copy, names in followed
                  if key in copy.tables and (copy.tables[key] or key != TABLE)}  # fmt: skip
        systems = {copy.name: copy.units for copy in copies}
        joined = _Joining(ready.rows(table), theirs, _open(key, told_as), base.name, systems)
        if key in base.tables or joined.rows:
            work.tables[key] = joined.rows
            work.found += joined.conflicts
            work.names[key] = joined.names
    work.follow({key: names for key, names in work.names.items() if names})
    work.sheets, clashes = own_sheets.joined(base, copies)
    work.found += [(conflict, None) for conflict in clashes]
    _decide(work, earlier)
    points = len(conflicts.read(work.listed())) + len(work.found)
    content = work.settle()
    content = replace(content, added_columns=_added_columns(content, base, copies))
    left = tuple(conflicts.read(content.tables.get(TABLE, ())))
    return Merged(content, left, points - len(left))


def _decide(work: Merging, earlier: Sequence[Entry]) -> None:
    """What was decided in an earlier outcome counts here too."""
    decisions = {before.place: before.decisions for before in conflicts.read(earlier)}
    places = [conflict.place for conflict in work.named(work.found)]
    work.found = [(replace(c, decisions=decisions.get(place, ())), at)
                  for (c, at), place in zip(work.found, places, strict=True)]  # fmt: skip


@dataclass(frozen=True)
class _Open:
    """What is for people to decide in one table, as copies of another hand-out say: by name of the copy."""

    both: Mapping[str, set[tuple[int, Spot]]]
    gone: Mapping[str, set[int]]
    back: Mapping[str, set[int]]
    twice: Mapping[str, set[int]]

    def is_cell(self, spot: Spot, rows: Mapping[str, int]) -> bool:
        """Whether a cell was changed in the base as well, since one of these copies was taken."""
        return any((at, spot) in self.both.get(name, ()) for name, at in rows.items())


def _open(key: str, copies: Iterable[Told]) -> _Open:
    copies = list(copies)
    return _Open(
        {c.content.name: {(at, spot) for table, at, spot in c.both if table == key} for c in copies if c.both},
        {c.content.name: {at for table, at in c.gone if table == key} for c in copies if c.gone},
        {c.content.name: {at for table, at in c.back if table == key} for c in copies if c.back},
        {c.content.name: {at for table, at in c.twice if table == key} for c in copies if c.twice},
    )


@dataclass
class _Joining:
    """One table: the base's rows, and each copy's by its name, joined row by row.

    systems: the units of each copy.
    still_open: what was changed in the base as well, since copies of an earlier hand-out were taken.
    names: by the base's name of a row, what it is called after the merge.
    bases: by position, what an edited row was, and its position in each copy that edited it.
    """

    ours: Rows
    copies: Mapping[str, Sequence[Entry]]
    still_open: _Open
    base_name: str
    systems: Mapping[str, str]
    rows: list[Entry | None] = field(default_factory=list)
    conflicts: list[tuple[Conflict, int | None]] = field(default_factory=list)
    names: dict[str, str] = field(default_factory=dict)
    bases: dict[int, tuple[Entry, Mapping[str, int]]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.table, self.base, self.typed = self.ours.table, self.ours.entries, self.ours.typed
        self.theirs = {
            name: Rows(self.table, rows, self.systems[name], self.ours) for name, rows in self.copies.items()
        }
        versions: list[dict[str, int | None]] = [{} for _ in self.base]
        added: dict[str, list[int]] = {}
        for name in self.copies:
            found = pair_rows(self.ours, self.theirs[name])
            level(self.ours, self.theirs[name], found.together)
            for i, j in found.together:
                versions[i][name] = j
            for i in found.gone:
                versions[i][name] = None
            added[name] = found.new
        for at, those in enumerate(versions):
            level_versions(self.ours.system, self.theirs, ((n, j) for n, j in those.items() if j is not None))
            self._base_row(at, those)
        for cluster in self._clusters(added):
            self._added_row(cluster)
        if self.table.typed and is_keyed(self.table):
            self._name_rows(Spot(TYPED, self.table.row_name[0]))

    def _conflict(self, at: int, spot: Spot, base: Held, sides: Iterable[Side]) -> None:
        sides = tuple(sorted(sides, key=lambda side: (side.held == BOTH, side.names)))
        self.conflicts.append((Conflict(self.table.key, (), 1, spot, base, sides), at))

    # --- rows of the base ---

    def _base_row(self, at: int, versions: Mapping[str, int | None]) -> None:
        before = self.ours.plain[at]
        gone = tuple(name for name, j in versions.items() if j is None)
        edited = tuple(n for n, j in versions.items() if j is not None and self.theirs[n].plain[j] != before)
        disputed = any(at in self.still_open.gone.get(name, ()) for name in gone)
        if gone and not edited and not disputed:
            return
        self.rows.append(self.base[at])
        here = len(self.rows) - 1
        if gone:
            kept = (*edited, *((self.base_name,) if disputed else ()))
            self._conflict(here, ROW, KEEP, [Side(REMOVE, gone), Side(KEEP, kept)])
        self._join(here, self.base[at], {name: j for name, j in versions.items() if name in edited and j is not None})

    def _join(self, here: int, base: Entry, edited: Mapping[str, int]) -> None:
        """Put the edits of some copies into a row."""
        if not edited:
            return
        result, places, shown, came = dict(cells(base)), dict(base.places), dict(base.shown), dict(base.came)
        before = {spot: self.ours.plain_of(spot, told(base, spot)) for spot in result}
        row = own_rows.row_of(base)
        clashes: list[Clash] = []
        spots = dict.fromkeys(spot for name, j in edited.items() for spot in self.theirs[name].plain[j])
        for spot in (*before, *(s for s in sorted(spots) if s not in before)):
            sides = self._sides(spot, before.get(spot, BLANK), edited)
            total = self._total(spot, result.get(spot), sides)
            disputed = bool(sides) and self.still_open.is_cell(spot, edited)
            if not disputed and (total is not None or len(sides) == 1):
                held = sides[0].held if total is None else total
                result[spot] = held if held is None or isinstance(held, Unread | Line) else own_rows.put(held, row)
                first = min(sides[0].names, key=self._rank)
                theirs = self.copies[first][edited[first]]
                came |= {spot.name: theirs.where(spot.name, first)}
                theirs = theirs if row is None else own_rows.moved(theirs, row)
                if spot.name in theirs.places:
                    places.setdefault(spot.name, theirs.places[spot.name])
                shown |= {spot.name: theirs.shown[spot.name]} if spot.name in theirs.shown else {}
            elif sides:
                clashes.append((spot, told(base, spot), sides))
        self.rows[here] = replace(entry_of(result, places, shown), came=came)
        self.bases[here] = base, edited
        is_new = all(at in self.still_open.twice.get(name, ()) for name, at in edited.items())
        self._tell(here, clashes, edited, is_new=is_new)

    def _tell(self, at: int, clashes: Sequence[Clash], versions: Mapping[str, int], *, is_new: bool) -> None:
        """List what is to decide in a row: each cell, or of new rows of one name which of them it is."""
        if clashes and is_new and self.table.typed and is_keyed(self.table):
            clashes = [(LINES, self._line(clashes), self._lines([spot for spot, _, _ in clashes], versions))]
        for spot, held, sides in clashes:
            self._conflict(at, spot, held, sides)

    @staticmethod
    def _line(clashes: Sequence[Clash]) -> Line | None:
        """The row of the base, where it has one."""
        cells_of = tuple((spot, held) for spot, held, _ in clashes if not isinstance(held, Line))
        return Line(cells_of) if any(held is not None for _, held in cells_of) else None

    def _lines(self, spots: Sequence[Spot], versions: Mapping[str, int]) -> list[Side]:
        """The copies' rows, each version once, and the choice to keep them all."""
        names: dict[tuple[Plain, ...], list[str]] = defaultdict(list)
        order = {Spot(TYPED, key): at for at, key in enumerate(self.typed)}
        spots = sorted(spots, key=lambda spot: (order.get(spot, len(order)), spot))
        for name, j in sorted(versions.items()):
            names[tuple(self.theirs[name].plain[j].get(spot, BLANK) for spot in spots)].append(name)
        found = []
        for those in names.values():
            held = [(spot, self._side(spot, those, versions).held) for spot in spots]
            where = self._side(Spot(TYPED, self.table.row_name[0]), those, versions).where
            found.append(Side(Line(tuple((s, h) for s, h in held if not isinstance(h, Line))), tuple(those), where))
        return [*found, Side(BOTH, (BOTH,))]

    def _sides(self, spot: Spot, before: Plain, edited: Mapping[str, int]) -> list[Side]:
        """What the copies that changed a cell hold in it, each version once."""
        names: dict[Plain, list[str]] = defaultdict(list)
        for name, j in edited.items():
            after = self.theirs[name].plain[j].get(spot, BLANK)
            if after != before:
                names[after].append(name)
        return [self._side(spot, names[after], edited) for after in sorted(names)]

    def _side(self, spot: Spot, names: Sequence[str], at: Mapping[str, int]) -> Side:
        """One version, as a copy in the units of the base has it."""
        first = min(names, key=self._rank)
        entry = self.copies[first][at[first]]
        held, where = told(entry, spot), entry.where(spot.name, first)
        return Side(replace(held, where=where) if isinstance(held, Unread) else held, tuple(names), where)

    def _rank(self, name: str) -> tuple[bool, str]:
        return self.systems[name] != self.ours.system, name

    def _total(self, spot: Spot, base: Held, sides: list[Side]) -> int | float | None:
        """The base and every copy's difference from it, in a column that adds up; none where that makes no sense."""
        typed = self.typed.get(spot.name) if spot.part == TYPED else None
        return total_of(typed, base, base, [(side.held, len(side.names)) for side in sides])

    def _name_rows(self, key: Spot) -> None:
        """Remember which rows are called otherwise now; a new name that another row has too is not taken over."""
        rows = Rows(self.table, [row or Entry({}) for row in self.rows])
        count = Counter(rows.known)
        for at, (base, edited) in self.bases.items():
            before, after = base.values.get(key.name), rows.entries[at].values.get(key.name)
            if not isinstance(before, str) or not isinstance(after, str) or before == after:
                continue
            if count[rows.known[at]] > 1 and folded(before) != folded(after):
                self.rows[at] = entry_of(
                    cells(rows.entries[at]) | {key: before}, rows.entries[at].places, rows.entries[at].shown
                )
                names = tuple(name for name, j in edited.items() if self.copies[name][j].values.get(key.name) == after)
                self._conflict(at, key, before, [Side(after, names)])
            else:
                self.names[folded(before)] = after

    # --- rows that copies added ---

    def _clusters(self, added: Mapping[str, Sequence[int]]) -> list[dict[str, int]]:
        """Rows that several copies added and that are one row: at most one of each copy in each."""
        by_identity: dict[tuple[str, ...], dict[str, list[int]]] = defaultdict(lambda: defaultdict(list))
        for name, positions in added.items():
            for j in positions:
                if self.theirs[name].plain[j]:
                    by_identity[self.theirs[name].known[j]][name].append(j)
        for group in by_identity.values():
            level_versions(self.ours.system, self.theirs, ((name, j) for name, those in group.items() for j in those))
        found = [cluster for group in by_identity.values() for cluster in self._of_one_identity(group)]
        return sorted(found, key=self._order)

    def _order(self, cluster: Mapping[str, int]) -> tuple[object, ...]:
        """Events by day, all else by the copies' names and in the order in which they were typed."""
        name = min(cluster)
        day = next((p[1] for s, p in sorted(self.theirs[name].plain[cluster[name]].items())
                    if p[0] == "day" and s.name in self.table.row_name), "")  # fmt: skip
        return day, name, cluster[name]

    def _of_one_identity(self, group: Mapping[str, list[int]]) -> Iterator[dict[str, int]]:
        if self.table.every_line:
            yield from ({name: j} for name, positions in group.items() for j in positions)
            return
        alone = all(len(positions) == 1 for positions in group.values())
        if alone and not is_dated(self.table):
            yield {name: positions[0] for name, positions in group.items()}
            return
        left: dict[str, list[int]] = {}
        equal: dict[tuple[frozenset[tuple[Spot, Plain]], int], dict[str, int]] = defaultdict(dict)
        for name, positions in group.items():
            count: Counter[frozenset[tuple[Spot, Plain]]] = Counter()
            for j in positions:
                content = self.theirs[name].content(j)
                equal[content, count[content]][name] = j
                count[content] += 1
        for cluster in equal.values():
            if len(cluster) > 1 or is_dated(self.table):
                yield cluster
            else:
                for name, j in cluster.items():
                    left.setdefault(name, []).append(j)
        for rank in range(max(map(len, left.values()), default=0)):
            yield {name: sorted(positions)[rank] for name, positions in left.items() if rank < len(positions)}

    def _added_row(self, cluster: Mapping[str, int]) -> None:
        """A row that one or more copies added; cells in which they differ stay blank until decided."""
        first = min(cluster, key=self._rank)
        # In a row that no copy has: two copies may have typed different rows in the same place.
        whole = own_rows.moved(self.copies[first][cluster[first]], NEW_ROWS + len(self.rows), first)
        spots = {spot for name, j in cluster.items() for spot in self.theirs[name].plain[j]}
        sides = {spot: self._versions(spot, cluster) for spot in sorted(spots)}
        agreed = {spot: held for spot, held in cells(whole).items() if len(sides[spot]) == 1}
        made = replace(entry_of(agreed, dict(whole.places), whole.shown), stood=whole.stood)
        self.rows.append(whole if len(agreed) == len(spots) else made)
        clashes = [(spot, None, versions) for spot, versions in sides.items() if len(versions) > 1]
        self._tell(len(self.rows) - 1, clashes, cluster, is_new=True)
        back = tuple(name for name, j in cluster.items() if j in self.still_open.back.get(name, ()))
        if back:
            self._conflict(len(self.rows) - 1, ROW, KEEP, [Side(REMOVE, (self.base_name,)), Side(KEEP, back)])

    def _versions(self, spot: Spot, cluster: Mapping[str, int]) -> list[Side]:
        names: dict[Plain, list[str]] = defaultdict(list)
        is_name = spot.part == TYPED and spot.name in self.table.row_name
        for name, j in sorted(cluster.items()):
            sort, text = self.theirs[name].plain[j].get(spot, BLANK)
            # What rows are known by is one name, however its letters are written.
            names[sort, text.casefold() if is_name else text].append(name)
        return [self._side(spot, those, cluster) for those in names.values()]


def _added_columns(content: Content, base: Content, copies: Sequence[Content]) -> dict[str, tuple[str, ...]]:
    """The base's columns, but those that a copy dropped and nothing stands in; then those that copies added."""
    found: dict[str, tuple[str, ...]] = {}
    for key in dict.fromkeys(key for each in (base, *copies) for key in each.added_columns):
        used = {header for entry in content.tables.get(key, ()) for header in entry.added}
        theirs = [copy.added_columns.get(key, ()) for copy in copies if key in copy.tables]
        mine = [h for h in base.added_columns.get(key, ()) if h in used or all(h in headers for headers in theirs)]
        new = sorted({header for headers in theirs for header in headers} - {*base.added_columns.get(key, ())})
        found[key] = (*mine, *new)
    return found
