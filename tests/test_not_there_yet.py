"""What is not there yet does not count: a group that comes in after the plan date changes nothing until that day.

Common sense is the check: a room with such a group says what the same room says without it, and what it says once the
day has come is what it says of any other group.
"""

import datetime
from typing import Any

import pytest

from tests import books
from tests.needed import as_asked
from tests.test_candidates import TANK, WATER, cell, kind
from workbook.build import Built, Plan
from workbook.editions import EDITIONS
from workbook.sheets.livestock_flags import FLAGS
from workbook.sheets.matters import MATTERS

DAY = datetime.date(2026, 5, 10)
LATER, ALREADY = DAY + datetime.timedelta(days=1), DAY
HERE = {"tank": "Long", "species": "Tiny", "animals": 8}
COMES = {"tank": "Long", "species": "Gulper", "animals": 2}
LIBRARY = [
    kind("Gulper", adult_length=20, mouth_share=0.5, group_min=1, temper=5, light="bright", volume_min=800),
    kind("Tiny", adult_length=3, light="dim"),
]
OF_THE_TANK = (
    *("stocking.animals", "stocking.binding_share", "stocking.nitrate_peak", "stocking.reserve", "stocking.food"),
    *("overlap.temperature_low_by", "company.residents", "company.mouthful_max", "comfort.light_dim", "cards.who"),
)


def room(*stock: dict[str, Any], edition: str = "keeper") -> Built:
    """One tank and who is in it."""
    found = EDITIONS[edition]()
    records = books.blank(edition)
    records |= {"species": LIBRARY, "tanks": [TANK], "waters": [WATER]}
    if edition == "shop":
        records["stock"] = [
            {"code": f"F{n}", "species": row["species"], "tank": row["tank"], "on_hand": row["animals"]}
            | {"came_in": row.get("date_in", ALREADY)}
            for n, row in enumerate(stock)
        ]
    else:
        records["livestock"] = list(stock)
    return as_asked(found, records, Plan(spare_rows=1, plan_date=DAY))


@pytest.mark.parametrize("edition", ["keeper", "shop"])
def test_those_that_come_later_change_nothing_about_the_tank(edition: str) -> None:
    without, coming, there = (
        room(HERE, *more, edition=edition)
        for more in ([], [COMES | {"date_in": LATER}], [COMES | {"date_in": ALREADY}])
    )
    for place in OF_THE_TANK:
        assert cell(coming, place) == cell(without, place), place
    changed = [place for place in OF_THE_TANK if cell(there, place) != cell(without, place)]
    assert {"stocking.animals", "stocking.nitrate_peak", "company.mouthful_max", "cards.who"} <= set(changed)


def test_their_row_says_so_and_raises_nothing() -> None:
    coming, there = (room(HERE, COMES | {"date_in": day}) for day in (LATER, ALREADY))
    assert cell(coming, "livestock.water_verdict", 1) == "not there yet"
    raised = [
        {flag.key for flag in FLAGS for row in (0, 1) if cell(b, f"livestock.{flag.key}", row)} for b in (coming, there)
    ]
    assert not raised[0]
    assert {"eaten", "clash_of_temper", "tiny_tank"} <= raised[1]
    assert cell(coming, "counts.animals") == 8
    assert cell(there, "counts.animals") == 10


def test_a_group_to_come_that_nobody_counted_is_not_there_either() -> None:
    coming = room(HERE, {"tank": "Long", "species": "Gulper", "date_in": LATER})
    assert cell(coming, "company.residents") == 1


PLANNED = TANK | {"tank": "To come", "cycled": "no", "standing": "no", "height": 3, "filter_flow": 5}


def planned_too(**more: Any) -> Built:
    """The room, and a tank with animals and tasks that does not stand, or does."""
    records = books.blank()
    records |= {"species": LIBRARY, "tanks": [TANK, PLANNED | more], "waters": [WATER], "livestock": [HERE]}
    records["livestock"] = [HERE, COMES | {"tank": "To come"}]
    records["maintenance"] = [
        {"task": "Clean the filter", "tank": tank, "every_days": 7} for tank in ("Long", "To come")
    ]
    return as_asked(EDITIONS["keeper"](), records, Plan(spare_rows=1, plan_date=DAY))


def test_a_tank_that_is_only_planned_is_no_matter_of_today() -> None:
    planned, stands = planned_too(), planned_too(standing="yes")
    for place, now, later in (
        ("counts.tanks", 1, 2),
        ("counts.animals", 8, 10),
        ("room_figures.tanks", 1, 2),
        ("room_figures.changes", 1, 2),
        ("room_figures.tasks", 1, 2),
    ):
        assert (cell(planned, place), cell(stands, place)) == (now, later), place
    assert cell(planned, "stocking.animals", 1) == 0
    assert cell(planned, "next_change.next_change", 1) == ""
    raised = [{f.key for f in MATTERS.flags if cell(built, f"matters.{f.key}", 1)} for built in (planned, stands)]
    assert not raised[0]
    assert {"cycling_act", "data_act"} <= raised[1]
