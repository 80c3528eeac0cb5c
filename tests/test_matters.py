"""Attention tells of each cause and place once, and nothing that harms is lost by that."""

import itertools

import pytest

from tests import books
from workbook.editions import EDITIONS
from workbook.sheets.matters import FACTS, OF_TANK
from workbook.tables.columns import Computed
from workbook.tables.completing import complete

# The most lines that the demo leaves open: each one that its keeper would act on or decide about.
OPEN = 30
# What asked for action when each row told for itself, a tank or a row and the title of its flag, and the line of today.
ACTS = {
    ("Sill tank", "Nitrite not zero"): "Sill tank: Ammonia, nitrite, cycling",
    ("Sill tank", "Animals in a tank not cycled"): "Sill tank: Ammonia, nitrite, cycling",
    ("Kitchen round", "Little oxygen in reserve"): "Kitchen round: Oxygen and floor",
    ("Cardinal tetra", "at 3.2 cm it fits the mouth of Convict cichlid"): "Rack B1: Company",
    ("Cardinal tetra", "Cardinal tetra (1)"): "Rack B1: Company",
    ("Ram cichlid", "Ram cichlid (2)"): "Rack B1: Company",
    ("White cloud minnow", "White cloud minnow (1)"): "Rack B1: Company",
    ("Bristlenose pleco", "Bristlenose pleco (2)"): "Rack B1: Company",
    ("Angelfish", "its long fins will be bitten by Tiger barb"): "Landing bow: Company",
    ("Red cherry shrimp", "Angelfish hunts grown shrimp"): "Landing bow: Company",
    ("Common goldfish", "this species wants at least 500 L"): "Kitchen round: Tank too small",
    ("Ember tetra", "at 1.62 cm it fits the mouth of Butterfly fish"): "Cellar hexagon: Company",
    ("Rack B1", "No shared temperature range"): "Rack B1: Water that suits all",
    ("Rack B1", "No shared pH range"): "Rack B1: Water that suits all",
    ("Stair niche", "Temperature outside the shared range"): "Stair niche: Water that suits all",
    ("Angelfish", "eats its eggs and young"): "Angelfish: 2026-10-04: Adults will eat the brood",
}
# The seventeenth is no trouble: bee shrimp are at home in water without carbonate, and nobody hardens it for them.
# Named by the days that they are late, not by the flag.
BY_DAYS = {"maintenance.late", "maintenance.very_late"}
AT_HOME_IN_SOFT_WATER = "Rack A3"


def lines() -> list[dict[str, str]]:
    """The lines of Attention of the demo, whole."""
    names = ("serious", "where", "what", "full", "do")
    columns = [books.column(books.book(complete=True), f"attention_{name}") for name in names]
    found = [dict(zip(names, map(str, line), strict=True)) for line in zip(*columns, strict=True) if line[0]]
    # The books of the tests have few ready rows.
    return [line for line in found if line["what"] != "List nearly full"]


@pytest.mark.parametrize(("told", "line"), ACTS.items(), ids=[f"{who}: {what}" for who, what in ACTS])
def test_what_harms_is_told_by_a_line_that_asks_for_action(told: tuple[str, str], line: str) -> None:
    found = [one for one in lines() if f"{one['where']}: {one['what']}" == line]
    assert [one["serious"] for one in found] == ["▲ Act"]
    assert told[1] in found[0]["full"]
    assert found[0]["do"]


def test_nothing_else_asks_for_action() -> None:
    acts = {f"{one['where']}: {one['what']}" for one in lines() if one["serious"] == "▲ Act"}
    assert acts == set(ACTS.values())
    assert not [one for one in lines() if AT_HOME_IN_SOFT_WATER in one["where"] and "arbonate" in one["what"]]


def test_few_lines_are_open_and_each_place_stands_together() -> None:
    found = lines()
    assert len([one for one in found if one["serious"] != "· Known"]) <= OPEN
    assert [one["serious"] for one in found if one["serious"] == "· Known"] == [
        one["serious"] for one in found[-sum(one["serious"] == "· Known" for one in found) :]
    ]
    of_tanks = [one["where"] for one in found if one["where"] in {"Rack B1", "Landing bow", "Kitchen round"}]
    changes = sum(a != b for a, b in itertools.pairwise(of_tanks))
    assert changes <= 2 + sum(one["serious"] == "· Known" for one in found)


@pytest.mark.parametrize("edition", EDITIONS)
def test_every_flag_that_is_gathered_is_told_somewhere(edition: str) -> None:
    """In a matter of its tank, through the sum of a tank's groups, by a running list, or it is a fact that lasts."""
    tables = EDITIONS[edition]().tables
    gathered = {f"{t.key}.{f.key}" for t in map(complete, tables) for f in t.flags if f.gathered}
    of_tanks = {flag for _, flags in OF_TANK.values() for flag in flags}
    looked_at = {
        name if "." in name else f"{table.key}.{name}"
        for table in tables
        for column in table.columns
        if isinstance(column, Computed)
        for name in (name.removesuffix("[]") for name in column.formula.names)
    } | BY_DAYS
    assert {flag for flag in gathered if flag not in of_tanks | looked_at | set(FACTS)} == set()
    assert {fact for fact in FACTS if fact.split(".")[0] in {t.key for t in tables}} <= gathered
