"""Where the tables of an edition lie in a file that people edited: by defined names, then by headers."""

import csv
import functools
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from workbook.build import templates_folder
from workbook.cells.placing import Placing
from workbook.cells.slots import Placed, Slot
from workbook.copies.grids import Area, Book, Grid
from workbook.editions import Edition, with_conflicts
from workbook.tables.columns import SUCH_AS, Typed
from workbook.tables.schema import Schema
from workbook.tables.table import Table
from workbook.tables.units import SYSTEMS, Twin, twin, written

HEADER_WITHIN = 8  # rows that people may have put between header and data
ENOUGH_LABELS = 0.6


@dataclass
class Column:
    """One column of a table as it lies in the file: of a form, one cell."""

    key: str
    at: int
    twin: Twin | None = None
    row: int = 0  # of a form


@dataclass
class Located:
    """One table as it lies in the file: typed columns by key, and every column of ours, by its place.

    behind: what of a list lies on the sheet of its workings; nobody types there.
    """

    table: Table
    grid: Grid
    header_row: int = 0
    first_row: int = 0
    last_row: int = 0
    typed: dict[str, Column] = field(default_factory=dict)
    ours: dict[int, str] = field(default_factory=dict)
    across: int = 2  # a form's column of values
    behind: "Located | None" = None


@functools.cache
def layout(edition: str, system: str) -> Placing:
    """Names and order of all columns of an edition in one unit system."""
    found = with_conflicts(edition)
    constants: dict[str, str] = {}
    for name in ("constants", *(more for table, more in found.more if table == "constants")):
        with (templates_folder() / "shared" / f"{name}.csv").open(encoding="utf-8", newline="") as file:
            constants |= {row["key"]: row["unit"] for row in csv.DictReader(file)}
    rows = dict.fromkeys((table.key for table in found.tables), 2)
    return Placing(Schema(found.tables, constants), found.sheets, rows, system)


def is_typed(slot: Slot) -> bool:
    """Whether people type in it."""
    return isinstance(slot.column, Typed) and slot.shows != "from typed"


def system_of(book: Book, edition: Edition) -> str:
    """The unit system: from the properties, the About form, or the names that only one system has."""
    told = book.facts.get("shoalbook units", "") or about(book, "units", "Units")
    if told.casefold() in SYSTEMS:
        return told.casefold()
    found = {
        system: {n.casefold() for n in layout(edition.name, system).names()} & set(book.names) for system in SYSTEMS
    }
    return max(SYSTEMS, key=lambda system: len(found[system]))


def about(book: Book, key: str, label: str) -> str:
    """What the form About this file says; nothing where it is gone."""
    area = book.names.get(f"about_{key}")
    if area and (raw := book.grids[area.sheet].cells.get((area.top, area.left))):
        return str(raw.value or "")
    for grid in book.grids.values():
        for (row, column), raw in grid.cells.items():
            if column == 1 and isinstance(raw.value, str) and raw.value.strip() == label:
                beside = grid.cells.get((row, 2))
                if beside and beside.value is not None:
                    return str(beside.value)
    return ""


def locate(book: Book, edition: Edition, system: str) -> dict[str, Located]:
    """Every table that can be found."""
    placing = layout(edition.name, system)
    found: dict[str, Located] = {}
    for key, here in placing.tables.items():
        located = _form(book, placing, here) if here.table.form else _table(book, placing, here)
        if located:
            found[key] = located
    return found


def _named(names: Mapping[str, Area], placing: Placing, here: Placed) -> Iterator[tuple[Slot, Area]]:
    for slot in here.slots:
        area = names.get(placing.range_name(here.table.key, slot).casefold())
        if area:
            yield slot, area
        # Before schema 2 every answer stood in both units of a US file; some are shown in none of them now.
        if slot.twin and slot.shows == "base":
            shown = replace(slot, unit=slot.twin.unit, shows="twin")
            area = names.get(placing.range_name(here.table.key, shown).casefold())
            if area and not any(other.shows == "twin" and other.column is slot.column for other in here.slots):
                yield shown, area


