"""An edited workbook becomes its typed content: whatever people did to the layout, and whatever can't be read is kept."""

import datetime
import functools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from workbook.build import templates_folder
from workbook.cells.placing import letters
from workbook.copies import conflicts
from workbook.copies.beside import added_sheets, beside
from workbook.copies.content import AddedSheet, Content, Entry, Place, Places
from workbook.copies.grids import Area, Book, Passing, Raw, address, pass_nothing
from workbook.copies.locating import Column, Located, about, locate, reckoned, system_of
from workbook.copies.meanings import remembered
from workbook.copies.migrating import migrated
from workbook.copies.ods_grids import read_ods
from workbook.copies.untrusted import XLSX, opened, refuse
from workbook.copies.values import as_content, as_value, is_formula, shown, understood
from workbook.copies.xlsx_grids import read_xlsx
from workbook.editions import EDITIONS, SCHEMA, Edition, edition_for, with_conflicts
from workbook.files.csv_folder import parse_rows, read_csv
from workbook.findings import BadInputError
from workbook.stamps import FORM, Stamp
from workbook.tables.columns import Computed, Pulled, Typed
from workbook.tables.kinds import Value
from workbook.tables.table import Table
from workbook.tables.units import SYSTEMS

EXPECTED = "a workbook made by shoalbook, saved as .xlsx or .ods"
TYPED_AS = "typed as a formula: "


def read_copy(path: Path) -> Content:
    """What people typed in a workbook; BadInputError with one clear line when it is none of ours or can't be trusted."""
    return read_book(path, _reckoned)[1]


def _reckoned(names: Mapping[str, Area], facts: Mapping[str, str]) -> Mapping[str, Mapping[int, range]]:
    """Where a file of the current schema, by its own word, holds nothing but formulas of ours."""
    edition, system = facts.get("shoalbook edition", ""), facts.get("shoalbook units", "")
    is_known = edition in EDITIONS and system in SYSTEMS and facts.get("shoalbook schema", "").startswith(str(SCHEMA))
    return reckoned(names, edition, system) if is_known else {}


def read_book(path: Path, passing: Passing = pass_nothing) -> tuple[Book, Content]:
    """A workbook as sheets of cells, and what people typed in it; without the formulas that are passed."""
    made = opened(path)
    try:
        book = (read_xlsx if made.sort == XLSX else read_ods)(made, passing)
        return book, content_of(book)
    except BadInputError:
        raise
    except (RecursionError, MemoryError):
        refuse(path.name, "more than can be read", EXPECTED)
    except Exception as error:  # noqa: BLE001  the parser of a broken file may raise anything; a person gets one line
        found = (str(error) or type(error).__name__).splitlines()[0][:80]
        refuse(path.name, f"a damaged file ({found})", EXPECTED)


def content_of(book: Book) -> Content:
    """The content of a file as sheets of cells."""
    told = book.facts.get("shoalbook edition", "") or about(book, "edition", "Edition")
    schema = _schema(book)
    if schema > SCHEMA:
        refuse(book.name, f"schema {schema}, made by a newer shoalbook", f"at most schema {SCHEMA}: update shoalbook")
    if told and told not in EDITIONS:
        refuse(book.name, f"the edition '{told}'", f"one of {', '.join(EDITIONS)}")
    book = migrated(book, schema)
    edition = with_conflicts(told or next(iter(EDITIONS)))
    units = system_of(book, edition)
    places = locate(book, edition, units)
    if not any(place.table.is_list for place in places.values()):
        refuse(book.name, "no table of ours", EXPECTED)
    edition = edition_for(edition.name, places)
    added = beside(places)
    tables: dict[str, tuple[Entry, ...]] = {}
    for table in edition.tables:
        place = places.get(table.key)
        if place and place.typed and not all(c.locked for c in table.typed):
            tables[table.key] = _Reader(book, edition, place, added.get(table.key, {})).entries()
    names = _names(edition, tables)
    for table in edition.tables:
        for entry in tables.get(table.key, ()):
            _link(table, entry, names)
    headers = {key: tuple(columns.values()) for key, columns in added.items() if columns}
    rows = [entry for entries in tables.values() for entry in entries]
    noted = {(entry.places[key].sheet, entry.places[key].cell) for entry in rows for key in entry.notes}
    sheets: tuple[AddedSheet, ...] = added_sheets(book, places, added, edition.sheets, noted)
    sheets = remembered({table.key: table for table in edition.tables}, tables, sheets)
    gone = {key: tuple(c.key for c in places[key].table.typed if c.key not in places[key].typed) for key in tables}
    lacking = {key: columns for key, columns in gone.items() if columns}
    _told_rows(book.name, tables.get(conflicts.TABLE, ()))
    who = _who(tables)
    return Content(book.name, edition.name, units, schema, tables, headers, sheets, lacking, _stamp(book), who)


