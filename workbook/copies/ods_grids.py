"""An .ods file as sheets of cells, scanned and read in one pass: repeated rows and cells are counted, not trusted.

As in the other format, cells that are written as the office program writes them are taken from the bytes, see xlsx_cells.
"""

import datetime
import re
import zipfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

from defusedxml import ElementTree

from workbook.copies.grids import Area, Book, Grid, Held, Passing, Raw, area_of, held, pass_nothing
from workbook.copies.plain_bytes import Passed, PlainScan, plain
from workbook.copies.untrusted import BLOCK, LAST_COLUMN, LAST_ROW, Act, Opened

CONTENT = "content.xml"
META = "{urn:oasis:names:tc:opendocument:xmlns:meta:1.0}"
# Every program calls these namespaces so; in a file of another one names are told as if it did.
SPACES = {f"urn:oasis:names:tc:opendocument:xmlns:{name}:1.0": name for name in ("table", "office", "text")}
DURATION = re.compile(r"(-?)PT?(?:(\d+)H)?(?:(\d+)M)?(?:(\d+(?:[.,]\d+)?)S)?")
REFERENCE = re.compile(
    r"\[(?:\$?('(?:[^']|'')*'|[^\].'\[]*))?\.([^\]:]+)(?::(?:\$?(?:'(?:[^']|'')*'|[^\].'\[]*))?\.([^\]]+))?\]"
)
MOST_SPACES = 1_000


CELL = re.compile(
    rb'<table:table-cell((?: [a-z]+:[a-z-]+="[^"<>]*")*+)(?:/>|>(?:<text:p>([^<]*+)</text:p>|<text:p/>)?+</table:table-cell>)'
)
RUN = re.compile(rb"(?:" + CELL.pattern.replace(b"((?:", b"(?:(?:").replace(b"([^<]*+)", b"[^<]*+") + rb")++")
ATTRIBUTE = re.compile(rb' ([a-z:-]+)="([^"]*)"')
NAMED = re.compile(rb"<table:named-range [^<>]*>")
FORMULA, REPEATED = b' table:formula="', b" table:number-columns-repeated="
IS_CONSTANT = re.compile(rb' table:formula="[a-z]+:=(?:TRUE|FALSE)\(\)"')


def read_ods(made: Opened, passing: Passing = pass_nothing) -> Book:
    """Every sheet of the file; of formulas in rows that are passed only that they are there."""
    with made.archive() as archive:
        facts = _facts(archive)
        expected = _expected(archive)
        reading = Content(made, passing(expected, facts))
        before = replace(made.budget)
        reading.read(archive)
        if reading.passing and reading.names != expected:  # what looked like a name was none
            made.budget = before
            reading = Content(made, {})
            reading.read(archive)
    names = {name: area for name, area in reading.names.items() if area.sheet in reading.grids}
    return Book(made.name, reading.grids, names, facts, reading.epoch)


def _facts(archive: zipfile.ZipFile) -> dict[str, str]:
    """The custom properties."""
    if "meta.xml" not in archive.namelist():
        return {}
    properties = ElementTree.fromstring(archive.read("meta.xml"), forbid_dtd=True).iter(f"{META}user-defined")
    return {element.get(f"{META}name", ""): element.text or "" for element in properties}


def _expected(archive: zipfile.ZipFile) -> dict[str, Area]:
    """The names, which stand below all cells, as far as they can be told from the bytes beforehand."""
    found: dict[str, Area] = {}
    rest = b""
    with archive.open(CONTENT) as stream:
        while block := stream.read(BLOCK):
            data = rest + block
            for name in NAMED.findall(data):
                _take_name(found, _attributes(name))
            rest = data[max(data.rfind(b">") + 1, len(data) - BLOCK) :]
    return found


def _attributes(data: bytes) -> dict[str, str]:
    # Blanks of all sorts are one blank in an attribute.
    return {key.decode(): plain(re.sub(rb"\r\n|[\r\n\t]", b" ", value)) for key, value in ATTRIBUTE.findall(data)}


def _take_name(names: dict[str, Area], attrs: Mapping[str, str]) -> None:
    name = attrs.get("table:name", "").casefold()
    area = area_of(_plain_area(attrs.get("table:cell-range-address", "")))
    if area and not name.startswith("_xlnm"):
        names.setdefault(name, area)


def _plain_area(text: str) -> str:
    """$Tanks.$A$5:.$A$50 as 'Tanks'!$A$5:$A$50."""
    found = re.fullmatch(r"\$?('(?:[^']|'')+'|[^.']+)\.([^:.]+)(?::(?:\$?(?:'(?:[^']|'')+'|[^.']*))?\.([^:.]+))?", text)
    if not found:
        return ""
    sheet, first, last = found.groups()
    quoted = sheet if sheet.startswith("'") else f"'{sheet}'"
    return f"{quoted}!{first}" + (f":{last}" if last else "")


