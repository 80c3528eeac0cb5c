"""How many flags there are over the whole room, and what to type first."""

import pandas as pd

from tests.oracles import first_steps, flag_tables, open_lines
from tests.oracles.attention import lines
from tests.oracles.tools import Room


def _many(room: Room, level: int) -> pd.Series:
    """Of all that is raised, however long the list is, less what is known."""
    raised = sum(flag.level == level for flag in flag_tables.all_raised(room))
    aside = (open_lines.open_level(room) == open_lines.KNOWN) & (open_lines.level_no(room) == level + 1)
    return pd.Series([float(raised - aside.sum())])


def known(room: Room) -> pd.Series:
    return pd.Series([float((open_lines.open_level(room) == open_lines.KNOWN).sum())])


def act(room: Room) -> pd.Series:
    return _many(room, 0)


def watch(room: Room) -> pd.Series:
    return _many(room, 1)


def note(room: Room) -> pd.Series:
    return _many(room, 2)


def steps(room: Room) -> pd.Series:
    """The sheets on which nothing stands yet, in the order in which a person fills them."""
    return pd.Series([", ".join(first_steps.empty(room))], dtype=object)


def verdict(room: Room) -> pd.Series:
    many = [*(int(_many(room, level)[0]) for level in range(3)), int(known(room)[0])]
    calm = "nothing to check yet: see the first steps on Start" if steps(room)[0] else "nothing needs attention"
    text = "{} to act on, {} to watch, {} to note".format(*many) if sum(many) else calm
    aside = f", {many[3]} known" if many[3] else ""
    cut = f"; only the first {lines(room)} are listed" if len(flag_tables.all_raised(room)) > lines(room) else ""
    return pd.Series([text + aside + cut], dtype=object)
