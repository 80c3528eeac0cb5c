"""Compare tells what was typed differently, by table, row and column, and nothing else."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from typer.testing import CliRunner

from tests import books, office
from tests.effort import examples
from tests.made_up import TABLES, content, edited, families
from workbook.cli import app
from workbook.copies.comparing import Change, as_json, compare
from workbook.copies.content import AddedSheet, Content, Entry, Place
from workbook.copies.identity import is_dated, is_keyed, pair
from workbook.copies.merging import merge

RANDOM = settings(
    deadline=None,
    max_examples=examples(40, 100),
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
TANK = {"tank": "Long", "length": 120, "place": "Hall"}
BOW = {"tank": "Bow", "length": 80, "place": "Study"}


def told(found: list[Change]) -> list[tuple[str, str, str, str, str]]:
    """What, row, column, old, new."""
    return [(c.what, c.row, c.column, c.old, c.new) for c in found]


def test_changed_added_and_removed_with_units() -> None:
    base = content(tanks=[TANK, BOW], livestock=[{"tank": "Long", "species": "Tetra", "animals": 8}])
    other = edited(base, "b", tanks=[TANK | {"length": 100.5, "lid": "yes"}, {"tank": "Cube", "length": 40}])
    assert told(compare(base, other, TABLES)) == [
        ("changed", "Long", "length", "120 cm", "100.5 cm"), ("changed", "Long", "lid", "(blank)", "yes"),
        ("removed", "Bow", "", "Length 80 cm; Place Study", ""), ("added", "Cube", "", "", "Length 40 cm"),
    ]  # fmt: skip


def test_values_are_shown_in_the_units_of_the_first() -> None:
    base = replace(content(tanks=[TANK | {"length": 24 * 2.54}]), units="us")
    cube = {"tank": "Cube", "length": 16 * 2.54}
    other = replace(edited(base, "b", tanks=[TANK | {"length": 91.44}, cube]), units="metric")
    assert told(compare(base, other, TABLES)) == [
        ("changed", "Long", "length", "24 in", "36 in"), ("added", "Cube", "", "", "Length 16 in"),
    ]  # fmt: skip
    assert told(compare(other, base, TABLES)) == [
        ("changed", "Long", "length", "91.44 cm", "60.96 cm"), ("removed", "Cube", "", "Length 40.64 cm", ""),
    ]  # fmt: skip


def test_rows_in_another_order_and_numbers_written_otherwise_are_no_change() -> None:
    base = content(tanks=[TANK, BOW], waters=[{"water": "Caf\u00e9", "ph": 7}])
    # 80 cm typed in inches and read back is off in the last digits.
    other = edited(
        base,
        "b",
        tanks=[BOW | {"length": 80 / 2.54 * 2.54 * (1 + 1e-13)}, TANK | {"length": 120.0}],
        waters=[{"water": "Cafe\u0301", "ph": 7.0}],
    )
    assert compare(base, other, TABLES) == []


def test_a_row_is_renamed_only_when_all_else_is_equal() -> None:
    base = content(tanks=[TANK, BOW])
    assert told(compare(base, edited(base, "b", tanks=[BOW, TANK | {"tank": "Longest"}]), TABLES)) == [
        ("renamed", "Long", "tank", "Long", "Longest")
    ]
    both = compare(base, edited(base, "b", tanks=[BOW, TANK | {"tank": "Longest", "length": 110}]), TABLES)
    assert [(c.what, c.row) for c in both] == [("removed", "Long"), ("added", "Longest")]


def test_links_to_a_renamed_row_are_no_change_of_their_own() -> None:
    base = content(tanks=[TANK], livestock=[{"tank": "Long", "species": "Tetra", "animals": 8}])
    other = edited(
        base, "b", tanks=[TANK | {"tank": "East"}], livestock=[{"tank": "East", "species": "Tetra", "animals": 9}]
    )
    assert [(c.what, c.column) for c in compare(base, other, TABLES)] == [("renamed", "tank"), ("changed", "animals")]


def test_doubtful_renames_are_not_guessed() -> None:
    base = content(tanks=[{"tank": "R1", "length": 40}, {"tank": "R2", "length": 40}])
    other = edited(base, "b", tanks=[{"tank": "A1", "length": 40}, {"tank": "A2", "length": 40}])
    assert [c.what for c in compare(base, other, TABLES)] == ["removed", "removed", "added", "added"]


def test_rows_of_one_name_are_paired_by_most_equal_content_then_order() -> None:
    table = TABLES[2]
    ours = [
        Entry({"tank": "Long", "species": "x", "animals": n, "stock_note": note})
        for n, note in ((3, "a"), (4, "b"), (5, "c"))
    ]
    theirs = [
        Entry({"tank": "LONG", "species": "x", "animals": n, "stock_note": note})
        for n, note in ((9, "c"), (4, "b"), (7, "d"))
    ]
    assert pair(table, ours, theirs).pairs == [(0, 2), (1, 1), (2, 0)]


def test_notes_unread_cells_added_columns_and_sheets_are_told() -> None:
    base = content(tanks=[TANK])
    row = Entry(
        TANK, added={"shelf": 2}, unread={"lid": "=1+1"}, notes={"tank": "leaks"}, places={"lid": Place("Tanks", "F5")}
    )
    other = edited(base, "b", tanks=[row])
    other = replace(other, added_columns={"tanks": ("shelf",)}, added_sheets=(AddedSheet("Mine", {(1, 1): "x"}),))
    found = compare(base, other, TABLES)
    assert [(c.what, c.label, c.new) for c in found] == [
        ("added", "the column", "shelf"), ("changed", "Lid", "'=1+1'"), ("changed", "shelf (added)", "2"), ("note", "Tank: note", "leaks"),
        ("added", "the sheet", "1 cells"),
    ]  # fmt: skip
    assert found[1].places == ("", "Tanks!F5")
    sheets = (AddedSheet("mine", {(1, 1): "y"}),)
    assert told(compare(other, replace(other, added_sheets=sheets), TABLES)) == [("changed", "A1", "", "x", "y")]
    assert json.loads(json.dumps(as_json(found)))[0]["new"] == "shelf"


def test_a_form_is_one_row_whatever_it_is_called() -> None:
    base = content(room=[{"room_name": "Home", "altitude": 100}])
    other = edited(base, "b", room=[{"room_name": "Club", "altitude": 200}])
    assert [(c.what, c.column) for c in compare(base, other, TABLES)] == [
        ("changed", "room_name"),
        ("changed", "altitude"),
    ]


def test_what_a_row_is_known_by_follows_from_its_table() -> None:
    assert [(t.key, is_keyed(t), is_dated(t)) for t in TABLES] == [
        ("waters", True, False), ("tanks", True, False), ("livestock", False, False), ("log", False, True), ("goods", True, False), ("room", False, False),
    ]  # fmt: skip


@RANDOM
@given(families(most=1), st.randoms(use_true_random=False))
def test_compare_is_silent_exactly_when_nothing_differs(family: tuple[Content, list[Content]], dice: object) -> None:
    base, [copy] = family
    assert compare(base, base, TABLES) == []
    there, back = compare(base, copy, TABLES), compare(copy, base, TABLES)
    assert bool(there) == bool(back)
    rows = {k: tuple(dice.sample(v, len(v))) for k, v in copy.tables.items()}  # type: ignore[attr-defined]
    assert compare(copy, replace(copy, tables=rows), TABLES) == []


@pytest.fixture(scope="module")
def room() -> Path:
    """The small room as a workbook."""
    return books.room()


def test_compare_tells_of_files_and_ends_with_0_1_or_2(room: Path, tmp_path: Path) -> None:
    runner = CliRunner()
    same = runner.invoke(app, ["compare", str(room), str(room)])
    assert (same.exit_code, same.stdout) == (0, "nothing was typed differently\n")
    sheet, top, left, *_ = office.areas(room)["tanks_length_cm"]
    other = office.edited(room, tmp_path / "ben.xlsx", {(sheet, top, left): 110.0})
    done = runner.invoke(app, ["compare", str(room), str(other)], env={"COLUMNS": "200"})
    assert done.exit_code == 1
    assert "ben.xlsx" in done.stdout
    assert "120 cm" in done.stdout
    assert "110 cm" in done.stdout
    [change] = json.loads(runner.invoke(app, ["compare", str(room), str(other), "--json"]).stdout)
    assert (change["table"], change["row"], change["column"], change["new"]) == ("tanks", "Long", "length", "110 cm")
    (tmp_path / "bad.xlsx").write_text("none")
    bad = runner.invoke(app, ["compare", str(room), str(tmp_path / "bad.xlsx")])
    assert bad.exit_code == 2
    assert bad.stdout == ""


def test_formulas_beside_a_row_are_told_by_their_own_row() -> None:
    def row(tank: str, at: int, formula: str) -> Entry:
        places = {
            key: Place("Tanks", f"{letter}{at}") for key, letter in (("tank", "A"), ("length", "B"), ("shelf", "K"))
        }
        return Entry({"tank": tank, "length": 60}, {"shelf": formula}, places)

    base = content(tanks=[row("Long", 7, "=B7*$C$2"), row("Bow", 8, '=B8&"B8"')])
    sorted_ = edited(base, "b", tanks=[row("Bow", 7, '=B7&"B8"'), row("Long", 8, "=B8*$C$2")])
    assert compare(base, sorted_, TABLES) == []
    changed = edited(base, "c", tanks=[row("Bow", 7, '=B7&"B8"'), row("Long", 8, "=B8+1"), row("New", 9, "=B9")])
    other = edited(base, "d", tanks=[*base.tables["tanks"], row("Other", 9, "=B9")])
    merged = merge(base, [changed, other], TABLES)
    assert merged.conflicts == ()
    found = {
        str(e.values["tank"]): (str(e.added["shelf"]), e.places["shelf"].cell) for e in merged.content.tables["tanks"]
    }
    assert found["Long"] == ("=B7+1", "K7")
    assert found["Bow"] == ('=B8&"B8"', "K8")
    # Rows that copies added in the same place keep their formulas apart.
    rows = {cell.removeprefix("K") for _, cell in found.values()}
    assert len(rows) == 4
    assert all(formula == f"=B{cell[1:]}" for name, (formula, cell) in found.items() if name in {"New", "Other"})
