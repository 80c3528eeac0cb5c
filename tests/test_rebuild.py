"""An edited workbook becomes a fresh one: everything typed and added is there again, in real files."""

import datetime
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from openpyxl.comments import Comment

from tests import books, desk, office
from tests.desk import Desk
from tests.effort import also
from tests.test_cli import run
from tests.test_reading import Edited
from workbook.build import Plan
from workbook.copies.carrying import KEPT_ASIDE, rebuild
from workbook.copies.content import Content
from workbook.copies.reading import read_copy
from workbook.copies.repointing import NEWER
from workbook.findings import BadInputError
from workbook.sheets.tanks import TANKS

PLAN = Plan(spare_rows=2, plan_date=desk.PLAN_DATE)
OUTSIDE = '=WEBSERVICE("x.example")'  # told by the function alone


def values(content: Content) -> dict[str, list[dict[str, Any]]]:
    return {table: [entry.values for entry in entries] for table, entries in content.tables.items()}


def with_additions(units: str) -> Edited:
    """A column, a sheet, notes, a cell that can't be read, a row below the ready ones; formulas of every sort."""
    edited = Edited(units)
    length = "tanks_length_cm" if units == "metric" else "tanks_length_in"
    right = edited.book["Tanks"].max_column + 2 - edited.cell("tanks_tank").column
    first = edited.cell("tanks_tank").row
    letter = edited.cell(length).column_letter
    edited.cell("tanks_tank", -3, right).value = "Price"
    edited.cell("tanks_tank", 0, right).value = 120.5
    edited.cell("tanks_tank", 1, right).value = f"={letter}{first + 1}*2+ROUND(settings_energy_price_a_kwh,0)"
    edited.cell("tanks_tank", 2, right).value = OUTSIDE
    edited.cell("tanks_tank", -3, right + 1).value = "Since"
    edited.cell("tanks_tank", 0, right + 1).value = datetime.datetime(2020, 5, 1)
    edited.cell("tanks_tank", 1, right + 1).value = "'tis old"
    edited.cell("tanks_place").comment = Comment("Drips at the back", "Ann")
    edited.cell("tanks_glass_cm" if units == "metric" else "tanks_glass_in", 1).value = "thick"
    edited.cell("tanks_net_volume_l").value = 111
    for row in range(6, 60):
        edited.cell("livestock_tank", row).value = "long"
        edited.cell("livestock_species", row).value = "Reed tetra"
        edited.cell("livestock_animals", row).value = row
    sheet = edited.book.create_sheet("My list", 0)
    sheet["B2"], sheet["B3"] = "Long", 5
    sheet["B4"] = "=B3*2"
    sheet["B5"] = f"=SUM(Tanks!{letter}{first}:{letter}{first + 40})"
    sheet["B6"] = "=no_such_name+1"
    return edited


def copy(units: str) -> Path:
    """The same as a file."""

    def make(path: Path) -> None:
        with_additions(units).book.save(path)

    return books.shared(f"additions-{units}.xlsx", make)


@pytest.mark.parametrize("units", ["metric", *also("us")])
def test_everything_is_carried_over(units: str, tmp_path: Path) -> None:
    source, target = copy(units), tmp_path / "fresh.xlsx"
    before, was = read_copy(source), source.read_bytes()
    _, said = rebuild(source, target, PLAN)
    assert source.read_bytes() == was
    after = read_copy(target)
    assert values(after) == values(before)
    assert after.units == units
    assert len(after.tables["livestock"]) == len(before.tables["livestock"]) == 59
    assert after.added_columns == {"tanks": ("Price", "Since")}
    added = [entry.added for entry in after.tables["tanks"]]
    assert added[0] == {"Price": 120.5, "Since": datetime.date(2020, 5, 1)}
    length = office.areas(target)["tanks_length_cm" if units == "metric" else "tanks_length_in"]
    cell = f"{openpyxl.utils.get_column_letter(length[2])}{length[1] + 1}"
    assert added[1] == {"Price": f"={cell}*2+ROUND(settings_energy_price_a_kwh,0)", "Since": "'tis old"}
    assert added[2] == {}
    assert after.tables["tanks"][0].notes == {"place": "Drips at the back"}
    sheets = {sheet.title: sheet for sheet in after.added_sheets}
    mine = sheets["My list"].cells
    letter, last = openpyxl.utils.get_column_letter(length[2]), length[3]
    assert mine == {
        (2, 2): "Long",
        (3, 2): 5,
        (4, 2): "=B3*2",
        (5, 2): f"=SUM('Tanks'!{letter}{length[1]}:{letter}{last})",
    }
    factor = 1 if units == "metric" else 2.54
    assert sheets["My list"].shown == pytest.approx({(4, 2): 10, (5, 2): (120 + 56 + 80) / factor})
    aside = sheets[KEPT_ASIDE].cells
    lines = [
        [aside.get((row, column)) for column in range(1, 5)] for row in range(2, 2 + max(row for row, _ in aside) - 1)
    ]
    net_volume, glass = (next(c.label for c in TANKS.columns if c.key == key) for key in ("net_volume", "glass"))
    assert sorted(map(str, lines)) == sorted(map(str, [
        ["Tanks", "Bow", "Price", f"'{OUTSIDE}"], ["Tanks", "Drum", glass, "thick"],
        ["My list", "B6", None, "'=no_such_name+1"], ["Tanks", "Long", net_volume, "111"],
    ]))  # fmt: skip
    assert said == [
        "Tanks: your own columns Price, Since carried over", "sheet carried over: My list", "1 note in cells carried over",
        f"4 cells could not be taken as they were: see the sheet {KEPT_ASIDE}",
    ]  # fmt: skip


