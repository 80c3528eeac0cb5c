"""Plain text in: a folder with one CSV file for each table, checked cell by cell; all faults are told at once."""

import csv
import io
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from workbook.findings import BadInputError, Finding
from workbook.tables.columns import Typed
from workbook.tables.kinds import Value
from workbook.tables.table import Table

LARGEST_FILE = 50_000_000
LARGEST_CELL = 32_000
Row = dict[str, Value]


@dataclass
class CsvFile:
    """One file as it was read: its name, header and rows of text with their line numbers."""

    name: str
    header: list[str] = field(default_factory=list)
    rows: list[tuple[int, dict[str, str]]] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)

    def fault(self, row: int | None, column: str, found: str, expected: str) -> None:
        """Remember one fault."""
        self.findings.append(Finding(self.name, row, column, found, expected))


def _text(path: Path, file: CsvFile) -> str:
    """The file's text, or a fault."""
    if path.stat().st_size > LARGEST_FILE:
        file.fault(None, "", f"{path.stat().st_size} bytes", f"at most {LARGEST_FILE}")
        return ""
    raw = path.read_bytes()
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        row = raw.count(b"\n", 0, error.start) + 1
        file.fault(row, "", f"byte {raw[error.start]:#04x} that is not UTF-8", "a file saved as UTF-8")
        return ""
    if "\x00" in text:
        file.fault(None, "", "a NUL character", "a plain text file")
        return ""
    if not text.strip():
        file.fault(None, "", "an empty file", "a header row and a row for each entry")
    return text


def read_csv(path: Path, wanted: list[str]) -> CsvFile:
    """The rows of one file, its header and shape checked."""
    file = CsvFile(path.name)
    if not path.is_file():
        file.fault(None, "", "no such file", f"a CSV file with the columns {', '.join(wanted)}")
        return file
    text = _text(path, file)
    if file.findings:
        return file
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    try:
        file.header = [name.strip() for name in next(reader)]
        _check_header(file, wanted)
        if file.findings:
            return file
        for cells in reader:
            _take_row(file, reader.line_num, cells)
    except csv.Error as error:
        file.fault(reader.line_num, "", str(error), "comma-separated values, quotes closed")
    return file


def _check_header(file: CsvFile, wanted: list[str]) -> None:
    for name in wanted:
        if name not in file.header:
            file.fault(1, name, "no such column", f"the columns {', '.join(wanted)}")
    for name in dict.fromkeys(file.header):
        if name not in wanted:
            file.fault(1, name or "(no name)", "a column that is not known", f"the columns {', '.join(wanted)}")
        if file.header.count(name) > 1:
            file.fault(1, name, "the column twice", "each column once")


def _take_row(file: CsvFile, line: int, cells: list[str]) -> None:
    cells = [cell.strip() for cell in cells]
    if not any(cells):
        return
    if len(cells) != len(file.header):
        file.fault(line, "", f"{len(cells)} cells", f"{len(file.header)}, as in the header")
        return
    file.rows.append((line, dict(zip(file.header, cells, strict=True))))


def parse_rows(file: CsvFile, columns: Iterable[Typed]) -> list[tuple[int, Row]]:
    """Rows of values; what is no value of its column is a fault."""
    columns = list(columns)
    pairs = [(c.key, c.key.removesuffix("_low") + "_high") for c in columns if c.key.endswith("_low")]
    found: list[tuple[int, Row]] = []
    for line, texts in file.rows:
        row: Row = {}
        for column in columns:
            if not (text := texts[column.key]):
                if column.required:
                    file.fault(line, column.key, "nothing", column.kind.expected)
                continue
            try:
                row[column.key] = column.kind.parse(text)
            except ValueError:
                file.fault(line, column.key, repr(text), _expected(column))
        for low, high in pairs:
            if low in row and high in row and row[low] > row[high]:  # type: ignore[operator]
                file.fault(line, low, f"{row[low]} above {high} {row[high]}", "a low end that is not above the high end")
        found.append((line, row))
    return found


def _expected(column: Typed) -> str:
    unit = f" {column.unit}" if column.unit not in {"", "1"} and column.kind.name == "number" else ""
    return column.kind.expected + unit


