"""A shop's answers in a real office program, where the starting set would not show them."""

import re
from pathlib import Path

import pytest

from tests import books, office


@pytest.mark.office
def test_a_buyer_whose_tank_is_empty_is_answered(tmp_path: Path) -> None:
    shop = books.book("shop")
    areas = office.areas(shop)
    there = [area for name, area in areas.items() if re.fullmatch(r"question_(kind|number)_\d", name)]
    assert there
    empty = office.edited(shop, tmp_path / shop.name, {(sheet, top, left): "" for sheet, top, left, _, _ in there})
    found = office.recalculated([empty], tmp_path / "found")[0]
    sheet, top, left, *_ = areas["question_answer_fitting"]
    assert "below" in str(found[sheet, top, left])
    errors = [at for at, value in found.items() if at[0] == sheet and str(value).startswith("#")]
    assert not errors, errors[:10]
