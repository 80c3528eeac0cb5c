"""Edits as people make them in real files, one by one, and what is read of them."""

import datetime
import re
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from tests import desk, office
from tests.effort import also
from workbook.copies.content import Content, Entry
from workbook.copies.grids import Book, Grid, Raw, area_of
from workbook.copies.migrating import Step, migrated, renamed
from workbook.copies.ods_grids import plain_formula
from workbook.copies.reading import content_of, read_copy
from workbook.copies.values import number_in, understood
from workbook.editions import EDITIONS, SCHEMA
from workbook.findings import BadInputError
from workbook.tables.kinds import choice, count, date, key, number
from workbook.tables.units import US

EPOCH = datetime.date(1899, 12, 30)
DAY = datetime.date(2026, 3, 31)
NO_VALUE = (ValueError, OverflowError)


class Edited:
    """A copy of the small room's workbook, open in an editor."""

    def __init__(self, units: str = "metric") -> None:
        self.book = openpyxl.load_workbook(desk.file_of(units))
        self.areas = {name: area_of(defined.attr_text) for name, defined in self.book.defined_names.items()}

    def cell(self, name: str, row: int = 0, right: int = 0) -> Any:
        area = self.areas[name]
        assert area
        return self.book[area.sheet].cell(area.top + row, area.left + right)

    def read(self, folder: Path) -> Content:
        path = folder / "copy.xlsx"
        self.book.save(path)
        return read_copy(path)


def tank(content: Content, row: int = 0) -> Entry:
    return content.tables["tanks"][row]


def without_places(content: Content) -> dict[str, list[dict[str, Any]]]:
    return {table: [entry.values for entry in entries] for table, entries in content.tables.items()}


def expected() -> dict[str, list[dict[str, Any]]]:
    """What stands in the room; of its plan nothing is typed."""
    known = {table: rows for table, rows in desk.room().items() if table not in {"checks", "references", "about"}}
    return {"plan_lines": [], "plan_values": []} | known


@pytest.mark.parametrize("units", ["metric", "us"])
def test_nothing_edited(units: str) -> None:
    content = read_copy(desk.file_of(units))
    assert (content.edition, content.units, content.schema, content.added_columns, content.added_sheets) == (
        "keeper",
        units,
        SCHEMA,
        {},
        (),
    )
    assert without_places(content) == expected()
    entries = [entry for entries in content.tables.values() for entry in entries]
    assert not any(entry.unread or entry.notes or entry.added for entry in entries)


@pytest.fixture(scope="module", params=["ods", *also("xlsx")])
def saved(request: pytest.FixtureRequest) -> dict[str, Content]:
    """Both rooms as LibreOffice saves them; in the metric one a length is typed as a formula."""
    return {units: read_copy(path) for units, path in desk.saved(request.param).items()}


@pytest.mark.office
@pytest.mark.parametrize("units", ["metric", "us"])
def test_nothing_edited_but_saved_by_libreoffice(units: str, saved: dict[str, Content]) -> None:
    content, wanted = saved[units], expected()
    if units == "metric":
        first, *others = wanted["tanks"]
        wanted["tanks"] = [first | {"length": 130}, *others]
    assert (content.units, content.schema, content.added_columns, content.added_sheets) == (units, SCHEMA, {}, ())
    assert without_places(content) == wanted
    assert str(tank(content).places["length"]) == str(tank(read_copy(desk.file_of(units))).places["length"])


@pytest.mark.office
def test_a_formula_in_a_typed_cell_counts_as_what_it_shows(saved: dict[str, Content]) -> None:
    entry = tank(saved["metric"])
    assert (entry.values["length"], entry.notes["length"]) == (130, "typed as a formula: =2*65")


DAYS: list[Any] = [datetime.datetime(2026, 3, 31), 46112, "2026-03-31", datetime.datetime(2026, 3, 31, 18, 30)]


