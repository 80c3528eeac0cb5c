"""Whatever stands in a file, every command ends in words of its own: texts, numbers and blanks over any cell."""

import datetime
import random
from pathlib import Path
from types import SimpleNamespace

import pytest
from typer.testing import CliRunner

from tests import desk, returned
from tests.effort import also, in_the_end, thorough
from workbook.cli import app
from workbook.copies.checking import FAILS, Checking
from workbook.copies.grids import Book, Grid, Raw
from workbook.copies.reading import content_of, read_book
from workbook.findings import BadInputError

ODD = ("about 5", "", "#N/A", "=", "TRUE", "1e999", "9" * 60, "-", "a;b", "¦ → ▲", " ", "\x0b", 0.0, -1.0, 1e15, 0.1, True,
       datetime.datetime(1900, 1, 1), None)  # fmt: skip


@pytest.fixture(scope="module", params=["keeper", *also("shop"), *in_the_end("club")])
def file(request: pytest.FixtureRequest) -> Path:
    """A small file of the edition."""
    return returned.book(request.param)


def spoilt(book: Book, dice: random.Random, share: float) -> Book:
    """Anything at all typed over some cells: formulas, heads, titles, typed cells, and blank ones beside them."""
    grids = {}
    for title, grid in book.grids.items():
        cells = dict(grid.cells)
        for at in [at for at in cells if dice.random() < share]:
            cells[at] = Raw(dice.choice(ODD))
        for _ in range(3):
            cells[dice.randint(1, 60), dice.randint(1, 60)] = Raw(dice.choice(ODD))
        grids[title] = Grid(title, {at: raw for at, raw in cells.items() if raw.value is not None}, dict(grid.notes))
    return Book(book.name, grids, dict(book.names), dict(book.facts), book.epoch)


def test_check_tells_whatever_was_typed_over(file: Path) -> None:
    """It ends in findings, or in one line that says that the file is none of ours."""
    made = spoilt(read_book(file)[0], random.Random(1), 0.01)
    try:
        content = content_of(made)
    except BadInputError:
        return
    assert Checking(made, content).faults()


def test_a_text_over_a_computed_cell_is_named_and_so_is_what_fails_by_it(file: Path) -> None:
    """The very cell is told as typed over; formulas that count on from it and fail are told as failing."""
    book, _ = read_book(file)
    place = book.names["tanks_line"]
    book.grids[place.sheet].cells[place.top, place.left] = Raw("the first")
    faults = Checking(book, content_of(book)).faults()
    over = [fault for fault in faults if fault.what == "typed over a formula"]
    assert [(fault.found, fault.sheet) for fault in over] == [("the first", place.sheet)]
    assert any(fault.what == FAILS for fault in faults)


@pytest.mark.parametrize(
    ("file", "form"),
    [("keeper", "ods"), *in_the_end(("shop", "xlsx"))],
    indirect=["file"],
)
def test_every_command_ends_in_its_own_words(file: Path, form: str, tmp_path: Path) -> None:
    """Build, export, compare, merge and check of a file in which anything was typed anywhere."""
    made = spoilt(read_book(file)[0], random.Random(form), 0.003)
    path = write(made, tmp_path / "spoilt.xlsx")
    if form == "ods":
        path = desk.write_ods(read_book(path)[0], tmp_path / "spoilt.ods")
    commands = (
        ["build", str(path), "-o", str(tmp_path / "fresh.xlsx"), "--spare-rows", "3"],
        ["merge", str(file), str(path), "-o", str(tmp_path / "merged.xlsx"), "--spare-rows", "3"],
        ["export", str(path), "-o", str(tmp_path / "plain")],
        ["check", str(path)],  # in every run above
        ["compare", str(file), str(path)],
    )
    for command in commands if thorough() else commands[::2]:
        result = CliRunner().invoke(app, command)
        assert result.exit_code in {0, 1, 2}, (command, result.output)
        assert result.exception is None or isinstance(result.exception, SystemExit), command
        assert "Traceback" not in result.output


def write(book: Book, path: Path) -> Path:
    """A real file of it."""
    grids = {
        title: Grid(title, {at: clean(raw) for at, raw in grid.cells.items()}, dict(grid.notes))
        for title, grid in book.grids.items()
    }
    thin = Book(book.name, grids, dict(book.names), dict(book.facts), book.epoch)
    return desk.write(SimpleNamespace(book=thin), path)  # type: ignore[arg-type]


def clean(raw: Raw) -> Raw:
    """What can stand in a file: no control characters."""
    return Raw("".join(c for c in raw.value if c.isprintable()), raw.formula) if isinstance(raw.value, str) else raw