def test_a_second_time_nothing_is_lost_or_doubled(tmp_path: Path) -> None:
    rebuild(copy("metric"), tmp_path / "one.xlsx", PLAN)
    rebuild(tmp_path / "one.xlsx", tmp_path / "two.xlsx", PLAN)
    rebuild(tmp_path / "two.xlsx", tmp_path / "three.xlsx", PLAN)
    assert (tmp_path / "two.xlsx").read_bytes() == (tmp_path / "three.xlsx").read_bytes()
    assert read_copy(tmp_path / "one.xlsx").tables == read_copy(tmp_path / "two.xlsx").tables


def test_the_other_units_and_back(tmp_path: Path) -> None:
    before = read_copy(copy("us"))
    _, said = rebuild(copy("us"), tmp_path / "metric.xlsx", PLAN, units="metric")
    assert said[0] == "converted from us to metric units; numbers in columns and sheets you added stay as they were"
    rebuild(tmp_path / "metric.xlsx", tmp_path / "us.xlsx", PLAN, units="us")
    middle, after = read_copy(tmp_path / "metric.xlsx"), read_copy(tmp_path / "us.xlsx")
    assert (middle.units, after.units) == ("metric", "us")
    assert values(before) == values(middle) == values(after)
    # Formulas would mean something else in other units: what they showed stays, they themselves are kept aside.
    aside = next(sheet for sheet in middle.added_sheets if sheet.title == KEPT_ASIDE)
    assert "'=B3*2" in aside.cells.values()


@pytest.mark.office
@pytest.mark.long  # in every run tests/test_lineage.py builds of copies that it saved as .ods
def test_from_a_file_that_libreoffice_saved(tmp_path: Path) -> None:
    """As .ods, which is further from what was built; how its .xlsx is read is seen in tests/test_reading.py."""
    (saved,) = office.resaved([copy("us")], tmp_path / "saved", "ods", always=True)
    rebuild(saved, tmp_path / "fresh.xlsx", PLAN)
    before, after = read_copy(saved), read_copy(tmp_path / "fresh.xlsx")
    assert values(before) == values(after)
    assert before.tables["tanks"][0].notes == after.tables["tanks"][0].notes == {"place": "Drips at the back"}
    assert [entry.added.get("Since") for entry in after.tables["tanks"]] == [
        datetime.date(2020, 5, 1),
        "'tis old",
        None,
    ]
    (again,) = office.resaved([tmp_path / "fresh.xlsx"], tmp_path / "again", "xlsx", always=True)
    assert [entry.shown for entry in read_copy(again).tables["tanks"]] == [
        pytest.approx(entry.shown) for entry in after.tables["tanks"]
    ]


def test_added_sheets_with_titles_that_no_program_takes(tmp_path: Path) -> None:
    made = Desk.fresh("metric", 0)
    for title in ("What? A/B: [x]", "A" * 40, "history", "stocking"):
        made.book.grids[title] = type(made.book.grids["Tanks"])(title, {(1, 1): desk.Raw("here")})
    desk.write_ods(made.book, tmp_path / "copy.ods")
    rebuild(tmp_path / "copy.ods", tmp_path / "fresh.xlsx", PLAN)
    titles = office.titles(tmp_path / "fresh.xlsx")[-4:]
    assert titles == ["What  A B   x", "A" * 31, "history (2)", "stocking (2)"]


# --- the command ---


def test_the_command_carries_over_in_the_units_of_the_file(tmp_path: Path) -> None:
    source, target = desk.file_of("us"), tmp_path / "fresh.xlsx"
    code, said, complained = run("build", source, "-o", target, "--spare-rows", 1)
    assert (code, complained) == (0, "")
    assert said.startswith(f"{target}: {len(office.titles(target))} sheets; ")
    assert read_copy(target).units == "us"
    code, said, _ = run("build", source, "-o", target, "--spare-rows", 1, "--units", "metric")
    assert "converted from us to metric units" in said
    assert read_copy(target).units == "metric"


def test_the_command_never_writes_over_its_input(tmp_path: Path) -> None:
    source = tmp_path / "mine.xlsx"
    source.write_bytes(desk.file_of("metric").read_bytes())
    (tmp_path / "link.xlsx").symlink_to(source)
    for target in (source, tmp_path / "link.xlsx", tmp_path / "." / "mine.xlsx"):
        code, _, complained = run("build", source, "-o", target)
        assert code == 2
        assert "the edited workbook itself" in complained
    assert source.read_bytes() == desk.file_of("metric").read_bytes()


@pytest.mark.parametrize("words", [("build", "-o", "fresh.xlsx"), ("export", "-o", "folder")])
def test_the_commands_refuse_in_one_line(words: tuple[str, ...], tmp_path: Path) -> None:
    path = tmp_path / "broken.xlsx"
    path.write_bytes(b"PK\x03\x04 not really")
    target = tmp_path / words[2]
    code, said, complained = run(words[0], path, words[1], target)
    assert (code, said) == (2, "")
    first, last = complained.splitlines()
    assert first.startswith("broken.xlsx: found a damaged file; expected a workbook saved as .xlsx or .ods")
    assert last == "1 found; nothing was written."
    assert not target.exists()


def test_another_edition_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BadInputError, match="found a workbook of the edition keeper; expected shop"):
        rebuild(desk.file_of("metric"), tmp_path / "x.xlsx", PLAN, edition="shop")


def test_newer_functions_are_marked_as_files_want_them() -> None:
    assert (
        NEWER.sub(r"_xlfn.\1(", "=MAXIFS(A1:A2)+COM.MICROSOFT.CONCAT(B1)+_xlfn.IFS(1,2)")
        == "=_xlfn.MAXIFS(A1:A2)+_xlfn.CONCAT(B1)+_xlfn.IFS(1,2)"
    )
