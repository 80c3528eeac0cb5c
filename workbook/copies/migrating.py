"""Files of an older schema, brought up to the current one by named steps."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from workbook.copies.grids import Book


@dataclass(frozen=True)
class Step:
    """One change of the schema: what it is called, which schema it starts from, and what it does to a file as read."""

    name: str
    starts_from: int
    change: Callable[[Book], Book]


def renamed(names: dict[str, str]) -> Callable[[Book], Book]:
    """Columns that have another defined name now: old name to new one."""
    return lambda book: replace(book, names={names.get(name, name): area for name, area in book.names.items()})


# One step for each change that a reader of the current schema would stumble over. Before schema 1 nothing was given out;
# its step is how the next will look: the tanks' own measure of their water had another name.
STEPS: tuple[Step, ...] = (
    Step("measured volume of tanks", 0, renamed({
        "tanks_volume_measured_l": "tanks_net_volume_measured_l", "tanks_volume_measured_gal": "tanks_net_volume_measured_gal",
    })),
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
