"""Shared ranges, tank by tank: every end that a resident sets, the narrowest pair of them, and where waters lie."""

import math
from collections.abc import Callable

import numpy as np
import pandas as pd

from tests.oracles import livestock, readings, species, tanks
from tests.oracles.tools import Room, blank, lookup, remember

PARAMETERS = ("temperature", "ph", "gh", "kh")
Oracle = Callable[[Room], pd.Series]


def brought(room: Room, parameter: str, end: str) -> pd.Series:
    """One end of the range in use of each group of animals."""
    used = getattr(species, f"used_{parameter}_{end}")(room)
    return lookup(room.species, "species", room.livestock["species"], used).astype(float)


@remember
def groups(room: Room) -> list[list[int]]:
    """The rows of Livestock that live in each tank; none in a tank without a name."""
    found: list[list[int]] = [[] for _ in range(len(room.tanks))]
    for row, home in livestock.lives_in(room).dropna().items():
        found[int(home) - 1].append(int(row))
    return found


def kept_at(room: Room, parameter: str) -> pd.Series:
    """The value that the tank is reckoned with."""
    if parameter == "temperature":
        return room.tanks["temperature"].reset_index(drop=True)
    return tanks.kept_or_source(room, parameter)


def source(room: Room, parameter: str) -> pd.Series:
    """The same of the water it is filled with."""
    return tanks.source(room, parameter)


def read(room: Room, parameter: str) -> pd.Series:
    """The newest reading in the log."""
    return getattr(readings, parameter)(room).astype(float)


def place(value: float, low: float, high: float, edge_share: float, outside: str) -> str:
    """Where a value lies: outside is past an end, the edge is what is nearer to an end than its share of the width."""
    if math.isnan(edge_share):
        return ""  # a constant without a value leaves blank whatever uses it
    if any(math.isnan(x) for x in (value, low, high)):
        return "unknown"
    if not low <= value <= high:
        return outside
    edge = edge_share * (high - low)
    return "inside" if low + edge <= value <= high - edge else "near the edge"


def places(room: Room, parameter: str, values: pd.Series, outside: str) -> pd.Series:
    frame = shared(room)[parameter]
    found = [
        "" if nameless else place(value, low, high, room.const["edge_share"], outside)
        for nameless, value, low, high in zip(
            blank(room.tanks["tank"]), values, frame["low"], frame["high"], strict=True
        )
    ]
    return pd.Series(found, dtype=object)


@remember
def shared(room: Room) -> dict[str, pd.DataFrame]:
    """Of each parameter and tank: highest low end, lowest high end, who set them, and what is not known."""
    found = {}
    names = room.livestock["species"].tolist()
    nameless = blank(room.tanks["tank"]).tolist()
    for parameter in PARAMETERS:
        lows, highs = (brought(room, parameter, end).to_numpy() for end in ("low", "high"))
        rows = []
        for here, no_name in zip(groups(room), nameless, strict=True):
            with_low = [g for g in here if not np.isnan(lows[g])]
            with_high = [g for g in here if not np.isnan(highs[g])]
            # sorted is stable: of equals the first row counts
            strictest_low = sorted(with_low, key=lambda g, of=lows: -of[g])[:1]
            strictest_high = sorted(with_high, key=lambda g, of=highs: of[g])[:1]
            rows.append(
                {
                    "low": lows[strictest_low[0]] if strictest_low else math.nan,
                    "high": highs[strictest_high[0]] if strictest_high else math.nan,
                    "low_by": names[strictest_low[0]] if strictest_low else "",
                    "high_by": names[strictest_high[0]] if strictest_high else "",
                    "known": math.nan if no_name else float(len(set(with_low) & set(with_high))),
                    "no_data": math.nan if no_name else float(len(set(here) - (set(with_low) & set(with_high)))),
                }
            )
        keys = ("low", "high", "low_by", "high_by", "known", "no_data")
        frame = pd.DataFrame(rows, columns=list(keys))
        words = dict.fromkeys(("low_by", "high_by"), object)
        found[parameter] = frame.astype(dict.fromkeys(keys, float) | words)
    return found


def each(make: Callable[[Room, str], pd.Series]) -> tuple[Oracle, ...]:
    """The same column of all four parameters."""

    def of(parameter: str) -> Oracle:
        return lambda room: make(room, parameter)

    return tuple(of(parameter) for parameter in PARAMETERS)


def part(key: str) -> Callable[[Room, str], pd.Series]:
    return lambda room, parameter: shared(room)[parameter][key]


temperature_low, ph_low, gh_low, kh_low = each(part("low"))
temperature_high, ph_high, gh_high, kh_high = each(part("high"))
temperature_low_by, ph_low_by, gh_low_by, kh_low_by = each(part("low_by"))
temperature_high_by, ph_high_by, gh_high_by, kh_high_by = each(part("high_by"))
temperature_known, ph_known, gh_known, kh_known = each(part("known"))
temperature_no_data, ph_no_data, gh_no_data, kh_no_data = each(part("no_data"))
temperature_width, ph_width, gh_width, kh_width = each(lambda room, p: shared(room)[p]["high"] - shared(room)[p]["low"])
temperature_lies, ph_lies, gh_lies, kh_lies = each(lambda room, p: places(room, p, kept_at(room, p), "◆ outside"))
temperature_read_lies, ph_read_lies, gh_read_lies, kh_read_lies = each(
    lambda room, p: places(room, p, read(room, p), "◆ outside")
)
temperature_source_lies, ph_source_lies, gh_source_lies, kh_source_lies = each(
    lambda room, p: places(room, p, source(room, p), "outside")
)
