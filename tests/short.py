"""Workbooks with short answers: where the size of a file is not the point, lists that fill themselves have few lines."""

import contextlib
from collections import Counter
from collections.abc import Iterator, Mapping
from unittest import mock

from workbook import build
from workbook.cells.pages import Records
from workbook.tables.table import Table

LONG, KEPT = 20, 8
IN_FULL = build.rows_of
GRIDS = {"compared"}  # a grid reads as many lines as it has columns


def is_of_pairs(table: Table) -> bool:
    """Whether its lines are those of a list two by two."""
    return any(column.key == "second_place" for column in table.columns)


def pairs(records: Records) -> int:
    """How many lines those need that are seen two by two: what lives in one tank, or stands on a short list."""
    rows = (row for key in ("livestock", "stock") for row in records.get(key, []))
    homes = Counter(str(row["tank"]).casefold() for row in rows if row.get("tank"))
    listed = max([KEPT, len(records.get("compared", [])), *homes.values()])
    return listed * (listed - 1) // 2


@contextlib.contextmanager
def answers(*whole_ones: str) -> Iterator[None]:
    """All that is built meanwhile but these tables; whoever asks for a number of rows gets it.

    A book is the same whichever file asks for it first: what was cut around this counts for nothing.
    """

    def rows_of(
        tables: tuple[Table, ...], records: Records, spare_rows: int, asked: Mapping[str, int] | None = None
    ) -> dict[str, int]:
        found = IN_FULL(tables, records, spare_rows, asked)
        planned = {t.key for t in tables if t.key.startswith("plan_")}  # the lines of a plan stand below its groups
        cut = (
            {t.key for t in tables if t.lines > LONG or t.lines_each} - GRIDS - planned - {*whole_ones, *(asked or {})}
        )
        while more := {t.key for t in tables if t.rows_of in cut} - cut:
            cut |= more
        few = {t.key: pairs(records) if is_of_pairs(t) else KEPT for t in tables if t.key in cut}
        # Ready rows for a year are many.
        few |= {t.key: len(records.get(t.key, [])) + max(spare_rows, 2) for t in tables if t.yearly and t.is_list}
        return found | {key: min(found[key], most) for key, most in few.items() if key not in (asked or {})}

    with mock.patch.object(build, "rows_of", rows_of):
        yield


@contextlib.contextmanager
def in_full() -> Iterator[None]:
    """All that is built meanwhile is as people get it."""
    with mock.patch.object(build, "rows_of", IN_FULL):
        yield
