"""Whatever people do to a workbook, what they typed is read back, and carried over into a fresh one."""

import datetime
import math
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from tests import desk, office
from tests.desk import FORMS, LISTS, Desk
from tests.effort import examples
from workbook.build import Plan, compute, own_page
from workbook.cells.compiling import Compiler
from workbook.cells.pages import Page
from workbook.cells.placing import Placing
from workbook.copies.carrying import KEPT_ASIDE, carried
from workbook.copies.content import Content
from workbook.copies.grids import Area, Book, Grid, Raw
from workbook.copies.reading import content_of, read_copy
from workbook.editions import SCHEMA
from workbook.findings import BadInputError
from workbook.tables.units import written

PLAN = Plan(spare_rows=2, plan_date=desk.PLAN_DATE)
PHASES = (Phase.explicit, Phase.generate)  # shrinking sequences takes minutes; a failure names all its edits
SEQUENCES = examples(8, 500, 16)  # of each unit system
FILES, EDITS = examples(1, 6, 2), examples(25, 10)
SAVED = examples(1, 10, 2)


def same(wanted: Any, found: Any) -> bool:
    """Equal, but for the last digits of a converted number."""
    if isinstance(wanted, float | int) and isinstance(found, float | int):
        return math.isclose(wanted, found, rel_tol=1e-9, abs_tol=1e-9)
    return wanted == found


def differences(made: Desk, content: Content) -> list[str]:
    """What was typed and is not read so, in words."""
    found = []
    for table in LISTS:
        wanted = made.typed[table.key]
        # Sorted into the order of the sheet; rows in which nothing is left are no rows.
        order = sorted(range(len(wanted)), key=lambda i: made.rows[table.key][i])
        rows = []
        for i in order:
            unread = {c: words for (k, j, c), words in made.unread.items() if (k, j) == (table.key, i)}
            notes = {c: words for (k, j, c), words in made.notes.items() if (k, j) == (table.key, i)}
            added = {header: cells[i] for header, cells in made.added.get(table.key, {}).items() if i in cells}
            if wanted[i] or unread or notes or added:
                rows.append((wanted[i], unread, added, notes))
        entries = content.tables[table.key]
        if len(rows) != len(entries):
            found.append(f"{table.key}: {len(entries)} rows instead of {len(rows)}")
            continue
        for i, (row, entry) in enumerate(zip(rows, entries, strict=True)):
            for what, meant, read in zip(
                ("value", "unread", "added", "note"),
                row,
                (entry.values, entry.unread, entry.added, entry.notes),
                strict=True,
            ):
                found += [f"{table.key}[{i}] {what} {key}: {read.get(key)!r} instead of {meant.get(key)!r}"
                          for key in {*meant, *read} if not same(meant.get(key), read.get(key))]  # fmt: skip
    for table in FORMS:
        meant, read = made.typed[table.key][0], content.tables[table.key][0].values
        found += [
            f"{table.key} {key}: {read.get(key)!r} instead of {meant.get(key)!r}"
            for key in {*meant, *read}
            if not same(meant.get(key), read.get(key))
        ]
    sheets = {sheet.title: sheet.cells for sheet in content.added_sheets}
    if sheets != made.sheets:
        found.append(f"sheets {sheets} instead of {made.sheets}")
    return found


def as_book(placing: Placing, pages: list[Page], units: str) -> Book:
    """A fresh workbook as sheets of cells, without going through a file."""
    grids = {}
    for page in pages:
        grid = grids[page.placed.sheet.title] = Grid(page.placed.sheet.title, notes=dict(page.notes))
        for cell in page.cells:
            if cell.kind == "formula":
                grid.cells[cell.row, cell.column] = Raw(None, str(cell.content))
            elif cell.kind != "blank":
                value: Any = cell.content
                if cell.style[1] == "date" and isinstance(value, int):
                    value = datetime.datetime(1899, 12, 30) + datetime.timedelta(days=value)
                grid.cells[cell.row, cell.column] = Raw(value)
        for run in page.runs:
            rows = range(run.first_row, run.first_row + run.rows)
            grid.cells.update(dict.fromkeys(((row, run.column) for row in rows), Raw(None, "=formula")))
    names = {name.casefold(): Area(*place) for name, place in placing.names().items()}
    facts = {"shoalbook schema": str(SCHEMA), "shoalbook edition": "keeper", "shoalbook units": units}
    return Book("fresh.xlsx", grids, names, facts)


