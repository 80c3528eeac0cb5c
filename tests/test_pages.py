"""Pages to pin up: they fit their paper, are cut nowhere, print nothing empty, and speak in the units of the file."""

import math
import re
import subprocess
import zipfile
from collections import Counter
from pathlib import Path

import openpyxl
import pint
import pytest
from openpyxl.utils import range_boundaries
from openpyxl.worksheet.worksheet import Worksheet

from tests import books, office, pictures
from tests.effort import also
from tests.rooms import demo_room, evaluated, few_species
from workbook.build import Built, Plan, compute, lay_out
from workbook.cells.slots import Placed
from workbook.editions import EDITIONS
from workbook.files.xlsx_writing import FORM_WIDTHS, About, write

EDITION, ROOM = EDITIONS["keeper"](), few_species(demo_room())
PAGES = {sheet.title: sheet for sheet in EDITION.sheets if sheet.bands}
# Millimetres of the two papers (ISO 216, ANSI/ASME Y14.1) less the margins of the file, at 96 pixels to the inch.
PAPERS = {"A4": (210, 297, 9), "Letter": (215.9, 279.4, 1)}
MARGINS = (0.8, 1.1)  # inches, across and down
MOST_PAGES = 40
COLUMN_PIXELS = 5  # of every column besides the letters in it, seven pixels each


def inside(paper: str) -> tuple[float, float]:
    """Pixels across and down that can be printed on."""
    across, down, _ = PAPERS[paper]
    return (across / 25.4 - MARGINS[0]) * 96, (down / 25.4 - MARGINS[1]) * 96


def landscape(paper: str) -> tuple[float, float]:
    """The same of paper that lies on its side; its margins stay those of its upper and left edges."""
    across, down, _ = PAPERS[paper]
    return (down / 25.4 - MARGINS[0]) * 96, (across / 25.4 - MARGINS[1]) * 96


@pytest.fixture(scope="module")
def built() -> Built:
    """The demo with a short log and the species it keeps."""
    records = books.few("keeper")
    return compute(EDITION, records | {"log": records["log"][-20:]}, Plan(spare_rows=5))


