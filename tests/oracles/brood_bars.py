"""What the chart of the broods draws: today, then a bar for each brood that is going on, stage by stage."""

import math

import pandas as pd

from tests.oracles import breeding
from tests.oracles.tools import Oracle, Room, remember

DRAWN = 10
DATES = {"hatch_on": breeding.hatch_on, "swim_on": breeding.swim_on, "second_on": breeding.second_on, "move_on": breeding.move_on, "sale_on": breeding.sale_on}  # fmt: skip


@remember
def rows(room: Room) -> list[int | None]:
    """The row of Breeding that each bar shows; the first bar is today's."""
    return ([None, *breeding.drawn(room), *[None] * DRAWN])[: 1 + DRAWN]


def _from(room: Room, days: pd.Series) -> pd.Series:
    return pd.Series([math.nan if at is None else float(days.iloc[at]) for at in rows(room)], dtype=float)


def title(room: Room) -> pd.Series:
    many = len(breeding.drawn(room))
    told = "Broods: from spawning or birth until large enough to part with"
    told += f", the first {DRAWN} of {many}" if many > DRAWN else ""
    said = told if many else "No brood is going on: type one, and its stages are drawn here"
    return pd.Series([said] * (1 + DRAWN), dtype=object)


def brood(room: Room) -> pd.Series:
    return pd.Series([math.nan if at is None else at + 1.0 for at in rows(room)], dtype=float)


def species(room: Room) -> pd.Series:
    names = breeding.typed(room, "species")
    return pd.Series(["" if at is None else names.iloc[at] for at in rows(room)], dtype=object)


def date(room: Room) -> pd.Series:
    return _from(room, breeding.day(room, "date"))


def bar(room: Room) -> pd.Series:
    days = pd.to_datetime(breeding.typed(room, "date"))
    told = ["" if at is None else f"{species(room)[i]}, {days.iloc[at]:%Y-%m-%d}" for i, at in enumerate(rows(room))]
    return pd.Series(["Today", *told[1:]], dtype=object)


def _date(key: str) -> Oracle:
    def column(room: Room) -> pd.Series:
        return _from(room, DATES[key](room))

    return column


hatch_on, swim_on, second_on, move_on, sale_on = (_date(key) for key in DATES)


def start(room: Room) -> pd.Series:
    days = date(room)
    days[0] = breeding.today(room)
    return days


def today(room: Room) -> pd.Series:
    span = sale_on(room).max() - start(room).min()
    width = 1.0 if math.isnan(span) else max(1.0, span / 100)
    return pd.Series([width, *[math.nan] * DRAWN], dtype=float)


def moved_on(room: Room) -> pd.Series:
    return move_on(room).fillna(sale_on(room))


def first_until(room: Room) -> pd.Series:
    return second_on(room).fillna(moved_on(room))


def _between(begin: pd.Series, end: pd.Series) -> pd.Series:
    return (end - begin).clip(lower=0)


def eggs(room: Room) -> pd.Series:
    return _between(start(room), hatch_on(room))


def larvae(room: Room) -> pd.Series:
    return _between(hatch_on(room), swim_on(room))


def first_food(room: Room) -> pd.Series:
    return _between(swim_on(room), first_until(room))


def second_food(room: Room) -> pd.Series:
    return _between(second_on(room), moved_on(room))


def growing(room: Room) -> pd.Series:
    begin = pd.concat([move_on(room), first_until(room)], axis=1).max(axis=1, skipna=False)
    return _between(begin, sale_on(room))
