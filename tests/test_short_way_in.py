"""A short way in: names to pick in order, a row reckoned with from few cells, ready rows for a year."""

import datetime
import math
import re
from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING

import openpyxl
import pytest

from tests import books, office, small_room
from workbook.build import Built, Plan, compute, rows_of
from workbook.editions import EDITIONS
from workbook.tables.columns import Flag

if TYPE_CHECKING:
    from workbook.cells.pages import Records

KEEPER = EDITIONS["keeper"]()
# Invented. What a person knows of a species at once, and of a tank.
FISH = {
    "species": "New fish", "kind": "fish", "adult_length": 5, "body_form": "fusiform", "group_min": 6, "temper": 1,
    "temperature_low": 22, "temperature_high": 26,
}  # fmt: skip
TANK = {"tank": "New tank", "shape": "box", "length": 80, "width": 35, "height": 40, "temperature": 24, "water": "Tap"}
# The longest dropdown without groups, the most letters of a rule that holds its words, the groups of species; and the
# forms of a keeper in which one is picked.
MANY, LONGEST_RULE, GROUPS = 50, 255, 13
NARROWED = {"livestock_offer", "breeding_offer", "log_offer", "plan_offer", "candidates_choice", "care_choice"}
GROUP = {"tank": "New tank", "species": "New fish", "animals": 8}


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Built:
    records = small_room.records(tmp_path_factory.mktemp("room"))
    more: Records = {"species": [FISH], "tanks": [TANK], "livestock": [GROUP]}  # type: ignore[dict-item]
    records = dict(records) | {key: [*records[key], *rows] for key, rows in more.items()}
    return compute(KEEPER, records, Plan(spare_rows=1, plan_date=datetime.date(2026, 4, 15)))


def last(built: Built, table: str, key: str, rows: int) -> object:
    here = built.placing.tables[table]
    return built.values[here.base_sheet, here.first_row + rows - 1, here.base[key]]


def said(built: Built, table: str, rows: int) -> list[str]:
    """Every flag of a row, without what to do."""
    flags = [column.key for column in built.placing.schema[table].columns if isinstance(column, Flag)]
    texts = [str(last(built, table, key, rows)) for key in flags]
    return [text.partition(" → ")[0] for text in texts if text]


def test_eight_cells_make_a_species_that_is_reckoned_with(built: Built) -> None:
    for key in ("length", "mass_each", "mass", "oxygen_draw", "food", "nitrogen"):
        assert last(built, "livestock", key, 6) != "", key
    assert last(built, "livestock", "water_verdict", 6) == "inside its ranges"
    assert said(built, "livestock", 6) == []


def test_the_rest_is_asked_for_by_name_and_in_one_line(built: Built) -> None:
    assert said(built, "species", 5) == [
        "◆ Data missing: 8 kept here, but unknown: smallest tank, what it can swallow, pH range, GH range, KH range"
    ]
    assert said(built, "tanks", 4) == [
        "◆ Cycled or not?: animals live in it, but nothing says whether the tank is cycled",
        "◆ Plan not finished: missing: water change share, water change interval, meals a day, fasting days (0 for none)",
        "○ Net volume an estimate: reckoned at 85 % of the box that its sizes make, 95.2 L; its mass, floor load and "
        "heater wait. Still to measure: measured outside or inside, glass, water below rim, substrate depth (0 for none), "
        "rock (0 for none), wood (0 for none), lid (yes or no)",
    ]


def test_five_facts_make_a_tank_that_is_reckoned_with(built: Built) -> None:
    """Name, shape, sizes, temperature, water: 80 by 35 by 40 cm are 112 L, of which 85 % are taken for water."""
    assert last(built, "tanks", "net_volume", 4) == pytest.approx(0.85 * 112)
    assert (last(built, "tanks", "plan_area", 4), last(built, "tanks", "swim_length", 4)) == (80 * 35, 80)
    assert last(built, "tanks", "gross_volume", 4) == ""
    for key in ("rule_share", "density", "length_per_litre", "saturation"):
        assert last(built, "stocking", key, 4) != "", key


def test_the_real_reckoning_takes_over_once_the_details_are_typed(tmp_path: Path) -> None:
    """Panes of 0.8 cm, 3 cm below the rim, bare: 78.4 by 33.4 by 36.2 cm, by hand."""
    details = {"measured": "outside", "glass": 0.8, "water_below_rim": 3, "substrate_depth": 0, "rock": 0, "wood": 0}
    records = dict(small_room.records(tmp_path))
    records["tanks"] = [*records["tanks"], TANK | details]  # type: ignore[list-item]
    made = compute(KEEPER, records, Plan(spare_rows=1, plan_date=datetime.date(2026, 4, 15)))
    assert last(made, "tanks", "net_volume", 4) == pytest.approx(78.4 * 33.4 * 36.2 / 1000)
    assert last(made, "tanks", "net_volume_estimated", 4) == ""
    assert last(made, "tanks", "swim_length", 4) == pytest.approx(78.4)


@pytest.mark.parametrize("edition", EDITIONS)
def test_every_list_says_which_few_columns_come_first(edition: str) -> None:
    for sheet in EDITIONS[edition]().sheets:
        for table in (table for table in sheet.tables if table.is_list):
            (note,) = [note for note in sheet.remarks if "Fill first: " in note]
            told = note.partition("Fill first: ")[2].removesuffix(".").split("; ")
            assert table.first_typed in told, table.key
            labels = table.first_typed.split(", ")
            assert set(labels) <= {column.label for column in table.typed}
            assert {column.label for column in table.typed if column.required} <= set(labels)
            assert len(labels) <= 8