def _times(attrs: Mapping[str, str], key: str) -> int:
    text = attrs.get(key, "1")
    return max(1, int(text)) if text.isascii() and text.isdecimal() and len(text) < 8 else 1


@dataclass
class _Row:
    """One row while it is read: its cells that are not blank with their notes, and columns of formulas that are passed."""

    times: int = 1
    at: int = 0  # the column reached
    filled: list[tuple[int, Raw, str]] = field(default_factory=list)
    passed: set[int] = field(default_factory=set)


@dataclass
class _Words:
    """A paragraph, or what is not to be told at all, and how deep it lies."""

    depth: int
    pieces: list[str] = field(default_factory=list)
    is_paragraph: bool = True


class Content(PlainScan):
    """The part that holds all sheets, put into grids."""

    run_pattern, cell_begins = RUN, b"<table:table-cell"

    def __init__(self, made: Opened, passing: Mapping[str, Mapping[int, range]]) -> None:
        super().__init__(made, CONTENT)
        self.passing = passing
        self.grids: dict[str, Grid] = {}
        self.names: dict[str, Area] = {}
        self.epoch = datetime.date(1899, 12, 30)
        self.grid: Grid | None = None
        self.passed = Passed({})
        self.tables = self.number = self.cells = 0  # nested tables, last row, filled cells
        self.line = _Row()
        self.attrs: dict[str, str] | None = None  # of the cell that the parser tells of
        self.cell_depth = 0
        self.notes_at: list[int] = []  # how deep the notes lie that are open
        self.words: list[_Words] = []
        self.said: tuple[list[str], list[str]] = ([], [])  # paragraphs of the cell, and of its notes

    # --- what the parser tells ---

    def _rules(self) -> dict[str, Act]:
        rules: dict[str, Act] = {
            "document-content": self._document,
            "table": self._table,
            "table-row": self._row_begins,
        }
        rules |= {"table-cell": self._cell_begins, "covered-table-cell": self._cell_begins, "p": self._paragraph}
        rules |= {"s": self._spaces, "tab": self._tab, "line-break": self._line_break, "annotation": self._note}
        return super()._rules() | rules | {"named-range": self._name, "null-date": self._null_date}

    def _closing(self) -> dict[str, Callable[[], None]]:
        ends = {"table": self._table_done, "table-row": self._row_done, "table-cell": self._cell_done}
        return ends | {"covered-table-cell": self._cell_done, "p": self._paragraph_done, "annotation": self._note_done}

    def _document(self, attrs: dict[str, str]) -> None:
        """Names of namespaces as every program has them."""
        called = {SPACES[uri]: key.partition(":")[2] for key, uri in attrs.items() if uri in SPACES}
        if any(name != other for name, other in called.items()):
            self.fail("names of its own for what every .ods names alike", "an .ods as an office program saves it")

    def _characters(self, content: str) -> None:
        super()._characters(content)
        if self.words:
            self.words[-1].pieces.append(content)

    def _table(self, attrs: dict[str, str]) -> None:
        self.tables += 1
        if self.grid is None:
            self.grid, self.number = Grid(attrs.get("table:name", "")), 0
            self.passed = Passed(self.passing.get(self.grid.title, {}))

    def _table_done(self) -> None:
        self.tables -= 1
        if self.grid is not None and not self.tables:
            self.grids.setdefault(self.grid.title, self.grid)
            self.grid = None

    def _row_begins(self, attrs: dict[str, str]) -> None:
        self._row_of_content(attrs)
        self.line = _Row(_times(attrs, "table:number-rows-repeated"))

    def _cell_begins(self, attrs: dict[str, str]) -> None:
        self._cell_of_content(attrs)
        if self.attrs is None:
            self.attrs, self.cell_depth, self.said = attrs, self.depth, ([], [])

    def _paragraph(self, _: dict[str, str]) -> None:
        if self.attrs is not None and self.depth - 1 in {self.cell_depth, *self.notes_at[-1:]}:
            self.words.append(_Words(self.depth))

    def _paragraph_done(self) -> None:
        if self.words and self.words[-1].is_paragraph and self.words[-1].depth == self.depth + 1:
            self.said[bool(self.notes_at)].append("".join(self.words.pop().pieces))

    def _piece(self, text: str) -> None:
        if self.words:
            self.words[-1].pieces.append(text)

    def _spaces(self, attrs: dict[str, str]) -> None:
        self._piece(" " * min(MOST_SPACES, _times(attrs, "text:c")))

    def _tab(self, _: dict[str, str]) -> None:
        self._piece("\t")

    def _line_break(self, _: dict[str, str]) -> None:
        self._piece("\n")

    def _note(self, _: dict[str, str]) -> None:
        """A note: of what stands in it only the paragraphs count, not its date and author."""
        self.notes_at.append(self.depth)
        self.words.append(_Words(self.depth, is_paragraph=False))

    def _note_done(self) -> None:
        self.notes_at.pop()
        self.words.pop()

    def _name(self, attrs: dict[str, str]) -> None:
        _take_name(self.names, attrs)

    def _null_date(self, attrs: dict[str, str]) -> None:
        self.epoch = datetime.date.fromisoformat(attrs.get("table:date-value", "1899-12-30"))

    def _cell_done(self) -> None:
        if self.attrs is not None and self.depth + 1 == self.cell_depth:
            attrs, self.attrs = self.attrs, None
            self._take(attrs, "\n".join(self.said[0]), "\n".join(self.said[1]).strip())

    # --- what becomes of it ---

    def _take(self, attrs: Mapping[str, str], words: str, note: str) -> None:
        """One cell, as often as it says it is repeated."""
        line, times = self.line, _times(attrs, "table:number-columns-repeated")
        formula = attrs.get("table:formula", "")
        value = _value(attrs, words)
        if self.grid is not None and (value is not None or formula or note):
            if line.at + times > LAST_COLUMN or self.number + line.times > LAST_ROW:
                found = f"something far out, in row {self.number + line.times}, column {line.at + times} ({self.grid.title})"
                self.fail(found, f"nothing below row {LAST_ROW} or right of column {LAST_COLUMN}")
            self.count(cells=times * line.times)
            raw = held(value, plain_formula(formula) if formula else "")
            line.filled += [(line.at + i, raw, note) for i in range(1, times + 1)]
        line.at += times

    def _row_done(self) -> None:
        line, grid = self.line, self.grid
        if grid is not None:
            for row in range(self.number + 1, self.number + 1 + (line.times if line.filled else 0)):
                for at, raw, note in line.filled:
                    if raw.formula and (row, at) in self.passed:
                        grid.passed[0].add(row)
                        grid.passed[1].add(at)
                    elif raw != Raw(None):
                        grid.cells[row, at] = raw
                    if note:
                        grid.notes[row, at] = note
            if line.passed:
                grid.passed[0].update(range(self.number + 1, self.number + 1 + line.times))
                grid.passed[1].update(line.passed)
            self.number += line.times
        self.line = _Row()

    # --- cells that are written as the office program writes them ---

    def run(self, data: bytes, _: re.Match[bytes]) -> None:
        """Cells that follow one another in a row."""
        line, row = self.line, self.number + 1
        cells = data.count(self.cell_begins)
        self._cells_of_content(cells)
        before = len(line.passed)
        for attrs, words in CELL.findall(data):
            if (
                FORMULA in attrs
                and (row, line.at + 1) in self.passed
                and line.times == 1
                and REPEATED not in attrs
                and not IS_CONSTANT.search(attrs)
            ):
                line.at += 1
                line.passed.add(line.at)
            else:
                self._take(_attributes(attrs), plain(words), "")
        self.count(elements=2 * cells, cells=len(line.passed) - before)


