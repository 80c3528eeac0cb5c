"""Nauplii on each of the next days, today among them."""

import pandas as pd

from tests.oracles import breeding, live_summary
from tests.oracles.tools import Room, remember

LINES = 29


def ahead(room: Room) -> pd.Series:
    return pd.Series(range(LINES), dtype=float)


def day(room: Room) -> pd.Series:
    return ahead(room) + breeding.today(room)


@remember
def fry(room: Room) -> pd.Series:
    """Broods that are over want none: their young are counted as 0."""
    broods = list(
        zip(breeding.nauplii_from(room), breeding.nauplii_until(room), breeding.nauplii_day(room), strict=True)
    )
    return pd.Series(
        [float(sum(many for start, end, many in broods if start <= on < end and many == many)) for on in day(room)],
        dtype=float,
    )


def total(room: Room) -> pd.Series:
    return fry(room) + float(live_summary.tanks(room).iloc[0])