def _who(tables: dict[str, tuple[Entry, ...]]) -> str:
    """Who typed in the copy; a form in which nobody named themselves says nothing."""
    who = " ".join(str(entry.values.get("who", "")) for entry in tables.get("whose_copy", ()))
    if not who.strip():
        tables.pop("whose_copy", None)
    return " ".join(who.split())


def _stamp(book: Book) -> Stamp:
    """What the cells on Start say, which every program keeps; else the properties."""
    own, made_from, holds = (
        (about(book, key, label) or book.facts.get(f"shoalbook {key.replace('_', ' ')}", "")).strip()
        for key, label in (("stamp", "Stamp"), ("made_from", "Made from"), ("holds", "Copies in it"))
    )
    return Stamp(own if FORM.fullmatch(own) else "", made_from, holds)


def _told_rows(name: str, entries: tuple[Entry, ...]) -> None:
    """Refuse a Conflicts sheet whose locked cells somebody changed: what would be decided is not known."""
    for entry in entries:
        try:
            conflicts.read([entry])
        except (KeyError, ValueError, TypeError):
            place = next(iter(entry.places.values()), "Conflicts")
            expected = "its locked cells as merge wrote them, or no sheet Conflicts: then the tables stay as they are"
            refuse(name, f"the row of {place} changed", expected)


def _schema(book: Book) -> int:
    told = book.facts.get("shoalbook schema", "") or about(book, "schema", "Schema")
    try:
        return int(float(told))
    except (ValueError, OverflowError):
        if told:
            refuse(book.name, f"schema {told!r}", f"a schema from 0 to {SCHEMA}")
        return SCHEMA


def given_rows(edition: Edition, table: Table) -> tuple[dict[str, Value], ...]:
    """The rows of a table that come with the package, those that only this edition has below the others."""
    names = (table.key, *(name for key, name in edition.more if key == table.key))
    return tuple(row for name in names for row in _given_rows(table, name))


@functools.cache
def _given_rows(table: Table, name: str) -> tuple[dict[str, Value], ...]:
    path = templates_folder() / "shared" / f"{name}.csv"
    if not path.exists():
        return ()
    return tuple(row for _, row in parse_rows(read_csv(path, [c.header for c in table.typed]), table.typed))


def given_key(table: Table) -> str:
    """The locked column by which a given row is known; none where rows are only known by their order."""
    locked = [c.key for c in table.typed if c.locked]
    return next((key for key in ("key", *table.row_name) if key in locked), "")


@dataclass
class Row:
    """One row while it is read."""

    values: dict[str, Value] = field(default_factory=dict)
    added: dict[str, Value] = field(default_factory=dict)
    places: dict[str, Place] = field(default_factory=dict)
    unread: dict[str, str] = field(default_factory=dict)
    notes: dict[str, str] = field(default_factory=dict)
    shown: dict[str, Value] = field(default_factory=dict)
    all_places: Places | None = None

    def entry(self) -> Entry:
        """The row as it stays."""
        return Entry(self.values, self.added, self.all_places or self.places, self.unread, self.notes, self.shown)

    def note(self, key: str, words: str) -> None:
        """Add words to a cell's note, once."""
        had = self.notes.get(key, "")
        if words not in had:
            self.notes[key] = f"{had}\n{words}".strip()


