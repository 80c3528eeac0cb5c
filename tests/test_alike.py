"""One value in two unit systems: what is shown alike was not typed, what is shown otherwise was."""

import pytest

from tests.made_up import TABLES, content, edited
from workbook.copies.alike import alike
from workbook.copies.comparing import compare
from workbook.copies.content import Content
from workbook.copies.merging import merge
from workbook.copies.rebasing import HandOut, rebased
from workbook.tables import Look, Typed, number
from workbook.tables.kinds import Value

LENGTH = Typed("length", "Length", number(), unit="cm", look=Look(show="0.0"))
WARMTH = Typed("warmth", "Warmth", number(), unit="degC", look=Look(show="0.0"))


def fahrenheit(degrees: float) -> float:
    return (degrees - 32) / 1.8  # by definition


@pytest.mark.parametrize(
    ("one", "other", "is_one"),
    [
        ((18, "metric"), (fahrenheit(64), "us"), True),  # 18 °C are 64.4 °F, 64 °F are 17.8 °C
        ((18, "metric"), (fahrenheit(65), "us"), False),
        ((18, "metric"), (fahrenheit(64.3), "us"), False),
        ((18, "metric"), (fahrenheit(64.4), "us"), True),
        ((17.8, "metric"), (fahrenheit(64), "us"), True),
        ((24.5, "metric"), (fahrenheit(76), "us"), False),  # 24.4 °C
        ((18, "metric"), (fahrenheit(64), "metric"), False),  # typed over in a metric file, shown as 17.8
        ((17.8, "metric"), (fahrenheit(64), "metric"), True),  # as a file shows what a US file held
        ((17.8, "metric"), (18, "metric"), False),
        ((17.84, "metric"), (17.8, "metric"), False),
    ],
)
def test_degrees_are_told_apart_as_far_as_they_are_written(
    one: tuple[float, str], other: tuple[float, str], *, is_one: bool
) -> None:
    assert alike(one, other, WARMTH) is is_one
    assert alike(other, one, WARMTH) is is_one


def test_so_are_lengths() -> None:
    assert alike((100, "metric"), (39.4 * 2.54, "us"), LENGTH)  # 39.37 in
    assert not alike((100, "metric"), (39 * 2.54, "us"), LENGTH)  # 99.06 cm


def tanks(found: Content) -> list[dict[str, Value]]:
    return [row.values for row in found.tables["tanks"]]


BASE = content(tanks=[{"tank": "Long", "length": 100}])


def us(name: str, inches: float, tank: str = "Long", base: Content = BASE) -> Content:
    rows = [{"tank": tank, "length": inches * 2.54}]
    made = edited(base, name, tanks=rows if tank == "Long" else [*tanks(base), *rows])
    return Content(name, "keeper", "us", 1, made.tables)


def test_a_value_that_is_shown_alike_is_no_edit_and_no_difference() -> None:
    assert compare(BASE, us("a", 39.4), TABLES) == compare(us("a", 39.4), BASE, TABLES) == []
    assert merge(BASE, [us("a", 39.4)], TABLES).content == BASE
    also = edited(BASE, "b", tanks=[{"tank": "Long", "length": 90}])
    merged = merge(BASE, [us("a", 39.4), also], TABLES)
    assert (tanks(merged.content)[0]["length"], merged.conflicts) == (90, ())


def test_a_real_edit_counts() -> None:
    assert [change.new for change in compare(BASE, us("a", 39), TABLES)] == ["99.06 cm"]
    assert tanks(merge(BASE, [us("a", 39)], TABLES).content)[0]["length"] == pytest.approx(99.06)


@pytest.mark.parametrize("names", [("a", "b"), ("b", "a")])
def test_one_new_row_in_two_units_is_one_row_as_the_base_writes_it(names: tuple[str, str]) -> None:
    metric = edited(BASE, names[1], tanks=[*tanks(BASE), {"tank": "Bow", "length": 80}])
    merged = merge(BASE, [us(names[0], 31.5, "Bow"), metric], TABLES)  # 31.496 in
    assert (tanks(merged.content)[1], merged.conflicts) == ({"tank": "Bow", "length": 80}, ())


def test_through_a_chain_of_hand_outs_nothing_is_an_edit_that_looks_the_same() -> None:
    """Taken from an earlier hand-out in inches, of which the base says the same in centimetres."""
    own = us("own", 39.4)
    assert merge(BASE, [rebased(HandOut(BASE, own, TABLES), us("late", 39.4))], TABLES).content == BASE
    moved = edited(BASE, "now", tanks=[{"tank": "Long", "length": 60}])
    back = merge(moved, [rebased(HandOut(moved, BASE, TABLES), us("late", 39.4))], TABLES)
    assert (tanks(back.content)[0]["length"], back.conflicts) == (60, ())
    same = merge(moved, [rebased(HandOut(moved, BASE, TABLES), us("late", 23.6))], TABLES)  # 23.62 in
    assert (tanks(same.content)[0]["length"], same.conflicts) == (60, ())
