"""Where copies come from: stamps, hand-outs that are looked for, copies sent twice, and what is told of each."""

import datetime
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from typer.testing import CliRunner

from tests import desk, office
from tests.effort import in_the_end
from tests.returned import place, small
from workbook.build import Plan, build
from workbook.cli import app
from workbook.copies.carrying import digest_of
from workbook.copies.content import Content, Entry
from workbook.copies.lineage import HandOuts, Lineage
from workbook.copies.reading import read_book, read_copy
from workbook.editions import EDITIONS, with_conflicts
from workbook.findings import BadInputError
from workbook.stamps import FORM, Stamp, stamp_of
from workbook.tables.kinds import Value

DAY = datetime.date(2026, 6, 1)
TABLES = with_conflicts("shop").tables
Edit = Callable[[Content, str, dict[str, Value]], Content]


@pytest.fixture(scope="module")
def morning(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What a small invented shop hands out: 20 nets, and neon tetras at 3."""
    folder = tmp_path_factory.mktemp("shop")
    build(small(folder / "shop", "shop", 3), folder / "morning.xlsx", Plan("shop", spare_rows=3, plan_date=DAY))
    return folder / "morning.xlsx"


@pytest.fixture(scope="module")
def handed(morning: Path) -> Content:
    return read_copy(morning)


def typed(content: Content, name: str, nets: dict[str, Value], who: str = "") -> Content:
    """A copy in which somebody typed in the line of nets."""
    net, *others = content.tables["stock"]
    rows = (replace(net, values=net.values | nets), *others)
    return replace(content, name=name, who=who, tables=content.tables | {"stock": rows})


def taken(base: Content, copies: list[Content], *also: Path) -> Lineage:
    lineage = Lineage(base, TABLES)
    lineage.take(copies, HandOuts(also))
    return lineage


def nets(content: Content) -> Value:
    return content.tables["stock"][0].values["on_hand"]


# --- stamps ---


def test_the_stamp_is_a_digest_of_what_is_typed(handed: Content) -> None:
    """Twelve digits; the same as long as nothing is typed, another one after."""
    assert FORM.fullmatch(handed.stamp.own)
    assert digest_of(handed) == handed.stamp.own
    assert digest_of(typed(handed, "copy", {"on_hand": 19})) != handed.stamp.own
    assert digest_of(typed(handed, "copy", {"on_hand": 20.0})) == handed.stamp.own


def test_the_stamp_is_the_same_in_other_units_and_with_more_rows(morning: Path, tmp_path: Path) -> None:
    """What was typed is the same; so a copy that was built anew is still known by what it was."""
    target = tmp_path / "us.xlsx"
    result = CliRunner().invoke(
        app,
        ["build", str(morning), "-o", str(target), "--units", "us", "--spare-rows", "5", "--plan-date", "2026-07-01"],
    )
    assert result.exit_code == 0
    assert read_copy(target).stamp == read_copy(morning).stamp


def test_what_a_sheet_is_set_to_show_and_whose_copy_it_is_are_no_part_of_it(handed: Content) -> None:
    named = Entry({"who": "Anna"})
    assert digest_of(replace(handed, tables=handed.tables | {"whose_copy": (named,)})) == handed.stamp.own


def test_a_stamp_counts_no_blank_rows_and_no_order_of_columns() -> None:
    """Digest by hand: blank rows and blank cells are as if they were not, 20 is 20.0."""
    tables = EDITIONS["shop"]().tables
    one: dict[str, list[dict[str, Value]]] = {"tanks": [{"tank": "A", "length": 60}]}
    other: dict[str, list[dict[str, Value]]] = {"tanks": [{"length": 60.0, "tank": "A", "place": ""}, {}], "log": []}
    assert stamp_of(tables, one) == stamp_of(tables, other)
    assert stamp_of(tables, one) != stamp_of(tables, {"tanks": [{"tank": "A", "length": 61}]})
    blank: dict[tuple[int, int], Value] = {(1, 1): "mine", (2, 1): ""}
    assert stamp_of(tables, one, (), {"Mine": blank}) == stamp_of(tables, one, (), {"Mine": {(1, 1): "mine"}})


def test_the_stamp_stands_in_a_cell_when_the_properties_are_gone(morning: Path) -> None:
    book, _ = read_book(morning)
    sheet, row, column = place(morning, "about_stamp")
    assert book.grids[sheet].cells[row, column].value == book.facts["shoalbook stamp"]


# --- which hand-out ---


def test_a_copy_of_the_base_is_taken_without_a_word(handed: Content) -> None:
    found = taken(handed, [typed(handed, "anna.xlsx", {"on_hand": 17})])
    assert found.said == []
    assert nets(found.taken[0].content) == 17


def test_a_copy_of_another_hand_out_is_refused_in_one_line(handed: Content) -> None:
    """By name, with what to do; all of them at once."""
    base = replace(typed(handed, "evening.xlsx", {"on_hand": 15}), stamp=Stamp("0000-1111-2222"))
    late = [typed(handed, f"late {n}.xlsx", {"on_hand": 19 - n}) for n in range(2)]
    with pytest.raises(BadInputError) as error:
        taken(base, late)
    lines = [str(finding) for finding in error.value.findings]
    assert [line.partition(":")[0] for line in lines] == ["late 0.xlsx", "late 1.xlsx"]
    assert handed.stamp.own in lines[0]
    assert "--also" in lines[0]


@pytest.mark.parametrize("where", ["file", "folder"])
def test_a_late_copy_is_held_against_its_own_hand_out(where: str, morning: Path, handed: Content) -> None:
    """One net sold since the morning goes off the 15 that are left in the evening."""
    base = replace(typed(handed, "evening.xlsx", {"on_hand": 15}), stamp=Stamp("0000-1111-2222"))
    late = typed(handed, "late.xlsx", {"on_hand": 19})
    found = taken(base, [late], morning if where == "file" else morning.parent)
    assert nets(found.taken[0].content) == 14
    assert found.said == [
        "late.xlsx: taken from morning.xlsx, not from evening.xlsx; what was typed in it since then is carried over"
    ]


@pytest.mark.office
def test_another_copy_in_the_folder_is_no_hand_out(morning: Path, handed: Content, tmp_path: Path) -> None:
    """A copy bears the stamp of what it was taken from; somebody typed in it, so nothing is held against it."""
    office.edited(morning, tmp_path / "anna.xlsx", {place(morning, "stock_on_hand"): 17.0})
    base = replace(typed(handed, "evening.xlsx", {"on_hand": 15}), stamp=Stamp("0000-1111-2222"))
    with pytest.raises(BadInputError, match="stamp"):
        taken(base, [typed(handed, "late.xlsx", {"on_hand": 19})], tmp_path)


def test_a_copy_that_was_built_anew_is_still_a_copy(handed: Content) -> None:
    """Alone; two of one stamp had a common hand-out that is not at hand."""
    made = replace(handed, stamp=Stamp("3333-4444-5555", f"carried over from {handed.stamp.own}"))
    found = taken(handed, [typed(made, "anna.xlsx", {"on_hand": 18})])
    assert found.said == ["built anew on morning.xlsx, taken as copies of it: anna.xlsx"]
    with pytest.raises(BadInputError):
        taken(handed, [typed(made, f"{n}.xlsx", {"on_hand": n}) for n in (17, 18)])


def test_a_base_among_the_hand_outs_is_no_other_one(morning: Path, handed: Content) -> None:
    """Members who brought a new library under their files are copies of what it came from, wherever that lies."""
    told = []
    for n in (16, 17):
        made = replace(handed, stamp=Stamp(f"0000-0000-00{n}", f"carried over from {handed.stamp.own}"))
        told.append(typed(made, f"member {n}.xlsx", {"on_hand": n}))
    found = taken(handed, told, morning)
    assert found.said == ["built anew on morning.xlsx, taken as copies of it: member 16.xlsx, member 17.xlsx"]
    assert [nets(one.content) for one in found.taken] == [16, 17]


def test_a_copy_without_a_stamp_is_taken_and_what_it_might_undo_is_named(handed: Content) -> None:
    copy = replace(typed(handed, "old.xlsx", {"on_hand": 38, "price": 4}), stamp=Stamp())
    found = taken(handed, [copy])
    [line] = found.said
    assert line.startswith("old.xlsx: it carries no stamp")
    assert "Stock list, T1, On hand: 20 becomes 38" in line
    assert nets(found.taken[0].content) == 38


def test_a_base_that_was_typed_in_after_it_was_built_is_told(handed: Content) -> None:
    """Copies taken before and after that bear one stamp: nobody can tell them apart."""
    base = typed(handed, "morning.xlsx", {"on_hand": 27})
    [line] = taken(base, [typed(handed, "anna.xlsx", {"on_hand": 19})]).said
    assert "morning.xlsx was typed in after it was built" in line
    assert "On hand: 27 becomes 19" in line


def test_of_much_that_might_be_undone_the_first_is_named_and_where_to_see_the_rest(handed: Content) -> None:
    copy = typed(handed, "old.xlsx", {"on_hand": 38, "price": 4, "sold": 3, "lost": 2, "cost": 1.5})
    [line] = taken(handed, [replace(copy, stamp=Stamp())]).said
    assert line.endswith("; and 2 more (compare morning.xlsx old.xlsx tells all)")


# --- the same file twice ---


def test_the_same_content_by_the_same_person_counts_once(handed: Content) -> None:
    copies = [typed(handed, name, {"on_hand": 17}, "Anna") for name in ("anna.xlsx", "anna (1).xlsx")]
    found = taken(handed, copies)
    assert [told.content.name for told in found.taken] == ["anna.xlsx"]
    assert found.said == ["anna (1).xlsx: holds what anna.xlsx holds, counted once"]


def test_equal_sales_of_two_people_count_twice(handed: Content) -> None:
    found = taken(handed, [typed(handed, f"{who}.xlsx", {"on_hand": 17}, who) for who in ("Anna", "Ben")])
    assert len(found.taken) == 2
    assert found.said == []


def test_without_names_it_is_said_how_to_tell_them_apart(handed: Content) -> None:
    found = taken(handed, [typed(handed, f"{n}.xlsx", {"on_hand": 17}) for n in "ab"])
    [line] = found.said
    assert "counted once" in line
    assert "names themselves on Start" in line


def test_a_copy_that_is_in_the_base_already_counts_no_more(handed: Content) -> None:
    """Anna's copy of the morning was merged at noon; in the evening it comes again."""
    anna = typed(handed, "anna.xlsx", {"on_hand": 17}, "Anna")
    noon = taken(handed, [anna])
    base = replace(handed, stamp=Stamp("0000-1111-2222", "", " ".join(noon.holds)))
    again = taken(base, [replace(anna, name="anna again.xlsx")])
    assert again.taken == []
    assert again.said == ["anna again.xlsx: is in morning.xlsx already, not counted again"]


def test_two_different_copies_of_one_person_are_told(handed: Content) -> None:
    copies = [typed(handed, f"anna {n}.xlsx", {"on_hand": n}, "Anna") for n in (17, 15)]
    [line] = taken(handed, copies).said
    assert line.startswith("anna 17.xlsx and anna 15.xlsx: both of Anna")


def test_a_copy_in_which_nothing_was_typed_is_told(handed: Content) -> None:
    found = taken(handed, [replace(handed, name="dora.xlsx")])
    assert (found.taken, found.said) == ([], ["dora.xlsx: nothing was typed in it since it was handed out"])


def test_what_cannot_be_read_was_typed_all_the_same(handed: Content) -> None:
    """Two copies that differ in such words are two, and one in which nothing else was typed is taken."""

    def said(name: str, words: str) -> Content:
        net, *others = handed.tables["stock"]
        rows = (replace(net, unread={"free": words}), *others)
        return replace(handed, name=name, tables=handed.tables | {"stock": rows})

    found = taken(handed, [said("a.xlsx", "about 7"), said("b.xlsx", "seven"), said("c.xlsx", "seven")])
    assert [told.content.name for told in found.taken] == ["a.xlsx", "b.xlsx"]
    [line] = found.said
    assert line.startswith("c.xlsx: holds what b.xlsx holds")


def test_a_copy_that_was_built_anew_counts_though_nothing_was_typed_since(morning: Path, handed: Content) -> None:
    """What was typed before it was built anew is in it, also where it lies among the hand-outs itself."""
    anna = typed(handed, "anna.xlsx", {"on_hand": 17})
    anew = replace(anna, stamp=Stamp(digest_of(anna), f"carried over from {handed.stamp.own}"))
    found = taken(handed, [anew])
    assert found.said == ["built anew on morning.xlsx, taken as copies of it: anna.xlsx"]
    assert [nets(told.content) for told in found.taken] == [17]
    alike = HandOuts([morning.parent], [morning])
    assert alike.find(handed.stamp.own) is None
    assert HandOuts([morning.parent]).find(handed.stamp.own) is not None


# --- the command ---


@pytest.mark.office
@pytest.mark.parametrize("form", ["ods", *in_the_end("xlsx")])
def test_a_day_with_a_latecomer(form: str, morning: Path, tmp_path: Path) -> None:
    """Anna's file comes twice, Ben's once; Cara's comes a day late, saved by another program; nothing is undone or doubled."""
    cells = {"anna": (17.0, "Anna"), "ben": (18.0, "Ben"), "cara": (19.0, "Cara")}
    for name, (left, who) in cells.items():
        office.edited(
            morning,
            tmp_path / f"{name}.xlsx",
            {place(morning, "stock_on_hand"): left, place(morning, "whose_copy_who"): who},
        )
    (tmp_path / "anna (1).xlsx").write_bytes((tmp_path / "anna.xlsx").read_bytes())
    late = tmp_path / "cara.xlsx"
    if form == "ods":
        late = desk.write_ods(read_book(late)[0], tmp_path / "cara.ods")
    rest = ["--plan-date", "2026-06-01", "--spare-rows", "3"]

    def merged(base: Path, names: list[Path], target: str, *more: str) -> str:
        result = CliRunner().invoke(
            app, ["merge", str(base), *map(str, names), "-o", str(tmp_path / target), *rest, *more]
        )
        assert result.exit_code == (0 if (tmp_path / target).exists() else 2), result.output
        return result.output

    day = [tmp_path / name for name in ("anna.xlsx", "ben.xlsx", "anna (1).xlsx")]
    assert "anna (1).xlsx: holds what anna.xlsx holds, counted once" in merged(morning, day, "evening.xlsx")
    evening = tmp_path / "evening.xlsx"
    assert nets(read_copy(evening)) == 15
    assert read_copy(evening).stamp.made_from == f"merged from {read_copy(morning).stamp.own}"
    assert read_copy(evening).who == ""
    assert "--also" in merged(evening, [late], "refused.xlsx")
    told = merged(evening, [late, day[0]], "next.xlsx", "--also", str(morning))
    assert "anna.xlsx: is in evening.xlsx already" in told
    assert nets(read_copy(tmp_path / "next.xlsx")) == 14
