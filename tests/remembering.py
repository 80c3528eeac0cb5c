"""What a worker has worked out once it need not work out again: formulas of tables that lie alike, sheets that are the same to the byte.

Most files of a test run hold the same sheets but one, and lie as others do. Tests that are about reading itself read anew.
"""

import contextlib
import copy
import hashlib
import zipfile
import zlib
from collections import OrderedDict
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any
from unittest import mock

from workbook import build
from workbook.cells.compiling import Compiler
from workbook.cells.pages import Cell, Run
from workbook.cells.placing import Placed, Placing, Slot
from workbook.copies.grids import At, Raw
from workbook.copies.untrusted import MOST_CELLS, MOST_ELEMENTS
from workbook.copies.xlsx_cells import Cells
from workbook.tables import sheet
from workbook.tables.schema import Schema

Area = tuple[str, int, int, int, int]
COMPILE, LIST, FORM, READ = Compiler._runs, Compiler._table, Compiler._form, Cells.read
NAMES = Placing.names
MOST_TABLES, MOST_LISTED, MOST_LAYOUTS, MOST_SHEETS, LARGEST_SHEET = 3_000, 3_000, 20, 400, 3_000_000
LAID_OUT: "OrderedDict[tuple[object, ...], Placing]" = OrderedDict()
COMPILED: OrderedDict[tuple[object, ...], tuple[Schema, list[Run]]] = OrderedDict()
CELLS: OrderedDict[tuple[object, ...], tuple[Schema, list[Cell]]] = OrderedDict()
NAMED: OrderedDict[int, tuple[dict[str, Placed], dict[str, Area]]] = OrderedDict()
SHEETS: OrderedDict[tuple[object, ...], "Sheet"] = OrderedDict()


@dataclass(frozen=True)
class Sheet:
    """What was read of a sheet, and how much was seen of it."""

    cells: dict[At, Raw]
    passed: tuple[frozenset[int], frozenset[int]]
    shared: dict[At, object]
    elements: int
    filled: int
    merged: int


def runs(compiler: Compiler, here: Placed, slots: list[Slot]) -> list[Run]:
    """The formulas of a table, compiled once for all workbooks in which everything lies in the same places."""
    key = _place(compiler, here, slots[0].sheet)
    if key not in COMPILED:
        # The schema is kept, so that nobody else gets its id.
        COMPILED[key] = compiler.placing.schema, list(COMPILE(compiler, here, slots))
    return _used(COMPILED, key, MOST_TABLES)[1]


def of_list(compiler: Compiler, here: Placed, slots: list[Slot]) -> list[Cell]:
    """The single cells of a list, once for all workbooks in which it lies alike and the same is typed."""
    key = *_place(compiler, here, slots[0].sheet), repr(compiler.records.get(here.table.key))
    if key not in CELLS:
        CELLS[key] = compiler.placing.schema, list(LIST(compiler, here, slots))
    return _used(CELLS, key, MOST_LISTED)[1]


def of_form(compiler: Compiler, here: Placed) -> list[Cell]:
    """The same of a form."""
    key = *_place(compiler, here, here.sheet), repr(compiler.records.get(here.table.key))
    if key not in CELLS:
        CELLS[key] = compiler.placing.schema, list(FORM(compiler, here))
    return _used(CELLS, key, MOST_LISTED)[1]


def _place(compiler: Compiler, here: Placed, sheet: str) -> tuple[object, ...]:
    """What decides where a table lies and what its formulas look at."""
    placing = compiler.placing
    return (
        id(placing.schema),
        here.table.key,
        sheet,
        placing.system,
        tuple(placing.rows.items()),
        tuple(placing.row_names),
    )


def placed(schema: Schema, sheets: tuple[sheet.Sheet, ...], rows: dict[str, int], system: str) -> Placing:
    """Where everything lies; a layout is made once, but for the names of rows, which are given afterwards."""
    key = id(schema), tuple(rows.items()), system  # one schema for each tuple of sheets
    if key not in LAID_OUT:
        LAID_OUT[key] = Placing(schema, sheets, rows, system)
    found = copy.copy(_used(LAID_OUT, key, MOST_LAYOUTS))
    found.row_names = {}
    return found  # type: ignore[no-any-return]


def names(placing: Placing) -> dict[str, Area]:
    """Every defined name; those of tables once a layout."""
    key = id(placing.tables)
    if key not in NAMED:
        without = copy.copy(placing)
        without.row_names = {}
        NAMED[key] = placing.tables, NAMES(without)  # kept as above
    return placing.row_names | _used(NAMED, key, MOST_LAYOUTS)[1]


def _used(kept: "OrderedDict[Any, Any]", key: object, most: int) -> Any:
    """What is kept under a key; of too much the one that was asked for longest ago goes."""
    kept.move_to_end(key)
    if len(kept) > most:
        kept.popitem(last=False)
    return kept[key]


def _meaning(reader: Cells) -> bytes:
    """What decides how values of the reader's file are told; worked out once a file."""
    kept = vars(reader.made)
    if "digest" not in kept:
        told = reader.meaning
        words = repr((list(told.texts), sorted(told.days), sorted(told.spans), told.epoch))
        kept["digest"] = hashlib.blake2b(words.encode()).digest()
    found: bytes = kept["digest"]
    return found


# The last is what zipfile says of a way of packing that it does not know.
UNREADABLE = zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError


def read(reader: Cells, archive: zipfile.ZipFile) -> None:
    """The cells of a sheet; those of one that was read before, to the byte and with the same meaning, are known."""
    if not 0 < archive.getinfo(reader.part).file_size <= LARGEST_SHEET:
        READ(reader, archive)
        return
    try:
        content = archive.read(reader.part)
    except UNREADABLE:
        READ(reader, archive)  # which says in its own words what is wrong
        return
    passed = tuple(sorted((at, rows.start, rows.stop) for at, rows in reader.passed.rows.items()))
    key = hashlib.blake2b(content).digest(), _meaning(reader), passed, reader.part
    budget, grid = reader.budget, reader.grid
    before = budget.elements, budget.cells, budget.merged
    known = SHEETS.get(key)
    if known is None:
        READ(reader, archive)
        spent = budget.elements - before[0], budget.cells - before[1], budget.merged - before[2]
        ours = frozenset(grid.passed[0]), frozenset(grid.passed[1])
        SHEETS[key] = Sheet(dict(grid.cells), ours, dict(grid.shared), *spent)
        _used(SHEETS, key, MOST_SHEETS)
    elif before[0] + known.elements > MOST_ELEMENTS or before[1] + known.filled > MOST_CELLS:
        READ(reader, archive)
    else:
        reader.made.unread.discard(reader.part)
        budget.elements, budget.cells, budget.merged = (
            before[0] + known.elements, before[1] + known.filled, before[2] + known.merged
        )  # fmt: skip
        grid.cells |= _used(SHEETS, key, MOST_SHEETS).cells
        grid.passed[0].update(known.passed[0])
        grid.passed[1].update(known.passed[1])
        grid.shared |= known.shared


@contextlib.contextmanager
def compiled() -> Iterator[None]:
    """What lies alike is laid out and its formulas compiled once meanwhile."""
    once = mock.patch.multiple(Compiler, _runs=runs, _table=of_list, _form=of_form)
    with once, mock.patch.object(build, "Placing", placed), mock.patch.object(Placing, "names", names):
        yield


@contextlib.contextmanager
def sheets() -> Iterator[None]:
    """Sheets are read once meanwhile."""
    with mock.patch.object(Cells, "read", read):
        yield
