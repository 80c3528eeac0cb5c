"""Every constant's default, range, unit and ground, against a statement of its own."""

import csv
from pathlib import Path

import pytest

from tests.oracles import defaults
from tests.oracles.constants_stated import OF_A_SHOP, STATED

SHARED = Path(__file__).parent.parent / "templates" / "shared"
ALL = {key: (*numbers, *ground) for ground, some in STATED.items() for key, numbers in some.items()}


def table(name: str) -> dict[str, tuple[object, ...]]:
    """What the package brings: default, low, high, unit, source and how sure it is, by key."""
    with (SHARED / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return {
            row["key"]: (*(float(row[key]) for key in ("value", "low", "high")), row["unit"], row["source"], row["confidence"])
            for row in csv.DictReader(file)
        }  # fmt: skip


def test_constants_are_as_stated() -> None:
    found = table("constants") | table("shop_constants")
    assert found.keys() == ALL.keys()
    assert {key: (found[key], ALL[key]) for key in found if found[key] != ALL[key]} == {}
    assert set(table("shop_constants")) == set(OF_A_SHOP)


def test_the_statement_agrees_with_the_domain_notes() -> None:
    """Two statements of one default, so that a slip in either shows."""
    assert {key: ALL[key][0] for key in defaults.STATED} == pytest.approx(defaults.STATED, rel=1e-12)


def test_defaults_stand_in_sensible_ranges_and_limits_in_their_order() -> None:
    """What one constant means to another."""
    value = {key: numbers[0] for key, numbers in ALL.items()}
    assert all(low <= default <= high for default, low, high, *_ in ALL.values())
    for low, high in (
        ("toxic_caution", "toxic_act"), ("temper_watch", "temper_clash"), ("turnover_gentle", "turnover_low"),
        ("turnover_low", "turnover_high"), ("soon_days", "days_very_late"), ("slow_days", "dead_days"), ("u_top_covered", "u_top_open"),
        ("brine_temperature_low", "brine_temperature_high"), ("brine_ph_low", "brine_ph_high"), ("cyst_density", "cyst_density_most"),
        ("swim_sedentary", "swim_calm"), ("swim_calm", "swim_active"), ("bottom_social", "bottom_holds"),
        ("narrow_temperature", "easy_temperature"), ("narrow_ph", "easy_ph"), ("narrow_gh", "easy_gh"),
    ):  # fmt: skip
        assert value[low] < value[high], (low, high)
    likeness = [value[key] for key in value if key.startswith("like_")]
    assert sum(likeness) == pytest.approx(1)
