"""Copies become one: nothing typed is lost, the order of copies does not matter, decisions settle what they name."""

import datetime
from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from typer.testing import CliRunner

from tests import books, office
from tests.effort import examples
from tests.made_up import TABLES, TANKS, content, edited, families, shuffled
from workbook.cli import app
from workbook.copies import conflicts
from workbook.copies.checking import check
from workbook.copies.comparing import compare
from workbook.copies.conflicts import ROW, SHEET, Conflict
from workbook.copies.content import AddedSheet, Content, Entry, Place
from workbook.copies.deciding import settle
from workbook.copies.identity import Line, Rows, Spot, declared, folded, renames, with_links
from workbook.copies.merging import Merged, merge
from workbook.copies.reading import read_copy
from workbook.tables.kinds import Value

RANDOM = settings(
    deadline=None,
    max_examples=examples(40, 150),
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
TANK = {"tank": "Long", "length": 120, "place": "Hall"}


def sides(conflict: Conflict) -> dict[str, object]:
    """Who holds what."""
    return {side.whose: side.held for side in conflict.sides}


def decide(found: Content, conflict: Conflict, text: str) -> Content:
    """The workbook with a decision typed in the last line of a conflict."""
    rows = list(found.tables["conflicts"])
    mine = [at for at, row in enumerate(rows) if conflicts.read([row])[0].place == conflict.place]
    rows[mine[-1]] = replace(rows[mine[-1]], values=rows[mine[-1]].values | {"decision": text})
    return replace(found, tables=found.tables | {"conflicts": tuple(rows)})


# --- by hand ---


def test_edits_of_different_cells_join() -> None:
    base = content(tanks=[TANK])
    a = edited(base, "a.xlsx", tanks=[TANK | {"length": 100}])
    b = edited(base, "b.xlsx", tanks=[{"tank": "Long", "length": 120}, {"tank": "Bow"}])
    merged = merge(base, [a, b], TABLES)
    assert [row.values for row in merged.content.tables["tanks"]] == [{"tank": "Long", "length": 100}, {"tank": "Bow"}]
    assert merged.conflicts == ()


def test_the_same_edit_twice_is_one() -> None:
    base = content(tanks=[TANK])
    both = [
        edited(base, name, tanks=[TANK | {"length": typed}, {"tank": "Bow"}])
        for name, typed in (("a", 100), ("b", 100.0))
    ]
    merged = merge(base, both, TABLES)
    assert [row.values for row in merged.content.tables["tanks"]] == [TANK | {"length": 100}, {"tank": "Bow"}]
    assert merged.conflicts == ()


def test_a_cell_of_an_added_row_is_named_where_its_copy_has_it() -> None:
    """Rows that copies added stand below everything while they are joined; people find them in their own file."""
    base = content(tanks=[TANK])
    places = {key: Place("Tanks", f"{letter}23") for key, letter in (("tank", "A"), ("length", "F"))}
    row = Entry({"tank": "Bow"}, places=places, unread={"length": "about 60"})
    merged = merge(base, [edited(base, "anna.xlsx", tanks=[TANK, row])], TABLES)
    assert merged.content.tables["tanks"][1].where("length") == "Tanks!F23 in anna.xlsx"


def unread_in_both(row: dict[str, Value], *before: dict[str, Value]) -> Merged:
    """Two copies in which one cell can't be read, each in a row of its own file."""
    base = content(tanks=[*before])
    copies = []
    for name, number in (("anna.xlsx", 23), ("ben.ods", 31)):
        places = {key: Place("Tanks", f"{letter}{number}") for key, letter in (("tank", "A"), ("length", "F"))}
        entry = Entry(row, places=places, unread={"length": f"about {number}"})
        copies.append(edited(base, name, tanks=[entry]))
    return merge(base, copies, TABLES)


@pytest.mark.parametrize("before", [[TANK], []])
def test_a_version_that_was_chosen_is_named_where_it_was_typed(before: list[dict[str, Value]]) -> None:
    """Of an edited row and of a new one, also once the sheet was written and read again as plain text."""
    merged = unread_in_both({"tank": "Long", "place": "Hall"}, *before)
    [conflict] = merged.conflicts
    assert [side.where.partition("!")[2][-14:] for side in conflict.sides if side.where] == [
        f"{'F' if before else 'A'}23 in anna.xlsx"[-14:],
        f"{'F' if before else 'A'}31 in ben.ods"[-14:],
    ]
    rows = [Entry({key: str(value) for key, value in e.values.items()}) for e in merged.content.tables["conflicts"]]
    again = replace(merged.content, tables=merged.content.tables | {"conflicts": tuple(rows)})
    done = settle(decide(again, conflict, "ben"), TABLES)
    assert done.tables["tanks"][0].unread == {"length": "about 31"}
    assert done.tables["tanks"][0].where("length") == "Tanks!F31 in ben.ods"


def test_different_edits_keep_all_sides_and_the_table_holds_the_base() -> None:
    base = content(tanks=[TANK])
    three = [edited(base, n, tanks=[TANK | {"length": x}]) for n, x in (("a", 100), ("b", 90), ("c", 100))]
    merged = merge(base, three, TABLES)
    assert merged.content.tables["tanks"] == base.tables["tanks"]
    [conflict] = merged.conflicts
    assert (conflict.table, conflict.row_words, conflict.spot.name, conflict.base) == ("tanks", "Long", "length", 120)
    assert sides(conflict) == {"a, c": 100, "b": 90}


def test_removing_against_editing_keeps_the_row_with_its_edits() -> None:
    base = content(tanks=[TANK])
    merged = merge(base, [edited(base, "a", tanks=[]), edited(base, "b", tanks=[TANK | {"length": 90}])], TABLES)
    assert [row.values["length"] for row in merged.content.tables["tanks"]] == [90]
    [conflict] = merged.conflicts
    assert conflict.spot == ROW
    assert sides(conflict) == {"a": "remove", "b": "keep"}
    assert settle(decide(merged.content, conflict, "removed"), TABLES).tables["tanks"] == ()
    assert settle(decide(merged.content, conflict, "a"), TABLES).tables["tanks"] == ()
    kept = settle(decide(merged.content, conflict, "b"), TABLES)
    assert [row.values["length"] for row in kept.tables["tanks"]] == [90]
    assert "conflicts" not in kept.tables


def test_removed_here_and_untouched_there_is_removed() -> None:
    base = content(tanks=[TANK])
    assert merge(base, [edited(base, "a", tanks=[]), replace(base, name="b")], TABLES).content.tables["tanks"] == ()


def new_in_both() -> Merged:
    """Two copies gave one name to a new tank each; both stand in the hall."""
    base = content()
    a = edited(base, "a", tanks=[{"tank": "New", "length": 60, "place": "Hall", "lid": "yes"}])
    b = edited(base, "b", tanks=[{"tank": "New", "length": 80, "place": "Hall"}])
    return merge(base, [b, a], TABLES)


def test_one_name_for_two_new_rows_is_one_point_to_decide() -> None:
    merged = new_in_both()
    assert [row.values for row in merged.content.tables["tanks"]] == [{"tank": "New", "place": "Hall"}]
    assert [conflicts.said(c, TANKS, "metric") for c in merged.conflicts] == [
        "Tanks, New, the new row: base: none; a: Length 60 cm, Lid yes; b: Length 80 cm, Lid (blank); or keep both"
    ]


def test_a_new_row_keeps_its_name_however_copies_write_its_letters() -> None:
    base = content()
    rows = [
        ("a", {"tank": "Long", "length": 60}),
        ("b", {"tank": "long", "length": 80}),
        ("c", {"tank": "LONG", "length": 60}),
    ]
    merged = merge(base, [edited(base, name, tanks=[row]) for name, row in rows], TABLES)
    assert [row.values for row in merged.content.tables["tanks"]] == [{"tank": "Long"}]
    [conflict] = merged.conflicts
    assert conflicts.said(conflict, TANKS, "metric") == (
        "Tanks, Long, the new row: base: none; a, c: Length 60 cm; b: Length 80 cm; or keep both"
    )
    alone = merge(base, [edited(base, name, tanks=[row]) for name, row in rows if name != "b"], TABLES)
    assert alone.conflicts == ()


@pytest.mark.parametrize(
    ("answer", "left"),
    [
        ("a", [{"tank": "New", "place": "Hall", "length": 60, "lid": "yes"}]),
        ("Length 80 cm, Lid (blank)", [{"tank": "New", "place": "Hall", "length": 80}]),
        ("base", [{"tank": "New", "place": "Hall"}]),
        *(
            (
                words,
                [
                    {"tank": "New", "place": "Hall", "length": 60, "lid": "yes"},
                    {"tank": "New (2)", "place": "Hall", "length": 80},
                ],
            )
            for words in ("keep both", "Both", "take")
        ),
    ],
)
def test_either_new_row_may_be_kept_or_both(answer: str, left: list[dict[str, Value]]) -> None:
    """The second gets a name of its own, and the sheet Kept aside tells of it."""
    merged = new_in_both()
    done = settle(decide(merged.content, merged.conflicts[0], answer), TABLES)
    assert [row.values for row in done.tables["tanks"]] == left
    assert "conflicts" not in done.tables
    assert [(row, was) for _, row, _, was, _ in done.aside] == [("New (2)", "New")] * (len(left) - 1)


def test_two_readings_of_one_day_are_two_rows_and_one_typed_twice_is_one() -> None:
    day = {"tank": "Long", "date": datetime.date(2026, 1, 2)}
    base = content()
    a = edited(base, "a", log=[day | {"nitrate": 10}, day | {"nitrate": 30}])
    b = edited(base, "b", log=[day | {"nitrate": 20}, day | {"nitrate": 10.0}])
    merged = merge(base, [a, b], TABLES)
    assert sorted(row.values["nitrate"] for row in merged.content.tables["log"]) == [10, 20, 30]
    assert merged.conflicts == ()


def test_counts_that_add_up_merge_as_differences_from_the_base() -> None:
    base = content(goods=[{"item": "Net", "on_hand": 10}])
    sold = [
        edited(base, n, goods=[{"item": "Net", "on_hand": x}]) for n, x in (("a", 8), ("b", 8), ("c", 15), ("d", 10))
    ]
    merged = merge(base, sold, TABLES)
    assert [row.values["on_hand"] for row in merged.content.tables["goods"]] == [10 - 2 - 2 + 5]
    assert merged.conflicts == ()


def test_counts_that_would_fall_below_zero_or_lack_a_base_are_conflicts() -> None:
    for start in ({"on_hand": 10}, {}):
        base = content(goods=[{"item": "Net"} | start])
        sold = [edited(base, n, goods=[{"item": "Net", "on_hand": x}]) for n, x in (("a", 2), ("b", 3))]
        merged = merge(base, sold, TABLES)
        assert merged.content.tables["goods"] == base.tables["goods"]
        assert [sides(c) for c in merged.conflicts] == [{"a": 2, "b": 3}]


def test_links_follow_a_renamed_row_wherever_they_were_typed() -> None:
    fish = {"tank": "Long", "species": "x", "animals": 6}
    base = content(tanks=[TANK], livestock=[fish], waters=[{"water": "Tap", "ph": 7}])
    a = edited(base, "a", tanks=[TANK | {"tank": "Longest"}], livestock=[fish | {"tank": "Longest"}])
    b = edited(
        base, "b", tanks=[TANK | {"length": 90}], livestock=[fish | {"animals": 9}, {"tank": "long", "species": "y"}]
    )
    merged = merge(base, [a, b], TABLES)
    assert merged.conflicts == ()
    assert [row.values for row in merged.content.tables["tanks"]] == [TANK | {"tank": "Longest", "length": 90}]
    assert [row.values for row in merged.content.tables["livestock"]] == [
        fish | {"tank": "Longest", "animals": 9}, {"tank": "Longest", "species": "y"},
    ]  # fmt: skip


def test_a_row_that_points_to_a_renamed_row_may_be_renamed_itself() -> None:
    base = content(
        waters=[{"water": "Tap", "ph": 7}],
        tanks=[TANK | {"water": "Tap"}],
        livestock=[{"tank": "Long", "species": "x"}],
    )
    a = edited(base, "a", waters=[{"water": "Mains", "ph": 7}], tanks=[TANK | {"tank": "Hall 1", "water": "Mains"}])
    b = edited(base, "b", tanks=[TANK | {"water": "Tap", "length": 80}])
    merged = merge(base, [a, b], TABLES).content
    assert merged.tables["tanks"][0].values == {"tank": "Hall 1", "length": 80, "place": "Hall", "water": "Mains"}
    assert merged.tables["livestock"][0].values["tank"] == "Hall 1"


def test_a_new_name_that_another_copy_gave_to_another_row_is_a_conflict() -> None:
    base = content(tanks=[TANK], livestock=[{"tank": "Long", "species": "x"}])
    a = edited(base, "a", tanks=[TANK | {"tank": "Bow"}], livestock=[{"tank": "Bow", "species": "x"}])
    b = edited(base, "b", tanks=[TANK, {"tank": "Bow", "length": 30}])
    merged = merge(base, [a, b], TABLES)
    assert [row.values["tank"] for row in merged.content.tables["tanks"]] == ["Long", "Bow"]
    assert merged.content.tables["livestock"][0].values["tank"] == "Long"
    assert [(c.spot.name, sides(c)) for c in merged.conflicts] == [("tank", {"a": "Bow"})]


def test_two_names_for_one_row_are_a_conflict_and_links_follow_the_decision() -> None:
    base = content(tanks=[TANK], livestock=[{"tank": "Long", "species": "x", "animals": 3}])
    a = edited(base, "a", tanks=[TANK | {"tank": "East"}], livestock=[{"tank": "East", "species": "x", "animals": 4}])
    b = edited(base, "b", tanks=[TANK | {"tank": "West"}], livestock=[{"tank": "West", "species": "x", "animals": 5}])
    merged = merge(base, [a, b], TABLES)
    assert {c.spot.name: sides(c) for c in merged.conflicts} == {
        "tank": {"a": "East", "b": "West"},
        "animals": {"a": 4, "b": 5},
    }
    chosen = settle(decide(merged.content, merged.conflicts[0], "west"), TABLES)
    assert chosen.tables["tanks"][0].values["tank"] == "West"
    assert chosen.tables["livestock"][0].values == {"tank": "West", "species": "x", "animals": 3}
    [left] = conflicts.read(chosen.tables["conflicts"])
    assert left.row_words == "West: x"
    done = settle(decide(chosen, left, "5"), TABLES)
    assert done.tables["livestock"][0].values["animals"] == 5
    assert "conflicts" not in done.tables


def test_what_can_not_be_read_and_notes_and_added_columns_are_merged_like_all_else() -> None:
    base = content(tanks=[TANK])
    a = edited(base, "a", tanks=[Entry(TANK, unread={"lid": "=1+1"}, notes={"tank": "leaks"}, added={"shelf": 1})])
    b = edited(base, "b", tanks=[Entry(TANK, unread={"lid": "maybe"}, added={"shelf": 2, "who": "Bo"})])
    merged = merge(
        base,
        [replace(a, added_columns={"tanks": ("shelf",)}), replace(b, added_columns={"tanks": ("shelf", "who")})],
        TABLES,
    )
    [row] = merged.content.tables["tanks"]
    assert (row.notes, row.added) == ({"tank": "leaks"}, {"who": "Bo"})
    assert merged.content.added_columns == {"tanks": ("shelf", "who")}
    assert len(merged.conflicts) == 2
    for conflict in merged.conflicts:
        merged = Merged(decide(merged.content, conflict, "a"), ())
    assert settle(merged.content, TABLES).tables["tanks"] == (
        replace(a.tables["tanks"][0], added={"who": "Bo", "shelf": 1}),
    )


def test_an_added_sheet_edited_in_two_ways_stays_in_both() -> None:
    base = replace(content(), added_sheets=(AddedSheet("Mine", {(1, 1): "old"}),))
    a, b, c = (replace(base, name=n, added_sheets=(AddedSheet("Mine", {(1, 1): n}),)) for n in ("a", "b", "c"))
    merged = merge(base, [a, b, replace(c, added_sheets=())], TABLES)
    assert {s.title: s.cells[1, 1] for s in merged.content.added_sheets} == {
        "Mine": "old",
        "Mine (a)": "a",
        "Mine (b)": "b",
    }
    [conflict] = merged.conflicts
    assert conflict.spot == SHEET
    for answer, left in (("b", {"Mine": "b"}), ("base", {"Mine": "old"}), ("c", {})):
        done = settle(decide(merged.content, conflict, answer), TABLES)
        assert {s.title: s.cells[1, 1] for s in done.added_sheets} == left
    assert merge(base, [a, replace(base, name="b")], TABLES).content.added_sheets == a.added_sheets


@pytest.mark.parametrize(("answer", "length"), [
    ("base", 120), ("120", 120), ("120 cm", 120), ("a", 100), ("ANNA B", 90), ("anna b.xlsx", 90), ("90", 90), ("100 cm", 100),
    ("100.0", 100), ("take", 90), ("", None), ("nobody", None), ("95", None),
])  # fmt: skip
def test_a_decision_names_the_value_the_base_or_a_copy(answer: str, length: float | None) -> None:
    base = content(tanks=[TANK])
    merged = merge(
        base, [edited(base, n, tanks=[TANK | {"length": x}]) for n, x in (("a", 100), ("Anna B.xlsx", 90))], TABLES
    )
    [conflict] = merged.conflicts
    done = settle(decide(merged.content, conflict, answer), TABLES)
    wanted = conflict.sides[-1].held if answer == "take" else length
    assert ("conflicts" in done.tables) == (wanted is None)
    assert done.tables["tanks"][0].values["length"] == (wanted or 120)


def test_a_decision_in_us_units_names_what_people_see() -> None:
    base = replace(content(tanks=[TANK]), units="us")
    merged = merge(
        base, [edited(base, n, tanks=[TANK | {"length": x * 2.54}]) for n, x in (("a", 24), ("b", 36))], TABLES
    )
    done = settle(decide(merged.content, merged.conflicts[0], "36"), TABLES)
    assert done.tables["tanks"][0].values["length"] == pytest.approx(36 * 2.54, rel=1e-12)


def test_two_decisions_that_differ_settle_nothing_and_are_kept() -> None:
    base = content(tanks=[TANK])
    merged = merge(
        base, [edited(base, n, tanks=[TANK | {"length": x}]) for n, x in (("a", 100), ("b", 90))], TABLES
    ).content
    rows = [replace(row, values=row.values | {"decision": "take"}) for row in merged.tables["conflicts"]]
    twice = replace(merged, tables=merged.tables | {"conflicts": tuple(rows)})
    assert settle(twice, TABLES) == twice


@pytest.mark.parametrize(
    ("answers", "why"),
    [
        (["", "95"], "the decision '95' names no version; type another value into the table itself, and base here"),
        (["take", "90"], "the decisions 'take' and '90' differ"),
        (["", ""], ""),
    ],
)
def test_a_decision_in_vain_is_told(answers: list[str], why: str) -> None:
    base = content(tanks=[TANK])
    merged = merge(base, [edited(base, n, tanks=[TANK | {"length": x}]) for n, x in (("a", 100), ("b", 90))], TABLES)
    rows = list(merged.content.tables["conflicts"])
    for at, answer in enumerate(answers):
        rows[at] = replace(rows[at], values=rows[at].values | {"decision": answer})
    [left] = conflicts.read(
        settle(replace(merged.content, tables={"conflicts": tuple(rows)}), TABLES).tables["conflicts"]
    )
    assert conflicts.undecided(left, TANKS) == (f"still to decide: Tanks, Long, Length: {why}" if why else "")
    versions = "Tanks, Long, Length: base: 120 cm; a: 100 cm; b: 90 cm"
    assert conflicts.said(left, TANKS, "metric") == versions + (f" ({why})" if why else "")


def test_decisions_come_back_in_copies_of_the_merged_workbook() -> None:
    base = content(tanks=[TANK])
    first = merge(base, [edited(base, n, tanks=[TANK | {"length": x}]) for n, x in (("a", 100), ("b", 90))], TABLES)
    mine = replace(decide(first.content, first.conflicts[0], "a"), name="mine")
    second = merge(first.content, [mine, replace(first.content, name="yours")], (*TABLES,))
    assert second.content.tables["tanks"][0].values["length"] == 100
    assert second.conflicts == ()


def test_an_earlier_outcome_brings_its_decisions() -> None:
    base = content(tanks=[TANK])
    both = [edited(base, n, tanks=[TANK | {"length": x}]) for n, x in (("a", 100), ("b", 90))]
    first = merge(base, both, TABLES)
    typed = decide(first.content, first.conflicts[0], "b").tables["conflicts"]
    again = merge(base, both, TABLES, typed)
    assert (first.decided, again.decided) == (0, 1)
    assert again.content.tables["tanks"][0].values["length"] == 90
    assert again.conflicts == ()


def test_each_copy_needs_a_name_of_its_own() -> None:
    with pytest.raises(ValueError, match="name of its own"):
        merge(content(), [content("a"), content("a")], TABLES)


# --- of any workbooks ---


def held(found: Content) -> Counter[tuple[str, Spot, tuple[str, str]]]:
    """Every cell of every table, as it compares."""
    known = declared(TABLES, found)
    return Counter((key, spot, told) for key, rows in found.tables.items() if key != "conflicts"
                   for row in Rows(known[key], rows).plain for spot, told in row.items())  # fmt: skip


def in_conflicts(found: tuple[Conflict, ...]) -> set[tuple[str, Spot, tuple[str, str]]]:
    """Every version that is listed."""
    known = {t.key: Rows(t, []) for t in TABLES}
    return {(c.table, spot, known[c.table].plain_of(spot, held)) for c in found if c.table for side in c.sides
            for spot, held in (side.held.cells if isinstance(side.held, Line) else [(c.spot, side.held)])}  # fmt: skip


@RANDOM
@given(families(), st.integers(0, 99))
def test_the_order_of_copies_does_not_matter(family: tuple[Content, list[Content]], seed: int) -> None:
    base, found = family
    assert merge(base, found, TABLES) == merge(base, shuffled(found, seed), TABLES)


def mended(base: Content, copy: Content) -> Content:
    """The copy with links that it left at a name of the base following to what it calls that row now."""
    now = {
        key: {folded(old): next(n for n in _names(copy, key) if folded(n) == new) for new, old in pairs.items()}
        for key, pairs in renames(base, copy, TABLES).items()
    }
    left = {
        key: {old: new for old, new in to.items() if old not in map(folded, _names(copy, key))}
        for key, to in now.items()
    }
    tables = {t.key: tuple(with_links(t, copy.tables[t.key], left)) for t in TABLES if t.key in copy.tables}
    return replace(copy, tables=copy.tables | tables)


def _names(content: Content, key: str) -> list[str]:
    column = next(t.row_name[0] for t in TABLES if t.key == key)
    return [str(e.values[column]) for e in content.tables.get(key, ()) if column in e.values]


@RANDOM
@given(families(most=1))
def test_merging_with_itself_changes_nothing(family: tuple[Content, list[Content]]) -> None:
    base, [copy] = family
    same = merge(base, [replace(base, name=name) for name in ("a", "b")], TABLES)
    assert same == Merged(base, ())
    only = merge(base, [copy], TABLES)
    assert only.conflicts == ()
    assert compare(only.content, mended(base, copy), TABLES) == []
    with_base = merge(base, [copy, replace(base, name="untouched")], TABLES)
    assert with_base == only


@RANDOM
@given(families())
def test_nothing_typed_is_lost(family: tuple[Content, list[Content]]) -> None:
    base, found = family
    merged = merge(base, found, TABLES)
    there = set(held(merged.content)) | in_conflicts(merged.conflicts)
    names = {in_any_letters(told) for _, spot, told in there}
    for copy in found:
        for key, spot, told in held(copy) - held(base):
            # A name that was given up follows to the new one, in any letters one name; a count that adds up is in the sum.
            if spot.name == "on_hand" or (spot.name in {"tank", "water", "item"} and in_any_letters(told) in names):
                continue
            assert (key, spot, told) in there or _renamed_away(merged, spot, told)


def in_any_letters(told: tuple[str, str]) -> tuple[str, str]:
    """What a cell tells, capital letters or not."""
    kind, words = told
    return kind, words.casefold()


def _renamed_away(merged: Merged, spot: Spot, told: tuple[str, str]) -> bool:
    """Whether it is a link to a row that another copy named otherwise."""
    return spot.name in {"tank", "water"} and told not in {t for _, s, t in held(merged.content) if s.name == spot.name}


@RANDOM
@given(families(), st.data())
def test_a_decision_settles_its_conflict_and_only_it(
    family: tuple[Content, list[Content]], data: st.DataObject
) -> None:
    base, found = family
    merged = merge(base, found, TABLES)
    cells = [c for c in merged.conflicts if c.spot != ROW]
    if not cells:
        return
    conflict = data.draw(st.sampled_from(cells))
    at = data.draw(st.integers(0, len(conflict.sides)))
    rows = list(merged.content.tables["conflicts"])
    mine = [i for i, row in enumerate(rows) if conflicts.read([row])[0].place == conflict.place]
    rows[mine[at]] = replace(rows[mine[at]], values=rows[mine[at]].values | {"decision": "take"})
    typed = replace(merged.content, tables=merged.content.tables | {"conflicts": tuple(rows)})
    done = settle(typed, TABLES)
    left = conflicts.read(done.tables.get("conflicts", ()))
    assert Counter((c.table, c.spot) for c in left) == Counter((c.table, c.spot) for c in merged.conflicts) - Counter([(conflict.table, conflict.spot)])  # fmt: skip
    changed = compare(merged.content, done, TABLES)
    assert all(
        change.table in {"conflicts", conflict.table, "livestock", "log", "tanks"} or conflict.spot == SHEET
        for change in changed
    )
    if conflict.spot != SHEET and at and conflict.table:
        side = conflict.sides[at - 1]
        lines = [side.held] if side.held != conflicts.BOTH else [each.held for each in conflict.sides]
        rows_of = Rows({t.key: t for t in TABLES}[conflict.table], [])
        now = held(done)
        chosen = [c for line in lines for c in (line.cells if isinstance(line, Line) else [(conflict.spot, line)])]
        for spot, one in chosen:
            renamed = spot.name in rows_of.table.row_name or one == conflicts.BOTH
            assert one is None or renamed or now[conflict.table, spot, rows_of.plain_of(spot, one)] >= 1


# --- of files ---


@pytest.fixture(scope="module")
def room() -> Path:
    """The small room as a workbook."""
    return books.room(whole=False)


def place(path: Path, name: str, row: int = 0) -> office.At:
    """The cell of a defined name, so many rows down."""
    sheet, top, left, *_ = office.areas(path)[name]
    return sheet, top + row, left


def test_merge_writes_one_workbook_and_its_decisions_are_carried_out_by_the_next_build(
    room: Path, tmp_path: Path
) -> None:
    length, rim = place(room, "tanks_length_cm"), place(room, "tanks_water_below_rim_cm", 1)
    anna = office.edited(room, tmp_path / "anna.xlsx", {length: 100.0, rim: 5.0})
    ben = office.edited(room, tmp_path / "ben.xlsx", {length: 90.0})
    cara = office.edited(room, tmp_path / "cara.xlsx", {length: 100.0})
    target, runner = tmp_path / "out" / "merged.xlsx", CliRunner()
    few = ["--spare-rows", "6"]
    words = ["merge", str(room), str(anna), str(ben), str(cara), "-o", str(target), *few]
    done = runner.invoke(app, words)
    assert done.exit_code == 1, done.output
    assert (
        "to decide: Tanks, Long, Length: base: 120 cm; anna.xlsx, cara.xlsx: 100 cm; ben.xlsx: 90 cm"
        in done.stdout.splitlines()
    )
    values = office.values(target)
    assert (values[place(target, "tanks_length_cm")], values[place(target, "tanks_water_below_rim_cm", 1)]) == (120, 5)
    says = [values[place(target, "conflicts_says", i)] for i in range(3)]
    assert says == ["120 cm", "100 cm", "90 cm"]
    assert check(target) == []
    # Decided in the last of its three lines, in words of a person's own.
    typed = office.edited(target, tmp_path / "decided.xlsx", {place(target, "conflicts_decision", 2): "Ben "})
    built = runner.invoke(app, ["build", str(typed), "-o", str(tmp_path / "built.xlsx"), *few])
    assert built.exit_code == 0, built.output
    assert "Conflicts: 1 decided and carried out" in built.stdout.splitlines()
    after = read_copy(tmp_path / "built.xlsx")
    assert after.tables["tanks"][0].values["length"] == 90
    assert "conflicts" not in after.tables
    # The same merge again honours what was decided in its outcome.
    typed.replace(target)
    again = runner.invoke(app, words)
    assert again.exit_code == 0, again.output
    assert read_copy(target).tables["tanks"][0].values["length"] == 90


def test_merge_refuses_to_write_over_what_was_typed_and_to_read_a_file_twice(room: Path, tmp_path: Path) -> None:
    runner = CliRunner()
    anna = office.edited(room, tmp_path / "anna.xlsx", {})
    before = anna.read_bytes()
    for words in (
        [room, anna, "-o", anna],
        [room, anna, anna, "-o", tmp_path / "x.xlsx"],
        [room, tmp_path / "no.xlsx", "-o", tmp_path / "x.xlsx"],
    ):
        assert runner.invoke(app, ["merge", *map(str, words)]).exit_code == 2
    assert anna.read_bytes() == before
    assert not (tmp_path / "x.xlsx").exists()
