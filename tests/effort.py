"""How much is tried: little in every run, further variants with --thorough, much that is drawn at random with --long."""

import os
from typing import Any

import pytest

NAME, THOROUGH = "SHOALBOOK_TEST_LONG", "SHOALBOOK_TEST_THOROUGH"


def examples(few: int, many: int, most: int = 0) -> int:
    """How many, in a usual run, in a long one, and in a thorough one where that is more than usual."""
    if long():
        return many
    return most if most and thorough() else few


def thorough() -> bool:
    """Whether further variants are tried."""
    return bool(os.environ.get(THOROUGH))


def long() -> bool:
    """Whether everything is tried, as before a release."""
    return bool(os.environ.get(NAME))


def also(*values: Any) -> list[Any]:
    """Variants of a test that only a thorough run tries."""
    return [_marked(value, pytest.mark.thorough) for value in values]


def in_the_end(*values: Any) -> list[Any]:
    """Variants that only a long run tries: they take long, and what they hold is held by others in other ways."""
    return [_marked(value, pytest.mark.long) for value in values]


def _marked(value: Any, mark: pytest.MarkDecorator) -> Any:
    return pytest.param(*(value if isinstance(value, tuple) else (value,)), marks=mark)
