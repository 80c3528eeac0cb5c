"""What a shop has now, told as a story: each line is counted, then one event comes after the other."""

import math

import pandas as pd

from tests.oracles import ledger
from tests.oracles.tools import Room, blank, remember, rounded

LONG_AGO = pd.Timestamp("1899-12-30")


@remember
def stories(room: Room) -> list[list[dict]]:
    """The events of each line of the stock list."""
    found: list[list[dict]] = [[] for _ in range(len(room.stock))]
    for event in ledger.happened(room):
        found[event["line"]].append(event)
    return found


def _of_coded(room: Room, values) -> pd.Series:
    return pd.Series(list(values), dtype=float).where(~blank(room.stock["code"]).reset_index(drop=True))


def _typed(room: Room, key: str) -> list:
    return room.stock[key].tolist()


@remember
def newest_count(room: Room) -> list[dict | None]:
    """Of each line the count of the newest day, and of two on one day the one typed last."""
    counts = ([e for e in story if e["event"] == "counted"] for story in stories(room))
    return [max(those, key=lambda e: (e["day"], e["row"]), default=None) for those in counts]


def _of_count(room: Room, tell) -> pd.Series:
    return _of_coded(room, (math.nan if e is None else tell(e) for e in newest_count(room)))


def count_order(room: Room) -> pd.Series:
    return _of_count(room, ledger.place_in_time)


def count_row(room: Room) -> pd.Series:
    return _of_count(room, lambda e: e["row"] + 1.0)


def _days(values) -> pd.Series:
    return pd.Series(list(values), dtype="datetime64[ns]")


@remember
def count_day(room: Room) -> pd.Series:
    return _days(pd.NaT if e is None else e["day"] for e in newest_count(room))


@remember
def counted_last(room: Room) -> pd.Series:
    """The day of the newer count of the two: that of the ledger, or that of the stock list."""
    return _days(
        max((day for day in both if day is not pd.NaT), default=pd.NaT)
        for both in zip(count_day(room), _typed(room, "counted_on"), strict=True)
    )


@remember
def counted(room: Room) -> pd.Series:
    """On one day the ledger's count holds: it was typed later."""
    found = []
    for event, day, typed in zip(newest_count(room), _typed(room, "counted_on"), _typed(room, "on_hand"), strict=True):
        older = event is None or (day is not pd.NaT and day > event["day"])
        found.append(typed if older else event["pieces"])
    return pd.Series(found, dtype=float)


@remember
def since_then(room: Room) -> pd.Series:
    """What came less what went on later days than that of the count."""
    changes, towards, found = ledger.change(room), ledger.destinations(room), []
    for line, (story, day) in enumerate(zip(stories(room), counted_last(room), strict=True)):
        later = [changes[e["row"]] for e in story if day is pd.NaT or e["day"] > day]
        moved = [e for e in ledger.happened(room) if towards[e["row"]] == line]
        found.append(math.fsum(later) + sum(e["pieces"] for e in moved if day is pd.NaT or e["day"] > day))
    return _of_coded(room, found)


@remember
def reckoned(room: Room) -> pd.Series:
    return counted(room) + since_then(room)


@remember
def here(room: Room) -> pd.Series:
    return reckoned(room).clip(lower=0)


@remember
def promised(room: Room) -> pd.Series:
    found = []
    for story, day, typed in zip(stories(room), _typed(room, "counted_on"), _typed(room, "reserved"), strict=True):
        later = [e for e in story if day is pd.NaT or e["day"] > day]
        more = sum(e["pieces"] for e in later if e["event"] == "reserved")
        less = sum(e["pieces"] for e in later if e["event"] == "reservation ended")
        found.append(typed + more - less)
    return _of_coded(room, found)


