"""A room as it would be once a plan is carried out: only the tanks it touches, each group as it would live there.

What the plan says of a tank is what the living room would say of it then, so its oracles are those of the living room,
asked about this one.
"""

import importlib
import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pandas as pd

from tests.oracles import changes
from tests.oracles.tools import Room, blank, expected, living, remember, rows_of

TOUCHED, GROUPS, LINES, OTHERS = 6, 40, 12, 2
OTHER_NUMBERS = ("temperature", "length", "width", "height", "change_share", "change_interval", "filter_flow")
OTHER_TEXTS = ("shape", "water")
SIZES = ("shape", "length", "width", "height")


def _row(room: Room, table: str, key: str, names: pd.Series) -> pd.Series:
    found = rows_of(getattr(room, table), key, names)
    return pd.Series([math.nan if row is None else row + 1.0 for row in found], dtype=float)


@remember
def lines(room: Room) -> pd.DataFrame:
    """The lines of the plan, with the rows that they name, counted from 1."""
    found = room.plan_lines.copy()
    found["species_row"] = _row(room, "species", "species", found["species"])
    for end in ("from", "to"):
        found[f"{end}_tank_row"] = _row(room, "tanks", "tank", found[f"{end}_tank"])
    leaves, comes = found["do"].isin(["take out", "move"]), found["do"].isin(["add", "move"])
    found["from_row"], found["to_row"] = (
        found["from_tank_row"].where(leaves),
        found["to_tank_row"].where(comes),
    )
    found["number"] = found["number"].where(found["number"] > 0)
    return found


@remember
def due(room: Room) -> pd.Series:
    """How many there will be once all that is on its way has come."""
    typed = room.livestock["animals"].astype(float)
    now = living(room)
    return now.where(expected(room) != 1, typed).where(now.notna()).astype(float)


@remember
def touched(room: Room) -> list[int]:
    """Rows of the tanks that the plan names, counted from 1, in the order of Tanks; the first six of them."""
    named = {
        int(row)
        for rows in (lines(room)["from_row"], lines(room)["to_row"], value_rows(room))
        for row in rows
        if row == row
    }
    return sorted(named)[:TOUCHED]


@remember
def value_rows(room: Room) -> pd.Series:
    """The tanks that are to have other values."""
    return _row(room, "tanks", "tank", room.plan_values["tank"])


@remember
def there(room: Room) -> pd.Series:
    """How many of what a line takes are there: with what others bring, less what lines above take."""
    plan, groups = lines(room), room.livestock
    tanks, kinds = _row(room, "tanks", "tank", groups["tank"]), _row(room, "species", "species", groups["species"])
    found = []
    for at, line in plan.iterrows():
        alike = (tanks == line["from_row"]) & (kinds == line["species_row"])
        if math.isnan(line["from_row"]) or math.isnan(line["species_row"]):
            found.append(math.nan)
            continue
        same_kind = plan["species_row"] == line["species_row"]
        come = plan["number"][same_kind & (plan["to_row"] == line["from_row"])].sum()
        gone = plan["number"][same_kind & (plan["from_row"] == line["from_row"]) & (plan.index < at)].sum()
        found.append(float(due(room)[alike].sum() + come - gone))
    return pd.Series(found, dtype=float)


@remember
def counted(room: Room) -> pd.Series:
    """The number that a line is reckoned with: never more than are there."""
    plan = lines(room)
    known = plan["number"].notna() & (plan["do"] != "") & plan["species_row"].notna()
    most = np.minimum(plan["number"], there(room)).clip(lower=0).fillna(0.0)
    return plan["number"].where(plan["do"] == "add", most).where(known).astype(float)


@remember
def groups(room: Room) -> list[int]:
    """Rows of Livestock, from 0, of what lives or will live in the tanks of the plan."""
    rows = _row(room, "tanks", "tank", room.livestock["tank"])
    return [at for at, row in enumerate(rows) if row in touched(room) and due(room)[at] != 0]


def _entry_group(room: Room, line: int) -> int | None:
    """The group that a moving line takes animals from."""
    plan = lines(room)
    if plan["do"][line] != "move" or math.isnan(plan["from_row"][line]) or math.isnan(plan["species_row"][line]):
        return None
    tanks = _row(room, "tanks", "tank", room.livestock["tank"])
    kinds = _row(room, "species", "species", room.livestock["species"])
    alike = [
        at for at in range(len(tanks)) if tanks[at] == plan["from_row"][line] and kinds[at] == plan["species_row"][line]
    ]
    return alike[0] if alike else None


@remember
def group(room: Room) -> list[float]:
    """The row of Livestock of each line, from 1."""
    first = groups(room)[:GROUPS]
    entries = [_entry_group(room, line) for line in range(LINES)]
    own: list[Any] = [*first, *[None] * (GROUPS - len(first)), *entries]
    return [math.nan if at is None else at + 1.0 for at in own]


