"""How full each tank of a plan would be, and what speaks against it."""

import math
from typing import Any

from tests.oracles import overlap_detail, plan_livestock, planned, stocking
from tests.oracles.tools import Room, rounded, said

MEASURES = (("nitrogen", "water change"), ("oxygen", "oxygen"), ("swim", "swim room"), ("bottom", "bottom room"), ("volume", "volume"))  # fmt: skip
WATERS = (("temperature", "temperature"), ("ph", "pH"), ("gh", "GH"), ("kh", "KH"))


def new_here(room: Room) -> list[float]:
    rows, counts = plan_livestock.tank_row(room), plan_livestock.new_count(room)
    found = [
        float(sum(count for row, count in zip(rows, counts, strict=True) if row == at + 1))
        for at in range(len(planned.touched(room)))
    ]
    return [*found, *[math.nan] * (planned.TOUCHED - len(found))]


def _number(value: Any) -> float:
    return math.nan if isinstance(value, str) else float(value)


def _over(room: Room, tank: int) -> list[str]:
    then, found = planned.room_then(room), []
    for key, label in MEASURES:
        reckon = getattr(stocking, f"{key}_share")
        share, now = _number(list(reckon(then))[tank]), _number(planned.of_own(room, reckon)[tank])
        if rounded(share, 2) > 1:
            before = f" (now {said(now * 100)} %)" if now == now else ""
            found.append(f"{label} {said(share * 100)} %{before}")
    return found


def _shares_none(room: Room, *, now: bool) -> list[str]:
    """Of what nothing suits all then; as it is now, or not."""
    then, found = planned.room_then(room), []
    for tank in range(len(planned.touched(room))):
        told = []
        for key, word in WATERS:
            width = getattr(overlap_detail, f"{key}_width")
            is_now = _number(planned.of_own(room, width)[tank]) < 0
            if _number(list(width(then))[tank]) < 0 and is_now is now:
                told.append(word)
        found.append(", ".join(told))
    return [*found, *[""] * (planned.TOUCHED - len(found))]


def no_more(room: Room) -> list[str]:
    return _shares_none(room, now=False)


def still_none(room: Room) -> list[str]:
    return _shares_none(room, now=True)


def against(room: Room) -> list[str]:
    found = []
    for tank in range(len(planned.touched(room))):
        told = [f"no shared {words}"] if (words := no_more(room)[tank]) else []
        told += _over(room, tank)
        if many := int(new_here(room)[tank]):
            told.append(f"{many} new clash" + ("es" if many > 1 else ""))
        told += [f"still no shared {words}"] if (words := still_none(room)[tank]) else []
        found.append("; ".join(told))
    return [*found, *[""] * (planned.TOUCHED - len(found))]


def verdict(room: Room) -> list[str]:
    loads = list(stocking.binding_share(planned.room_then(room)))
    left_out = len(planned.groups(room)) > planned.GROUPS
    some = "○ not all groups have room here: plan for fewer tanks; " if left_out else ""
    found = [
        some + ("" if load == load and load != "" else "○ load unknown; ") + (f"◆ {told}" if told else "fits")
        for load, told in zip(loads, against(room), strict=False)
    ]
    return [*found, *[""] * (planned.TOUCHED - len(found))]
