"""Content as a folder of plain files, fit for version control, and back; nothing that people added is left out."""

import csv
import functools
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

from workbook.build import read
from workbook.copies import conflicts
from workbook.copies.carrying import records_of, row_label
from workbook.copies.content import AddedSheet, Content, Entry
from workbook.copies.grids import address
from workbook.copies.meanings import Meanings, PlainRows, Where
from workbook.copies.reading import given_rows
from workbook.copies.untrusted import at
from workbook.copies.values import inert, is_formula, plain_text
from workbook.editions import EDITIONS, SCHEMA, Edition, first_choices, with_conflicts
from workbook.files.csv_folder import CsvFile, read_csv, shielded, unshielded
from workbook.files.targets import moved_in, writable
from workbook.findings import BadInputError, Finding
from workbook.tables.columns import Typed
from workbook.tables.kinds import NUMBER, Value, date
from workbook.tables.sheet import Charts
from workbook.tables.table import Table
from workbook.tables.units import SYSTEMS

COLUMNS = "added_columns.csv", ("table", "row", "column", "value", "formula")
SHEETS = "added_sheets.csv", ("sheet", "cell", "value", "formula")
NOTES = "notes.csv", ("table", "row", "column", "note")
ASIDE = "kept_aside.csv", ("table", "row", "column", "found", "where")
ADDED = (COLUMNS, SHEETS, NOTES, ASIDE)
ABOUT, CONFLICTS = "about.csv", f"{conflicts.TABLE}.csv"
Lines = list[list[str]]


def written(value: Value | None) -> str:
    """A value as plain text that reads back as the same."""
    if value is None:
        return ""
    if isinstance(value, str):
        return shielded(value)
    if isinstance(value, float) and value == int(value) and abs(value) < 1e15:
        return str(int(value))
    return repr(value) if isinstance(value, int | float) else value.isoformat()


def meant(text: str) -> Value:
    """The value of a cell without a kind: a number, a day or text."""
    if NUMBER.fullmatch(text):
        return float(text)
    try:
        return date().parse(text)
    except ValueError:
        return unshielded(text)


def files_of(content: Content, there: Iterable[str] = ()) -> dict[str, Lines]:
    """Every file of a content: its lines by its name; files that are there already are always among them."""
    edition = with_conflicts(content.edition)
    had = set(there)
    found: dict[str, Lines] = {ABOUT: [["key", "value"], ["edition", content.edition], ["units", content.units]]}
    starts = first_choices(edition, records_of(content))
    for table in edition.tables:
        rows = [dict(entry.values) for entry in content.tables.get(table.key, ())]
        name = f"{table.key}.csv"
        empty = not rows and not table.is_list and name not in had
        if table.key in edition.given or table.key == "about" or not table.typed or empty:
            continue
        if table.given:
            rows = [row for row in rows if row]
            apart = {f"{c.kept_in}.csv" for c in table.typed if c.kept_in}
            if had & {name, *apart} or rows != list(given_rows(edition, table)):
                found |= _list(table, rows)
        elif table.form:
            if not table.chosen or name in had or rows != starts.get(table.key):
                found[name] = [["key", "value"], *([c.key, written(rows[0].get(c.key))] for c in table.typed)]
        else:
            found |= _list(table, [row for row in rows if row])
    return found | {name: lines for name, lines in _added(content, edition).items() if len(lines) > 1 or name in had}


def _lines(table: Table, rows: list[dict[str, Value]], kept_in: str = "") -> Lines:
    columns = {c.key: c.header for c in table.typed if c.kept_in == kept_in}
    if kept_in:
        columns = {table.row_name[0]: table.row_name[0]} | columns
    return [[*columns.values()], *([written(row.get(key)) for key in columns] for row in rows)]


