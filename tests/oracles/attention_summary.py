"""How many flags there are over the whole room, and what to type first."""

import pandas as pd

from tests.oracles import flag_tables
from tests.oracles.attention import LINES
from tests.oracles.tools import Room


def _many(room: Room, level: int) -> pd.Series:
    return pd.Series([float(sum(flag.level == level for flag in flag_tables.all_raised(room)))])


def act(room: Room) -> pd.Series:
    return _many(room, 0)


def watch(room: Room) -> pd.Series:
    return _many(room, 1)


def note(room: Room) -> pd.Series:
    return _many(room, 2)


def steps(room: Room) -> pd.Series:
    """The lists in which nothing stands yet, in the order in which a person fills them."""
    order = [
        (room.waters["water"], "type your source waters on Waters"),
        (room.tanks["tank"], "type your tanks on Tanks: name, shape, dimensions, set temperature"),
        (room.stock["code"], "type your lines of stock on Stock list")
        if room.edition == "shop"
        else (room.livestock["tank"], "type on Livestock who lives where"),
        (room.foods["stock"].notna().map({True: "some", False: ""}), "type what you have on hand on Foods"),
        (room.feeding["tank"], "share them out on Feeding"),
        (room.maintenance["task"], "type your tasks on Maintenance"),
        (room.log["tank"], "write your first readings on Log"),
    ]
    return pd.Series([", then ".join(text for names, text in order if (names == "").all())], dtype=object)


def verdict(room: Room) -> pd.Series:
    many = [int(_many(room, level)[0]) for level in range(3)]
    calm = "nothing to check yet: type first" if steps(room)[0] else "nothing needs attention"
    text = "{} to act on, {} to watch, {} to note".format(*many) if sum(many) else calm
    return pd.Series([text + (f"; only the first {LINES} are listed" if sum(many) > LINES else "")], dtype=object)
