"""Log: what readings say, and what two nitrate readings of a tank without a change between them teach.

Readings are taken before the day's water change. The order of rows on the sheet means nothing, except that of
two rows of one day the lower one is the later.
"""

import itertools
import math

import numpy as np
import pandas as pd

from tests.oracles import stocking, tanks
from tests.oracles.tools import Room, folded, lookup, remember, rows_of

DAY_NOUGHT = pd.Timestamp("1899-12-30")
ROWS_A_DAY = 1_000_000
# What no aquarium water reads.
SENSE = {
    "temperature": ("Temperature", -2, 45), "ph": ("pH", 2, 12), "gh": ("GH", 0, 90), "kh": ("KH", 0, 90),
    "ammonia": ("Ammonia", 0, 50), "nitrite": ("Nitrite", 0, 100), "nitrate": ("Nitrate", 0, 1000),
}  # fmt: skip
READINGS = tuple(SENSE)
# Masses of the ions over that of their nitrogen, domain.md.
KITS = {"n": 1.0, "nh3": 1.2159, "nh4": 1.2879}
NITRATE_IN_NITROGEN = 4.4266
WILDEST_YIELD = 10.0


def typed(room: Room, key: str) -> pd.Series:
    return room.log[key].reset_index(drop=True)


def number(values: list[float]) -> pd.Series:
    return pd.Series(values, dtype=float)


def of_tank(room: Room, values: str | pd.Series) -> pd.Series:
    """What the row's tank says."""
    return lookup(room.tanks, "tank", typed(room, "tank"), values).astype(float)


@remember
def homes(room: Room) -> list[int | None]:
    """To which row of Tanks each row of the log belongs."""
    return rows_of(room.tanks, "tank", typed(room, "tank"))


@remember
def diaries(room: Room) -> dict[int, list[int]]:
    """The dated rows of each tank, from the oldest to the newest."""
    found: dict[int, list[int]] = {tank: [] for tank in range(len(room.tanks))}
    days = typed(room, "date")
    for row in days[days.notna()].sort_values(kind="stable").index:
        if homes(room)[row] is not None:
            found[homes(room)[row]].append(row)
    return found


# --- what a row says by itself ---


@remember
def total(room: Room) -> pd.Series:
    """A kit that is not named is taken for one that reads nitrogen: that makes most of a reading."""
    kit = str(room.settings.get("ammonia_kit") or "").casefold()
    return typed(room, "ammonia") / KITS.get(kit, 1.0)


def sensible(key: str, values: pd.Series) -> pd.Series:
    """What no water reads is taken as not read."""
    return values.where(values.between(*SENSE[key][1:]))


@remember
def temperature_used(room: Room) -> pd.Series:
    read = sensible("temperature", typed(room, "temperature"))
    return read.fillna(sensible("temperature", of_tank(room, "temperature")))


@remember
def ph_used(room: Room) -> pd.Series:
    return sensible("ph", typed(room, "ph")).fillna(sensible("ph", of_tank(room, tanks.ph_used(room))))


@remember
def toxic_share(room: Room) -> pd.Series:
    """Emerson and others 1975: NH3 / NH4 is 10 to the power of pH - pKa."""
    pka = 0.09018 + 2729.92 / (temperature_used(room) + 273.15)
    ratio = 10.0 ** (ph_used(room) - pka)
    return ratio / (1 + ratio)


@remember
def toxic(room: Room) -> pd.Series:
    return total(room) * toxic_share(room)


@remember
def toxic_verdict(room: Room) -> pd.Series:
    act, caution = room.const["toxic_act"], room.const["toxic_caution"]
    found = []
    for level in toxic(room):
        if np.isnan([level, act, caution]).any():
            found.append("")
        elif level >= act:
            found.append("▲ act now")
        elif level >= caution:
            found.append("◆ too much")
        else:
            found.append("○ not zero" if level > 0 else "none")
    return pd.Series(found, dtype=object)


@remember
def no_sense(room: Room) -> pd.Series:
    odd = {label: ~typed(room, key).between(low, high) for key, (label, low, high) in SENSE.items()}
    read = {label: typed(room, key).notna() for key, (label, *_) in SENSE.items()}
    found = [", ".join(label for label in odd if odd[label][row] and read[label][row]) for row in range(len(room.log))]
    return pd.Series(found, dtype=object)


# --- rows in time ---


@remember
def order(room: Room) -> pd.Series:
    days, found = typed(room, "date"), [math.nan] * len(room.log)
    for rows in diaries(room).values():
        for row in rows:
            found[row] = float((days[row] - DAY_NOUGHT).days * ROWS_A_DAY + row + 1)
    return number(found)


