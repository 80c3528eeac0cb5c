"""Plain text in: a folder with one CSV file for each table, checked cell by cell; all faults are told at once."""

import csv
import difflib
import functools
import io
import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from workbook.findings import BadInputError, Finding
from workbook.tables.columns import Typed
from workbook.tables.kinds import Kind, Value, link
from workbook.tables.table import Table

LARGEST_FILE, MOST_ROWS = 50_000_000, 100_000
# Columns that folders of an earlier version have not.
LATER = {"conflicts.csv": ("stands",), "kept_aside.csv": ("where",)}
NOT_IN_FILES = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]")  # no workbook can hold them
# Text that office programs would take for a formula stands behind an apostrophe in plain files; so does text that has one already.
ACTS = re.compile(r"'*[=+\-@\t\r]")
Row = dict[str, Value]
csv.field_size_limit(LARGEST_FILE)  # a cell that is too long is told by its column, not by the reader


def shielded(text: str) -> str:
    """Text as it stands in a plain file, so that no program takes it for a formula."""
    return f"'{text}" if ACTS.match(text) else text


def unshielded(text: str) -> str:
    """The text that was meant."""
    return text[1:] if text.startswith("'") and ACTS.match(text) else text


@dataclass
class CsvFile:
    """One file as it was read: its name, header and rows of text, each with its row in a spreadsheet.

    broken: rows with too few or too many cells. whole: it could be read to its end.
    """

    name: str
    header: list[str] = field(default_factory=list)
    rows: list[tuple[int, dict[str, str]]] = field(default_factory=list)
    broken: list[dict[str, str]] = field(default_factory=list)
    whole: bool = False
    findings: list[Finding] = field(default_factory=list)

    def fault(self, row: int | None, column: str, found: str, expected: str) -> None:
        """Remember one fault."""
        self.findings.append(Finding(self.name, row, column, found, expected))


def _text(path: Path, file: CsvFile) -> str:
    """The file's text, or a fault."""
    try:
        with path.open("rb") as opened:
            raw = opened.read(LARGEST_FILE + 1)
    except OSError as error:
        file.fault(None, "", str(error.strerror), "a file that can be read")
        return ""
    if len(raw) > LARGEST_FILE:
        file.fault(None, "", f"more than {LARGEST_FILE} bytes", "a smaller file")
        return ""
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = raw[: error.start].decode("utf-8-sig")
        file.fault(*_place(before), f"byte {raw[error.start]:#04x} that is not UTF-8", "a file saved as UTF-8")
        return ""
    if odd := NOT_IN_FILES.search(text):
        file.fault(*_place(text[: odd.start()]), f"the character {odd[0]!r}", "plain text")
    elif not text.strip():
        file.fault(None, "", "an empty file", "a header row and a row for each entry")
    # One letter may be written in two ways that look the same; names must be found in either.
    return unicodedata.normalize("NFC", text)


def _rows(text: str, *, strict: bool) -> Iterator[list[str]]:
    return csv.reader(io.StringIO(text, newline=None), strict=strict)


def _place(before: str) -> tuple[int, str]:
    """Row and column of the cell that follows some text."""
    rows = list(_rows(before + "x", strict=False))
    column = len(rows[-1]) - 1
    return len(rows), rows[0][column].strip() if len(rows) > 1 and column < len(rows[0]) else ""


def read_csv(path: Path, wanted: list[str]) -> CsvFile:
    """The rows of one file, its header and shape checked."""
    file = CsvFile(path.name)
    if not path.is_file():
        file.fault(None, "", "no such file", f"a CSV file with the columns {', '.join(wanted)}")
        return file
    content = _text(path, file)
    if file.findings:
        return file
    at = 0
    try:
        for at, texts in enumerate(_rows(content, strict=True), 1):
            cells = [text.strip() for text in texts]
            if at > MOST_ROWS:
                file.fault(at, "", "more rows", f"at most {MOST_ROWS}")
                return file
            if at > 1:
                _take_row(file, at, cells)
            elif not _take_header(file, cells, wanted):
                return file
        file.whole = True
    except csv.Error as error:
        file.fault(at + 1, "", f"a quote mark out of place ({error})", "each quote closed, and doubled inside a cell")
    return file


