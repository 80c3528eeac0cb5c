"""Ways from a sheet to others, beside its title: back to the first sheet, and between a list and its workings."""

import itertools

from workbook.cells.placing import WORKINGS, Placing

BACK, FORWARD = "← ", "→ "
TITLE_LETTER = 1.8  # how wide a letter of a title is, in those by which columns are measured
EMPTY_WIDTH = 8


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


def _left_of(placing: Placing, title: str, at: int) -> float:
    """Where a column begins, in characters: no further right than it will."""
    slots = (slot for here in placing.on(title) if not here.table.form for slot in here.on(title))
    grid = dict(enumerate(placing.sheets[title].sheet.grid, 1))
    widths = grid or {slot.at: slot.column.look.width for slot in slots}
    return sum(widths.get(i, EMPTY_WIDTH) for i in range(1, at))
