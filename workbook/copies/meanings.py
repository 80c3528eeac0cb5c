"""What formulas of people's own mean, wherever their tables lie: cells told by table, column and row.

So a formula that was pointed anew reads as it did before, and stands in plain files, which have no cells to point to.
"""

import re
from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from workbook.cells.placing import letters
from workbook.copies.content import AddedSheet, Entry, Places
from workbook.copies.formulas import bare
from workbook.copies.repointing import REFERENCE, cell_of
from workbook.copies.untrusted import at
from workbook.copies.values import is_formula
from workbook.tables.table import Table

FIRST, END = "first", "end"  # ends of a range over a whole list, however long that is
# [tanks.length] in the formula's own row, [tanks 3.length] in the third row of the file; $ as in addresses.
TOLD = re.compile(
    r"\"(?:[^\"]|\"\")*\"|'(?:[^']|'')*'|"
    r"\[(?P<across>\$?)(?P<table>\w+)(?: (?P<down>\$?)(?P<row>first|end|[0-9]+))?\.(?P<column>(?:[^\]]|\]\])+)\]"
)
SAME_SHEET = re.compile(r"('[a-z_0-9]+\.csv'!)(\$?[A-Z]+\$?[0-9]+):\1")
Rows = Mapping[str, Sequence[Entry]]
Where = tuple[str, int]  # a table and the position of a row in it


class Ref(NamedTuple):
    """One cell of a table; row: its position, FIRST, END, or none for the formula's own row. across, down: $ or nothing."""

    table: str
    column: str
    row: int | str | None
    across: str
    down: str


@dataclass
class _Lane:
    """One column of a table where it was read."""

    table: str
    column: str
    rows: list[tuple[int, int]] = field(default_factory=list)  # on the sheet, and among the rows of the table


class Meanings:
    """Tells the formulas of one content."""

    def __init__(self, tables: Mapping[str, Table], rows: Rows, own: Iterable[str]) -> None:
        self.tables, self.rows, self.own = tables, rows, set(own)
        self.cells: dict[tuple[str, int, int], tuple[str, str, int]] = {}
        self.lanes: dict[tuple[str, int], _Lane] = {}
        for key, entries in rows.items():
            for index, entry in enumerate(entries):
                for column, place in entry.cells():
                    if where := at(place.cell):
                        self.cells[place.sheet, *where] = key, column, index
                        lane = self.lanes.setdefault((place.sheet, where[1]), _Lane(key, column))
                        if lane.table == key:
                            lane.rows.append((where[0], index))
        for lane in self.lanes.values():
            lane.rows.sort()
        self.names = {key: _row_names(table, rows[key]) for key, table in tables.items() if key in rows}

    def meaning(self, formula: str, sheet: str, here: Where | None = None) -> str:
        """A form in which two formulas are alike when they mean the same."""
        return "".join(self._pieces(formula, sheet, here, bare, self._named))

    def told(self, formula: str, sheet: str, here: Where | None, lines: Mapping[Where, int]) -> str:
        """The formula for a plain file; lines: where each row stands there."""

        def written(ref: Ref, address_: str) -> str:
            row: int | str | None = ref.row
            if isinstance(row, int):
                row = "" if self.tables[ref.table].form else lines.get((ref.table, row))
                if row is None:
                    return address_
            told_row = f" {ref.down}{row}" if row else ""
            return f"[{ref.across}{ref.table}{told_row}.{ref.column.replace(']', ']]')}]"

        return "=" + "".join(self._pieces(formula, sheet, here, lambda text: text, written))

    def _named(self, ref: Ref, _: str) -> str:
        row = repr(self.names[ref.table][ref.row]) if isinstance(ref.row, int) else ref.row or "own"
        return f"[{ref.across}{ref.table}.{ref.column} {ref.down}{row}]"

    def _pieces(
        self,
        formula: str,
        sheet: str,
        here: Where | None,
        plain: Callable[[str], str],
        written: Callable[[Ref, str], str],
    ) -> Iterable[str]:
        # Slow to load, and few files have formulas of a person's own.
        from openpyxl.formula.tokenizer import Token, Tokenizer, TokenizerError  # noqa: PLC0415

        try:
            tokens = Tokenizer(formula).items
        except (TokenizerError, IndexError):
            return [plain(formula.removeprefix("="))]
        return [
            self._operand(token.value, sheet, here, written) or plain(token.value)
            if (token.type, token.subtype) == (Token.OPERAND, Token.RANGE)
            else token.value if token.subtype == Token.TEXT
            else plain(token.value)
            for token in tokens
        ]  # fmt: skip

    def _operand(self, text: str, sheet: str, here: Where | None, written: Callable[[Ref, str], str]) -> str:
        """A reference, told; nothing for a name, which every file has in common."""
        found = REFERENCE.fullmatch(text)
        if not found:
            return ""
        there = (found["sheet"] or "").strip("'").replace("''", "'") or sheet
        ends = [found["first"], *([found["last"]] if found["last"] else [])]
        refs = self._range(there, ends, here) if found["last"] else [self._cell(there, found["first"])]
        whole = f"'{there.replace(chr(39), chr(39) * 2)}'!" + ":".join(ends).upper()
        if refs and all(refs):
            told = [written(self._own(ref, here), end) for ref, end in zip(refs, ends, strict=True) if ref]
            return whole if any(one in ends for one in told) else ":".join(told)
        return whole

    def _cell(self, sheet: str, text: str) -> Ref | None:
        found = self.cells.get((sheet, *cell_of(text)))
        return _ref(found[0], found[1], found[2], text) if found and sheet not in self.own else None

    @staticmethod
    def _own(ref: Ref, here: Where | None) -> Ref:
        return ref._replace(row=None) if (ref.table, ref.row) == here and not ref.down else ref

    def _range(self, sheet: str, ends: Sequence[str], here: Where | None) -> list[Ref | None]:
        """Both ends of a range; one that begins above the rows, or ends below, is over the whole list."""
        (top, left), (bottom, right) = (cell_of(end) for end in ends)
        one, other = self.lanes.get((sheet, left)), self.lanes.get((sheet, right))
        if sheet in self.own or one is None or other is None or one.table != other.table:
            return []
        rows = one.rows
        start, end = bisect_left(rows, (top, -1)), bisect_right(rows, (bottom, len(rows))) - 1
        if start > end:
            return []
        first = _ref(one.table, one.column, rows[start][1], ends[0])
        is_open = bottom > rows[-1][0]
        if not start and (is_open or self._own(first, here) is first):
            first = first._replace(row=FIRST)
        return [first, _ref(other.table, other.column, END if is_open else rows[end][1], ends[1])]


