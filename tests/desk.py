"""A workbook on somebody's desk: random edits as people make them, and what they typed by them, kept apart from any reading."""

import copy
import datetime
import functools
import random
import tempfile
import zipfile
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape, quoteattr

import openpyxl
from openpyxl.packaging.custom import IntProperty, StringProperty
from openpyxl.utils import get_column_letter, quote_sheetname
from openpyxl.workbook.defined_name import DefinedName

from tests import books, office, short, small_room
from workbook.build import Plan, compute, first_choices, save
from workbook.cells.placing import Placing, Slot
from workbook.copies.grids import Area, Book, Grid, Raw
from workbook.copies.locating import is_typed, layout
from workbook.copies.untrusted import opened
from workbook.copies.xlsx_grids import read_xlsx
from workbook.editions import EDITIONS
from workbook.tables.columns import Typed
from workbook.tables.table import Table

PLAN_DATE = datetime.date(2026, 4, 15)
# shown = base * factor + offset, written here anew: by definition of inch, gallon, Fahrenheit, foot and pound.
US = {
    "cm": (1 / 2.54, 0),
    "L": (1 / 3.785411784, 0),
    "L/h": (1 / 3.785411784, 0),
    "degC": (1.8, 32),
    "m": (1 / 0.3048, 0),
    "kg": (1 / 0.45359237, 0),
}
OUNCES = {"pack_mass", "stock"}  # in grams elsewhere: avoirdupois ounce of 28.349523125 g
LISTS = [t for t in EDITIONS["keeper"]().tables if t.is_list]
FORMS = [t for t in EDITIONS["keeper"]().tables if t.form and t.typed and t.key not in {"about", "whose_copy"}]
WORDS = (
    "Moss wall",
    "feed less",
    "Ä ö ñ 日本",
    "-5 was wrong",
    "+1 from Ann",
    "@home",
    "a, b; c",
    'say "no"',
    "x" * 300,
)
Typing = tuple[str, int, str]  # table, row of the model, column


def file_of(units: str) -> Path:
    """The small room's workbook, built once."""
    plan = Plan(units=units, spare_rows=3, plan_date=PLAN_DATE)

    def make(path: Path) -> None:
        with tempfile.TemporaryDirectory() as folder, short.answers():
            save(path, compute(EDITIONS["keeper"](), small_room.records(Path(folder)), plan), plan)

    return books.shared(f"desk-{units}.xlsx", make)


def saved(form: str) -> dict[str, Path]:
    """Of both units the file as LibreOffice saves it, reckoned anew; in the metric one a length is typed as a formula."""

    def make(folder: Path) -> None:
        sheet, top, left, *_ = office.areas(file_of("metric"))["tanks_length_cm"]
        with tempfile.TemporaryDirectory() as beside:
            edited = office.forced(
                file_of("metric"), Path(beside) / file_of("metric").name, {(sheet, top, left): "=2*65"}
            )
            office.resaved([file_of("us"), edited], folder, form, always=True)

    folder = books.shared(f"desk-saved-{form}", make)
    return {units: folder / f"{file_of(units).stem}.{form}" for units in ("metric", "us")}


@functools.cache
def base(units: str) -> Book:
    """The same, as sheets of cells."""
    return read_xlsx(opened(file_of(units)))


@functools.cache
def room() -> dict[str, list[dict[str, Any]]]:
    """What is typed in it."""
    records = small_room.records(Path(tempfile.mkdtemp(prefix="desk-")))
    return first_choices(EDITIONS["keeper"](), records) | records


