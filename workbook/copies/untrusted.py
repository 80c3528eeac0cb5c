"""Before any parser sees a file that came back: is it a workbook, of sane size, and free of what acts by itself?"""

import io
import re
import zipfile
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn
from xml.sax import SAXException
from xml.sax.handler import ContentHandler

import defusedxml.sax
from defusedxml.common import DefusedXmlException

from workbook.findings import BadInputError, Finding

if TYPE_CHECKING:
    from collections.abc import Callable

# Ten times the largest room that was tried; a file of ours with 24 tanks has 2 MB, 19 MB unpacked and 150,000 cells.
LARGEST_FILE, LARGEST_TOTAL = 50_000_000, 500_000_000
MOST_ENTRIES, MOST_CELLS, MOST_ELEMENTS, DEEPEST = 2_000, 1_500_000, 6_000_000, 100
MOST_TEXTS, MOST_IN_ROW = 400_000, 20_000
# Parts that are read as a whole; those of sheets, shared texts and content are streams.
LARGEST_PART, STREAMED = 30_000_000, re.compile(r"xl/(worksheets/[^/]+|sharedStrings)\.xml|content\.xml")
LAST_ROW, LAST_COLUMN = 110_000, 2_000
MOST_MERGED = 100_000  # cells under merges
RATIO, RATIO_FROM = 300, 2_000_000  # repeated empty rows pack well; bombs pack a thousand to one
LONGEST_TEXT = 1_000_000
XLSX, ODS = "xlsx", "ods"
EXPECTED = "a workbook saved as .xlsx or .ods"
WHOLE = f"{EXPECTED}: have it sent again, or open it in an office program and save it anew"
OLE, ZIP = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", b"PK\x03\x04"
ODS_TYPE = b"application/vnd.oasis.opendocument.spreadsheet"
ACTIVE = re.compile(
    r"vbaproject|vbadata|(^|/)(macrosheets|dialogsheets|activex|embeddings|externallinks|querytables|ctrlprops|customui|webextensions|model)/"
    r"|(^|/)connections\.xml$|^(basic|scripts|dialogs)/."
)
NESTED = re.compile(r"\.(zip|xlsx|xlsm|xlsb|xls|ods|odt|docx|jar|7z|gz|bin\.zip)$")
SAYS = {
    "vba": "macros",
    "macro": "macros",
    "dialog": "macros",
    "basic": "macros",
    "scripts": "macros",
    "externallinks": "links to other files",
    "connections": "a connection to other data",
    "querytables": "a connection to other data",
    "embeddings": "another file inside",
}
PLACE = re.compile(r"\$?([A-Za-z]{1,4})\$?([0-9]{1,10})")
# Formulas that fetch from outside or start programs: never carried, never evaluated.
REACHES_OUT = re.compile(
    r"\[[^\]]*\]\S*!|\||\bfile:|https?:|\b(WEBSERVICE|RTD|CALL|REGISTER(\.ID)?|EXEC|DDE|IMPORT\w+|IMAGE|FILTERXML|HYPERLINK|INFO|CUBE\w+)\s*\(",
    re.IGNORECASE,
)


@dataclass(frozen=True)
class Formula:
    """A formula as it stands in a sheet's part; a shared one is only written out in its first cell."""

    text: str
    shared: str = ""


@dataclass
class Opened:
    """A file that may be parsed: its bytes, which sort it is, the formulas of each sheet's part by row and column, and its last filled row."""

    name: str
    sort: str
    data: bytes
    formulas: dict[str, dict[tuple[int, int], Formula]] = field(default_factory=dict)
    last_rows: dict[str, int] = field(default_factory=dict)

    def archive(self) -> zipfile.ZipFile:
        """The parts."""
        return zipfile.ZipFile(io.BytesIO(self.data))


def refuse(name: str, found: str, expected: str = EXPECTED) -> NoReturn:
    """End with the one line that says why."""
    raise BadInputError([Finding(name, None, "", found, expected)])


