"""A chart says what it shows: of the picked tank, and of the picked reading, wherever its numbers follow the pick.

Programs do not all follow a title that is linked to a cell, so a cell above the chart does as well.
"""

import posixpath
import re
import zipfile
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from openpyxl.utils.cell import range_boundaries

from tests import books, short
from workbook.build import Built, Plan, compute, save
from workbook.editions import EDITIONS, first_choices

if TYPE_CHECKING:
    from workbook.cells.pages import Records

KEEPER = EDITIONS["keeper"]()
PLAN = Plan(spare_rows=2, plan_date=books.DAY)
TANKS, READINGS = ("Rack B1", "Hall corner"), ("Nitrate", "pH")
DRAWN = re.compile(r"<c:f>'?([^'!<]+)'?!([^<]+)</c:f>")
HEAD = re.compile(r"<c:chart>(?:<c:title>(.*?)</c:title>)?(<c:autoTitleDeleted val=\"1\"/>)?", re.DOTALL)
ANCHOR = re.compile(r"<xdr:from><xdr:col>(\d+)</xdr:col>.*?<xdr:row>(\d+)</xdr:row>.*?r:id=\"(\w+)\"", re.DOTALL)
At = tuple[str, int, int]


@dataclass(frozen=True)
class Drawn:
    """A chart of the file: its sheet, the row in which it begins, the cells it draws, its title and the cell of that."""

    sheet: str
    row: int
    cells: tuple[At, ...]
    title: str
    linked: tuple[At, ...]
    untitled: bool


def built(tank: str, reading: str) -> Built:
    """A few rows of the demo with a tank in view and a reading picked."""
    records: Records = books.few("keeper")
    picked: Records = {"view": [{"tank": tank}], "log_choice": [{"parameter": reading}], "plan_lines": []}
    with short.answers():
        return compute(KEEPER, first_choices(KEEPER, records) | records | picked, PLAN)


def cells_of(sheet: str, area: str) -> list[At]:
    left, top, right, bottom = range_boundaries(area.replace("$", ""))
    return [(sheet, row, column) for row in range(top, bottom + 1) for column in range(left, right + 1)]


def targets(archive: zipfile.ZipFile, part: str) -> dict[str, str]:
    """What a part of the file leads to, by the key of each relation."""
    folder, name = posixpath.split(part)
    there = f"{folder}/_rels/{name}.rels"
    if there not in archive.namelist():
        return {}
    found = re.findall(r'Id="(\w+)"[^>]*Target="([^"]+)"', archive.read(there).decode())
    return {key: posixpath.normpath(posixpath.join(folder, target)).lstrip("/") for key, target in found}


def chart(text: str, sheet: str, row: int) -> Drawn:
    head = HEAD.search(text)
    assert head
    linked = [at for where in DRAWN.findall(head[1] or "") for at in cells_of(*where)]
    drawn = [at for where in DRAWN.findall(text[head.end() :]) for at in cells_of(*where)]
    title = "".join(re.findall(r"<(?:a:t|c:v)>(.*?)</(?:a:t|c:v)>", head[1] or ""))
    return Drawn(sheet, row, tuple(drawn), title, tuple(linked), bool(head[2]))


def charts(path: Path) -> list[Drawn]:
    """Every chart of a file."""
    found = []
    with zipfile.ZipFile(path) as archive:
        titles = re.findall(r'<sheet name="([^"]+)"', archive.read("xl/workbook.xml").decode())
        for place, sheet in enumerate(titles, 1):
            for drawing in targets(archive, f"xl/worksheets/sheet{place}.xml").values():
                parts = targets(archive, drawing) if "/drawing" in drawing else {}
                for _, row, key in ANCHOR.findall(archive.read(drawing).decode()) if parts else ():
                    found.append(chart(archive.read(parts[key]).decode(), sheet, int(row) + 1))
    return found


@pytest.fixture(scope="module")
def rooms() -> dict[tuple[str, str], Built]:
    """One tank and reading, another tank, another reading."""
    return {
        picked: built(*picked) for picked in [(TANKS[0], READINGS[0]), (TANKS[1], READINGS[0]), (TANKS[0], READINGS[1])]
    }


@pytest.fixture(scope="module")
def drawn(rooms: dict[tuple[str, str], Built], tmp_path_factory: pytest.TempPathFactory) -> list[Drawn]:
    path = tmp_path_factory.mktemp("charts") / "charts.xlsx"
    save(path, rooms[TANKS[0], READINGS[0]], PLAN)
    return charts(path)


def following(drawn: list[Drawn], first: Built, second: Built) -> list[Drawn]:
    """The charts that draw other numbers in the other room."""
    return [one for one in drawn if any(first.values.get(at) != second.values.get(at) for at in one.cells)]


def says(one: Drawn, made: Built) -> list[str]:
    """Its title, and the cells of its sheet above it that are reckoned."""
    above = [str(value) for (sheet, row, _), value in made.values.items() if sheet == one.sheet and row < one.row]
    return [str(made.values[at]) for at in one.linked] + above


def test_no_chart_is_without_words_of_its_own(drawn: list[Drawn]) -> None:
    """Where nothing is said of a title, programs write "Chart Title"; a linked one holds its words from the start."""
    assert len(drawn) == 11
    assert [one for one in drawn if not one.title and not one.untitled] == []
    assert [one for one in drawn if "chart title" in one.title.casefold()] == []


@pytest.mark.parametrize(
    ("picked", "sheets"),
    [
        ((TANKS[1], READINGS[0]), {"Tank", "Water changes", "Stocking", "Overlap"}),
        ((TANKS[0], READINGS[1]), {"Water changes"}),
    ],
)
def test_a_chart_that_follows_a_pick_says_what_was_picked(
    rooms: dict[tuple[str, str], Built], drawn: list[Drawn], picked: tuple[str, str], sheets: set[str]
) -> None:
    """In its title, or in a cell above it on its sheet; in either room what that room picked, not what the other did."""
    usual = (TANKS[0], READINGS[0])
    follow = following(drawn, rooms[usual], rooms[picked])
    assert {one.sheet for one in follow} == sheets
    (word, other), *_ = [(a, b) for a, b in zip(usual, picked, strict=True) if a != b]
    for one in follow:
        assert any(word in text for text in says(one, rooms[usual])), one
        assert any(other in text for text in says(one, rooms[picked])), one
        if one.linked:
            assert word in one.title
