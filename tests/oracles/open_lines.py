"""Every line sheet by sheet: the order follows from what the other oracles raise, the words from the sheets."""

import re
from collections.abc import Callable
from itertools import groupby
from typing import Any

import numpy as np
import pandas as pd

from tests.oracles import flag_areas, flag_tables, known, lists
from tests.oracles.flag_tables import LEVELS, Raised
from tests.oracles.tools import Room, blank, remember

LINES, EACH, MOST = 300, 2, 1000


def lines(room: Room) -> int:
    """How many lines the list has: more where many animals, goods and tanks are typed, up to an end."""
    housed = len(room.stock) if room.edition == "shop" else len(room.livestock)
    return max(LINES, min(EACH * (len(room.tanks) + housed), MOST))


def _keys(room: Room) -> list[str]:
    return list(flag_tables.tables(room))


def _listed(room: Room) -> list[Raised]:
    return flag_tables.all_raised(room)[: lines(room)]


def _lines(room: Room, tell: Callable[[Raised], Any], blank: Any = "") -> pd.Series:
    """One cell for each line, blank below the last flag."""
    found = [tell(flag) for flag in _listed(room)]
    return pd.Series(found + [blank] * (lines(room) - len(found)), dtype=object if blank == "" else float)


def _numbers(room: Room, tell: Callable[[Raised], float]) -> pd.Series:
    return _lines(room, tell, np.nan)


def sheet(room: Room) -> pd.Series:
    return _lines(room, lambda flag: flag_tables.leads(room, flag)[0])


def where(room: Room) -> pd.Series:
    names = flag_tables.labels(room)
    return _lines(room, lambda flag: names[_keys(room)[flag.table]][flag.row])


def what(room: Room) -> pd.Series:
    return _lines(room, lambda flag: flag.title)


def _said_there(room: Room, flag: Raised) -> str:
    """The flag's own words, as they stand on its sheet; question marks where the sheet does not raise it."""
    return str(room.sentences[_keys(room)[flag.table], flag.key][flag.row]) or "?: ? → ?"


def _listed_so(room: Room, flag: Raised) -> str:
    """The same where it is listed: where nothing follows a word, no two spaces are left."""
    return re.sub(" +", " ", _said_there(room, flag))


def sentence(room: Room) -> pd.Series:
    return _lines(room, lambda flag: _listed_so(room, flag))


def said(room: Room) -> pd.Series:
    """All that its row says at that level, in the order of the columns."""

    def same_row(flag: Raised) -> tuple[int, int, int]:
        return flag[:3]

    texts = {
        row: "¦".join(_said_there(room, flag) for flag in flags)
        for row, flags in groupby(flag_tables.all_raised(room), same_row)
    }
    return _lines(room, lambda flag: texts[same_row(flag)])


def top(room: Room) -> pd.Series:
    return _numbers(room, lambda flag: flag_tables.leads(room, flag)[1] - flag.row - 1)


def row(room: Room) -> pd.Series:
    return _numbers(room, lambda flag: flag.row + 1)


def table_no(room: Room) -> pd.Series:
    return _numbers(room, lambda flag: flag.table + 1)


def level_no(room: Room) -> pd.Series:
    return _numbers(room, lambda flag: flag.level + 1)


def area(room: Room) -> pd.Series:
    return _numbers(room, lambda flag: flag_areas.areas(room).index((flag.level, flag.table)) + 1)


@remember
def _places(room: Room) -> dict[Raised, int]:
    """The flag's number within its table: act first, then watch, then note."""
    found: dict[Raised, int] = {}
    for number in range(len(_keys(room))):
        own = [flag for flag in flag_tables.all_raised(room) if flag.table == number]
        found |= {flag: place for place, flag in enumerate(own, 1)}
    return found


def place(room: Room) -> pd.Series:
    return _numbers(room, _places(room).__getitem__)


def run(room: Room) -> pd.Series:
    """The number of the last flag of the same level in the same row."""
    last = {flag[:3]: place for flag, place in _places(room).items()}
    return _numbers(room, lambda flag: last[flag[:3]])


