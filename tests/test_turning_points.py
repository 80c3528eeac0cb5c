"""Where a decision turns: limits and their tolerance, day or month, equal or not, and which copy comes first."""

import datetime
import itertools
from dataclasses import replace

import pytest

from tests.made_up import TABLES, content, edited
from workbook.copies.content import AddedSheet, Content, Entry
from workbook.copies.identity import plain
from workbook.copies.merging import merge
from workbook.copies.values import understood
from workbook.tables.kinds import Kind, count, date, number
from workbook.tables.units import US

EPOCH = datetime.date(1899, 12, 30)
LENGTH, INCHES = number(2, 1000), US["cm"]
# Days as office programs count them from 1899-12-30: 70 years with 17 leap days and 2 days make 25569; 181 years with 44 leap days later it is 2151.
FIRST, LAST = 25569, 91677


# --- the ends of a range ---


@pytest.mark.parametrize(
    ("held", "kind", "value"),
    [
        (2, LENGTH, 2),
        (1000, LENGTH, 1000),
        (1000.0, LENGTH, 1000),
        ("1000 cm", LENGTH, 1000),
        (1, count(1, 5), 1),
        (5, count(1, 5), 5),
        (-430, number(-430, 6000), -430),
    ],
)
def test_both_ends_of_a_range_belong_to_it(held: float | str, kind: Kind, value: float) -> None:
    assert understood(held, kind, "cm", None, EPOCH) == value


@pytest.mark.parametrize(
    ("held", "kind"),
    [(1.9999999, LENGTH), (1000.0001, LENGTH), (0, count(1, 5)), (6, count(1, 5)), (-430.5, number(-430, 6000))],
)
def test_what_lies_beyond_an_end_is_no_value(held: float, kind: Kind) -> None:
    with pytest.raises(ValueError, match=r"\d"):
        understood(held, kind, "cm", None, EPOCH)


@pytest.mark.parametrize(("inches", "centimetres"), [
    (0.7874015748, 2), (0.787401574803, 2), (0.7874015, None), (0.78, None),
    (393.700787402, 1000), (393.7007876, 1000), (393.701, None), (393.70079, None), (39.3700787402, 100),
])  # fmt: skip
def test_a_limit_in_inches_may_be_missed_by_rounding_only(inches: float, centimetres: float | None) -> None:
    """2 cm are 0.78740157... in, 1000 cm 393.70078740... in: a cell shows fewer digits, and people type what it shows."""
    if centimetres is None:
        with pytest.raises(ValueError, match=r"\d"):
            understood(inches, LENGTH, "cm", INCHES, EPOCH)
    else:
        assert understood(inches, LENGTH, "cm", INCHES, EPOCH) == centimetres


@pytest.mark.parametrize(("held", "day"), [
    (FIRST, "1970-01-01"), (LAST, "2150-12-31"), (LAST + 0.5, "2150-12-31"), ("1970-01-01", "1970-01-01"), ("31.12.2150", "2150-12-31"),
    (FIRST - 1, None), (LAST + 1, None), ("1969-12-31", None), ("1.1.2151", None),
])  # fmt: skip
def test_the_first_and_the_last_day_that_a_cell_takes(held: float | str, day: str | None) -> None:
    assert datetime.date(1970, 1, 1) - EPOCH == datetime.timedelta(FIRST)
    assert datetime.date(2150, 12, 31) - EPOCH == datetime.timedelta(LAST)
    if day is None:
        with pytest.raises(ValueError, match=r"\d"):
            understood(held, date(), "date", None, EPOCH)
    else:
        assert understood(held, date(), "date", None, EPOCH) == datetime.date.fromisoformat(day)


# --- day or month ---


@pytest.mark.parametrize(("text", "day"), [
    # No month is above 12, so the other number is the month.
    ("13/12/2026", (12, 13)), ("12/13/2026", (12, 13)), ("13-1-2026", (1, 13)), ("1/13/2026", (1, 13)), ("31/12/2026", (12, 31)),
    # Alike whichever is which.
    ("12/12/2026", (12, 12)), ("1/1/2026", (1, 1)),
    # With dots the day stands first everywhere.
    ("11.12.2026", (12, 11)), ("12.11.2026", (11, 12)), ("1.2.2026", (2, 1)),
    # Two days, or none.
    ("11/12/2026", None), ("12/11/2026", None), ("12-1-2026", None), ("13/13/2026", None), ("12.13.2026", None),
])  # fmt: skip
def test_day_or_month(text: str, day: tuple[int, int] | None) -> None:
    if day is None:
        with pytest.raises(ValueError, match=r"\d|month"):
            understood(text, date(), "date", None, EPOCH)
    else:
        assert understood(text, date(), "date", None, EPOCH) == datetime.date(2026, *day)