def _list(table: Table, rows: list[dict[str, Value]]) -> dict[str, Lines]:
    """The file of a list, and those that keep some of its columns apart."""
    found = {f"{table.key}.csv": _lines(table, rows)}
    for apart in dict.fromkeys(c.kept_in for c in table.typed if c.kept_in):
        keys = [c.key for c in table.typed if c.kept_in == apart]
        found[f"{apart}.csv"] = _lines(table, [row for row in rows if any(key in row for key in keys)], apart)
    return found


def _added(content: Content, edition: Edition) -> dict[str, Lines]:
    """What people added, a line for each cell; rows are numbered as they stand in the plain file of their table, from 2."""
    formulas = _Formulas(content, edition)
    columns: Lines = [list(COLUMNS[1])]
    notes: Lines = [list(NOTES[1])]
    aside: Lines = [list(ASIDE[1])]
    for table in edition.tables:
        entries = content.tables.get(table.key, ())
        numbers = iter(range(2, len(entries) + 2))
        for index, entry in enumerate(entries):
            # A row without values of ours has no line of its own to stand in.
            number = str(next(numbers)) if entry.values else ""
            for header in content.added_columns.get(table.key, ()):
                if header in entry.added:
                    where = (entry.places[header].sheet if header in entry.places else ""), (table.key, index)
                    pair = formulas(entry.added[header], entry.shown.get(header), *where)
                    columns.append([table.key, number, shielded(header), *pair])
            notes += [[table.key, number, shielded(key), shielded(words)] for key, words in entry.notes.items()]
            label = number or shielded(row_label(table, entry))
            aside += [[table.key, label, key, shielded(found), shielded(entry.where(key, content.name))]
                      for key, found in entry.unread.items()]  # fmt: skip
    sheets: Lines = [list(SHEETS[1])]
    for sheet in content.added_sheets:
        for place, value in sorted(sheet.cells.items()):
            pair = formulas(value, sheet.shown.get(place), sheet.origin or sheet.title)
            sheets.append([shielded(sheet.title), address(*place), *pair])
    return {COLUMNS[0]: columns, SHEETS[0]: sheets, NOTES[0]: notes, ASIDE[0]: aside}


class _Formulas:
    """Values and formulas of a content's own cells; plain files have no cells for a formula to act on."""

    def __init__(self, content: Content, edition: Edition) -> None:
        self.content, self.tables = content, {table.key: table for table in edition.tables}

    def __call__(self, value: Value, then: Value | None, sheet: str, here: Where | None = None) -> list[str]:
        """What a cell showed, and its formula if it has one, told by the tables and rows of the plain files."""
        if not is_formula(value):
            return [written(value), ""]
        return [written(then), shielded(self._meanings.told(value, sheet, here, self._lines))]

    @functools.cached_property
    def _meanings(self) -> Meanings:
        return Meanings(self.tables, self.content.tables, (sheet.title for sheet in self.content.added_sheets))

    @functools.cached_property
    def _lines(self) -> dict[Where, int]:
        found: dict[Where, int] = {}
        for key, entries in self.content.tables.items():
            filled = (at for at, entry in enumerate(entries) if entry.values)
            found |= {(key, at): line for line, at in enumerate(filled, 2)}
        return found


def refuse_folder(folder: Path) -> None:
    """One line about a place that no folder can be written to, or in which a plain file can't be replaced."""
    if folder.exists() and not folder.is_dir():
        raise BadInputError([Finding(str(folder), None, "", "a file", "a folder to write to")])
    tables = {table.key for name in EDITIONS for table in with_conflicts(name).tables}
    for name in sorted({ABOUT, *(f"{key}.csv" for key in tables), *(name for name, _ in ADDED)}):
        writable(folder / name)


def export(content: Content, folder: Path) -> list[str]:
    """Write the folder; the names of the files."""
    refuse_folder(folder)
    folder.mkdir(parents=True, exist_ok=True)
    files = files_of(content, (path.name for path in folder.glob("*.csv")))
    for name, lines in files.items():
        with moved_in(folder / name) as beside, beside.open("w", encoding="utf-8", newline="") as file:
            csv.writer(file, lineterminator="\n").writerows(lines)
    return list(files)