class _Reader:
    """Reads the rows of one table."""

    def __init__(self, book: Book, edition: Edition, located: Located, added: dict[int, str]) -> None:
        self.book, self.located, self.table, self.added = book, located, located.table, added
        self.given = given_rows(edition, self.table) if self.table.given else ()
        self.grid = located.grid
        self.columns = {c.key: c for c in self.table.typed}
        # Of two columns of one key the first counts, and before it the one that people type in.
        places = [*reversed(located.ours.items()), *((column.at, key) for key, column in located.typed.items())]
        self.letters = {key: letters(column) for column, key in places}
        self.all_letters = self.letters | {header: letters(column) for column, header in added.items()}
        own = {c.key for c in self.table.columns if isinstance(c, Computed | Pulled)}
        # Where no formula is left at all, a program has saved values only: nothing there was typed.
        alive = self.grid.reckoning
        is_list = self.table.is_list
        self.computed = {at: key for at, key in located.ours.items() if is_list and key in own and at in alive}
        self.behind = located.behind if is_list else None
        alive = self.behind.grid.reckoning if self.behind else set()
        there = self.behind.ours.items() if self.behind else ()
        self.computed_behind = {at: key for at, key in there if key in own and at in alive}
        self.letters_behind = {key: letters(at) for at, key in there}

    def entries(self) -> tuple[Entry, ...]:
        """Every row that holds something."""
        if self.table.form:
            row = Row()
            for key, column in self.located.typed.items():
                self._typed(row, self.columns[key], column, column.row)
            return (row.entry(),)
        if self.table.given:
            return tuple(row.entry() for row in self._given())
        return tuple(row.entry() for row in self._rows())

    def _rows(self) -> Iterator[Row]:
        # Below a table of so many lines another may stand; below a list people may have gone on.
        end = self.located.last_row if self.table.lines else max(self.grid.rows, default=0)
        for at, cells in self.grid.rows.items():
            if not self.located.first_row <= at <= end:
                continue
            row = Row()
            for key, column in self.located.typed.items():
                if column.at in cells or (at, column.at) in self.grid.notes:
                    self._typed(row, self.columns[key], column, at)
            for column_at, key in self.computed.items():
                if column_at in cells or (at, column_at) in self.grid.notes:
                    self._computed(row, key, cells.get(column_at), (at, column_at))
            self._behind(row, at)
            is_own = bool(row.values or row.unread or row.notes)
            for column_at, header in self.added.items():
                self._added(row, header, cells.get(column_at), (at, column_at))
            if is_own or not all(map(is_formula, row.added.values())):
                self._place_all(row, at)
                yield row

    def _place_all(self, row: Row, at: int) -> None:
        """Formulas that people added may point to any cell of the row, so each has its place."""
        apart = {key: place for key, place in row.places.items() if place.sheet != self.grid.title}
        behind = Places(self.behind.grid.title, self._row_behind(at), self.letters_behind) if self.behind else None
        row.all_places = Places(self.grid.title, at, self.all_letters, row.places, apart, behind)

    def _given(self) -> Iterator[Row]:
        """Rows that come with the package, with what people changed in them; rows it does not know any more are kept too."""
        key = given_key(self.table)
        rows = {at: cells for at, cells in self.grid.rows.items() if at >= self.located.first_row}
        if not key:
            yield from self._in_order(rows)
            return
        by_key = self._rows_by_key(key, rows)
        for given in self.given:
            yield self._changed(given, by_key.pop(str(given[key]).casefold(), 0))
        for name, at in by_key.items():
            row = Row(unread={key: name})
            for column in self._open_columns:
                if (raw := rows[at].get(column.at)) and raw.value is not None:
                    row.unread[column.key] = shown(raw.value)
                    row.places[column.key] = self._place((at, column.at))
            yield row

    @property
    def _open_columns(self) -> list[Column]:
        """The columns of a given table that people may change."""
        return [c for c in self.located.typed.values() if not self.columns[c.key].locked]

    def _in_order(self, rows: dict[int, dict[int, Raw]]) -> Iterator[Row]:
        """Given rows that nothing but their order tells apart."""
        for at, cells in rows.items():
            row = Row()
            for column in self._open_columns:
                if column.at in cells:
                    self._typed(row, self.columns[column.key], column, at)
            if row.values or row.unread:
                yield row

    def _changed(self, given: dict[str, Value], at: int) -> Row:
        """A given row with what stands in its row of the file; as it was given where the file has it not."""
        row = Row(values={k: v for k, v in given.items() if self.columns[k].locked})
        for column in self._open_columns:
            if at:
                self._typed(row, self.columns[column.key], column, at)
            elif column.key in given:
                row.values[column.key] = given[column.key]
        located = self.located.typed
        row.values |= {k: v for k, v in given.items() if k not in located and not self.columns[k].locked}
        return row

    def _rows_by_key(self, key: str, rows: dict[int, dict[int, Raw]]) -> dict[str, int]:
        """The row of each key: by the name of its own that a row has, else by what its locked cell says."""
        found: dict[str, int] = {}
        column = self.located.typed.get(key)
        if column:
            for at, cells in rows.items():
                if (raw := cells.get(column.at)) and shown(raw.value):
                    found.setdefault(shown(raw.value).casefold(), at)
        value = self.located.typed.get(self.table.names_from)
        for given in self.given if value else ():
            area = self.book.names.get(f"const_{given[key]}".casefold())
            if area and area.sheet == self.grid.title and area.left == value.at:  # type: ignore[union-attr]
                found[str(given[key]).casefold()] = area.top
        return found

    def _place(self, at: tuple[int, int]) -> Place:
        return Place(self.grid.title, address(*at))

    def _typed(self, row: Row, typed: Typed, column: Column, at: int) -> None:
        """One cell that people type in."""
        cell = (at, column.at)
        raw = self.grid.cells.get(cell, Raw(None))
        row.places[typed.key] = self._place(cell)
        if words := self.grid.notes.get(cell):
            row.note(typed.key, words)
        held = raw.value
        if raw.formula and (held is None or held == ""):
            row.unread[typed.key] = raw.formula
            return
        if held is None or (isinstance(held, str) and not shown(held)):
            return
        try:
            row.values[typed.key] = understood(held, typed.kind, typed.unit, column.twin, self.book.epoch)
        except (ValueError, OverflowError):
            row.unread[typed.key] = f"{raw.formula} ({shown(held)})" if raw.formula else shown(held)
            return
        if raw.formula:
            row.note(typed.key, TYPED_AS + raw.formula)
        if isinstance(held, datetime.datetime) and typed.kind.name == "date" and held.time() != datetime.time():
            row.note(typed.key, f"typed as {shown(held)}")

    def _computed(
        self, row: Row, key: str, raw: Raw | None, at: tuple[int, int], behind: Located | None = None
    ) -> None:
        """A formula that somebody typed over: the fresh workbook has the formula again, the value is kept aside."""
        grid = behind.grid if behind else self.grid
        if raw and not raw.formula and shown(raw.value):
            row.unread.setdefault(key, shown(raw.value))
            row.places[key] = Place(grid.title, address(*at))
        if words := grid.notes.get(at):
            row.note(key, words)
            row.places[key] = Place(grid.title, address(*at))

    def _behind(self, row: Row, at: int) -> None:
        """What somebody typed over the workings of a row of a list: they lie in the row of the same number."""
        if self.behind is None:
            return
        there = self._row_behind(at)
        cells = self.behind.grid.rows.get(there, {})
        for column_at, key in self.computed_behind.items():
            if column_at in cells or (there, column_at) in self.behind.grid.notes:
                self._computed(row, key, cells.get(column_at), (there, column_at), self.behind)

    def _row_behind(self, at: int) -> int:
        return at - self.located.first_row + (self.behind or self.located).first_row

    def _added(self, row: Row, header: str, raw: Raw | None, at: tuple[int, int]) -> None:
        value = as_content(*raw) if raw else None
        if value is not None:
            row.added[header] = value
            if raw and raw.formula and (shown_then := as_value(raw.value)) is not None:
                row.shown[header] = shown_then
            row.places[header] = self._place(at)
        if words := self.grid.notes.get(at):
            row.note(header, words)
            row.places[header] = self._place(at)


def _names(edition: Edition, tables: dict[str, tuple[Entry, ...]]) -> dict[str, dict[str, str]]:
    """The names of each table's rows by their small letters; the first of two counts."""
    found: dict[str, dict[str, str]] = {}
    for table in edition.tables:
        for entry in tables.get(table.key, ()):
            name = str(entry.values.get(table.row_name[0], ""))
            found.setdefault(table.key, {}).setdefault(name.casefold(), name)
    return found


def _link(table: Table, entry: Entry, names: dict[str, dict[str, str]]) -> None:
    """Links in the letters of the row they point to: office programs do not tell capitals apart."""
    for column in table.typed:
        if column.kind.name == "link" and column.key in entry.values:
            small = str(entry.values[column.key]).casefold()
            known = {word.casefold(): word for word in column.kind.choices} | names.get(column.kind.table, {})
            entry.values[column.key] = known.get(small, entry.values[column.key])