def opened(path: Path) -> Opened:
    """The file's bytes, once everything about it is sane; BadInputError with one line otherwise."""
    data = _bytes(path)
    name = path.name
    if not data:
        refuse(name, "an empty file")
    if data.startswith(OLE):
        refuse(name, "a file protected by a password, or one of the old .xls kind", f"{EXPECTED}, without a password")
    if not data.startswith(ZIP):
        refuse(name, "something that is no workbook")
    try:
        archive = zipfile.ZipFile(io.BytesIO(data))
        with archive:
            _entries(name, archive)
            made = Opened(name, _sort(name, archive), data)
            _scan(made, archive)
    except Exception as error:  # zlib and the depths of zipfile raise what they like
        if isinstance(error, BadInputError):
            raise
        refuse(name, "a damaged file", WHOLE)
    return made


def _bytes(path: Path) -> bytes:
    name = path.name
    if path.is_dir():
        refuse(name, "a folder")
    try:
        if not path.is_file():
            refuse(name, "no such file" if not path.exists() else "something that is no plain file")
        with path.open("rb") as file:
            data = file.read(LARGEST_FILE + 1)
    except OSError as error:
        refuse(name, str(error.strerror or error), "a file that can be read")
    if len(data) > LARGEST_FILE:
        refuse(name, f"more than {LARGEST_FILE // 10**6} MB", "a smaller file: fewer spare rows")
    return data


def _entries(name: str, archive: zipfile.ZipFile) -> None:
    """The list of parts, before any of them is unpacked."""
    infos = archive.infolist()
    if len(infos) > MOST_ENTRIES:
        refuse(name, f"{len(infos)} parts inside", f"a workbook of at most {MOST_ENTRIES} parts")
    if sum(info.file_size for info in infos) > LARGEST_TOTAL:
        refuse(name, f"more than {LARGEST_TOTAL // 10**6} MB when unpacked", "a smaller file: fewer spare rows")
    seen: set[str] = set()
    for info in infos:
        if info.filename.casefold() in seen:
            refuse(name, f"the part {info.filename} twice")
        seen.add(info.filename.casefold())
        _entry(name, info)


def _entry(name: str, info: zipfile.ZipInfo) -> None:
    """One part by its name and sizes."""
    part, low = info.filename, info.filename.casefold()
    if part.startswith("/") or "\\" in part or ":" in part or ".." in part.split("/") or "\0" in info.orig_filename:
        refuse(name, f"a part named {part!r}, which leads out of the file")
    if info.flag_bits & 1:
        refuse(name, "a file protected by a password", f"{EXPECTED}, without a password")
    if info.file_size > RATIO_FROM and info.file_size > RATIO * max(1, info.compress_size):
        refuse(name, f"a part that unpacks to {info.file_size // max(1, info.compress_size)} times its size")
    if info.file_size > LARGEST_PART and low.endswith((".xml", ".rels")) and not STREAMED.fullmatch(part):
        refuse(name, f"{info.file_size // 10**6} MB in {part}", f"{EXPECTED} by an office program")
    if found := ACTIVE.search(low):
        what = next((says for key, says in SAYS.items() if key in found[0]), "parts that act by themselves")
        refuse(name, f"{what} ({part})", f"{EXPECTED}, without macros and links")
    if NESTED.search(low):
        refuse(name, f"another file inside ({part})")


def _sort(name: str, archive: zipfile.ZipFile) -> str:
    parts = set(archive.namelist())
    if "[Content_Types].xml" in parts and "xl/workbook.xml" in parts:
        return XLSX
    if "mimetype" in parts and "content.xml" in parts:
        with archive.open("mimetype") as part:
            if part.read(200).strip() == ODS_TYPE:
                return ODS
    return refuse(name, "a packed file that is no workbook")


