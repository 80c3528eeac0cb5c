"""What is done of a plan is taken over into Livestock and Tanks, line by line, and nothing is lost."""

import datetime
import math
import re
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from typer.testing import CliRunner

from tests import books
from tests.rooms import Evaluated, changed, demo_room, few_species, plan_of, records_of
from workbook.build import Plan, compute
from workbook.cli import app
from workbook.copies.carrying_out import with_plan_done
from workbook.copies.content import Content, Entry
from workbook.copies.reading import read_copy
from workbook.editions import keeper

TODAY = datetime.date(2026, 10, 5)
COUNTED = datetime.date(2026, 8, 22)


def content(**tables: list[dict[str, Any]]) -> Content:
    """A workbook of these rows."""
    return Content("mine.xlsx", "keeper", "metric", 1, {key: tuple(map(Entry, rows)) for key, rows in tables.items()})


ROOM: dict[str, list[dict[str, Any]]] = {
    "tanks": [{"tank": "North", "net_volume_measured": 50, "length": 60}, {"tank": "Bow"}],
    "livestock": [
        {"tank": "North", "species": "Neon tetra", "animals": 10, "counted_on": COUNTED, "length_now": 2.5, "males": 4},
        {"tank": "North", "species": "Platy", "animals": 4},
        {"tank": "north", "species": "neon tetra", "animals": 5},
    ],
    "log": [{"date": datetime.date(2026, 9, 1), "tank": "North", "species": "Neon tetra", "losses": 3}],
}


def after(*lines: dict[str, Any], values: tuple[dict[str, Any], ...] = (), **room: Any) -> tuple[Content, list[str]]:
    """The room with these lines done."""
    plan = {
        "plan_lines": [line | {"done": "yes"} for line in lines],
        "plan_values": [v | {"done": "yes"} for v in values],
    }
    return with_plan_done(content(**(ROOM | room | plan)), TODAY, carry_out=True)


def groups(found: Content) -> list[tuple[Any, ...]]:
    return [tuple(row.values.get(key) for key in ("tank", "species", "animals")) for row in found.tables["livestock"]]


def test_a_line_that_is_done_is_offered() -> None:
    room = content(**ROOM, plan_lines=[{"do": "add", "done": "yes"}, {"do": "add"}])
    same, said = with_plan_done(room, TODAY, carry_out=False)
    assert same == room
    assert said == ["Plan: 1 line is marked done; build with --carry-out to take that over into Livestock and Tanks"]


def test_what_is_not_done_stays() -> None:
    room = content(**ROOM, plan_lines=[{"do": "add", "number": 3, "species": "Platy", "to_tank": "Bow"}])
    same, said = with_plan_done(room, TODAY, carry_out=True)
    assert same == room
    assert said == ["Plan: no line is marked done, so nothing was carried out"]


def test_moved_animals_leave_one_tank_and_stand_in_the_other() -> None:
    """Of ten that were counted three have died since: the first group gives seven, the second the rest."""
    day = datetime.date(2026, 10, 2)
    found, said = after(
        {"do": "move", "number": 9, "species": "Neon tetra", "from_tank": "NORTH", "to_tank": "bow", "on_day": day}
    )
    assert groups(found) == [
        ("North", "Neon tetra", 3), ("North", "Platy", 4), ("north", "neon tetra", 3), ("Bow", "Neon tetra", 7), ("Bow", "Neon tetra", 2),
    ]  # fmt: skip
    moved = found.tables["livestock"][3].values
    assert (moved["length_now"], moved["date_in"], moved["origin"]) == (2.5, day, "From North")
    assert said == ["Plan: 9 Neon tetra moved from North to Bow, there as a new row of Livestock"]
    assert [dict(line.values) for line in found.tables["plan_lines"]] == [{}]


def test_more_than_live_there_are_not_taken() -> None:
    line = {"do": "take out", "number": 13, "species": "Neon tetra", "from_tank": "North"}
    found, said = after(line)
    assert groups(found) == groups(content(**ROOM))
    assert found.tables["plan_lines"][0].values == line | {"done": "yes"}
    assert said == ["Plan: 'take out 13 Neon tetra' left as it is: only 12 Neon tetra live in North"]


def test_what_came_by_the_log_may_be_taken_too() -> None:
    log = [{"date": datetime.date(2026, 9, 1), "tank": "North", "species": "Platy", "arrivals": 6}]
    stock = [ROOM["livestock"][1] | {"date_in": COUNTED}]
    found, _ = after(
        {"do": "take out", "number": 8, "species": "Platy", "from_tank": "North"}, log=log, livestock=stock
    )
    assert found.tables["livestock"][0].values["animals"] == 2
    assert found.tables["livestock"][0].values["counted_on"] == TODAY


UNFINISHED = (
    {"do": "move", "number": 2, "species": "Platy", "from_tank": "North"},
    {"do": "add", "species": "Platy", "to_tank": "Bow"},
    {"do": "add", "number": 2, "to_tank": "Bow"},
    {"number": 2, "species": "Platy", "to_tank": "Bow"},
    {"do": "add", "number": 2, "species": "Platy", "to_tank": "nowhere"},
)


