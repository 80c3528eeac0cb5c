"""A copy of an earlier hand-out: what was typed in it since counts, nothing that happened meanwhile is undone or doubled."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings

from tests.made_up import TABLES, content, edited, families
from workbook.copies.comparing import compare
from workbook.copies.conflicts import LINES, ROW, Conflict
from workbook.copies.content import AddedSheet, Content, Entry, Place
from workbook.copies.identity import TYPED, Line, Rows, Spot
from workbook.copies.librarying import with_library
from workbook.copies.merging import merge
from workbook.copies.rebasing import HandOut, rebased
from workbook.editions import EDITIONS
from workbook.findings import BadInputError
from workbook.tables import Table, Typed, key, number, text
from workbook.tables.kinds import Value

RANDOM = settings(
    deadline=None, max_examples=30, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
NETS: dict[str, Value] = {"item": "Net", "on_hand": 20, "price": 5}
ON_HAND, PRICE = Spot(TYPED, "on_hand"), Spot(TYPED, "price")
FOOD: dict[str, Value] = {"item": "Flakes", "on_hand": 10, "price": 3}


def goods(found: Content) -> list[dict[str, Value]]:
    return [row.values for row in found.tables["goods"]]


def a_day_later() -> tuple[Content, Content]:
    """What was handed out in the morning, and what it became during the day: 20 nets are 17, one price another."""
    morning = content("morning.xlsx", goods=[NETS, FOOD])
    evening = edited(morning, "evening.xlsx", goods=[NETS | {"on_hand": 17, "price": 6}, FOOD])
    return morning, evening


def late(now: Content, then: Content, copy: Content) -> tuple[Content, tuple[Conflict, ...]]:
    merged = merge(now, [rebased(HandOut(now, then, TABLES), copy)], TABLES)
    return merged.content, merged.conflicts


def test_a_latecomer_undoes_nothing_and_counts() -> None:
    """Two nets that she sold go off those that are left now; the price that was decided meanwhile stays."""
    morning, evening = a_day_later()
    found, open_points = late(evening, morning, edited(morning, "late.xlsx", goods=[NETS | {"on_hand": 18}, FOOD]))
    assert goods(found) == [NETS | {"on_hand": 15, "price": 6}, FOOD]
    assert open_points == ()


def test_a_copy_in_which_nothing_was_typed_changes_nothing() -> None:
    morning, evening = a_day_later()
    assert late(evening, morning, replace(morning, name="late.xlsx")) == (evening, ())


def test_what_changed_on_both_sides_is_to_decide() -> None:
    """The table keeps what it says now, and the copy's version stands beside it."""
    morning, evening = a_day_later()
    found, [point] = late(evening, morning, edited(morning, "late.xlsx", goods=[NETS | {"price": 4.5}, FOOD]))
    assert goods(found) == goods(evening)
    assert (point.spot.name, point.base, [(side.held, side.names) for side in point.sides]) == (
        "price", 6, [(4.5, ("late.xlsx",))],
    )  # fmt: skip


def test_the_same_edit_on_both_sides_is_one() -> None:
    morning, evening = a_day_later()
    assert late(evening, morning, edited(morning, "late.xlsx", goods=[NETS | {"price": 6.0}, FOOD])) == (evening, ())


def test_a_row_that_was_added_meanwhile_is_not_taken_away() -> None:
    """Nor does one that both added alike come twice; where they differ, it is to decide."""
    morning, evening = a_day_later()
    hose: dict[str, Value] = {"item": "Hose", "on_hand": 3}
    evening = edited(evening, "evening.xlsx", goods=[*goods(evening), hose])
    assert late(evening, morning, replace(morning, name="late.xlsx")) == (evening, ())
    assert late(evening, morning, edited(morning, "late.xlsx", goods=[NETS, FOOD, hose])) == (evening, ())
    found, [point] = late(
        evening, morning, edited(morning, "late.xlsx", goods=[NETS, FOOD, hose | {"on_hand": 4, "price": 9}])
    )
    assert goods(found)[2] == hose
    assert [side.names for side in point.sides] == [("late.xlsx",), ("keep both",)]
    assert (point.spot, point.base) == (LINES, Line(((ON_HAND, 3), (PRICE, None))))