@pytest.fixture(scope="module")
def file(built: Built, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("pages") / "demo.xlsx"
    write(path, built.pages, built.values, built.placing, About("pages", {}))
    return path


def part(file: Path, title: str) -> str:
    """The XML of a sheet."""
    number = [sheet.title for sheet in EDITION.sheets].index(title) + 1
    with zipfile.ZipFile(file) as archive:
        return archive.read(f"xl/worksheets/sheet{number}.xml").decode()


def area(file: Path, title: str) -> tuple[int, int]:
    """First and last row that are printed."""
    with zipfile.ZipFile(file) as archive:
        names = archive.read("xl/workbook.xml").decode()
    found = re.search(rf"Print_Area[^>]*>'?{title}'?!\$A\$(\d+):\$[A-Z]+\$(\d+)<", names)
    assert found
    return int(found[1]), int(found[2])


def areas(book: openpyxl.Workbook) -> dict[str, list[tuple[int, int, int, int]]]:
    """First column and row, last column and row of every area that is printed."""
    found = {}
    for sheet in book:
        parts = [part.rpartition("!")[2].replace("$", "") for part in str(sheet.print_area).split(",")]
        found[sheet.title] = [range_boundaries(part) for part in parts]
    return found


# Looked up on the screen, or line by line the same as another sheet.
OFF_PAPER = {
    "Start", "Constants", "Sources", "All candidates", "Stocking", "Overlap", "Tankmates", "Comfort", "Food by tank",
    "Live food by tank", "Doses by tank", "Plan in detail",
}  # fmt: skip
# Days of its newest weeks are printed: fewer than three months of readings.
NEWEST = {"Log": 92}


def test_each_column_is_printed_once_and_ready_rows_hardly(file: Path, built: Built) -> None:
    """Pages further right begin with their heads, not with what is cut there, and end with their own tables."""
    book, shown = books.opened(file), showing(file)
    several = {title: found for title, found in areas(book).items() if len(found) > 1}
    assert "Breeding" in several
    for title, found in areas(book).items():
        placed = built.placing.sheets[title]
        if placed.sheet.bands or placed.sheet.role == "workings" or not placed.sheet.blocks:
            continue
        if title in OFF_PAPER:
            assert found == [(placed.last_column + 2, 1, placed.last_column + 2, 1)], title
            continue
        charted = {at for _, at in placed.charts}
        across = [column for left, _, right, _ in found for column in range(left, right + 1)]
        assert across == sorted(set(across)), title
        assert [top for _, top, _, _ in found][1:] == [placed.header_row] * (len(found) - 1), title
        assert found[0][1] == 1 or title in NEWEST, title
        for left, _, right, bottom in found:
            tables = [t for t in built.placing.tables.values() if t.sheet == title and not t.table.form]
            mine = [t for t in tables if any(left <= s.at <= right for s in t.on(title))]
            filled = [
                row
                for t in mine
                for s in t.on(title)
                if s.at <= right  # what stands further right is not printed
                for row in range(t.first_row, t.last_row + 1)
                if (title, row, s.at) in shown
            ]
            assert bottom >= max(filled, default=1) or title == "Attention", (title, left)
            if charted.isdisjoint(range(left, right + 1)):
                rows = [row for t in mine for row in filled_rows(shown, title, t, placed.last_printed_column)]
                assert bottom <= max([*rows, *(t.first_row for t in mine)]) + 2, (title, left)


def column_widths(path: Path, place: int) -> dict[int, float]:
    """The width of each column of a sheet in letters; 0 where it is folded away."""
    with zipfile.ZipFile(path) as archive:
        xml = archive.read(f"xl/worksheets/sheet{place}.xml").decode()
    found = dict.fromkeys(range(1, 500), 8.43)
    for tag in re.findall(r"<col [^>]*>", xml):
        first, last, width = (float(re.search(rf'{key}="([\d.]+)"', tag)[1]) for key in ("min", "max", "width"))  # type: ignore[index]
        found |= dict.fromkeys(range(int(first), int(last) + 1), 0 if "hidden" in tag else width)
    return found


def showing(path: Path) -> set[office.At]:
    """The cells that show something."""
    return set(office.values(path))


def filled_rows(shown: set[office.At], title: str, table: Placed, last: int) -> list[int]:
    """The rows of a table in which something stands that is printed or may be; its watch over itself is not."""
    columns = [s.at for s in table.on(title) if s.at <= last and s.shows != "beside"]
    rows = range(table.first_row, table.last_row + 1)
    return [row for row in rows if any((title, row, at) in shown for at in columns)]


def room_across(sheet: Worksheet) -> float:
    """Pixels across that can be printed on the narrower of two papers: A4 and Letter, or A3 and Tabloid."""
    side = 1 if sheet.page_setup.orientation == "landscape" else 0
    larger = 2**0.5 if str(sheet.page_setup.paperSize) in {"8", "3"} else 1
    return (min(paper[side] for paper in PAPERS.values()) * larger / 25.4 - MARGINS[0]) * 96


@pytest.mark.parametrize(
    ("edition", "units"),
    [
        ("shop", "us"),
        *also(("keeper", "metric"), ("keeper", "us"), ("shop", "metric"), ("club", "metric"), ("club", "us")),
    ],
)
def test_no_sheet_is_printed_in_less_than_eight_points(edition: str, units: str) -> None:
    """As much as the narrower paper takes; labels are of a fixed size, in millimetres."""
    path = books.book(edition, units)
    made = books.opened(path)
    for place, sheet in enumerate(made, 1):
        title, across = sheet.title, room_across(sheet)
        if title.startswith("Labels "):
            continue
        widths = column_widths(path, place)
        for left, _, right, _ in areas(made)[title]:
            pixels = sum(7 * widths[at] + COLUMN_PIXELS for at in range(left, right + 1) if widths[at])
            scale = (sheet.page_setup.scale or 100) / 100
            if sheet.sheet_properties.pageSetUpPr and sheet.sheet_properties.pageSetUpPr.fitToPage:
                scale = min(1, across / pixels)
            assert 10 * scale >= 7.8, (title, scale)  # the rest is of rounding to whole pixels
            assert pixels * scale <= across * 1.03, (title, left)


def test_the_log_prints_its_newest_weeks() -> None:
    """Every day of the last four weeks, from one on that is less than three months old, below its head."""
    path = books.book(complete=True)
    days = dict(
        zip(
            (at[1] for at in office.cells_of(office.areas(path)["log_date"])),
            books.column(path, "log_date"),
            strict=True,
        )
    )
    days = {row: day for row, day in days.items() if day}
    newest = max(days.values())
    (_, top, _, bottom), *_ = areas(books.opened(path))["Log"]
    assert all(top <= row <= bottom for row, day in days.items() if newest - day < 28)
    assert newest - days[top] < NEWEST["Log"]
    assert top > min(days)


@pytest.mark.parametrize("units", ["metric", "us"])
def test_attention_on_paper_says_what_to_do(units: str) -> None:
    path = books.book("keeper", units)
    ((_, _, last, _),) = areas(books.opened(path))["Attention"]
    assert last >= office.areas(path)["attention_do"][2]


@pytest.mark.office
def test_the_whole_demo_fits_on_a_few_pages(tmp_path: Path) -> None:
    """A room of fourteen tanks with a year of readings and the whole library, in LibreOffice's own pages."""
    words = pictures.words_of(pictures.printed(books.book(complete=True), tmp_path))
    pages = [pictures.footed(page) for page in words.split("\f") if page.strip()]
    counted = Counter(pages)
    assert len(pages) <= MOST_PAGES, counted
    assert not {title for title in counted if title.endswith(" workings") or title in OFF_PAPER}
    assert counted["Log"] <= 3
    assert counted["Attention"] <= 4


@pytest.mark.parametrize("name", EDITIONS)
def test_no_note_runs_over_the_edge_of_its_page(name: str) -> None:
    """Notes are not wrapped: one wider than the columns of the first page is cut. A letter is narrower than a digit, by which columns are measured."""
    edition = EDITIONS[name]()
    placing = lay_out(edition, edition.given | books.few(name, "blank"), Plan(name, spare_rows=2))
    for sheet in (sheet for sheet in edition.sheets if not sheet.bands):
        placed = placing.sheets[sheet.title]
        end = placed.last_printed_column
        across = sum(
            s.column.look.width
            for t in sheet.tables
            if not t.form
            for s in placing.tables[t.key].on(sheet.title)
            if s.at <= end and not s.rare
        )
        across += sum(9 * charts.columns for charts, at in placed.charts if at <= end)
        across = min(across, 160)  # no more is printed than can be read
        for note in (sheet.purpose, *sheet.remarks):
            assert len(note) <= 1.2 * (across or sum(FORM_WIDTHS)), (sheet.title, note)


def heights(xml: str) -> dict[int, float]:
    """Pixels of the rows that keep their height."""
    rows = re.findall(r'<row r="(\d+)"[^>]* ht="([\d.]+)"[^>]*customHeight="1"', xml)
    return {int(row): float(points) * 96 / 72 for row, points in rows}


def scale(sheet_title: str, down: float, paper: str) -> float:
    """How much a page must shrink to fit a paper."""
    across = sum(7 * width + COLUMN_PIXELS for width in PAGES[sheet_title].grid)
    room = inside(paper) if PAGES[sheet_title].portrait else landscape(paper)
    return min(1.0, room[0] / across, room[1] / down)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("title", "least"), [("Tank", 0.8), ("Care card", 0.9)])
