"""The first hour of a keeper with an empty workbook: what Start says after each step, and what it says of a beginner's slips."""

import datetime
from collections.abc import Mapping
from pathlib import Path

import pytest

from tests import office
from tests.test_engines import TEMPLATES
from workbook.build import Plan, build

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
    ({"tanks_measured": ""}, {"Net volume unknown"}),
    ({"tanks_cycled": "no"}, {"Animals in a tank not cycled"}),
)
TOLD = set().union(*(flags for _, flags in SLIPS))


@pytest.fixture(scope="module")
def blank(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The workbook in which nothing stands yet."""
    path = tmp_path_factory.mktemp("blank") / "blank.xlsx"
    build(TEMPLATES / "blank", path, Plan(plan_date=datetime.date(2026, 10, 5)))
    return path


def shown(blank: Path, folder: Path, *typed: Mapping[str, office.Value]) -> list[office.Cells]:
    """What LibreOffice shows after each of these was typed into the first rows of the empty lists."""
    areas = office.areas(blank)
    copies = []
    for number, values in enumerate(typed):
        cells = {areas[name][:3]: value for name, value in values.items()}
        copies.append(office.edited(blank, folder / f"{number}.xlsx", cells))
    return office.recalculated(copies, folder / "found")


def column(blank: Path, found: office.Cells, name: str) -> set[str]:
    """What stands in a column, blank cells left out."""
    return {str(found[at]) for at in office.cells_of(office.areas(blank)[name]) if found.get(at, "") != ""}


def test_start_says_what_comes_next(blank: Path, tmp_path: Path) -> None:
    found = shown(blank, tmp_path, {}, WATER, WATER | TANK, WATER | TANK | ANIMALS)
    steps = [[next(iter(column(blank, cells, f"first_steps_step_{n}"))) for n in (1, 2, 3, 4)] for cells in found]
    assert steps == [
        ["next: go to Waters", "later: Tanks", "later: Livestock", "later: Attention"],
        ["done: Waters", "next: go to Tanks", "later: Livestock", "later: Attention"],
        ["done: Waters", "done: Tanks", "next: go to Livestock", "later: Attention"],
        ["done: Waters", "done: Tanks", "done: Livestock", "look: go to Attention"],
    ]


def test_an_empty_workbook_raises_no_flag(blank: Path, tmp_path: Path) -> None:
    assert not column(blank, shown(blank, tmp_path, {})[0], "attention_what")


def test_slips_are_told(blank: Path, tmp_path: Path) -> None:
    found = shown(blank, tmp_path, *(WATER | TANK | ANIMALS | slip for slip, _ in SLIPS))
    for cells, (slip, flags) in zip(found, SLIPS, strict=True):
        assert column(blank, cells, "attention_what") & TOLD == flags, slip
