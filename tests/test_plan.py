"""A plan: reckoned as the room would be, of awkward lines too; the largest number; how many formulas it takes."""

import functools

from tests import test_columns
from tests.oracles.tools import Room
from tests.rooms import Evaluated, changed, demo_room, few_species, plan_of, shortly
from workbook.build import Plan, lay_out, read, templates_folder
from workbook.editions import keeper

LINES = [
    {"do": "move", "number": 11, "species": "Cardinal tetra", "from_tank": "Rack B1", "to_tank": "Study window"},
    {"do": "take out", "number": 2, "species": "Convict cichlid", "from_tank": "Rack B1"},
    {"do": "add", "number": 8, "species": "Tiger barb", "to_tank": "Hall corner"},
    {"do": "add", "number": 3, "species": "angelfish", "to_tank": "HALL corner"},
    {"do": "add", "number": 3, "species": "no such fish", "to_tank": "Hall corner"},
    {"do": "move", "species": "Platy", "to_tank": "Hall corner"},
    {"do": "move", "number": 2, "species": "Angelfish", "from_tank": "Hall corner", "to_tank": "Landing bow"},
    {"do": "move", "number": 400, "species": "Angelfish", "from_tank": "Hall corner", "to_tank": "Landing bow"},
    {"do": "add", "number": 40, "species": "Discus", "to_tank": "Sill tank"},
    {"do": "add", "number": 4, "species": "Discus", "to_tank": "Rack A1"},
    {"do": "add", "number": 4, "species": "Discus", "to_tank": "Rack A2"},
]
VALUES = [
    {"tank": "Hall corner", "temperature": 24, "length": 150, "change_share": 0.4},
    {"tank": "Sill tank", "shape": "cylinder", "water": "Tap"},
]


@functools.cache
def awkward() -> Room:
    """Lines that can't be done, a tank too many, animals on the way twice."""
    plan = {"plan_lines": plan_of(LINES), "plan_values": plan_of(VALUES, "plan_values")}
    return few_species(changed(demo_room(), **plan), "Discus", "Tiger barb", "Angelfish", "Platy")


def test_an_awkward_plan_is_reckoned_as_the_room_would_be() -> None:
    wrong = test_columns.everything_wrong(awkward())
    assert not wrong, f"{len(wrong)} cells differ\n" + "\n".join(wrong[:40])


def with_more(number: int) -> Evaluated:
    """The demo with so many cardinal tetras planned for one tank."""
    lines = plan_of([{"do": "add", "number": number, "species": "Cardinal tetra", "to_tank": "Study window"}])
    return shortly(few_species(changed(demo_room(), plan_lines=lines), "Cardinal tetra"))


def test_one_more_than_the_largest_number_is_too_many() -> None:
    """Tried, not reckoned: with that number no limit is passed that more animals raise, with one more it is."""
    asked = with_more(900)
    most = int(asked.column("plan_lines", "most")[0])
    assert asked.column("plan_lines", "says")[0] == f"◆ at most {most}, by {asked.column('plan_lines', 'limit')[0]}"

    def fullest(number: int) -> float:
        found = with_more(number)
        return max(float(found.column("plan_stocking", f"{key}_share")[0]) for key in ("nitrogen", "oxygen", "bottom"))

    assert 0 < most < 900
    assert fullest(most) <= 1 < fullest(most + 1)


def test_a_plan_takes_at_most_twelve_thousand_formulas() -> None:
    edition = keeper()
    placing = lay_out(edition, edition.given | {"about": [{}]} | read(templates_folder() / "demo", edition), Plan())
    tables = [here for key, here in placing.tables.items() if key.startswith("plan_")]
    assert 10_000 < sum(len(here.slots) * here.rows for here in tables) <= 12_000