@dataclass
class Desk:
    """One workbook, its edits so far, and what is typed in it: values, what is no value, added columns, notes."""

    units: str
    dice: random.Random
    book: Book
    placing: Placing
    typed: dict[str, list[dict[str, Any]]]
    unread: dict[Typing, str] = field(default_factory=dict)
    added: dict[str, dict[str, dict[int, Any]]] = field(default_factory=dict)  # table, header, row
    notes: dict[Typing, str] = field(default_factory=dict)
    sheets: dict[str, dict[tuple[int, int], Any]] = field(default_factory=dict)
    rows: dict[str, list[int]] = field(default_factory=dict)  # row on the sheet of each row of the model
    headers: dict[tuple[str, str], int] = field(default_factory=dict)  # column of each added one
    done: list[str] = field(default_factory=list)

    formulas: bool = True  # whether people type formulas too

    @classmethod
    def fresh(cls, units: str, seed: int, *, formulas: bool = True) -> "Desk":
        source = base(units)
        grids = {title: Grid(title, dict(grid.cells), dict(grid.notes)) for title, grid in source.grids.items()}
        book = Book(source.name, grids, dict(source.names), dict(source.facts), source.epoch)
        typed = {t.key: copy.deepcopy(room()[t.key]) for t in (*LISTS, *FORMS)}
        desk = cls(units, random.Random(seed), book, layout("keeper", units), typed, formulas=formulas)
        for table in LISTS:
            first = desk.area(table, table.row_name[0]).top
            desk.rows[table.key] = [first + i for i in range(len(typed[table.key]))]
        return desk

    # --- where things are ---

    def slot(self, table: Table, key: str) -> Slot:
        return next(s for s in self.placing.tables[table.key].slots if s.column.key == key and is_typed(s))

    def area(self, table: Table, key: str) -> Area:
        found = self.book.names.get(self.placing.range_name(table.key, self.slot(table, key)).casefold())
        return found or self.lost[table.key, key]

    lost: dict[tuple[str, str], Area] = field(default_factory=dict)

    def grid(self, table: Table) -> Grid:
        return self.book.grids[self.area(table, table.row_name[0] if not table.form else table.typed[0].key).sheet]

    def put(self, grid: Grid, row: int, column: int, raw: Raw | None) -> None:
        grid.__dict__.pop("rows", None)
        grid.cells.pop((row, column), None)
        if raw is not None:
            grid.cells[row, column] = raw

    # --- what people do ---

    def edit(self) -> None:
        kind = self.dice.choice(EDITS)
        kind(self)
        self.done.append(kind.__name__)

    def some_table(self, *, filled: bool = True) -> Table:
        return self.dice.choice([t for t in LISTS if self.typed[t.key] or not filled] or LISTS)

    def spelling(self, column: Typed) -> tuple[Any, Any]:
        """Something to type, as the cell then holds it, and the value that is meant, in base units."""
        dice, kind = self.dice, column.kind
        match kind.name:
            case "number":
                low, high = max(kind.low, -40), min(kind.high, max(500, 2 * kind.low))
                factor, offset = US.get(column.unit, (1, 0)) if self.units == "us" else (1, 0)
                if self.units == "us" and column.key in OUNCES:
                    factor = 1 / 28.349523125
                shown = round(dice.uniform(low + (high - low) * 0.1, high - (high - low) * 0.1) * factor + offset, 3)
                formula = Raw(shown, f"={shown}*1") if self.formulas else shown
                held = dice.choice(
                    (shown, str(shown), str(shown).replace(".", ",") + "0000", f" {shown}\u00a0", formula)
                )
                return held, (shown - offset) / factor
            case "count":
                value = dice.randint(int(max(kind.low, 0)), int(min(kind.high, 90)))
                return dice.choice((value, float(value), str(value), f"{value}.0")), value
            case "date":
                day = datetime.date(2026, 1, 1) + datetime.timedelta(days=dice.randint(0, 300))
                at_noon = datetime.datetime(day.year, day.month, day.day)
                serial = (day - datetime.date(1899, 12, 30)).days
                return dice.choice(
                    (
                        at_noon,
                        float(serial),
                        serial,
                        day.isoformat(),
                        f"{day.day}.{day.month}.{day.year}",
                        f"{day}T00:00:00",
                    )
                ), day
            case "choice":
                value = dice.choice(kind.choices)
                return (
                    dice.choice((value, value.upper(), f" {value} "))
                    if value not in {"yes", "no"}
                    else dice.choice((value, value == "yes"))
                ), value
            case "link":
                names = [row[next(iter(row))] for row in room().get(kind.table, [])]
                key = next((t.row_name[0] for t in LISTS if t.key == kind.table), "form")
                now = [str(row[key]) for row in self.typed.get(kind.table, []) if key in row] or [
                    str(n) for n in names if isinstance(n, str)
                ]
                value = dice.choice([*now, "Somebody new"])
                lower = [n for n in now if n.casefold() == value.casefold()]
                return (dice.choice((value, value.upper())) if lower else value), lower[0] if lower else value
            case "key":
                value = f"Name {dice.randint(1, 10**6)}"
                return dice.choice((value, f"{value} ")), value
        value = dice.choice(WORDS)
        return value, value

    def settle(self, row: dict[str, Any], where: Typing, value: Any) -> None:
        self.unread.pop(where, None)
        row.pop(where[2], None)
        if value is not None:
            row[where[2]] = value

    def type_cell(self) -> None:
        table = self.some_table()
        i = self.dice.randrange(len(self.typed[table.key]))
        column = self.dice.choice([c for c in table.typed if c.key != table.row_name[0]])
        held, value = self.spelling(column)
        raw = held if isinstance(held, Raw) else Raw(held)
        self.put(self.grid(table), self.rows[table.key][i], self.area(table, column.key).left, raw)
        self.settle(self.typed[table.key][i], (table.key, i, column.key), value)
        if raw.formula:
            self.note(table, i, column.key, f"typed as a formula: {raw.formula}")
        elif (table.key, i, column.key) in self.notes:
            self.forget_formula(table, i, column.key)

    def note(self, table: Table, i: int, key: str, words: str) -> None:
        old = [
            line
            for line in self.notes.get((table.key, i, key), "").split("\n")
            if line and not line.startswith("typed as")
        ]
        self.notes[table.key, i, key] = "\n".join([*old, words])

    def forget_formula(self, table: Table, i: int, key: str) -> None:
        lines = [line for line in self.notes[table.key, i, key].split("\n") if not line.startswith("typed as")]
        self.notes[table.key, i, key] = "\n".join(lines)
        if not lines:
            del self.notes[table.key, i, key]

    def clear_cell(self) -> None:
        table = self.some_table()
        i = self.dice.randrange(len(self.typed[table.key]))
        column = self.dice.choice([c for c in table.typed if c.key != table.row_name[0]])
        raw = self.dice.choice((None, Raw(""), Raw("  ")))
        self.put(self.grid(table), self.rows[table.key][i], self.area(table, column.key).left, raw)
        self.settle(self.typed[table.key][i], (table.key, i, column.key), None)
        if (table.key, i, column.key) in self.notes:
            self.forget_formula(table, i, column.key)

    def type_nonsense(self) -> None:
        table = self.some_table()
        i = self.dice.randrange(len(self.typed[table.key]))
        columns = [c for c in table.typed if c.kind.name not in {"text", "key", "link"}]
        column = self.dice.choice(columns)
        words = self.dice.choice(("about 5", "ask Ann", "1,234", "n/a", "5-6", "#N/A", "99999999999"))
        self.put(self.grid(table), self.rows[table.key][i], self.area(table, column.key).left, Raw(words))
        self.settle(self.typed[table.key][i], (table.key, i, column.key), None)
        self.unread[table.key, i, column.key] = words
        if (table.key, i, column.key) in self.notes:
            self.forget_formula(table, i, column.key)

    def leave_note(self) -> None:
        table = self.some_table()
        i = self.dice.randrange(len(self.typed[table.key]))
        column = self.dice.choice(table.typed)
        words = self.dice.choice(WORDS)
        at = (self.rows[table.key][i], self.area(table, column.key).left)
        self.grid(table).notes[at] = words
        formula = [
            line for line in self.notes.get((table.key, i, column.key), "").split("\n") if line.startswith("typed as")
        ]
        self.notes[table.key, i, column.key] = "\n".join([words, *formula])

    def new_row(self) -> None:
        """Below everything, with or without a gap, often below the named range."""
        table = self.some_table(filled=False)
        grid = self.grid(table)
        lowest = max([*self.rows[table.key], self.area(table, table.row_name[0]).top - 1])
        row = lowest + self.dice.choice((1, 1, 2, 9, 40))
        self.rows[table.key].append(row)
        record: dict[str, Any] = {}
        self.typed[table.key].append(record)
        i = len(self.typed[table.key]) - 1
        for column in table.typed:
            if column.key == table.row_name[0] or self.dice.random() < 0.3:
                held, value = self.spelling(column)
                raw = held if isinstance(held, Raw) else Raw(held)
                self.put(grid, row, self.area(table, column.key).left, raw)
                record[column.key] = value
                if raw.formula:
                    self.note(table, i, column.key, f"typed as a formula: {raw.formula}")

    def sort_rows(self) -> None:
        """The rows of a table in another order, added columns and notes with them."""
        table = self.some_table()
        grid, rows = self.grid(table), self.rows[table.key]
        order = list(range(len(rows)))
        self.dice.shuffle(order)
        columns = [self.area(table, c.key).left for c in table.typed] + [
            at for (key, _), at in self.headers.items() if key == table.key
        ]
        for held in (grid.cells, grid.notes):
            old = {
                (row, column): held.pop((row, column)) for row in rows for column in columns if (row, column) in held
            }
            held.update(
                {
                    (rows[new], column): old[rows[i], column]
                    for new, i in enumerate(order)
                    for column in columns
                    if (rows[i], column) in old
                }
            )
        grid.__dict__.pop("rows", None)
        new = {i: place for place, i in enumerate(order)}
        self.typed[table.key] = [self.typed[table.key][i] for i in order]
        for kept in (self.unread, self.notes):
            moved = {(k, new[i], c): words for (k, i, c), words in kept.items() if k == table.key}
            for where in [w for w in kept if w[0] == table.key]:
                del kept[where]
            kept.update(moved)
        for cells in self.added.get(table.key, {}).values():
            moved_cells = {new[i]: value for i, value in cells.items()}
            cells.clear()
            cells.update(moved_cells)

    def insert_row(self) -> None:
        """A blank row anywhere on a sheet; names follow as office programs do it."""
        table = self.some_table()
        sheet = self.grid(table).title
        top = self.area(table, table.row_name[0]).top
        at = self.dice.randint(1, max(top + 1, *self.rows[table.key], top))
        self.shift(sheet, row=at)

    def insert_column(self) -> None:
        """A column anywhere on the sheet of a list: blank, or with a header and something in some rows."""
        table = self.some_table()
        sheet = self.grid(table).title
        columns = sorted(self.area(table, c.key).left for c in table.typed)
        at = self.dice.randint(columns[0] + 1, columns[-1] + 1)
        self.shift(sheet, column=at)
        if self.dice.random() < 0.7:
            header = f"Mine {len(self.headers) + 1}"
            grid, head = self.grid(table), self.area(table, table.row_name[0]).top - 2
            # Blank rows may lie between the header and the data by now.
            first = self.area(table, table.typed[0].key).left
            head = next(row for row in range(head + 1, 0, -1) if grid.text(row, first) == table.typed[0].label)
            self.put(grid, head, at, Raw(header))
            self.headers[table.key, header] = at
            cells = self.added.setdefault(table.key, {}).setdefault(header, {})
            for i, row in enumerate(self.rows[table.key]):
                if self.dice.random() < 0.5:
                    value = self.dice.choice((3.5, 12.0, "red", "-1 or so", datetime.date(2026, 5, 1)))
                    self.put(
                        grid, row, at, Raw(datetime.datetime(2026, 5, 1) if isinstance(value, datetime.date) else value)
                    )
                    cells[i] = value

    def shift(self, sheet: str, row: int = 10**9, column: int = 10**9) -> None:
        grid = self.book.grids[sheet]

        def moved(at: tuple[int, int]) -> tuple[int, int]:
            return at[0] + (at[0] >= row), at[1] + (at[1] >= column)

        grid.cells = {moved(at): raw for at, raw in grid.cells.items()}
        grid.notes = {moved(at): words for at, words in grid.notes.items()}
        grid.__dict__.pop("rows", None)
        for names in (self.book.names, self.lost):
            for name, area in list(names.items()):
                if area.sheet == sheet:
                    names[name] = Area(sheet, *moved((area.top, area.left)), *moved((area.bottom, area.right)))  # type: ignore[index]
        for table in LISTS:
            if self.grid(table).title == sheet:
                self.rows[table.key] = [r + (r >= row) for r in self.rows[table.key]]
                for where in [w for w in self.headers if w[0] == table.key]:
                    self.headers[where] += self.headers[where] >= column

    def move_column(self) -> None:
        """Two columns of a list change places, with their names."""
        table = self.some_table()
        one, other = self.dice.sample([c.key for c in table.typed], 2)
        grid = self.grid(table)
        a, b = self.area(table, one).left, self.area(table, other).left
        swap = {a: b, b: a}
        grid.cells = {(row, swap.get(column, column)): raw for (row, column), raw in grid.cells.items()}
        grid.notes = {(row, swap.get(column, column)): words for (row, column), words in grid.notes.items()}
        grid.__dict__.pop("rows", None)
        for names in (self.book.names, self.lost):
            for name, area in list(names.items()):
                if area.sheet == grid.title and area.left == area.right and area.left in swap:
                    names[name] = area._replace(left=swap[area.left], right=swap[area.left])  # type: ignore[index]

    def rename_sheet(self) -> None:
        old = self.dice.choice([title for title in self.book.grids if title not in self.sheets])
        new = f"{old[:20]} {self.dice.randint(1, 999)}"
        grids = [Grid(new if t == old else t, g.cells, g.notes) for t, g in self.book.grids.items()]
        self.book.grids = {grid.title: grid for grid in grids}
        for names in (self.book.names, self.lost):
            for name, area in list(names.items()):
                names[name] = area._replace(sheet=new if area.sheet == old else area.sheet)  # type: ignore[index]

    def reorder_sheets(self) -> None:
        grids = list(self.book.grids.items())
        self.dice.shuffle(grids)
        self.book.grids = dict(grids)

    def add_sheet(self) -> None:
        title = f"My list {len(self.sheets) + 1}"
        cells = {
            (self.dice.randint(1, 30), self.dice.randint(1, 9)): self.dice.choice((1.5, 20.0, *WORDS)) for _ in range(4)
        }
        self.book.grids[title] = Grid(title, {at: Raw(value) for at, value in cells.items()})
        self.sheets[title] = cells

    def lose_name(self) -> None:
        """The name of one column is gone: a program dropped it, or the column was cut and pasted."""
        table = self.some_table()
        column = self.dice.choice([c for c in table.typed if c.key != table.row_name[0]])
        name = self.placing.range_name(table.key, self.slot(table, column.key)).casefold()
        if area := self.book.names.pop(name, None):
            self.lost[table.key, column.key] = area

    def type_setting(self) -> None:
        table = self.dice.choice(FORMS)
        column = self.dice.choice(table.typed)
        held, value = self.spelling(column)
        if isinstance(held, Raw):
            held = held.value
        area = self.area(table, column.key)
        self.put(self.book.grids[area.sheet], area.top, area.left, Raw(held))
        self.typed[table.key][0] = self.typed[table.key][0] | {column.key: value}


