"""Each edition in an office program of another language: the same values, reckoned from the formulas alone.

A German or French program writes 2,5 where an English one writes 2.5. In a cell that is only how a number looks; in a
sentence that a formula has made it is a letter, the one thing that may differ.
"""

import re
from pathlib import Path

import pytest

from tests import books, office
from tests.effort import also
from tests.test_engines import AGREED, FUNCTION, POISON, WITH_CARE, bare
from workbook.editions import EDITIONS

# Units by turns: what a language could do to a number it could do to an inch.
UNITS = {"keeper": "metric", "shop": "us", "club": "metric"}
# In every run a few rows of a shop; in a thorough one, the one place where a whole demo goes through an office program. A
# club reckons with the columns of a keeper.
LANGUAGES = {"French": ("fr-FR", ("shop",)), "German": ("de-DE", ("keeper",))}
DECIMAL_MARK = re.compile(r"(?<=\d),(?=\d)")


def test_every_edition_is_tried() -> None:
    assert UNITS.keys() == EDITIONS.keys()


@pytest.mark.office
@pytest.mark.parametrize("language", ["French", *also("German")])
def test_every_language_gets_the_same_values(language: str, tmp_path: Path) -> None:
    locale, editions = LANGUAGES[language]
    files = [books.book(edition, UNITS[edition], complete=edition == "keeper") for edition in editions]
    poisoned = [office.poisoned(path, tmp_path / "poison" / path.name, POISON) for path in files]
    shown = office.recalculated(poisoned, tmp_path / language, locale=locale)
    for path, found in zip(files, shown, strict=True):
        texts = books.formulas(path)
        said = {at: v for at, v in found.items() if isinstance(v, str) and at in texts}
        # Else the program did not speak the language.
        assert any(DECIMAL_MARK.search(text) for text in said.values())
        english = found | {at: DECIMAL_MARK.sub(".", text) for at, text in said.items()}
        differing = office.differences(books.values(path), english, texts)
        assert not differing, f"{path.name}, {language}: {len(differing)} cells differ: {differing[:10]}"


# Those of a keeper: tests/test_engines.py.
@pytest.mark.parametrize("edition", ["shop", *also("club")])
def test_only_functions_that_are_alike_everywhere(edition: str) -> None:
    texts = set(books.formulas(books.book(edition, UNITS[edition])).values())
    used = {function for text in texts for function in FUNCTION.findall(bare(text))}
    assert used <= AGREED | WITH_CARE.keys()
    patterns = {pattern for text in texts for pattern in re.findall(r'TEXT\([^"]+,"([^"]*)"\)', text)}
    assert patterns <= {"00"}
