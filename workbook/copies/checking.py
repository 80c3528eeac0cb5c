"""What is wrong in a workbook: it is reckoned anew as it stands, and compared with what it says."""

import datetime
import functools
import math
import unicodedata
from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from workbook import __version__
from workbook.build import Plan, compiled
from workbook.cells.pages import Cell, Records, serial
from workbook.copies import inputs
from workbook.copies.carrying import records_of
from workbook.copies.content import Content, Place, Places
from workbook.copies.formulas import Lanes
from workbook.copies.grids import Area, At, Book, Held, Raw, address
from workbook.copies.inputs import Fault
from workbook.copies.locating import about, is_typed, layout, locate
from workbook.copies.reading import read_book
from workbook.copies.standing import Column, Comparison, Sheet
from workbook.copies.untrusted import at
from workbook.copies.values import shown
from workbook.editions import SCHEMA, edition_for
from workbook.tables.columns import Typed
from workbook.tables.table import Table

if TYPE_CHECKING:
    from workbook.cells.evaluating import Values

FEW, LONG = 3, 120
FAILS = "a formula that fails because of what stands in other cells"
ROWS_LEFT = "const_rows_left"  # the constant that says when a list counts as nearly full


def check(path: Path, say: Callable[[str], None] = lambda _: None) -> list[Fault]:
    """Everything that is wrong; BadInputError when the file is none of ours."""
    say("reading")
    book, content = read_book(path)
    say("compiling")
    return Checking(book, content).faults(say)


def as_json(faults: Iterable[Fault]) -> list[dict[str, object]]:
    """The same for other programs."""
    return [asdict(fault) for fault in faults]


def joined(faults: Iterable[Fault]) -> list[Fault]:
    """Many cells of one column in one line, with what stands in the first of them; no text too long for a table."""
    groups: dict[tuple[str, str, str], list[Fault]] = {}
    for fault in faults:
        groups.setdefault((fault.sheet, fault.what, fault.column), []).append(fault)
    found = []
    for (sheet, what, column), same in groups.items():
        cells = ", ".join(fault.cell for fault in same[:FEW]) + (f" and {len(same) - FEW} more" if same[FEW:] else "")
        found.append(Fault(sheet, cells, column, what, _short(same[0].found), _short(same[0].expected)))
    return found


def _short(text: str) -> str:
    return text if len(text) <= LONG else text[: LONG - 3] + "..."


