"""A table: what one row is, its columns, and how many rows it has."""

import functools
from collections.abc import Mapping
from dataclasses import dataclass, field

from workbook.tables.columns import Column, Computed, Flag, Pulled, Said, Typed
from workbook.tables.kinds import Value

MOST_ANSWERS = 12


@dataclass(frozen=True)
class Table:
    """What one row is, and its columns.

    rows_of: this table has one row for each row of that table, in the same order (an answer, nobody types rows).
    mirrors: its rows are typed there: what is pulled from them stands for typed columns, and it is reckoned as a list.
    lines: a fixed number of rows (a list that fills itself); lines_each: more where the build finds more to tell, so
    many for each row typed in the tables lines_of, up to lines_most.
    form: one record, laid out as one line for each column.
    names_from: each row's cell of this column has a name of its own, made of the row's key.
    spare_rows: ready rows below the data, as a multiple of what the build was asked for.
    given: the rows come with the package; people may change typed cells, not add rows.
    told: the rows tell something about this one file; people may change typed cells, not add rows.
    row_height: pixels of a row, where its text does not tell. most_lines: higher where a text takes so many lines,
    as long as its page has room. single: its rows are one line high, its long texts stand last and run on.
    a_page: rows on a page, each a card that no break cuts.
    turns: on a printed page, style and pixels of the rows that take turns: the lines of a label, then of the next.
    example: what a first row could hold, in the units of the columns; it stands in the head of the list and counts for
    nothing.
    chosen: what a sheet is set to show, or facts of the file: not a person's data, so neither compared nor merged.
    listed: Attention lists its flags; not those of what follows a dropdown, they are told on its own sheet.
    enough: the typed columns that a row needs to be reckoned with, said in the head of a list; without them those that
    must be filled and those of the example.
    yearly: the days between rows, a column of another table (table.column): ready rows last a year, where that is
    more than spare_rows gives.
    often: the typed columns of a list in the order in which people fill them; all others stand right of them, folded
    away from the start. Without it all of them are typed often.
    newest: the column of days of a list that grows from day to day: its newest weeks are printed.
    every_line: rows that several copies added alike are several, not one: two people sold one of the same.
    not_before: a typed day; rows in which it lies after the plan date stand pale, for they do not count yet.
    on_paper: of what stands in order of importance, how many rows are printed at most; 0: all that hold something.
    grouped: the column of words by which a dropdown of its names can be made short: one of them is picked first.
    first, answers: of what is reckoned for a list, the one column left of what is typed, and those at its right; all
    else stands on the sheet of its workings. Without answers those that are no working columns are shown.
    """

    key: str
    title: str
    purpose: str
    row_name: tuple[str, ...]
    columns: tuple[Column, ...]
    rows_of: str = ""
    mirrors: bool = False
    lines: int = 0
    lines_each: int = 0
    lines_most: int = 0
    lines_of: tuple[str, ...] = ()
    form: bool = False
    names_from: str = ""
    spare_rows: float = 1
    given: bool = False
    told: bool = False
    row_height: int = 0
    most_lines: int = 1
    a_page: int = 0
    single: bool = False
    turns: tuple[tuple[str, int], ...] = ()
    example: Mapping[str, Value] = field(default_factory=dict, hash=False)
    chosen: bool = False
    listed: bool = True
    enough: tuple[str, ...] = ()
    yearly: str = ""
    often: tuple[str, ...] = ()
    newest: str = ""
    every_line: bool = False
    not_before: str = ""
    on_paper: int = 0
    grouped: str = ""
    first: str = ""
    answers: tuple[str, ...] = ()

    @functools.cached_property
    def _by_key(self) -> dict[str, Column]:
        return {column.key: column for column in reversed(self.columns)}

    def __getitem__(self, key: str) -> Column:
        try:
            return self._by_key[key]
        except KeyError:
            raise KeyError(f"{self.key}: no column '{key}'; there are {', '.join(self._by_key)}") from None

    @property
    def typed(self) -> tuple[Typed, ...]:
        """The columns that a person fills."""
        return tuple(c for c in self.columns if isinstance(c, Typed))

    @property
    def flags(self) -> tuple[Flag, ...]:
        """The columns that raise a problem."""
        return tuple(c for c in self.columns if isinstance(c, Flag))

    @property
    def signs(self) -> tuple[str, ...]:
        """What stands left of the columns of a list that people type: its worst flag in short, and one answer."""
        said = next((column.key for column in self.columns if isinstance(column, Said)), "")
        return tuple(filter(None, (said, self.first)))

    @property
    def shown(self) -> tuple[str, ...]:
        """What stands right of them."""
        reckoned = (c.key for c in self.columns if isinstance(c, Computed | Pulled) and not c.look.working)
        return self.answers or tuple(key for key in reckoned if key not in self.signs)[:MOST_ANSWERS]

    @property
    def one_line(self) -> bool:
        """Whether its rows are one line high: what a flag of theirs says in full stands on Attention."""
        return self.single or (bool(self.rows_of) and self.listed)

    @property
    def first_typed(self) -> str:
        """Which columns a new row needs first, in words."""
        keys = self.enough or tuple(c.key for c in self.typed if c.required or c.key in self.example)
        places = {key: i for i, key in enumerate(self.often)}
        labels = [c.label for c in sorted(self.typed, key=lambda c: places.get(c.key, 0)) if c.key in keys]
        return ", ".join(labels)

    @property
    def is_list(self) -> bool:
        """Whether people add rows to it."""
        return not (self.rows_of or self.lines or self.form or self.given or self.told)