@pytest.fixture(scope="module")
def content(tmp_path_factory: pytest.TempPathFactory) -> Content:
    """A room in which much was edited, all in one file."""
    edited = Edited()
    edited.cell("const_activity").value = 2.5
    edited.cell("settings_lead_days_day").value = 9.0
    edited.cell("stocking_choice_tank").value = "drum"
    edited.cell("tanks_length_cm", 1).value = "=2*60"
    edited.cell("tanks_net_volume_l").value = 200
    edited.book["Tanks"]["C1"].value = "Ask Ann about the floor"
    edited.book["Overlap"].cell(2, 60).value = "look here"
    edited.book["Overlap"].cell(1, 1).comment = openpyxl.comments.Comment("who wrote this?", "Ann")
    edited.book["Livestock"].cell(1, 1).value = "Fish"
    edited.cell("tanks_tank").comment = openpyxl.comments.Comment(
        "[Threaded comment] Your version lets you read this.", "t"
    )
    for row, form in enumerate(DAYS):
        edited.cell("log_date", row).value = form
    folder = tmp_path_factory.mktemp("edited")
    edited.book.save(folder / "copy.xlsx")
    return read_copy(with_a_conversation(edited, folder / "copy.xlsx", folder / "new.xlsx"))


def with_a_conversation(edited: Edited, path: Path, out: Path) -> Path:
    """Such a one also stands in the plain notes, behind words of the program's own."""
    rels = f"xl/worksheets/_rels/sheet{edited.book.sheetnames.index('Tanks') + 1}.xml.rels"
    cell = edited.cell("tanks_tank").coordinate
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            content = old.read(name)
            if name == rels:
                assert b"comments" in content
                link = b'<Relationship Id="t" Type="http://x/threadedComment" Target="/xl/threadedComments/a.xml"/></Relationships>'
                content = content.replace(b"</Relationships>", link)
            new.writestr(name, content)
        thread = f'<t:ThreadedComments xmlns:t="x"><t:threadedComment ref="{cell}"><t:text>Leaks?</t:text></t:threadedComment>'
        answer = f'<t:threadedComment ref="{cell}"><t:text>No.</t:text></t:threadedComment></t:ThreadedComments>'
        new.writestr("xl/threadedComments/a.xml", thread + answer)
    return out


def test_a_constant_a_setting_and_a_choice(content: Content) -> None:
    assert next(e for e in content.tables["constants"] if e.values["key"] == "activity").values["value"] == 2.5
    assert content.tables["settings"][0].values["lead_days"] == 9
    assert content.tables["stocking_choice"][0].values == {"tank": "Drum"}


def test_constants_sorted_by_people_are_found_by_their_keys() -> None:
    source = desk.base("metric")
    names = {name: area for name, area in source.names.items() if not name.startswith("const_")}
    area, grid = source.names["constants_value"], source.grids["Constants"]
    last = max(column for (row, column) in grid.cells if row == area.top)
    cells = {at: raw for at, raw in grid.cells.items() if not (area.top <= at[0] <= area.bottom and at[1] < last)}
    cells |= {
        (area.top + area.bottom - row, column): raw
        for (row, column), raw in grid.cells.items()
        if (row, column) not in cells
    }
    book = Book(source.name, source.grids | {"Constants": Grid("Constants", cells)}, names, source.facts, source.epoch)
    assert cells != grid.cells
    assert without_places(content_of(book))["constants"] == expected()["constants"]


def test_a_formula_in_a_typed_cell(content: Content) -> None:
    """openpyxl saves no value with it, so only the formula is there to be kept."""
    assert tank(content, 1).unread["length"] == "=2*60"


def test_a_formula_typed_over_and_words_beside_the_tables(content: Content) -> None:
    assert tank(content).unread == {"net_volume": "200"}
    assert {sheet.title: sheet.cells for sheet in content.added_sheets} == {
        "From Tanks": {(1, 3): "Ask Ann about the floor"}, "From Overlap": {(1, 1): "Overlap [note: who wrote this?]", (2, 60): "look here"},
    }  # fmt: skip


def test_a_conversation_on_a_cell(content: Content) -> None:
    assert tank(content).notes == {"tank": "Leaks?\nNo."}


def test_dates_in_every_form_and_a_time_of_day(content: Content) -> None:
    entries = content.tables["log"][: len(DAYS)]
    assert [entry.values["date"] for entry in entries] == [DAY] * 4
    assert entries[3].notes == {"date": "typed as 2026-03-31 18:30:00"}


def with_part(path: Path, out: Path, part: str, change: Callable[[str], str]) -> Path:
    """A copy of which one part is changed."""
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            before = old.read(name)
            after = change(before.decode()).encode() if name == part else before
            assert (after == before) == (name != part)
            new.writestr(name, after)
    return out


