"""The first hour of a keeper with an empty workbook: what Start says after each step, and what it says of a beginner's slips."""

from collections.abc import Mapping
from pathlib import Path

import pytest

from tests import books, office
from workbook.build import Plan, compute, save
from workbook.editions import EDITIONS

pytestmark = pytest.mark.office

WATER: dict[str, office.Value] = {"waters_water": "Tap", "waters_ph": 7.4, "waters_gh_degh": 8.0, "waters_kh_degh": 5.0}
TANK: dict[str, office.Value] = {
    "tanks_tank": "Window", "tanks_shape": "box", "tanks_measured": "outside", "tanks_length_cm": 80.0, "tanks_width_cm": 35.0, "tanks_height_cm": 45.0,
    "tanks_glass_cm": 0.8, "tanks_water_below_rim_cm": 2.0, "tanks_substrate_depth_cm": 4.0, "tanks_rock_kg": 3.0, "tanks_wood_kg": 1.0, "tanks_water": "Tap",
    "tanks_temperature_degc": 25.0, "tanks_cycled": "yes",
}  # fmt: skip
ANIMALS: dict[str, office.Value] = {
    "livestock_tank": "Window",
    "livestock_species": "Neon tetra",
    "livestock_animals": 12.0,
}
# What was typed over the rest, and the flags that tell of it.
SLIPS: tuple[tuple[dict[str, office.Value], set[str]], ...] = (
    ({}, set()),
    (
        {"tanks_length_cm": 800.0, "tanks_width_cm": 350.0, "tanks_height_cm": 450.0},
        {"Larger than most rooms can hold"},
    ),
    ({"tanks_glass_cm": 8.0}, {"Glass thicker than any pane"}),
    ({"tanks_height_cm": "45 cm"}, {"Words instead of a number", "Net volume unknown"}),
    ({"livestock_date_in": "last May"}, {"Words instead of a number"}),
    ({"livestock_species": "Neon tetre"}, {"Species not known"}),
    ({"waters_gh_degh": ""}, {"Water not known"}),
    ({"tanks_measured": ""}, {"Net volume an estimate"}),
    ({"tanks_cycled": "no"}, {"Animals in a tank not cycled"}),
)
TOLD = set().union(*(flags for _, flags in SLIPS))


def numbered(row: int, values: Mapping[str, office.Value]) -> office.Cells:
    """What is typed, in a row of the empty lists, with names that have its number."""
    areas, names = office.areas(blank()), {"Tap", "Window"}
    return {
        (areas[name][0], areas[name][1] + row, areas[name][2]): f"{value} {row}" if value in names and row else value
        for name, value in values.items()
    }


def blank() -> Path:
    """The workbook in which nothing stands yet, with a small library."""
    ready = dict.fromkeys(("waters", "tanks", "livestock"), len(SLIPS) + 3)
    plan = Plan(spare_rows=6, plan_date=books.DAY, rows=ready)

    def make(path: Path) -> None:
        save(path, compute(EDITIONS["keeper"](), books.few("keeper", "blank"), plan), plan)

    return books.shared("keeper-first-hour.xlsx", make)


# Steps one after the other; then every slip at once, each in a room corner of its own.
STEPS: tuple[Mapping[str, office.Value], ...] = ({}, WATER, WATER | TANK, WATER | TANK | ANIMALS)


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> list[office.Cells]:
    """What LibreOffice shows after each step, and of all the slips last."""
    folder = tmp_path_factory.mktemp("first hour")
    typed = [numbered(0, step) for step in STEPS]
    slips = [numbered(row, WATER | TANK | ANIMALS | slip) for row, (slip, _) in enumerate(SLIPS)]
    typed.append({at: value for cells in slips for at, value in cells.items()})
    copies = [office.edited(blank(), folder / f"{number}.xlsx", cells) for number, cells in enumerate(typed)]
    return office.recalculated(copies, folder / "found")


def column(found: office.Cells, name: str) -> list[office.Value]:
    """What stands in a column."""
    return [found.get(at, "") for at in office.cells_of(office.areas(blank())[name])]


def test_start_says_what_comes_next(found: list[office.Cells]) -> None:
    steps = [[column(cells, f"first_steps_step_{n}")[0] for n in (1, 2, 3, 4)] for cells in found[: len(STEPS)]]
    assert steps == [
        ["next: go to Waters", "later: Tanks", "later: Livestock", "later: Attention"],
        ["done: Waters", "next: go to Tanks", "later: Livestock", "later: Attention"],
        ["done: Waters", "done: Tanks", "next: go to Livestock", "later: Attention"],
        ["done: Waters", "done: Tanks", "done: Livestock", "look: go to Attention"],
    ]


def test_an_empty_workbook_raises_no_flag(found: list[office.Cells]) -> None:
    assert not any(column(found[0], "attention_what"))


def test_slips_are_told(found: list[office.Cells]) -> None:
    names = ("attention_row", "attention_what", "attention_full")
    lines = zip(*(column(found[-1], name) for name in names), strict=True)
    # A line gathers what has one cause: each flag by its title.
    told = {(row, flag) for row, what, full in lines for flag in TOLD if flag == what or f"{flag}: " in str(full)}
    assert told == {(float(row), flag) for row, (_, flags) in enumerate(SLIPS, 1) for flag in flags}
