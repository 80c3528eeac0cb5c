"""Each edition in Gnumeric, which shares no code with the engine that filled the file nor with LibreOffice.

It is the strictest of them: N of a blank cell is an error there, a number joined to words shows all its digits, and a
blank cell that CHOOSE picked is 0.
"""

from pathlib import Path

import pytest

from tests import books, office
from tests.effort import also, in_the_end
from tests.test_engines import POISON
from workbook.editions import EDITIONS

FILES = {"keeper": "metric", "shop": "us", "club": "metric"}


def test_every_edition_is_tried() -> None:
    assert FILES.keys() == EDITIONS.keys()


@pytest.mark.office("ssconvert")
@pytest.mark.parametrize("name", ["small room in trouble", *also("keeper", "shop"), *in_the_end("club")])
def test_gnumeric_reckons_the_same(name: str, tmp_path: Path) -> None:
    """The file holds nothing but wrong values to take over; no cell is left out."""
    path = books.book(name, FILES[name]) if name in FILES else books.room()
    texts, wanted = books.formulas(path), books.values(path)
    found = office.reckoned_by_gnumeric(office.poisoned(path, tmp_path / "poison" / path.name, POISON), tmp_path)
    differing = office.differences(wanted, found, texts)
    assert not differing, f"{len(differing)} of {len(texts)} formula cells differ: {differing[:10]}"
