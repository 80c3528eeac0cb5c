"""What a small laptop shows of each sheet: rows below what stays in sight, short heads, a way back.

Measured: LibreOffice on a screen of 1366x768 at 100 % shows 600 pixels of a sheet below the letters of its columns.
"""

import functools
import re
import zipfile
from pathlib import Path

import openpyxl
import pytest
from openpyxl.worksheet.worksheet import Worksheet

from tests import books
from tests.effort import also
from tests.office import areas as areas_of
from tests.office import cells_of
from tests.office_commands import Step, worked

SCREEN, ROW, LINE = 600, 20, 17
FEWEST = 14
# What is picked stands beside what it steers: neither scrolls away.
STEERED = {"keeper": {"Candidates"}, "shop": {"For a buyer", "Labels"}, "club": {"Candidates", "Compatibility"}}
WORDS_OF_A_LINK = re.compile(r'^=HYPERLINK\("#\'?([^\'!]+)\'?!A1","([←→]) \1"\)$')


@functools.cache
def book(edition: str) -> openpyxl.Workbook:
    return books.opened(books.book(edition), rows=1, formulas=True)


def heights(path: Path, place: int) -> dict[int, float]:
    """The heights of rows of a sheet in pixels, where they are said."""
    with zipfile.ZipFile(path) as archive:
        xml = archive.read(f"xl/worksheets/sheet{place}.xml").decode()
    return {int(row): float(points) * 4 / 3 for row, points in re.findall(r'<row r="(\d+)"[^>]*? ht="([\d.]+)"', xml)}


def visible(tall: dict[int, float], frozen: int) -> int:
    """How many whole rows there is room for below the frozen ones."""
    left, row = SCREEN - sum(tall.get(r, ROW) for r in range(1, frozen + 1)), frozen
    while left >= tall.get(row + 1, ROW):
        left, row = left - tall.get(row + 1, ROW), row + 1
    return row - frozen


def frozen_rows(sheet: Worksheet) -> int:
    """How many rows stay in sight."""
    return int(re.sub("[A-Z]+", "", sheet.freeze_panes)) - 1 if sheet.freeze_panes else 0


@pytest.mark.parametrize("edition", ["shop", *also("keeper", "club")])
def test_fourteen_rows_below_every_frozen_head(edition: str) -> None:
    path, few = books.book(edition), {}
    assert {sheet.title for sheet in book(edition).worksheets if frozen_rows(sheet)} >= STEERED[edition]
    for place, sheet in enumerate(book(edition).worksheets, 1):
        frozen = frozen_rows(sheet)
        if frozen and (rows := visible(heights(path, place), frozen)) < FEWEST:
            few[sheet.title] = rows
    assert few == {}


@pytest.mark.parametrize("edition", ["shop", *also("keeper", "club")])
def test_every_sheet_has_a_way_back_in_its_first_row(edition: str) -> None:
    """To Start, and between a list and its workings; each link leads to a sheet that is there and says its name."""
    made = book(edition)
    for sheet in made.worksheets:
        links = [str(cell.value) for cell in sheet[1] if str(cell.value).startswith("=HYPERLINK")]
        found = {match[1] for match in map(WORDS_OF_A_LINK.match, links) if match}
        assert len(found) == len(links), sheet.title
        wanted = {made.sheetnames[0]} | {f"{sheet.title} workings", sheet.title.removesuffix(" workings")}
        assert found == (wanted & set(made.sheetnames)) - {sheet.title}, sheet.title


@pytest.mark.parametrize("edition", ["shop", *also("keeper", "club")])
def test_each_row_of_a_list_leads_to_its_workings_and_back(edition: str) -> None:
    """From the sign of its worst flag and from its right end; a way leads to the row in which it stands."""
    formulas, areas = books.formulas(books.book(edition)), areas_of(books.book(edition))
    lists = [name.removesuffix("_to_list") for name in areas if name.endswith("_to_list")]
    assert len(lists) >= 12
    for name in lists:
        behind, on_list = areas[f"{name}_to_list"], areas[f"{name}_formulas"]
        assert (behind[0], *behind[1::2]) == (f"{on_list[0]} workings", *on_list[1::2]), name
        ways = [(cells_of(behind), on_list[0]), (cells_of(on_list), behind[0])]
        if sign := areas.get(f"{name}_said_shown"):
            ways.append((cells_of(sign), behind[0]))
        for cells, to in ways:
            assert all(
                f"HYPERLINK(\"#'{to}'!A\"&ROW()," in formulas[at].replace('#"&"', "#").replace('\'"&"!', "'!")
                for at in cells
            ), name


@pytest.mark.office
def test_rows_are_as_high_as_their_texts_need(tmp_path: Path) -> None:
    """LibreOffice, asked to fit rows to their texts, makes none of them higher, and few by a line less high."""
    path, fitted = books.book("shop"), tmp_path / "fitted.xlsx"
    titles = ["Attention", "Task list", "This week", "Constants", "For a buyer", "Labels"]
    worked(path, {fitted: [Step("fit", title, f"A1:A{book('shop')[title].max_row}") for title in titles]}, tmp_path)
    for title in titles:
        place = book("shop").sheetnames.index(title) + 1
        ours, needed = heights(path, place), heights(fitted, place)
        frozen = frozen_rows(book("shop")[title])
        rows = [(ours.get(row, LINE), tall) for row, tall in needed.items() if row > frozen]
        assert min(given - tall for given, tall in rows) > -LINE / 2, title
        assert sum(given > tall + LINE / 2 for given, tall in rows) <= len(rows) / 5, title