@remember
def earlier(room: Room) -> list[int | None]:
    """The row of the nitrate reading before each nitrate reading."""
    found: list[int | None] = [None] * len(room.log)
    read = typed(room, "nitrate").notna()
    for rows in diaries(room).values():
        with_nitrate = [row for row in rows if read[row]]
        for then, now in itertools.pairwise(with_nitrate):
            found[now] = then
    return found


def _then(room: Room, values: pd.Series) -> pd.Series:
    return number([math.nan if row is None else values[row] for row in earlier(room)])


def before(room: Room) -> pd.Series:
    return _then(room, order(room))


def before_row(room: Room) -> pd.Series:
    return _then(room, number([row + 1.0 for row in range(len(room.log))]))


@remember
def date_before(room: Room) -> pd.Series:
    days = typed(room, "date")
    found = [pd.NaT if row is None else days[row] for row in earlier(room)]
    return pd.Series(found, dtype="datetime64[ns]")


def nitrate_before(room: Room) -> pd.Series:
    return _then(room, typed(room, "nitrate"))


@remember
def nitrate_change(room: Room) -> pd.Series:
    return typed(room, "nitrate") - nitrate_before(room)


@remember
def days_since(room: Room) -> pd.Series:
    return (typed(room, "date") - date_before(room)).dt.days.astype(float)


@remember
def is_change(room: Room) -> pd.Series:
    """1 where litres were changed or the task is a water change, in a dated row of a tank that is there."""
    named = [task == "change water" for task in folded(typed(room, "task"))]
    said = number([litres > 0 or named[row] for row, litres in enumerate(typed(room, "litres_changed"))])
    return said.where(order(room).notna())


@remember
def water_out(room: Room) -> pd.Series:
    """The litres typed; of a change that only its task tells, the share planned of the tank's water; else none."""
    planned = of_tank(room, tanks.net_volume(room)) * of_tank(room, "change_share")
    litres = typed(room, "litres_changed")
    return litres.where(litres > 0, planned * is_change(room).fillna(0))


@remember
def changed_between(room: Room) -> pd.Series:
    """Litres changed after the first of the two readings was taken and before the second: the first day's with them.

    Changes that only Maintenance has count with the planned share.
    """
    from tests.oracles import maintenance  # noqa: PLC0415  which looks at the log, too

    litres, found, days = water_out(room), [math.nan] * len(room.log), typed(room, "date")
    planned = of_tank(room, tanks.net_volume(room)) * of_tank(room, "change_share")
    for tank, rows in diaries(room).items():
        beside = maintenance.unlogged(room)[tank]
        for place, now in enumerate(rows):
            if (then := earlier(room)[now]) is not None:
                unlogged = sum(days[then] <= day < days[now] for day in beside)
                found[now] = math.fsum(
                    litres[row] for row in rows[rows.index(then) : place] if litres[row] == litres[row]
                ) + (unlogged * planned[now] if planned[now] == planned[now] else 0)
    return number(found)


# --- what a pair teaches ---


@remember
def pair_yield(room: Room) -> pd.Series:
    """Nitrogen found as nitrate over nitrogen given off as ammonia in the days between, both in mg."""
    days = days_since(room)
    found = nitrate_change(room) / NITRATE_IN_NITROGEN * of_tank(room, tanks.net_volume(room))
    given = of_tank(room, stocking.ammonia(room)) * 1000 * days
    counts = (changed_between(room) == 0) & (days >= room.const["pair_days_least"]) & (given > 0)
    return (found / given.where(counts)).clip(-WILDEST_YIELD, WILDEST_YIELD)


@remember
def pairs(room: Room) -> list[list[float]]:
    """The yields that the pairs of each tank teach, from the lowest to the highest."""
    yields = pair_yield(room)
    return [sorted(yields[row] for row in rows if not math.isnan(yields[row])) for rows in diaries(room).values()]


def pair_key(room: Room) -> pd.Series:
    """Keeps the tanks apart: a hundred for each row of Tanks."""
    places = number([math.nan if home is None else home + 1.0 for home in homes(room)])
    return places * 100 + pair_yield(room)


# --- what the chart draws ---


def chosen_reading(room: Room) -> str:
    """Nitrate unless another is picked."""
    picked = str(room.choice.get("log_parameter") or "").casefold()
    return next((key for key, (label, *_) in SENSE.items() if label.casefold() == picked), "nitrate")


@remember
def charted(room: Room) -> pd.Series:
    return typed(room, chosen_reading(room)).where(order(room).notna())


@remember
def in_chart(room: Room) -> pd.Series:
    """The order in time of what is drawn."""
    chosen = str(room.choice.get("log") or "").casefold()
    here = number([bool(name) and name == chosen for name in folded(typed(room, "tank"))]) == 1
    return order(room).where(here & charted(room).notna())


# Flags


def senseless(room: Room) -> pd.Series:
    return no_sense(room) != ""


def future(room: Room) -> pd.Series:
    return typed(room, "date") > room.plan_date