def _take_header(file: CsvFile, names: list[str], wanted: list[str]) -> bool:
    """Whether rows can be read by this header; what is wrong with it is a fault either way."""
    if not any(names):
        file.fault(1, "", "an empty row", "a header row")
        return False
    if len(names) == 1 and (other := re.search("[;\t]", names[0])):
        file.fault(1, "", f"columns parted by {other[0]!r}", "columns parted by commas, numbers with a decimal point")
        return False
    file.header = names
    lacking = [name for name in wanted if name not in names and name not in LATER.get(file.name, ())]
    for name in dict.fromkeys(names):
        if name not in wanted:
            near = _near(name, lacking)[:1]
            lacking = [other for other in lacking if other not in near]
            expected = near[0] if near else f"one of {', '.join(wanted)}"
            file.fault(1, name or "(no name)", "a column that is not known", expected)
        elif names.count(name) > 1:
            file.fault(1, name, "the column twice", "each column once")
    for name in lacking:
        file.fault(1, name, "no such column", "a column of this name")
    return True


def _take_row(file: CsvFile, at: int, cells: list[str]) -> None:
    if not any(cells):
        return
    row = dict(zip(file.header, cells, strict=False))
    if len(cells) == len(file.header):
        file.rows.append((at, row))
    else:
        file.fault(at, "", f"{len(cells)} cells", f"{len(file.header)}, as in the header")
        file.broken.append(row)


def parse_rows(file: CsvFile, columns: Iterable[Typed]) -> list[tuple[int, Row]]:
    """Rows of values; what is no value of its column is a fault."""
    columns = [c for c in columns if c.header in file.header]
    lows = [c.key for c in columns if c.key.split("_")[-1] == "low"]
    found: list[tuple[int, Row]] = []
    for at, texts in file.rows:
        row: Row = {}
        for column in columns:
            if not (text := texts[column.header]):
                if column.required:
                    file.fault(at, column.header, "nothing", _expected(column))
                continue
            try:
                row[column.key] = _value(column, text)
            except ValueError:
                file.fault(at, column.header, repr(text), _expected(column, text))
        for low in lows:
            high = low.removesuffix("low") + "high"
            if low in row and high in row and row[low] > row[high]:  # type: ignore[operator]
                file.fault(at, low, f"{row[low]} above {high} {row[high]}", "a low end that is not above the high end")
        found.append((at, row))
    return found


def _value(column: Typed, text: str) -> Value:
    return column.kind.parse(text if column.kind.is_number else unshielded(text))


def _expected(column: Typed, text: str = "") -> str:
    unit = f" {column.unit}" if column.unit not in {"", "1"} and column.kind.name == "number" else ""
    point = ", with a decimal point" if column.kind.name == "number" and "," in text else ""
    return column.kind.expected + unit + point


def _near(text: str, names: Iterable[str]) -> list[str]:
    """Names that may have been meant, the nearest first."""
    return list(_nearest(text.casefold(), tuple(names)))


@functools.lru_cache(maxsize=1000)
def _nearest(text: str, names: tuple[str, ...]) -> list[str]:
    by_small = {name.casefold(): name for name in names}
    return [by_small[small] for small in difflib.get_close_matches(text, by_small, n=3, cutoff=0.6)]


def unique(file: CsvFile, rows: list[tuple[int, Row]], key: str) -> dict[str, str]:
    """Keys as written, by their small letters: office programs do not tell capitals apart."""
    first: dict[str, tuple[int, str]] = {}
    for at, row in rows:
        name = str(row.get(key, ""))
        if not name:
            continue
        if name.casefold() in first:
            file.fault(at, key, f"'{name}' again, as in row {first[name.casefold()][0]}", "each name once")
        else:
            first[name.casefold()] = (at, name)
    return {small: name for small, (_, name) in first.items()}


