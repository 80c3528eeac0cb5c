"""The stamp of a workbook: what was typed in it when it was handed out, as a short digest, and what it was made from."""

import datetime
import hashlib
import json
import re
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from workbook.tables.columns import Typed
from workbook.tables.kinds import Value
from workbook.tables.table import Table

FORM = re.compile(r"[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}")
CARRIED, MERGED = "carried over from ", "merged from "
Typing = Mapping[str, Sequence[Mapping[str, Value]]]


@dataclass(frozen=True)
class Stamp:
    """Which hand-out a workbook is, and which one it was made from, in words; blank where a file does not say.

    holds: marks of the copies that were merged into it.
    """

    own: str = ""
    made_from: str = ""
    holds: str = ""

    @property
    def carried_from(self) -> str:
        """The stamp of the workbook that was carried over into this one; nothing for a merged one."""
        found = FORM.fullmatch(self.made_from.removeprefix(CARRIED))
        return found[0] if found else ""


UNSTAMPED = Stamp()


def stamp_of(
    tables: Iterable[Table],
    typing: Typing,
    notes: Iterable[str] = (),
    sheets: Mapping[str, Mapping[tuple[int, int], Value]] | None = None,
) -> str:
    """The digest of what was typed: the same whatever the units, the ready rows and the day of the build.

    What comes with the package and can't be typed over is left out.
    """
    told = [[table.key, rows] for table in tables if (rows := _rows(table, typing.get(table.key, ())))]
    # A formula that became the blank it showed leaves no cell in the file.
    own = [
        [title, [[*at, _plain(value)] for at, value in sorted(cells.items()) if value != ""]]
        for title, cells in sorted((sheets or {}).items())
    ]
    text = json.dumps([told, sorted(map(_plain, notes)), own], ensure_ascii=False)
    digest = hashlib.sha256(text.encode()).hexdigest()
    return "-".join(digest[i : i + 4] for i in (0, 4, 8))


def _rows(table: Table, rows: Sequence[Mapping[str, Value]]) -> list[list[list[str]]]:
    """What people typed in each row; a blank row at the end, or a column in which nothing stands, is as if it were not."""
    locked = {column.key for column in table.columns if isinstance(column, Typed) and column.locked}
    found = [
        [
            [key, _plain(value)]
            for key, value in sorted(row.items())
            if key not in locked and value is not None and value != ""
        ]
        for row in rows
    ]
    return [row for row in found if row]


def _plain(value: Value) -> str:
    """A value in a form that does not depend on how it was written or in which units it was shown."""
    if isinstance(value, int | float):
        return f"{float(value) + 0.0:.10g}"
    if isinstance(value, datetime.date):
        return value.isoformat()
    # A formula of a person's own is pointed anew wherever its cells go.
    return "=" if value.startswith("=") else unicodedata.normalize("NFC", value).replace("\r\n", "\n").strip()
