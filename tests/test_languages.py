"""Each edition in an office program of another language: the same values, reckoned from the formulas alone.

A German or French program writes 2,5 where an English one writes 2.5. In a cell that is only how a number looks; in a
sentence that a formula has made it is a letter, the one thing that may differ.
"""

import datetime
import re
from pathlib import Path

import pytest

from tests import office
from tests.test_engines import AGREED, FUNCTION, POISON, TEMPLATES, WITH_CARE, bare
from workbook.build import Plan, build
from workbook.editions import EDITIONS

# Units by turns: what a language could do to a number it could do to an inch.
SETS = {"keeper": ("demo", "metric"), "shop": ("shop-demo", "us"), "club": ("club-demo", "metric")}
DAY = datetime.date(2026, 10, 5)
LANGUAGES = {"de-DE": "German", "fr-FR": "French"}
DECIMAL_MARK = re.compile(r"(?<=\d),(?=\d)")


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The demo of each edition as the command builds it, with fewer ready rows."""
    folder, found = tmp_path_factory.mktemp("languages"), {}
    for edition, (template, units) in SETS.items():
        found[edition] = folder / f"{edition}.xlsx"
        build(TEMPLATES / template, found[edition], Plan(edition, units, spare_rows=2, plan_date=DAY))
    return found


@pytest.fixture(scope="module")
def texts(files: dict[str, Path]) -> dict[str, dict[office.At, str]]:
    """Every formula."""
    return {edition: office.formulas(path) for edition, path in files.items()}


def test_every_edition_is_tried() -> None:
    assert SETS.keys() == EDITIONS.keys()


@pytest.mark.office
def test_every_language_gets_the_same_values(
    files: dict[str, Path], texts: dict[str, dict[office.At, str]], tmp_path: Path
) -> None:
    poisoned = [office.poisoned(path, tmp_path / "poison" / path.name, POISON) for path in files.values()]
    wanted = {edition: office.values(path) for edition, path in files.items()}
    for locale, language in LANGUAGES.items():
        shown = office.recalculated(poisoned, tmp_path / language, locale=locale)
        for edition, found in zip(files, shown, strict=True):
            said = {at: v for at, v in found.items() if isinstance(v, str) and at in texts[edition]}
            # Else the program did not speak the language.
            assert any(DECIMAL_MARK.search(text) for text in said.values())
            english = found | {at: DECIMAL_MARK.sub(".", text) for at, text in said.items()}
            differing = office.differences(wanted[edition], english, texts[edition])
            assert not differing, f"{edition}, {language}: {len(differing)} cells differ: {differing[:10]}"


@pytest.mark.parametrize("edition", SETS)
def test_only_functions_that_are_alike_everywhere(edition: str, texts: dict[str, dict[office.At, str]]) -> None:
    used = {function for text in texts[edition].values() for function in FUNCTION.findall(bare(text))}
    assert used <= AGREED | WITH_CARE.keys()
    patterns = {pattern for text in texts[edition].values() for pattern in re.findall(r'TEXT\([^"]+,"([^"]*)"\)', text)}
    assert patterns <= {"00"}