@remember
def coming(room: Room) -> pd.Series:
    """What is delivered from the day of the order on is awaited no more."""
    found = []
    for story, ordered, typed in zip(stories(room), _typed(room, "ordered_on"), _typed(room, "incoming"), strict=True):
        here_now = sum(e["pieces"] for e in story if e["event"] == "delivered" and e["day"] >= ordered)
        found.append(typed if ordered is pd.NaT or typed != typed else max(0.0, typed - here_now))
    return _of_coded(room, found)


# --- what it cost ---


@remember
def deliveries(room: Room) -> list[list[tuple[float, float]]]:
    """Of each line pieces and money of what came after the day of its typed count, where the cost is known."""
    found = []
    for story, day in zip(stories(room), _typed(room, "counted_on"), strict=True):
        came = [e for e in story if e["event"] == "delivered" and (day is pd.NaT or e["day"] > day)]
        priced = [(e["pieces"], e["pieces"] * ledger.each(room, e)) for e in came]
        found.append([(pieces, money) for pieces, money in priced if money == money and pieces])
    return found


def bought(room: Room) -> pd.Series:
    return _of_coded(room, (math.fsum(pieces for pieces, _ in those) for those in deliveries(room)))


def paid(room: Room) -> pd.Series:
    return _of_coded(room, (math.fsum(money for _, money in those) for those in deliveries(room)))


@remember
def mean_cost(room: Room) -> pd.Series:
    """All money over all pieces: those counted at their cost, those delivered since at what was paid."""
    found = []
    for those, cost, counted_then in zip(deliveries(room), _typed(room, "cost"), _typed(room, "on_hand"), strict=True):
        if not those:
            found.append(cost)
            continue
        first = (max(0.0, counted_then), max(0.0, counted_then) * cost)
        known = [first] if first[1] == first[1] else []
        pieces, money = (math.fsum(column) for column in zip(*known, *those, strict=True))
        found.append(money / pieces)
    return _of_coded(room, found)


# --- the last days ---


def lines(room: Room) -> pd.Series:
    return _of_coded(room, (float(len(story)) for story in stories(room)))


@remember
def days_before(room: Room) -> pd.Series:
    """Of the last days those up to the count: all of them, where the day of the count is not known or has not come."""
    window = room.const["sale_window"]
    gone = [0.0 if day is pd.NaT else float((room.plan_date - day).days) for day in _typed(room, "counted_on")]
    return _of_coded(room, (max(0.0, min(window, window - days)) if window == window else math.nan for days in gone))


@remember
def window_from(room: Room) -> pd.Series:
    """Days as numbers: the window may hold half a day."""
    window, found = room.const["sale_window"], []
    for day, sold, lost in zip(*(_typed(room, key) for key in ("counted_on", "sold", "lost")), strict=True):
        first = (room.plan_date - LONG_AGO).days - window
        told = (sold == sold or lost == lost) and day is not pd.NaT
        found.append(max(first, float((day - LONG_AGO).days)) if told else first)
    return _of_coded(room, (first if window == window else math.nan for first in found))


def _lately(room: Room, key: str, amounts: pd.Series) -> pd.Series:
    window, found = room.const["sale_window"], []
    for row, (story, typed) in enumerate(zip(stories(room), _typed(room, key), strict=True)):
        days, first = days_before(room)[row], window_from(room)[row]
        unknown = typed != typed and not story and days > 0
        if days != days or unknown:
            found.append(math.nan)
            continue
        before = 0.0 if typed != typed else rounded(typed * days / window)
        since = sum(amounts[e["row"]] for e in story if (e["day"] - LONG_AGO).days > first)
        found.append(max(0.0, before + since))
    return _of_coded(room, found)


@remember
def sold_lately(room: Room) -> pd.Series:
    return _lately(room, "sold", ledger.went(room))


@remember
def lost_lately(room: Room) -> pd.Series:
    """The dead on arrival among them."""
    return _lately(room, "lost", ledger.died(room))


def more_gone(room: Room) -> pd.Series:
    """More has gone than there was, though what is typed is right."""
    return ((reckoned(room) < 0) & (room.stock["on_hand"].reset_index(drop=True) >= 0)).astype(bool)
