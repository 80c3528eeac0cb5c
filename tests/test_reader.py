"""The reader of returned files against openpyxl: the same values, formulas, notes, names and properties, however a cell is written."""

import datetime
import re
import shutil
import subprocess
import warnings
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape

import openpyxl
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from openpyxl.formula.translate import Translator
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.formula import ArrayFormula

from tests import desk, office, returned
from tests.effort import also
from workbook.copies import many
from workbook.copies.grids import Book, area_of
from workbook.copies.reading import read_book, read_copy
from workbook.copies.sharing import Shared
from workbook.copies.untrusted import opened
from workbook.copies.xlsx_grids import read_xlsx
from workbook.findings import BadInputError

Seen = dict[tuple[str, int, int], tuple[Any, str]]
YES_NO = {"=TRUE()": True, "=FALSE()": False}  # LibreOffice saves what a person typed so


@pytest.fixture(scope="module")
def files() -> dict[str, Path]:
    """A small file of each edition that is tried."""
    return {edition: returned.book(edition) for edition in ("keeper", "shop", "club")}


def seen_by_openpyxl(path: Path) -> tuple[Seen, dict[str, Any], dict[str, str]]:
    """Cells with their formulas, areas of names, properties."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it tells of looks that it leaves out
        values, formulas = (openpyxl.load_workbook(path, read_only=True, data_only=only) for only in (True, False))
    found: Seen = {}
    for sheet in values.worksheets:
        other = formulas[sheet.title]
        sheet.reset_dimensions()
        other.reset_dimensions()
        for row, beside in zip(sheet.iter_rows(), other.iter_rows(), strict=True):
            for cell, written in zip(row, beside, strict=True):
                text = written.value.text if isinstance(written.value, ArrayFormula) else written.value
                formula = str(text) if written.data_type == "f" else ""
                value = None if cell.value == "" else YES_NO.get(formula, cell.value)
                if value is not None or formula:
                    found[sheet.title, cell.row, cell.column] = (value, "" if formula in YES_NO else formula)
    areas = {name.casefold(): area_of(str(d.attr_text)) for name, d in values.defined_names.items()}
    return found, {n: a for n, a in areas.items() if a}, {p.name: str(p.value) for p in values.custom_doc_props.props}


def seen_by_us(book: Book) -> Seen:
    return {(t, *at): (raw.value, raw.formula) for t, grid in book.grids.items() for at, raw in grid.cells.items()}


def unlike(ours: Seen, theirs: Seen) -> list[str]:
    return [
        f"{at}: {ours.get(at)} instead of {theirs.get(at)}" for at in {*ours, *theirs} if ours.get(at) != theirs.get(at)
    ]


def same_as_openpyxl(path: Path) -> None:
    book = read_xlsx(opened(path))
    cells, names, facts = seen_by_openpyxl(path)
    assert unlike(seen_by_us(book), cells)[:5] == []
    # A number among the properties is 1 as it stands there, and 1.0 as openpyxl tells it.
    told = [{name: fact.removesuffix(".0") for name, fact in each.items()} for each in (book.facts, facts)]
    assert (book.names, told[0]) == (names, told[1])


# A keeper's sheets are a club's as well.
@pytest.mark.parametrize("edition", ["shop", *also("club")])
def test_files_as_built(edition: str, files: dict[str, Path]) -> None:
    same_as_openpyxl(files[edition])


@pytest.mark.office
@pytest.mark.long
def test_files_saved_by_libreoffice_in_both_formats() -> None:
    # A shop's and a club's come back so in tests/test_returning.py.
    path, other = (desk.saved(form)["us"] for form in ("xlsx", "ods"))
    same_as_openpyxl(path)
    # No other reader of .ods is at hand: the same program's .xlsx says what has to be in it.
    ours, theirs = (read_book(each)[0] for each in (other, path))
    assert ours.names == theirs.names
    values = [{at: _plain(raw.value) for at, raw in flat(book) if raw.value is not None} for book in (ours, theirs)]
    assert [at for at in {*values[0], *values[1]} if values[0].get(at) != values[1].get(at)][:5] == []
    assert [{at for at, raw in flat(book) if raw.formula} for book in (ours,)] == [
        {at for at, raw in flat(theirs) if raw.formula}
    ]
    assert read_copy(other).tables == read_copy(path).tables


def flat(book: Book) -> Iterator[Any]:
    return (((title, *at), raw) for title, grid in book.grids.items() for at, raw in grid.cells.items())


def _plain(value: Any) -> Any:
    return round(value, 9) if isinstance(value, float) else value


@pytest.mark.skipif(not shutil.which("ssconvert"), reason="Gnumeric not found")
def test_files_saved_by_gnumeric(files: dict[str, Path], tmp_path: Path) -> None:
    path = tmp_path / "copy.xlsx"
    subprocess.run(["ssconvert", str(files["keeper"]), str(path)], check=True, capture_output=True, timeout=120)
    book = read_xlsx(opened(path))
    cells, names, _ = seen_by_openpyxl(path)
    assert unlike(seen_by_us(book), cells)[:5] == []
    assert book.names == names
    before = read_copy(files["keeper"]).tables
    assert {key: [e.values for e in rows] for key, rows in read_copy(path).tables.items()} == {
        key: [e.values for e in rows] for key, rows in before.items()
    }


@pytest.mark.parametrize("edition", ["club", *also("keeper", "shop")])
def test_what_is_passed_is_not_missed(edition: str, files: dict[str, Path]) -> None:
    assert read_copy(files[edition]) == read_book(files[edition])[1]


def test_what_is_typed_over_filled_down_and_noted_among_passed_formulas(tmp_path: Path) -> None:
    book = openpyxl.load_workbook(desk.file_of("metric"))
    sheet, top, left, *_ = office.areas(desk.file_of("metric"))["tanks_net_volume_l"]
    book[sheet].cell(top, left).value = 77
    book[sheet].cell(top + 1, left).comment = openpyxl.comments.Comment("odd", "Ann")
    home, top, *_ = office.areas(desk.file_of("metric"))["tanks_tank"]
    width = book[home].max_column
    book[home].cell(top - 3, width + 2).value = "mine"
    book[home].cell(top, width + 2).value = '=A1&"<x>"'
    book.save(tmp_path / "copy.xlsx")
    content = read_copy(tmp_path / "copy.xlsx")
    assert content == read_book(tmp_path / "copy.xlsx")[1]
    tanks = content.tables["tanks"]
    assert (tanks[0].unread, tanks[1].notes) == ({"net_volume": "77"}, {"net_volume": "odd"})
    assert '=A1&"<x>"' in tanks[0].added.values()


# --- cells, however they are written ---

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
R = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PARTS = {
    "[Content_Types].xml": '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/>'
    + "".join(
        f'<Override PartName="/xl/{part}.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.{kind}+xml"/>'
        for part, kind in (("workbook", "sheet.main"), ("styles", "styles"), ("sharedStrings", "sharedStrings"), ("worksheets/sheet1", "worksheet"))
    )
    + "</Types>",
    "_rels/.rels": f'<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="a" Type="{R}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
    "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="s" Type="{R}/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="t" Type="{R}/styles" Target="styles.xml"/><Relationship Id="u" Type="{R}/sharedStrings" Target="/xl/sharedStrings.xml"/></Relationships>',
    "xl/styles.xml": f'<styleSheet xmlns="{MAIN}"><numFmts count="3"><numFmt numFmtId="170" formatCode="yyyy\\-mm\\-dd&quot; at&quot;"/><numFmt numFmtId="171" formatCode="0.0&quot; days&quot;"/><numFmt numFmtId="172" formatCode="[h]:mm"/></numFmts>'
    '<fonts count="1"><font/></fonts><fills count="1"><fill><patternFill/></fill></fills><borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs>'
    + "<cellXfs>" + "".join(f'<xf numFmtId="{n}" xfId="0" fontId="0" fillId="0" borderId="0" applyNumberFormat="1"/>' for n in (0, 14, 170, 171, 172, 21)) + "</cellXfs></styleSheet>",
}  # fmt: skip


def workbook_of(path: Path, rows: str, texts: str = "", *, from_1904: bool = False, head: str = "") -> Path:
    """The smallest file that has these rows."""
    parts = PARTS | {
        "xl/workbook.xml": f'<workbook xmlns="{MAIN}" xmlns:r="{R}"><workbookPr date1904="{int(from_1904)}"/><sheets><sheet name="A" sheetId="1" r:id="s"/></sheets></workbook>',
        "xl/sharedStrings.xml": f'<sst xmlns="{MAIN}">{texts}</sst>',
        "xl/worksheets/sheet1.xml": f'<?xml version="1.0" encoding="UTF-8"?>{head}<worksheet xmlns="{MAIN}"><sheetData>{rows}</sheetData></worksheet>',
    }
    with zipfile.ZipFile(path, "w") as archive:
        for name, content in parts.items():
            archive.writestr(name, content)
    return path


letters_of_texts = st.text(
    st.characters(codec="utf-8", exclude_categories=["Cs", "Cc"], exclude_characters="\ufffe\uffff"),
    min_size=1,
    max_size=8,
)
texts = letters_of_texts.filter(lambda text: text.strip() and not re.search("_x", text))
numbers = st.one_of(st.integers(0, 2_900_000), st.floats(0, 60_000))
cells = st.one_of(
    st.tuples(st.just("n"), numbers.map(repr)), st.tuples(st.just("str"), texts), st.tuples(st.just("s"), texts), st.tuples(st.just("inlineStr"), texts),
    st.tuples(st.just("b"), st.sampled_from("01")), st.tuples(st.just("e"), st.sampled_from(["#N/A", "#DIV/0!"])), st.tuples(st.just("n"), st.just("")),
)  # fmt: skip
formulas = st.one_of(st.none(), st.sampled_from(['A1&"<>"', 'IF(B2>1,"a\'b",3)', "SUM($A$1:B2)", "TRUE()"]))


def _written(at: str, cell: tuple[tuple[str, str], str | None, int], shared: list[str]) -> str:
    (kind, text), formula, style = cell
    inside = f"<f>{escape(formula)}</f>" if formula else ""
    if kind == "inlineStr":
        return f'<c{at} s="{style}" t="inlineStr"><is><t xml:space="preserve">{escape(text)}</t></is></c>'
    if kind == "s":
        shared.append(
            f"<si><r><t xml:space='preserve'>{escape(text[:1])}</t></r><r><t xml:space='preserve'>{escape(text[1:])}</t></r><rPh sb='0' eb='1'><t>no</t></rPh></si>"
        )
        text = str(len(shared) - 1)
    value = f"<v>{escape(text)}</v>" if text or formula else ""
    return (
        f'<c{at} s="{style}"'
        + (f' t="{kind}"' if kind != "n" else "")
        + (f">{inside}{value}</c>" if inside or value else "/>")
    )


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    grid=st.lists(st.lists(st.tuples(cells, formulas, st.integers(0, 5)), max_size=4), max_size=4),
    placed=st.booleans(),
    from_1904=st.booleans(),
)
def test_cells_of_every_kind(grid: list[list[Any]], placed: bool, from_1904: bool, tmp_path: Path) -> None:
    """As openpyxl sees them; and in plain cells, taken from the bytes, the same as in those that the parser tells of."""
    shared: list[str] = []
    rows = ""
    for row, line in enumerate(grid, 2):
        at = [f' r="{get_column_letter(i)}{row}"' if placed else "" for i in range(1, 5)]
        rows += (
            (f'<row r="{row}">' if placed or row == 2 else "<row>")
            + "".join(_written(a, c, shared) for a, c in zip(at, line, strict=False))
            + "</row>"
        )
    plain, told = (
        read_xlsx(opened(workbook_of(tmp_path / name, rows, "".join(shared), from_1904=from_1904, head=head)))
        for name, head in (("plain.xlsx", ""), ("told.xlsx", "<!-- told by the parser -->"))
    )
    assert plain.grids == told.grids
    assert plain.epoch == (datetime.date(1904, 1, 1) if from_1904 else datetime.date(1899, 12, 30))
    assert unlike(seen_by_us(plain), seen_by_openpyxl(tmp_path / "plain.xlsx")[0]) == []


def test_cells_out_of_the_ordinary(tmp_path: Path) -> None:
    """What each holds by the format's own text (ECMA-376 part 1, 18.3.1.4, 18.4 and 22.9.2.19)."""
    rows = (
        '<row r="9"><c r="B9" t="s"><v>0</v></c><c t="s"><v>1</v></c></row>'  # no place, and a row above after one below
        '<row r="3"><c r="A3" t="str"><v>a_x000D_b _x005F_x000D_</v></c><c r="B3"><v> 7 </v></c><c r="C3" t="str"><v><![CDATA[<c r="D3"><v>1</v></c>]]></v></c></row>'
        '<row r="4"><c r="A4"><f>1+1</f></c><c r="B4" t="str"><f>""</f><v></v></c><c r="C4"><f t="shared" ref="C4:C6" si="0">A4*2</f><v>4</v></c></row>'
        '<row r="5"><c r="C5"><f t="shared" si="0"/><v>8</v></c><c r="D5" t="str"><v>&#65;&amp;lt;&#x26;#66;</v></c></row>'
        '<row r="6"><c r="C6"><f si="0" t="shared"></f></c><c r="A6" t="d"><v>2026-03-31T00:00:00</v></c></row>'
    )
    shared = "<si><t>one</t><rPh sb='0' eb='1'><t>wan</t></rPh></si><si><t>two</t></si>"
    path = workbook_of(tmp_path / "a.xlsx", rows, shared)
    wanted = {
        (9, 2): ("one", ""), (9, 3): ("two", ""), (3, 1): ("a\rb _x000D_", ""), (3, 2): (7, ""), (3, 3): ('<c r="D3"><v>1</v></c>', ""),
        (4, 1): (None, "=1+1"), (4, 2): (None, '=""'), (4, 3): (4, "=A4*2"), (5, 3): (8, "=A5*2"), (6, 3): (None, "=A6*2"),
        (5, 4): ("A&lt;&#66;", ""), (6, 1): (datetime.datetime(2026, 3, 31), ""),
    }  # fmt: skip
    assert {at: tuple(raw) for at, raw in read_xlsx(opened(path)).grids["A"].cells.items()} == wanted