# --- equal or not ---


@pytest.mark.parametrize(("one", "other", "equal"), [
    (20, 20.0, True), (0.1 + 0.2, 0.3, True), (0.0, -0.0, True),
    # What goes to inches and back is off in the thirteenth digit; what a person types differs in the tenth at the latest.
    (91.44, 36 * 2.54000000001, True), (1.234567891, 1.2345678911, True), (1.234567891, 1.234567892, False),
    (12345.67891, 12345.67892, False), (12345.67891, 12345.678911, True), (0.0001234567891, 0.0001234567892, False), (1, 2, False),
])  # fmt: skip
def test_numbers_are_equal_to_ten_digits(one: float, other: float, equal: bool) -> None:
    assert (plain(one) == plain(other)) is equal
    if one != round(one, 4):  # what a conversion leaves behind: told alike as it is shown, tests/test_alike.py
        return
    base = content(tanks=[{"tank": "Long", "length": one}])
    merged = merge(
        base, [edited(base, n, tanks=[{"tank": "Long", "length": x}]) for n, x in (("a", one), ("b", other))], TABLES
    )
    assert merged.content.tables["tanks"][0].values["length"] == (one if equal else other)
    both = [edited(content(), n, tanks=[{"tank": "New", "length": x}]) for n, x in (("a", one), ("b", other))]
    assert (merge(content(), both, TABLES).conflicts == ()) is equal


# --- which copy comes first ---


def in_every_order(copies: list[Content], base: Content) -> list[Content]:
    """What becomes of the copies, whichever is told first."""
    return [merge(base, list(some), TABLES).content for some in itertools.permutations(copies)]


def test_added_rows_follow_the_base_by_the_names_of_copies_and_as_they_were_typed() -> None:
    base = content(tanks=[{"tank": "Old"}])
    anna = edited(base, "anna.xlsx", tanks=[{"tank": "Old"}, {"tank": "Zed"}, {"tank": "Bow"}])
    ben = edited(base, "ben.xlsx", tanks=[{"tank": "Cube"}, {"tank": "Old"}, {"tank": "Ark"}])
    for found in in_every_order([anna, ben], base):
        assert [row.values["tank"] for row in found.tables["tanks"]] == ["Old", "Zed", "Bow", "Cube", "Ark"]


def test_added_events_follow_one_another_by_day_then_by_the_names_of_copies() -> None:
    def read(day: int, nitrate: int) -> dict[str, object]:
        return {"tank": "Long", "date": datetime.date(2026, 1, day), "nitrate": nitrate}

    base = content(log=[read(5, 1)])
    anna = edited(base, "anna.xlsx", log=[read(5, 1), read(9, 2), read(7, 3)])
    ben = edited(base, "ben.xlsx", log=[read(5, 1), read(8, 4), read(7, 5), read(2, 6)])
    for found in in_every_order([ben, anna], base):
        assert [row.values["nitrate"] for row in found.tables["log"]] == [1, 6, 3, 5, 4, 2]


def test_an_event_counts_as_often_as_the_copy_that_has_it_most_often() -> None:
    event = {"tank": "Long", "date": datetime.date(2026, 1, 2), "nitrate": 10}
    base = content()
    often = [edited(base, name, log=[event] * times) for name, times in (("a", 1), ("b", 3), ("c", 2))]
    for found in in_every_order(often, base):
        assert [row.values for row in found.tables["log"]] == [event] * 3


def test_of_two_equal_additions_that_of_the_first_name_is_kept() -> None:
    """Capitals of a link do not count, so both are one; what is written is one of them whatever the order."""
    base = content(tanks=[{"tank": "Long"}])
    added = [
        edited(base, name, livestock=[Entry({"tank": tank, "species": "x"}, notes=notes)])
        for name, tank, notes in (("b", "LONG", {}), ("a", "long", {}), ("c", "Long", {}))
    ]
    for found in in_every_order(added, base):
        assert [row.values for row in found.tables["livestock"]] == [{"tank": "long", "species": "x"}]


