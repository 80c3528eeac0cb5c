"""Tabs told apart: few for every day, in the order of what one does there; links to sheets; files with the tabs of before."""

import re
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from tests import books, desk, office, small_room
from workbook.build import Plan, compute
from workbook.cells.ways import named
from workbook.copies.reading import read_copy
from workbook.editions import EDITIONS, Edition, keeper
from workbook.files.xlsx_writing import About, write
from workbook.tables import Computed, Look, Table, Typed, link, logic, text
from workbook.tables.sheet import ROLES, Band, Sheet

FOR_PEOPLE = 20
GROUPS = {
    "answer": "Look",
    "input": "Type",
    "choice": "Choose",
    "printable": "Print",
    "reference": "Look up",
    "detail": "Behind the answers",
}


def test_a_keeper_has_few_tabs_for_every_day() -> None:
    assert len([sheet.title for sheet in keeper().sheets if sheet.is_for_people]) <= FOR_PEOPLE


@pytest.mark.parametrize("edition", EDITIONS)
def test_tabs_stand_by_what_one_does_there_workings_last(edition: str) -> None:
    """In the file too, and each group has a colour of its own."""
    declared = [sheet for sheet in EDITIONS[edition]().sheets if sheet.role != "workings"]
    roles = [ROLES.index(sheet.role) for sheet in declared]
    assert roles[2:] == sorted(roles[2:])
    made = books.opened(books.book(edition))
    titles = [sheet.title for sheet in declared]
    assert made.sheetnames[: len(titles)] == titles
    assert all(title.endswith(" workings") or title == "Behind Attention" for title in made.sheetnames[len(titles) :])
    colours = {
        role: {made[s.title].sheet_properties.tabColor.rgb for s in declared if s.role == role} for role in GROUPS
    }
    assert all(len(found) == 1 for found in colours.values())
    assert len({colour for found in colours.values() for colour in found}) == len(GROUPS)


@pytest.mark.parametrize("edition", EDITIONS)
def test_start_lists_the_tabs_in_the_same_groups(edition: str) -> None:
    """Under the words of the group each of its sheets, in the order of the tabs."""
    start = books.opened(books.book(edition), "Start")["Start"]
    column = [str(start.cell(row, 1).value or "") for row in range(1, start.max_row + 1)]
    for role, word in GROUPS.items():
        titles = [sheet.title for sheet in EDITIONS[edition]().sheets if sheet.role == role]
        at = next(i for i, said in enumerate(column) if said.startswith((f"{word} ", f"{word},")))
        assert column[at + 1 : at + 1 + len(titles)] == titles


@pytest.mark.parametrize("edition", EDITIONS)
def test_a_text_that_names_another_sheet_leads_there(edition: str) -> None:
    """Every link is to a sheet that is there and is named by its text; on Start the first steps have theirs."""
    path, seen = books.book(edition), set()
    titles = office.titles(path)
    for (title, row, column), location in office.hyperlinks(path).items():
        there = re.fullmatch(r"'([^']+)'!A1", location)
        assert there, location
        assert there[1] in titles
        assert there[1] in str(books.values(path)[title, row, column])
        assert there[1] != title
        seen.add((title, there[1]))
    assert {("Start", "This week"), ("Start", "Attention"), ("Overlap", "Tank"), ("Task list", "Maintenance")} <= seen
    assert all((f"{title} workings", title) in seen for title in ("Log", "Tanks"))


def test_a_text_that_names_several_sheets_leads_to_the_first() -> None:
    """A cell carries one link; its own sheet is no way."""
    placing: Any = SimpleNamespace(sheets=dict.fromkeys(("Log", "Tank", "Tank list", "Water changes")))
    for words, there in (
        ("Drawn on Water changes, typed on Log.", "Water changes"),
        ("Typed on Log, drawn on Water changes.", "Log"),
        ("Of Tank list first, then of Log.", "Tank list"),
        ("See Tank, then Log.", "Log"),
        ("Nothing is named here.", ""),
    ):
        assert named(placing, "Tank", words) == there


# --- files of before ---

PICKER = Typed("tank", "Tank to draw", link("tanks"))
BARS_BEFORE = Table(
    "tank_card_water",
    title="Water that suits all who live in it",
    lines=2,
    row_name=("name",),
    purpose="",
    columns=(
        Computed("name", "", logic('CHOOSE({line},"Temperature","pH")'), kind=text(), look=Look(style="page text")),
    ),
)


def before() -> Edition:
    """A keeper's sheets as they were until schema 2, as far as a reader would stumble over them."""
    now = {sheet.title: sheet for sheet in keeper().sheets}

    def with_picker(sheet: Sheet) -> Sheet:
        form = sheet.forms[0]
        return replace(sheet, forms=(replace(form, columns=(PICKER, *form.columns)),))

    card = replace(now["Tank"], title="Tank card", bands=(*now["Tank"].bands, Band(((BARS_BEFORE,),))))
    changed = {"Overlap": with_picker(now["Overlap"]), "Tankmates": with_picker(now["Tankmates"]), "Tank": card}
    order = ("Start", "Attention", "Species", "Waters", "Overlap", "Tankmates", "Task list", "Tank", "Constants")
    titles = (*order, *(title for title in now if title not in order))
    return replace(keeper(), sheets=tuple(changed.get(title, now[title]) for title in titles))


def test_a_file_with_the_tabs_of_before_comes_back_whole(tmp_path: Path) -> None:
    """What is typed on tables that moved is read where it stands; pickers and bars that are no more leave nothing behind."""
    records = small_room.records(tmp_path)
    tank = records["tanks"][0]["tank"]
    task = records["tasks"][1] | {"usual_days": 33, "usual_supplies": "two buckets"}
    records = records | {
        "tasks": [records["tasks"][0], task, *records["tasks"][2:]],
        "overlap_choice": [{"tank": tank}],
        "mates_choice": [{"tank": tank}],
        "card_choice": [{"tank": tank}],
    }
    built = compute(before(), records, Plan(spare_rows=3, plan_date=desk.PLAN_DATE))
    path = tmp_path / "before.xlsx"
    facts: dict[str, str | int] = {"shoalbook schema": 2, "shoalbook edition": "keeper", "shoalbook units": "metric"}
    write(path, built.pages, built.values, built.placing, About("before", facts))
    content = read_copy(path)
    assert (content.schema, content.added_sheets, content.added_columns) == (2, (), {})
    entries = content.tables["tasks"]
    assert (entries[1].values["usual_days"], entries[1].values["usual_supplies"]) == (33, "two buckets")
    assert content.tables["card_choice"][0].values == {"tank": tank}
    for table in ("tasks", "tanks", "livestock", "constants", "maintenance", "feeding"):
        assert [entry.values for entry in content.tables[table]] == records[table], table
    assert not any(entry.unread for found in content.tables.values() for entry in found)
