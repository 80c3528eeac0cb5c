"""Running lists: how many rows down to each have something to name, and the first ten names."""

from collections.abc import Callable

import pandas as pd

from tests.oracles.tools import Room

MOST, ALSO = 10, "; also "


def running(key: str, names: Callable[[Room], list[str]]) -> dict[str, Callable[[Room], pd.Series]]:
    """The two columns of a list whose rows have a name each, or none."""

    def so_far(room: Room) -> list[list[str]]:
        found = names(room)
        return [[name for name in found[: row + 1] if name] for row in range(len(found))]

    return {
        f"{key}_count": lambda room: pd.Series([float(len(few)) for few in so_far(room)], dtype=float),
        key: lambda room: pd.Series([ALSO.join(few[:MOST]) for few in so_far(room)], dtype=object),
    }
