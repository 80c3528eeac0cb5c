"""Candidates against a panel of readers, at levels below what is reached: `python -m tests.panel` prints the figures.

Common practice, a panel of four readers from memory, no published source (tests/published/panel).
"""

import pytest

from tests import panel
from tests.effort import also
from workbook.build import read, templates_folder

MEAN = {"tank": 7.5, "lost": 4.0}
LEAST = {"tank": 4.5, "lost": 2}


def of(part: str, odd: int) -> list[panel.Told]:
    cases = range(2 - odd, 21 if part == "tank" else 31, 2)
    return panel.tanks(cases) if part == "tank" else panel.lost(cases)


@pytest.mark.parametrize(("part", "odd"), [("tank", 0), ("lost", 0), *also(("tank", 1), ("lost", 1))])
def test_what_is_offered_first_is_what_keepers_would_take(part: str, odd: int) -> None:
    """Cases to which no weight was fitted, in every run; the others beside them in long ones."""
    found = of(part, odd)
    shares = {one.case: one.share for one in found}
    assert sum(shares.values()) / len(shares) >= MEAN[part], shares
    assert min(shares.values()) >= LEAST[part], shares
    assert {one.case: one.offered for one in found if one.absurd} == {}


def test_the_readers_name_what_is_in_the_library() -> None:
    """Each reader says something of every case, and of no kind twice."""
    names = {row["species"] for row in read(templates_folder() / "blank", panel.KEEPER)["species"]}
    cases = {("tank", str(number)) for number in range(1, 21)} | {("lost", str(number)) for number in range(1, 31)}
    for path in panel.READERS:
        rows = panel.rows_of(path.name)
        said = [(row["part"], row["case"], row["species"]) for row in rows]
        assert len(said) == len(set(said)), path.name
        assert {(part, case) for part, case, _ in said} == cases
        assert {name for *_, name in said} <= names
