"""Check finds what is wrong in a workbook, says where, and finds nothing where nothing is wrong."""

import datetime
import json
import random
from dataclasses import replace
from pathlib import Path

import pytest
from typer.testing import CliRunner

from tests import books, desk, office, small_room
from tests.effort import also, in_the_end
from workbook.build import Plan, build, compute, save
from workbook.cells.placing import letters
from workbook.cli import app
from workbook.copies.checking import Checking, check, joined
from workbook.copies.content import Entry
from workbook.copies.formulas import Lanes
from workbook.copies.grids import Area, Raw
from workbook.copies.inputs import Fault, nearly_full
from workbook.copies.reading import content_of, read_book
from workbook.editions import EDITIONS
from workbook.tables import Typed, text
from workbook.tables.sheet import Charts
from workbook.tables.table import Table

DAY = datetime.date(2026, 4, 15)


@pytest.fixture(scope="module")
def room() -> Path:
    """The small room as a workbook; check sets beside it one with short answers as well."""
    return books.room(whole=False)


def place(path: Path, name: str, row: int = 0) -> office.At:
    """The cell of a defined name, so many rows down."""
    sheet, top, left, *_ = office.areas(path)[name]
    return sheet, top + row, left


def cell(at: office.At) -> tuple[str, str]:
    """Sheet and address."""
    return at[0], f"{letters(at[2])}{at[1]}"


def where(fault: Fault) -> tuple[str, str]:
    """The same of a fault."""
    return fault.sheet, fault.cell


# --- nothing wrong ---


@pytest.mark.parametrize(
    ("edition", "units", "room"),
    [
        ("shop", "us", "demo"),
        *also(("keeper", "metric", "demo"), ("keeper", "us", "demo"), ("keeper", "metric", "blank")),
        *also(("club", "metric", "demo")),
    ],
)
def test_a_workbook_as_built_is_clean(edition: str, units: str, room: str) -> None:
    full = {"a list nearly full"}  # a shared book has two ready rows a list
    assert {fault.what for fault in check(books.book(edition, units, room))} <= full


def test_values_that_follow_from_the_day_are_no_fault_on_another_day(tmp_path: Path) -> None:
    folder = small_room.write(tmp_path / "room")
    settings = folder / "settings.csv"
    settings.write_text(
        "".join(line for line in settings.read_text().splitlines(keepends=True) if "plan_date" not in line)
        + "plan_date_typed,\n"
    )
    path = tmp_path / "built.xlsx"
    build(folder, path, Plan(spare_rows=6, plan_date=datetime.date(2026, 4, 17)))
    shown = office.values(path)[place(path, "settings_plan_date")]
    assert shown == (datetime.date(2026, 4, 17) - datetime.date(1899, 12, 30)).days
    assert check(path) == []


def test_rows_with_gaps_between_and_columns_in_other_places_are_no_fault(tmp_path: Path) -> None:
    records = small_room.records(tmp_path / "room")
    records["livestock"].insert(2, {})
    edition = EDITIONS["keeper"]()

    def longer(block: Table | Charts) -> Table | Charts:
        mine = Typed("mine", "My shelf", text(), free=True)
        return (
            replace(block, columns=(mine, *block.columns))
            if block.key in {"tanks", "livestock"} and isinstance(block, Table)
            else block
        )

    sheets = tuple(replace(sheet, blocks=tuple(longer(b) for b in sheet.blocks)) for sheet in edition.sheets)
    path, plan = tmp_path / "moved.xlsx", Plan(spare_rows=6, plan_date=DAY)
    save(path, compute(replace(edition, sheets=sheets), records, plan), plan)
    assert check(path) == []


@pytest.mark.office
@pytest.mark.thorough  # of .xlsx in every run: tests/test_rows_of_lists.py
@pytest.mark.parametrize("form", ["ods", *in_the_end("xlsx")])
def test_a_workbook_that_an_office_program_reckoned_and_saved_is_clean(form: str) -> None:
    full = {"a list nearly full"}  # it has three ready rows a list
    assert {fault.what for fault in check(desk.saved(form)["us"])} <= full


# --- something wrong ---


# The file tells by itself where a formula is gone, once a program reckons it: until then it shows what it did before.
FOLLOWS = {"a value that is not what its formula gives", "no value stored"}


def causes(found: list[Fault]) -> list[Fault]:
    """The faults without what only follows from them."""
    return [fault for fault in found if fault.what not in FOLLOWS]


@pytest.fixture(scope="module")
def spoilt(room: Path) -> dict[str, office.At]:
    """Cells of which nothing follows: one gets the value that it shows, two lie in ready rows, one is locked."""
    return {
        "over": place(room, "tanks_net_volume_l"),
        "gone": place(room, "livestock_mass_g", 8),
        "other": place(room, "log_toxic_verdict", 8),
        "locked": place(room, "constants_label", 2),
    }


