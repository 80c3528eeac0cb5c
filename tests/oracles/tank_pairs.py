"""What speaks against pairs of the tank in view, in words, broken into lines."""

import pandas as pd

from tests.oracles import mates_choice, pairs, reasons, tank_card
from tests.oracles.printed import broken, texts
from tests.oracles.tools import Room

LINES = LISTED = 7


def told(room: Room) -> pd.Series:
    rows = zip(reasons.verdict(room), reasons.pair(room), reasons.why(room), strict=True)
    who = pairs.pair(room)
    found = [f"{verdict}: {who.iloc[int(at) - 1]}: {why}" for verdict, at, why in rows if verdict]
    return texts((found + [""] * LISTED)[:LISTED])


def _whole(room: Room) -> list[str]:
    if tank_card.chosen(room) is None:
        return []
    found = [text for text in told(room) if text]
    return found or [f"Pairs: {mates_choice.paired(room)[0]}."]


shown, text, cut, rest, left, head, spaces = broken(_whole, LINES, 140)