def rebuilt(content: Content, units: str) -> Content:
    """What a fresh workbook of a content holds."""
    plan = Plan(units=units, spare_rows=2, plan_date=desk.PLAN_DATE)
    made = carried(content, plan)
    placing, records = made.placing, made.edition.given | {"about": [{}]} | made.records
    shown = [row | {"unit": written(str(row["unit"])) or "share or number"} for row in records["constants"]]
    pages = Compiler(placing, records | {"constants": shown}).pages()
    for page in pages:
        page.notes.update(made.extras.notes.get(page.placed.sheet.title, {}))
    pages += [own_page(title, cells) for title, cells in made.extras.sheets.items()]
    return content_of(as_book(placing, pages, units))


def compared(before: Content, after: Content) -> list[str]:
    """What a fresh workbook holds otherwise than the content it was built of."""
    found = []
    for key, entries in before.tables.items():
        others = after.tables[key]
        # Rows that only held what could not be read are blank rows now.
        kept = [e for e in entries if e.values or e.added or e.notes or len(entries) == len(others)]
        if len(kept) != len(others):
            found.append(f"{key}: {len(others)} rows instead of {len(kept)}")
            continue
        for one, other in zip(kept, others, strict=True):
            found += [f"{key} {k}: {other.values.get(k)!r} instead of {one.values.get(k)!r}"
                      for k in {*one.values, *other.values} if one.values.get(k) != other.values.get(k)]  # fmt: skip
            if (one.added, one.notes) != (other.added, other.notes):
                found.append(f"{key}: {other.added}, {other.notes} instead of {one.added}, {one.notes}")
    aside = {sheet.title: sheet.cells for sheet in after.added_sheets}
    lines = {str(words) for (row, column), words in aside.pop(KEPT_ASIDE, {}).items() if column == 4 and row > 1}
    unread = {words for entries in before.tables.values() for entry in entries for words in entry.unread.values()}
    if lines != unread:
        found.append(f"kept aside {lines} instead of {unread}")
    if aside != {sheet.title: sheet.cells for sheet in before.added_sheets}:
        found.append(f"sheets {aside}")
    return found


@pytest.mark.parametrize("units", ["metric", "us"])
@settings(max_examples=SEQUENCES, deadline=None, database=None, suppress_health_check=list(HealthCheck), phases=PHASES)
@given(seed=st.integers(0, 2**32), edits=st.integers(0, 12), turned=st.booleans())
def test_what_was_typed_is_read_and_carried_over(units: str, seed: int, edits: int, turned: bool) -> None:
    made = Desk.fresh(units, seed)
    for _ in range(edits):
        made.edit()
    content = content_of(made.book)
    assert differences(made, content) == [], made.done
    if seed % 2:  # to compile a fresh workbook takes most of the time
        return
    other = {"metric": "us", "us": "metric"}[units] if turned else units
    assert compared(content, rebuilt(content, other)) == [], made.done


@pytest.mark.parametrize("units", ["metric", "us"])
def test_real_files_of_edited_workbooks(units: str, tmp_path: Path) -> None:
    for seed in range(FILES):
        made = Desk.fresh(units, seed, formulas=False)  # openpyxl saves no values of formulas
        for _ in range(EDITS):
            made.edit()
        assert differences(made, read_copy(desk.write(made, tmp_path / f"{seed}.xlsx"))) == [], made.done


@pytest.mark.office
@pytest.mark.parametrize("form", examples(0, 1) * ["xlsx"] + ["ods"])
def test_edited_workbooks_that_libreoffice_saved(form: str, tmp_path: Path) -> None:
    desks, paths = [], []
    for seed in range(SAVED):
        made = Desk.fresh("us" if seed % 2 else "metric", 100 + seed)
        for _ in range(EDITS):
            made.edit()
        desks.append(made)
        paths.append(desk.write(made, tmp_path / f"{seed}.xlsx"))
    for made, path in zip(desks, office.resaved(paths, tmp_path / "out", form), strict=True):
        assert differences(made, read_copy(path)) == [], made.done


def test_a_file_that_is_only_partly_ours_is_refused_or_read(tmp_path: Path) -> None:
    made = Desk.fresh("metric", 1)
    made.book.names, made.book.facts = {}, {}
    made.book.grids = {"Other": Grid("Other", {(1, 1): Raw("something else")})}
    with pytest.raises(BadInputError, match="no table of ours"):
        read_copy(desk.write(made, tmp_path / "other.xlsx"))


def test_carrying_evaluates(tmp_path: Path) -> None:
    made = carried(content_of(desk.base("us")), PLAN)
    assert compute(made.edition, made.records, PLAN, extras=made.extras).verdict