def _sheets(areas: list[tuple[Slot, Area]]) -> list[str]:
    """Where a table lies: the sheet that most of it is typed on, and the one with most of its workings.

    Of a table that people strewed over more sheets, those with most of it count.
    """
    typed = Counter(area.sheet for slot, area in areas if is_typed(slot)).most_common(1)
    others = Counter(area.sheet for slot, area in areas if not typed or area.sheet != typed[0][0]).most_common(1)
    return [sheet for sheet, _ in (*typed, *others)]


def reckoned(names: Mapping[str, Area], edition: str, system: str) -> dict[str, dict[int, range]]:
    """The rows of each column in which only formulas of ours stand, by sheet: reading needs none of them."""
    placing = layout(edition, system)
    found: dict[str, dict[int, range]] = {}
    typed: set[tuple[str, int]] = set()
    for here in placing.tables.values():
        areas = [] if here.table.form else list(_named(names, placing, here))
        sheets = _sheets(areas)
        for slot, area in areas:
            if is_typed(slot):
                typed.add((area.sheet, area.left))
            elif area.left == area.right and area.sheet in sheets:
                found.setdefault(area.sheet, {})[area.left] = range(area.top, area.bottom + 1)
    return {
        sheet: {at: rows for at, rows in columns.items() if (sheet, at) not in typed}
        for sheet, columns in found.items()
    }


# --- forms ---


def _form(book: Book, placing: Placing, here: Placed) -> Located | None:
    named = list(_named(book.names, placing, here))
    cells = {slot.column.key: area for slot, area in named if is_typed(slot) or slot.shows == "base"}
    sheet = Counter(area.sheet for area in cells.values()).most_common(1)
    grid = book.grids[sheet[0][0]] if sheet else book.grids.get(here.sheet)
    if grid is None:
        return None
    located = Located(here.table, grid)
    lefts = Counter(area.left for area in cells.values() if area.sheet == grid.title).most_common(1)
    located.across = lefts[0][0] if lefts else 2
    for slot in here.slots:
        key, area = slot.column.key, cells.get(slot.column.key)
        if is_typed(slot):
            row, at = (area.top, area.left) if area and area.sheet == grid.title else _labelled(grid, _label(slot))
            if row:
                located.typed[key] = Column(key, at, slot.twin, row)
                located.last_row = max(located.last_row, row)
        elif area and area.sheet == grid.title:
            located.last_row = max(located.last_row, area.top)
    if located.last_row:  # a typed value of other units has its base below all that people see
        located.last_row = max([located.last_row, *(area.top for _, area in named if area.sheet == grid.title)])
    return located if located.last_row else None


def _label(slot: Slot) -> str:
    return getattr(slot.column, "label", "")


def _labelled(grid: Grid, label: str) -> tuple[int, int]:
    """Row and column of the value beside a label; 0 where there is no such label."""
    rows = [row for (row, column), raw in grid.cells.items() if column == 1 and raw.value == label]
    return (min(rows), 2) if rows else (0, 0)


# --- tables ---


def _table(book: Book, placing: Placing, here: Placed) -> Located | None:
    areas = list(_named(book.names, placing, here))
    if not areas:
        return _by_header(book, here)
    sheet, *behind = _sheets(areas)
    located, named = _on_sheet(book, here, sheet, areas)
    if behind:
        located.behind = _on_sheet(book, here, behind[0], areas)[0]
    # A row put in right above the first one lies outside the names.
    units = {written(slot.unit) for slot in named} - {""}
    # Running counts start above the first row, but not on a list: what is reckoned for it lies behind it.
    computed = set() if behind else set(located.ours) - {column.at for column in located.typed.values()}
    located.first_row = _below_units(located, units, computed)
    for slot in here.slots:
        if is_typed(slot) and slot.column.key not in located.typed:
            at = _under_label(located, _label(slot))
            if at:
                _add(located, slot, at)
            elif at := _in_base_unit(located, slot):
                located.typed[slot.column.key] = Column(slot.column.key, at)
    return located


def _on_sheet(book: Book, here: Placed, sheet: str, areas: list[tuple[Slot, Area]]) -> tuple[Located, list[Slot]]:
    """What of a table has a name on a sheet."""
    areas = [(slot, area) for slot, area in areas if area.sheet == sheet]
    located = Located(here.table, book.grids[sheet])
    located.first_row = Counter(area.top for _, area in areas).most_common(1)[0][0]
    located.last_row = max(area.bottom for _, area in areas)
    for slot, area in areas:
        # A name that people stretched over several columns tells nothing.
        if area.left == area.right:
            _add(located, slot, area.left)
    labels = {_label(slot) for slot, _ in areas} - {""}
    located.header_row = _header_row(located.grid, located.first_row, labels)
    return located, [slot for slot, _ in areas]