def test_a_row_that_was_removed_meanwhile_stays_removed() -> None:
    """Unless the copy changed it: then it comes back, to be decided."""
    morning = content("morning.xlsx", goods=[NETS, FOOD])
    evening = edited(morning, "evening.xlsx", goods=[NETS])
    assert late(evening, morning, replace(morning, name="late.xlsx")) == (evening, ())
    found, [point] = late(evening, morning, edited(morning, "late.xlsx", goods=[NETS, FOOD | {"price": 4}]))
    assert goods(found) == [NETS, FOOD | {"price": 4}]
    assert point.spot == ROW
    assert {side.whose: side.held for side in point.sides} == {"evening.xlsx": "remove", "late.xlsx": "keep"}


def test_a_row_that_the_copy_removed_goes_unless_it_was_changed_meanwhile() -> None:
    morning, evening = a_day_later()
    found, open_points = late(evening, morning, edited(morning, "late.xlsx", goods=[NETS]))
    assert (goods(found), open_points) == ([NETS | {"on_hand": 17, "price": 6}], ())
    found, [point] = late(evening, morning, edited(morning, "late.xlsx", goods=[FOOD]))
    assert goods(found) == goods(evening)
    assert {side.whose: side.held for side in point.sides} == {"late.xlsx": "remove", "evening.xlsx": "keep"}


def test_links_follow_a_name_that_changed_meanwhile() -> None:
    """The tank has another name now; the copy's new animals move in there."""
    morning = content("morning.xlsx", tanks=[{"tank": "Long", "length": 120}])
    evening = edited(morning, "evening.xlsx", tanks=[{"tank": "Left", "length": 120}])
    copy = edited(morning, "late.xlsx", livestock=[{"tank": "Long", "species": "x", "animals": 5}])
    found, open_points = late(evening, morning, copy)
    assert [row.values["tank"] for row in found.tables["tanks"]] == ["Left"]
    assert [row.values["tank"] for row in found.tables["livestock"]] == ["Left"]
    assert open_points == ()


def test_sheets_of_ones_own_that_both_changed_stay_both() -> None:
    def with_sheet(found: Content, name: str, words: str) -> Content:
        return replace(found, name=name, added_sheets=(AddedSheet("Mine", {(1, 1): words}),))

    morning = with_sheet(content(), "morning.xlsx", "a")
    evening, copy = with_sheet(morning, "evening.xlsx", "b"), with_sheet(morning, "late.xlsx", "c")
    assert late(evening, morning, replace(morning, name="late.xlsx"))[0].added_sheets == evening.added_sheets
    found, _ = late(evening, morning, copy)
    assert sorted((sheet.cells[1, 1] for sheet in found.added_sheets), key=str) == ["b", "c"]


LIBRARY = Table("species", "Species", "", ("species",), (
    Typed("species", "Species", key(), handed=True), Typed("club_length", "Length: club", number(0, 300), unit="cm", handed=True),
    Typed("own_length", "Length: own", number(0, 300), unit="cm"), Typed("own_note", "Own note", text()),
))  # fmt: skip


def library(name: str, *rows: dict[str, Value]) -> Content:
    return edited(content(name), name, species=list(rows))


def test_what_a_club_hands_out_is_never_taken_from_a_copy() -> None:
    """Whether the member changed it, removed it, or has last year's; the member's own values come along."""
    last_year = library("last year.xlsx", {"species": "Neon", "club_length": 4}, {"species": "Gone", "club_length": 9})
    this_year = library("club.xlsx", {"species": "Neon", "club_length": 3.5}, {"species": "New", "club_length": 6})
    member = library(
        "member.xlsx",
        {"species": "Neon", "club_length": 5, "own_length": 3},
        {"species": "Gone", "club_length": 9},
        {"species": "Mine", "club_length": 2},
    )
    tables = (*TABLES, LIBRARY)
    merged = merge(this_year, [rebased(HandOut(this_year, last_year, tables), member)], tables)
    assert [row.values for row in merged.content.tables["species"]] == [
        {"species": "Neon", "club_length": 3.5, "own_length": 3},
        {"species": "New", "club_length": 6},
        {"species": "Mine", "club_length": 2},
    ]
    assert merged.conflicts == ()
    typed_over = library("member.xlsx", {"species": "Neon", "club_length": 8})
    told = rebased(HandOut(this_year, this_year, tables), typed_over)
    assert merge(this_year, [told], tables).content == this_year
    assert told.kept == ("Species, Neon, Length: club",)
    # What the club itself changed since then is no change of the member's.
    assert rebased(HandOut(this_year, last_year, tables), replace(last_year, name="m")).kept == ()