def test_a_page_hardly_shrinks_to_fit_its_paper(file: Path, title: str, least: float, paper: str) -> None:
    """Ten point type shrunk to less than nine would be no type to pin up, to less than eight none to read."""
    xml, (first, last) = part(file, title), area(file, title)
    rows = heights(xml)
    assert set(range(first, last + 1)) <= set(rows)
    assert scale(title, sum(rows[row] for row in range(first, last + 1)), paper) >= least
    assert "fitToHeight" not in xml  # one page, as it is without being told
    assert 'fitToPage="1"' in xml


@pytest.mark.parametrize("paper", PAPERS)
def test_no_page_break_cuts_a_card(file: Path, paper: str) -> None:
    xml, (first, last), table = part(file, "Cards"), area(file, "Cards"), PAGES["Cards"].tables[0]
    percent = int(re.search(r'<pageSetup[^>]* scale="(\d+)"', xml)[1]) if " scale=" in xml else 100  # type: ignore[index]
    rows = heights(xml)
    assert table.a_page * rows[first] * percent / 100 <= inside(paper)[1]
    assert sum(7 * w + COLUMN_PIXELS for w in PAGES["Cards"].grid) * percent / 100 <= inside(paper)[0]
    breaks = [int(row) for row in re.findall(r'<brk id="(\d+)"', xml)]
    assert breaks == list(range(first - 1 + table.a_page, last, table.a_page))


