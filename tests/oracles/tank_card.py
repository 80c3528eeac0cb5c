"""What is known of the tank in view on its page."""

import math

import numpy as np
import pandas as pd

from tests.oracles import maintenance, overlap_detail
from tests.oracles.printed import one
from tests.oracles.tools import Oracle, Room, remember, rows_of


@remember
def chosen(room: Room) -> int | None:
    return rows_of(room.tanks, "tank", [room.choice["card"]])[0]


@remember
def residents(room: Room) -> list[int]:
    tank = chosen(room)
    return [] if tank is None else overlap_detail.groups(room)[tank]


def of_tank(room: Room, values: pd.Series) -> float:
    """A number of the chosen tank."""
    tank = chosen(room)
    return math.nan if tank is None else values.reset_index(drop=True).iloc[tank]


def in_view(room: Room) -> pd.Series:
    """The tank picked there, or the one in view."""
    return pd.Series([room.choice.get("card") or ""], dtype=object)


def row(room: Room) -> pd.Series:
    tank = chosen(room)
    return one(math.nan if tank is None else tank + 1)


def _above(room: Room, table: str) -> pd.Series:
    """Of each row the tank it belongs to, where it belongs to one and can be put in order."""
    frame = getattr(room, table)
    to = pd.Series(rows_of(room.tanks, "tank", frame["tank"]), dtype=float)
    if table == "maintenance":
        to = to.where(maintenance.next_due(room).notna())
    return to


@remember
def meals(room: Room) -> list[int]:
    """Rows of the feeding plan for this tank."""
    tank = chosen(room)
    return [] if tank is None else [int(i) for i in np.flatnonzero(_above(room, "feeding") == tank)]


@remember
def duties(room: Room) -> list[int]:
    """Its tasks, by the day on which they are next due."""
    tank = chosen(room)
    here = [] if tank is None else [int(i) for i in np.flatnonzero(_above(room, "maintenance") == tank)]
    return sorted(here, key=lambda i: maintenance.next_due(room).iloc[i])


def _count(room: Room, table: str, test: str) -> pd.Series:
    tank = chosen(room)
    if tank is None:
        return one(math.nan)
    to = _above(room, table)
    return one(float((to < tank).sum() if test == "above" else (to == tank).sum()))


def foods_before(room: Room) -> pd.Series:
    return _count(room, "feeding", "above")


def foods(room: Room) -> pd.Series:
    return _count(room, "feeding", "here")


def tasks_before(room: Room) -> pd.Series:
    return _count(room, "maintenance", "above")


def tasks(room: Room) -> pd.Series:
    return _count(room, "maintenance", "here")


def _end_of_scale(parameter: str, end: str) -> Oracle:
    def reckon(room: Room) -> pd.Series:
        from tests.oracles import tank_water  # noqa: PLC0415  the scale is that of the bars

        return one(getattr(tank_water, end)(room, parameter))

    return reckon


globals().update({f"{p}_{end}": _end_of_scale(p, end) for p in overlap_detail.PARAMETERS for end in ("start", "end")})


def _letter(parameter: str, what: str) -> Oracle:
    def reckon(room: Room) -> pd.Series:
        from tests.oracles import tank_shared, tank_water  # noqa: PLC0415  see above

        return one(tank_shared.letter_of(room, parameter, getattr(tank_water, what)(room, parameter)))

    return reckon


globals().update(
    {f"{p}_{what}_letter": _letter(p, what) for p in overlap_detail.PARAMETERS for what in ("low", "high", "kept")}
)
