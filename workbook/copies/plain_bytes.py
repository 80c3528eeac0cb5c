"""What makes reading fast: cells that are written as all programs write them are taken from the bytes.

Being called for each element is what takes time, and of a file of ours nine cells in ten are formulas that reading does not
want. Where plain cells follow one another, the parser goes through every byte as well, but calls nobody; what is wanted of
them is then taken from the bytes. Whatever is written in any other way comes through the parser's calls.
"""

import abc
import bisect
import re
from collections.abc import Mapping

from workbook.cells.placing import letters
from workbook.copies.grids import At
from workbook.copies.untrusted import BLOCK, LAST_COLUMN, LAST_ROW, Opened, Scan

BEGINS = re.compile(rb"\s*(?:<\?xml[^>]*\?>)?\s*(?=<[A-Za-z])")
ENCODED = re.compile(rb"encoding=[\"'](?!utf-8[\"'])", re.IGNORECASE)
NUMBERED = re.compile("&#(?:([0-9]+)|x([0-9A-Fa-f]+));")
ENTITIES = (("&lt;", "<"), ("&gt;", ">"), ("&quot;", '"'), ("&apos;", "'"), ("&amp;", "&"))


def plain(content: bytes) -> str:
    """Text of the file's bytes that the parser has gone through, as the parser tells it."""
    text = content.decode()
    if "\r" in text:
        text = text.replace("\r\n", "\n").replace("\r", "\n")
    if "&#" in text:
        text = NUMBERED.sub(_numbered, text)
    if "&" in text:
        for entity, letter in ENTITIES:
            text = text.replace(entity, letter)
    return text


def _numbered(found: re.Match[str]) -> str:
    letter = chr(int(found[1]) if found[1] else int(found[2], 16))
    return "&amp;" if letter == "&" else letter


class Passed:
    """The columns of one sheet in whose rows formulas are passed."""

    def __init__(self, passing: Mapping[int, range]) -> None:
        near = {at: rows for at, rows in passing.items() if at <= LAST_COLUMN}
        self.rows = {at: range(rows.start, min(rows.stop, LAST_ROW + 1)) for at, rows in near.items()}
        self.ends = sorted({end for rows in self.rows.values() for end in (rows.start, rows.stop)})
        self.between: dict[int, frozenset[bytes]] = {}

    def __contains__(self, place: At) -> bool:
        return place[0] in self.rows.get(place[1], ())

    def columns(self, row: int) -> frozenset[bytes]:
        """By their letters."""
        stretch = bisect.bisect(self.ends, row)
        if stretch not in self.between:
            self.between[stretch] = frozenset(letters(at).encode() for at, rows in self.rows.items() if row in rows)
        return self.between[stretch]


class PlainScan(Scan, abc.ABC):
    """A scan that takes runs of plain cells as bytes."""

    run_pattern: re.Pattern[bytes]
    cell_begins: bytes

    def __init__(self, made: Opened, part: str) -> None:
        super().__init__(made, part)
        self.rest, self.is_plain, self.has_begun = b"", True, False

    @abc.abstractmethod
    def run(self, data: bytes, found: re.Match[bytes]) -> None:
        """Take cells that the parser has gone through without a call."""

    def feed(self, block: bytes) -> None:
        """The next bytes."""
        data, self.rest, told = self.rest + block, b"", 0
        if not self.has_begun:
            told = self._begin(data)
        end = data.rfind(self.cell_begins)
        end = data.rfind(b"<") if end < 0 else end
        for found in self.run_pattern.finditer(data, told, end) if self.is_plain else ():
            start, stop = found.span()
            if not self._told(data[told:start]):
                told = start
                break
            cells = data[start:stop]
            self._hush(cells)
            self.run(cells, found)
            told = stop
        if self.is_plain:
            self._told(data[told:end])
            told = end
        if self.is_plain and len(data) - told <= BLOCK:
            self.rest = data[told:]
        else:
            self.is_plain = False
            self.parser.Parse(data[told:])

    def _begin(self, data: bytes) -> int:
        """Go by the declaration: only where each plain letter is a byte can cells be told from bytes."""
        found = BEGINS.match(data)
        end = found.end() if found else 0
        self.is_plain, self.has_begun = bool(found) and not ENCODED.search(data, 0, end), True
        self.parser.Parse(data[:end])
        return end

    def _told(self, data: bytes) -> bool:
        """Have all of it told; whether < still always begins an element: not in a comment, nor in what stands as it is."""
        self.is_plain = b"<!" not in data and b"<?" not in data
        self.parser.Parse(data)
        return self.is_plain

    def _hush(self, cells: bytes) -> None:
        parser = self.parser
        parser.StartElementHandler = parser.EndElementHandler = parser.CharacterDataHandler = None
        parser.Parse(cells)
        self.listen()

    def end(self) -> None:
        """The last bytes."""
        rest, self.rest = self.rest, b""
        self.parser.Parse(rest)
        super().end()
