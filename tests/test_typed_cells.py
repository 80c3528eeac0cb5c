"""What the written file says of its cells: the rule of each that people type in, and which rows go on a printed page."""

import datetime
import functools
import re
import tempfile
from collections import defaultdict
from pathlib import Path
from typing import Any, NamedTuple

import openpyxl
import pytest
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.worksheet import Worksheet

from tests.oracles.typed_cells import RULES
from workbook.build import Plan, compiled, read, templates_folder
from workbook.cells.placing import Placing
from workbook.cells.slots import Slot
from workbook.editions import EDITIONS
from workbook.files.xlsx_writing import About, write
from workbook.tables.columns import Typed

# A shop or a club has the sheets of a keeper, too.
FILES = [("keeper", "us"), ("shop", "metric"), ("club", "metric")]
# By definition: inch, US gallon of 231 cubic inches, foot, avoirdupois pound and ounce; °F = 1.8 °C + 32.
IN_US = {"cm": (1 / 2.54, 0), "L": (1 / 3.785411784, 0), "L/h": (1 / 3.785411784, 0), "degC": (1.8, 32), "m": (1 / 0.3048, 0), "kg": (1 / 0.45359237, 0)}  # fmt: skip
OUNCES = {("foods", "stock"), ("foods", "pack_mass"), ("hatching", "stock")}  # bought by the pack
EPOCH = datetime.date(1899, 12, 30)
SHOWN = "x"
SPARE = 8  # more than two pages of cards
# What would act as a pattern, or part a sentence, in a name.
NOT_IN_NAMES = ("~*", "~?", "~~", "¦", "→")


class Written(NamedTuple):
    """What is looked at: where everything lies, the file as read back, and every check by sheet and cells."""

    placing: Placing
    book: openpyxl.Workbook
    checks: dict[tuple[str, str], DataValidation]


@functools.cache
def written(edition: str, units: str) -> Written:
    """An empty workbook of an edition without its formulas, as if each of them showed something."""
    made, folder = EDITIONS[edition](), "blank" if edition == "keeper" else f"{edition}-blank"
    records = read(templates_folder() / folder, made)
    placing, pages = compiled(made, records, Plan(edition, units=units, spare_rows=SPARE))
    for page in pages:
        page.runs = []
        page.cells = [cell for cell in page.cells if cell.kind != "formula"]
    path = Path(tempfile.mkdtemp(prefix="cells-")) / "cells.xlsx"
    write(path, pages, defaultdict(lambda: SHOWN), placing, About("cells", {}))
    book = openpyxl.load_workbook(path)
    checks = {(sheet.title, str(v.sqref)): v for sheet in book for v in sheet.data_validations.dataValidation}
    return Written(placing, book, checks)


def typed_slots(placing: Placing) -> list[tuple[str, Slot]]:
    """Every column that people type in, where its content does not come with the package."""
    return [
        (key, slot)
        for key, here in placing.tables.items()
        for slot in here.slots
        if isinstance(slot.column, Typed) and slot.shows != "from typed" and not slot.column.locked
    ]


def rule_of(table: str, key: str) -> str:
    """What is stated of a column; a club and its members say the same of a column each."""
    rules = {name: rule for rule, names in RULES[table].items() for name in names.split()}
    return rules.get(key) or rules[key.removeprefix("club_").removeprefix("own_")]


def area_of(placing: Placing, table: str, slot: Slot) -> str:
    """Where the column's cells are."""
    here = placing.tables[table]
    at = openpyxl.utils.get_column_letter(here.across if here.table.form else slot.at)
    if here.table.form:
        return f"{at}{slot.at}"
    return f"{at}{here.first_row}:{at}{here.last_row}" if here.rows > 1 else f"{at}{here.first_row}"


def behind_what_is_handed_out(checks: dict[tuple[str, str], DataValidation], title: str, where: str) -> str:
    """The cells of a list below those that were handed out: these only ask before they change."""
    first, last = where.split(":")
    column = first.rstrip("0123456789")
    for sheet, cells in [at for at in checks if at[0] == title]:
        begins, _, ends = cells.partition(":")
        if begins == first and ends != last and column == ends.rstrip("0123456789"):
            asking = checks.pop((sheet, cells))
            assert (asking.type, asking.errorStyle) == ("custom", "warning")
            return f"{column}{int(ends.removeprefix(column)) + 1}:{last}"
    return where


