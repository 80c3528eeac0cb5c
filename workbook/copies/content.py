"""What people typed in one workbook, apart from how it was laid out."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from string import ascii_letters
from typing import NamedTuple

from workbook.stamps import UNSTAMPED, Stamp
from workbook.tables.kinds import Value


class Place(NamedTuple):
    """Where something was read, as the person finds it."""

    sheet: str
    cell: str

    def __str__(self) -> str:
        return f"{self.sheet}!{self.cell}"


class Places(Mapping[str, Place]):
    """Where the cells of one row lie, by column key: letters of all its columns, those that were read first in front.

    apart: where cells lie that were read on another sheet, the workings of a list; behind: where all of those lie.
    """

    def __init__(
        self,
        sheet: str,
        row: int,
        letters: Mapping[str, str],
        front: Iterable[str] = (),
        apart: Mapping[str, Place] | None = None,
        behind: "Places | None" = None,
    ) -> None:
        self.sheet, self.row, self.letters, self.front = sheet, row, letters, tuple(front)
        self.apart, self.behind = apart or {}, behind

    def __getitem__(self, key: str) -> Place:
        if key in self.apart:
            return self.apart[key]
        if key not in self.letters and self.behind:
            return self.behind[key]
        return Place(self.sheet, f"{self.letters[key]}{self.row}")

    def __iter__(self) -> Iterator[str]:
        return iter(dict.fromkeys((*self.front, *self.letters, *(self.behind or ()))))

    def __len__(self) -> int:
        return len(dict.fromkeys((*self.front, *self.letters, *(self.behind or ()))))

    @property
    def first_row(self) -> int:
        """The highest row in which one of the cells lies."""
        rows = [int(place.cell.lstrip(ascii_letters)) for place in self.apart.values()]
        if self.letters.keys() - self.apart.keys():
            rows.append(self.row)
        if self.behind and self.behind.letters.keys() - self.letters.keys() - self.apart.keys():
            rows.append(self.behind.row)
        return min(rows, default=self.row)

    def __bool__(self) -> bool:
        return bool(self.letters or self.front or self.behind)

    def everywhere(self) -> Iterator[tuple[str, Place]]:
        """All cells; an answer of a list stands there, and again among its workings."""
        yield from self.items()
        if self.behind:
            yield from ((key, self.behind[key]) for key in self.behind if key in self.letters)

    def moved(self, row: int) -> "Places":
        """The same in another row."""
        behind = self.behind.moved(self.behind.row + row - self.row) if self.behind else None
        return Places(self.sheet, row, self.letters, self.front, self.apart, behind)


@dataclass(frozen=True)
class Entry:
    """One row of a table: typed values by column key, in base units; a blank cell has no key.

    added: what stands in columns that people added, by header; a formula as its text with its =.
    places: where each value was read.
    unread: cells that hold something which is no value of their column, as it stands there; never dropped.
    notes: words that people left in a cell's note, by column key.
    shown: what added formulas showed when the file was saved, by header.
    meant: what added formulas mean, wherever their cells lie, by header; of a workbook that was read.
    came: where a cell stood that an edit of a copy brought into this row, with its file, by column key.
    stood: of a row that is told as if it stood elsewhere, the file in which it was read, and where there; if anyone knows.
    """

    values: dict[str, Value]
    added: dict[str, Value] = field(default_factory=dict)
    places: Mapping[str, Place] = field(default_factory=dict)
    unread: dict[str, str] = field(default_factory=dict)
    notes: dict[str, str] = field(default_factory=dict)
    shown: dict[str, Value] = field(default_factory=dict)
    meant: dict[str, str] = field(default_factory=dict, compare=False)
    came: dict[str, str] = field(default_factory=dict, compare=False)
    stood: tuple[str, Mapping[str, Place]] | None = field(default=None, compare=False)

    def cells(self) -> Iterable[tuple[str, Place]]:
        """All cells of the row with the columns they belong to."""
        return self.places.everywhere() if isinstance(self.places, Places) else self.places.items()

    def where(self, key: str, file: str = "") -> str:
        """Where a cell was read, as the person finds it; with its file, the one that is said where the row knows of none."""
        if key in self.came:
            return self.came[key]
        if self.stood:
            return f"{self.stood[1][key]} in {self.stood[0]}" if key in self.stood[1] else ""
        return f"{self.places[key]}{f' in {file}' if file else ''}" if key in self.places else ""


@dataclass(frozen=True)
class AddedSheet:
    """A sheet that people added: its cells by place, values and formulas (text with its =).

    shown: what the formulas showed when the file was saved.
    meant: what the formulas mean, wherever the cells lie that they name.
    origin: the sheet of ours that the cells stood on, outside of its tables; nothing for a sheet of its own.
    """

    title: str
    cells: dict[tuple[int, int], Value]
    shown: dict[tuple[int, int], Value] = field(default_factory=dict)
    origin: str = ""
    meant: dict[tuple[int, int], str] = field(default_factory=dict, compare=False)


@dataclass(frozen=True)
class Content:
    """A workbook's typed content: its tables by key, the columns added to them by header, and added sheets.

    lacking: by table, the typed columns that are not in the file, though the table is.
    stamp: which hand-out it was taken from; who: who typed in it, as Start says.
    aside: lines for the sheet Kept aside that came of decisions: table, row, column, what stood there, why it is there.
    """

    name: str
    edition: str
    units: str
    schema: int
    tables: dict[str, tuple[Entry, ...]]
    added_columns: dict[str, tuple[str, ...]] = field(default_factory=dict)
    added_sheets: tuple[AddedSheet, ...] = ()
    lacking: dict[str, tuple[str, ...]] = field(default_factory=dict)
    stamp: Stamp = UNSTAMPED
    who: str = ""
    aside: tuple[tuple[str, str, str, str, str], ...] = ()