def test_a_workbook_that_counts_days_from_1904(tmp_path: Path) -> None:
    sheet, top, left, *_ = office.areas(desk.file_of("metric"))["log_date"]
    path = office.edited(desk.file_of("metric"), tmp_path / "a.xlsx", {(sheet, top, left): 46112 - 1462})
    path = with_part(
        path,
        tmp_path / "b.xlsx",
        "xl/workbook.xml",
        lambda xml: xml.replace("<workbookPr ", '<workbookPr date1904="1" '),
    )
    assert read_copy(path).tables["log"][0].values["date"] == DAY


def test_properties_lost_then_the_form_about_this_file_tells(tmp_path: Path) -> None:
    without = re.compile("<property .*</property>")
    path = with_part(desk.file_of("us"), tmp_path / "a.xlsx", "docProps/custom.xml", lambda xml: without.sub("", xml))
    content = read_copy(path)
    assert content.units == "us"
    assert without_places(content) == expected()


@pytest.mark.parametrize("units", ["metric", *also("us")])
def test_every_name_lost_then_headers_tell(units: str) -> None:
    source, grids = desk.base(units), desk.base(units).grids
    if units == "metric":  # one whole file is enough: every formula in it is looked at, for it could be somebody's own
        grids = {title: grids[title] for title in ("Start", "Waters", "Tanks", "Livestock", "Log")}
    content = content_of(Book(source.name, grids, {}, source.facts))
    for table in ("waters", "tanks", "livestock", "log", "settings"):
        assert without_places(content)[table] == expected()[table], table


@pytest.mark.parametrize("units", ["metric", "us"])
def test_properties_form_and_sheet_lost(units: str) -> None:
    """The names of columns in inches tell the unit system; a sheet that is gone is a table that is not there."""
    source = desk.base(units)
    grids = {title: grid for title, grid in source.grids.items() if title not in {"Start", "Feeding"}}
    names = {name: area for name, area in source.names.items() if area.sheet in grids}
    content = content_of(Book(source.name, grids, names, {}))
    assert content.units == units
    assert "feeding" not in content.tables
    assert without_places(content)["tanks"] == expected()["tanks"]


def test_a_newer_schema_and_an_unknown_edition_are_refused() -> None:
    source = desk.base("metric")
    for facts, says in (
        (
            {"shoalbook schema": f"{SCHEMA + 1}"},
            f"found schema {SCHEMA + 1}, made by a newer shoalbook; expected at most schema {SCHEMA}: update shoalbook",
        ),
        ({"shoalbook schema": "soon"}, "found schema 'soon'"),
        ({"shoalbook edition": "palace"}, "the edition 'palace'; expected one of"),
    ):
        with pytest.raises(BadInputError, match=says):
            content_of(Book(source.name, source.grids, source.names, source.facts | facts))


def test_a_column_that_an_earlier_version_had_in_the_base_unit() -> None:
    """Packs of food, in grams in a US file of before: no twin, the name and the unit of grams."""
    source = desk.base("us")
    typed, grid = source.names["foods_pack_mass_oz"], source.grids["Foods"]
    cells = dict(grid.cells)
    cells |= {(typed.top - 1, typed.left): Raw("g"), (typed.top, typed.left): Raw(250.0)}
    names = {name: area for name, area in source.names.items() if name != "foods_pack_mass_oz"}
    names["foods_pack_mass_g"] = typed
    old = Book(source.name, source.grids | {"Foods": Grid("Foods", cells, grid.notes)}, names, source.facts)
    assert content_of(old).tables["foods"][0].values["pack_mass"] == 250.0


def test_an_older_schema_takes_its_steps() -> None:
    """Schema 0 is made up: its tanks called the measured volume by another name."""
    source = desk.base("metric")
    area = source.names["tanks_net_volume_measured_l"]
    grid = source.grids["Tanks"]
    cells = grid.cells | {(area.top, area.left): Raw(150.0)}
    cells[area.top - 3, area.left] = Raw("Measured")
    old_names = {name: place for name, place in source.names.items() if name != "tanks_net_volume_measured_l"}
    old = Book(
        source.name, source.grids | {"Tanks": Grid("Tanks", cells)}, old_names | {"tanks_volume_measured_l": area},
        source.facts | {"shoalbook schema": "0"},
    )  # fmt: skip
    content = content_of(old)
    assert (content.schema, tank(content).values["net_volume_measured"]) == (0, 150)
    as_if_current = Book(old.name, old.grids, old.names, source.facts)
    assert "net_volume_measured" not in tank(content_of(as_if_current)).values


