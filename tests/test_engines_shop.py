"""A shop's answers in a real office program, where the starting set would not show them."""

import datetime
import re
from pathlib import Path

import pytest

from tests import office
from tests.test_engines import TEMPLATES
from workbook.build import Plan, build


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo shop as the command builds it."""
    path = tmp_path_factory.mktemp("shop") / "shop.xlsx"
    build(TEMPLATES / "shop-demo", path, Plan(edition="shop", spare_rows=2, plan_date=datetime.date(2026, 10, 5)))
    return path


@pytest.mark.office
def test_a_buyer_whose_tank_is_empty_is_answered(shop: Path, tmp_path: Path) -> None:
    areas = office.areas(shop)
    there = [area for name, area in areas.items() if re.fullmatch(r"question_(kind|number)_\d", name)]
    assert there
    empty = office.edited(shop, tmp_path / shop.name, {(sheet, top, left): "" for sheet, top, left, _, _ in there})
    found = office.recalculated([empty], tmp_path / "found")[0]
    sheet, top, left, *_ = areas["question_answer_fitting"]
    assert "below" in str(found[sheet, top, left])
    errors = [at for at, value in found.items() if at[0] == sheet and str(value).startswith("#")]
    assert not errors, errors[:10]
