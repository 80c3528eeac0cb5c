"""A form tells beside its cell what it takes, when a number stands there that can't be: pasted, or typed past a warning."""

import re
from pathlib import Path

import pytest

from tests import books, office
from tests.effort import also, in_the_end
from tests.office import At, Cells
from tests.oracles.typed_cells import RULES

# What a cell takes as the tables of rules have it: 0.5..200 mg/L, whole 1..5.
ENDS = re.compile(r"(?:whole )?(-?[\d.]+)\.\.(-?[\d.]+)")
FORMS = {
    "keeper": ("settings", "candidates_choice", "outage"),
    "shop": ("settings", "question", "outage"),
    "club": ("settings", "candidates_choice", "outage"),
}


def numbers_of(edition: str) -> dict[At, tuple[str, float, float]]:
    """The cells of forms that take numbers, each with its name and the ends of what it takes."""
    areas, found = office.areas(books.book(edition)), {}
    for table in FORMS[edition]:
        for rule, keys in RULES[table].items():
            if ends := ENDS.match(rule):
                for key in keys.split():
                    name = min((n for n in areas if n == f"{table}_{key}" or n.startswith(f"{table}_{key}_")), key=len)
                    (at,) = office.cells_of(areas[name])
                    found[at] = (name, float(ends[1]), float(ends[2]))
    return found


def beside(cells: Cells, at: At) -> list[str]:
    """What the label and the help of a form say in a row."""
    sheet, row, column = at
    return [str(cells.get((sheet, row, column + step), "")) for step in (-1, 2)]


@pytest.mark.office
@pytest.mark.parametrize("edition", ["shop", *also("keeper"), *in_the_end("club")])
def test_a_number_that_can_not_be_is_told_beside_its_cell(edition: str, tmp_path: Path) -> None:
    """Each cell holds less than it takes, then more; as handed out none of them says a word."""
    book, cells = books.book(edition), numbers_of(edition)
    assert len(cells) >= 8
    wrong = [
        office.edited(book, tmp_path / f"{which}.xlsx", {at: end(low, high) for at, (_, low, high) in cells.items()})
        for which, end in (("less", lambda low, _: low - 1), ("more", lambda _, high: high + 1))
    ]
    for shown in office.recalculated(wrong, tmp_path / "out"):
        for at, (name, low, high) in cells.items():
            told = [text for text in beside(shown, at) if text.startswith("◆ ")]
            assert len(told) == 1, name
            share = f"{low:.0%} to {high:.0%}"
            assert f"{low:g} to {high:g}" in told[0] or share in told[0], (name, told)
    quiet = books.values(book)
    assert [name for at, (name, _, _) in cells.items() if any(t.startswith("◆ ") for t in beside(quiet, at))] == []
