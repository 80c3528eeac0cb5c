"""A column's formula is written once and shared by its cells: what any program makes of it is what was meant."""

import re
import zipfile
from pathlib import Path

import pytest

from tests import office
from tests.effort import also
from tests.test_evaluating import few
from workbook.build import Built, Plan, compute, read, save, templates_folder
from workbook.copies.reading import read_book
from workbook.editions import EDITIONS

PART = re.compile(r"xl/worksheets/sheet\d+\.xml")
WRITTEN = re.compile(r"<f(?P<marks>[^>/]*)>(?P<text>[^<]*)</f>")


def make(source: str, units: str, folder: Path) -> tuple[Built, Path]:
    """A workbook with some rows of the long lists, and its file."""
    name = source.partition("-")[0] if "-" in source else "keeper"
    plan, edition = Plan(name, units, spare_rows=3), EDITIONS[name]()
    built = compute(edition, few(read(templates_folder() / source, edition)), plan)
    save(folder / f"{name}.xlsx", built, plan)
    return built, folder / f"{name}.xlsx"


@pytest.fixture(scope="module", params=[("demo", "us"), *also((("shop-demo", "metric"),))])
def made(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[Built, Path]:
    """Between them they have every kind of sheet."""
    return make(*request.param, tmp_path_factory.mktemp("shared"))


def meant(built: Built) -> dict[office.At, str]:
    """The formula of every cell, each written out."""
    return {(p.placed.sheet.title, row, column): text for p in built.pages for row, column, text, _ in p.formulas()}


def test_every_cell_has_its_own_formula_to_a_program_that_reads_them(made: tuple[Built, Path]) -> None:
    """openpyxl moves the formula of the first cell by the rules of the file format."""
    built, path = made
    assert office.formulas(path) == meant(built)


def test_a_copy_that_comes_back_unchanged_has_its_formulas_to_the_letter(made: tuple[Built, Path]) -> None:
    """What check compares."""
    built, path = made
    book, _ = read_book(path)
    found = {
        (title, *at): raw.formula for title, grid in book.grids.items() for at, raw in grid.cells.items() if raw.formula
    }
    assert found == meant(built)


def test_every_cell_shows_its_value_to_a_program_that_does_not_reckon(made: tuple[Built, Path]) -> None:
    """A phone's preview, pandas."""
    built, path = made
    shown = office.values(path)
    assert office.differences({at: office.plain(v) for at, v in built.values.items()}, shown, built.values) == []


def test_most_formulas_are_shared_and_none_that_looks_at_another_sheet(made: tuple[Built, Path]) -> None:
    """Old file formats had no room for a shared formula with a cell of another sheet, and programs grew up with these."""
    _, path = made
    with zipfile.ZipFile(path) as archive:
        sheets = [archive.read(name).decode() for name in archive.namelist() if PART.fullmatch(name)]
    written = [found for text in sheets for found in WRITTEN.finditer(text)]
    shared = [found["text"] for found in written if "shared" in found["marks"]]
    assert not [text for text in shared if "!" in re.sub('"[^"]*"', "", text)]
    followers = sum(text.count('<f t="shared" si=') for text in sheets)
    assert followers > len(written)


@pytest.mark.office
@pytest.mark.long  # in every run tests/test_engines.py opens and reckons such files, and tests/test_checking.py reads one it saved
def test_libreoffice_reckons_and_saves_shared_formulas_as_it_does_others(tmp_path: Path) -> None:
    """Opened as it is by default; reckoned anew from wrong values and saved (tests/test_returning.py: as .ods too)."""
    built, path = make("shop-demo", "us", tmp_path)
    expected = {at: office.plain(v) for at, v in built.values.items()}
    poisoned = office.poisoned(path, tmp_path / "poisoned.xlsx", 987654.25)
    wrong = office.values(poisoned)
    assert {at: wrong[at] for at in expected} == dict.fromkeys(expected, 987654.25)
    opened = office.recalculated(path, tmp_path / "opened", always=False)[0]
    assert office.differences(expected, opened, expected) == []
    (saved,) = office.resaved([poisoned], tmp_path / "saved", "xlsx", always=True)
    assert office.differences(expected, office.values(saved), expected) == []
