"""Files from anywhere: each that should not be parsed is refused in one line, and none ends in a traceback or a hang."""

import functools
import io
import os
import random
import signal
import tempfile
import zipfile
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests import desk, returned
from tests.desk import Desk
from tests.effort import examples
from workbook.build import Plan, build
from workbook.copies.grids import Book
from workbook.copies.reading import read_copy
from workbook.copies.untrusted import LARGEST_FILE, opened
from workbook.copies.xlsx_grids import read_xlsx
from workbook.findings import BadInputError

SECONDS = 60
MUTATIONS = {"keeper": examples(400, 1_600), "shop": examples(40, 400, 120), "club": examples(40, 400, 120)}
SHEETS = {"shop": ("Start", "Stock list", "Suppliers", "Tanks"), "club": ("Start", "Tanks", "Proposals")}
Parts = dict[str, bytes]


@functools.cache
def whole(edition: str) -> Book:
    """A shop's or a club's file, as sheets of cells."""
    folder = Path(tempfile.mkdtemp(prefix="untrusted-"))
    path = folder / f"{edition}.xlsx"
    build(
        returned.small(folder / edition, edition, species=12), path, Plan(edition, spare_rows=1, plan_date=returned.DAY)
    )
    return read_xlsx(opened(path))


@functools.cache
def small(form: str, edition: str = "keeper") -> bytes:
    """A small real file."""
    path = Path(tempfile.mkdtemp(prefix="untrusted-")) / f"short {edition}.{form}"
    made = Desk.fresh("metric", 0)
    made.book = desk.short_book(*((whole(edition), SHEETS[edition]) if edition in SHEETS else ()))
    return (desk.write(made, path) if form == "xlsx" else desk.write_ods(made.book, path)).read_bytes()


def parts_of(data: bytes) -> Parts:
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def packed(path: Path, parts: Parts) -> Path:
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in parts.items():
            archive.writestr(name, content)
    return path


def refused(path: Path) -> str:
    """The one line that says why; the file stays as it was."""
    before = path.read_bytes() if path.is_file() else b""
    with pytest.raises(BadInputError) as caught:
        read_copy(path)
    assert len(caught.value.findings) == 1
    assert "\n" not in str(caught.value)
    assert (path.read_bytes() if path.is_file() else b"") == before
    return str(caught.value)


def sheet(cells: str) -> Callable[[Parts], Parts]:
    """Something else in the first sheet."""
    head = '<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">'
    return lambda parts: parts | {"xl/worksheets/sheet1.xml": f"{head}{cells}</worksheet>".encode()}


def with_part(name: str, content: bytes = b"x") -> Callable[[Parts], Parts]:
    return lambda parts: parts | {name: content}


def replaced(part: str, old: str, new: str) -> Callable[[Parts], Parts]:
    def change(parts: Parts) -> Parts:
        text = parts[part].decode()
        assert old in text
        return parts | {part: text.replace(old, new, 1).encode()}

    return change


def cells(count: int, start: int = 1) -> str:
    return (
        "<sheetData>"
        + "".join(f'<row r="{start + i}"><c r="A{start + i}"><v>1</v></c></row>' for i in range(count))
        + "</sheetData>"
    )


