"""Rows of lists sorted, deleted, put in and cleared by LibreOffice itself: nothing breaks, and the answers stay right."""

from pathlib import Path

import pytest
from openpyxl.utils import get_column_letter

from tests import books, office
from tests.effort import thorough
from tests.office_commands import Step, worked
from workbook.copies.checking import check
from workbook.copies.inputs import Fault
from workbook.copies.reading import read_copy

pytestmark = pytest.mark.office

# Four lists on which much hangs, each with the name of the column that it is known by.
LISTS = {"Tanks": "tanks_tank", "Livestock": "livestock_tank", "Species": "species_species", "Log": "log_date"}
WIDE = "AZ"


def area(name: str) -> office.Area:
    """Sheet, first row, column, last row and last column of a name."""
    return office.areas(books.room())[name]


def rows(title: str) -> tuple[int, int]:
    """First and last row of a list."""
    _, top, _, bottom, _ = area(LISTS[title])
    return top, bottom


def at(name: str, row: int = 0) -> tuple[str, str]:
    """Sheet and address of a cell of a column, so many rows down."""
    sheet, top, left, *_ = area(name)
    return sheet, f"{get_column_letter(left)}{top + row}"


def sorted_downwards() -> list[Step]:
    """The whole list with its answers, by name."""
    ranges = {title: f"A{rows(title)[0]}:{WIDE}{rows(title)[1]}" for title in LISTS}
    return [Step("sort", title, ranges[title], area(name)[2] - 1) for title, name in LISTS.items()]


def deleted() -> list[Step]:
    """The first row, one between and the last ready one."""
    ends = {title: rows(title) for title in LISTS}
    return [Step("delete", title, row) for title, (top, bottom) in ends.items() for row in (top, bottom - 1, top + 1)]


def put_in() -> list[Step]:
    """Rows between two and above the first, and what is typed there."""
    return [Step("insert", title, rows(title)[0] + more) for title in LISTS for more in (1, 0)] + [
        Step("type", *at("livestock_tank"), "Long"),
        Step("type", *at("livestock_species"), "Reed tetra"),
        Step("type", *at("livestock_animals"), 3),
    ]


def cleared() -> list[Step]:
    """What is typed in the second row."""
    steps = []
    for title, name in LISTS.items():
        top, left = rows(title)[0] + 1, area(name)[2]
        steps.append(Step("clear", title, f"{get_column_letter(left)}{top}:{get_column_letter(left + 8)}{top}"))
    return steps


def typed_over() -> list[Step]:
    """An answer beside a list, and a step of its workings; and numbers that a cell would refuse, as somebody pastes them."""
    return [
        Step("type", *at("livestock_mass_g_shown", 1), "9"),
        Step("type", *at("livestock_mass_each_g", 3), "9"),
        Step("type", *at("tanks_length_cm"), 0),
        Step("type", *at("tanks_change_share", 1), 3),
        Step("type", *at("tanks_meals_per_day", 2), 0),
        Step("type", *at("tanks_width_cm", 2), -35),
    ]


