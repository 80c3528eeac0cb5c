"""From schema, sheets and records to cells: names become addresses, roles become formulas."""

import datetime
from collections.abc import Iterator

from workbook.cells.listing import answer, from_typed, head_at_left, of_a_list, short, to_workings
from workbook.cells.pages import Cell, Page, Records, Run, own_cell, serial
from workbook.cells.placing import Placing, before_a_cell, letters
from workbook.cells.slots import Placed, PlacedSheet, Slot
from workbook.cells.ways import linked, ways
from workbook.tables.columns import OPTIONAL, SUCH_AS, Computed, Flag, Pulled, Said, Typed
from workbook.tables.completing import ARROW, FLAG_BLOCKS, SEPARATOR, SYMBOLS
from workbook.tables.formula import Formula
from workbook.tables.idioms import iso_date, spoken
from workbook.tables.kinds import Value
from workbook.tables.schema import Schema
from workbook.tables.table import Table
from workbook.tables.template import NAME, WORDS
from workbook.tables.units import in_a_sentence, twin, written

# What heads the signs of a list, and what marks the looks of which text stays on one line.
SIGN, LINE = "Sign", " line"


def is_free(slot: Slot) -> bool:
    """Whether the column is a person's own."""
    return isinstance(slot.column, Typed) and slot.column.free


def label_of(schema: Schema, table: Table, slot: Slot) -> str:
    """What stands in the header of a column."""
    column = slot.column
    label = column.label or schema.origin(table, column.key)[1].label
    if isinstance(column, Said) and slot.shows == "answer":
        return SIGN
    return label + (" (as reckoned)" if slot.shows == "from typed" else "")