def unique(file: CsvFile, rows: list[tuple[int, Row]], key: str) -> dict[str, str]:
    """Keys as written, by their small letters: office programs do not tell capitals apart."""
    first: dict[str, tuple[int, str]] = {}
    for line, row in rows:
        name = str(row.get(key, ""))
        if not name:
            continue
        if name.casefold() in first:
            file.fault(line, key, f"'{name}' again, as in row {first[name.casefold()][0]}", "each name once")
        else:
            first[name.casefold()] = (line, name)
    return {small: name for small, (_, name) in first.items()}


class Folder:
    """A folder of CSV files with a shared folder behind it for what it does not bring itself."""

    def __init__(self, folder: Path, shared: Path, tables: Iterable[Table]) -> None:
        self.folder, self.shared = folder, shared
        self.tables = [t for t in tables if t.typed and not t.rows_of and not t.lines]
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
            raise BadInputError([Finding(str(self.folder), None, "", "no such folder", "a folder of CSV files")])
        for table in self.tables:
            self._read_form(table) if table.form else self._read_table(table)
        for table in self.tables:
            self._link(table)
        if faults := [f for file in self.files for f in sorted(file.findings, key=lambda f: f.row or 0)]:
            raise BadInputError(faults)
        return {key: [row for _, row in rows] for key, (_, rows) in self.lines.items()}

    def _open(self, name: str, columns: list[Typed]) -> tuple[CsvFile, list[tuple[int, Row]]]:
        file = read_csv(self.path(name), [c.key for c in columns])
        self.files.append(file)
        return file, parse_rows(file, columns)

    def _read_table(self, table: Table) -> None:
        key = table.row_name[0]
        file, rows = self._open(f"{table.key}.csv", [c for c in table.typed if not c.kept_in])
        column = next(c for c in table.typed if c.key == key)
        if column.kind.name == "key":
            self.keys[table.key] = unique(file, rows, key)
        for name in dict.fromkeys(c.kept_in for c in table.typed if c.kept_in):
            self._add_columns(table, name, rows)
        self.lines[table.key] = (file, rows)

    def _add_columns(self, table: Table, name: str, rows: list[tuple[int, Row]]) -> None:
        """Columns of a table that are kept in a file of their own, by the table's key."""
        key = next(c for c in table.typed if c.key == table.row_name[0])
        more, found = self._open(f"{name}.csv", [key, *(c for c in table.typed if c.kept_in == name)])
        unique(more, found, key.key)
        by_key = {str(row.get(key.key, "")).casefold(): row for _, row in rows}
        for line, row in found:
            given = str(row.pop(key.key, ""))
            if given and given.casefold() not in by_key:
                more.fault(line, key.key, f"'{given}'", f"a name that stands in {table.key}")
            by_key.get(given.casefold(), {}).update(row)

    def _read_form(self, table: Table) -> None:
        file = read_csv(self.path(f"{table.key}.csv"), ["key", "value"])
        self.files.append(file)
        columns = {c.key: c for c in table.typed}
        row: Row = {}
        for line, texts in file.rows:
            key, text = texts["key"], texts["value"]
            if key not in columns:
                file.fault(line, "key", f"'{key}'", f"one of {', '.join(columns)}")
            elif text:
                try:
                    row[key] = columns[key].kind.parse(text)
                except ValueError:
                    file.fault(line, key, repr(text), _expected(columns[key]))
        self.lines[table.key] = (file, [(2, row)])

    def _link(self, table: Table) -> None:
        """Every link points to a row, and is written as that row's name is."""
        file, rows = self.lines[table.key]
        for column in (c for c in table.typed if c.kind.name == "link"):
            known = self.keys.get(column.kind.table, {})
            for line, row in rows:
                text = str(row.get(column.key, ""))
                if not text or text in column.kind.choices:
                    continue
                if text.casefold() not in known:
                    near = ", ".join(list(_near(text, known.values()))[:3])
                    file.fault(line, column.key, f"'{text}'", column.kind.expected + (f" (near: {near})" if near else ""))
                else:
                    row[column.key] = known[text.casefold()]


def _near(text: str, names: Iterable[str]) -> Iterator[str]:
    import difflib  # noqa: PLC0415  only wanted once something is wrong

    yield from difflib.get_close_matches(text, list(names), n=3, cutoff=0.6)