ENTITIES = '<!DOCTYPE x [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]>'
RELATION = '<Relationship Id="rId99" Type="http://x/externalLinkPath" Target="file:///etc/passwd" TargetMode="External"/></Relationships>'
HOSTILE: dict[str, tuple[Callable[[Parts], Parts], str]] = {
    "macros": (with_part("xl/vbaProject.bin"), "macros"),
    "macro sheet": (with_part("xl/macrosheets/sheet1.xml", b"<a/>"), "macros"),
    "macro type": (replaced("[Content_Types].xml", "spreadsheetml.sheet.main+xml", "x.macroEnabled.main+xml"), "macros"),
    "external link": (with_part("xl/externalLinks/externalLink1.xml", b"<a/>"), "links to other files"),
    "external relation": (replaced("xl/_rels/workbook.xml.rels", "</Relationships>", RELATION), "link to another file"),
    "dde": (with_part("xl/other.xml", b'<a><ddeLink ddeService="cmd"/></a>'), "link to other data"),
    "connection": (with_part("xl/connections.xml", b"<a/>"), "connection"),
    "embedded": (with_part("xl/embeddings/oleObject1.bin"), "another file inside"),
    "nested": (with_part("xl/media/more.zip"), "another file inside"),
    "nested by content": (with_part("xl/media/image1.png", b"PK\x03\x04abc"), "another file inside"),
    "path up": (with_part("../evil.xml", b"<a/>"), "leads out"),
    "absolute path": (with_part("/etc/evil.xml", b"<a/>"), "leads out"),
    "windows path": (with_part("xl\\..\\evil.xml", b"<a/>"), "leads out"),
    "entities": (with_part("xl/sharedStrings.xml", (ENTITIES + "<x>&b;</x>").encode()), "entities"),
    "plain doctype": (with_part("docProps/app.xml", b"<!DOCTYPE x><x/>"), "entities"),
    "far cell": (sheet('<sheetData><row r="1048576"><c r="XFD1048576"><v>1</v></c></row></sheetData>'), "far out"),
    "no such cell": (sheet('<sheetData><row r="1"><c r="ZZZZ99999999"><v>1</v></c></row></sheetData>'), "no sheet has"),
    "odd cell": (sheet('<sheetData><row r="1"><c r="1A"><v>1</v></c></row></sheetData>'), "a cell named"),
    "giant merge": (sheet('<sheetData/><mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells>'), "joined cells"),
    "deep": (with_part("xl/deep.xml", b"<a>" * 5000 + b"</a>" * 5000), "more in"),
    "long text": (sheet(f'<sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>{"x" * 1_100_000}</t></is></c></row></sheetData>'), "text of more than"),
    "many texts": (with_part("xl/sharedStrings.xml", b"<sst>" + b"".join(b"<si>%x</si>" % (i * 2_654_435_761 % 2**32) for i in range(400_001)) + b"</sst>"), "different texts"),
    "large styles": (with_part("xl/styles.xml", os.urandom(15_500_000).hex().encode()), "MB in xl/styles.xml"),
    "bomb": (with_part("xl/media/a.bin", bytes(30_000_000)), "times its size"),
    "many parts": (lambda parts: parts | {f"xl/media/{i}.bin": b"" for i in range(2_100)}, "parts inside"),
    "no workbook": (lambda _: {"a.txt": b"a"}, "no workbook"),
    "broken part": (with_part("xl/workbook.xml", b"<workbook><sheets>"), "damaged"),
    "strict": (replaced("xl/workbook.xml", "http://schemas.openxmlformats.org/spreadsheetml/2006/main", "http://purl.oclc.org/ooxml/spreadsheetml/main"), "strict"),
}  # fmt: skip


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_workbook_is_refused_in_one_line(name: str, tmp_path: Path) -> None:
    change, says = HOSTILE[name]
    assert says in refused(packed(tmp_path / "copy.xlsx", change(parts_of(small("xlsx")))))


ODS_HOSTILE: dict[str, tuple[Callable[[Parts], Parts], str]] = {
    "macros": (with_part("Basic/Standard/Module1.xml", b"<a/>"), "macros"),
    "password": (with_part("META-INF/manifest.xml", b'<manifest:manifest xmlns:manifest="m"><manifest:encryption-data/></manifest:manifest>'), "password"),
    "linked table": (replaced("content.xml", "<table:table-row>", '<table:table-source xmlns:xlink="x" xlink:href="file:///a.ods"/><table:table-row>'), "link to other data"),
    "dde": (replaced("content.xml", "<office:spreadsheet>", "<office:spreadsheet><table:dde-links><table:dde-link/></table:dde-links>"), "link to other data"),
    "script": (replaced("content.xml", "<office:body>", "<office:scripts><office:script/></office:scripts><office:body>"), "macros"),
    "entities": (lambda parts: parts | {"content.xml": ENTITIES.encode() + parts["content.xml"]}, "entities"),
    "repeated rows": (replaced("content.xml", "<table:table-row><", '<table:table-row table:number-rows-repeated="1048576"><'), "far out"),
    "repeated cells": (replaced("content.xml", '<table:table-cell office:value-type="string">', '<table:table-cell office:value-type="string" table:number-columns-repeated="16000">'), "far out"),
    "long row": (replaced("content.xml", "<table:table-row><", "<table:table-row>" + "<table:table-cell/>" * 20_001 + "<"), "cells in one row"),
    "many cells": (replaced("content.xml", '<table:table-row><table:table-cell office:value-type="string">',
                            '<table:table-row table:number-rows-repeated="100000"><table:table-cell office:value-type="string" table:number-columns-repeated="1900">'), "filled cells"),
    "another kind": (lambda parts: parts | {"mimetype": b"application/vnd.oasis.opendocument.text"}, "no workbook"),
}  # fmt: skip


@pytest.mark.parametrize("name", ODS_HOSTILE)
def test_hostile_open_document_is_refused_in_one_line(name: str, tmp_path: Path) -> None:
    change, says = ODS_HOSTILE[name]
    assert says in refused(packed(tmp_path / "copy.ods", change(parts_of(small("ods")))))