def _scan(made: Opened, archive: zipfile.ZipFile) -> None:
    """Every part of XML once, as a stream."""
    budget = Budget()
    for info in archive.infolist():
        part = info.filename
        if not part.endswith((".xml", ".rels", ".rdf")):
            if not part.endswith("/"):
                with archive.open(info) as stream:
                    if stream.read(4) == ZIP:
                        refuse(made.name, f"another file inside ({part})")
            continue
        if info.file_size == 0:
            continue
        handler = Scan(made, part, budget)
        parser = defusedxml.sax.make_parser()
        parser.forbid_dtd = True
        parser.setContentHandler(handler)
        try:
            with archive.open(info) as stream:
                parser.parse(stream)
        except DefusedXmlException:
            refuse(
                made.name,
                f"abbreviations that stand for other text (entities) in {part}",
                f"{EXPECTED} by an office program",
            )
        except SAXException:
            refuse(made.name, f"a damaged file (in {part})", WHOLE)
        if handler.is_sheet:
            made.formulas[part], made.last_rows[part] = handler.formulas, handler.last_row


@dataclass
class Budget:
    """How much of everything has been seen in all parts together."""

    elements: int = 0
    cells: int = 0
    merged: int = 0


def at(place: str) -> tuple[int, int] | None:
    """Row and column of an address such as B7; none when it is no address."""
    found = PLACE.fullmatch(place)
    if not found:
        return None
    column = 0
    for letter in found[1].upper():
        column = column * 26 + ord(letter) - 64
    return int(found[2]), column