def test_ready_rows_print_no_card(file: Path, built: Built) -> None:
    """The last page printed begins with a tank; ready rows have no line round them either."""
    first, last = area(file, "Cards")
    names = [built.values["Cards", row, 1] for row in range(first, last + 1)]
    a_page = PAGES["Cards"].tables[0].a_page
    assert len(names) == math.ceil(len(demo_room().tanks) / a_page) * a_page
    assert all(names[: len(demo_room().tanks)])
    assert not any(names[len(demo_room().tanks) :])


def printed(units: str) -> dict[tuple[str, int, int], str]:
    """Every text on the pages."""
    found = evaluated(ROOM, units)
    return {at: str(value) for at, value in found.values.items() if at[0] in PAGES and at[2] <= len(PAGES[at[0]].grid)}


US = {"cm": ("cm", "inch", "in"), "L": ("liter", "US_liquid_gallon", "US gal"), "L/h": ("liter/hour", "US_liquid_gallon/hour", "US gal/h"),
      "°C": ("degC", "degF", "°F"), "kg": ("kg", "lb", "lb")}  # fmt: skip


def values(text: str, unit: str) -> list[float]:
    """The numbers of a text that are followed by a unit; in a recipe of waters a gallon is "gal" for short."""
    short = re.sub("^US ", "(?:US )?", re.escape(unit).replace("\\ ", " "))
    return [float(number) for number in re.findall(rf"(-?[\d.]+) {short}(?![\w/])", text)]


def test_pages_speak_in_the_units_of_the_file() -> None:
    """What stands in one line of facts stands in the same line of the other file, converted by a unit library."""
    registry, metric, us = pint.UnitRegistry(), printed("metric"), printed("us")
    seen = set()
    for at, text in metric.items():
        for unit, (base, other, shown) in US.items():
            is_fact = len(text) < 40 or "; filled mass " in text or "; filter " in text
            facts = values(text, unit) if is_fact else []
            wanted = [registry.Quantity(value, base).to(other).magnitude for value in facts]
            assert values(us[at], shown) == pytest.approx(wanted, rel=0.01, abs=0.6) if facts else True, (text, us[at])
            seen |= {unit} if facts else set()
    assert seen == US.keys()
    assert not [text for text in us.values() for unit in US if values(text, unit)]


@pytest.mark.parametrize(("units", "usual", "larger"), [("metric", "9", "8"), ("us", "1", "3")])
def test_paper_is_that_of_the_units(units: str, usual: str, larger: str) -> None:
    """Letter is 1, Tabloid 3, A3 8, A4 9 in the file format (ECMA-376, part 1, 18.3.1.63)."""
    with zipfile.ZipFile(books.book("club", units)) as archive:
        titles = office.SHEET.findall(archive.read("xl/workbook.xml").decode())
        parts = [archive.read(f"xl/worksheets/sheet{n}.xml").decode() for n, _ in enumerate(titles, 1)]
    found = {t: re.findall(r'<pageSetup[^>]* paperSize="(\d+)"', xml)[0] for t, xml in zip(titles, parts, strict=True)}
    assert found.pop("Compatibility") == larger
    assert set(found.values()) == {usual}


@pytest.mark.office
@pytest.mark.parametrize("paper", ["A4", *also("Letter")])
def test_an_office_program_prints_each_page_whole(file: Path, tmp_path: Path, paper: str) -> None:
    path = tmp_path / "pages.xlsx"
    with zipfile.ZipFile(file) as archive, zipfile.ZipFile(path, "w") as copy:
        for name in archive.namelist():
            copy.writestr(name, archive.read(name).replace(b'paperSize="9"', b'paperSize="%d"' % PAPERS[paper][2]))
    subprocess.run([office.soffice() or "soffice", f"-env:UserInstallation=file://{tmp_path}/profile", "--headless", "--norestore", "--convert-to", "pdf",
                    "--outdir", str(tmp_path), str(path)], check=True, capture_output=True, timeout=office.SECONDS)  # fmt: skip
    pdf = path.with_suffix(".pdf")
    told = subprocess.run(["pdfinfo", str(pdf)], check=True, capture_output=True, text=True).stdout
    last = int(re.search(r"Pages:\s+(\d+)", told)[1])  # type: ignore[index]
    sheets = [pictures.sheet_of(pdf, page) for page in range(1, last + 1)]
    a_page = PAGES["Cards"].tables[0].a_page
    assert [sheets.count(title) for title in ("Tank", "Cards", "Care card")] == [
        1,
        math.ceil(len(demo_room().tanks) / a_page),
        1,
    ]
