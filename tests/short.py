"""Workbooks with short answers: where the size of a file is not the point, lists that fill themselves have few lines."""

import contextlib
from collections.abc import Iterator, Mapping
from unittest import mock

from workbook import build
from workbook.cells.pages import Records
from workbook.tables.table import Table

LONG, KEPT = 20, 8
IN_FULL = build.rows_of
GRIDS = {"compared", "pairs", "kinds"}  # grids read as many lines as there may be


@contextlib.contextmanager
def answers(*whole_ones: str) -> Iterator[None]:
    """All that is built meanwhile but these tables; whoever asks for a number of rows gets it.

    A book is the same whichever file asks for it first: what was cut around this counts for nothing.
    """

    def rows_of(
        tables: tuple[Table, ...], records: Records, spare_rows: int, asked: Mapping[str, int] | None = None
    ) -> dict[str, int]:
        found = IN_FULL(tables, records, spare_rows, asked)
        cut = {t.key for t in tables if t.lines > LONG or t.lines_each} - GRIDS - {*whole_ones, *(asked or {})}
        while more := {t.key for t in tables if t.rows_of in cut} - cut:
            cut |= more
        return found | {key: min(found[key], KEPT) for key in cut}

    with mock.patch.object(build, "rows_of", rows_of):
        yield


@contextlib.contextmanager
def in_full() -> Iterator[None]:
    """All that is built meanwhile is as people get it."""
    with mock.patch.object(build, "rows_of", IN_FULL):
        yield
