"""Plain files of a workbook build the same workbook again, and no text in them acts as a formula."""

import csv
import datetime
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests import desk
from tests.desk import Desk
from tests.effort import also
from tests.test_cli import run
from tests.test_rebuild import copy
from workbook.build import Plan, build
from workbook.copies.carrying import build_content
from workbook.copies.exporting import export, faults_of, folder_content, meant, written
from workbook.copies.reading import content_of, read_copy
from workbook.editions import EDITIONS
from workbook.files.csv_folder import shielded, unshielded

PLAN = Plan(spare_rows=2, plan_date=desk.PLAN_DATE)
KEEPER = EDITIONS["keeper"]()


def lines(path: Path) -> list[list[str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.reader(file))


@pytest.mark.parametrize("units", ["us", *also("metric")])
def test_the_folder_builds_the_same_workbook(units: str, tmp_path: Path) -> None:
    source, plan = desk.file_of(units), Plan(units=units, spare_rows=3, plan_date=desk.PLAN_DATE)
    export(read_copy(source), tmp_path / "folder")
    build(tmp_path / "folder", tmp_path / "again.xlsx", plan)
    assert (tmp_path / "again.xlsx").read_bytes() == source.read_bytes()


def test_what_people_added_comes_along(tmp_path: Path) -> None:
    before = read_copy(copy("metric"))
    folder = tmp_path / "folder"
    export(before, folder)
    assert faults_of(folder, KEEPER) == ()
    after = folder_content(folder, KEEPER, "metric")
    for table, entries in after.tables.items():
        if table in before.tables:
            assert [entry.values for entry in entries] == [entry.values for entry in before.tables[table]]
            assert [(e.unread, e.notes) for e in entries] == [(e.unread, e.notes) for e in before.tables[table]]
            for e, was in zip(entries, before.tables[table], strict=True):
                assert {key: e.where(key) for key in e.unread} == {
                    key: was.where(key, before.name) for key in was.unread
                }
    assert after.tables["tanks"][0].added == {"Price": 120.5, "Since": datetime.date(2020, 5, 1)}
    assert after.added_columns == before.added_columns
    build_content(after, tmp_path / "fresh.xlsx", PLAN)
    fresh = read_copy(tmp_path / "fresh.xlsx")
    assert [entry.values for entry in fresh.tables["tanks"]] == [entry.values for entry in before.tables["tanks"]]
    assert "My list" in {sheet.title for sheet in fresh.added_sheets}


def test_a_folder_of_an_earlier_version_says_in_which_line_of_it_something_stood(tmp_path: Path) -> None:
    """Its kept_aside.csv has no column for where that was."""
    before = read_copy(copy("metric"))
    export(before, tmp_path / "folder")
    file = tmp_path / "folder" / "kept_aside.csv"
    with file.open("w", encoding="utf-8", newline="") as out:
        csv.writer(out).writerows([["table", "row", "column", "found"], ["tanks", "2", "length", "about 90"]])
    content = folder_content(tmp_path / "folder", KEEPER, "metric")
    assert content.tables["tanks"][0].where("length") == "row 2 of tanks.csv"


def test_the_same_workbook_gives_the_same_bytes_and_again_into_the_same_folder(tmp_path: Path) -> None:
    content = read_copy(desk.file_of("metric"))
    for folder in ("a", "b", "b"):
        export(content, tmp_path / folder)
    files = sorted(path.name for path in (tmp_path / "a").iterdir())
    assert files == sorted(path.name for path in (tmp_path / "b").iterdir())
    assert all((tmp_path / "a" / name).read_bytes() == (tmp_path / "b" / name).read_bytes() for name in files)
    assert not any(b"\r" in (tmp_path / "a" / name).read_bytes() for name in files)


def test_changed_constants_and_choices_have_a_file_and_stay_in_it_when_changed_back(tmp_path: Path) -> None:
    content = read_copy(desk.file_of("metric"))
    assert "constants.csv" not in export(content, tmp_path)
    made = Desk.fresh("metric", 0)
    area = made.book.names["const_activity"]
    made.book.grids["Constants"].cells[area.top, area.left] = desk.Raw(2.25)
    choice = made.book.names["stocking_choice_tank"]
    made.book.grids["Stocking"].cells[choice.top, choice.left] = desk.Raw("Drum")
    export(content_of(made.book), tmp_path)
    assert next(line for line in lines(tmp_path / "constants.csv") if "activity" in line)[1] == "2.25"
    assert lines(tmp_path / "stocking_choice.csv") == [["key", "value"], ["tank", "Drum"]]
    build(tmp_path, tmp_path / "x.xlsx", PLAN)
    assert read_copy(tmp_path / "x.xlsx").tables["stocking_choice"][0].values == {"tank": "Drum"}
    export(content, tmp_path)
    assert next(line for line in lines(tmp_path / "constants.csv") if "activity" in line)[1] == "2"


def test_text_that_would_act_stands_behind_a_mark(tmp_path: Path) -> None:
    made = Desk.fresh("metric", 0)
    texts = ["-2 fish lost", "+1 from Ann", "@home", "'tis old", "'-5", "''=x", "-5"]
    area = made.book.names["tanks_tank_note"]
    note = made.book.grids["Tanks"]
    for i, text in enumerate(texts[:3]):
        note.cells[area.top + i, area.left] = desk.Raw(text)
    content = content_of(made.book)
    export(content, tmp_path)
    header, *rows = lines(tmp_path / "tanks.csv")
    assert [row[header.index("tank_note")] for row in rows] == ["'-2 fish lost", "'+1 from Ann", "'@home"]
    after = folder_content(tmp_path, KEEPER, "metric")
    assert [entry.values["tank_note"] for entry in after.tables["tanks"]] == texts[:3]
    assert [unshielded(shielded(text)) for text in texts] == texts


def test_a_value_that_begins_as_a_formula_does_stays_text(tmp_path: Path) -> None:
    """Typed by hand as a value of a column of one's own; only what stands as its formula is one."""
    export(read_copy(copy("metric")), tmp_path / "folder")
    header, first, *rows = lines(tmp_path / "folder" / "added_columns.csv")
    first[header.index("value")] = "'=A1*2"
    with (tmp_path / "folder" / "added_columns.csv").open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows([header, first, *rows])
    after = folder_content(tmp_path / "folder", KEEPER, "metric")
    assert after.tables["tanks"][0].added[first[header.index("column")]] == "'=A1*2"


@given(st.text())
def test_the_mark_is_taken_off_again(text: str) -> None:
    assert unshielded(shielded(text)) == text
    assert shielded(text)[:1] not in {"=", "+", "-", "@", "\t", "\r"}


@given(
    st.floats(allow_nan=False, allow_infinity=False)
    | st.text().filter(lambda t: not t[:1].isdigit())
    | st.dates(datetime.date(1980, 1, 1), datetime.date(2100, 1, 1))
)
def test_a_cell_without_a_kind_reads_back(value: float | str | datetime.date) -> None:
    text = written(value)
    if isinstance(value, str) and (text.replace(".", "").isdecimal() or text[:1] == "."):
        return  # digits are a number, whoever wrote them
    assert meant(text) == value


def test_negative_numbers_stay_numbers(tmp_path: Path) -> None:
    made = Desk.fresh("metric", 0)
    area = made.book.names["settings_altitude_m"]
    made.book.grids["Start"].cells[area.top, area.left] = desk.Raw(-300.0)
    export(content_of(made.book), tmp_path)
    assert ["altitude", "-300"] in lines(tmp_path / "settings.csv")
    assert folder_content(tmp_path, KEEPER, "metric").tables["settings"][0].values["altitude"] == -300


# --- the command ---


def test_the_command_says_what_it_wrote(tmp_path: Path) -> None:
    code, said, complained = run("export", desk.file_of("us"), "-o", tmp_path / "folder")
    assert (code, complained) == (0, "")
    assert (
        said
        == f"{tmp_path / 'folder'}: {len(list((tmp_path / 'folder').iterdir()))} files, in metric units; a build of it shows US units again\n"
    )
    code, said, _ = run("build", tmp_path / "folder", "-o", tmp_path / "x.xlsx", "--units", "us", "--spare-rows", 1)
    assert code == 0


def test_what_keeps_the_folder_from_building_is_told(tmp_path: Path) -> None:
    edited = Desk.fresh("metric", 0)
    area = edited.book.names["livestock_tank"]
    edited.book.grids["Livestock"].cells[area.top, area.left] = desk.Raw("Nowhere")
    desk.write(edited, tmp_path / "copy.xlsx")
    code, _, complained = run("export", tmp_path / "copy.xlsx", "-o", tmp_path / "folder")
    assert code == 1
    first, last = complained.splitlines()
    assert first.startswith("livestock.csv, row 2, column tank: found 'Nowhere'; expected a name that stands in tanks")
    assert last == "1 to mend before the folder builds."


def test_a_file_where_the_folder_should_be(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("mine")
    code, _, complained = run("export", desk.file_of("metric"), "-o", tmp_path / "file")
    assert (code, complained.splitlines()[0]) == (
        2,
        f"{tmp_path / 'file'}: found a file; expected a folder to write to",
    )
    assert (tmp_path / "file").read_text() == "mine"
