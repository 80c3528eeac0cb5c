"""The list of all flags; the order follows from what the other oracles raise, the words from the sheets."""

import re
from collections.abc import Callable
from itertools import groupby
from typing import Any

import numpy as np
import pandas as pd

from tests.oracles import flag_areas, flag_tables, lists
from tests.oracles.flag_tables import LEVELS, Raised
from tests.oracles.tools import Room, remember, rows_of

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


def serious(room: Room) -> pd.Series:
    return _lines(room, lambda flag: ("▲ Act", "◆ Watch", "○ Note")[flag.level])


def sheet(room: Room) -> pd.Series:
    return _lines(room, lambda flag: room.sheets[_keys(room)[flag.table]])


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


def why(room: Room) -> pd.Series:
    return _lines(room, lambda flag: _listed_so(room, flag).split(" → ")[0].split(": ", 1)[1])


def do(room: Room) -> pd.Series:
    return _lines(room, lambda flag: _listed_so(room, flag).split(" → ")[1])


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
    return _numbers(room, lambda flag: room.top[_keys(room)[flag.table]])


def row(room: Room) -> pd.Series:
    return _numbers(room, lambda flag: flag.row + 1)


def go(room: Room) -> pd.Series:
    return _lines(
        room,
        lambda flag: f"{room.sheets[_keys(room)[flag.table]]}, row {flag.row + 1 + room.top[_keys(room)[flag.table]]}",
    )


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


def tank_of(room: Room, flag: Raised) -> int | None:
    """The row of the tank that a flag is about, from 0: it speaks of the tank, or of something that names it."""
    own = flag_tables.tables(room)[_keys(room)[flag.table]]
    if flag.title == "List nearly full":  # it stands in the first row, but is about the list
        return None
    if own == "tanks":
        return flag.row
    if "tank" not in lists.LINKS.get(own, {}):
        return None
    found = rows_of(room.tanks, "tank", getattr(room, own)["tank"])
    return found[flag.row] if flag.row < len(found) else None


def tank_row(room: Room) -> pd.Series:
    return _numbers(room, lambda flag: np.nan if (tank := tank_of(room, flag)) is None else tank + 1.0)


def counts(room: Room) -> pd.Series:
    return _numbers(room, lambda flag: 0.0 if tank_of(room, flag) is None else 1.0)


def of_tank(room: Room, tank: int) -> list[int]:
    """The lines that are about a tank, from 0."""
    return [line for line, flag in enumerate(_listed(room)) if tank_of(room, flag) == tank]
