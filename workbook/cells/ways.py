"""Ways from a sheet to others: beside its title back to the first sheet, and from each text that names one of them."""

import itertools
import re

from workbook.cells.pages import Cell, Page
from workbook.cells.placing import WORKINGS, Placing

BACK, FORWARD = "← ", "→ "
TITLE_LETTER = 1.8  # how wide a letter of a title is, in those by which columns are measured
EMPTY_WIDTH = 8
# Texts that become a link where they name another sheet, and what marks their looks then.
LINKED, NAMES_A_SHEET = frozenset({"purpose", "notes", "form help"}), " way"


def ways(placing: Placing, title: str) -> list[tuple[int, str, str]]:
    """The links of a sheet, right of what its title and the link before take: column, sheet, words."""
    beside = [name for name in (title.removesuffix(WORKINGS), title + WORKINGS) if name in placing.sheets]
    first = next(iter(placing.sheets))
    found, taken = [], TITLE_LETTER * len(title)
    for to, words in [(first, BACK + first), *((name, FORWARD + name) for name in beside)]:
        if to != title:
            at = next(at for at in itertools.count(2) if _left_of(placing, title, at) >= taken)
            found.append((at, to, words))
            taken = max(taken, _left_of(placing, title, at)) + len(words) + 2
    return found


def linked(placing: Placing, page: Page, cell: Cell) -> Cell:
    """The cell, as a link where its text names another sheet."""
    role, show = cell.style
    if cell.kind != "text" or role not in LINKED:
        return cell
    own, text = page.placed.sheet.title, str(cell.content)
    there = named(placing, own, text)
    # In the list of all sheets, what each says of itself stands beside the link to it.
    if not there or any(text == there.sheet.purpose for title, there in placing.sheets.items() if title != own):
        return cell
    page.links[cell.row, cell.column] = there
    return cell._replace(style=(role + NAMES_A_SHEET, show))


def named(placing: Placing, title: str, text: str) -> str:
    """The sheet that a text names, other than its own: of several the first, for a cell carries one link.

    Some titles are words of every day. Written large they mean the sheet, but not where a sentence begins, unless
    the title has several words; nor among the columns that the head of a list tells to fill first.
    """
    rest, found = text.partition("Fill first:")[0], dict[str, int]()
    for name in sorted((name for name in placing.sheets if name in text), key=len, reverse=True):
        for match in re.finditer(rf"(?<!\w){re.escape(name)}(?!\w)", rest):
            begins = re.search(r"(^|[.?!\n]\s*)$", rest[: match.start()])
            if " " in name or not begins:
                found.setdefault(name, match.start())
        rest = rest.replace(name, " " * len(name))
    found.pop(title, None)
    return min(found, key=found.__getitem__, default="")


def _left_of(placing: Placing, title: str, at: int) -> float:
    """Where a column begins, in characters: no further right than it will."""
    slots = (slot for here in placing.on(title) if not here.table.form for slot in here.on(title))
    grid = dict(enumerate(placing.sheets[title].sheet.grid, 1))
    widths = grid or {slot.at: slot.column.look.width for slot in slots}
    return sum(widths.get(i, EMPTY_WIDTH) for i in range(1, at))
