"""How much is drawn at random: little in every run, much with --long."""

import os

NAME = "SHOALBOOK_TEST_LONG"


def examples(few: int, many: int) -> int:
    """How many, in a usual run and in a long one."""
    return many if os.environ.get(NAME) else few
