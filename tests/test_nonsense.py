"""Whatever is typed, pasted or deleted: no cell of a workbook ever shows an error, it stays blank where nothing follows.

Each typed cell of a small room gets a 0, a negative number, words, a day and nothing. Many cells of a file are changed
at a time, in each row few of them, so that one call of the office program answers for all.
"""

import datetime
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from openpyxl.utils import get_column_letter

from tests import books, office, small_room
from tests.effort import examples, long
from workbook.build import Plan, compute, save
from workbook.cells.pages import Records
from workbook.cells.placing import Placing
from workbook.cells.slots import Slot
from workbook.tables.columns import Typed

VALUES: tuple[office.Value, ...] = (0.0, -3.0, "words", float((datetime.datetime(2026, 3, 31) - office.EPOCH).days), "")
ERROR = re.compile(r"#(N/A|[A-Z/0]+[!?])|Err:\d+")
OF_CONSTANTS = VALUES if long() else (0.0, "words", "")
FILES, FILES_OF_CONSTANTS = {"keeper": examples(7, 12), "shop": 4, "club": 4}, len(OF_CONSTANTS)
DAY = datetime.date(2026, 4, 15)
Edit = tuple[office.At, office.Value]


def few_rows(edition: str) -> Records:
    """What a keeper, a shop or a club starts with, of each list a few rows."""
    return {key: rows if key in {"settings", "constants", "body_forms"} else rows[:4] for key, rows in books.few(edition).items()}  # fmt: skip


def typed(placing: Placing, table: str) -> list[tuple[int, Slot]]:
    """The columns of a table that people type in, and may."""
    return [
        (slot.at, slot)
        for slot in placing.tables[table].slots
        if isinstance(slot.column, Typed)
        and slot.shows != "from typed"
        and not (slot.column.locked or slot.column.free)
    ]


def row_by_row(placing: Placing, records: Records, table: str) -> Iterator[list[Edit]]:
    """For each row in which something stands, every edit of its cells; one column after the other."""
    here, columns = placing.tables[table], typed(placing, table)
    if here.table.form:
        yield [((here.sheet, at, here.across), value) for value in VALUES for at, _ in columns]
    else:
        for row in range(here.first_row, here.first_row + max(1, len(records.get(table, [])))):
            yield [((here.sheet, row, at), value) for value in VALUES for at, _ in columns]


def dealt(placing: Placing, records: Records, tables: list[str], many: int) -> list[dict[office.At, office.Value]]:
    """The edits dealt to files: of a row of constants one, of other rows as few as can be.

    The first rows of a list share its columns out: an edit is the same in each of them.
    """
    files: list[dict[office.At, office.Value]] = [{} for _ in range(many + FILES_OF_CONSTANTS)]
    for table in tables:
        rows = [edits for edits in row_by_row(placing, records, table) if edits]
        if placing.tables[table].table.given:
            for number, edits in enumerate(rows):
                for turn, (at, value) in enumerate(edit for edit in edits if edit[1] in OF_CONSTANTS):
                    files[many + (turn + number % 2) % FILES_OF_CONSTANTS][at] = value
        else:
            for number, edits in enumerate(rows):
                for turn, (at, value) in enumerate(edits[number :: len(rows)]):
                    files[(turn + 7 * number) % many][at] = value
    return [edits for edits in files if edits]


def errors(path: Path, files: list[dict[office.At, office.Value]], folder: Path) -> list[str]:
    """Every cell that shows an error in LibreOffice, with the edits of its file."""
    edited = [office.forced(path, folder / f"{number}.xlsx", edits) for number, edits in enumerate(files)]
    found = []
    for edits, cells in zip(files, office.recalculated(edited, folder / "shown"), strict=True):
        said = {f"{sheet}!{get_column_letter(column)}{row}": value for (sheet, row, column), value in edits.items()}
        wrong = [
            f"{sheet}!{get_column_letter(column)}{row}: {value}"
            for (sheet, row, column), value in cells.items()
            if isinstance(value, str) and ERROR.fullmatch(value)
        ]
        found += [f"{wrong[:6]} after {said}"] if wrong else []
    return found


@pytest.mark.office
@pytest.mark.thorough  # in every run tests/test_first_hour.py and tests/test_forms.py type such things into a few cells
@pytest.mark.parametrize("edition", ["keeper", "shop", "club"])
def test_no_cell_ever_shows_an_error(edition: str, tmp_path: Path) -> None:
    """In a shop and a club what a keeper's workbook has not."""
    made = small_room.short_edition(edition)
    records = small_room.records(tmp_path / "room") if edition == "keeper" else few_rows(edition)
    plan = Plan(edition, spare_rows=1, plan_date=DAY)
    built, path = compute(made, records, plan), tmp_path / "room.xlsx"
    save(path, built, plan)
    known = {sheet.title for sheet in small_room.short_edition().sheets} if edition != "keeper" else set()
    tables = [
        key for key, here in built.placing.tables.items() if here.sheet not in known and typed(built.placing, key)
    ]
    files = dealt(built.placing, records, tables, FILES[edition])
    assert not errors(path, files, tmp_path)