def _value(attrs: Mapping[str, str], words: str) -> Held | None:  # noqa: PLR0911  one return for each sort
    kind = attrs.get("office:value-type", "")
    given = attrs.get("office:value", "")
    match kind:
        case "float" | "percentage" | "currency":
            try:
                return float(given)
            except ValueError:
                return given
        case "date":
            given = attrs.get("office:date-value", "")
            try:
                found = datetime.datetime.fromisoformat(given)
            except ValueError:
                return given
            return found.replace(tzinfo=None)
        case "time":
            given = attrs.get("office:time-value", "")
            parts = DURATION.fullmatch(given)
            return _length(parts) if parts else given
        case "boolean":
            return attrs.get("office:boolean-value", "") == "true"
    return attrs.get("office:string-value") or words or None


def _length(parts: re.Match[str]) -> datetime.timedelta:
    hours, minutes, seconds = (float((p or "0").replace(",", ".")) for p in parts.groups()[1:])
    return datetime.timedelta(hours=min(hours, 1e6), minutes=min(minutes, 1e6), seconds=min(seconds, 1e6))


def plain_formula(text: str) -> str:
    """of:=SUM([.A1:.A3];2) as =SUM(A1:A3,2)."""
    formula = re.sub(r"^[a-z]+:(?==)", "", text)
    parts = formula.split('"')
    parts[::2] = [REFERENCE.sub(_reference, part).replace(";", ",") for part in parts[::2]]
    return '"'.join(parts)


def _reference(found: re.Match[str]) -> str:
    sheet, first, last = found.groups()
    where = ""
    if sheet:
        where = (sheet if sheet.startswith("'") else f"'{sheet}'") + "!"
    return where + first + (f":{last}" if last else "")