def test_steps_are_taken_in_order_and_only_from_the_schema_on() -> None:
    book = Book("a.xlsx", {}, {"a": desk.base("metric").names["tanks_tank"]}, {})
    steps = (Step("second", 1, renamed({"b": "c"})), Step("first", 0, renamed({"a": "b"})))
    assert [list(migrated(book, schema, steps).names) for schema in (0, 1, 2)] == [["c"], ["a"], ["a"]]


# --- what is meant by a cell ---


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [("12,5", "cm", 12.5), ("12.5 cm", "cm", 12.5), ("24 °C", "degC", 24), ("1.234,5", "L", 1234.5), ("1,234.5", "L", 1234.5), ("-3", "degC", -3),
     ("\u22123", "degC", -3), ("30 %", "1", 0.3), ("0,125", "1", 0.125), ("1\u202f200", "L", 1200), ("81", "1", 81), ("1e3", "L", 1000)],
)  # fmt: skip
def test_numbers_typed_as_text(text: str, unit: str, value: float) -> None:
    assert number_in(text, unit) == value


@pytest.mark.parametrize("text", ["1,234", "about 5", "5-6", "12 in", "1.2.3", "", "½", "٣", "nan", "inf", "1,2,3"])
def test_texts_that_are_no_number(text: str) -> None:
    with pytest.raises(NO_VALUE):
        number_in(text, "cm")


@pytest.mark.parametrize(
    "held",
    [
        DAY,
        datetime.datetime(2026, 3, 31, 23, 59),
        46112,
        46112.4,
        46112.8,
        "31.3.2026",
        "31/3/2026",
        "3/31/2026",
        "2026-03-31T10:00",
        "46112",
    ],
)
def test_days(held: Any) -> None:
    assert understood(held, date(), "date", None, EPOCH) == DAY


@pytest.mark.parametrize("held", ["3/4/2026", 12, 1e9, True, "soon", datetime.time(1), float("inf")])
def test_what_is_no_day(held: Any) -> None:
    with pytest.raises(NO_VALUE):
        understood(held, date(), "date", None, EPOCH)


def test_other_kinds() -> None:
    assert understood(True, choice("yes", "no"), "", None, EPOCH) == "yes"
    assert understood(60.0, key(), "", None, EPOCH) == "60"
    assert understood("Long\u00a0 tank ", key(), "", None, EPOCH) == "Long tank"
    assert understood(3.0, count(1, 5), "1", None, EPOCH) == 3
    for held, kind in (
        (3.5, count(1, 5)),
        (9, count(1, 5)),
        (True, number()),
        ("#N/A", key()),
        ("a*b", key()),
        (float("nan"), number()),
    ):
        with pytest.raises(NO_VALUE):
            understood(held, kind, "1", None, EPOCH)


@pytest.mark.parametrize("unit", US)
def test_a_converted_value_comes_back_as_it_was_typed(unit: str) -> None:
    other = US[unit]
    for tenths in range(-400, 4000, 7):
        typed = tenths / 10
        assert other.shown(other.base(typed)) == typed
        assert other.base(other.shown(typed)) == typed


def test_limits_of_a_cell_in_inches_are_those_in_centimetres() -> None:
    """The rule of the cell shows rounded limits; what it lets through is a value."""
    kind = number(2, 1000)
    assert understood(US["cm"].shown(2), kind, "cm", US["cm"], EPOCH) == 2
    assert understood(US["cm"].shown(1000), kind, "cm", US["cm"], EPOCH) == 1000


def test_formulas_of_open_documents() -> None:
    assert (
        plain_formula("of:=IF([.$B$12]=\"a;[.b]\";MAX([$'Water changes'.$B$12:.C3];2))")
        == "=IF($B$12=\"a;[.b]\",MAX('Water changes'!$B$12:C3,2))"
    )


def test_labels_tell_the_columns_of_each_list_apart() -> None:
    for table in EDITIONS["keeper"]().tables:
        if table.is_list:
            labels = [column.label for column in table.typed]
            assert len(labels) == len(set(labels)), table.key