@pytest.fixture(scope="module")
def found(room: Path, spoilt: dict[str, office.At], tmp_path_factory: pytest.TempPathFactory) -> dict[str, Fault]:
    """What is told of a copy in which somebody typed over them, by their names."""
    typed = {"over": office.values(room)[spoilt["over"]], "gone": "", "other": "=1+1", "locked": "Something else"}
    path = tmp_path_factory.mktemp("spoilt") / "spoilt.xlsx"
    told = causes(check(office.forced(room, path, {at: typed[name] for name, at in spoilt.items()})))
    by_cell = {where(fault): fault for fault in told}
    assert by_cell.keys() == {cell(at) for at in spoilt.values()}
    assert len(told) == len(spoilt)
    return {name: by_cell[cell(at)] for name, at in spoilt.items()}


def test_a_formula_typed_over_is_found_where_it_was(room: Path, spoilt: dict, found: dict[str, Fault]) -> None:
    fault, at = found["over"], spoilt["over"]
    assert (fault.what, fault.expected) == ("typed over a formula", office.formulas(room)[at])
    assert float(fault.found) == pytest.approx(float(office.values(room)[at]))


def test_a_formula_that_is_gone_or_another_is_found(room: Path, spoilt: dict, found: dict[str, Fault]) -> None:
    formulas = office.formulas(room)
    assert [(f.what, f.found, f.expected) for f in (found["gone"], found["other"])] == [
        ("a formula is gone", "nothing", formulas[spoilt["gone"]]),
        ("another formula", "=1+1", formulas[spoilt["other"]]),
    ]


def test_a_locked_cell_typed_over_is_found(found: dict[str, Fault]) -> None:
    assert (found["locked"].what, found["locked"].found) == ("typed over a locked cell", "Something else")


def test_what_follows_from_a_typed_over_cell_is_told_by_its_own_formula(room: Path, tmp_path: Path) -> None:
    at = place(room, "tanks_net_volume_l")
    found = check(office.forced(room, tmp_path / "over.xlsx", {at: 1000.0}))
    assert where(found[0]) == cell(at)
    assert {fault.what for fault in found[1:]} <= FOLLOWS
    saved = {cell(at) for at in office.formulas(room)}
    assert {where(fault) for fault in found} <= saved


def test_any_formula_typed_over_is_found_and_nothing_else(room: Path) -> None:
    book, content = read_book(room)
    dice = random.Random(7)
    formulas = [
        (t, at) for t, grid in sorted(book.grids.items()) for at, raw in sorted(grid.cells.items()) if raw.formula
    ]
    wanted = {}
    for title, at in dice.sample(formulas, 40):
        before = book.grids[title].cells[at]
        book.grids[title].cells[at] = Raw(before.value)
        what = "typed over a formula" if before.value is not None else "a formula is gone"
        wanted[title, f"{letters(at[1])}{at[0]}"] = what
    # A value that is wrong by a thousandth, as one of ammonia may be.
    little = place(room, "tanks_net_volume_l")
    raw = book.grids[little[0]].cells[little[1:]]
    book.grids[little[0]].cells[little[1:]] = raw._replace(value=float(str(raw.value)) + 0.001)
    found = Checking(book, content).faults()
    # Where one that is gone held what the next looks up in, that one fails, and check says whose fault it is not.
    told = [
        fault for fault in causes(found) if fault.what != "a formula that fails because of what stands in other cells"
    ]
    assert sorted((where(f), f.what) for f in told) == sorted(wanted.items())
    assert (cell(little), "a value that is not what its formula gives") in {(where(f), f.what) for f in found}


def test_stale_values_are_found_with_what_they_should_be(room: Path, tmp_path: Path) -> None:
    typed, total = place(room, "livestock_animals"), place(room, "counts_animals")
    before = {at: office.values(room)[at] for at in (typed, total)}
    found = check(office.edited(room, tmp_path / "stale.xlsx", {typed: float(before[typed]) + 3}))
    by_cell = {where(f): f for f in found}
    assert {f.what for f in found} == {"a value that is not what its formula gives"}
    fault = by_cell[cell(total)]
    assert (float(fault.found), float(fault.expected)) == (before[total], float(before[total]) + 3)


def test_wrong_values_everywhere_are_all_found_and_told_in_few_lines(room: Path, tmp_path: Path) -> None:
    poisoned = office.poisoned(room, tmp_path / "poisoned.xlsx", 7.25)
    found = check(poisoned)
    formulas, values = office.formulas(room), office.values(room)
    cells = {cell(at) for at in formulas if values.get(at) != 7.25}
    assert len({where(f) for f in found} & cells) > 0.9 * len(cells)
    assert len(joined(found)) < len(found) / 3


