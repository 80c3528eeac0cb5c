"""The club edition: what is locked, what a member's own value moves, how proposals come together."""

import datetime
from pathlib import Path
from typing import Any

import pandas as pd
import pytest

from tests import books, office
from tests.rooms import OVERRIDDEN, demo_club, few_species, shortly, with_handed
from workbook.build import Plan, build, templates_folder
from workbook.copies.content import Content, Entry
from workbook.copies.exporting import export
from workbook.copies.merging import merge
from workbook.copies.reading import read_copy
from workbook.editions import EDITIONS

DAY = datetime.date(2026, 10, 5)
TABLES = EDITIONS["club"]().tables
PLAN = Plan(edition="club", spare_rows=2, plan_date=DAY)
CLUB = few_species(demo_club(), "Neon tetra")


@pytest.fixture(scope="module")
def file() -> Path:
    """The demo member's file."""
    return books.book("club")


@pytest.fixture(scope="module")
def opened(file: Path) -> Any:
    """The same, open in an editor."""
    return books.opened(file, *office.titles(file))


def locks(book: Any, table: str) -> dict[str, list[bool]]:
    """Of each typed column of a table, which of its cells are locked."""
    found: dict[str, list[bool]] = {}
    for column in next(t for t in TABLES if t.key == table).typed:
        name = next(
            n
            for n in book.defined_names
            if n.startswith(f"{table}_{column.key}")
            and n.removeprefix(f"{table}_{column.key}")[:1] in {"", "_"}
            and n.count("_") <= f"{table}_{column.key}_x".count("_")
        )
        sheet, cells = next(iter(book.defined_names[name].destinations))
        rows = [cell for (cell, *_) in book[sheet][cells]]
        if book[sheet].protection.sheet:
            found[column.key] = [cell.protection.locked for cell in rows]
            continue
        # Where rows may be sorted a cell is not locked: it asks before it takes anything.
        asks = [rule for rule in book[sheet].data_validations.dataValidation if rule.formula1 == "FALSE"]
        assert {rule.errorStyle for rule in asks} <= {"warning"}
        found[column.key] = [any(cell.coordinate in rule.sqref for rule in asks) for cell in rows]
    return found


def test_only_rows_known_by_their_place_are_locked(opened: Any) -> None:
    """Lists can be sorted by everybody; a constant is found by its row, and a name leads to it."""
    assert {sheet.title for sheet in opened if sheet.protection.sheet} <= {"Task list", "Maintenance", "Constants"}
    assert opened["Constants"].protection.sheet


def test_the_file_says_how_many_cells_were_handed_out(file: Path) -> None:
    """Counted anew in the plain file of its library."""
    food_columns = ["food", "food_form", "protein", "dry_matter", "spoon_mass", "particle", "food_source"]
    plain = pd.read_csv(templates_folder() / "club-demo" / "foods.csv")
    assert books.column(file, "about_handed_foods") == [plain[food_columns].count().sum()]


def test_what_the_club_says_is_locked_and_what_a_member_says_is_not(opened: Any) -> None:
    for table, keys in OVERRIDDEN.items():
        found = locks(opened, table)
        # The file compares fewer species, so it holds fewer; its ready rows are open.
        rows = len(next(iter(found.values()))) - 2 if table == "species" else len(CLUB.handed[table])
        for key in keys:
            assert all(found[f"club_{key}"][:rows])
            assert not any(found[f"own_{key}"])
    species = locks(opened, "species")
    assert all(all(species[key][:-2]) for key in ("species", "mouth_share", "ph_low", "source"))
    assert not any(any(species[key]) for key in ("own_ph_low", "counts", "own_note"))
    # A species or food of a member's own may stand in the ready rows.
    assert species["species"][-2:] == [False, False]
    foods = locks(opened, "foods")
    assert not any(foods["stock"])
    assert all(foods["food"][:-2])


def test_an_own_constant_moves_what_depends_on_it() -> None:
    club = CLUB
    at = list(club.constants["key"]).index("activity")
    handed = {table: frame.copy() for table, frame in club.handed.items()}
    handed["constants"].loc[at, ["club_value", "own_value"]] = [2.0, float("nan")]
    draws = []
    for own in (float("nan"), 3.0):
        handed["constants"].loc[at, "own_value"] = own
        room = with_handed(club, {table: frame.copy() for table, frame in handed.items()})
        draws.append(shortly(room).column("stocking", "oxygen_draw"))
    # Everyday draw is resting draw times activity (Winberg 1956), so half as much activity more is half as much more of it.
    assert any(float(draw) > 0 for draw in draws[0])
    assert [float(draw) for draw in draws[1]] == pytest.approx([1.5 * float(draw) for draw in draws[0]], rel=1e-12)


def test_a_file_that_comes_back_holds_both_values_and_builds_the_same(file: Path, tmp_path: Path) -> None:
    content = read_copy(file)
    platy = next(e.values for e in content.tables["species"] if e.values["species"] == "Platy")
    assert (platy["own_adult_length"], "club_adult_length" in platy) == (5.5, True)
    export(content, tmp_path / "folder")
    build(tmp_path / "folder", tmp_path / "again.xlsx", PLAN)
    again = read_copy(tmp_path / "again.xlsx")
    for table in ("species", "foods", "tasks", "constants", "body_forms", "proposals", "compared"):
        assert [e.values for e in again.tables[table]] == [e.values for e in content.tables[table]], table


def proposing(base: Content, name: str, *rows: dict[str, object]) -> Content:
    """A copy with these proposals."""
    entries = tuple(Entry(dict(row)) for row in rows)  # type: ignore[arg-type]
    return Content(name, base.edition, base.units, base.schema, base.tables | {"proposals": entries})


def test_merging_gathers_the_proposals_of_all_copies() -> None:
    base = read_copy(books.book("club", room="blank"))
    danio = {"proposed": "Blue danio", "scientific": "Danio kerri", "adult_length": 4, "proposer": "A (invented)"}
    copies = [
        proposing(base, "a.xlsx", danio, {"proposed": "Marsh goby", "adult_length": 6}),
        proposing(base, "b.xlsx", danio, {"proposed": "Marsh goby", "adult_length": 7}),
        proposing(base, "c.xlsx", {"proposed": "Reed loach", "temper": 2}),
    ]
    merged = merge(base, copies, TABLES)
    rows = {str(e.values["proposed"]): e.values for e in merged.content.tables["proposals"]}
    assert sorted(e.values["proposed"] for e in merged.content.tables["proposals"]) == [
        "Blue danio",
        "Marsh goby",
        "Reed loach",
    ]
    assert rows["Blue danio"] == danio
    assert rows["Reed loach"] == {"proposed": "Reed loach", "temper": 2}
    # Two of one name are one point, with the choice to keep both.
    (conflict,) = merged.conflicts
    assert (conflict.table, conflict.spot.name) == ("proposals", "")
    said = {side.whose: str(side.held) for side in conflict.sides}
    assert ("6" in said["a.xlsx"], "7" in said["b.xlsx"]) == (True, True)


def test_the_chart_prints_on_large_paper(opened: Any) -> None:
    # Paper 8 is A3 in the numbers of the file format (ECMA-376, part 1, 18.3.1.63).
    assert str(opened["Compatibility"].page_setup.paperSize) == "8"
    assert str(opened["Species"].page_setup.paperSize) == "9"
