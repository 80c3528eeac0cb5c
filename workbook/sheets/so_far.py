"""Running lists: down a table, how many rows pass a test and which, so that one cell can tell of all of them."""

from workbook.tables import Computed, Look, text
from workbook.tables.columns import Column
from workbook.tables.completing import ALSO
from workbook.tables.formula import filled
from workbook.tables.idioms import count_so_far, names_so_far


def running_list(
    key: str, label: str, test: str, name: str, *, after: tuple[str, str] = ("0", '""'), **parts: str
) -> tuple[Column, ...]:
    """How many rows so far pass a test that copes with blanks, and the names of the first ten of them.

    after: with how many and which names it begins, where it goes on with another list.
    """
    count = f"{key}_count"
    return (
        Computed(
            count, f"{label}: how many", count_so_far(count, test), seed=after[0], look=Look(working=True, show="0")
        ),
        Computed(
            key,
            label,
            names_so_far(key, count, test, filled(name, **parts) if parts else name, ALSO),
            kind=text(),
            seed=after[1],
            look=Look(working=True, width=18),
        ),
    )