@dataclass
class Checking:
    """One file beside the fresh workbook of the same content, in the same rows."""

    book: Book
    content: Content
    found: list[Fault] = field(default_factory=list)
    tops: dict[str, dict[str, tuple[int, int]]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.edition = edition_for(self.content.edition, self.content.tables)
        made_by = self.book.facts.get("shoalbook version") or about(self.book, "version", "Made by shoalbook")
        self.same_version = made_by == __version__ and self.content.schema == SCHEMA
        self.areas = self._areas()
        rows = {key: heights for key, (_, heights) in self._tops().items() if self._is_free(key)}
        plan = Plan(self.content.edition, self.content.units, plan_date=self._plan_date(), rows=rows)
        self.placing, self.pages = compiled(self.edition, self._records(rows), plan)
        self.plan_date = plan.plan_date
        self.columns = [
            Column(here, slot, area, *self._tops(area.sheet)[key])
            for key, here in self.placing.tables.items()
            for slot in here.slots
            if (area := self.areas.get(self.placing.range_name(key, slot)))
        ]

    def _tables(self) -> dict[str, Table]:
        return {table.key: table for table in self.edition.tables}

    def _is_free(self, key: str) -> bool:
        """Whether the number of its rows follows from what people typed."""
        table = self._tables()[key]
        return not (table.form or table.rows_of or (table.lines and not table.lines_each))

    def _areas(self) -> dict[str, Area]:
        """Where our names lie in the file."""
        ours = layout(self.content.edition, self.content.units).names()
        const = {n for n in self.book.names if n.startswith("const_")}
        found = {name: self.book.names[name.casefold()] for name in ours if name.casefold() in self.book.names}
        return self._from_their_heads(found) | {name: self.book.names[name] for name in const}

    def _from_their_heads(self, areas: dict[str, Area]) -> dict[str, Area]:
        """The same with the rows that people put in above the first one of a list, which lie outside its names."""
        placing = layout(self.content.edition, self.content.units)
        for key, located in locate(self.book, self.edition, self.content.units).items():
            for slot in placing.tables[key].slots if located.table.is_list else ():
                name = placing.range_name(key, slot)
                area = areas.get(name)
                if area and area.sheet == located.grid.title and area.top > located.first_row:
                    areas[name] = area._replace(top=located.first_row)
        return areas

    def _tops(self, sheet: str = "") -> dict[str, tuple[int, int]]:
        """First row and number of rows of each table in the file, or of what of it lies on one sheet there."""
        if sheet not in self.tops:
            self.tops[sheet] = self._tops_on(sheet)
        return self.tops[sheet]

    def _tops_on(self, sheet: str) -> dict[str, tuple[int, int]]:
        found = {}
        for key, areas in self._areas_of_tables.items():
            counted = Counter((area.top, area.bottom - area.top + 1) for area in areas if sheet in {"", area.sheet})
            if counted:
                found[key] = counted.most_common(1)[0][0]
        return found

    @functools.cached_property
    def _areas_of_tables(self) -> dict[str, list[Area]]:
        """Where the columns of each table lie in the file."""
        placing = layout(self.content.edition, self.content.units)
        named = {key: [placing.range_name(key, slot) for slot in here.slots] for key, here in placing.tables.items()}
        return {key: [self.areas[name] for name in names if name in self.areas] for key, names in named.items()}

    def _plan_date(self) -> datetime.date:
        """The day for which the file was reckoned when it was saved: values that follow from it are no fault on another day."""
        area = self.areas.get("settings_plan_date")
        held = self.book.grids[area.sheet].cells.get((area.top, area.left), Raw(None)).value if area else None
        if isinstance(held, datetime.datetime):
            return held.date()
        if isinstance(held, int | float) and not isinstance(held, bool):
            return self.book.epoch + datetime.timedelta(days=int(held))
        return datetime.datetime.now().astimezone().date()

    def _records(self, rows: dict[str, int]) -> Records:
        """The content in the rows in which it stands; rows between may be empty."""
        records, tops = records_of(self.content), self._tops()
        for key, entries in self.content.tables.items():
            if not self._tables()[key].is_list or key not in tops:
                continue
            spread = records[key] = [{} for _ in range(rows[key])]
            for entry in entries:
                place = next(iter(entry.places.values()), None)
                top = self._tops(place.sheet).get(key, tops[key])[0] if place else 0
                index = _first_row(entry.places) - top
                if 0 <= index < rows[key]:
                    spread[index] = dict(entry.values)
                else:
                    where = next(iter(entry.places.values()))
                    self._say(where.sheet, where.cell, "", "a row outside of its list", "no formulas in this row", f"rows {tops[key][0]} to {tops[key][0] + rows[key] - 1}")  # fmt: skip
        return records

    def _say(self, sheet: str, cell: str, column: str, what: str, found: str, wanted: str) -> None:
        self.found.append(Fault(sheet, cell, column, what, found, wanted))

    # --- the parts of the check ---

    def faults(self, say: Callable[[str], None] = lambda _: None) -> list[Fault]:
        """Everything that is wrong: inputs first, then formulas, then values."""
        from workbook.cells.evaluating import evaluate  # noqa: PLC0415  slow to load, and only this command needs it

        slots = {(c.here.table.key, c.slot.column.key): c.slot for c in self.columns if is_typed(c.slot)}
        self.found += inputs.of_content(self.content, self._tables(), slots)
        self._gone_and_full()
        stands = self._as_it_stands()
        say("evaluating")
        values = evaluate(self.pages, self.placing.names(), self.plan_date, may_fail=True)
        say("comparing")
        self._values(stands, values)
        return self.found

    def _gone_and_full(self) -> None:
        area = self.areas.get(ROWS_LEFT)
        least = self.book.grids[area.sheet].cells.get((area.top, area.left), Raw(None)).value if area else None
        # What is no number there is told as what it is, and no list counts as nearly full.
        rows_left = float(least) if isinstance(least, int | float) else 0.0
        for key, (top, rows) in self._tops().items():
            table, entries = self._tables().get(key), self.content.tables.get(key, ())
            full = inputs.nearly_full(entries, rows, rows_left) if table and table.is_list else None
            if table and full:
                self._say(self.placing.tables[key].sheet, f"row {top + rows - 1}", "", "a list nearly full", *full)
        for key, here in self.placing.tables.items():
            if key not in self._tops() and not (here.table.form and not here.table.columns):
                self._say(
                    here.sheet,
                    "",
                    here.table.title,
                    "a table that is gone",
                    "none of its names",
                    "the names of its columns",
                )
        for table in self._tables().values():
            for column in table.typed:
                if column.key in self.content.lacking.get(table.key, ()):
                    sheet = self.placing.tables[table.key].sheet
                    self._say(sheet, "", column.label, "a column that is gone", "no such column", "what people type")

    def _as_it_stands(self) -> list[tuple[Column, int]]:
        """Put what the file holds into the fresh workbook, so that its formulas see what the file's saw.

        The cells that hold the formula that they should.
        """
        ours = {name: Area(*area) for name, area in self.placing.names().items()}
        # Where nothing was moved, most formulas are the same to the letter.
        to_the_letter = ours.items() >= self.areas.items() and self.same_version
        formulas = Comparison(Lanes(ours), Lanes(self.areas), to_the_letter=to_the_letter)
        sheets = {page.placed.sheet.title: Sheet(page) for page in self.pages}
        right: list[tuple[Column, int]] = []
        for column in self.columns:
            fresh, there = sheets[column.slot.sheet], self.book.grids[column.area.sheet]
            reckoned = fresh.reckoned(column)
            same, odd = formulas.apart(column, reckoned, fresh, there)
            wanted = {i: formulas.wanted(column, i, fresh) for i in odd}
            stands = {i: told for i in odd if (told := formulas.stands(column, i, there))}
            usual = wanted if self.same_version or len(same) > len(odd) else self._usual(stands)
            right += [(column, i) for i in same] + [(column, i) for i in odd if stands.get(i) == wanted[i]]
            for i in odd:
                raw = there.cells.get(column.there(i), Raw(None))
                if stands.get(i) != wanted[i]:
                    cell = _cell(column.fresh(i), raw.value)
                    # A formula that shows nothing is no cell in which nothing stands.
                    is_empty = raw.formula and cell.kind == "blank"
                    fresh.put(column.fresh(i), cell._replace(kind="formula", content='=""') if is_empty else cell)
                if stands.get(i) != usual.get(i):
                    self._formula(column, i, raw, fresh.text(column.fresh(i)))
            if isinstance(column.slot.column, Typed):
                for i in sorted({i for i in column.rows if i >= 0}.difference(reckoned)):
                    self._typed(column, i, there.cells.get(column.there(i), Raw(None)), fresh)
            for place in column.lost:  # a list from which rows were deleted has no formulas in them either
                if fresh.reckons(place):
                    fresh.put(place, _cell(place, None))
        for sheet in sheets.values():
            sheet.write()
        return right

    def _usual(self, stands: dict[int, str]) -> dict[int, str]:
        """In a file of another version: the formula that most rows of the column have."""
        most = Counter(text for i, text in stands.items() if i >= 0).most_common(1)
        return {i: most[0][0] if i >= 0 and most else text for i, text in stands.items()}

    def _formula(self, column: Column, index: int, raw: Raw, text: str) -> None:
        what = (
            "another formula"
            if raw.formula
            else "typed over a formula"
            if raw.value is not None
            else "a formula is gone"
        )
        found = raw.formula or shown(raw.value) or "nothing"
        self._say(
            column.area.sheet, address(*column.there(index)), column.label, what, found, "=" + text.removeprefix("=")
        )

    def _typed(self, column: Column, index: int, raw: Raw, fresh: Sheet) -> None:
        typed, place = column.slot.column, column.fresh(index)
        if not isinstance(typed, Typed) or not is_typed(column.slot):
            return
        where = column.area.sheet, address(*column.there(index)), column.label
        cell = _cell(place, raw.value)
        if typed.locked:
            before = fresh.cells.get(place)
            wanted = before.content if before and before.kind != "blank" else None
            if self.same_version and column.here.table.key != "about" and not _alike(cell.content, wanted):
                self._say(*where, "typed over a locked cell", shown(raw.value) or "nothing", str(wanted or "nothing"))
        elif fault := inputs.of_cell(typed, raw.value):
            self._say(*where, *fault)
        fresh.put(place, cell)

    def _values(self, right: list[tuple[Column, int]], values: "Values") -> None:
        """Cells that hold the right formula, but show something else than it gives."""
        from workbook.cells.evaluating import is_error  # noqa: PLC0415  slow to load, and only this command needs it

        nothing = Raw(None)
        for column, index in right:
            raw = self.book.grids[column.area.sheet].cells.get(column.there(index), nothing)
            value = values[column.slot.sheet, *column.fresh(index)]
            # Most cells show exactly what they should: nothing is put into words for them.
            if (raw.value == value and not isinstance(raw.value, bool) and not is_error(value)) or (
                value == "" and raw.value is None
            ):
                continue
            held = _cell((1, 1), raw.value).content
            if is_error(value):
                where = column.area.sheet, address(*column.there(index)), column.label
                self._say(*where, FAILS, _said(held), "a value: mend what is told of the cells that it looks at")
            elif not _alike(held, value):
                what = "no value stored" if held is None else "a value that is not what its formula gives"
                self._say(
                    column.area.sheet, address(*column.there(index)), column.label, what, _said(held), _said(value)
                )


def _first_row(places: Mapping[str, Place]) -> int:
    """The highest row in which a cell of an entry was read; 0 where nobody knows."""
    if isinstance(places, Places):
        return places.first_row
    return min((place[0] for p in places.values() if (place := at(p.cell))), default=0)


def _cell(place: At, held: Held | None) -> Cell:
    """What stands in a cell of the file, as a cell of ours."""
    if held is None or held == "":
        return Cell(*place, "blank", None, ("", ""))
    if isinstance(held, datetime.datetime | datetime.date):
        day = held.date() if isinstance(held, datetime.datetime) else held
        return Cell(*place, "number", serial(day), ("", ""))
    if isinstance(held, int | float) and not isinstance(held, bool):
        return Cell(*place, "number", held, ("", ""))
    return Cell(*place, "text", shown(held) if not isinstance(held, str) else held, ("", ""))


def _alike(one: str | float | None, other: str | float | None) -> bool:
    """Whether two programs show the same: numbers to nine digits, blank as blank."""
    if isinstance(one, int | float) and isinstance(other, int | float):
        return math.isclose(one, other, rel_tol=1e-9, abs_tol=1e-9)
    return _text(one) == _text(other)


def _text(held: str | float | None) -> str:
    return (
        unicodedata.normalize("NFC", _said(held) if held is not None and held != "" else "")
        .replace("\r\n", "\n")
        .strip()
    )


def _said(held: str | float | None) -> str:
    return "nothing" if held is None or held == "" else f"{held:.10g}" if isinstance(held, int | float) else held
