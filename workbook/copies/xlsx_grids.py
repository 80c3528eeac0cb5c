"""An .xlsx file as sheets of cells: what its small parts tell of sheets, names, formats and notes."""

import datetime
import posixpath
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass, field
from xml.etree.ElementTree import Element

from defusedxml import ElementTree

from workbook.copies.grids import Area, At, Book, Grid, Passing, area_of, pass_nothing
from workbook.copies.untrusted import Opened, Scan, at, refuse
from workbook.copies.xlsx_cells import BUILT_IN_DAYS, BUILT_IN_SPANS, Cells, Meaning, Texts, shows_days, shows_spans

MOST_NAMES = 50_000
WORKBOOK = "xl/workbook.xml"


@dataclass
class Told:
    """What the workbook's own part says: its sheets with their parts, its names, and day 0 of its dates."""

    sheets: dict[str, str] = field(default_factory=dict)
    names: dict[str, Area] = field(default_factory=dict)
    epoch: datetime.date = datetime.date(1899, 12, 30)


def read_xlsx(made: Opened, passing: Passing = pass_nothing) -> Book:
    """Every sheet of the file; of formulas in rows that are passed only that they are there."""
    with made.archive() as archive:
        related = _related(archive, WORKBOOK)
        told, facts = _told(made.name, archive, related), _facts(archive)
        meaning = _meaning(made, archive, related, told.epoch)
        passed = passing(told.names, facts)
        grids = {}
        for title, part in told.sheets.items():
            grids[title] = grid = Grid(title, notes=_notes(archive, part))
            Cells(made, part, grid, meaning, passed.get(title, {})).read(archive)
        for part in sorted(made.unread):  # of no sheet, and looked at all the same
            Scan(made, part).read(archive)
    return Book(made.name, grids, told.names, facts, told.epoch)


def _local(element: Element) -> str:
    return str(element.tag).rpartition("}")[2]


def _root(archive: zipfile.ZipFile, part: str) -> Iterator[Element]:
    """Every element of a part; none of a part that is not there."""
    if part not in archive.namelist() or not archive.getinfo(part).file_size:
        return iter(())
    return iter(ElementTree.fromstring(archive.read(part), forbid_dtd=True).iter())


def _related(archive: zipfile.ZipFile, part: str) -> dict[str, tuple[str, str]]:
    """Kind and part of everything a part points to, by its id."""
    folder, name = posixpath.split(part)
    found = {}
    for element in _root(archive, f"{folder}/_rels/{name}.rels"):
        target = element.get("Target", "")
        place = target.lstrip("/") if target.startswith("/") else posixpath.normpath(f"{folder}/{target}")
        if place in archive.namelist():
            found[element.get("Id", "")] = (element.get("Type", "").rpartition("/")[2], place)
    return found


def _told(name: str, archive: zipfile.ZipFile, related: dict[str, tuple[str, str]]) -> Told:
    told, names = Told(), 0
    for element in _root(archive, WORKBOOK):
        match _local(element):
            case "sheet":
                key = next((value for attribute, value in element.items() if attribute.endswith("}id")), "")
                kind, part = related.get(key, ("", ""))
                if kind == "worksheet":
                    told.sheets.setdefault(element.get("name", ""), part)
            case "workbookPr" if element.get("date1904") in {"1", "true"}:
                told.epoch = datetime.date(1904, 1, 1)
            case "definedName" if element.get("localSheetId") is None:
                names += 1
                if area := area_of(element.text or ""):
                    told.names[element.get("name", "").casefold()] = area
    if names > MOST_NAMES:
        refuse(name, f"{names} names", f"at most {MOST_NAMES}")
    told.names = {key: area for key, area in told.names.items() if area.sheet in told.sheets}
    return told


def _facts(archive: zipfile.ZipFile) -> dict[str, str]:
    """The custom properties."""
    properties = (e for e in _root(archive, "docProps/custom.xml") if _local(e) == "property")
    return {element.get("name", ""): "".join(element.itertext()).strip() for element in properties}


def _meaning(
    made: Opened, archive: zipfile.ZipFile, related: dict[str, tuple[str, str]], epoch: datetime.date
) -> Meaning:
    parts = dict(related.values())
    texts = Texts(made, parts["sharedStrings"]) if "sharedStrings" in parts else None
    if texts:
        texts.read(archive)
    days, spans = _styles(archive, parts.get("styles", ""))
    return Meaning(texts.found if texts else (), days, spans, epoch)


def _styles(archive: zipfile.ZipFile, part: str) -> tuple[frozenset[str], frozenset[str]]:
    """The numbers of the styles that show days or times, and of those among them that show spans."""
    codes: dict[str, str] = {}
    used: list[str] = []
    for element in _root(archive, part):
        if _local(element) == "numFmt":
            codes.setdefault(element.get("numFmtId", ""), element.get("formatCode", ""))
        elif _local(element) == "cellXfs":
            used = [style.get("numFmtId", "0") for style in element if _local(style) == "xf"]
    days = {str(number) for number in BUILT_IN_DAYS} - {*codes} | {
        key for key, code in codes.items() if shows_days(code)
    }
    spans = {str(number) for number in BUILT_IN_SPANS} - {*codes} | {
        key for key, code in codes.items() if shows_spans(code)
    }
    return (
        frozenset(str(at) for at, code in enumerate(used) if code in days),
        frozenset(str(at) for at, code in enumerate(used) if code in spans),
    )


def _notes(archive: zipfile.ZipFile, part: str) -> dict[At, str]:
    """Words on cells."""
    found: dict[At, str] = {}
    related = _related(archive, part).values()
    threads = [other for kind, other in related if kind == "threadedComment"]
    # A conversation also stands in the plain comments, behind words of the program's own.
    for other in threads or [other for kind, other in related if kind == "comments"]:
        for element in _root(archive, other):
            if _local(element) not in {"comment", "threadedComment"}:
                continue
            place = at(element.get("ref", ""))
            words = "".join(e.text or "" for e in element.iter() if _local(e) in {"t", "text"} and not _is_sound(e))
            if place and words.strip():
                found[place] = f"{found[place]}\n{words.strip()}" if place in found else words.strip()
    return found


def _is_sound(element: Element) -> bool:
    """Phonetic guides are said, not written."""
    return _local(element) == "rPh"
