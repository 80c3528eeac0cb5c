"""Where everything lies: sheets, header rows, the column of each key, the names of ranges."""

import functools
import re

from workbook.cells.slots import Placed, PlacedSheet, Slot
from workbook.tables.columns import SERIOUSNESS, Computed, Pulled, Said, Typed
from workbook.tables.completing import FLAG_BLOCKS
from workbook.tables.picking import BY_GROUP, GROUP_OF_IT, NAMED, SORTED
from workbook.tables.row_ways import TO_LIST
from workbook.tables.schema import Schema
from workbook.tables.sheet import Band, Charts, Sheet
from workbook.tables.table import Table
from workbook.tables.units import in_a_name, twin

WORKINGS, LISTED = " workings", "_listed"
FORM_COLUMNS = ("label", "value", "unit", "help")
FIRST_BEHIND = (TO_LIST, "line")  # of the columns of workings
BESIDE_A_FORM = 4  # columns that a form at the left takes, the narrow one after it among them


@functools.cache
def letters(number: int) -> str:
    """Letters of a column: 1 is A, 27 is AA."""
    found = ""
    while number:
        number, rest = divmod(number - 1, 26)
        found = chr(65 + rest) + found
    return found


def workings_of(sheet: Sheet) -> Sheet:
    """The sheet at the end of the file where the lists of a sheet are reckoned."""
    return Sheet(
        sheet.title + WORKINGS,
        f"How each row of the sheet {sheet.title} is reckoned, step by step, in the same order. Nothing is typed here.",
        role="workings",
    )


def before_a_cell(sheet: str) -> str:
    """The title of a sheet as it stands before an address, in quotes only where it needs them.

    LibreOffice takes a formula over from the row above when it is spelled as it would spell it, and that is without:
    with needless quotes a sheet of 2,000 rows took twice as long to open.
    """
    return sheet if re.fullmatch("[A-Z][a-z]{2,}", sheet) else f"'{sheet}'"


