"""An .xlsx file as sheets of cells: openpyxl reads the values, the scan of the file has read the formulas."""

import posixpath
import re
import warnings
import zipfile
from xml.etree.ElementTree import Element

import openpyxl
from defusedxml import ElementTree
from openpyxl.formula.tokenizer import TokenizerError
from openpyxl.formula.translate import Translator, TranslatorError
from openpyxl.workbook import Workbook

from workbook.copies.grids import At, Book, Grid, Raw, address, area_of, held
from workbook.copies.untrusted import LAST_COLUMN, Formula, Opened, at, refuse

CODED = re.compile(r"_x([0-9A-Fa-f]{4})_")
MOST_NAMES = 50_000


def read_xlsx(made: Opened) -> Book:
    """Every sheet of the file."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # openpyxl tells of looks that it leaves out
        return _read(made)


def _read(made: Opened) -> Book:
    with made.archive() as archive:
        parts = _parts(archive)
        notes = {title: _notes(archive, part) for title, part in parts.items()}
    loaded = openpyxl.load_workbook(made.archive().fp, read_only=True, data_only=True, keep_links=False)
    try:
        if len(loaded.defined_names) > MOST_NAMES:
            refuse(made.name, f"{len(loaded.defined_names)} names", f"at most {MOST_NAMES}")
        grids = {}
        for sheet in loaded.worksheets:
            part = parts.get(sheet.title, "")
            formulas = made.formulas.get(part, {})
            grids[sheet.title] = _grid(loaded, sheet.title, formulas, made.last_rows.get(part, 0))
            grids[sheet.title].notes.update(notes.get(sheet.title, {}))
        found = {name: area_of(str(defined.attr_text)) for name, defined in loaded.defined_names.items()}
        names = {name.casefold(): area for name, area in found.items() if area and area.sheet in grids}
        facts = {str(fact.name): str(fact.value) for fact in loaded.custom_doc_props.props}
        return Book(made.name, grids, names, facts, loaded.epoch.date())
    finally:
        loaded.close()


def _grid(loaded: Workbook, title: str, formulas: dict[At, Formula], last_row: int) -> Grid:
    grid = Grid(title)
    sheet = loaded[title]
    sheet.reset_dimensions()  # a file's own word on where a sheet ends may be wrong
    for row in sheet.iter_rows(max_row=last_row, max_col=LAST_COLUMN) if last_row else ():
        for cell in row:
            if cell.value is not None and cell.value != "":
                value = cell.value
                if isinstance(value, str):
                    value = CODED.sub(lambda m: chr(int(m[1], 16)), value)
                grid.cells[cell.row, cell.column] = Raw(value)
    first = {f.shared: (_movable(f, place), f.text) for place, f in formulas.items() if f.shared and f.text}
    for place, formula in formulas.items():
        value = grid.cells.get(place, Raw(None)).value
        grid.cells[place] = held(value, _written(formula, place, first))
    return grid


def _movable(formula: Formula, place: At) -> Translator | None:
    """The formula taken apart; None where it is none."""
    try:
        return Translator("=" + formula.text, address(*place))
    except (TokenizerError, ValueError, IndexError):
        return None


def _written(formula: Formula, place: At, first: dict[str, tuple[Translator | None, str]]) -> str:
    """The formula's own text; of a shared one, its first cell's text moved here."""
    if formula.text or not formula.shared or formula.shared not in first:
        return "=" + formula.text
    movable, text = first[formula.shared]
    try:
        return str(movable.translate_formula(address(*place))) if movable else "=" + text
    except (TranslatorError, ValueError, IndexError):
        return "=" + text


def _local(element: Element) -> str:
    return str(element.tag).rpartition("}")[2]


def _related(archive: zipfile.ZipFile, part: str) -> list[tuple[str, str, str]]:
    """Id, kind and part of everything a part points to."""
    folder, name = posixpath.split(part)
    rels = f"{folder}/_rels/{name}.rels"
    if rels not in archive.namelist():
        return []
    found = []
    for element in ElementTree.fromstring(archive.read(rels), forbid_dtd=True):
        target = element.get("Target", "")
        place = target.lstrip("/") if target.startswith("/") else posixpath.normpath(f"{folder}/{target}")
        found.append((element.get("Id", ""), element.get("Type", "").rpartition("/")[2], place))
    return found


def _parts(archive: zipfile.ZipFile) -> dict[str, str]:
    """The part of each sheet by its title."""
    by_id = {key: part for key, _, part in _related(archive, "xl/workbook.xml")}
    found = {}
    for element in ElementTree.fromstring(archive.read("xl/workbook.xml"), forbid_dtd=True).iter():
        if _local(element) == "sheet":
            key = next((value for name, value in element.items() if name.endswith("}id")), "")
            found[element.get("name", "")] = by_id.get(key, "")
    return found


def _notes(archive: zipfile.ZipFile, part: str) -> dict[At, str]:
    """Words on cells. Read here: some programs list an author who is not there, which ends openpyxl's own reading."""
    found: dict[At, str] = {}
    related = (
        [(kind, other) for _, kind, other in _related(archive, part) if other in archive.namelist()] if part else []
    )
    threads = [other for kind, other in related if kind == "threadedComment"]
    # A conversation also stands in the plain comments, behind words of the program's own.
    for other in threads or [other for kind, other in related if kind == "comments"]:
        for element in ElementTree.fromstring(archive.read(other), forbid_dtd=True).iter():
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