EDITS: tuple[Callable[[Desk], None], ...] = (
    Desk.type_cell, Desk.type_cell, Desk.type_cell, Desk.clear_cell, Desk.type_nonsense, Desk.leave_note, Desk.new_row, Desk.new_row, Desk.sort_rows,
    Desk.insert_row, Desk.insert_column, Desk.move_column, Desk.rename_sheet, Desk.reorder_sheets, Desk.add_sheet, Desk.lose_name, Desk.type_setting,
)  # fmt: skip


def write(desk: Desk, path: Path) -> Path:
    """The desk's workbook as a real file: cells, formulas, notes, names and properties."""
    book = openpyxl.Workbook()
    book.remove(book.active)
    for title, grid in desk.book.grids.items():
        sheet = book.create_sheet(title)
        for (row, column), raw in grid.cells.items():
            cell = sheet.cell(row, column)
            cell.value = raw.formula or raw.value
            if isinstance(raw.value, str) and not raw.formula:
                cell.data_type = "s"
        for (row, column), words in grid.notes.items():
            sheet.cell(row, column).comment = openpyxl.comments.Comment(words, "somebody")
    for name, area in desk.book.names.items():
        a, b = get_column_letter(area.left), get_column_letter(area.right)
        ends = f"${a}${area.top}" + ("" if area[1:3] == area[3:] else f":${b}${area.bottom}")
        book.defined_names[name] = DefinedName(name, attr_text=f"{quote_sheetname(area.sheet)}!{ends}")
    for key, fact in desk.book.facts.items():
        whole = fact.replace(".0", "")
        book.custom_doc_props.append(
            IntProperty(name=key, value=int(whole)) if whole.isdecimal() else StringProperty(name=key, value=fact)
        )
    book.save(path)
    return path