def limits(rule: str, table: str, key: str, units: str) -> tuple[float, float]:
    """The ends of a range, in the unit that the file shows."""
    ends, _, unit = rule.removeprefix("whole ").partition(" ")
    low, high = (float(end) for end in ends.split(".."))
    factor, more = IN_US.get(unit, (1, 0)) if units == "us" else (1, 0)
    if units == "us" and (table, key) in OUNCES:
        factor = 1 / 28.349523125
    return low * factor + more, high * factor + more


def broken(rule: str, found: DataValidation, numbers: tuple[float, float] | None) -> list[str]:
    """What of a check is not as its rule has it."""
    first = str(found.sqref).partition(":")[0]
    if rule == "name":
        tests = ",".join(f'ISERROR(SEARCH("{mark}",{first}))' for mark in NOT_IN_NAMES)
        wanted: tuple[Any, ...] = ("custom", None, f"AND(LEN({first})<=60,{tests})", None)
    elif rule == "words":
        wanted = ("textLength", "lessThanOrEqual", "2000", None)
    elif rule.startswith("one of "):
        wanted = ("list", None, '"' + rule.removeprefix("one of ").replace("|", ",") + '"', None)
    elif rule.startswith(("in ", "words, offered ")):
        there = rule.removeprefix("words, offered ").removeprefix("in ").split()[0]
        form = f"{rule.partition(' by ')[2]}_" if " by " in rule else ""
        wanted = ("list", None, f"{form}{there}_dropdown", None)
    elif rule == "day":
        first_day, last_day = datetime.date(1970, 1, 1) - EPOCH, datetime.date(2150, 12, 31) - EPOCH
        wanted = ("whole", None, str(first_day.days), str(last_day.days))
    else:
        assert numbers
        kind = "whole" if rule.startswith("whole ") else "decimal"
        ends = (float(found.formula1), float(found.formula2))
        near = kind == found.type and ends == pytest.approx(numbers, rel=1e-11, abs=1e-11)
        return [] if near else [f"{found.type} {ends}"]
    operator = None if found.operator == "between" else found.operator
    have = (found.type, operator, found.formula1, found.formula2)
    return [] if have == wanted else [f"{have} instead of {wanted}"]


# The names of each list, by which a dropdown is filled.
LISTS = {
    "tanks": "tanks_tank", "species": "species_species", "waters": "waters_water", "foods": "foods_food", "hatching": "hatching_cysts",
    "suppliers": "suppliers_supplier", "tasks": "tasks_task", "body_forms": "body_forms_form",
}  # fmt: skip


@pytest.mark.parametrize(("edition", "units"), FILES)
def test_every_typed_cell_has_the_rule_that_is_stated(edition: str, units: str) -> None:
    placing, _, checks = written(edition, units)
    left, wrong = dict(checks), []
    for table, slot in typed_slots(placing):
        key, where = slot.column.key, area_of(placing, table, slot)
        if slot.column.handed and placing.tables[table].table.is_list:
            where = behind_what_is_handed_out(left, placing.tables[table].sheet, where)
        rule, found = rule_of(table, key), left.pop((placing.tables[table].sheet, where), None)
        if found is None:
            wrong.append(f"{table}.{key}: no check at {where}")
            continue
        numbers = limits(rule, table, key, units) if ".." in rule else None
        wrong += [f"{table}.{key}: {what}, stated {rule}" for what in broken(rule, found, numbers)]
        # A name of a list must stand there, also a blank one; words that mean something besides may be insisted on, and of a
        # list cut to one group no program can tell other names from unknown ones.
        stops = not rule.startswith("words, offered ")
        style = "warning" if rule.startswith("in ") and (" or " in rule or " by " in rule) else "stop"
        blanks = not rule.startswith(("in ", "words, offered "))
        have = (bool(found.showErrorMessage), found.errorStyle or "stop", bool(found.allow_blank))
        if have != (stops, style, blanks):
            wrong.append(f"{table}.{key}: {have} instead of {(stops, style, blanks)}")
    assert not wrong, "\n".join(wrong)
    assert not left, "checks of cells that nobody types in"


def test_every_rule_is_of_a_column() -> None:
    found: dict[str, set[str]] = {}
    for edition, units in FILES:
        for table, slot in typed_slots(written(edition, units).placing):
            found.setdefault(table, set()).update({slot.column.key, slot.column.key.removeprefix("club_")})
    stated = {table: {key for keys in rules.values() for key in keys.split()} for table, rules in RULES.items()}
    assert {table: keys - found[table] for table, keys in stated.items() if keys - found[table]} == {}