class Compiler:
    """Turns names into addresses for one layout."""

    def __init__(self, placing: Placing, records: Records) -> None:
        self.placing, self.schema, self.records = placing, placing.schema, records

    # --- addresses ---

    def own(self, table: Table, key: str, offset: int = 0) -> str:
        """The cell of a column in this row, with a mark where the row number goes."""
        here = self.placing.tables[table.key]
        if table.form:
            return f"${letters(here.across)}${here.base[key]}"
        return f"${letters(here.base[key])}\x00{offset}\x00"

    def same_row(self, table: Table, other: str, key: str) -> str:
        """The cell of a column in the same row of a table that has the rows of this one."""
        there = self.placing.tables[other]
        offset = there.first_row - self.placing.tables[table.key].first_row
        return f"{before_a_cell(there.base_sheet)}!${letters(there.base[key])}\x00{offset}\x00"

    def single(self, table: str, key: str) -> str:
        """The one cell of a form, or of a row that has a name of its own."""
        return f"const_{key}" if table == "const" else self.placing.column_name(table, key)

    def address(self, table: Table, name: str) -> str:  # noqa: PLR0911  one return for each form of name
        """What stands in a formula for a name."""
        if name.startswith(WORDS):
            said = self._said(table, name.removeprefix(WORDS))
            return said if said.endswith('"') else f'{said}&""'
        place, dot, key = name.removesuffix("[]").partition(".")
        here = self.placing.tables[table.key]
        if not dot or place == "above":
            return self.own(table, key, -1) if dot else self.own(table, place)
        if place in {"@shown", "@letters", "@list"}:
            return of_a_list(here, place, key)
        if key == "@top":
            return str(self.placing.tables[place].first_row - 1)
        if place == "@last":
            return f"${letters(here.base[key])}${here.last_row}"
        if place == table.rows_of and not name.endswith("[]"):
            return self.same_row(table, place, key)
        if not name.endswith("[]"):
            return self.single(place, key)
        if key in FLAG_BLOCKS:
            return f"{place}_{key[1:]}_block"
        if key == "@key":
            key = self.schema.key_of(place)
        return self.placing.column_name(place, key)

    def text(self, table: Table, text: str) -> str:
        """Formula text with every name replaced by its address."""
        return NAME.sub(lambda m: self.address(table, m[1]), text)

    # --- formulas ---

    def known(self, table: Table, names: tuple[str, ...], divisors: tuple[str, ...] = ()) -> str:
        """A test that none of these is blank, nor typed as 0 or less where that can't be, and no divisor is 0."""
        names = tuple(name.removeprefix(WORDS) for name in names)
        single = [n for n in names if n != "line" and not n.endswith("[]") and not n.startswith(("above.", "@"))]
        # Nothing of a row is known before its own name is: ready rows stay blank.
        follows = table.rows_of and not table.mirrors
        if follows or ((table.is_list or table.mirrors) and not any("." not in n for n in single)):
            single.insert(0, table.row_name[0])
        numbers: list[str] = []
        words: list[str] = []
        positive: list[str] = []
        for name in dict.fromkeys(single):
            found = self.schema.find(table, name)[1]
            is_number = not isinstance(found, Flag | Said) and found.kind.is_number
            (numbers if is_number else words).append(self.address(table, name))
            if isinstance(found, Typed) and found.kind.is_positive:
                positive.append(self.address(table, name))
        tests = [f"COUNT({','.join(numbers)})={len(numbers)}"] if numbers else []
        tests += [f"MIN({','.join(positive)})>0"] if positive else []
        tests += [f'{word}<>""' for word in words]
        for name in divisors:
            # Of a difference either sign will do; a constant is an amount.
            sign = ">" if name.startswith("const.") else "<>"
            tests += [f"{cell}{sign}0" for cell in (self.address(table, name),) if cell not in positive]
        return f"AND({','.join(tests)})" if len(tests) > 1 else "".join(tests)

    def guarded(self, table: Table, formula: Formula) -> str:
        """A formula that stays blank while something it needs is blank, or would be divided by 0."""
        needed = self.known(table, formula.needs or formula.names, formula.divisors)
        text = self.text(table, formula.text)
        return f'=IF({needed},{text},"")' if needed else f"={text}"

    def computed(self, table: Table, column: Computed) -> str:
        """The formula of a computed column."""
        if column.formula.copes_with_blanks:
            return "=" + self.text(table, column.formula.text)
        return self.guarded(table, column.formula)

    def pulled(self, table: Table, column: Pulled) -> str:
        """The formula of a pulled column: by the link's row number, or the same row of the table it mirrors."""
        other, key = self.schema.source(table, column)
        shown = self.schema.origin(other, key)[1]
        # Words pasted in the place of a number are not handed on; those that a formula says for one are.
        is_number = isinstance(shown, Typed) and shown.kind.is_number
        if table.rows_of and column.via == table.rows_of:
            cell = self.same_row(table, other.key, key)
            return f'=IF(COUNT({cell})=1,{cell},"")' if is_number else f'=IF({cell}="","",{cell})'
        via = column.via if isinstance(self.schema.origin(table, column.via)[1], Computed) else f"{column.via}_row"
        row = self.own(table, via)
        cell = f"INDEX({self.placing.column_name(other.key, key)},{row})"
        there = f'IF(COUNT({cell})=1,{cell},"")' if is_number else f'IF({cell}="","",{cell})'
        return f'=IF({row}="","",{there})'

    def sentence(self, table: Table, text: str) -> str:
        """Formula text of a sentence whose names become values with their units."""
        if text.startswith("="):
            return self.text(table, text[1:])
        parts = NAME.split(text)
        return "&".join(self._said(table, p) if i % 2 else '"' + p.replace('"', '""') + '"'
                        for i, p in enumerate(parts) if p)  # fmt: skip

    def _said(self, table: Table, name: str) -> str:
        cell, (_, found) = self.address(table, name), self.schema.find(table, name)
        if isinstance(found, Flag | Said) or not found.kind.is_number:
            return cell
        if found.kind.name == "date":
            return iso_date(cell)
        decimals = len(found.look.show.partition(".")[2].strip("% "))
        if "%" in found.look.show:
            return spoken(f"{cell}*100", decimals) + '&" %"'
        base = self.schema.unit(table, name)
        other = twin(base, self.placing.system, bought=found.look.bought)
        unit = "" if base == "currency" else in_a_sentence(other.unit if other else base)
        value = other.shown_text(cell) if other else cell
        return spoken(value, decimals) + (f'&" {unit}"' if unit else "")

    def flag(self, table: Table, column: Flag) -> str:
        """The formula of a flag: symbol, title, cause, remedy."""
        said = self.sentence(table, column.why) + f'&"{ARROW}"&' + self.sentence(table, column.do)
        text = f'"{SYMBOLS[column.seriousness]} {column.title}: "&{said}'
        when = self.text(table, column.when)
        if column.copes:
            return f'=IF({when},{text},"")'
        names = tuple(dict.fromkeys(NAME.findall(column.when + column.why + column.do)))
        # The test may only be looked at once nothing in it is blank: AND would look at all of it.
        needed = self.known(table, names)
        return f'=IF({needed},IF({when},{text},""),"")' if needed else f'=IF({when},{text},"")'

    def said(self, table: Table) -> str:
        """The most serious flag of the row, and how many more there are."""
        said, many = self.own(table, "said"), self.own(table, "said_count")
        first = f'LEFT({said},SEARCH("{SEPARATOR}",{said}&"{SEPARATOR}")-1)'
        return f'=IF({said}="","",{first}&IF({many}>1," (+"&({many}-1)&" more)",""))'

    def formula(self, table: Table, slot: Slot) -> str:  # noqa: PLR0911  one return for each role
        """The formula of a slot, with marks where row numbers go; empty for a typed one."""
        column, here = slot.column, self.placing.tables[table.key]
        if slot.shows == "from typed":
            return from_typed(here, slot, self.own(table, "line") if here.workings else "")
        if here.workings and slot.shows in {"twin", "answer"}:
            return answer(self.placing, here, slot)
        if here.workings and slot.shows == "beside" and isinstance(column, Computed):
            return to_workings(here, self.computed(table, column))
        if slot.shows == "answer":
            return "=" + short(self.own(table, column.key), self.own(table, "said_count"))
        if slot.shows in {"twin", "drawn"} and slot.twin:
            cell = self.own(table, column.key)
            return f'=IF(COUNT({cell})=1,{slot.twin.shown_text(cell)},"")'
        match column:
            case Computed():
                return self.computed(table, column)
            case Pulled():
                return self.pulled(table, column)
            case Flag():
                return self.flag(table, column)
            case Said():
                return self.said(table)
        return ""

    # --- cells ---

    def pages(self) -> list[Page]:
        """All sheets, each with its cells."""
        return [self._page(placed) for placed in self.placing.sheets.values()]

    def _page(self, placed: PlacedSheet) -> Page:
        page, sheet = Page(placed), placed.sheet
        page.cells.append(Cell(1, 1, "text", sheet.title, ("title", "")))
        page.cells.append(Cell(2, 1, "text", sheet.purpose, ("purpose", "")))
        page.cells += [
            Cell(1, at, "formula", f'=HYPERLINK("#{before_a_cell(title)}!A1","{words}")', ("way", ""))
            for at, title, words in ways(self.placing, sheet.title)
        ]
        page.cells += [
            Cell(row, 1, "text", note, ("notes", "")) for row, note in zip(placed.note_rows, sheet.remarks, strict=True)
        ]
        free: set[int] = set()
        for here in self.placing.on(sheet.title):
            slots = here.on(sheet.title)
            page.cells += self._form(here) if here.table.form else self._table(here, slots)
            page.cells += self._spans(here)
            page.runs += [] if here.table.form else self._runs(here, slots)
            free |= {slot.at for slot in slots if is_free(slot)}
        page.cells = [linked(self.placing, page, cell) for cell in page.cells]
        page.own = {(c.row, c.column) for c in page.cells if c.kind == "formula" and c.column in free}
        return page

    def _value(self, slot: Slot, value: Value | None, style: tuple[str, str], at: tuple[int, int]) -> Cell:
        if is_free(slot):
            return own_cell(at, value)
        if value is None or value == "":
            return Cell(*at, "blank", None, style)
        if isinstance(value, datetime.date):
            return Cell(*at, "number", serial(value), style)
        if isinstance(value, str):
            return Cell(*at, "text", value, style)
        return Cell(*at, "number", slot.twin.shown(value) if slot.twin else value, style)

    def _style(self, table: Table, slot: Slot) -> tuple[str, str]:
        column, line = slot.column, self._one_line(table, slot)
        origin = self.schema.origin(table, column.key)[1]
        if isinstance(column, Said):
            return ("said" + line, "text")
        if isinstance(origin, Flag | Said) or not origin.kind.is_number:
            show = "text"
        else:
            show = "date" if origin.kind.name == "date" else origin.look.show
        if isinstance(column, Typed) and slot.shows != "from typed":
            role = column.look.style or "given" if column.locked or column.handed else "typed"
            return (role + line, show)
        if column.look.link:
            return ("link", "")
        if column.look.style:
            return (column.look.style, "" if show == "text" else show)
        if column.look.runs_on:
            return ("sentence", "")
        return (("working" if self._is_working(slot) else "computed") + line, show)

    def _one_line(self, table: Table, slot: Slot) -> str:
        """On a list, and where a row answers for one of a list, no row is higher than a line, whatever stands in it."""
        here = self.placing.tables[table.key]
        is_answer = table.one_line and not here.on_page and not self._is_working(slot)
        return LINE if here.workings or is_answer else ""

    def _table(self, here: Placed, slots: list[Slot]) -> Iterator[Cell]:
        head, unit_row = here.first_row - here.head, here.first_row - 1
        records = self.records.get(here.table.key, [])
        group = ""
        if here.on_page:
            yield from self._page_head(here)
        else:
            yield Cell(head - 0, slots[0].at, "text", here.table.purpose, ("caption", ""))
        for slot in slots:
            if here.on_page and not self._is_working(slot):
                continue
            role = "working head" if self._is_working(slot) else "head"
            if slot.column.look.group not in {group, ""}:
                yield Cell(head + 0, slot.at, "text", slot.column.look.group, ("group", ""))
            group = slot.column.look.group
            yield Cell(head + 1, slot.at, "text", self.label(here.table, slot), (role, ""))
            if head + 2 < unit_row:
                yield self._example(here.table, slot, role, (head + 2, slot.at))
            seed = slot.column.seed if isinstance(slot.column, Computed) else ""
            if seed:
                yield Cell(
                    unit_row,
                    slot.at,
                    "formula",
                    "=" + self.text(here.table, seed),
                    ("seed", "0")
                    if role == "working head"
                    else ("head upright" if slot.column.look.upright else role + " seed", ""),
                )
            else:
                yield Cell(unit_row, slot.at, "text", written(slot.unit), (role + " unit", ""))
        for slot in slots:
            if isinstance(slot.column, Typed) and self.is_typed(slot):
                style = self._style(here.table, slot)
                for i in range(here.rows):
                    value = records[i].get(slot.column.key) if i < len(records) else None
                    empty = ("typed" + self._one_line(here.table, slot), style[1])
                    look = style if i < len(records) or not slot.column.handed else empty
                    yield self._value(slot, value, look, (here.first_row + i, slot.at))

    def _example(self, table: Table, slot: Slot, role: str, at: tuple[int, int]) -> Cell:
        """What could stand in a first row; a cell that may well stay blank says so."""
        column = slot.column
        if not table.example or not self.is_typed(slot):
            return Cell(*at, "text", "", (role + " unit", ""))
        if column.key not in table.example:
            return Cell(*at, "text", OPTIONAL, (role + " example", ""))
        shown = table.example[column.key]
        if column.key == table.typed[0].key:
            return Cell(*at, "text", f"{SUCH_AS}{shown}", (role + " example first", ""))
        return self._value(slot, shown, (role + " example", self._style(table, slot)[1]), at)

    def _page_head(self, here: Placed) -> Iterator[Cell]:
        """On a printed page: the title over its columns, then their labels; nothing over a table without a title."""
        if not here.table.title:
            return
        shown = [slot for slot in here.slots if not self._is_working(slot)]
        labels = {slot.at: self.label(here.table, slot) for slot in shown if slot.column.label}
        title, across = {shown[0].at: here.table.title}, range(shown[0].at, here.page_end + 1)
        in_title = labels | title if here.titles == 1 else title
        row = here.first_row - min(here.titles, 2)
        for at in across:
            text = in_title.get(at)
            yield Cell(row, at, "text" if text else "blank", text, ("page head", ""))
        if here.titles > 1:
            yield from (Cell(row + 1, at, "text", label, ("page label", "")) for at, label in labels.items())

    def _spans(self, here: Placed) -> Iterator[Cell]:
        """The cells over which a text runs on: empty, or nothing could run over them."""
        for slot in here.slots:
            for row in range(here.first_row, here.first_row + here.rows) if slot.column.look.span > 1 else ():
                for at in range(slot.at + 1, slot.at + slot.column.look.span):
                    yield Cell(row, at, "blank", None, self._style(here.table, slot))

    def _runs(self, here: Placed, slots: list[Slot]) -> Iterator[Run]:
        for slot in slots:
            if not self.is_typed(slot):
                turns = tuple((style, "") for style, _ in here.table.turns if not self._is_working(slot))
                style, formula = self._style(here.table, slot), self.formula(here.table, slot)
                yield Run(slot.at, here.first_row, here.rows, formula, style, turns)

    @staticmethod
    def is_typed(slot: Slot) -> bool:
        """Whether a person's own values stand here."""
        return isinstance(slot.column, Typed) and slot.shows != "from typed"

    def _is_working(self, slot: Slot) -> bool:
        return (slot.column.look.working and slot.shows != "answer") or slot.shows == "from typed"

    def label(self, table: Table, slot: Slot) -> str:
        """What stands in the header."""
        return label_of(self.schema, table, slot)

    def _form(self, here: Placed) -> Iterator[Cell]:
        record = (self.records.get(here.table.key) or [{}])[0]
        sheet = self.placing.sheets[here.sheet].sheet
        left = [form.key for form in sheet.left]
        if here.table.key in left[:1]:
            yield from head_at_left(self.placing, here)
        elif here.table.key not in left and sheet.has_head(here.table):
            yield Cell(here.first_row - 1, here.across - 1, "text", here.table.title, ("form head", ""))
        for slot in here.slots:
            style, formula = self._style(here.table, slot), self.formula(here.table, slot)
            yield Cell(slot.at, here.across - 1, "text", self.label(here.table, slot), ("form label", ""))
            if formula:
                yield Cell(slot.at, here.across, "formula", formula, style)
            else:
                yield self._value(slot, record.get(slot.column.key), style, (slot.at, here.across))
            if slot.column.look.runs_on:
                continue
            yield Cell(slot.at, here.across + 1, "text", written(slot.unit), ("form unit", ""))
            if here.table.key in left:
                continue
            said = slot.column.help if not isinstance(slot.column, Pulled) and slot.shows != "from typed" else ""
            alone = not sheet.blocks and not sheet.bands
            yield Cell(slot.at, here.across + 2, "text", said, ("form help" if alone else "purpose", ""))