class Folder:
    """A folder of CSV files with a shared folder behind it for what it does not bring itself.

    more: by table, a shared file whose rows come below those of the table's own.
    """

    def __init__(self, folder: Path, shared: Path, tables: Iterable[Table], more: dict[str, str] | None = None) -> None:
        self.folder, self.shared, self.more = folder, shared, more or {}
        self.tables = [t for t in tables if t.typed and not t.rows_of]
        self.files: list[CsvFile] = []
        self.keys: dict[str, dict[str, str]] = {}
        self.lines: dict[str, tuple[CsvFile, list[tuple[int, Row]]]] = {}

    def path(self, name: str) -> Path:
        """The folder's own file, or the shared one; a missing file is looked for in the folder."""
        own, shared = self.folder / name, self.shared / name
        return shared if not own.exists() and shared.exists() else own

    def read(self) -> dict[str, list[Row]]:
        """Rows of every table; BadInputError with every fault of every file."""
        if not self.folder.is_dir():
            found = "a file" if self.folder.exists() else "no such folder"
            expected = "a folder of CSV files, the name of a starting set, or an edited workbook"
            raise BadInputError([Finding(str(self.folder), None, "", found, expected)])
        for table in self.tables:
            self._read_form(table) if table.form else self._read_table(table)
        for table in self.tables:
            self._link(table)
        if faults := [f for file in self.files for f in sorted(file.findings, key=lambda f: f.row or 0)]:
            raise BadInputError(faults)
        return {key: [row for _, row in rows] for key, (_, rows) in self.lines.items()}

    def _open(self, name: str, columns: list[Typed]) -> tuple[CsvFile, list[tuple[int, Row]]]:
        file = read_csv(self.path(name), [c.header for c in columns])
        self.files.append(file)
        return file, parse_rows(file, columns)

    def _read_table(self, table: Table) -> None:
        key = table.row_name[0]
        file, rows = self._open(f"{table.key}.csv", [c for c in table.typed if not c.kept_in])
        column = next(c for c in table.typed if c.key == key)
        if column.kind.name == "key":
            broken = {row[key].casefold(): row[key] for row in file.broken if key in row}
            known = broken | unique(file, rows, key)
            # Without all names nothing can be said about links to them.
            if file.whole and key in file.header:
                self.keys[table.key] = known
        if table.given and file.whole:
            self._compare(table, file, rows)
        if table.key in self.more and self.path(f"{table.key}.csv").parent == self.shared:
            rows += self._open(f"{self.more[table.key]}.csv", list(table.typed))[1]
        for name in dict.fromkeys(c.kept_in for c in table.typed if c.kept_in):
            self._add_columns(table, name, rows)
        self.lines[table.key] = (file, rows)

    def _compare(self, table: Table, file: CsvFile, rows: list[tuple[int, Row]]) -> None:
        """A folder's own copy of rows that come with the package may differ only where people may type."""
        name = f"{table.key}.csv"
        if self.path(name).parent == self.shared:
            return
        locked = [c for c in table.typed if c.locked]
        files = [name, *(f"{more}.csv" for key, more in self.more.items() if key == table.key)]
        given = [
            row
            for one in files
            for row in parse_rows(read_csv(self.shared / one, [c.header for c in table.typed]), table.typed)
        ]
        if not rows or (locked and len(rows) != len(given)):
            file.fault(None, "", f"{len(rows)} rows", f"the {len(given)} rows that come with the package")
            return
        for (at, row), (_, ours) in zip(rows, given, strict=False):
            for column in locked:
                found, wanted = row.get(column.key, ""), ours.get(column.key, "")
                if found != wanted:
                    file.fault(at, column.key, repr(found), f"{wanted!r}, as it comes with the package")

    def _add_columns(self, table: Table, name: str, rows: list[tuple[int, Row]]) -> None:
        """Columns of a table that are kept in a file of their own, by the table's key."""
        key = next(c for c in table.typed if c.key == table.row_name[0])
        more, found = self._open(f"{name}.csv", [key, *(c for c in table.typed if c.kept_in == name)])
        unique(more, found, key.key)
        by_key = {str(row.get(key.key, "")).casefold(): row for _, row in rows}
        for at, row in found:
            given = str(row.pop(key.key, ""))
            if given:
                self._known(more, at, key.key, given, link(table.key))
            by_key.get(given.casefold(), {}).update(row)

    def _read_form(self, table: Table) -> None:
        file = read_csv(self.path(f"{table.key}.csv"), ["key", "value"])
        self.files.append(file)
        columns = {c.key: c for c in table.typed}
        row: Row = {}
        seen: dict[str, int] = {}
        for at, texts in file.rows if {"key", "value"} <= {*file.header} else ():
            key, text = texts["key"], texts["value"]
            if key not in columns:
                file.fault(at, "key", f"'{key}'", f"one of {', '.join(_near(key, columns) or columns)}")
            elif key in seen:
                file.fault(at, "key", f"'{key}' again, as in row {seen[key]}", "each key once")
            elif text:
                try:
                    row[key] = _value(columns[key], text)
                except ValueError:
                    file.fault(at, "value", f"{text!r} for {key}", _expected(columns[key], text))
            seen.setdefault(key, at)
        self.lines[table.key] = (file, [(2, row)])

    def _link(self, table: Table) -> None:
        """Every link points to a row, and is written as that row's name is."""
        file, rows = self.lines[table.key]
        for column in (c for c in table.typed if c.kind.name == "link"):
            words = {word.casefold(): word for word in column.kind.choices}
            for at, row in rows:
                if text := str(row.get(column.key, "")):
                    row[column.key] = words.get(text.casefold()) or self._known(file, at, column.key, text, column.kind)

    def _known(self, file: CsvFile, at: int, column: str, text: str, kind: Kind) -> str:
        """The name as its own table writes it; a fault when that table has no such row."""
        known = self.keys.get(kind.table)
        if known is None:
            return text
        if text.casefold() not in known:
            near = ", ".join(_near(text, known.values()))
            file.fault(at, column, f"'{text}'", kind.expected + (f" (near: {near})" if near else ""))
        return known.get(text.casefold(), text)
