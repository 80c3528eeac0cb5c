"""Office programs as second opinions: files go in, what LibreOffice or Gnumeric shows in their cells comes out."""

import datetime
import functools
import glob
import os
import re
import shutil
import signal
import subprocess
import tempfile
import zipfile
from collections.abc import Callable, Iterable, Iterator, Mapping
from pathlib import Path
from xml.sax.saxutils import escape, unescape

from openpyxl.formula.translate import Translator
from openpyxl.utils import column_index_from_string, get_column_letter

Value = float | str
At = tuple[str, int, int]  # sheet, row, column
Cells = dict[At, Value]
Area = tuple[str, int, int, int, int]  # sheet, top, left, bottom, right

SECONDS = 240
TO_XLSX = "xlsx:Calc MS Excel 2007 XML"
GNUMERIC_TO_XLSX = "Gnumeric_Excel:xlsx2"
# Tabs between, words in quotes, UTF-8, numbers bare and with all their digits, every sheet.
TO_TEXTS = "csv:Text - txt - csv (StarCalc):9,34,76,1,,0,true,true,false,false,false,-1"
FIELD = re.compile(r'(?:"((?:[^"]|"")*)"|([^"\t\n]*))(\t|\n)')
DAY = re.compile(r"(\d{4})-(\d\d)-(\d\d)")
TRUTHS = {"TRUE": 1.0, "FALSE": 0.0}
EPOCH = datetime.datetime(1899, 12, 30)
RANGE = re.compile(r"'?(?P<sheet>[^'!]+)'?!\$(?P<left>[A-Z]+)\$(?P<top>\d+)(?::\$(?P<right>[A-Z]+)\$(?P<bottom>\d+))?")
SHEET = re.compile(r'<sheet name="([^"]*)"')
PART = re.compile(r"xl/worksheets/sheet(\d+)\.xml")
FORMULA_CELL = re.compile(
    r"<c(?P<attributes>(?: [a-z]+=\"[^\"]*\")*)>(?P<formula><f[^>]*/>|<f[^>]*>[^<]*</f>)<v>[^<]*</v></c>"
)
SHARED = re.compile(r'<f t="shared" ref="(?P<first>\w+):(?P<last>\w+)" (?P<mark>si="\d+")>(?P<text>[^<]*)</f>')
TYPE = re.compile(r' t="\w+"')
CELL = re.compile(r'<c r="([A-Z]+)(\d+)"([^>]*)(?<!/)>(.*?)</c>', re.DOTALL)
KIND = re.compile(r' t="(\w+)"')
HELD = re.compile(r"<v(?: [^>]*)?>([^<]+)</v>")
FORMULA = re.compile(r"<f([^>]*?)>([^<]*)</f>|<f([^>]*)/>")
TEXT = re.compile(r"<t(?: [^>]*)?>([^<]*)</t>")
STRING_ITEM = re.compile(r"<si>(.*?)</si>|<si/>", re.DOTALL)
SHARED_BY = re.compile(r't="shared".*?si="(\d+)"')
# The row of a cell that moves with the formula; not within words in quotes.
ROW_OF_A_CELL = re.compile(r'"[^"]*"|(?<![\w.$])\$?[A-Z]{1,3}(\d+)(?![\w(.])')
SHEET_TAG = re.compile(r"<sheet [^>]*>")
HYPERLINK = re.compile(r"<hyperlink [^>]*>")
LINK = re.compile(r"<Relationship [^>]*>")
DEFINED = re.compile(r"<definedName([^>]*)>([^<]*)</definedName>")
ENTITIES = {"&quot;": '"', "&apos;": "'", "&#10;": "\n", "&#13;": "\r", "&#9;": "\t"}
ITEM = '<item oor:path="{path}"><prop oor:name="{name}" oor:op="fuse"><value>{value}</value></prop></item>'
SETTINGS = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
{items}
</oor:items>
"""


def soffice() -> str | None:
    """Where LibreOffice is; None where there is none."""
    return shutil.which("soffice")


def make_profile(folder: Path, *, always: bool, locale: str | None) -> None:
    """A profile that recalculates every file on loading, or does what it does by default."""
    items = []
    if always:
        items += [
            ITEM.format(path="/org.openoffice.Office.Calc/Formula/Load", name=name, value=0)
            for name in ("OOXMLRecalcMode", "ODFRecalcMode")
        ]
    if locale:
        items.append(ITEM.format(path="/org.openoffice.Setup/L10N", name="ooSetupSystemLocale", value=locale))
    (folder / "user").mkdir(parents=True)
    (folder / "user" / "registrymodifications.xcu").write_text(
        SETTINGS.format(items="\n".join(items)), encoding="utf-8"
    )


def run(command: list[str], seconds: int = SECONDS) -> str:
    """What the program printed; it and all that it started are ended when it takes too long."""
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, start_new_session=True
    ) as process:
        try:
            return process.communicate(timeout=seconds)[0]
        except subprocess.TimeoutExpired:
            os.killpg(process.pid, signal.SIGKILL)
            raise


def recalculated(
    paths: Path | Iterable[Path], out: Path, *, always: bool = True, locale: str | None = None
) -> list[Cells]:
    """What LibreOffice shows in each file, in order. One call for many files: starting takes longest."""
    paths = [paths] if isinstance(paths, Path) else list(paths)
    # As text files, one a sheet: LibreOffice takes three times as long to write a workbook as to read and reckon it.
    _convert(paths, out, TO_TEXTS, always=always, locale=locale or "en-US")
    found = [_shown(path.stem, out) for path in paths]
    if missing := [path.name for path, cells in zip(paths, found, strict=True) if not cells]:
        raise RuntimeError(f"LibreOffice made nothing of {', '.join(missing)}")
    return found


def reckoned_by_gnumeric(path: Path, out: Path) -> Cells:
    """What Gnumeric shows in a file once it has reckoned every formula anew."""
    out.mkdir(parents=True, exist_ok=True)
    made = out / path.name
    said = run(["ssconvert", "--recalc", f"--export-type={GNUMERIC_TO_XLSX}", str(path), str(made)])
    if not made.is_file():
        raise RuntimeError(f"Gnumeric made nothing of {path.name}: {said}")
    return values(made)


def _shown(stem: str, folder: Path) -> Cells:
    """Every cell that is not blank, of the text files that one workbook was saved as."""
    found: Cells = {}
    for path in folder.glob(f"{glob.escape(stem)}-*.csv"):
        title, row, column = path.stem.removeprefix(f"{stem}-"), 1, 1
        for text, bare, end in FIELD.findall(path.read_text(encoding="utf-8")):
            if text:
                found[title, row, column] = text.replace('""', '"')
            elif bare:
                found[title, row, column] = _number(bare)
            row, column = (row, column + 1) if end == "\t" else (row + 1, 1)
    return found


def _number(bare: str) -> Value:
    """What a cell without quotes holds, with all its digits, in whatever language; an error stays a text."""
    if day := DAY.fullmatch(bare):
        return float((datetime.date(int(day[1]), int(day[2]), int(day[3])) - EPOCH.date()).days)
    if bare in TRUTHS:
        return TRUTHS[bare]
    digits, percent = bare.replace(",", ".").removesuffix("%"), bare.endswith("%")
    try:
        return float(digits) / 100 if percent else float(digits)
    except ValueError:
        return bare


def resaved(paths: list[Path], out: Path, form: str, *, always: bool = False, locale: str | None = None) -> list[Path]:
    """The files as LibreOffice saves them, as .xlsx or .ods."""
    said = _convert(paths, out, {"xlsx": TO_XLSX}.get(form, form), always=always, locale=locale)
    made = [out / f"{path.stem}.{form}" for path in paths]
    # It says 0 even when nothing was converted.
    if missing := [path.name for path in made if not path.is_file()]:
        raise RuntimeError(f"LibreOffice made nothing of {', '.join(missing)}: {said}")
    return made


def _convert(paths: list[Path], out: Path, form: str, *, always: bool, locale: str | None) -> str:
    """Save the files in a form, all in one call; what the program said."""
    out.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix="office-profile-", ignore_cleanup_errors=True) as profile:
        make_profile(Path(profile), always=always, locale=locale)
        own = f"-env:UserInstallation={Path(profile).as_uri()}"
        words = ["--headless", "--norestore", "--convert-to", form, "--outdir", str(out)]
        return run([str(soffice()), own, *words, *map(str, paths)])


# --- reading ---


def plain(value: object) -> Value:
    """A cell as a number or a text: dates as serial numbers, blank as ""."""
    if value is None:
        return ""
    if isinstance(value, datetime.datetime):
        return (value - EPOCH) / datetime.timedelta(days=1)
    return float(value) if isinstance(value, bool | int | float) else str(value)


def _parts(path: Path) -> tuple[list[tuple[str, str]], list[str]]:
    """Title and XML of each sheet, and the texts that cells point to."""
    with zipfile.ZipFile(path) as archive:
        there = set(archive.namelist())
        links = archive.read("xl/_rels/workbook.xml.rels").decode()
        targets = {_attribute(link, "Id"): _attribute(link, "Target") for link in LINK.findall(links)}
        sheets = []
        for sheet in SHEET_TAG.findall(archive.read("xl/workbook.xml").decode()):
            target = targets[_attribute(sheet, "r:id")]
            part = target.lstrip("/") if target.startswith("/") else f"xl/{target}"
            if "worksheets/" in part:
                sheets.append((unescape(_attribute(sheet, "name"), ENTITIES), archive.read(part).decode()))
        shared = archive.read("xl/sharedStrings.xml").decode() if "xl/sharedStrings.xml" in there else ""
    return sheets, [_texts(item) for item in STRING_ITEM.findall(shared)]


def _attribute(tag: str, name: str) -> str:
    found = re.search(rf'\b{name}="([^"]*)"', tag)
    return found[1] if found else ""


def _texts(xml: str) -> str:
    """The words of a text, however many runs it is made of; not how it is pronounced."""
    return unescape("".join(TEXT.findall(re.sub(r"<rPh.*?</rPh>", "", xml, flags=re.DOTALL))), ENTITIES)


def _cells(path: Path) -> Iterator[tuple[At, str, str]]:
    """Place, attributes and inside of every cell that holds anything."""
    for title, xml in _parts(path)[0]:
        for letters, row, attributes, inside in CELL.findall(xml):
            yield (title, int(row), _column(letters)), attributes, inside


@functools.cache
def _column(letters: str) -> int:
    return int(column_index_from_string(letters))


def values(path: Path) -> Cells:
    """Every cell that is not blank, as the file shows it to a program that does not recalculate; dates as serial numbers."""
    return dict(_values(path, path.stat().st_mtime_ns, path.stat().st_size))


@functools.lru_cache(maxsize=3)
def _values(path: Path, _changed: int, _size: int) -> Cells:
    shared, found = _parts(path)[1], {}
    for at, attributes, inside in _cells(path):
        kind = KIND.search(attributes)
        held = HELD.search(inside)
        match kind[1] if kind else "n":
            case "inlineStr":
                value: Value = _texts(inside)
            case "s":
                value = shared[int(held[1])] if held else ""
            case "str" | "e":
                value = unescape(held[1], ENTITIES) if held else ""
            case _:
                value = float(held[1]) if held else ""
        if value != "":
            found[at] = value
    return found


def formulas(path: Path) -> dict[At, str]:
    """Every formula cell of a file and its text; an array formula in braces, as office programs show it."""
    found: dict[At, str] = {}
    shared: dict[tuple[str, str], tuple[int, list[str]]] = {}
    for at, _, inside in _cells(path):
        if not (formula := FORMULA.search(inside)):
            continue
        tag = formula[1] or formula[3] or ""
        text = f"={unescape(formula[2] or '', ENTITIES)}"
        if mark := SHARED_BY.search(tag):
            group = at[0], mark[1]
            if 'ref="' in tag:
                shared[group] = at[1], _rows_apart(text)
            row, parts = shared[group]
            # Odd parts are row numbers: those of a column's formula differ by how far down it stands.
            text = "".join(str(int(part) + at[1] - row) if i % 2 else part for i, part in enumerate(parts))
        found[at] = f"{{{text}}}" if 't="array"' in tag else text
    return found


def lost(path: Path) -> list[At]:
    """The cells whose formulas point to what is gone, or that show it."""
    return [at for at, _, inside in _cells(path) if "#REF!" in inside]


def _rows_apart(text: str) -> list[str]:
    """A formula in pieces, every second one the number of a row that moves with it."""
    parts, end = [], 0
    for found in ROW_OF_A_CELL.finditer(text):
        if found[1]:
            parts += [text[end : found.start(1)], found[1]]
            end = found.end(1)
    return [*parts, text[end:]]


def titles(path: Path) -> list[str]:
    """The titles of a file of ours, in the order of its sheets; its parts are numbered in the same order."""
    with zipfile.ZipFile(path) as archive:
        return [unescape(title, ENTITIES) for title in SHEET.findall(archive.read("xl/workbook.xml").decode())]


def hyperlinks(path: Path) -> dict[At, str]:
    """Where each cell of a file of ours leads that is a link to a place in it."""
    found: dict[At, str] = {}
    for title, xml in _parts(path)[0]:
        for tag in HYPERLINK.findall(xml):
            area = re.fullmatch(r"([A-Z]+)(\d+)", _attribute(tag, "ref"))
            assert area, tag
            found[title, int(area[2]), _column(area[1])] = unescape(_attribute(tag, "location"), ENTITIES)
    return found


def names(path: Path) -> dict[str, str]:
    """Every defined name of a file and what it refers to."""
    with zipfile.ZipFile(path) as archive:
        book = archive.read("xl/workbook.xml").decode()
    defined = DEFINED.findall(book)
    return {_attribute(tag, "name"): unescape(text, ENTITIES) for tag, text in defined if "localSheetId" not in tag}


def areas(path: Path) -> dict[str, Area]:
    """The range of every defined name that is one."""
    return dict(_areas(path, path.stat().st_mtime_ns, path.stat().st_size))


@functools.lru_cache(maxsize=64)
def _areas(path: Path, _changed: int, _size: int) -> dict[str, Area]:
    found = {name: RANGE.fullmatch(text) for name, text in names(path).items()}
    return {
        name: (m["sheet"], int(m["top"]), _column(m["left"]), int(m["bottom"] or m["top"]), _column(m["right"] or m["left"]))
        for name, m in found.items() if m
    }  # fmt: skip


def differences(wanted: Cells, found: Cells, cells: Iterable[At]) -> list[str]:
    """Cells that do not show the same, in words; numbers within 1e-9 of their size, texts to the letter, blank is ""."""
    return [
        f"{at[0]}!{get_column_letter(at[2])}{at[1]}: {found.get(at, '')!r} instead of {wanted.get(at, '')!r}"
        for at in cells if not same(wanted.get(at, ""), found.get(at, ""))
    ]  # fmt: skip


def same(wanted: Value, found: Value) -> bool:
    """Whether two cells show the same."""
    if isinstance(wanted, str) or isinstance(found, str):
        return wanted == found
    return abs(wanted - found) <= max(1e-12, 1e-9 * abs(wanted))


# --- changing a copy ---
# By text, not with openpyxl: all else stays as it was, the values of formula cells too.


def changed(path: Path, out: Path, change: Callable[[str, str], str]) -> Path:
    """A copy of a file of ours; `change` gets the title and the XML of each sheet."""
    out.parent.mkdir(parents=True, exist_ok=True)
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as new:
        # xlsxwriter numbers the parts as it numbers the sheets.
        titles = dict(enumerate(SHEET.findall(old.read("xl/workbook.xml").decode()), 1))
        for part in old.namelist():
            content = old.read(part)
            if number := PART.fullmatch(part):
                content = change(unescape(titles[int(number[1])]), content.decode()).encode()
            new.writestr(part, content)
    return out


def poisoned(path: Path, out: Path, number: float) -> Path:
    """A copy in which every formula cell carries a wrong number."""
    return changed(
        path,
        out,
        lambda _, xml: FORMULA_CELL.sub(
            lambda m: f'<c{TYPE.sub("", m["attributes"])} t="n">{m["formula"]}<v>{number}</v></c>', xml
        ),
    )


def edited(path: Path, out: Path, typed: Mapping[At, Value]) -> Path:
    """A copy in which a person has typed something and nothing has been reckoned yet; "" clears a cell."""

    def change(title: str, xml: str) -> str:
        for (sheet, row, column), value in typed.items():
            if sheet == title:
                cell = f"{get_column_letter(column)}{row}"
                found = re.compile(rf'<c r="{cell}"(?P<attributes>[^>]*?)(?:/>|>(?P<inside>.*?)</c>)').search(xml)
                if not found or "<f" in (found["inside"] or ""):
                    raise ValueError(f"{title}!{cell} is no cell to type in")
                head = f'<c r="{cell}"{TYPE.sub("", found["attributes"])}'
                xml = xml[: found.start()] + _typed(head, value) + xml[found.end() :]
        return xml

    return changed(path, out, change)


def _typed(head: str, value: Value) -> str:
    if value == "":
        return f"{head}/>"
    if isinstance(value, str):
        return f'{head} t="inlineStr"><is><t>{escape(value)}</t></is></c>'
    return f"{head}><v>{value!r}</v></c>"


def cells_of(area: Area) -> Iterator[At]:
    """Every cell of a range, row by row."""
    sheet, top, left, bottom, right = area
    return ((sheet, row, column) for row in range(top, bottom + 1) for column in range(left, right + 1))


def forced(path: Path, out: Path, cells: Mapping[At, Value]) -> Path:
    """A copy in which somebody took the protection off and put something into any cells; text with a = is a formula."""

    def change(title: str, xml: str) -> str:
        for (sheet, row, column), value in cells.items():
            if sheet == title:
                cell = f"{get_column_letter(column)}{row}"
                found = re.compile(rf'<c r="{cell}"(?P<attributes>[^>]*?)(?:/>|>.*?</c>)').search(xml)
                if not found:
                    raise ValueError(f"{title}!{cell} is no cell of the file")
                head = f'<c r="{cell}"{TYPE.sub("", found["attributes"])}'
                is_formula = isinstance(value, str) and value.startswith("=")
                put = f"{head}><f>{escape(str(value)[1:])}</f><v>0</v></c>" if is_formula else _typed(head, value)
                xml = xml[: found.start()] + put + _passed_on(found[0], xml[found.end() :])
        return xml

    return changed(path, out, change)


def _passed_on(cell: str, below: str) -> str:
    """What follows a cell that goes; a formula that others share with it is written out in the next of them."""
    found = SHARED.search(cell)
    if not found or (head := f'<f t="shared" {found["mark"]}/>') not in below:
        return below
    after = re.compile(rf'(<c r="(\w+)"[^>]*>){re.escape(head)}').search(below)
    assert after, "the cell itself is gone too"
    text = Translator("=" + unescape(found["text"]), found["first"]).translate_formula(after[2])
    area = f"{after[2]}:{found['last']}"
    made = f'{after[1]}<f t="shared" ref="{area}" {found["mark"]}>{escape(str(text)[1:])}</f>'
    return below[: after.start()] + made + below[after.end() :]