ODS_HEAD = (
    '<office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" '
    'xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0">'
    "<office:body><office:spreadsheet>"
)
META = (
    '<office:document-meta xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:meta="urn:oasis:names:tc:opendocument:xmlns:meta:1.0">'
    "<office:meta>{}</office:meta></office:document-meta>"
)


def write_ods(book: Book, path: Path) -> Path:
    """The same as a plain .ods file, after the open standard."""
    tables = []
    for title, grid in book.grids.items():
        rows = []
        before = 0
        for row, cells in grid.rows.items():
            if row > before + 1:
                rows.append(
                    f'<table:table-row table:number-rows-repeated="{row - before - 1}"><table:table-cell/></table:table-row>'
                )
            parts, last = [], 0
            for column, raw in cells.items():
                if column > last + 1:
                    parts.append(f'<table:table-cell table:number-columns-repeated="{column - last - 1}"/>')
                parts.append(_ods_cell(raw))
                last = column
            rows.append(f"<table:table-row>{''.join(parts)}</table:table-row>")
            before = row
        tables.append(f"<table:table table:name={quoteattr(title)}>{''.join(rows)}</table:table>")
    names = "".join(
        f'<table:named-range table:name="{name}" table:cell-range-address={quoteattr(_ods_area(area))}/>'
        for name, area in book.names.items()
    )
    facts = "".join(
        f'<meta:user-defined meta:name="{key}">{fact}</meta:user-defined>' for key, fact in book.facts.items()
    )
    content = f"{ODS_HEAD}{''.join(tables)}<table:named-expressions>{names}</table:named-expressions></office:spreadsheet></office:body></office:document-content>"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet", zipfile.ZIP_STORED)
        archive.writestr("content.xml", content)
        archive.writestr("meta.xml", META.format(facts))
    return path


