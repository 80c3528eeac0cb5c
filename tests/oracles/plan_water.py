"""Water that suits all of a tank, now and then, with who sets the ends; one parameter a table."""

from typing import Any

from tests.oracles import overlap_detail, planned
from tests.oracles.tools import Room, said

UNITS = {"temperature": " °C", "ph": "", "gh": " °dH", "kh": " °dH"}


def _number(value: Any) -> bool:
    return not isinstance(value, str) and value == value


def _told(room: Room, key: str, ends: list[list[Any]]) -> list[str]:
    found = []
    for tank in range(len(planned.touched(room))):
        low, low_by, high, high_by = (end[tank] for end in ends)
        parts = [
            f"{said(float(value), 1)}{UNITS[key]} ({who})"
            for value, who in ((low, low_by), (high, high_by))
            if _number(value)
        ]
        found.append(" to ".join(parts) or "not known")
    return [*found, *[""] * (planned.TOUCHED - len(found))]


def _ends(key: str) -> list[Any]:
    return [getattr(overlap_detail, f"{key}_{end}") for end in ("low", "low_by", "high", "high_by")]


def now(room: Room, key: str) -> list[str]:
    return _told(room, key, [planned.of_own(room, end) for end in _ends(key)])


def then(room: Room, key: str) -> list[str]:
    return _told(room, key, [list(end(planned.room_then(room))) for end in _ends(key)])