@remember
def old_tank_row(room: Room) -> pd.Series:
    """The row of its tank on Tanks."""
    rows = _row(room, "tanks", "tank", room.livestock["tank"])
    own = [math.nan if at != at else rows[int(at) - 1] for at in group(room)[:GROUPS]]
    return pd.Series([*own, *lines(room)["to_row"]], dtype=float)


@remember
def species_row(room: Room) -> pd.Series:
    rows = _row(room, "species", "species", room.livestock["species"])
    own = [math.nan if at != at else rows[int(at) - 1] for at in group(room)[:GROUPS]]
    plan = lines(room)
    return pd.Series([*own, *plan["species_row"].where(plan["to_row"].notna())], dtype=float)


@remember
def brought(room: Room) -> pd.Series:
    """How many there are on each line before the plan takes any."""
    own = [math.nan if at != at else due(room)[int(at) - 1] for at in group(room)[:GROUPS]]
    return pd.Series([*own, *counted(room).where(lines(room)["to_row"].notna())], dtype=float)


@remember
def taken(room: Room) -> pd.Series:
    plan = lines(room)
    return pd.Series(
        [
            float(counted(room)[(plan["from_row"] == tank) & (plan["species_row"] == kind)].sum())
            for tank, kind in zip(old_tank_row(room), species_row(room), strict=True)
        ],
        dtype=float,
    )


@remember
def above_it(room: Room) -> pd.Series:
    tanks, kinds = old_tank_row(room), species_row(room)
    return pd.Series(
        [
            float(brought(room)[(tanks == tanks[at]) & (kinds == kinds[at]) & (tanks.index < at)].sum())
            for at in range(len(tanks))
        ],
        dtype=float,
    )


@remember
def room_then(room: Room) -> Room:
    """The tanks of the plan with the groups of its lines, as a room of its own."""
    other = importlib.import_module("tests.rooms").changed(room, tanks=_tanks(room), livestock=_livestock(room))
    other.taught = tuple(
        pd.Series([column(room)[row - 1] for row in touched(room)], dtype=kind)
        for column, kind in ((changes.yield_used, float), (changes.yield_is_own, object))
    )
    return other  # type: ignore[no-any-return]


def _tanks(room: Room) -> pd.DataFrame:
    frame = room.tanks.iloc[[row - 1 for row in touched(room)]].reset_index(drop=True)
    frame["standing"] = ""
    values = value_rows(room)
    for at, row in enumerate(touched(room)):
        for other in [n for n in range(len(values)) if values[n] == row][:1]:
            new = room.plan_values.iloc[other]
            for key in OTHER_NUMBERS:
                if new[key] == new[key]:
                    frame.loc[at, key] = new[key]
            for key in OTHER_TEXTS:
                if new[key] != "":
                    frame.loc[at, key] = new[key]
            if any(new[key] == new[key] and new[key] != "" for key in SIZES):
                frame.loc[at, "net_volume_measured"] = math.nan
    return frame


def _livestock(room: Room) -> pd.DataFrame:
    names = room.tanks["tank"]
    lines_ = []
    for at, (number, tank) in enumerate(zip(group(room), old_tank_row(room), strict=True)):
        is_entry = at >= GROUPS
        row: dict[str, Any] = dict.fromkeys(room.livestock.columns)
        row |= {"tank": "", "species": "", "animals": math.nan}
        if number == number:
            kept = ("length_now", "measured_on", "feed_factor")
            row |= {key: room.livestock[key][int(number) - 1] for key in kept}
        if is_entry:
            plan = lines(room).iloc[at - GROUPS]
            row["species"] = plan["species"] if tank == tank else ""
        elif number == number:
            row["species"] = room.livestock["species"][int(number) - 1]
        if there := tank == tank and tank in touched(room):
            row["tank"] = names[int(tank) - 1]
        left = max(0.0, brought(room)[at] - max(0.0, taken(room)[at] - above_it(room)[at]))
        row["animals"] = left if there and brought(room)[at] == brought(room)[at] else math.nan
        lines_.append(row)
    frame = pd.DataFrame(lines_)
    for key in frame:
        frame[key] = frame[key].astype(room.livestock[key].dtype) if key not in {"tank", "species"} else frame[key]
    frame["counted_on"] = room.plan_date
    frame["date_in"] = pd.NaT
    return frame


def asked_about(table: str, rows: int) -> Callable[[str], Any]:
    """The oracles of a table of the living room, asked about the room as it would be."""

    def named(key: str) -> Any:
        if key.startswith("__"):
            raise AttributeError(key)
        reckon = getattr(importlib.import_module(f"tests.oracles.{table}"), key)

        def then(room: Room) -> list[Any]:
            found = list(reckon(room_then(room)))
            return [*found, *[""] * (rows - len(found))]

        return then

    return named


def of_own(room: Room, column: Callable[[Room], Any]) -> list[Any]:
    """What a column of Tanks says of each tank of the plan, now."""
    found = list(column(room))
    return [*(found[row - 1] for row in touched(room)), *[""] * (TOUCHED - len(touched(room)))]


def is_blank(value: Any) -> bool:
    """Whether a cell holds nothing."""
    return bool(blank(pd.Series([value], dtype=object))[0])
