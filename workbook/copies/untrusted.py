"""Whatever reads a file that came back: is it a workbook, of sane size, and free of what acts by itself?

Every part goes through a Scan from its first byte to its last: small parts before anything else looks at them, the large
ones in the same pass that reads them.
"""

import io
import re
import zipfile
import zlib
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import NoReturn
from xml.parsers import expat

from workbook.findings import BadInputError, Finding

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
BLOCK = 1 << 18  # bytes that are read at a time
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


@dataclass
class Budget:
    """How much of everything has been seen in all parts together."""

    elements: int = 0
    cells: int = 0
    merged: int = 0


@dataclass
class Opened:
    """A file that may be parsed: its bytes, which sort it is, what has been seen of it, and the parts that are scanned while they are read."""

    name: str
    sort: str
    data: bytes
    budget: Budget = field(default_factory=Budget)
    unread: set[str] = field(default_factory=set)

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
    """Every part but those that are read as streams: they are scanned while they are read."""
    for info in archive.infolist():
        part = info.filename
        if not part.endswith((".xml", ".rels", ".rdf")):
            if not part.endswith("/"):
                with archive.open(info) as stream:
                    if stream.read(4) == ZIP:
                        refuse(made.name, f"another file inside ({part})")
        elif STREAMED.fullmatch(part):
            made.unread.add(part)
        else:
            Scan(made, part).read(archive)


def at(place: str) -> tuple[int, int] | None:
    """Row and column of an address such as B7; none when it is no address."""
    found = PLACE.fullmatch(place)
    if not found:
        return None
    column = 0
    for letter in found[1].upper():
        column = column * 26 + ord(letter) - 64
    return int(found[2]), column


Act = Callable[[dict[str, str]], None]


class Scan:
    """Looks at each element of one part, and ends what is out of all measure; a reader of a part is one that keeps what it sees."""

    def __init__(self, made: Opened, part: str) -> None:
        self.made, self.part, self.budget = made, part, made.budget
        self.depth = self.row = self.column = self.length = self.texts = 0
        self.cell: tuple[int, int] | None = None
        self.filled = False
        self.starts: dict[str, Act | None] = {}
        self.ends: dict[str, Callable[[], None] | None] = {}
        self.look, self.close = self._rules(), self._closing()
        self.parser = expat.ParserCreate()
        self.parser.buffer_text = True
        # Whatever defines an entity or points outside stands in a document type: none is allowed.
        self.parser.StartDoctypeDeclHandler = self._doctype
        self.listen()

    def _rules(self) -> dict[str, Act]:
        look: dict[str, Act] = {"Relationship": self._relationship}
        if self.made.sort == XLSX:
            look |= {"Override": self._content_type, "Default": self._content_type, "ddeLink": self._reaches_out}
            look |= {"oleLink": self._reaches_out, "workbook": self._root, "worksheet": self._root}
        else:
            look |= {"manifest:encryption-data": self._encrypted, "table:dde-link": self._reaches_out}
            look |= {"table:cell-range-source": self._reaches_out, "table:table-source": self._reaches_out}
            look |= {"office:dde-source": self._reaches_out, "office:script": self._script}
        if self.made.sort == ODS and self.part == "content.xml":
            look |= {"table-row": self._row_of_content, "table-cell": self._cell_of_content}
        if self.part == "xl/sharedStrings.xml":
            look |= {"si": self._text}
        if self.made.sort == XLSX and self.part.startswith("xl/worksheets/"):
            look |= {"row": self._row, "c": self._cell, "f": self._formula, "v": self._value, "is": self._value}
            look |= {"mergeCell": self._merge}
        return look

    def _closing(self) -> dict[str, Callable[[], None]]:
        """What a reader does at the end of elements."""
        return {}

    def read(self, archive: zipfile.ZipFile) -> None:
        """The part from its first byte to its last; one with nothing in it is none."""
        self.made.unread.discard(self.part)
        if archive.getinfo(self.part).file_size == 0:
            return
        try:
            with archive.open(self.part) as stream:
                while block := stream.read(BLOCK):
                    self.feed(block)
            self.end()
        except expat.ExpatError:
            self.fail(f"a damaged file (in {self.part})", WHOLE)
        except (zipfile.BadZipFile, zlib.error, EOFError):
            self.fail("a damaged file", WHOLE)

    def feed(self, block: bytes) -> None:
        """The next bytes."""
        self.parser.Parse(block)

    def end(self) -> None:
        """There are no more."""
        self.parser.Parse(b"", True)  # noqa: FBT003  the interface has no name for it

    def listen(self) -> None:
        """Be told of everything."""
        parser = self.parser
        parser.StartElementHandler, parser.EndElementHandler = self._start, self._end
        parser.CharacterDataHandler = self._characters

    def fail(self, found: str, expected: str = EXPECTED) -> NoReturn:
        """End here."""
        refuse(self.made.name, found, expected)

    def _doctype(self, *_: object) -> None:
        self.fail(
            f"abbreviations that stand for other text (entities) in {self.part}", f"{EXPECTED} by an office program"
        )

    def _start(self, name: str, attrs: dict[str, str]) -> None:
        self.depth += 1
        self.length = 0
        self.count(elements=1)
        if self.depth > DEEPEST:
            self._too_much()
        if name not in self.starts:
            self.starts[name] = self.look.get(name) or self.look.get(name.rpartition(":")[2])
        if act := self.starts[name]:
            act(attrs)

    def _end(self, name: str) -> None:
        self.depth -= 1
        self.length = 0
        if name not in self.ends:
            self.ends[name] = self.close.get(name.rpartition(":")[2])
        if act := self.ends[name]:
            act()

    def _characters(self, content: str) -> None:
        """Text; a single one out of all measure ends it."""
        self.length += len(content)
        if self.length > LONGEST_TEXT:
            self.fail(f"a text of more than {LONGEST_TEXT} letters")

    def count(self, elements: int = 0, cells: int = 0) -> None:
        """Add to what has been seen of the whole file."""
        self.budget.elements += elements
        self.budget.cells += cells
        if self.budget.elements > MOST_ELEMENTS:
            self._too_much()
        if self.budget.cells > MOST_CELLS:
            self.fail(f"more than {MOST_CELLS} filled cells", "a smaller file: fewer spare rows")

    def _too_much(self) -> NoReturn:
        self.fail(f"more in {self.part} than a workbook holds", "a smaller file: fewer spare rows")

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
        self.count(cells=1)
        if self.cell[0] > LAST_ROW or self.cell[1] > LAST_COLUMN:
            self.far(self.cell)

    def far(self, cell: tuple[int, int]) -> NoReturn:
        """End at a cell out there."""
        self.fail(f"something far out, in row {cell[0]}, column {cell[1]} ({self.part})",
                  f"nothing below row {LAST_ROW} or right of column {LAST_COLUMN}")  # fmt: skip

    def _value(self, _: dict[str, str]) -> None:
        self._filled()

    def _formula(self, _: dict[str, str]) -> None:
        self._filled()

    def _row_of_content(self, _: dict[str, str]) -> None:
        self.column = 0

    def _cell_of_content(self, _: dict[str, str]) -> None:
        self._cells_of_content(1)

    def _cells_of_content(self, cells: int) -> None:
        self.column += cells
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
