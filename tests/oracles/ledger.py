"""The ledger of a shop, event by event; what does not count yet, or lacks something, is no event.

What each event does to the stock is the meaning of its words: common practice, no published source.
"""

import math

import pandas as pd

from tests.oracles.tools import Room, folded, remember, rows_of

WORDS = ("sold", "lost", "dead on arrival", "delivered", "returned", "own use", "counted", "reserved", "reservation ended")  # fmt: skip
TAKES, BRINGS = {"sold", "lost", "dead on arrival", "own use"}, {"delivered", "returned"}
DAY_NOUGHT = pd.Timestamp("1899-12-30")


def number(values) -> pd.Series:
    return pd.Series(list(values), dtype=float)


@remember
def lines(room: Room) -> list[int | None]:
    """Which line of the stock list each row is about."""
    return rows_of(room.stock, "code", room.ledger["code"])


@remember
def happened(room: Room) -> list[dict]:
    """Every row that counts: its line, day, event and pieces."""
    found = []
    days, pieces, words = room.ledger["date"].tolist(), room.ledger["pieces"].tolist(), folded(room.ledger["event"])
    for row, (line, day, many, word) in enumerate(zip(lines(room), days, pieces, words, strict=True)):
        if line is not None and word in WORDS and many == many and day is not pd.NaT and day <= room.plan_date:
            found.append({"row": row, "line": line, "day": day, "event": word, "pieces": many})
    return found


def _in_rows(room: Room, tell) -> pd.Series:
    values = [math.nan] * len(room.ledger)
    for event in happened(room):
        values[event["row"]] = tell(event)
    return number(values)


def event_no(room: Room) -> pd.Series:
    return number(WORDS.index(word) + 1 if word in WORDS else math.nan for word in folded(room.ledger["event"]))


def counts_on(room: Room) -> pd.Series:
    there = is_count(room).notna()
    return pd.to_datetime(room.ledger["date"]).reset_index(drop=True).where(there)


def change(room: Room) -> pd.Series:
    return _in_rows(room, lambda e: e["pieces"] * ((e["event"] in BRINGS) - (e["event"] in TAKES)))


def went(room: Room) -> pd.Series:
    return _in_rows(room, lambda e: e["pieces"] * ((e["event"] == "sold") - (e["event"] == "returned")))


def died(room: Room) -> pd.Series:
    return _in_rows(room, lambda e: e["pieces"] if e["event"] in {"lost", "dead on arrival"} else 0.0)


def promise(room: Room) -> pd.Series:
    return _in_rows(room, lambda e: e["pieces"] * ((e["event"] == "reserved") - (e["event"] == "reservation ended")))


def is_count(room: Room) -> pd.Series:
    return _in_rows(room, lambda e: float(e["event"] == "counted"))


def place_in_time(event: dict) -> float:
    """Days since the start of the calendar, then rows."""
    return float((event["day"] - DAY_NOUGHT).days * 1_000_000 + event["row"] + 1)


def count_order(room: Room) -> pd.Series:
    return _in_rows(room, lambda e: place_in_time(e) if e["event"] == "counted" else math.nan)


def future(room: Room) -> pd.Series:
    return (pd.to_datetime(room.ledger["date"]) > room.plan_date).reset_index(drop=True)
