"""What the top of Tankmates says about the chosen tank."""

import pandas as pd

from tests.oracles import mates, pairs, reasons
from tests.oracles.tools import Room


def in_view(room: Room) -> pd.Series:
    """The one on the page Tank."""
    return pd.Series([room.choice.get("card") or ""], dtype=object)


def shown(room: Room) -> pd.Series:
    many, lines = len(mates.everyone(room)), mates.LINES
    if not room.choice.get("card"):
        words = "pick a tank on Tank"
    elif mates.tank(room) is None:
        words = "◆ no such tank stands on Tanks"
    elif many > lines:
        words = f"◆ the first {lines} of {many} groups; {many - lines} are left out"
    else:
        words = {0: "no animals live in it", 1: "a single group: there is nobody beside it"}.get(
            many, f"all {many} groups"
        )
    return pd.Series([words])


def paired(room: Room) -> pd.Series:
    verdicts = [word for word in pairs.verdict(room) if word]
    return pd.Series([f"{len(verdicts)}, of them fine: {verdicts.count('fine')}" if verdicts else "none"])


def found(room: Room) -> pd.Series:
    levels = [reason.level for reason in reasons.all_of_them(room)]
    counts = f"▲ {levels.count(0)} to act on, ◆ {levels.count(1)} to watch, ○ {levels.count(2)} to note"
    more = f"; only the first {reasons.LINES} are listed" if len(levels) > reasons.LINES else ""
    return pd.Series([counts + more])