def test_what_is_no_workbook_at_all(tmp_path: Path) -> None:
    path = tmp_path / "copy.xlsx"
    for content, says in (
        (b"", "empty file"),
        (b"tank,length\n", "no workbook"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1rest", "password"),
        (b"PK\x03\x04", "damaged"),
    ):
        path.write_bytes(content)
        assert says in refused(path)
    assert "no such file" in refused(tmp_path / "gone.xlsx")
    assert "a folder" in refused(tmp_path)
    os.mkfifo(tmp_path / "pipe.xlsx")
    assert "no plain file" in refused_quietly(tmp_path / "pipe.xlsx")


def refused_quietly(path: Path) -> str:
    with pytest.raises(BadInputError) as caught:
        read_copy(path)
    return str(caught.value)


def test_a_file_too_large_is_not_read_to_its_end(tmp_path: Path) -> None:
    path = tmp_path / "large.xlsx"
    with path.open("wb") as file:
        file.truncate(LARGEST_FILE * 4)
    assert "more than 50 MB" in refused_quietly(path)


def test_a_part_twice_and_a_part_with_a_password(tmp_path: Path) -> None:
    path = packed(tmp_path / "copy.xlsx", parts_of(small("xlsx")))
    with pytest.warns(UserWarning, match="Duplicate"), zipfile.ZipFile(path, "a") as archive:
        archive.writestr("xl/workbook.xml", b"<a/>")
    assert "twice" in refused(path)
    data = bytearray(small("xlsx"))
    entry = data.index(b"PK\x01\x02")
    data[entry + 8] |= 1
    path.write_bytes(data)
    assert "password" in refused(path)


def test_a_lying_dimension_and_styled_far_cells_do_no_harm(tmp_path: Path) -> None:
    parts = parts_of(small("xlsx"))
    name = "xl/worksheets/sheet3.xml"
    text = parts[name].decode()
    start, end = text.index("<dimension"), text.index("/>", text.index("<dimension")) + 2
    lying = text[:start] + '<dimension ref="A1:B2"/>' + text[end:]
    parts[name] = lying.replace("</sheetData>", '<row r="1048576"/></sheetData>').encode()
    wanted = tmp_path / "plain.xlsx"
    wanted.write_bytes(small("xlsx"))
    assert read_copy(packed(tmp_path / "copy.xlsx", parts)).tables == read_copy(wanted).tables


def test_a_comment_by_an_author_who_is_not_there(tmp_path: Path) -> None:
    """Some programs save such comments, which end other readers."""
    made = Desk.fresh("metric", 0)
    made.book = desk.short_book()
    tank = desk.base("metric").names["tanks_tank"]
    made.book.grids["Tanks"].notes[tank.top, tank.left] = "leaks"
    parts = parts_of(desk.write(made, tmp_path / "a.xlsx").read_bytes())
    name = next(name for name in parts if "comment" in name and name.endswith(".xml"))
    parts[name] = parts[name].replace(b'authorId="0"', b'authorId="7"')
    assert read_copy(packed(tmp_path / "b.xlsx", parts)).tables["tanks"][0].notes == {"tank": "leaks"}


class TooLate(BaseException):
    """Past the deadline; no reader may catch it."""


@pytest.fixture
def deadline() -> Iterator[Callable[[], None]]:
    """To be called before each file: it must be done with in time."""

    def late(*_: object) -> None:
        raise TooLate

    before = signal.signal(signal.SIGALRM, late)
    yield lambda: signal.alarm(SECONDS) and None
    signal.alarm(0)
    signal.signal(signal.SIGALRM, before)


def mutated(dice: random.Random, data: bytes) -> bytes:
    """Bytes changed, lost, doubled or cut off."""
    made = bytearray(data)
    for _ in range(dice.choice((1, 1, 2, 8, 40))):
        at, length = dice.randrange(len(made) or 1), dice.choice((1, 1, 2, 16, 300))
        match dice.randrange(5):
            case 0:
                made[at : at + length] = dice.randbytes(length)
            case 1:
                del made[at : at + length]
            case 2:
                made[at:at] = made[at : at + length]
            case 3:
                made[at : at + 1] = dice.choice((b"<", b">", b'"', b"&", b"\x00", b"-", b"9", b"\xff"))
            case 4 if dice.random() < 0.2:
                del made[at:]
    return bytes(made)


@pytest.mark.parametrize("edition", MUTATIONS)
@pytest.mark.parametrize("form", ["xlsx", "ods"])
def test_mutated_files_end_in_content_or_in_one_line(
    form: str, edition: str, tmp_path: Path, deadline: Callable[[], None]
) -> None:
    data = small(form, edition)
    parts = parts_of(data)
    read, unclear = 0, []
    for seed in range(MUTATIONS[edition] // 2):
        dice = random.Random(f"{edition} {form} {seed}")
        path = tmp_path / f"copy.{form}"
        if seed % 2:
            path.write_bytes(mutated(dice, data))
        else:
            name = dice.choice(list(parts))
            packed(path, parts | {name: mutated(dice, parts[name])})
        deadline()
        try:
            read_copy(path)
            read += 1
        except BadInputError as error:
            unclear += [seed] * (len(error.findings) != 1)
    assert unclear == []
    assert read > MUTATIONS[edition] // 120  # some changes do no harm


def test_a_good_file_passes(tmp_path: Path) -> None:
    for form in ("xlsx", "ods"):
        path = tmp_path / f"good.{form}"
        path.write_bytes(small(form))
        assert opened(path).sort == form
        assert len(read_copy(path).tables["tanks"]) == 3
