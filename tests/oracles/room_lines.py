"""How many more of each line its tank could take: what is left under each limit, divided by what one animal takes."""

import math

import numpy as np
import pandas as pd

from tests.oracles import changes, feeding_tanks, livestock, room_tanks, species, stocking, tanks
from tests.oracles.tools import blank, remember


def _line(room, values):
    """Blank in lines without a code: the table follows the stock list by it."""
    return (
        values.where(~blank(room.stock["code"]))
        if values.dtype == float
        else values.where(~blank(room.stock["code"]), "")
    )


def _tank(room, values):
    return livestock.of_tank(room, values).astype(float)


@remember
def oxygen_each(room):
    temperature = _tank(room, room.tanks["temperature"].where(~blank(room.tanks["tank"])))
    return _line(room, species.routine_oxygen(livestock.mass_each(room), temperature, room.const["activity"]))


@remember
def food_each(room):
    burnt = 24 * oxygen_each(room) * room.const["oxycalorific"]
    return livestock.feed_factor_used(room) * burnt / (room.const["food_energy"] * room.const["assimilated_share"])


@remember
def ammonia_each(room):
    fed = 1 - _tank(room, room.tanks["fasting_days"]) / 7
    return food_each(room) * _tank(room, feeding_tanks.protein(room)) * room.const["ammonia_yield"] * fed


@remember
def rise_each(room):
    days, litres = _tank(room, room.tanks["change_interval"]), _tank(room, tanks.net_volume(room))
    return (
        ammonia_each(room) * 1000 * stocking.NITRATE_IN_NITROGEN * days * _tank(room, changes.yield_used(room)) / litres
    )


@remember
def draw_each(room):
    return oxygen_each(room) + ammonia_each(room) * 1000 * stocking.OXYGEN_FOR_NITROGEN / 24


@remember
def bottom_each(room):
    side = livestock.bottom_factor(room) * livestock.of_species(room, room.species["adult_length"]).astype(float)
    return _line(room, side * side)


@remember
def by_nitrate(room):
    """Nitrate that the changes and the plants can carry, less what is brought, shared out."""
    target = room.settings["nitrate_target"]
    source = _tank(room, tanks.source(room, "nitrate").where(~blank(room.tanks["tank"])))
    share, days = _tank(room, room.tanks["change_share"]), _tank(room, room.tanks["change_interval"])
    carried = (np.nan if target is None else target) - source
    left = carried * share + _tank(room, stocking.uptake(room)) / 7 * days - _tank(room, room_tanks.rise(room))
    found = left / rise_each(room)
    known = found.notna()
    return _line(room, found.where(carried > 0, 0.0).where(known))


@remember
def by_oxygen(room):
    held = (_tank(room, stocking.saturation(room)) * room.const["oxygen_start_share"] - room.const["oxygen_stop"]).clip(
        lower=0
    )
    may_draw = held * _tank(room, tanks.net_volume(room)) / room.const["oxygen_reserve_wanted"]
    return _line(room, (may_draw - _tank(room, stocking.draw(room))) / draw_each(room))


@remember
def by_bottom(room):
    free = _tank(room, tanks.plan_area(room)) - _tank(room, stocking.bottom_wanted(room))
    return _line(room, free / bottom_each(room).where(bottom_each(room) > 0))


@remember
def too_small(room):
    """The measure that no number of animals mends."""
    whole = 1 - room.const["nominal_allowance"]
    swim, volume = _tank(room, tanks.swim_length(room)), _tank(room, tanks.net_volume(room))
    want_length, want_volume = (
        livestock.length_wanted(room),
        livestock.of_species(room, room.species["volume_min"]).astype(float),
    )
    found = []
    for s, v, wl, wv in zip(swim, volume, want_length, want_volume, strict=True):
        if any(math.isnan(x) for x in (s, v, wl, wv, whole)):
            found.append("")
        else:
            found.append("Swim room" if s < wl * whole else "Volume" if v < wv * whole else "")
    return _line(room, pd.Series(found, dtype=object))


@remember
def _least(room):
    frame = pd.DataFrame({"Water change": by_nitrate(room), "Oxygen": by_oxygen(room), "Bottom room": by_bottom(room)})
    known = frame[["Water change", "Oxygen"]].notna().all(axis=1) & _tank(room, stocking.bottom_wanted(room)).notna()
    return frame.where(known)


@remember
def more(room):
    found = []
    for small, row in zip(too_small(room), _least(room).to_numpy(), strict=True):
        least = math.nan if np.isnan(row).all() else np.nanmin(row)
        found.append(math.nan if least != least else 0.0 if small else float(max(0, math.floor(round(least, 6)))))
    return pd.Series(found, dtype=float)


@remember
def limit(room):
    table = _least(room)
    found = []
    for small, n, (_, row) in zip(too_small(room), more(room), table.iterrows(), strict=True):
        found.append("" if n != n else small or row.idxmin())
    return pd.Series(found, dtype=object)


@remember
def short(room):
    wanted = livestock.of_species(room, room.species["group_min"]).astype(float)
    return _line(room, (wanted - livestock.together(room)).clip(lower=0))