class Placing:
    """Lays out all sheets for one schema, one number of rows and one unit system."""

    def __init__(self, schema: Schema, sheets: tuple[Sheet, ...], rows: dict[str, int], system: str) -> None:
        self.schema, self.rows, self.system = schema, rows, system
        self.tables: dict[str, Placed] = {}
        self.sheets: dict[str, PlacedSheet] = {}
        self.row_names: dict[str, tuple[str, int, int, int, int]] = {}
        behind: list[PlacedSheet] = []
        for sheet in sheets:
            self._place(sheet, behind)
        self.sheets |= {placed.sheet.title: placed for placed in behind}

    def on(self, sheet: str) -> list[Placed]:
        """The tables that have a column on a sheet."""
        placed = self.tables.values()
        return [here for here in placed if here.on(sheet) or (here.table.form and here.sheet == sheet)]

    def _place(self, sheet: Sheet, behind: list[PlacedSheet]) -> None:
        placed = PlacedSheet(sheet, frozen_columns=sheet.frozen_columns)
        placed.head = 3 + any(isinstance(block, Table) and bool(block.example) for block in sheet.blocks)
        self.sheets[sheet.title] = placed
        row = 3
        for _ in sheet.remarks:
            placed.note_rows.append(row)
            row += 1
        for form in sheet.forms:
            at = self._above_dropdowns(sheet, self.schema[form.key])
            row = self._place_form(sheet, self.schema[form.key], row + (not sheet.blocks and not sheet.close), at)
            placed.last_printed_column = placed.last_column = 4
        placed.header_row = row
        if sheet.left:
            self._place_left(placed, [self.schema[form.key] for form in sheet.left])
        if sheet.bands:
            self._place_page(placed)
        elif any(isinstance(block, Table) and block.is_list for block in sheet.blocks):
            behind.append(self._place_lists(placed))
        else:
            self._place_blocks(placed)

    def _place_blocks(self, placed: PlacedSheet) -> None:
        """Blocks side by side, and their working columns at the right of all."""
        sheet, at, last = placed.sheet, 1, 1
        if sheet.left:
            at += BESIDE_A_FORM
            placed.frozen_columns += BESIDE_A_FORM
        placed.header_row, above = self._place_bands(placed, sheet.above, placed.header_row)
        working: list[tuple[Placed, list[Slot]]] = []
        for block in sheet.blocks:
            if isinstance(block, Charts):
                placed.charts.append((block, at))
                at += block.columns + 1
                last = at - 2
                continue
            table = self.schema[block.key]
            here = Placed(table, sheet.title, placed.header_row + placed.head, self.rows[table.key], head=placed.head)
            self.tables[table.key] = here
            shown, hidden = self._slots(table)
            for slot in shown:
                here.add(slot, at)
                last = at
                at += 1
            working.append((here, hidden))
            at += 1
        placed.last_printed_column = max(placed.last_printed_column, last)
        for here, hidden in (*working, *above):
            for slot in hidden:
                here.add(slot, at)
                at += 1
            at += bool(hidden)
        placed.last_column = max(placed.last_column, at - 2)

    def _place_page(self, placed: PlacedSheet) -> None:
        """Bands one below the other on the grid; then, at its right, working columns and the forms beside it."""
        sheet = placed.sheet
        _, working = self._place_bands(placed, sheet.bands, placed.header_row)
        placed.last_printed_column, at = len(sheet.grid), len(sheet.grid) + 2
        for here, hidden in working:
            for slot in hidden:
                here.add(slot, at)
                at += 1
        for form in sheet.beside:
            self._place_form(sheet, self.schema[form.key], placed.header_row, at + 2)
            at += 5
        placed.last_column = at

    def _place_bands(
        self, placed: PlacedSheet, bands: tuple[Band, ...], top: int
    ) -> tuple[int, list[tuple[Placed, list[Slot]]]]:
        """Bands one below the other: the row below them, and the working columns that still have no place."""
        working: list[tuple[Placed, list[Slot]]] = []
        for band in bands:
            ends = []
            for begin, stack in band.placed:
                row = top
                for block in stack:
                    if isinstance(block, Charts):
                        placed.page_charts.append((block, begin, row))
                        row += block.rows
                        continue
                    table = self.schema[block.key]
                    titles = (1 if table.title else 0) if placed.sheet.close else 3
                    here = Placed(
                        table, placed.sheet.title, row + titles, self.rows[table.key], on_page=True, titles=titles
                    )
                    self.tables[table.key] = here
                    shown, hidden = self._slots(table)
                    at = begin
                    for slot in shown:
                        here.add(slot, at)
                        at += slot.column.look.span
                    here.page_end = at - 1
                    working.append((here, hidden))
                    row = here.last_row + 1
                ends.append(row)
            top = max(ends)
        return top, working

    def _above_dropdowns(self, sheet: Sheet, form: Table) -> int:
        """The column of the values of a form: the one of the dropdowns that it narrows, or else the second."""
        narrowed = {column.narrows for column in form.typed} - {""}
        for table in (self.schema[table.key] for table in sheet.tables if narrowed and not table.form):
            at = 1
            for slot in self._parts(table)[0] if table.is_list else self._slots(table)[0]:
                if isinstance(slot.column, Typed) and slot.column.kind.table in narrowed:
                    return max(at, 2)
                at += slot.column.look.span
        return 2

    def _place_form(self, sheet: Sheet, form: Table, row: int, across: int = 2) -> int:
        here = Placed(form, sheet.title, row + sheet.has_head(form), 1, across=across)
        self.tables[form.key] = here
        at = here.first_row
        for slot in (slot for slots in self._slots(form) for slot in slots):
            here.add(slot, at)
            at += 1
        return at

    def _place_left(self, placed: PlacedSheet, forms: list[Table]) -> None:
        """Forms at the left: their sentences, then, below the head of the tables, what people read, then what is reckoned."""
        parts = {form.key: self._slots(form) for form in forms}
        said = [(key, slot) for key, (shown, _) in parts.items() for slot in shown if slot.column.look.runs_on]
        read = [(key, slot) for key, (shown, _) in parts.items() for slot in shown if not slot.column.look.runs_on]
        read += [(key, slot) for key, (_, working) in parts.items() for slot in working]
        first = placed.header_row + len(said) + placed.head
        for form in forms:
            self.tables[form.key] = Placed(form, placed.sheet.title, first, 1, across=2)
        for at, (key, slot) in (*enumerate(said, placed.header_row), *enumerate(read, first)):
            self.tables[key].add(slot, at)
        placed.header_row += len(said)

    # --- lists: what people type on one sheet, what is reckoned from it on another, in the same rows ---

    def _place_lists(self, placed: PlacedSheet) -> PlacedSheet:
        """Lists side by side, and behind them their workings with all other tables of the sheet."""
        sheet, at = placed.sheet, 1
        behind = PlacedSheet(workings_of(sheet), header_row=placed.header_row, head=placed.head, frozen_columns=1)
        title, there = behind.sheet.title, 1
        for block in sheet.blocks:
            if isinstance(block, Charts):
                placed.charts.append((block, at))
                at += block.columns + 1
                continue
            table = self.schema[block.key]
            here = Placed(table, sheet.title, placed.header_row + placed.head, self.rows[table.key], head=placed.head)
            here.workings = title
            self.tables[table.key] = here
            listed, reckoned = self._parts(table)
            if at == 1 and sheet.frozen_columns:
                placed.frozen_columns = sum(slot.shows != "typed" for slot in listed[:2]) + sheet.frozen_columns
            for slot in listed:
                here.add(slot, at)
                at += 1
            at += bool(listed)
            for slot in reckoned:
                here.add(slot, there)
                there += 1
            there += 1
        placed.last_printed_column = placed.last_column = at - 2
        behind.last_printed_column = behind.last_column = there - 2
        return behind

    def _parts(self, table: Table) -> tuple[list[Slot], list[Slot]]:
        """The slots of a table on the sheet of a list, and those on its workings; each still without its place."""
        left: list[Slot] = []
        right: list[Slot] = []
        typed: list[Slot] = []
        mirrored: list[Slot] = []
        reckoned: list[Slot] = []
        listed = (*table.signs, *table.shown) if table.is_list else ()
        for column in table.columns:
            unit = self.schema.origin(table, column.key)[1].unit
            other = twin(unit, self.system, bought=column.look.bought)
            if isinstance(column, Typed):
                other = None if column.locked else other
                rare = bool(table.often) and column.key not in table.often and not column.free
                typed.append(Slot(column, 0, other.unit if other else unit, other, "typed", rare=rare))
                if not column.free:
                    mirrored.append(Slot(column, 0, unit, other, "from typed"))
                continue
            if isinstance(column, Computed) and column.beside:
                right.append(Slot(column, 0, unit, None, "beside"))
                mirrored.append(Slot(column, 0, unit, None, "from typed"))
                continue
            reckoned.append(Slot(column, 0, unit, other))
            if not table.is_list and not column.look.working:
                raise TypeError(f"{table.key}.{column.key}: an answer on a sheet of lists, where rows are deleted")
            if column.look.drawn and other:
                reckoned.append(Slot(column, 0, other.unit, other, "drawn"))
            if column.key in listed:
                shown = Slot(column, 0, other.unit, other, "twin") if other else Slot(column, 0, unit, None, "answer")
                (left if column.key in table.signs else right).append(shown)
        left.sort(key=lambda slot: table.signs.index(slot.column.key))
        places = {key: i for i, key in enumerate(table.shown)}
        right.sort(key=lambda slot: places.get(slot.column.key, len(places)))
        lines = sorted(
            (s for s in reckoned if s.column.key in FIRST_BEHIND), key=lambda s: FIRST_BEHIND.index(s.column.key)
        )
        others = [slot for slot in reckoned if slot.column.key not in FIRST_BEHIND]
        order = {key: i for i, key in enumerate(table.often)}
        typed.sort(key=lambda slot: (slot.rare, order.get(slot.column.key, len(order))))
        return [*left, *typed, *right], [*lines, *mirrored, *others]

    def _slots(self, table: Table) -> tuple[list[Slot], list[Slot]]:
        """Slots that people read, and working slots; each still without its place."""
        shown: list[Slot] = []
        working: list[Slot] = []
        for column in table.columns:
            unit = self.schema.origin(table, column.key)[1].unit
            other = twin(unit, self.system, bought=column.look.bought)
            if isinstance(column, Said) and table.one_line:
                shown.append(Slot(column, 0, unit, None, "answer"))
                working.append(Slot(column, 0, unit))
                continue
            aside = column.look.working or (column.look.metric_only and self.system == "us")
            place = working if aside else shown
            if isinstance(column, Typed) and other and not column.locked:
                place.append(Slot(column, 0, other.unit, other, "typed"))
                working.append(Slot(column, 0, unit, other, "from typed"))
            elif isinstance(column, Computed | Pulled) and other and (column.look.drawn or not column.look.working):
                place.append(Slot(column, 0, other.unit, other, "twin"))
                working.append(Slot(column, 0, unit, other))
            else:
                place.append(Slot(column, 0, unit))
        return shown, working

    def range_name(self, table: str, slot: Slot) -> str:
        """The defined name of a column or of a form's cell; what stands twice in one unit has two."""
        again = {"from typed": "_as_reckoned", "answer": "_shown"}.get(slot.shows, "") if not slot.twin else ""
        return f"{table}_{slot.column.key.lstrip('@')}{in_a_name(slot.unit)}{again}"

    def typed_name(self, table: str, key: str) -> str:
        """The defined name of what people type in a column; of a reckoned one, of its base values."""
        typed = (s for s in self.tables[table].slots if s.column.key == key and s.shows == "typed")
        slot = next(typed, None)
        return self.range_name(table, slot) if slot else self.column_name(table, key)

    def column_name(self, table: str, key: str) -> str:
        """The defined name under which formulas find the base values of a column."""
        here = self.tables[table]
        slot = next(s for s in here.on(here.base_sheet) if s.column.key == key and s.at == here.base[key])
        return self.range_name(table, slot)

    def narrowing(self, sheet: str, table: str) -> str:
        """The form of a sheet in which a group is picked, if only the names of that one are to be offered there."""
        forms = (form for form in self.sheets[sheet].sheet.tables if form.form)
        return next((form.key for form in forms if any(c.narrows == table for c in form.typed)), "")

    def offered(self, table: str, sheet: str) -> str:
        """The defined name of the names of a table that the dropdowns of a sheet offer."""
        if form := self.narrowing(sheet, table):
            return f"{form}_{table}_dropdown"
        is_sorted = SORTED in self.tables[table].base
        return f"{table}_dropdown" if is_sorted else self.typed_name(table, self.schema.key_of(table))

    def dropdowns(self) -> dict[str, str]:
        """The names that end at the last name of a list, each with its formula: a dropdown shows no blank tail.

        Nothing but dropdowns looks at them, for programs do not agree on such a range within a formula.
        """
        found = {}
        for table in (key for key, here in self.tables.items() if SORTED in here.base):
            names, so_far = (self.column_name(table, key) for key in (SORTED, NAMED))
            found[f"{table}_dropdown"] = f"INDEX({names},1):INDEX({names},MAX(1,{so_far}))"
            if BY_GROUP in self.tables[table].base:
                found |= self._narrowed(table, found[f"{table}_dropdown"])
        return found

    def _narrowed(self, table: str, whole: str) -> dict[str, str]:
        """For each sheet on which a group can be picked, the names of that one; all, where none or an empty one is."""
        names, groups = (self.column_name(table, key) for key in (BY_GROUP, GROUP_OF_IT))
        found = {}
        for sheet in self.sheets:
            if not (form := self.narrowing(sheet, table)):
                continue
            picked = self.typed_name(form, next(c.key for c in self.schema[form].typed if c.narrows == table))
            first = f"MATCH({picked},{groups},0)"
            one = f"INDEX({names},{first}):INDEX({names},{first}+COUNTIF({groups},{picked})-1)"
            found[self.offered(table, sheet)] = f'IF(OR({picked}="",ISNA({first})),{whole},{one})'
        return found

    def name_rows(self, table: str, column: str, prefix: str, keys: list[str]) -> None:
        """Give each row's cell of a column a name of its own."""
        here = self.tables[table]
        for row, key in enumerate(keys, here.first_row):
            self.row_names[f"{prefix}_{key}"] = (here.base_sheet, row, here.base[column], row, here.base[column])

    def names(self) -> dict[str, tuple[str, int, int, int, int]]:
        """Every defined name with its sheet, first row, first column, last row, last column."""
        found = dict(self.row_names)
        for key, here in self.tables.items():
            top, end = here.first_row, here.last_row
            for slot in here.slots:
                name, form = self.range_name(key, slot), here.table.form
                found[name] = slot.sheet, *((slot.at, here.across) * 2 if form else (top, slot.at, end, slot.at))
                if here.workings and slot.shows in {"typed", "beside"}:
                    found[name + LISTED] = (slot.sheet, top - 1, slot.at, end + 1, slot.at)
            if any(not flag.gathered for flag in here.table.flags):
                for block, first in FLAG_BLOCKS.items():
                    left, right = here.base[first], here.base[first] + len(SERIOUSNESS) - 1
                    found[f"{key}_{block[1:]}_block"] = (here.base_sheet, here.first_row, left, here.last_row, right)
        return found
