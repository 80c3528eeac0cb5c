"""Files of an older schema, brought up to the current one by named steps."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from workbook.copies.grids import Book

HEADS = 3  # rows above the first of a table: group, label, unit


@dataclass(frozen=True)
class Step:
    """One change of the schema: what it is called, which schema it starts from, and what it does to a file as read."""

    name: str
    starts_from: int
    change: Callable[[Book], Book]


def renamed(names: dict[str, str]) -> Callable[[Book], Book]:
    """Columns that have another defined name now: old name to new one."""
    return lambda book: replace(book, names={names.get(name, name): area for name, area in book.names.items()})


def forgotten(*names: str) -> Callable[[Book], Book]:
    """Columns of ours that are no more, by the beginning of their names: without them nobody added those cells."""

    def change(book: Book) -> Book:
        gone = [area for name, area in book.names.items() if name.startswith(names)]
        grids = dict(book.grids)
        for area in (area for area in gone if area.sheet in grids):
            grid = grids[area.sheet]
            top = area.top - (HEADS if area.bottom > area.top else 0)
            cells = {
                (row, column): raw
                for (row, column), raw in grid.cells.items()
                if not (top <= row <= area.bottom and area.left <= column <= area.right)
            }
            grids[area.sheet] = replace(grid, cells=cells)
        kept = {name: area for name, area in book.names.items() if not name.startswith(names)}
        return replace(book, grids=grids, names=kept)

    return change


# One step for each change that a reader of the current schema would stumble over. Before schema 1 nothing was given out;
# its step is how the next will look: the tanks' own measure of their water had another name. Until 2 the sheets Overlap
# and Tankmates had pickers of their own, and a page called Tank card had bars that stand elsewhere now. Until 3 three more answers stood
# beside a shop's stock list, which are only on its workings now.
STEPS: tuple[Step, ...] = (
    Step("measured volume of tanks", 0, renamed({
        "tanks_volume_measured_l": "tanks_net_volume_measured_l", "tanks_volume_measured_gal": "tanks_net_volume_measured_gal",
    })),
    Step("pickers and bars of the page of one tank", 2, forgotten(
        "overlap_choice_tank", "mates_choice_tank", "card_choice_in_view", "tank_card_water_", *(f"overlap_bars_{key}_title" for key in ("temperature", "ph", "gh", "kh")),
    )),
    Step("answers that gave way to stock as it is now", 3, forgotten(
        "stock_margin_shown", "stock_value_price_shown", "stock_days_here_day_shown",
    )),
)  # fmt: skip


def migrated(book: Book, schema: int, steps: tuple[Step, ...] = STEPS) -> Book:
    """The file as if it had been built with the current schema."""
    for step in sorted(steps, key=lambda step: step.starts_from):
        if step.starts_from >= schema:
            book = step.change(book)
    return book


def steps_from(schema: int, steps: tuple[Step, ...] = STEPS) -> list[str]:
    """The names of the steps that a file of this schema takes."""
    return [step.name for step in sorted(steps, key=lambda step: step.starts_from) if step.starts_from >= schema]