def faults_of(folder: Path, edition: Edition) -> tuple[Finding, ...]:
    """What still keeps the folder from being built."""
    try:
        folder_content(folder, edition, "metric")
    except BadInputError as error:
        return error.findings
    return ()


# --- back ---


def is_plain(folder: Path) -> bool:
    """Whether a folder holds nothing that people added to a workbook."""
    return not any((folder / name).exists() for name in (CONFLICTS, *(name for name, _ in ADDED)))


def told_by(folder: Path) -> dict[str, str]:
    """The edition and the units that a folder says it is for; nothing where it does not say."""
    if not (folder / ABOUT).is_file():
        return {}
    file = read_csv(folder / ABOUT, ["key", "value"])
    known = {"edition": (*EDITIONS,), "units": SYSTEMS}
    found = {}
    for number, texts in file.rows:
        key, value = texts.get("key", ""), texts.get("value", "")
        if key not in known:
            file.fault(number, "key", repr(key), f"one of {', '.join(known)}")
        elif value not in known[key]:
            file.fault(number, "value", repr(value), f"one of {', '.join(known[key])}")
        found[key] = value
    if file.findings:
        raise BadInputError(file.findings)
    return found


def folder_content(folder: Path, edition: Edition, units: str) -> Content:
    """A folder of plain files as content, with what people once added to their workbook."""
    if (folder / CONFLICTS).is_file():
        edition = _undecided(with_conflicts(edition.name))
    records = read(folder, edition)
    if not records.get(conflicts.TABLE):
        records.pop(conflicts.TABLE, None)
    tables = {key: tuple(Entry(dict(row)) for row in rows) for key, rows in records.items()}
    for number, entry in enumerate(tables.get(conflicts.TABLE, ()), 2):
        _told(number, entry)
    files = {name: _open(folder, name, columns) for name, columns in ADDED}
    headers = _take_columns(files[COLUMNS[0]], tables)
    _take_notes(files[NOTES[0]], tables)
    sheets = _take_sheets(files[SHEETS[0]])
    _take_aside(files[ASIDE[0]], tables, edition)
    if any(texts.get("formula") for name in (COLUMNS[0], SHEETS[0]) for _, texts in files[name].rows):
        tables = _point(edition, tables, headers, sheets)
    if faults := [fault for file in files.values() for fault in file.findings]:
        raise BadInputError(faults)
    return Content(folder.name, edition.name, units, SCHEMA, tables, headers, sheets)


def _undecided(edition: Edition) -> Edition:
    """The edition while copies do not agree: what a row must have may be blank until it is decided, but for its name."""

    def open_to(block: Table | Charts) -> Table | Charts:
        if not isinstance(block, Table):
            return block
        columns = (
            replace(c, required=False) if isinstance(c, Typed) and c.key not in block.row_name else c
            for c in block.columns
        )
        return replace(block, columns=tuple(columns))

    sheets = (replace(sheet, blocks=tuple(map(open_to, sheet.blocks))) for sheet in edition.sheets)
    return replace(edition, sheets=tuple(sheets))


def _told(number: int, entry: Entry) -> None:
    try:
        conflicts.read([entry])
    except (KeyError, ValueError, TypeError):
        expected = "a row as export wrote it, but for its decision"
        raise BadInputError([Finding(CONFLICTS, number, "", "a row that was changed", expected)]) from None


def _open(folder: Path, name: str, columns: tuple[str, ...]) -> CsvFile:
    path = folder / name
    return read_csv(path, list(columns)) if path.exists() else CsvFile(name)


