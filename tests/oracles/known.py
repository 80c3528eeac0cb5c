"""Lines of Attention that are set aside: while the day has not come and they are no worse than they were."""

import numpy as np
import pandas as pd

from tests.oracles import lists, open_lines
from tests.oracles.tools import Room, remember

LEVELS = ("act", "watch", "note")


def at_most(room: Room) -> pd.Series:
    places = {level: float(i) for i, level in enumerate(LEVELS, 1)}
    return pd.Series([places.get(str(word).lower(), np.nan) for word in room.known["no_worse"]], dtype=float)


@remember
def _lines(room: Room) -> list[float]:
    return list(lists.link_row(room, "known", "known_line"))


@remember
def holds(room: Room) -> pd.Series:
    """The line that a row sets aside: it stands there now, the row is whole, its day not past, the line no worse."""
    levels, found = open_lines.level_no(room), []
    typed = zip(_lines(room), at_most(room), room.known["reason"], room.known["until"], strict=True)
    for line, most, reason, until in typed:
        whole = line == line and most == most and reason and not pd.isna(until) and until >= room.plan_date
        found.append(line if whole and levels.iloc[int(line) - 1] >= most else np.nan)
    return pd.Series(found, dtype=float)


def state(room: Room) -> pd.Series:
    typed = zip(
        room.known["known_line"],
        _lines(room),
        room.known["until"],
        at_most(room),
        room.known["reason"],
        holds(room),
        strict=True,
    )
    found = []
    for text, line, until, most, reason, held in typed:
        if not text:
            found.append("")
        elif line != line:
            found.append("settled: clear this row")
        elif pd.isna(until) or most != most or not reason:
            found.append("not finished")
        elif held == held:
            found.append("set aside")
        else:
            found.append("its day is past" if until < room.plan_date else "worse now")
    return pd.Series(found, dtype=object)
