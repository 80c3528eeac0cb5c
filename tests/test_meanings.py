"""Formulas of people's own mean the same wherever their tables lie: in compare, in a merge, in plain files."""

import csv
import datetime
from dataclasses import replace
from pathlib import Path

import pytest

from tests import desk
from tests.desk import Desk
from workbook.build import Plan
from workbook.cells.placing import letters
from workbook.copies.carrying import build_content, rebuild
from workbook.copies.comparing import compare
from workbook.copies.content import AddedSheet, Content, Entry, Places
from workbook.copies.exporting import export, folder_content
from workbook.copies.grids import Grid, Raw
from workbook.copies.locating import locate
from workbook.copies.meanings import Meanings, PlainRows
from workbook.copies.reading import content_of, read_copy
from workbook.copies.rebasing import HandOut, rebased
from workbook.editions import EDITIONS, with_conflicts

PLAN = Plan(spare_rows=2, plan_date=datetime.date(2026, 4, 15))
EDITION = with_conflicts("keeper")
TABLES = {table.key: table for table in EDITION.tables}


def tanks(*names: str, sheet: str = "Tanks", first: int = 11, column: int = 1) -> tuple[Entry, ...]:
    """Rows of tanks: name, length, and a column of a person's own, side by side from a column on."""
    columns = {key: letters(column + i) for i, key in enumerate(("tank", "length", "Price [new]"))}
    return tuple(Entry({"tank": name}, places=Places(sheet, first + i, columns)) for i, name in enumerate(names))


def meaning(formula: str, rows: tuple[Entry, ...], own: int | None = None, sheet: str = "Tanks") -> str:
    told = Meanings(TABLES, {"tanks": rows}, ["My list"])
    return told.meaning(formula, sheet, None if own is None else ("tanks", own))


HERE, THERE = tanks("Long", "Bow", "Drum"), tanks("Drum", "Long", "Bow", sheet="Becken", first=4, column=30)


@pytest.mark.parametrize(
    ("here", "there"),
    [
        ("=B11*2", "=AE5 * 2"),  # the same row
        ("=B11*$B$12", "=AE5*$AE$6"),  # another one, by its name
        ("=SUM(B$11:B40)", "=sum(AE$4:AE90)"),  # the whole list
        ("=SUM(A11:C11)", "=SUM(AD5:AF5)"),  # along the row
        ("=MAXIFS(Tanks!B11:B40,A11:A40,A11)", "=_xlfn.MAXIFS(AE4:AE77,Becken!AD4:AD77,AD5)"),
        ("='My list'!B3+TRUE+settings_altitude_m", "='My list'!B3+true+SETTINGS_ALTITUDE_M"),
    ],
)
def test_alike_wherever_the_table_lies(here: str, there: str) -> None:
    """Sorted, moved to other columns, on a renamed sheet; row 1 of one file is row 2 of the other."""
    assert meaning(here, HERE, 0) == meaning(there, THERE, 1, "Becken")


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("=B11", "=B12"), ("=B11", "=A11"), ("=B12", "=B$12"), ("=SUM(B11:B13)", "=SUM(B11:B40)"),
        ("=SUM(B12:B40)", "=SUM(B11:B40)"), ('=A11&"b11"', '=A11&"B11"'), ("=B11", "='My list'!B11"), ("=Z11", "=Z12"),
    ],
)  # fmt: skip
def test_another_cell_is_another_meaning(one: str, other: str) -> None:
    assert meaning(one, HERE, 0) != meaning(other, HERE, 0)


@pytest.mark.parametrize(
    ("formula", "told", "pointed"),
    [
        ("=B11*$B12", "=[tanks.length]*[$tanks 3.length]", "='tanks.csv'!{length}2*'tanks.csv'!${length}3"),
        (
            "=SUM(B$11:B40)&\"[tanks.length]\"",
            '=SUM([tanks $first.length]:[tanks end.length])&"[tanks.length]"',
            "=SUM('tanks.csv'!{length}$2:{length}5)&\"[tanks.length]\"",
        ),
        ("=C11+'My list'!B3", "=[tanks.Price [new]]]+'My list'!B3", "='tanks.csv'!{price}2+'My list'!B3"),
        ("=Z11+[Other.xlsx]Sheet1!A1", "='Tanks'!Z11+[Other.xlsx]Sheet1!A1", "='Tanks'!Z11+[Other.xlsx]Sheet1!A1"),
    ],
)  # fmt: skip
def test_plain_files_name_table_row_and_column(formula: str, told: str, pointed: str) -> None:
    """The words that the README shows; and back, as addresses of the plain files."""
    rows = {"tanks": HERE}
    lines = {("tanks", i): i + 2 for i in range(3)}
    assert Meanings(TABLES, rows, ["My list"]).told(formula, "Tanks", ("tanks", 0), lines) == told
    files = PlainRows(TABLES, rows, {"tanks": ("Price [new]",)})
    at = {key: letters(files.columns["tanks"].index(name) + 1) for key, name in (("length", "length"), ("price", "Price [new]"))}  # fmt: skip
    assert files.pointed(told, "tanks", 2) == pointed.format(**at)


