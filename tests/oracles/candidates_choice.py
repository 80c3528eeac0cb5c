"""What the form says of the search."""

import pandas as pd

from tests.oracles import best, candidates, candidates_stops, residents, sought
from tests.oracles.tools import Room, blank


def in_view(room: Room) -> pd.Series:
    """The tank picked there, or the one in view."""
    return pd.Series([room.choice.get("candidates") or ""], dtype=object)


def _count(room: Room, verdict: str) -> int:
    pairs = zip(candidates.verdict(room), candidates.passes(room), strict=True)
    return sum(1 for word, passes in pairs if word == verdict and passes == 1)


def told(room: Room) -> pd.Series:
    if residents.tank(room) is None:
        return sought.one("Choose a tank.")
    words = (candidates.FITS, candidates.CARE, candidates.TIGHT, candidates.CHANGE, candidates.NOT, candidates.UNKNOWN)
    fit, care, tight, change, *others = (_count(room, word) for word in words)
    counts = [fit, care, tight + change, *others]
    kinds = int((~blank(room.species["species"])).sum())
    return sought.one("{} of {} kinds pass the filters: {} fit, {} fit with care, {} tight or with more change, {} do not fit, {} unknown.".format(
        int(candidates.passes(room).sum()), kinds, *counts))  # fmt: skip


def stopped(room: Room) -> pd.Series:
    good = (candidates.FITS, candidates.CARE, candidates.TIGHT, candidates.CHANGE)
    if residents.tank(room) is None or any(_count(room, word) for word in good):
        return sought.one("")
    counts = candidates_stops.stopped(room)
    if not counts.sum():
        return sought.one("Nothing is known to fit.")
    most = candidates_stops.STOPS[int(counts.idxmax())]
    near = [
        f"{candidates.name(room, row)} ({candidates.stop(room)[row]})"
        for row in best.order(room)[:3]
        if row is not None
    ]
    nearest = f"Nearest: {', '.join(near)}. " if near else ""
    return sought.one(
        f"Nothing fits. {nearest}Most are stopped by {most}: {int(counts.max())} of {_count(room, candidates.NOT)}."
    )


def about(room: Room) -> pd.Series:
    return sought.about(room)


def mind(room: Room) -> pd.Series:
    return sought.mind(room)