def test_cells_in_another_encoding_with_names_for_the_namespace(tmp_path: Path) -> None:
    path = workbook_of(tmp_path / "a.xlsx", "")
    sheet = f'<?xml version="1.0" encoding="utf-16"?><x:worksheet xmlns:x="{MAIN}"><x:sheetData><x:row r="1"><x:c r="A1" t="str"><x:v>\u00e9</x:v></x:c></x:row></x:sheetData></x:worksheet>'
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(tmp_path / "b.xlsx", "w") as new:
        for name in old.namelist():
            new.writestr(name, sheet.encode("utf-16") if name.endswith("sheet1.xml") else old.read(name))
    assert read_xlsx(opened(tmp_path / "b.xlsx")).grids["A"].cells[1, 1].value == "\u00e9"


@settings(max_examples=150, deadline=None)
@given(
    parts=st.lists(st.sampled_from(["A1", "$B$2", "C$3", "$D4", "AA10:$AB$12", "F:F", "$G:H", "3:4", "'It''s A1'!C4", "Sheet!B5", '"A1 ""B2"""', "LOG10(A1)", "tank_A1", "x.A1", "[A1]", "1E5"]), min_size=1, max_size=5),
    down=st.integers(0, 30),
    across=st.integers(0, 30),
)  # fmt: skip
def test_shared_formulas_are_moved_as_openpyxl_moves_them(parts: list[str], down: int, across: int) -> None:
    text = "+".join(parts)
    to = f"{get_column_letter(5 + across)}{5 + down}"
    assert "=" + Shared(text, (5, 5)).at((5 + down, 5 + across)) == Translator("=" + text, "E5").translate_formula(to)


# --- many at once ---


def test_copies_read_in_processes_are_those_read_in_turn(
    files: dict[str, Path], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(many, "SMALLEST", 0)
    monkeypatch.setattr(many, "_cores", lambda: 2)
    paths = [files["club"], files["keeper"], files["shop"]]
    assert many.read_copies(paths) == [read_copy(path) for path in paths]
    (tmp_path / "broken.xlsx").write_bytes(b"tank,length\n")
    with pytest.raises(BadInputError) as caught:
        many.read_copies([files["club"], tmp_path / "broken.xlsx", tmp_path / "gone.xlsx"])
    assert [str(finding) for finding in caught.value.findings] == [
        "broken.xlsx: found something that is no workbook; expected a workbook saved as .xlsx or .ods"
    ]