@RANDOM
@given(families(most=1))
def test_a_copy_of_the_base_itself_is_taken_as_it_is(family: tuple[Content, list[Content]]) -> None:
    """Where nothing is handed out, rebasing on one's own base changes nothing that is typed."""
    base, [copy] = family
    told = rebased(HandOut(base, base, TABLES), copy)
    assert (told.both, told.gone, told.back) == (frozenset(), frozenset(), frozenset())
    assert merge(base, [told], TABLES) == merge(base, [copy], TABLES)


@RANDOM
@given(families(most=2))
def test_what_happened_meanwhile_stands(family: tuple[Content, list[Content]]) -> None:
    """A copy in which nothing was typed, taken before, changes nothing of what others typed since."""
    base, copies = family
    now = replace(merge(base, copies, TABLES).content, name="now.xlsx")
    found, open_points = late(now, base, replace(base, name="late.xlsx"))
    assert compare(now, found, TABLES) == []
    assert not {point.place for point in open_points} - {point.place for point in merge(base, copies, TABLES).conflicts}


@RANDOM
@given(families(most=2))
def test_a_latecomer_loses_nothing(family: tuple[Content, list[Content]]) -> None:
    """Every cell that was typed in a late copy stands in the outcome, or in what is to decide."""
    base, copies = family
    now, copy = replace(copies[0], name="now.xlsx"), copies[-1]
    told = rebased(HandOut(now, base, TABLES), copy)
    merged = merge(now, [told], TABLES)
    there = {
        plain
        for table in TABLES
        for row in Rows(table, merged.content.tables.get(table.key, ())).plain
        for plain in row.values()
    }
    there |= {
        Rows(table, ()).plain_of(spot, held)
        for table in TABLES
        for point in merged.conflicts
        for side in point.sides
        for spot, held in (side.held.cells if isinstance(side.held, Line) else [(point.spot, side.held)])
    }
    for table in TABLES:
        had = {plain for row in Rows(table, base.tables.get(table.key, ())).plain for plain in row.values()}
        for row in Rows(table, told.content.tables.get(table.key, ())).plain:
            for spot, plain in row.items():
                summed = any(c.adds_up for c in table.typed if c.key == spot.name)
                assert plain in there or plain in had or summed


def test_a_library_goes_under_a_members_file() -> None:
    """What the club says now, the member's own values beside it, and what is the member's alone; told row by row."""
    member = library(
        "member.xlsx",
        {"species": "Neon", "club_length": 4, "own_length": 3, "own_note": "calm"},
        {"species": "Mine", "club_length": 2},
    )
    club = library("club.xlsx", {"species": "New", "club_length": 6}, {"species": "neon", "club_length": 3.5})
    found, said = with_library(member, club, (*TABLES, LIBRARY))
    assert [row.values for row in found.tables["species"]] == [
        {"species": "New", "club_length": 6},
        {"species": "neon", "club_length": 3.5, "own_length": 3, "own_note": "calm"},
        {"species": "Mine", "club_length": 2},
    ]
    assert said == [
        "Species, New: new",
        "Species, neon: Species Neon, now neon; Length: club 4 cm, now 3.5 cm",
        "Species, Mine: not in the library, kept as your own",
    ]
    again, nothing = with_library(found, club, (*TABLES, LIBRARY))
    assert again.tables["species"] == found.tables["species"]
    assert nothing == ["Species, Mine: not in the library, kept as your own"]


def test_only_a_club_hands_out_a_library() -> None:
    with pytest.raises(BadInputError, match="only a club"):
        with_library(content(), content("other.xlsx"), TABLES)


def test_a_cell_that_an_edit_brought_names_its_own_file() -> None:
    """What can't be read in Anna's copy is kept aside with the cell of her file, far down or not, not with the base's."""
    table = next(t for t in EDITIONS["keeper"]().tables if t.key == "tanks")
    place = {"length": Place("Tanks", "F12"), "tank": Place("Tanks", "A12")}
    far = {"length": Place("Meine", "F1000000"), "tank": Place("Meine", "A1000000")}
    base = Content(
        "base.xlsx", "keeper", "metric", 1, {"tanks": (Entry({"tank": "Long", "length": 60.0}, places=place),)}
    )
    copy = replace(
        base, name="anna.xlsx", tables={"tanks": (Entry({"tank": "Long"}, places=far, unread={"length": "thick"}),)}
    )
    told = rebased(HandOut(base, base, [table]), copy)
    [row] = merge(base, [told], [table]).content.tables["tanks"]
    assert row.where("length") == "Meine!F1000000 in anna.xlsx"
    assert row.where("tank") == "Tanks!A12"
