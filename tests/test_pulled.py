"""A row pulls from the row that it names what stands there; of a number only a number, so that words reckon nothing."""

import datetime
from dataclasses import dataclass

import pytest

from tests import books
from workbook.build import Plan, compiled
from workbook.cells.evaluating import Values, evaluate
from workbook.cells.pages import Records
from workbook.cells.placing import Placing
from workbook.editions import EDITIONS

DAY = datetime.date(2026, 1, 1)
WORDS = "about five"
# Numbers of a species that every group of it pulls.
NUMBERS = ("adult_length", "group_min")


@dataclass(frozen=True)
class Reckoned:
    """A room with its values."""

    records: Records
    placing: Placing
    values: Values

    def pulled(self, key: str) -> list[object]:
        """What the groups that name a species show of it."""
        here = self.placing.tables["livestock"]
        rows = range(here.first_row, here.first_row + len(self.records["livestock"]))
        return list(self.values.column(here.base_sheet, here.base[key], rows))


def reckoned(**typed: object) -> Reckoned:
    """A few rows, with these typed in every species."""
    records = books.few("keeper")
    records = records | {"species": [{**row, **typed} for row in records["species"]]}  # type: ignore[dict-item]
    return reckoned_with(records)


def reckoned_with(records: Records) -> Reckoned:
    """A room with its values."""
    plan = Plan(spare_rows=0, plan_date=DAY)
    placing, pages = compiled(EDITIONS["keeper"](), records, plan)
    return Reckoned(records, placing, evaluate(pages, placing.names(), DAY, may_fail=True))


@pytest.fixture(scope="module")
def pasted() -> Reckoned:
    """A room in which somebody pasted words over numbers of the library."""
    return reckoned(**dict.fromkeys(NUMBERS, WORDS))


@pytest.mark.parametrize("key", NUMBERS)
def test_words_in_the_place_of_a_number_are_not_handed_on(key: str, pasted: Reckoned) -> None:
    """What reckons with a pulled number finds a number or nothing."""
    assert set(pasted.pulled(key)) == {""}


@pytest.mark.parametrize("key", NUMBERS)
def test_a_number_is_pulled_as_it_stands_and_what_is_blank_stays_blank(key: str) -> None:
    """Nothing known is not nought."""
    records = books.few("keeper")
    known = {row["species"]: row.get(key, "") for row in records["species"]}
    blank = records["livestock"][0]["species"]
    known[blank] = ""
    species = [{**row, key: known[row["species"]]} for row in records["species"]]
    found = reckoned_with(records | {"species": species}).pulled(key)
    assert found == [known.get(row["species"], "") for row in records["livestock"]]
    assert "" in found
    assert len(set(found)) > 1