class Scan(ContentHandler):
    """Looks at each element of one part, keeps formulas, ends what is out of all measure."""

    def __init__(self, made: Opened, part: str, budget: Budget) -> None:
        super().__init__()
        self.made, self.part, self.budget = made, part, budget
        self.formulas: dict[tuple[int, int], Formula] = {}
        self.depth = self.row = self.column = self.length = 0
        self.cell: tuple[int, int] | None = None
        self.last_row = self.texts = 0
        self.filled = False
        self.text: list[str] | None = None
        self.shared = ""
        self.is_sheet = made.sort == XLSX and part.startswith("xl/worksheets/") and part.endswith(".xml")
        self.is_content = made.sort == ODS and part == "content.xml"
        look: dict[str, Callable[[dict[str, str]], None]] = {"Relationship": self._relationship}
        if made.sort == XLSX:
            look |= {"Override": self._content_type, "Default": self._content_type, "ddeLink": self._reaches_out}
            look |= {"oleLink": self._reaches_out, "workbook": self._root, "worksheet": self._root}
        else:
            look |= {"manifest:encryption-data": self._encrypted, "table:dde-link": self._reaches_out}
            look |= {"table:cell-range-source": self._reaches_out, "table:table-source": self._reaches_out}
            look |= {"office:dde-source": self._reaches_out, "office:script": self._script}
        if self.is_content:
            look |= {"table-row": self._row_of_content, "table-cell": self._cell_of_content}
        if part == "xl/sharedStrings.xml":
            look |= {"si": self._text}
        if self.is_sheet:
            look |= {"row": self._row, "c": self._cell, "f": self._formula, "v": self._value, "is": self._value}
            look |= {"mergeCell": self._merge}
        self.look = look

    def fail(self, found: str, expected: str = EXPECTED) -> NoReturn:
        """End here."""
        refuse(self.made.name, found, expected)

    def startElement(self, name: str, attrs: object) -> None:  # noqa: N802  the interface's name
        self.depth += 1
        self.length = 0
        self.budget.elements += 1
        if self.depth > DEEPEST or self.budget.elements > MOST_ELEMENTS:
            self.fail(f"more in {self.part} than a workbook holds", "a smaller file: fewer spare rows")
        act = self.look.get(name) or self.look.get(name.rpartition(":")[2])
        if act:
            act(dict(attrs.items()))  # type: ignore[attr-defined]

    def endElement(self, name: str) -> None:  # noqa: N802  the interface's name
        self.depth -= 1
        self.length = 0
        if self.text is not None and name.rpartition(":")[2] == "f":
            if self.cell:
                self.formulas[self.cell] = Formula("".join(self.text), self.shared)
            self.text = None

    def characters(self, content: str) -> None:
        """Text; a single one out of all measure ends it."""
        self.length += len(content)
        if self.length > LONGEST_TEXT:
            self.fail(f"a text of more than {LONGEST_TEXT} letters")
        if self.text is not None:
            self.text.append(content)

    def _row(self, attrs: dict[str, str]) -> None:
        number = attrs.get("r", "")
        if number and not (number.isascii() and number.isdecimal() and len(number) < 9):
            self.fail(f"a row numbered {number!r}")
        self.row, self.column = int(number) if number else self.row + 1, 0

    def _cell(self, attrs: dict[str, str]) -> None:
        self.column += 1
        place = attrs.get("r")
        here = at(place) if place else (self.row, self.column)
        if here is None:
            self.fail(f"a cell named {place!r}")
        self.cell, self.column, self.filled = here, here[1], False
        # A program may ask for every column up to a styled one, so far cells are refused even when empty.
        if self.column > 16_384 or here[0] > 1_048_576:
            self.fail(f"the cell {place}, which no sheet has")

    def _filled(self) -> None:
        if self.filled or not self.cell:
            return
        self.filled = True
        self.budget.cells += 1
        if self.budget.cells > MOST_CELLS:
            self.fail(f"more than {MOST_CELLS} filled cells", "a smaller file: fewer spare rows")
        row, column = self.cell
        self.last_row = max(self.last_row, row)
        if row > LAST_ROW or column > LAST_COLUMN:
            self.fail(f"something far out, in row {row}, column {column} ({self.part})",
                      f"nothing below row {LAST_ROW} or right of column {LAST_COLUMN}")  # fmt: skip

    def _value(self, _: dict[str, str]) -> None:
        self._filled()

    def _formula(self, attrs: dict[str, str]) -> None:
        self._filled()
        self.text, self.shared = [], attrs.get("si", "") if attrs.get("t") == "shared" else ""

    def _row_of_content(self, _: dict[str, str]) -> None:
        self.column = 0

    def _cell_of_content(self, _: dict[str, str]) -> None:
        self.column += 1
        if self.column > MOST_IN_ROW:
            self.fail(f"more than {MOST_IN_ROW} cells in one row")

    def _text(self, _: dict[str, str]) -> None:
        self.texts += 1
        if self.texts > MOST_TEXTS:
            self.fail(f"more than {MOST_TEXTS} different texts", "a smaller file: fewer spare rows")

    def _merge(self, attrs: dict[str, str]) -> None:
        ends = [at(part) for part in attrs.get("ref", "").split(":")]
        first, last = ends[0], ends[-1]
        if first is None or last is None:
            self.fail(f"joined cells named {attrs.get('ref', '')!r}")
        self.budget.merged += (abs(last[0] - first[0]) + 1) * (abs(last[1] - first[1]) + 1)
        if self.budget.merged > MOST_MERGED:
            self.fail(f"joined cells over {attrs['ref']}", "no joined cells of that size")

    def _relationship(self, attrs: dict[str, str]) -> None:
        if attrs.get("TargetMode") == "External" and not attrs.get("Type", "").endswith("/hyperlink"):
            self.fail(f"a link to another file ({self.part})", f"{EXPECTED}, without links to other files")

    def _content_type(self, attrs: dict[str, str]) -> None:
        if "macroenabled" in attrs.get("ContentType", "").casefold():
            self.fail("a workbook with macros", f"{EXPECTED}, without macros and links")

    def _root(self, attrs: dict[str, str]) -> None:
        if any("purl.oclc.org" in value for key, value in attrs.items() if key.startswith("xmlns")):
            self.fail("the strict kind of .xlsx", "an ordinary .xlsx or .ods")

    def _reaches_out(self, _: dict[str, str]) -> None:
        self.fail(f"a link to other data ({self.part})", f"{EXPECTED}, without links to other files")

    def _encrypted(self, _: dict[str, str]) -> None:
        self.fail("a file protected by a password", f"{EXPECTED}, without a password")

    def _script(self, _: dict[str, str]) -> None:
        self.fail("macros", f"{EXPECTED}, without macros and links")