# --- columns and sheets of people's own ---


def with_columns(found: Content, *headers: str) -> Content:
    """With columns of people's own beside Tanks."""
    return replace(found, added_columns={"tanks": headers})


def test_a_column_that_one_copy_dropped_stays_only_while_something_stands_in_it() -> None:
    base = with_columns(content(tanks=[{"tank": "Long"}]), "shelf", "who")
    dropped, kept = with_columns(replace(base, name="a"), "who"), replace(base, name="b")
    assert merge(base, [dropped, kept], TABLES).content.added_columns == {"tanks": ("who",)}
    used = with_columns(edited(base, "b", tanks=[Entry({"tank": "Long"}, added={"shelf": 2})]), "shelf", "who")
    assert merge(base, [dropped, used], TABLES).content.added_columns == {"tanks": ("shelf", "who")}
    without = replace(
        base, name="c", tables={k: rows for k, rows in base.tables.items() if k != "tanks"}, added_columns={}
    )
    assert merge(base, [without, kept], TABLES).content.added_columns == {"tanks": ("shelf", "who")}


def test_columns_that_only_some_copies_added_stand_behind_those_of_the_base_in_order_of_letters() -> None:
    base = with_columns(content(tanks=[{"tank": "Long"}]), "who")
    a = with_columns(edited(base, "a", tanks=[Entry({"tank": "Long"}, added={"zeta": 1})]), "who", "zeta")
    b = with_columns(edited(base, "b", tanks=[Entry({"tank": "Long"}, added={"alpha": 2})]), "alpha", "who")
    for found in in_every_order([a, b, replace(base, name="c")], base):
        assert found.added_columns == {"tanks": ("who", "alpha", "zeta")}
        assert found.tables["tanks"][0].added == {"zeta": 1, "alpha": 2}


def with_sheets(found: Content, name: str, **sheets: str) -> Content:
    """With sheets of people's own that hold one word each."""
    return replace(found, name=name, added_sheets=tuple(AddedSheet(t, {(1, 1): word}) for t, word in sheets.items()))


def told(found: Content) -> dict[str, object]:
    """Title and word of each."""
    return {sheet.title: sheet.cells[1, 1] for sheet in found.added_sheets}


def test_versions_of_a_sheet_get_titles_that_no_other_sheet_has() -> None:
    base = with_sheets(content(), "base", Mine="old", **{"Mine (a)": "another sheet", "MINE (B)": "a third"})
    others = {"Mine (a)": "another sheet", "MINE (B)": "a third"}
    copies = [with_sheets(base, name, Mine=name, **others) for name in ("a.xlsx", "b.xlsx")]
    for found in in_every_order(copies, base):
        assert told(found) == {"Mine": "old", **others, "Mine (a 2)": "a.xlsx", "Mine (b 2)": "b.xlsx"}


def test_two_copies_that_each_added_a_sheet_of_one_title_keep_both() -> None:
    copies = [with_sheets(content(), "a", Ideas="one"), with_sheets(content(), "b", IDEAS="two")]
    for found in in_every_order(copies, content()):
        assert sorted(told(found).values()) == ["one", "two"]
        assert len({title.casefold() for title in told(found)}) == 2
    same = [with_sheets(content(), "a", Ideas="one"), with_sheets(content(), "b", IDEAS="one")]
    assert list(told(merge(content(), same, TABLES).content).values()) == ["one"]


def test_titles_stay_as_short_as_office_programs_want_them() -> None:
    """31 letters at most, and no two alike where only the end of the copies' names differs."""
    long = "A list of everything to be done"
    assert len(long) == 31
    base = with_sheets(content(), "base", **{long: "old"})
    copies = [with_sheets(base, f"list of anna no {n}.xlsx", **{long: str(n)}) for n in (1, 2, 3)]
    found = told(merge(base, copies, TABLES).content)
    assert sorted(found.values()) == ["1", "2", "3", "old"]
    assert all(len(title) <= 31 for title in found)