def _ods_area(area: Area) -> str:
    a, b = get_column_letter(area.left), get_column_letter(area.right)
    return f"$'{area.sheet}'.${a}${area.top}:.${b}${area.bottom}"


def _ods_cell(raw: Raw) -> str:
    value = raw.value
    if isinstance(value, datetime.datetime):
        return f'<table:table-cell office:value-type="date" office:date-value="{value.isoformat()}"/>'
    if isinstance(value, float | int):
        return f'<table:table-cell office:value-type="float" office:value="{value}"/>'
    lines = "".join(f"<text:p>{escape(line)}</text:p>" for line in str(value or "").split("\n"))
    return f'<table:table-cell office:value-type="string">{lines}</table:table-cell>'


SHORT = ("Start", "Waters", "Tanks", "Feeding")


def short_book(source: Book | None = None, titles: tuple[str, ...] = SHORT) -> Book:
    """Only a few sheets, with few formulas: a small file that is read in no time."""
    source = source or base("metric")
    grids = {
        title: Grid(title, {at: raw for at, raw in source.grids[title].cells.items() if not raw.formula or at[0] <= 9})
        for title in titles
    }
    names = {name: area for name, area in source.names.items() if area.sheet in grids}
    return Book(source.name, grids, names, dict(source.facts))
