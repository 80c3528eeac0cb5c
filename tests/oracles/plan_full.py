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


def against(room: Room) -> list[str]:
    then, found = planned.room_then(room), []
    for tank in range(len(planned.touched(room))):
        told = []
        for key, word in WATERS:
            width = getattr(overlap_detail, f"{key}_width")
            if _number(list(width(then))[tank]) < 0:
                as_now = _number(planned.of_own(room, width)[tank]) < 0
                told.append(f"no {word} suits all" + (" (as now)" if as_now else ""))
        told += _over(room, tank)
        if many := int(new_here(room)[tank]):
            told.append(f"{many} new clash" + ("es" if many > 1 else ""))
        found.append("; ".join(told))
    return [*found, *[""] * (planned.TOUCHED - len(found))]


def verdict(room: Room) -> list[str]:
    loads = list(stocking.binding_share(planned.room_then(room)))
    found = [
        ("" if load == load and load != "" else "○ load unknown; ") + (f"◆ {told}" if told else "fits")
        for load, told in zip(loads, against(room), strict=False)
    ]
    return [*found, *[""] * (planned.TOUCHED - len(found))]
