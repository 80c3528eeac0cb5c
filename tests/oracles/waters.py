"""Waters: what two of them make together, and source waters that bring trouble with them.

What is typed of a blend was measured, so it wins over what its shares say; pH does not mix in proportion and
is never reckoned.
"""

import math

import numpy as np
import pandas as pd

from tests.oracles.tools import Room, blank, lookup, remember, rounded, said

NOISE = 1e-9  # shares and hardness are differences of typed numbers


def typed(room: Room, key: str) -> pd.Series:
    return room.waters[key].reset_index(drop=True)


def named(room: Room) -> pd.Series:
    return ~blank(typed(room, "water"))


def poured(room: Room, end: str, key: str) -> pd.Series:
    """What was measured of the first or the second water of each blend."""
    return lookup(room.waters, "water", typed(room, f"{end}_water"), key).astype(float)


def _two_ends(room: Room, key: str) -> zip:
    return zip(typed(room, f"target_{key}"), poured(room, "first", key), poured(room, "second", key), strict=True)


def _share(room: Room, key: str) -> pd.Series:
    """How far the target lies on the way from the second water to the first; waters that are alike give no share."""
    found = [(target - b) / (a - b) if a != b else math.nan for target, a, b in _two_ends(room, key)]
    return pd.Series(found, dtype=float)


@remember
def share_gh(room: Room) -> pd.Series:
    return _share(room, "gh")


@remember
def share_kh(room: Room) -> pd.Series:
    return _share(room, "kh")


@remember
def share(room: Room) -> pd.Series:
    """By GH where a GH is aimed at, otherwise by KH: one blend has one knob."""
    return share_gh(room).where(typed(room, "target_gh").notna(), share_kh(room)).where(named(room))


def _in_reach(room: Room) -> pd.Series:
    return share(room).between(-NOISE / 2, 1 + NOISE / 2)


@remember
def share_used(room: Room) -> pd.Series:
    return share(room).where(_in_reach(room))


@remember
def litres_first(room: Room) -> pd.Series:
    return typed(room, "batch") * share_used(room)


@remember
def litres_second(room: Room) -> pd.Series:
    return typed(room, "batch") - litres_first(room)


@remember
def verdict(room: Room) -> pd.Series:
    """Whole per cents that add up to a hundred."""
    found = []
    names = zip(typed(room, "first_water"), typed(room, "second_water"), strict=True)
    for (first, second), wanted_, made in zip(names, share(room), share_used(room), strict=True):
        if math.isnan(wanted_):
            found.append("")
        elif math.isnan(made):
            found.append("◆ out of reach")
        else:
            of_first = int(rounded(100 * made))
            found.append(f"{of_first} % {first}, {100 - of_first} % {second}; pH: measure it")
    return pd.Series(found, dtype=object)


def _blend(room: Room, key: str) -> pd.Series:
    """Litre-weighted mean of one litre of blend; a water of which nothing goes in must still be known."""
    parts = share_used(room)
    return poured(room, "first", key) * parts + poured(room, "second", key) * (1 - parts)


def blend_temperature(room: Room) -> pd.Series:
    return _blend(room, "temperature")


def blend_gh(room: Room) -> pd.Series:
    return _blend(room, "gh")


def blend_kh(room: Room) -> pd.Series:
    return _blend(room, "kh")


def blend_nitrate(room: Room) -> pd.Series:
    return _blend(room, "nitrate")


def _used(room: Room, key: str) -> pd.Series:
    return typed(room, key).fillna(_blend(room, key)).where(named(room)).astype(float)


@remember
def temperature_used(room: Room) -> pd.Series:
    return _used(room, "temperature")


@remember
def gh_used(room: Room) -> pd.Series:
    return _used(room, "gh")


@remember
def kh_used(room: Room) -> pd.Series:
    return _used(room, "kh")


@remember
def nitrate_used(room: Room) -> pd.Series:
    return _used(room, "nitrate")


@remember
def extremes(room: Room) -> pd.Series:
    """Between which GH and KH the two waters lie."""
    found = []
    ends = [poured(room, end, key) for key in ("gh", "kh") for end in ("first", "second")]
    for name, gh_first, gh_second, kh_first, kh_second in zip(typed(room, "water"), *ends, strict=True):
        pairs = (("GH", gh_first, gh_second), ("KH", kh_first, kh_second))
        known = [f"{word} {said(a, 1)} and {said(b, 1)}" for word, a, b in pairs if not np.isnan([a, b]).any()]
        found.append(", ".join(known) if name else "")
    return pd.Series(found, dtype=object)


@remember
def wanted(room: Room) -> pd.Series:
    found = []
    for gh, kh, has_name in zip(typed(room, "target_gh"), typed(room, "target_kh"), named(room), strict=True):
        parts = [f"{label} {said(value, 1)}" for label, value in (("GH", gh), ("KH", kh)) if not math.isnan(value)]
        found.append(" and ".join(parts) if has_name else "")
    return pd.Series(found, dtype=object)


# Flags


@remember
def ammonia_in_source(room: Room) -> pd.Series:
    return typed(room, "ammonia") > 0


@remember
def nitrate_at_target(room: Room) -> pd.Series:
    """No change brings a tank under what the new water holds; without a target nothing can be said."""
    target = room.settings.get("nitrate_target")
    return nitrate_used(room) >= (math.nan if target is None else target)


@remember
def out_of_reach(room: Room) -> pd.Series:
    """Wherever the verdict says so."""
    return share(room).notna() & ~_in_reach(room)


@remember
def kh_missed(room: Room) -> pd.Series:
    return (blend_kh(room) - typed(room, "target_kh")).abs() > room.const["narrow_kh"] + NOISE


@remember
def no_target(room: Room) -> pd.Series:
    two = ~blank(typed(room, "first_water")) & ~blank(typed(room, "second_water"))
    return two & typed(room, "target_gh").isna() & typed(room, "target_kh").isna()


MILLIGRAMS_IN_A_DEGREE = 17.848  # of CaCO3 in a litre: 10 mg of CaO by molar masses


def gh_caco3(room: Room) -> pd.Series:
    return gh_used(room) * MILLIGRAMS_IN_A_DEGREE


def kh_caco3(room: Room) -> pd.Series:
    return kh_used(room) * MILLIGRAMS_IN_A_DEGREE


def trouble(room: Room) -> pd.Series:
    """What is wrong with a water as a source, as the two flags have it."""
    from tests.oracles import matters  # noqa: PLC0415  they look at one another

    texts = [
        [
            text
            for key in ("ammonia_in_source", "nitrate_at_target")
            if (text := matters.sentence(room, f"waters.{key}", row))
        ]
        for row in range(len(room.waters))
    ]
    return pd.Series(["; ".join(t.split(": ", 1)[1].split(" → ")[0] for t in found) for found in texts], dtype=object)


def poor_source(room: Room) -> pd.Series:
    return trouble(room) != ""
