"""Lists on two sheets: how what people type comes to its workings, and how answers come back to the list.

No formula names a cell of a row that people may delete: a list is looked at from its head to the row below it, and by
position. So the name of a typed column that ends in LISTED reaches from its head to the row below the list: neither is
ever deleted, so that any row may be, and one may be put in anywhere.
"""

from collections.abc import Iterator

from workbook.cells.pages import Cell
from workbook.cells.placing import LISTED, Placing, letters
from workbook.cells.slots import Placed, Slot
from workbook.tables.columns import Said, Typed


def from_typed(placing: Placing, here: Placed, slot: Slot, line: str) -> str:
    """What was typed in the unit of the file, as everything reckons with it; words stay words. line: its row's number.

    On a list by a name for all of its column: a formula that tells the sheet itself can't be shared by the rows.
    """
    typed = next(s for s in here.slots if s.column is slot.column and s.shows in {"typed", "beside"})
    if not here.workings:
        cell = f"${letters(here.across)}${typed.at}" if here.table.form else f"${letters(typed.at)}\x000\x00"
        return f'=IF(COUNT({cell})=1,{slot.twin.base_text(cell)},"")' if slot.twin else f"={cell}"
    names = placing.range_name(here.table.key, typed) + LISTED
    cell = f"INDEX({names},{line}+1)"
    found = f'IF(COUNT({cell})=1,{slot.twin.base_text(cell)},{cell}&"")' if slot.twin else f'IF({cell}="","",{cell})'
    if isinstance(typed.column, Typed) and typed.column.kind.name in {"key", "link"}:
        # A scanned code is a number in one list and digits in the other: programs take these for two names.
        found = f'{cell}&""'
    return f'=IF({line}<ROWS({names}),{found},"")'


def answer(placing: Placing, here: Placed, slot: Slot) -> str:
    """What the workings of a list found, in the row of the same number: no cell of a row is named."""
    place = f"ROW()-ROW(${letters(slot.at)}${here.first_row - 1})"
    name = placing.column_name(here.table.key, slot.column.key)
    found = f"INDEX({name},{place})"
    if isinstance(slot.column, Said):
        many = f"INDEX({placing.column_name(here.table.key, 'said_count')},{place})"
        found = f'IF({found}="","",{to_workings(here, short(found, many)).removeprefix("=")})'
    elif slot.twin:
        found = f'IF(COUNT({found})=1,{slot.twin.shown_text(found)},"")'
    else:
        found = f'IF({found}="","",{found})'
    return f'=IF({place}>ROWS({name}),"",{found})'


def short(said: str, many: str) -> str:
    """The sign and the short name of the worst flag of a row, and how many more there are."""
    return f'LEFT({said},SEARCH(": ",{said}&": ")-1)&IF({many}>1," +"&({many}-1),"")'


def to_workings(here: Placed, formula: str) -> str:
    """A formula of a list whose cell leads to the same row of its workings."""
    return f"=HYPERLINK(\"#'{here.workings}'!A\"&ROW(),{formula.removeprefix('=')})"


def of_a_list(here: Placed, place: str, key: str) -> str:
    """The cell beside on the same list; as texts its sheet, or the letters of a column of its workings."""
    if place == "@list":
        return f"\"'{here.sheet}'\""
    if place == "@letters":
        return f'" {letters(here.base[key])}"'
    return f"${letters(next(s.at for s in here.on(here.sheet) if s.column.key == key))}\x000\x00"


def head_at_left(placing: Placing, here: Placed) -> Iterator[Cell]:
    """What heads a form at the left of tables, in line with their heads."""
    head, columns = here.first_row - placing.sheets[here.sheet].head, range(here.across - 1, here.across + 2)
    for row in range(head + 1, here.first_row):
        for at in columns:
            title = here.table.title if (row, at) == (head + 1, columns[0]) else ""
            yield Cell(row, at, "text", title, ("head" if row == head + 1 else "head unit", ""))
