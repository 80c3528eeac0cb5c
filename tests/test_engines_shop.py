"""The same numbers of a shop in every program: what its file carries, and what LibreOffice reckons from the formulas alone."""

import datetime
import re
from pathlib import Path

import pytest

from tests import office
from tests.test_engines import AGREED, FUNCTION, POISON, TEMPLATES, WITH_CARE, bare
from workbook.build import Plan, build


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo shop as the command builds it."""
    path = tmp_path_factory.mktemp("shop") / "shop.xlsx"
    build(TEMPLATES / "shop-demo", path, Plan(edition="shop", spare_rows=2, plan_date=datetime.date(2026, 10, 5)))
    return path


@pytest.fixture(scope="module")
def texts(shop: Path) -> dict[office.At, str]:
    """Every formula."""
    return office.formulas(shop)


@pytest.mark.office
def test_who_recalculates_a_shop_gets_the_same_values(
    shop: Path, texts: dict[office.At, str], tmp_path_factory: pytest.TempPathFactory
) -> None:
    folder = tmp_path_factory.mktemp("recalculated")
    poisoned = office.poisoned(shop, folder / "poison" / shop.name, POISON)
    found = office.recalculated([poisoned], folder / "found")[0]
    differing = office.differences(office.values(shop), found, texts)
    assert not differing, f"{len(differing)} of {len(texts)} formula cells differ: {differing[:10]}"


def test_a_shop_uses_only_functions_that_are_alike_everywhere(texts: dict[office.At, str]) -> None:
    used = {function for text in texts.values() for function in FUNCTION.findall(bare(text))}
    assert used <= AGREED | WITH_CARE.keys()
    patterns = {pattern for text in texts.values() for pattern in re.findall(r'TEXT\([^"]+,"([^"]*)"\)', text)}
    assert patterns <= {"00"}


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
