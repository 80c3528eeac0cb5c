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

SCREEN, ROW = 600, 20
FEWEST = 14
# Their rows tell why and what to do in sentences of two lines; the names that head a grid of thirty species run upwards.
IN_SENTENCES = {"Attention", "Tankmates", "Compatibility"}
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
    for place, sheet in enumerate(book(edition).worksheets, 1):
        frozen = frozen_rows(sheet)
        if frozen and sheet.title not in IN_SENTENCES and (rows := visible(heights(path, place), frozen)) < FEWEST:
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