def _entry(file: CsvFile, number: int, texts: dict[str, str], tables: dict[str, tuple[Entry, ...]]) -> Entry | None:
    """The row that a line is about; a new one at the end for a line that names none."""
    table, row = texts["table"], texts["row"]
    if table not in tables:
        file.fault(number, "table", repr(table), f"one of {', '.join(tables)}")
        return None
    if not row:
        tables[table] += (Entry({}),)
        return tables[table][-1]
    if not row.isascii() or not row.isdecimal() or not 2 <= int(row) <= len(tables[table]) + 1:
        file.fault(number, "row", repr(row), f"a row of {table}.csv, from 2 to {len(tables[table]) + 1}")
        return None
    return tables[table][int(row) - 2]


def _take_columns(file: CsvFile, tables: dict[str, tuple[Entry, ...]]) -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for number, texts in file.rows:
        entry = _entry(file, number, texts, tables)
        if entry is not None:
            header = unshielded(texts["column"])
            found[texts["table"]] = tuple(dict.fromkeys((*found.get(texts["table"], ()), header)))
            value, shown = _own_cell(texts)
            entry.added.update({header: value} if value is not None else {})
            entry.shown.update({header: shown} if shown is not None else {})
    return found


def _own_cell(texts: dict[str, str]) -> tuple[Value | None, Value | None]:
    """What a cell of a person's own holds, and what its formula showed; a text that only looks like one stays text."""
    value = inert(meant(texts["value"])) if texts["value"] else None
    formula = unshielded(texts["formula"])
    return (formula, value) if formula else (value, None)


def _point(
    edition: Edition,
    tables: dict[str, tuple[Entry, ...]],
    headers: dict[str, tuple[str, ...]],
    sheets: Iterable[AddedSheet],
) -> dict[str, tuple[Entry, ...]]:
    """The rows with places, and every formula pointed at them."""
    files = PlainRows({table.key: table for table in edition.tables}, tables, headers)
    for key, entries in tables.items():
        for line, entry in enumerate(entries, 2):
            entry.added.update({h: files.pointed(f, key, line) for h, f in entry.added.items() if is_formula(f)})
    for sheet in sheets:
        sheet.cells.update({at: files.pointed(f) for at, f in sheet.cells.items() if is_formula(f)})
    return files.placed()


def _take_notes(file: CsvFile, tables: dict[str, tuple[Entry, ...]]) -> None:
    for number, texts in file.rows:
        entry = _entry(file, number, texts, tables)
        if entry is not None and texts["note"]:
            entry.notes[unshielded(texts["column"])] = unshielded(texts["note"])


def _take_aside(file: CsvFile, tables: dict[str, tuple[Entry, ...]], edition: Edition) -> None:
    """Cells that could not be read once, kept as they were, in rows of their table or at its end."""
    by_key = {table.key: table for table in edition.tables}
    for number, texts in file.rows:
        table = by_key.get(texts["table"])
        if table is None or texts["column"] not in {c.key for c in table.columns}:
            file.fault(number, "column", repr(texts["column"]), "a table and one of its columns")
            continue
        is_row = texts["row"].isdecimal()
        entry = _entry(file, number, texts if is_row else texts | {"row": ""}, tables)
        if entry is not None:
            entry.unread[texts["column"]] = unshielded(texts["found"])
            line = f"row {texts['row']} of {table.key}.csv" if is_row else ""
            entry.came[texts["column"]] = unshielded(texts.get("where", "")) or line


def _take_sheets(file: CsvFile) -> tuple[AddedSheet, ...]:
    found: dict[str, AddedSheet] = {}
    for number, texts in file.rows:
        place = at(texts["cell"])
        title = plain_text(unshielded(texts["sheet"]))
        if place is None or not title:
            file.fault(number, "cell", repr(texts["cell"]), "a sheet's name and a cell such as B7")
            continue
        sheet = found.setdefault(title, AddedSheet(title, {}))
        value, shown = _own_cell(texts)
        sheet.cells.update({place: value} if value is not None else {})
        sheet.shown.update({place: shown} if shown is not None else {})
    return tuple(sheet for sheet in found.values() if sheet.cells)
