"""An .ods file as sheets of cells, read from its XML: repeated rows and cells are counted, not trusted."""

import datetime
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from xml.etree.ElementTree import Element

from defusedxml import ElementTree

from workbook.copies.grids import Area, Book, Grid, Held, Raw, area_of, held
from workbook.copies.untrusted import LAST_COLUMN, LAST_ROW, MOST_CELLS, Opened, refuse

TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
TEXT = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"
META = "{urn:oasis:names:tc:opendocument:xmlns:meta:1.0}"
DURATION = re.compile(r"(-?)PT?(?:(\d+)H)?(?:(\d+)M)?(?:(\d+(?:[.,]\d+)?)S)?")
REFERENCE = re.compile(
    r"\[(?:\$?('(?:[^']|'')*'|[^\].'\[]*))?\.([^\]:]+)(?::(?:\$?(?:'(?:[^']|'')*'|[^\].'\[]*))?\.([^\]]+))?\]"
)
MOST_SPACES = 1_000


@dataclass
class State:
    """Where the reading stands."""

    name: str
    grids: dict[str, Grid] = field(default_factory=dict)
    names: dict[str, Area] = field(default_factory=dict)
    grid: Grid | None = None
    row: int = 0
    cells: int = 0
    epoch: datetime.date = datetime.date(1899, 12, 30)


def read_ods(made: Opened) -> Book:
    """Every sheet of the file."""
    state = State(made.name)
    with made.archive() as archive:
        facts = {}
        if "meta.xml" in archive.namelist():
            for element in ElementTree.fromstring(archive.read("meta.xml"), forbid_dtd=True).iter(
                f"{META}user-defined"
            ):
                facts[element.get(f"{META}name", "")] = element.text or ""
        with archive.open("content.xml") as stream:
            for event, element in ElementTree.iterparse(stream, events=("start", "end"), forbid_dtd=True):
                _take(state, event, element)
    names = {name: area for name, area in state.names.items() if area.sheet in state.grids}
    return Book(made.name, state.grids, names, facts, state.epoch)


def _take(state: State, event: str, element: Element) -> None:
    if event == "start":
        if element.tag == f"{TABLE}table" and state.grid is None:
            state.grid, state.row = Grid(element.get(f"{TABLE}name", "")), 0
        return
    if element.tag == f"{TABLE}table-row" and state.grid is not None:
        _take_row(state, state.grid, element)
        element.clear()
    elif element.tag == f"{TABLE}table" and state.grid is not None:
        state.grids.setdefault(state.grid.title, state.grid)
        state.grid = None
        element.clear()
    elif element.tag == f"{TABLE}named-range":
        name = element.get(f"{TABLE}name", "").casefold()
        area = area_of(_plain_area(element.get(f"{TABLE}cell-range-address", "")))
        if area and not name.startswith("_xlnm"):
            state.names.setdefault(name, area)
    elif element.tag == f"{TABLE}null-date":
        state.epoch = datetime.date.fromisoformat(element.get(f"{TABLE}date-value", "1899-12-30"))


def _plain_area(text: str) -> str:
    """$Tanks.$A$5:.$A$50 as 'Tanks'!$A$5:$A$50."""
    found = re.fullmatch(r"\$?('(?:[^']|'')+'|[^.']+)\.([^:.]+)(?::(?:\$?(?:'(?:[^']|'')+'|[^.']*))?\.([^:.]+))?", text)
    if not found:
        return ""
    sheet, first, last = found.groups()
    quoted = sheet if sheet.startswith("'") else f"'{sheet}'"
    return f"{quoted}!{first}" + (f":{last}" if last else "")


def _times(element: Element, key: str) -> int:
    text = element.get(key, "1")
    return max(1, int(text)) if text.isascii() and text.isdecimal() and len(text) < 8 else 1


def _take_row(state: State, grid: Grid, element: Element) -> None:
    """One row, as often as it says it is repeated."""
    times = _times(element, f"{TABLE}number-rows-repeated")
    filled: list[tuple[int, Raw, str]] = []
    column = 0
    for cell in element:
        if cell.tag not in {f"{TABLE}table-cell", f"{TABLE}covered-table-cell"}:
            continue
        repeated = _times(cell, f"{TABLE}number-columns-repeated")
        raw, note = _raw(cell), _note(cell)
        if raw or note:
            if column + repeated > LAST_COLUMN or state.row + times > LAST_ROW:
                found = f"something far out, in row {state.row + times}, column {column + repeated} ({grid.title})"
                refuse(state.name, found, f"nothing below row {LAST_ROW} or right of column {LAST_COLUMN}")
            state.cells += repeated * times
            if state.cells > MOST_CELLS:
                refuse(state.name, f"more than {MOST_CELLS} filled cells", "a smaller file: fewer spare rows")
            filled += [(column + i, raw or Raw(None), note) for i in range(1, repeated + 1)]
        column += repeated
    for row in range(state.row + 1, state.row + 1 + (times if filled else 0)):
        for at, raw, note in filled:
            if raw != Raw(None):
                grid.cells[row, at] = raw
            if note:
                grid.notes[row, at] = note
    state.row += times


def _raw(cell: Element) -> Raw | None:
    formula = cell.get(f"{TABLE}formula", "")
    value = _value(cell)
    if value is None and not formula:
        return None
    return held(value, plain_formula(formula) if formula else "")


def _value(cell: Element) -> Held | None:  # noqa: PLR0911  one return for each sort
    kind = cell.get(f"{OFFICE}value-type", "")
    given = cell.get(f"{OFFICE}value", "")
    match kind:
        case "float" | "percentage" | "currency":
            try:
                return float(given)
            except ValueError:
                return given
        case "date":
            given = cell.get(f"{OFFICE}date-value", "")
            try:
                found = datetime.datetime.fromisoformat(given)
            except ValueError:
                return given
            return found.replace(tzinfo=None)
        case "time":
            given = cell.get(f"{OFFICE}time-value", "")
            parts = DURATION.fullmatch(given)
            return _length(parts) if parts else given
        case "boolean":
            return cell.get(f"{OFFICE}boolean-value", "") == "true"
    words = cell.get(f"{OFFICE}string-value") or "\n".join(_words(p) for p in cell if p.tag == f"{TEXT}p")
    return words or None


def _length(parts: re.Match[str]) -> datetime.timedelta:
    hours, minutes, seconds = (float((p or "0").replace(",", ".")) for p in parts.groups()[1:])
    return datetime.timedelta(hours=min(hours, 1e6), minutes=min(minutes, 1e6), seconds=min(seconds, 1e6))


def _words(element: Element) -> str:
    return "".join(_pieces(element))


def _pieces(element: Element) -> Iterator[str]:
    yield element.text or ""
    for child in element:
        if child.tag == f"{TEXT}s":
            yield " " * min(MOST_SPACES, _times(child, f"{TEXT}c"))
        elif child.tag == f"{TEXT}tab":
            yield "\t"
        elif child.tag == f"{TEXT}line-break":
            yield "\n"
        elif child.tag != f"{OFFICE}annotation":
            yield from _pieces(child)
        yield child.tail or ""


def _note(cell: Element) -> str:
    """The words of a cell's note, without its date and author."""
    return "\n".join(
        _words(p) for note in cell.iter(f"{OFFICE}annotation") for p in note if p.tag == f"{TEXT}p"
    ).strip()


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
