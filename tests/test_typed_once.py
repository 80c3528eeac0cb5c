"""Typed once: a change of water that stands in one place moves whatever follows from it, in all others."""

import pandas as pd
import pytest

from tests import rooms
from tests.oracles.tools import Room
from tests.rooms import Evaluated, changed, demo_room, few_species, shortly

DAY = demo_room().plan_date
TANK, INTERVAL, SHARE = "Hall corner", 7, 0.4
READ_ON, READ = DAY - pd.Timedelta(days=3), 30.0


def with_log(*rows: dict[str, object], maintained: bool, last_done: pd.Timestamp | None = None) -> Room:
    """The demo with these rows of one tank in its log, after a reading of nitrate, and one task at most."""
    room = few_species(demo_room())
    log = pd.DataFrame([{"date": READ_ON, "tank": TANK, "nitrate": READ}, *({"tank": TANK} | row for row in rows)])
    log = log.reindex(columns=room.log.columns).astype(dict(room.log.dtypes.items()))
    for key in ("task", "work", "log_note"):
        log[key] = log[key].fillna("")
    tasks = room.maintenance[room.maintenance["tank"] == TANK].head(1).copy()
    tasks["task"], tasks["every_days"], tasks["last_done"] = "Change water", float("nan"), last_done
    return changed(room, log=log, maintenance=tasks if maintained else room.maintenance.head(0), plan_date=DAY)


def of_tank(found: Evaluated, table: str, key: str) -> object:
    return found.column(table, key)[list(found.column("tanks", "tank")).index(TANK)]


WAYS = {
    "litres without a task": {"litres_changed": 1.0},
    "a task without litres": {"task": "Change water"},
    "litres of another task": {"litres_changed": 1.0, "task": "Trim the plants"},
}


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("maintained", [True, False])
def test_a_change_in_the_log_moves_the_next_one_everywhere(way: str, maintained: bool) -> None:
    """Counted from its day by the interval on Tanks, with a row on Maintenance or without one."""
    done = DAY - pd.Timedelta(days=2)
    found = shortly(with_log({"date": done} | WAYS[way], maintained=maintained))
    due = float((done - rooms.EPOCH).days + INTERVAL)
    assert of_tank(found, "next_change", "next_change") == due
    if maintained:
        assert found.column("maintenance", "next_due")[0] == due
    week = list(
        zip(found.column("week", "task"), found.column("week", "tank"), found.column("week", "first_day"), strict=True)
    )
    assert ("Change water", TANK, 5.0) in week
    assert [line[1] for line in week if line[0] == "Change water"].count(TANK) == 1
    at = [line[:2] for line in week].index(("Change water", TANK))
    assert "Tap" in str(found.column("week", "supplies")[at])


@pytest.mark.parametrize("way", ["log", "maintenance"])
def test_a_change_without_litres_thins_nitrate_by_the_planned_share(way: str) -> None:
    done = DAY - pd.Timedelta(days=1)
    room = (
        with_log({"date": done, "task": "Change water"}, maintained=True)
        if way == "log"
        else with_log(maintained=True, last_done=done)
    )
    assert of_tank(shortly(room), "changes", "changed_since") == pytest.approx(SHARE)


def test_a_change_typed_on_both_sheets_counts_once() -> None:
    done = DAY - pd.Timedelta(days=1)
    room = with_log({"date": done, "task": "Change water"}, maintained=True, last_done=done)
    assert of_tank(shortly(room), "changes", "changed_since") == pytest.approx(SHARE)


# --- what dies and comes, by the log ---

COUNTED = DAY - pd.Timedelta(days=10)
GROUP = {"tank": TANK, "species": "Cardinal tetra", "animals": 12.0}


def after(*events: dict[str, object], **group: object) -> Evaluated:
    """One group of the demo's tank, and these rows of the log."""
    room = with_log(*events, maintained=False)
    stock = pd.DataFrame([GROUP | {"counted_on": COUNTED} | group]).reindex(columns=room.livestock.columns)
    stock = stock.astype(dict(room.livestock.dtypes.items()))
    for key in ("origin", "stock_note"):
        stock[key] = stock[key].fillna("")
    log = room.log.astype({"species": object})
    log["species"] = log["species"].fillna("")
    library = demo_room().species
    known = library[library["species"] == GROUP["species"]].reset_index(drop=True)
    return shortly(changed(room, livestock=stock, log=log, species=known, feeding=room.feeding.head(0)))


EVENTS = {
    "losses and arrivals": ([("losses", 3.0, 5), ("arrivals", 6.0, 2)], 15),
    "before it was counted": ([("losses", 3.0, 12)], 12),
    "on the day of the count": ([("losses", 3.0, 10)], 12),
    "still to come": ([("arrivals", 6.0, -1)], 12),
    "more than there were": ([("losses", 20.0, 5)], 0),
}


@pytest.mark.parametrize("name", EVENTS)
def test_losses_and_arrivals_change_how_many_there_are(name: str) -> None:
    """From the day after the count to today; what follows from how many there are moves with it."""
    events, left = EVENTS[name]
    rows = [
        {"date": DAY - pd.Timedelta(days=days), "species": GROUP["species"], key: many} for key, many, days in events
    ]
    found = after(*rows)
    assert found.column("livestock", "living")[0] == left
    assert of_tank(found, "stocking", "animals") == left


def test_losses_of_another_kind_or_of_nobody_change_nothing() -> None:
    rows = [{"date": DAY, "losses": 2.0}, {"date": DAY, "losses": 2.0, "species": "Neon tetra"}]
    assert after(*rows).column("livestock", "living")[0] == GROUP["animals"]


def test_what_came_in_is_taken_as_counted_on_that_day() -> None:
    row = {"date": DAY, "losses": 2.0, "species": GROUP["species"]}
    assert after(row, counted_on=pd.NaT, date_in=COUNTED).column("livestock", "living")[0] == 10
    assert after(row, counted_on=pd.NaT).column("livestock", "living")[0] == 12
