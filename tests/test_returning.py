"""Files of a shop and of a club come back: from staff who sold at the same time, from members, from LibreOffice, as plain files."""

import zipfile
from pathlib import Path

import pytest

from tests import office, returned
from tests.effort import also, in_the_end
from tests.returned import DAY, FEW, place
from tests.test_cli import run as command
from workbook.copies.checking import check
from workbook.copies.comparing import compare
from workbook.copies.exporting import export
from workbook.copies.inputs import Fault
from workbook.copies.reading import read_copy
from workbook.editions import with_conflicts


class Files(dict[tuple[str, str], Path]):
    """One small file of each edition and units, built when somebody asks for it."""

    def __missing__(self, kind: tuple[str, str]) -> Path:
        self[kind] = returned.book(*kind)
        return self[kind]


@pytest.fixture(scope="module")
def files() -> Files:
    return Files()


@pytest.fixture(scope="module")
def both(files: dict[tuple[str, str], Path], tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What is joined of a shop's two copies in which two prices were typed, each otherwise."""
    shop, folder = files["shop", "metric"], tmp_path_factory.mktemp("both")
    prices = [place(shop, "stock_price", row) for row in (0, 1)]
    anna = office.edited(shop, folder / "anna.xlsx", {prices[0]: 6.0, prices[1]: 4.0})
    ben = office.edited(shop, folder / "ben.xlsx", {prices[0]: 7.0, prices[1]: 5.0})
    assert run("merge", shop, anna, ben, "-o", folder / "both.xlsx")[0] == 1
    return folder / "both.xlsx"


def run(*words: str | Path) -> tuple[int, str, str]:
    """A command, with few ready rows where it writes a workbook."""
    few = ("--spare-rows", str(FEW)) if words[0] in {"build", "merge"} and "--spare-rows" not in words else ()
    return command(*words, *few)


def wrong(path: Path) -> list[Fault]:
    """What is wrong in a file, but that few ready rows are left."""
    return [fault for fault in check(path) if fault.what != "a list nearly full"]


def values(path: Path, table: str) -> list[dict[str, object]]:
    """The rows of a table as they are read."""
    return [dict(entry.values) for entry in read_copy(path).tables[table]]


def without_column(path: Path, out: Path, name: str) -> Path:
    """A copy from which a person deleted what stands in a column, header, name and all."""
    sheet, top, left, bottom, _ = office.areas(path)[name]
    held = office.values(path)
    cleared: dict[office.At, office.Value] = {
        (sheet, row, left): "" for row in range(top - 3, bottom + 1) if (sheet, row, left) in held
    }
    office.forced(path, out, cleared)
    with zipfile.ZipFile(out) as archive:
        parts = {part: archive.read(part) for part in archive.namelist()}
    book = parts["xl/workbook.xml"].decode()
    start = book.index(f'<definedName name="{name}"')
    end = book.index("</definedName>", start) + len("</definedName>")
    parts["xl/workbook.xml"] = (book[:start] + book[end:]).encode()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for part, content in parts.items():
            archive.writestr(part, content)
    return out


@pytest.mark.parametrize("kind", [("shop", "us"), *also((("club", "metric"),))])
def test_a_file_as_built_is_whole_and_nothing_of_it_is_kept_aside(
    kind: tuple[str, str], files: dict[tuple[str, str], Path], tmp_path: Path
) -> None:
    # That nothing is wrong in it: tests/test_checking.py.
    assert [e.unread for entries in read_copy(files[kind]).tables.values() for e in entries if e.unread] == []
    code, said, _ = run("build", files[kind], "-o", tmp_path / "again.xlsx", "--plan-date", DAY.isoformat())
    assert (code, len(said.splitlines())) == (0, 1)
    assert (tmp_path / "again.xlsx").read_bytes() == files[kind].read_bytes()


@pytest.mark.parametrize("kind", [("shop", "metric"), *also((("club", "us"),))])
def test_plain_files_know_for_whom_they_are(
    kind: tuple[str, str], files: dict[tuple[str, str], Path], tmp_path: Path
) -> None:
    assert run("export", files[kind], "-o", tmp_path / "folder")[0] == 0
    code, *_ = run("build", tmp_path / "folder", "-o", tmp_path / "again.xlsx", "--plan-date", DAY.isoformat())
    assert code == 0
    assert (tmp_path / "again.xlsx").read_bytes() == files[kind].read_bytes()
    code, _, complained = run("build", tmp_path / "folder", "-o", tmp_path / "x.xlsx", "--edition", "keeper")
    assert (code, f"found a folder of the edition {kind[0]}; expected keeper" in complained) == (2, True)


def test_what_two_of_a_shop_sold_is_added_up(files: dict[tuple[str, str], Path], tmp_path: Path) -> None:
    """20 nets, 3 sold at one till and 2 at the other: 15 are left and 5 sold."""
    shop = files["shop", "us"]
    hand, sold = place(shop, "stock_on_hand"), place(shop, "stock_sold")
    anna = office.edited(shop, tmp_path / "anna.xlsx", {hand: 17.0, sold: 3.0})
    ben = office.edited(shop, tmp_path / "ben.xlsx", {hand: 18.0, sold: 2.0})
    code, said, _ = run("merge", shop, anna, ben, "-o", tmp_path / "day.xlsx")
    assert (code, said.partition(" sheets; ")[2]) == (0, f"2 differences from {shop.name}; 0 to decide\n")
    net = values(tmp_path / "day.xlsx", "stock")[0]
    assert (net["on_hand"], net["sold"]) == (15, 5)


def test_conflicts_go_through_plain_files_with_what_was_decided(
    both: Path, files: dict[tuple[str, str], Path], tmp_path: Path
) -> None:
    assert wrong(both) == []
    shown = office.values(both)
    assert str(shown[place(both, "attention_summary_steps")]).startswith("Conflicts, ")
    assert shown[place(both, "first_steps_step_1")] == "next: go to Conflicts"
    listed = [shown.get(place(both, "attention_what", row)) for row in range(20)]
    assert listed.count("Copies do not agree") == 2
    decided = office.edited(both, tmp_path / "decided.xlsx", {place(both, "conflicts_decision", 1): "take"})
    folder = tmp_path / "folder"
    assert run("export", decided, "-o", folder)[0] == 0
    code, said, _ = run("build", folder, "-o", tmp_path / "fresh.xlsx")
    assert (code, said.splitlines()[1]) == (0, "Conflicts: 1 decided and carried out, 1 left")
    assert [row["price"] for row in values(tmp_path / "fresh.xlsx", "stock")] == [6, 3]
    assert len(read_copy(tmp_path / "fresh.xlsx").tables["conflicts"]) == 3
    # Nothing is left of it in the folder once all is decided: but for its head, as in the folder of any other file.
    export(read_copy(files["shop", "metric"]), folder)
    assert len((folder / "conflicts.csv").read_text().splitlines()) == 1
    (folder / "conflicts.csv").write_text(
        (folder / "conflicts.csv").read_text() + "Tanks,x,y,base,1,,,tanks,not a list,1,typed,length,[],number,1\n"
    )
    code, _, complained = run("build", folder, "-o", tmp_path / "x.xlsx")
    assert (code, complained.splitlines()[0]) == (
        2, "conflicts.csv, row 2: found a row that was changed; expected a row as export wrote it, but for its decision",
    )  # fmt: skip


def test_a_changed_row_of_conflicts_is_refused_in_one_line(both: Path, tmp_path: Path) -> None:
    name = place(both, "conflicts_sort")
    office.forced(both, tmp_path / "odd.xlsx", {name: "numbr"})
    code, _, complained = run("build", tmp_path / "odd.xlsx", "-o", tmp_path / "x.xlsx")
    assert code == 2
    assert complained.startswith("odd.xlsx: found the row of Conflicts!")


def test_a_column_that_somebody_deleted_is_told_and_says_nothing(
    files: dict[tuple[str, str], Path], tmp_path: Path
) -> None:
    shop = files["shop", "metric"]
    ben = without_column(shop, tmp_path / "ben.xlsx", "stock_cost")
    anna = office.edited(shop, tmp_path / "anna.xlsx", {place(shop, "stock_price"): 6.0})
    code, said, _ = run("merge", shop, anna, ben, "-o", tmp_path / "both.xlsx")
    assert code == 0
    assert f"Stock list: no column Cost in ben.xlsx: taken as in {shop.name}" in said.splitlines()
    assert {k: values(tmp_path / "both.xlsx", "stock")[0][k] for k in ("cost", "price")} == {"cost": 2, "price": 6}
    code, said, _ = run("build", ben, "-o", tmp_path / "fresh.xlsx")
    assert code == 0
    assert "Stock list: no column Cost in ben.xlsx: blank in the fresh one, or as it comes with the package" in said
    found = compare(read_copy(shop), read_copy(ben), with_conflicts("shop").tables)
    assert [(c.what, c.title, c.label, c.old) for c in found] == [("removed", "Stock list", "the column Cost", "Cost")]
    assert ("Cost", "a column that is gone") in {(fault.column, fault.what) for fault in check(ben)}


def test_without_the_column_that_names_rows_nothing_is_merged(
    files: dict[tuple[str, str], Path], tmp_path: Path
) -> None:
    shop = files["shop", "metric"]
    ben = without_column(shop, tmp_path / "ben.xlsx", "stock_code")
    code, _, complained = run("merge", shop, ben, "-o", tmp_path / "both.xlsx")
    assert (code, complained.splitlines()[0]) == (
        2, "ben.xlsx: found no column Code on Stock list; expected it: rows are known by it",
    )  # fmt: skip
    assert not (tmp_path / "both.xlsx").exists()


def test_a_club_gathers_what_members_know_and_propose(files: dict[tuple[str, str], Path], tmp_path: Path) -> None:
    club = files["club", "us"]
    proposed, own = place(club, "proposals_proposed", 1), place(club, "species_own_adult_length_in")
    tank = place(club, "tanks_tank", 1)
    anna = office.edited(club, tmp_path / "anna.xlsx", {proposed: "Reed loach", tank: "Anna's tank"})
    ben = office.edited(club, tmp_path / "ben.xlsx", {proposed: "Blue danio", own: 2.0})
    code, *_ = run("merge", club, anna, ben, "-o", tmp_path / "all.xlsx")
    assert code == 0
    assert [row["proposed"] for row in values(tmp_path / "all.xlsx", "proposals")] == [
        "Marsh goby",
        "Reed loach",
        "Blue danio",
    ]
    assert values(tmp_path / "all.xlsx", "tanks")[-1]["tank"] == "Anna's tank"
    # 2 inches, by definition of the inch.
    assert values(tmp_path / "all.xlsx", "species")[0]["own_adult_length"] == pytest.approx(5.08)


@pytest.mark.office
@pytest.mark.thorough  # of a keeper's file in every run: tests/test_reading.py
@pytest.mark.parametrize("form", ["ods", *in_the_end("xlsx")])
def test_libreoffice_changes_nothing_in_a_shop_or_club_file(
    form: str, files: dict[tuple[str, str], Path], tmp_path: Path
) -> None:
    # One edition in each format; a shop's .ods comes back in tests/test_lineage.py.
    edition, units = {"xlsx": ("shop", "us"), "ods": ("club", "us")}[form]
    before = files[edition, units]
    (after,) = office.resaved([before], tmp_path, form)
    ours, theirs = read_copy(before), read_copy(after)
    assert (theirs.edition, theirs.units, theirs.lacking) == (ours.edition, ours.units, {})
    assert compare(ours, theirs, with_conflicts(edition).tables) == []
    assert wrong(after) == [], after.name
