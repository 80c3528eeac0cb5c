"""How many pairs and reasons the short list gives."""

import pandas as pd

from tests.oracles import kind_reasons, kinds
from tests.oracles.tools import Room


def paired(room: Room) -> pd.Series:
    many, fine = len([c for c in kinds.couples(room) if c]), int((kinds.verdict(room) == "fine").sum())
    return pd.Series([f"{many}, of them fine: {fine}" if many else "none"], dtype=object)


def found(room: Room) -> pd.Series:
    levels = [reason.level for reason in kind_reasons.all_of_them(room)]
    words = "▲ {} to act on, ◆ {} to watch, ○ {} to note".format(*(levels.count(level) for level in range(3)))
    more = f"; only the first {kind_reasons.LINES} are listed" if len(levels) > kind_reasons.LINES else ""
    return pd.Series([words + more], dtype=object)
