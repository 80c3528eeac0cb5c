"""Every edition under the settings of other countries: LibreOffice in German and in French reckons the same values.

There a comma is the decimal mark. No formula depends on how numbers are written; only sentences that say a value write
it in the way of the country.
"""

import datetime
from pathlib import Path

import pytest

from tests import office
from tests.test_standards import folder_of
from workbook.build import Plan, build
from workbook.editions import EDITIONS

POISON = 987654.25  # in the place of each formula's value: what only repeats the file would show it


@pytest.fixture(scope="module", params=EDITIONS)
def file(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A demo, built for today: one cell of it counts from the day on which it is opened."""
    today = datetime.datetime.now().astimezone().date()
    path = tmp_path_factory.mktemp("languages") / f"{request.param}.xlsx"
    build(folder_of(request.param), path, Plan(request.param, spare_rows=2, plan_date=today))
    return path


def in_the_way_of_the_country(cells: office.Cells) -> office.Cells:
    """With a comma in sentences; numbers in cells are numbers."""
    return {at: value.replace(".", ",") if isinstance(value, str) else value for at, value in cells.items()}


@pytest.mark.office
@pytest.mark.parametrize("locale", ["de-DE", "fr-FR"])
def test_reckons_the_same_in_another_language(file: Path, locale: str, tmp_path: Path) -> None:
    texts, wanted = office.formulas(file), office.values(file)
    found = office.recalculated(
        office.poisoned(file, tmp_path / "poisoned" / file.name, POISON), tmp_path, locale=locale
    )[0]
    wrong = office.differences(in_the_way_of_the_country(wanted), in_the_way_of_the_country(found), texts)
    assert not wrong, f"{len(wrong)} of {len(texts)} formula cells differ: {wrong[:10]}"
    assert office.differences(wanted, found, texts), "no sentence with a comma: was it this language at all?"