def piece(room: Room) -> pd.Series:
    """Which of the flags of its level in its row it is."""
    first: dict[tuple[int, ...], int] = {}
    for flag, number in _places(room).items():
        first.setdefault(flag[:3], number)
    return _numbers(room, lambda flag: _places(room)[flag] - first[flag[:3]] + 1)


def running(room: Room, table: str, level: str) -> list[float]:
    """Running count of a table's flags down to each row, going on from the more serious levels."""
    number, wanted = _keys(room).index(table), LEVELS.index(level)
    before = flag_tables.count(room, number, *range(wanted))
    rows = [flag.row for flag in flag_tables.all_raised(room) if (flag.table, flag.level) == (number, wanted)]
    return [before + sum(row <= here for row in rows) for here in range(int(flag_tables.rows(room)[number]))]


# --- which of them are known, and in which order they stand ---

KNOWN = 10
LEVEL_NO = {"act": 1, "watch": 2, "note": 3}


def name(room: Room) -> pd.Series:
    """A line by place and title."""
    return pd.Series([f"{w}: {t}" if w else "" for w, t in zip(where(room), what(room), strict=True)], dtype=object)


def one(room: Room) -> pd.Series:
    return _numbers(room, lambda _: 1.0)


def tank_there(room: Room) -> pd.Series:
    """The same, blank where a row could name a tank, but none that stands on Tanks."""

    def tell(flag: Raised) -> float:
        found, table = flag_tables.tank_of(room, flag), _keys(room)[flag.table]
        names_one = table == "livestock" or "tank" in lists.LINKS.get(table, {})
        return found if found or not (names_one or flag.title == "List nearly full") else np.nan

    return _numbers(room, tell)


def tank_no(room: Room) -> pd.Series:
    return _numbers(room, lambda flag: flag_tables.tank_of(room, flag))


@remember
def known_no(room: Room) -> pd.Series:
    """The first row of Known that sets a line aside."""
    held = known.holds(room)
    rows = {line: row for row, line in reversed([*enumerate(held, 1)]) if line == line}
    return pd.Series([float(rows.get(i, np.nan)) for i in range(1, lines(room) + 1)], dtype=float)


@remember
def open_level(room: Room) -> pd.Series:
    return level_no(room).mask(known_no(room).notna() & level_no(room).notna(), float(KNOWN))


def open_tank(room: Room) -> pd.Series:
    return tank_no(room).mask(known_no(room).notna() & tank_no(room).notna(), 0.0)


@remember
def counts(room: Room) -> list[list[int]]:
    """How many open lines of each seriousness there are about each tank."""
    pairs = list(zip(open_tank(room), open_level(room), strict=True))
    return [[pairs.count((tank + 1.0, float(level))) for level in (1, 2, 3)] for tank in range(len(room.tanks))]


def rank(found: list[int]) -> int:
    """Tanks in danger first, of them those with most lines of the kind; a hundred to a seriousness."""
    worst = next((i for i, many in enumerate(found[:2]) if many), 2)
    return 100 * (worst + 2) - min(99, found[worst])


@remember
def tank_rank(room: Room) -> pd.Series:
    """Blank for what is about no tank that has a name."""
    named = [row for row, nameless in enumerate(blank(room.tanks["tank"]), 1) if not nameless]
    found = [float(rank(counts(room)[int(tank) - 1])) if tank in named else np.nan for tank in tank_no(room)]
    return pd.Series(found, dtype=float)


@remember
def order(room: Room) -> pd.Series:
    """Tank by tank, the one in most trouble first; lines about no tank by their own seriousness; Known last."""
    found = []
    columns = (open_level(room), tank_no(room), tank_rank(room), level_no(room))
    for line, (level, tank, of_tank, own) in enumerate(zip(*columns, strict=True), 1):
        if level != level:
            found.append(np.nan)
            continue
        ranked = of_tank == of_tank
        group = 1_000 if level == KNOWN else int(of_tank) if ranked else int(level) * 100 + 98
        place = int(tank) if ranked else 9_999
        found.append(float(group * 10**9 + place * 10**5 + int(own) * 10**4 + line))
    return pd.Series(found, dtype=float)