@pytest.mark.parametrize("told", ["=[tanks.lenght]", "=[tanks 9.length]", "=[ponds.length]", "=[tanks.length]"])
def test_what_a_plain_file_has_not_stays_as_it_is_told(told: str) -> None:
    """Outside of a table there is no row of its own either; the formula is kept aside then, with these words."""
    assert PlainRows(TABLES, {"tanks": HERE}, {}).pointed(told) == told


# --- whole files ---


def with_formulas() -> Desk:
    """Formulas beside three lists and on a sheet of one's own: neighbours, other sheets, names; a blank in an own column."""
    made = Desk.fresh("metric", 0)
    places = locate(made.book, EDITION, "metric")
    at = {
        name: made.book.names[name]
        for name in ("tanks_length_cm", "tanks_net_volume_l", "livestock_animals", "waters_ph")
    }

    def write(table: str, header: str, across: int, texts: list[str]) -> None:
        grid, place = places[table].grid, places[table]
        column = max(column for _, column in grid.cells) + across
        made.put(grid, place.header_row, column, Raw(header))
        for i, text in enumerate(texts):
            here = text.format(row=place.first_row + i, own=letters(column), right=letters(column + 1), **cells)
            made.put(grid, place.first_row + i, column, Raw(7.0, here) if text.startswith("=") else Raw(text))

    cells = {name: letters(area.left) for name, area in at.items()} | {
        "first": at["tanks_length_cm"].top,
        "reckoned": at["tanks_net_volume_l"].sheet,
    }
    write("tanks", "Twice", 3, ["={tanks_length_cm}{row}*2+ROUND(settings_energy_price_a_kwh,0)"] * 3)
    write("tanks", "Sum", 2, ["=SUM({tanks_length_cm}${first}:{tanks_length_cm}{row})"] * 3)
    write("livestock", "Room", 1, ["='{reckoned}'!${tanks_net_volume_l}${first}/{livestock_animals}{row}"] * 5)
    write("waters", "Acid", 1, ['=IF({waters_ph}{row}<7,"yes","My list")'])
    mine = made.book.grids["My list"] = Grid("My list", {})
    made.put(mine, 3, 2, Raw(5.0))
    made.put(mine, 4, 2, Raw(10.0, "=B3*2"))
    made.put(mine, 5, 2, Raw(256.0, "=SUM(Tanks!{tanks_length_cm}{first}:{tanks_length_cm}99)".format(**cells)))
    return made


def formulas(content: Content) -> int:
    rows = [entry for entries in content.tables.values() for entry in entries]
    cells = [*(entry.added for entry in rows), *(sheet.cells for sheet in content.added_sheets)]
    return sum(str(value).startswith("=") for each in cells for value in each.values())


def test_they_survive_a_fresh_file_and_a_folder(tmp_path: Path) -> None:
    """Compare tells no difference, in either direction; what stands in the folder can be read."""
    base = content_of(with_formulas().book)
    desk.write(with_formulas(), tmp_path / "base.xlsx")
    rebuild(tmp_path / "base.xlsx", tmp_path / "fresh.xlsx", PLAN)
    fresh = read_copy(tmp_path / "fresh.xlsx")
    assert formulas(base) == formulas(fresh) > 12
    assert compare(base, fresh, TABLES.values()) == compare(fresh, base, TABLES.values()) == []
    export(base, tmp_path / "folder")
    with (tmp_path / "folder" / "added_columns.csv").open(encoding="utf-8") as file:
        told = {(row["table"], row["row"], row["column"]): row["formula"] for row in csv.DictReader(file)}
    assert told["livestock", "3", "Room"] == "'=[$tanks $2.net_volume]/[livestock.animals]"
    content = folder_content(tmp_path / "folder", EDITIONS["keeper"](), "metric")
    build_content(content, tmp_path / "again.xlsx", PLAN)
    again = read_copy(tmp_path / "again.xlsx")
    assert compare(fresh, again, TABLES.values()) == []
    assert [entry.added for entry in again.tables["tanks"]] == [entry.added for entry in fresh.tables["tanks"]]


def test_a_copy_that_was_built_anew_edits_no_formula() -> None:
    """Its tables lie elsewhere; only what was typed counts."""
    base = content_of(with_formulas().book)
    moved = with_formulas()
    long = moved.book.names["tanks_length_cm"]
    moved.put(moved.book.grids["Tanks"], long.top, long.left, Raw(99.0))
    copy = content_of(moved.book)
    other = [
        replace(e, added={h: str(f).replace("*2", " * 2") for h, f in e.added.items()}) for e in copy.tables["tanks"]
    ]
    copy = replace(copy, tables=copy.tables | {"tanks": tuple(other)})
    told = rebased(HandOut(base, base, TABLES.values()), copy).content
    assert [e.added for e in told.tables["tanks"]] == [e.added for e in base.tables["tanks"]]
    assert told.tables["tanks"][0].values["length"] == 99


def test_an_added_sheet_is_compared_by_meaning_too() -> None:
    def sheet(formula: str, meant: str) -> Content:
        return Content(
            "x", "keeper", "metric", 1, {}, {}, (AddedSheet("My list", {(1, 1): formula}, meant={(1, 1): meant}),)
        )

    assert compare(sheet("=A1", "x"), sheet("=B2", "x"), []) == []
    assert len(compare(sheet("=A1", "x"), sheet("=B2", "y"), [])) == 1