@pytest.fixture(scope="module")
def after(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The small room in trouble after each of these; LibreOffice starts once for all of them."""
    folder = tmp_path_factory.mktemp("rows")
    jobs = (sorted_downwards, deleted, put_in, typed_over, *((cleared,) if thorough() else ()))
    steps = {made.__name__: made() for made in jobs}
    found = {name: folder / f"{name}.xlsx" for name in steps}
    worked(books.room(), {found[name]: told for name, told in steps.items()}, folder)
    return found


def errors(path: Path) -> dict[office.At, object]:
    """The cells that show an error, and the formulas that point to what is gone."""
    shown = {at: value for at, value in office.values(path).items() if isinstance(value, str) and value.startswith("#")}
    return shown | dict.fromkeys(office.lost(path), "#REF!")


def told(path: Path, what: str) -> list[tuple[object, object, object]]:
    """Where, why and what to do of each line of Attention with this title."""
    values, areas = office.values(path), office.areas(path)
    columns = [
        [values.get(at, "") for at in office.cells_of(areas[f"attention_{key}"])]
        for key in ("what", "where", "why", "do")
    ]
    return [line[1:] for line in zip(*columns, strict=True) if line[0] == what]


def but(faults: list[Fault], *expected: str) -> list[Fault]:
    """The faults that are none of these."""
    return [fault for fault in faults if fault.what not in expected]


def test_sorted_lists_answer_as_before(after: dict[str, Path]) -> None:
    """The whole list with its answers, downwards by name; reckoned anew from what stands in its rows it is the same."""
    path = after["sorted_downwards"]
    assert errors(path) == {}
    assert check(path) == []
    names = [entry.values["tank"] for entry in read_copy(path).tables["tanks"]]
    assert names == sorted(names, reverse=True)


def test_deleted_rows_take_nothing_along(after: dict[str, Path]) -> None:
    """What pointed to them is named as unknown."""
    path = after["deleted"]
    assert errors(path) == {}
    assert but(check(path), "a name that is not known") == []
    before, now = (read_copy(found).tables for found in (books.room(), path))
    for table in ("tanks", "livestock", "species", "log"):
        kept = [entry.values for place, entry in enumerate(before[table]) if place not in {0, 2}]
        assert [entry.values for entry in now[table]] == kept


def test_a_row_put_in_is_picked_up_and_told_to_lack_formulas(after: dict[str, Path]) -> None:
    """What is typed there counts at once."""
    path = after["put_in"]
    assert errors(path) == {}
    assert but(check(path), "a formula is gone") == []
    gone = told(path, "Formulas gone")
    assert [where for where, *_ in gone] == ["Long: Reed tetra"]
    assert str(gone[0][1]).startswith("this row was put in")


@pytest.mark.thorough
def test_cleared_rows_are_ready_rows_again(after: dict[str, Path]) -> None:
    path = after["cleared"]
    assert errors(path) == {}
    assert but(check(path), "a name that is not known") == []


def test_the_workbook_tells_of_formulas_that_were_typed_over(after: dict[str, Path]) -> None:
    path = after["typed_over"]
    (shown,), (behind,) = told(path, "Formulas gone"), told(path, "Workings gone")
    letters = get_column_letter(area("livestock_mass_each_g")[2])
    assert (shown[0], shown[1]) == ("Long: Bolt barb", "no formula stands any more in this row under: Mass of all")
    assert behind[0] == "Bow: Glass shrimp"
    assert str(behind[1]).endswith(f"in the columns {letters}")


def test_a_number_that_can_not_be_is_named_with_its_row_and_column(after: dict[str, Path]) -> None:
    """It counts as unknown, and that is said: each row once, with the labels of its cells."""
    lines = told(after["typed_over"], "Number that can't be")
    said = {where: str(why).rpartition(": ")[2] for where, why, _ in lines}
    assert said == {"Long": "Length", "Drum": "Water change", "Bow": "Width, Meals a day"}
    assert errors(after["typed_over"]) == {}


def gone(path: Path) -> list[object]:
    """What is said of handed-out cells, row by row."""
    values, area = office.values(path), office.areas(path)["species_handed_gone"]
    return [values.get(at, "") for at in office.cells_of(area)]


@pytest.fixture(scope="module")
def of_the_club(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """A member's file: its library sorted downwards by name, and a few cells of it cleared."""
    folder, source = tmp_path_factory.mktemp("club"), books.book("club")
    areas = office.areas(source)
    steps: dict[str, list[Step]] = {"sorted": [], "cleared": []}
    for title, name in {"Species": "species_species", "Foods": "foods_food"}.items():
        _, top, left, bottom, _ = areas[name]
        last = areas[f"{title.lower()}_formulas"][2]
        steps["sorted"].append(Step("sort", title, f"A{top}:{get_column_letter(last)}{bottom}", left - 1))
    _, top, left, *_ = areas["species_kind"]
    steps["cleared"].append(
        Step("clear", "Species", f"{get_column_letter(left)}{top}:{get_column_letter(left)}{top + 1}")
    )
    found = {name: folder / f"{name}.xlsx" for name in steps}
    worked(source, {found[name]: told for name, told in steps.items()}, folder)
    return found


@pytest.mark.thorough  # a club's sheets are a keeper's; in every run tests/test_club.py sees to what was handed out
def test_a_library_that_was_handed_out_can_be_sorted(of_the_club: dict[str, Path]) -> None:
    """Its cells are not locked; sorted, the file answers as before and nothing of the library is told as gone."""
    path = of_the_club["sorted"]
    assert errors(path) == {}
    # Its lists of answers are short, so elsewhere a whole check finds that they end early.
    faults = but(check(path), "a list nearly full")
    assert [fault for fault in faults if fault.sheet.startswith(("Species", "Foods", "Stocking"))] == []
    before, now = (read_copy(found).tables for found in (books.book("club"), path))
    for table, key in {"species": "species", "foods": "food"}.items():
        names = [str(entry.values[key]) for entry in now[table]]
        assert names == sorted(names, key=str.casefold, reverse=True)
        assert {str(e.values) for e in now[table]} == {str(e.values) for e in before[table]}
    assert set(gone(path)) == {""}


@pytest.mark.thorough
def test_cleared_cells_that_were_handed_out_are_told(of_the_club: dict[str, Path]) -> None:
    first, *others = gone(of_the_club["cleared"])
    assert "are blank: 2 or more" in str(first)
    assert set(others) == {""}