@pytest.mark.parametrize(("tanks", "days"), [(12, 7), (12, None), (20, 4), (3, 14)])
def test_ready_rows_of_the_log_last_a_year(tanks: int, days: int | None) -> None:
    """One entry each time that water is to be changed; a week where nobody typed how often."""
    row = {"change_interval": days} if days else {}
    records: Records = {"tanks": [{"tank": f"T{n}", **row} for n in range(tanks)]}
    assert rows_of(KEEPER.tables, records, 40)["log"] >= math.floor(tanks * 365 / (days or 7))


@pytest.mark.parametrize("edition", EDITIONS)
def test_every_list_has_a_ready_row_however_few_are_asked_for(edition: str) -> None:
    """Also one that gets a quarter of them."""
    tables = EDITIONS[edition]().tables
    records: Records = {table.key: [{}] * 3 for table in tables}
    found = rows_of(tables, records, 1)
    assert {table.key: found[table.key] for table in tables if table.is_list and found[table.key] < 4} == {}


def test_dropdowns_look_at_nothing_but_names_in_order() -> None:
    """Each dropdown over the names of a list: no place of a list itself, nor its ready rows."""
    rules = [
        str(rule.formula1)
        for sheet in books.opened(books.room(whole=False)).worksheets
        for rule in sheet.data_validations.dataValidation
        if rule.type == "list" and not str(rule.formula1).startswith('"')
    ]
    assert {rule for rule in rules if not re.fullmatch(r"[a-z_]+_dropdown", rule)} == set()
    assert {"tanks_dropdown", "waters_dropdown", "foods_dropdown", "tasks_dropdown"} <= set(rules)
    assert {rule for rule in rules if "species" in rule} == {f"{form}_species_dropdown" for form in NARROWED}


@pytest.mark.parametrize("edition", EDITIONS)
def test_only_species_are_more_than_fifty_names_and_wherever_they_are_offered_a_group_makes_them_few(
    edition: str,
) -> None:
    sheets, library = EDITIONS[edition]().sheets, books.whole(edition)
    typed = {sheet.title: [c for table in sheet.tables for c in table.typed] for sheet in sheets}
    offered = {c.kind.table for columns in typed.values() for c in columns if c.kind.table}
    # A shop's codes are its own: typed, or scanned.
    assert {table for table in offered - {"stock"} if len(library.get(table, [])) > MANY} == {"species"}
    for title, columns in typed.items():
        picks = [c for c in columns if c.narrows == "species"]
        assert len(picks) == any(c.kind.table == "species" for c in columns), title
        assert all(len(",".join(c.kind.choices)) <= LONGEST_RULE for c in picks)


def test_no_group_of_the_library_is_long() -> None:
    """As handed out: each group of species is shorter than what a dropdown without groups may hold."""
    names = books.column(books.book(complete=True), "species_group")
    found = Counter(str(name) for name in names if name)
    assert sum(found.values()) == len(books.whole("keeper")["species"])
    assert len(found) == GROUPS
    assert max(found.values()) <= MANY
    assert min(found.values()) > 1


@pytest.mark.office
def test_office_programs_offer_the_names_of_the_group_that_is_picked(tmp_path: Path) -> None:
    """Of one that has none, and of none, all; a pick on one sheet is its own."""
    picks = {
        "livestock_offer": ("other fish", 3, "Bolt barb", "Veil perch"),
        "candidates_choice": ("shrimps", 1, "Glass shrimp", "Glass shrimp"),
        "breeding_offer": ("snails", 4, "Bolt barb", "Veil perch"),
        "care_choice": (None, 4, "Bolt barb", "Veil perch"),
    }
    book = openpyxl.load_workbook(books.room(whole=False))
    sheet = book.create_sheet("Asked")
    for form, (group, *_) in picks.items():
        title, cell = book.defined_names[f"{form}_group"].attr_text.replace("$", "").replace("'", "").split("!")
        book[title][cell] = group
        name = f"{form}_species_dropdown"
        sheet.append([f"=ROWS({name})", f"=INDEX({name},1,1)", f"=INDEX({name},ROWS({name}),1)"])
    path = tmp_path / "asked.xlsx"
    book.save(path)
    for cells in (
        office.recalculated(path, tmp_path / "libreoffice")[0],
        office.reckoned_by_gnumeric(path, tmp_path / "gnumeric"),
    ):
        for row, (form, (_, *wanted)) in enumerate(picks.items(), 1):
            assert [cells["Asked", row, column] for column in (1, 2, 3)] == wanted, form


@pytest.mark.office
def test_office_programs_end_a_dropdown_at_the_last_name(tmp_path: Path) -> None:
    """What they make of its defined name: as many rows as there are names, in the order of the alphabet."""
    book = openpyxl.load_workbook(books.room(whole=False))
    sheet = book.create_sheet("Asked")
    sheet["A1"], sheet["A2"] = "=ROWS(species_dropdown)", "=COUNTA(tanks_dropdown)"
    path = tmp_path / "asked.xlsx"
    book.save(path)
    for cells in (
        office.recalculated(path, tmp_path / "libreoffice")[0],
        office.reckoned_by_gnumeric(path, tmp_path / "gnumeric"),
    ):
        assert [cells["Asked", row, 1] for row in (1, 2)] == [4, 3]
    names = [name for name in books.column(books.room(whole=False), "species_sorted_name") if name]
    assert names == ["Bolt barb", "Glass shrimp", "Reed tetra", "Veil perch"]