def _ref(table: str, column: str, row: int | str, like: str) -> Ref:
    return Ref(table, column, row, "$" if like.startswith("$") else "", "$" if "$" in like[1:] else "")


def _row_names(table: Table, entries: Sequence[Entry]) -> list[tuple[object, ...]]:
    """What each row is known by, however the rows are sorted."""
    seen: Counter[tuple[str, ...]] = Counter()
    found: list[tuple[object, ...]] = []
    for entry in entries:
        name = tuple(str(entry.values.get(key, "")).casefold() for key in table.row_name)
        found.append((*name, seen[name]))
        seen[name] += 1
    return found


def remembered(tables: Mapping[str, Table], rows: Rows, sheets: Sequence[AddedSheet]) -> tuple[AddedSheet, ...]:
    """Let every row remember what its formulas mean; the added sheets that do."""
    telling: Meanings | None = None

    def meaning(formula: str, sheet: str, here: Where | None = None) -> str:
        nonlocal telling
        telling = telling or Meanings(tables, rows, (one.title for one in sheets))
        return telling.meaning(formula, sheet, here)

    for key, entries in rows.items():
        for index, entry in enumerate(entries):
            for header, value in entry.added.items():
                if is_formula(value) and header in entry.places:
                    entry.meant[header] = meaning(value, entry.places[header].sheet, (key, index))
    return tuple(
        replace(one, meant={
            place: meaning(value, one.origin or one.title) for place, value in one.cells.items() if is_formula(value)
        })
        for one in sheets
    )  # fmt: skip


def as_ours(ours: AddedSheet, theirs: AddedSheet) -> AddedSheet:
    """Their sheet, with formulas spelt as ours where they mean the same."""
    alike = {place: ours.cells[place] for place, meant in theirs.meant.items() if ours.meant.get(place) == meant}
    return replace(theirs, cells=theirs.cells | alike) if alike else theirs


# --- in plain files ---


class PlainRows:
    """The rows of plain files as if their cells stood on sheets, so that formulas can be pointed from there."""

    def __init__(self, tables: Mapping[str, Table], rows: Rows, headers: Mapping[str, Sequence[str]]) -> None:
        self.tables, self.rows = tables, rows
        self.columns = {key: _columns(tables[key], headers.get(key, ())) for key in rows}

    def placed(self) -> dict[str, tuple[Entry, ...]]:
        """The rows with the places of their cells."""
        found = {}
        for key, entries in self.rows.items():
            letters_of = {name: letters(i) for i, name in enumerate(self.columns[key], 1)}
            found[key] = tuple(
                replace(entry, places=Places(f"{key}.csv", line, letters_of), stood=entry.stood or ("", entry.places))
                for line, entry in enumerate(entries, 2)
            )
        return found

    def pointed(self, formula: str, key: str = "", line: int = 0) -> str:
        """A formula with addresses of those sheets; what it names and is not there stays as it is told.

        key, line: where it stands.
        """
        # A range names its sheet once.
        return SAME_SHEET.sub(r"\1\2:", TOLD.sub(lambda found: self._address(found, key, line), formula))

    def _address(self, found: re.Match[str], here: str, line: int) -> str:
        key, row, column = found["table"], found["row"], (found["column"] or "").replace("]]", "]")
        if key not in self.rows or column not in self.columns[key]:
            return found[0]
        last = len(self.rows[key]) + 1
        own = 2 if self.tables[key].form else line if key == here else 0
        number = {FIRST: 2, END: last + 1, None: own}.get(row) or int(row or 0)
        if not 2 <= number <= last + (row == END):
            return found[0]
        return (
            f"'{key}.csv'!{found['across']}{letters(self.columns[key].index(column) + 1)}{found['down'] or ''}{number}"
        )


def _columns(table: Table, headers: Sequence[str]) -> list[str]:
    """The columns as their file has them, then those that follow from them, then a person's own."""
    typed = [column.key for column in table.typed]
    return [*typed, *(column.key for column in table.columns if column.key not in typed), *headers]
