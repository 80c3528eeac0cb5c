"""The ledger of a shop, event by event; what does not count yet, or lacks something, is no event.

What each event does to the stock is the meaning of its words: common practice, no published source.
"""

import math

import pandas as pd

from tests.oracles.tools import Room, folded, remember, rows_of

WORDS = ("sold", "lost", "dead on arrival", "delivered", "returned", "own use", "moved", "counted", "reserved", "reservation ended")  # fmt: skip
TAKES, BRINGS = {"sold", "lost", "dead on arrival", "own use", "moved"}, {"delivered", "returned"}
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


@remember
def destinations(room: Room) -> list[int | None]:
    """Of each row that tells of a move the line it goes to: the first of that species in that tank."""
    tanks, species = (rows_of(getattr(room, f"{key}"), one, room.stock[one]) for key, one in (("tanks", "tank"), ("species", "species")))  # fmt: skip
    homes = list(zip(tanks, species, strict=True))
    towards = rows_of(room.tanks, "tank", room.ledger["to_tank"])
    found: list[int | None] = [None] * len(room.ledger)
    for event in happened(room):
        kind, tank = species[event["line"]], towards[event["row"]]
        if event["event"] == "moved" and None not in (tank, kind) and (tank, kind) in homes:
            found[event["row"]] = homes.index((tank, kind))
    return found


def into_row(room: Room) -> pd.Series:
    return number(math.nan if line is None else line + 1 for line in destinations(room))


def moved_nowhere(room: Room) -> pd.Series:
    found = [False] * len(room.ledger)
    for event in happened(room):
        found[event["row"]] = event["event"] == "moved" and destinations(room)[event["row"]] is None
    return pd.Series(found, dtype=bool)


# --- money ---


def _of_line(room: Room, event: dict, key: str) -> float:
    return float(room.stock[key].iloc[event["line"]])


def each(room: Room, event: dict) -> float:
    """What one piece is worth: as typed; else buyers pay the price, and all else is worth its cost."""
    typed = float(room.ledger["each"].iloc[event["row"]])
    usual = _of_line(room, event, "price" if event["event"] in {"sold", "returned"} else "cost")
    return usual if math.isnan(typed) else typed


def worth_each(room: Room) -> pd.Series:
    return _in_rows(room, lambda e: each(room, e))


def bought(room: Room) -> pd.Series:
    return _in_rows(room, lambda e: e["pieces"] * (e["event"] == "delivered"))


def dead(room: Room) -> pd.Series:
    return _in_rows(room, lambda e: e["pieces"] * (e["event"] == "dead on arrival"))


def _money(room: Room, pieces: pd.Series) -> pd.Series:
    return (pieces * worth_each(room)).where(pieces != 0)


def taken(room: Room) -> pd.Series:
    return _money(room, went(room))


def paid(room: Room) -> pd.Series:
    return _money(room, bought(room))


def claim(room: Room) -> pd.Series:
    return _money(room, dead(room))


def _at_mean_cost(room: Room, pieces: pd.Series) -> pd.Series:
    from tests.oracles import stock_now  # noqa: PLC0415  which looks at the ledger, too

    means = stock_now.mean_cost(room)
    return pieces * _in_rows(room, lambda e: means[e["line"]])


def went_cost(room: Room) -> pd.Series:
    return _at_mean_cost(room, went(room))


def died_cost(room: Room) -> pd.Series:
    return _at_mean_cost(room, died(room))


def sum_of(room: Room, values: pd.Series, counts) -> float:
    """The sum over the events that count here; what is not known adds nothing."""
    found = (values[e["row"]] for e in happened(room) if counts(e))
    return math.fsum(value for value in found if value == value)


# --- in time ---


def place_in_time(event: dict) -> float:
    """Days since the start of the calendar, then rows."""
    return float((event["day"] - DAY_NOUGHT).days * 1_000_000 + event["row"] + 1)


def count_order(room: Room) -> pd.Series:
    return _in_rows(room, lambda e: place_in_time(e) if e["event"] == "counted" else math.nan)


def future(room: Room) -> pd.Series:
    return (pd.to_datetime(room.ledger["date"]) > room.plan_date).reset_index(drop=True)