@pytest.mark.parametrize("line", UNFINISHED)
def test_a_line_that_is_not_finished_stays(line: dict[str, Any]) -> None:
    found, said = after(line)
    assert groups(found) == groups(content(**ROOM))
    assert found.tables["plan_lines"][0].values == line | {"done": "yes"}
    assert len(said) == 1
    assert "left as it is" in said[0]


def test_a_tank_of_other_size_is_not_as_it_was_counted() -> None:
    found, said = after(values=({"tank": "north", "length": 100, "temperature": 24},))
    assert found.tables["tanks"][0].values == {"tank": "North", "length": 100, "temperature": 24}
    assert said == [
        "Plan: North has other values now: length, temperature; its volume counted in buckets, 50, is gone with its old size"
    ]
    assert dict(found.tables["plan_values"][0].values) == {}


def test_a_tank_that_only_has_other_water_is() -> None:
    found, _ = after(values=({"tank": "North", "water": "Tap"},))
    assert found.tables["tanks"][0].values == ROOM["tanks"][0] | {"water": "Tap"}


# What the plan says of a tank is what the room says once it is done: one against the other, both by the workbook.
PLAN = [
    {"do": "move", "number": 8, "species": "Cardinal tetra", "from_tank": "Rack B1", "to_tank": "Study window", "done": "yes"},
    {"do": "take out", "number": 1, "species": "Convict cichlid", "from_tank": "Rack B1", "done": "yes"},
    {"do": "add", "number": 8, "species": "Tiger barb", "to_tank": "Hall corner", "done": "yes"},
]  # fmt: skip
VALUES = [{"tank": "Hall corner", "temperature": 24.5, "length": 150, "change_share": 0.4, "done": "yes"}]
TOLD = (
    "animals",
    "nitrogen_share",
    "oxygen_share",
    "swim_share",
    "bottom_share",
    "volume_share",
    "binding",
    "food",
    "reserve",
)


def test_the_room_is_then_as_the_plan_said(tmp_path: Path) -> None:
    room = few_species(
        changed(demo_room(), plan_lines=plan_of(PLAN), plan_values=plan_of(VALUES, "plan_values")), "Tiger barb"
    )
    planned = Evaluated(room, "metric")
    tables = {key: tuple(map(Entry, rows)) for key, rows in records_of(room).items()}
    done, _ = with_plan_done(Content("mine.xlsx", "keeper", "metric", 3, tables), room.plan_date.date(), carry_out=True)
    then = Evaluated(room, "metric", lambda _edition, _records, plan: _compute(done, plan))
    for place, row in enumerate(planned.whole("plan_tanks", "own_row")):
        for key in TOLD if row != "" else ():
            said, is_so = planned.whole("plan_stocking", key)[place], then.whole("stocking", key)[int(row) - 1]
            assert said == is_so or math.isclose(float(said), float(is_so), rel_tol=1e-9), key


def _compute(done: Content, plan: Plan) -> Any:
    return compute(keeper(), {key: [dict(row.values) for row in rows] for key, rows in done.tables.items()}, plan)


def typed_into(path: Path, cells: dict[tuple[str, int], Any], there: Path) -> None:
    """The workbook with lines of its plan filled by a person, saved by another program."""
    book = openpyxl.load_workbook(path)
    name, sheet = book.defined_names, book["Plan"]
    for (key, line), value in cells.items():
        area = name[f"plan_lines_{key}"].attr_text.rpartition("!")[2].replace("$", "")
        letter, first = re.fullmatch(r"([A-Z]+)([0-9]+):.*", area).groups()  # type: ignore[union-attr]
        sheet[f"{letter}{int(first) + line}"] = value
    book.save(there)


def test_a_file_is_carried_out_by_the_command(tmp_path: Path) -> None:
    """A line marked done is offered, then taken over; the fresh file has it in Livestock and an empty line."""
    edited, fresh = tmp_path / "edited.xlsx", tmp_path / "fresh.xlsx"
    typed_into(books.book("keeper"), {("done", 0): "yes"}, edited)
    command = ["build", str(edited), "-o", str(fresh), "--spare-rows", "2", "--plan-date", "2026-10-05"]
    offered = CliRunner().invoke(app, command)
    assert offered.exit_code == 0
    assert "Plan: 1 line is marked done" in offered.output
    done = CliRunner().invoke(app, [*command, "--carry-out"])
    assert done.exit_code == 0, done.output
    assert "Plan: 8 Cardinal tetra moved from Rack B1 to Study window" in done.output
    before, after_ = (read_copy(path).tables for path in (edited, fresh))
    assert [line.values for line in after_["plan_lines"]] == [before["plan_lines"][1].values]
    assert len(after_["livestock"]) == len(before["livestock"]) + 1
    moved = after_["livestock"][-1].values
    assert (moved["tank"], moved["species"], moved["animals"]) == ("Study window", "Cardinal tetra", 8)
    others = [row.values for row in before["livestock"] if row.values.get("species") != "Cardinal tetra"]
    assert [row.values for row in after_["livestock"] if row.values.get("species") != "Cardinal tetra"] == others


def test_a_folder_has_no_plan_to_carry_out(tmp_path: Path) -> None:
    refused = CliRunner().invoke(app, ["build", "demo", "-o", str(tmp_path / "a.xlsx"), "--carry-out"])
    assert refused.exit_code == 2
    assert "no edited workbook" in refused.output