@pytest.mark.parametrize(("edition", "units"), FILES)
def test_names_of_lists_fill_their_dropdowns(edition: str, units: str) -> None:
    """The name that a dropdown asks for covers the names of the whole list, ready rows and all."""
    placing, book, _ = written(edition, units)
    for table, name in LISTS.items():
        if table in placing.tables:
            here = placing.tables[table]
            key = name.removeprefix(f"{table}_")
            [slot] = [s for s in here.on(here.sheet) if s.column.key == key and s.shows in {"typed", "base"}]
            at = openpyxl.utils.get_column_letter(slot.at)
            wanted = f"'{here.sheet}'!${at}${here.first_row}:${at}${here.last_row}"
            assert book.defined_names[name].attr_text == wanted


def test_flags_are_coloured_by_their_sign_sheets_reckon_at_once_and_can_be_filtered() -> None:
    """On sheets that a club protects, too."""
    book = written("club", "metric").book
    told = {
        str(f) for sheet in book for area in sheet.conditional_formatting for rule in area.rules for f in rule.formula
    }
    for sign in "▲◆○":
        by_sign = [text for text in told if text.endswith(f'="{sign}"')]
        assert by_sign
        assert [text for text in by_sign if not re.fullmatch(rf'LEFT\([A-Z]+\d+,1\)="{sign}"', text)] == []
    assert book.calculation.calcMode in {None, "auto"}  # what it is where nothing is said
    protected = [sheet for sheet in book if sheet.protection.sheet]
    assert protected
    assert [sheet.title for sheet in protected if sheet.protection.autoFilter] == []


# --- rows of printed pages ---

# Labels on a sheet of paper, across and down, and how many millimetres high; a label has five lines.
LABELS = {
    "Labels A4 24": (3, 8, 36), "Labels A4 8": (2, 4, 70), "Labels Letter 30": (3, 10, 25.4),
    "Labels Letter 10": (2, 5, 2 * 25.4),
}  # fmt: skip
LABEL_LINES, CARDS_A_PAGE, PIXELS, USUAL = 5, 3, 96 / 25.4, 15  # USUAL: points of a row of which nothing is said


def breaks(sheet: Worksheet) -> list[int]:
    """The rows after which a page ends."""
    return [brk.id for brk in sheet.row_breaks.brk]


@pytest.mark.parametrize(("edition", "units"), FILES)
def test_the_heads_of_every_list_are_repeated_on_each_page(edition: str, units: str) -> None:
    """From the row of labels to the row of units; not the caption above, nor names that run upwards in a grid's last head row."""
    placing, book, _ = written(edition, units)
    wrong = []
    for title, placed in placing.sheets.items():
        sheet, tables = book[title], [placing.tables[t.key] for t in placed.sheet.tables if not t.form]
        if (
            not placed.sheet.blocks
            or not tables
            or not placed.sheet.on_paper
            or placed.sheet.role in {"detail", "workings"}
        ):
            assert sheet.print_title_rows is None, title
            continue
        labels = {
            row
            for table in tables
            for slot in table.slots
            for row in range(1, table.first_row)
            if slot.column.label and str(sheet.cell(row, slot.at).value or "").startswith(slot.column.label)
        }
        upright = any(slot.column.look.upright for table in tables for slot in table.slots)
        wanted = f"${max(labels)}:${tables[0].first_row - 1 - upright}"
        wrong += [] if sheet.print_title_rows == wanted else [f"{title}: {sheet.print_title_rows} instead of {wanted}"]
    assert not wrong


@pytest.mark.parametrize("title", LABELS)
def test_a_printed_page_holds_whole_rows_of_labels(title: str) -> None:
    across, down, high = LABELS[title]
    sheet = written("shop", "metric").book[title]
    left, top, right, bottom = openpyxl.utils.range_boundaries(
        str(sheet.print_area).rpartition("!")[2].replace("$", "")
    )
    a_page, pages = down * LABEL_LINES, 480 // (across * down)
    assert bottom - top + 1 == pages * a_page
    assert breaks(sheet) == [top - 1 + page * a_page for page in range(1, pages)]
    heights = [(sheet.row_dimensions[row].height or USUAL) * 96 / 72 for row in range(top, top + LABEL_LINES)]
    assert sum(heights) == pytest.approx(high * PIXELS, abs=1)
    assert (right - left + 1) % across == 0


def test_a_printed_page_holds_three_cards() -> None:
    sheet = written("keeper", "us").book["Cards"]
    _, top, _, bottom = openpyxl.utils.range_boundaries(str(sheet.print_area).rpartition("!")[2].replace("$", ""))
    assert breaks(sheet) == list(range(top - 1 + CARDS_A_PAGE, bottom, CARDS_A_PAGE))