def test_inputs_out_of_rule_unknown_names_and_names_used_twice_are_found(room: Path, tmp_path: Path) -> None:
    length, name, fish, low, count = (place(room, n) for n in (
        "tanks_length_cm", "tanks_tank", "livestock_species", "species_temperature_low_degc", "livestock_animals"))  # fmt: skip
    second = (name[0], name[1] + 1, name[2])
    first_name = office.values(room)[name]
    # A range of one value is one.
    level, high = place(room, "species_temperature_low_degc", 1), place(room, "species_temperature_high_degc", 1)
    found = check(office.edited(room, tmp_path / "inputs.xlsx", {
        length: -5.0, second: str(first_name).upper(), fish: "Neon tetrra", low: 39.0, count: "10", level: office.values(room)[high],
    }))  # fmt: skip
    told = {where(f): (f.what, f.found) for f in found if "formula" not in f.what}
    assert told[cell(length)] == ("not what belongs there", "-5")
    assert told[cell(second)][0] == "a name used twice"
    assert told[cell(fish)] == ("a name that is not known", "Neon tetrra")
    assert told[cell(low)][0] == "a low end above the high end"
    assert cell(level) not in told
    assert told[cell(count)] == ("text where a number is wanted", "the text '10'")
    expected = {where(f): f.expected for f in found}
    assert expected[cell(length)] == "a number from 2 to 1000 cm"


def test_a_list_nearly_full_is_found(tmp_path: Path) -> None:
    folder = small_room.write(tmp_path / "room")
    path = tmp_path / "full.xlsx"
    build(folder, path, Plan(spare_rows=1, plan_date=DAY))
    found = [f for f in check(path) if f.what == "a list nearly full"]
    assert {f.sheet for f in found} == {
        "Species", "Waters", "Tanks", "Livestock", "Foods", "Feeding", "Live food", "Breeding", "Maintenance", "Known", "Dosing",
        "Log",  # whose ready rows last a year but for these short books
    }  # fmt: skip
    assert {f.found for f in found} == {"1 rows left", "2 rows left"}


def test_a_list_with_just_as_many_ready_rows_as_wanted_is_not_nearly_full() -> None:
    tanks = (Entry({"tank": "Long"}), Entry({}))
    assert nearly_full(tanks, 6, 5) is None
    assert nearly_full(tanks, 5, 5) == ("4 rows left", "at least 5: build it anew, with more spare rows")


def test_a_row_typed_below_the_last_formulas_is_found(room: Path, tmp_path: Path) -> None:
    book, _ = read_book(room)
    sheet, _, left, bottom, _ = office.areas(room)["waters_water"]
    book.grids[sheet].cells[bottom + 1, left] = Raw("Rain")
    vars(book.grids[sheet]).pop("rows", None)
    found = Checking(book, content_of(book)).faults()
    assert [(f.what, f.cell) for f in found if f.sheet == "Waters"] == [
        ("a row outside of its list", f"{letters(left)}{bottom + 1}")
    ]


def test_a_sheet_that_is_gone_is_found(room: Path) -> None:
    book, content = read_book(room)
    kept = {name: area for name, area in book.names.items() if area.sheet != "Power cut"}
    found = Checking(replace(book, names=kept), content).faults()
    assert ("Power cut", "a table that is gone") in {(f.sheet, f.what) for f in found}


# --- formulas apart from where they lie ---


def test_formulas_are_alike_wherever_they_lie() -> None:
    here = Lanes(
        {
            "a_x": Area("A", 5, 2, 9, 2),
            "a_y": Area("A", 5, 3, 9, 3),
            "b_z": Area("B", 3, 1, 7, 1),
            "f_q": Area("A", 2, 2, 2, 2),
        }
    )
    there = Lanes(
        {
            "a_x": Area("A a", 15, 7, 19, 7),
            "a_y": Area("A a", 15, 1, 19, 1),
            "b_z": Area("B", 4, 2, 8, 2),
            "f_q": Area("A a", 1, 2, 1, 2),
        }
    )
    one = here.alike("=IF($B6=\"B6\",$C5+1e3, $B$2*'B'!$A4)", "A", 1)
    assert one == there.alike('=IF($G16="B6",$A15+1000,$B$1*B!$B5)', "A a", 1)
    assert one != there.alike('=IF($G16="B7",$A15+1000,$B$1*B!$B5)', "A a", 1)
    assert one != there.alike('=IF($G16="B6",$A16+1000,$B$1*B!$B5)', "A a", 1)
    assert here.alike("=_xlfn.MAXIFS(a_x,a_y,1)", "A", 0) == there.alike("=maxifs(A_X,a_y, 1)", "A a", 3)


# --- the command ---


def test_check_says_what_it_found_and_ends_with_1_or_2(room: Path, tmp_path: Path) -> None:
    runner = CliRunner()
    # 0, where all is as it should be: the README shows it.
    bad = office.forced(room, tmp_path / "bad.xlsx", {place(room, "livestock_mass_g"): 5.0})
    told = runner.invoke(app, ["check", str(bad)], env={"COLUMNS": "200"})
    assert told.exit_code == 1
    assert "Livestock" in told.stdout
    assert "Mass of all" in told.stdout
    listed = json.loads(runner.invoke(app, ["check", str(bad), "--json"]).stdout)
    assert any("typed over a formula" in finding["what"] for finding in listed)
    assert listed[0].keys() == {"sheet", "cell", "column", "what", "found", "expected"}
    (tmp_path / "none.xlsx").write_text("no workbook")
    for path in ("none.xlsx", "not there.xlsx"):
        assert runner.invoke(app, ["check", str(tmp_path / path)]).exit_code == 2