def _in_base_unit(located: Located, slot: Slot) -> int:
    """The column where an earlier version had the same typed in the base unit, with no twin beside it; else 0."""
    row = located.grid.rows.get(located.header_row, {})
    found = [at for at, key in located.ours.items() if key == slot.column.key and at in row]
    return next((at for at in found if row[at].value == _label(slot)), 0)


def _add(located: Located, slot: Slot, at: int) -> None:
    if at in located.ours and slot.column.key != located.ours[at]:
        return
    located.ours[at] = slot.column.key
    if is_typed(slot):
        located.typed.setdefault(slot.column.key, Column(slot.column.key, at, slot.twin))


def _header_row(grid: Grid, first_row: int, labels: set[str]) -> int:
    """The row above the data that holds most of the labels."""
    scores = {
        row: len(labels & {r.value for r in grid.rows.get(row, {}).values() if isinstance(r.value, str)})
        for row in range(max(1, first_row - HEADER_WITHIN), first_row)
    }
    best = max(scores, key=lambda row: (scores[row], row), default=first_row - 2)
    return best if scores.get(best) else max(1, first_row - 2)


def _below_units(located: Located, units: set[str], computed: set[int]) -> int:
    """The first row of data: right below the row of units, or of formulas in its place, wherever that lies."""
    for row in range(located.first_row - 1, located.header_row, -1):
        cells = located.grid.rows.get(row, {}).items()
        if any(
            (at in computed and raw.formula) or (isinstance(raw.value, str) and raw.value in units) for at, raw in cells
        ):
            return row + 1
    return min(located.first_row, _below_head(located.grid, located.header_row))


def _below_head(grid: Grid, header_row: int) -> int:
    """The row below labels and units, and below the row of examples that newer files have between them."""
    below = grid.rows.get(header_row + 1, {}).values()
    has_examples = any(isinstance(raw.value, str) and raw.value.startswith(SUCH_AS) for raw in below)
    return header_row + (3 if has_examples else 2)


def _under_label(located: Located, label: str) -> int:
    """The column whose header is this label and that is not yet known; 0 where there is none."""
    cells = located.grid.rows.get(located.header_row, {})
    found = [at for at, raw in cells.items() if raw.value == label and at not in located.ours]
    # Lists side by side may have headers of the same words: the nearest is this list's.
    return min(found, key=lambda at: (_apart(located, at), at), default=0)


def _apart(located: Located, at: int) -> int:
    """How far a column lies outside a list."""
    first, last = min(located.ours, default=at), max(located.ours, default=at)
    return max(first - at, at - last, 0)


def _by_header(book: Book, here: Placed) -> Located | None:
    """A table of which no name is left: the row that holds most labels of its typed columns."""
    slots = [slot for slot in here.slots if is_typed(slot)]
    labels = {_label(slot) for slot in slots}
    if not (here.table.is_list or here.table.given or here.table.told):
        return None
    best: tuple[int, Grid | None, int] = (0, None, 0)
    for sheet in book.grids.values():
        for at, cells in sheet.rows.items():
            found = len(labels & {raw.value for raw in cells.values() if isinstance(raw.value, str)})
            if found > best[0]:
                best = (found, sheet, at)
    score, grid, row = best
    if grid is None or score < max(2, ENOUGH_LABELS * len(labels)):
        return None
    first = _below_head(grid, row)
    located = Located(here.table, grid, row, first, first)
    for slot in here.slots:
        if at := _under_label(located, _label(slot)):
            unit = grid.text(first - 1, at)
            base = slot.twin.unit if slot.twin else slot.unit
            _add(located, _in_unit(slot, unit) if unit and unit != written(base) else slot, at)
    return located


def _in_unit(slot: Slot, unit: str) -> Slot:
    """The slot as its row of units says."""
    base = getattr(slot.column, "unit", "")
    for system in SYSTEMS:
        other = twin(base, system, bought=slot.column.look.bought)
        if unit == written(other.unit if other else base):
            return Slot(slot.column, slot.at, other.unit if other else base, other, slot.shows)
    return slot
