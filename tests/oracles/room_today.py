"""The first six things to do: the most serious flag, the latest water change and the latest task, then the next of each."""

import re
from itertools import chain, zip_longest

import numpy as np
import pandas as pd

from tests.oracles import attention, next_change, week
from tests.oracles.tools import Oracle, Room, remember

LINES = 6
KINDS = ("acts", "changes", "tasks")


def _sentence(words: str) -> str:
    """Up to the first full stop or semicolon."""
    return re.split(r"\. |; ", f"{words} ")[0].strip()


def _late(days: float) -> str:
    return f"; {days:.0f} {'day' if days == 1 else 'days'} late" if days > 0 else ""


def _acts(room: Room) -> list[tuple[int, str]]:
    rows = zip(attention.serious(room), attention.where(room), attention.what(room), attention.do(room), strict=True)
    return [
        (row, f"▲ {where}: {what}. {_sentence(do)}")
        for row, (serious, where, what, do) in enumerate(rows, 1)
        if serious == "▲ Act"
    ]


def _changes(room: Room) -> list[tuple[int, str]]:
    late, recipe, names = next_change.days_late(room), next_change.recipe(room), list(room.tanks["tank"])
    rows = sorted((row for row in range(len(late)) if late[row] >= 0), key=lambda row: (-late[row], row))
    return [(row + 1, f"{names[row]}: change water, {recipe[row]}{_late(late[row])}") for row in rows]


def _tasks(room: Room) -> list[tuple[int, str]]:
    due = week.all_due(room)[: week.LINES]
    rows = [row for row, place in enumerate(week.today(room)) if place == place]
    rows.sort(key=lambda row: (-due[row].days_late, row))
    told = []
    for row in rows:
        task = due[row]
        tank = "" if task.tank.casefold() == "all" else f"{task.tank}: "
        told.append((row + 1, f"{tank}{task.task}{_late(task.days_late)}"))
    return told


@remember
def _six(room: Room) -> list[tuple[int, int, int, str]]:
    """Kind from 1, which of its kind from 0, row there, words."""
    kinds = [
        [(kind, nth, row, words) for nth, (row, words) in enumerate(found)]
        for kind, found in enumerate((_acts(room), _changes(room), _tasks(room)), 1)
    ]
    return [thing for thing in chain.from_iterable(zip_longest(*kinds)) if thing][:LINES]


def _column(values: list[float]) -> pd.Series:
    return pd.Series(values + [np.nan] * (LINES - len(values)), dtype=float)


def said(room: Room) -> pd.Series:
    words = [words for *_, words in _six(room)]
    return pd.Series(words + [""] * (LINES - len(words)), dtype=object)


def source(room: Room) -> pd.Series:
    return _column([float(kind) for kind, *_ in _six(room)])


def row(room: Room) -> pd.Series:
    return _column([float(row) for _, _, row, _ in _six(room)])


def turn(room: Room) -> pd.Series:
    return _column([nth * 10.0 + kind for kind, nth, *_ in _six(room)])


def _taken(number: int) -> Oracle:
    """Lines of a kind down to this one."""

    def taken(room: Room) -> pd.Series:
        own = [float(kind == number) for kind, *_ in _six(room)]
        return pd.Series(own + [0.0] * (LINES - len(own)), dtype=float).cumsum()

    return taken


def _turn(number: int, all_of: Oracle) -> Oracle:
    """When the next of a kind that is still left would have its turn."""

    def turn_of(room: Room) -> pd.Series:
        before = [0.0, *_taken(number)(room)[:-1]]
        return pd.Series(
            [taken * 10 + number if taken < len(all_of(room)) else np.nan for taken in before], dtype=float
        )

    return turn_of


for _number, (_kind, _all) in enumerate(zip(KINDS, (_acts, _changes, _tasks), strict=True), 1):
    globals()[f"{_kind}_taken"], globals()[f"{_kind}_turn"] = _taken(_number), _turn(_number, _all)
