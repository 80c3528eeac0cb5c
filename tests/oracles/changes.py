"""Water changes: nitrate and carbonate under the planned routine, step by step, and what each tank teaches."""

import math
from collections.abc import Callable

import numpy as np
import pandas as pd

from tests.oracles import log, maintenance, readings, so_far, stocking, tanks
from tests.oracles.tools import Room, blank, remember, said

NOISE = 1e-9
ALKALINITY_FOR_NITROGEN = 7.14  # g of CaCO3 for each g of ammonia nitrogen, domain.md
DEGREE = 17.848  # mg/L of CaCO3 in a German degree, domain.md
PATIENCE = 100_000  # changes after which nothing more will happen


def _plan(room: Room, key: str) -> pd.Series:
    return room.tanks[key].reset_index(drop=True)


def _named(room: Room) -> pd.Series:
    return ~blank(_plan(room, "tank"))


def _target(room: Room) -> float:
    value = room.settings.get("nitrate_target")
    return math.nan if value is None else float(value)


def _row_by_row(reckon: Callable[..., float], *columns: pd.Series) -> pd.Series:
    """A number for each row in which nothing is blank."""
    rows = zip(*columns, strict=True)
    return pd.Series([math.nan if np.isnan(row).any() else reckon(*row) for row in rows], dtype=float)


# Nitrate


@remember
def nitrate_trough(room: Room) -> pd.Series:
    """What stays of the old water and what comes with the new."""
    share = _plan(room, "change_share")
    return stocking.nitrate_peak(room) * (1 - share) + tanks.source(room, "nitrate") * share


@remember
def rise_day(room: Room) -> pd.Series:
    return stocking.nitrate_week(room) / 7


@remember
def changed_since(room: Room) -> pd.Series:
    """Share of the water changed on the day of the newest nitrate reading or later; readings come before the change.

    Changes that only Maintenance has count with the planned share.
    """
    litres, days, homes = log.water_out(room), log.typed(room, "date"), log.homes(room)
    found, shares = [], _plan(room, "change_share").fillna(0).reset_index(drop=True)
    for tank, (read, volume) in enumerate(zip(readings.nitrate_date(room), tanks.net_volume(room), strict=True)):
        mine = [i for i, home in enumerate(homes) if home == tank and days[i] >= read and not math.isnan(litres[i])]
        unknown = pd.isna(read) or math.isnan(volume)
        more = shares[tank] * sum(day >= read for day in maintenance.unlogged(room)[tank])
        found.append(math.nan if unknown else min(1.0, sum(litres[i] for i in mine) / volume + more))
    return pd.Series(found, dtype=float)


@remember
def nitrate_now(room: Room) -> pd.Series:
    """The reading, thinned by what was changed since, and risen by the days gone by."""
    days = (room.plan_date - pd.to_datetime(readings.nitrate_date(room))).dt.days.clip(lower=0)
    kept = 1 - changed_since(room)
    return readings.nitrate(room) * kept + tanks.source(room, "nitrate") * (1 - kept) + rise_day(room) * days


@remember
def days_to_target(room: Room) -> pd.Series:
    left = _target(room) - nitrate_now(room)
    return left.where(left > 0) / rise_day(room).where(rise_day(room) > 0)


@remember
def changes_back(room: Room) -> pd.Series:
    """Change after change until one finds nitrate at or under the target."""
    target = _target(room)

    def count(level: float, rise: float, share: float, source: float) -> float | str:
        settles = source + rise / share
        if math.isnan(target) or level <= target:
            return ""
        if settles >= target:
            return "never by this plan"
        for number in range(1, PATIENCE):
            if level <= target + NOISE:
                return float(number)
            level += share * (source - level) + rise
        return ""

    columns = (
        nitrate_now(room),
        stocking.nitrate_interval(room),
        _plan(room, "change_share"),
        tanks.source(room, "nitrate"),
    )
    rows = zip(*columns, strict=True)
    return pd.Series(["" if np.isnan(row).any() else count(*row) for row in rows], dtype=object)


@remember
def read_against(room: Room) -> pd.Series:
    """Against the level before a change, the highest that the plan gives."""
    peak = stocking.nitrate_peak(room)
    return readings.nitrate(room) / peak.where(peak > 0)


@remember
def read_low(room: Room) -> pd.Series:
    """Against the level after a change, the lowest that the plan gives."""
    trough = nitrate_trough(room)
    return readings.nitrate(room) / trough.where(trough > 0)


@remember
def told(room: Room) -> pd.Series:
    odd, found = room.const["yield_odd"], []
    for high, low in zip(read_against(room), read_low(room), strict=True):
        if np.isnan([high, low, odd]).any():
            found.append("")
        elif high > 1 + odd:
            found.append("◆ more than planned: more food, a missed change, a death, a dirty filter")
        elif low < 1 - odd:
            found.append("○ less than planned: plants, larger changes, less food")
        else:
            found.append("as planned")
    return pd.Series(found, dtype=object)


# Temperature


def _gap(room: Room) -> pd.Series:
    """By how much the new water is warmer or colder."""
    return (_plan(room, "temperature") - tanks.source(room, "temperature")).abs()


@remember
def largest_share(room: Room) -> pd.Series:
    """All of it where the whole step is allowed."""
    step = room.const["temperature_step"]
    return _row_by_row(lambda gap: math.nan if math.isnan(step) else 1.0 if gap <= step else step / gap, _gap(room))


# Carbonate


def _carbonate_used(room: Room, days: pd.Series | float) -> pd.Series:
    milligrams = stocking.ammonia(room) * 1000 * days * ALKALINITY_FOR_NITROGEN
    return milligrams / DEGREE / tanks.net_volume(room) * yield_used(room)


@remember
def kh_used(room: Room) -> pd.Series:
    return _carbonate_used(room, 7.0)


@remember
def kh_interval(room: Room) -> pd.Series:
    return _carbonate_used(room, _plan(room, "change_interval"))


@remember
def kh_low(room: Room) -> pd.Series:
    """Where each change brings back what was used since the one before."""
    return (tanks.source(room, "kh") - kh_interval(room) / _plan(room, "change_share")).clip(lower=0)


@remember
def kh_brought(room: Room) -> pd.Series:
    """New water against the old that it replaces; water can hold no less than no carbonate."""
    weekly = 7 / _plan(room, "change_interval")
    return _plan(room, "change_share") * (tanks.source(room, "kh") - kh_low(room)) * weekly


@remember
def kh_wanted(room: Room) -> pd.Series:
    """What keeps pH steady, or less where all residents are at home in less: nobody hardens the water of such fish."""
    from tests.oracles import overlap_detail  # noqa: PLC0415  they look at one another

    borne, floor = overlap_detail.shared(room)["kh"]["low"], room.const["kh_floor"]
    if math.isnan(floor):
        return pd.Series(math.nan, index=range(len(room.tanks)), dtype=float)
    return pd.Series([floor if math.isnan(low) else min(floor, low) for low in borne], dtype=float)


@remember
def kh_state(room: Room) -> pd.Series:
    """2 where it runs out by plan and no reading says better, 1 where it gets thin, else 0."""
    floor, low = kh_wanted(room), kh_low(room)
    read_well = readings.kh(room) >= floor
    state = pd.Series(np.where(low >= floor, 0.0, np.where((low == 0) & ~read_well, 2.0, 1.0)))
    return state.where(low.notna() & floor.notna())


# The tank teaches


@remember
def pairs(room: Room) -> pd.Series:
    return pd.Series([float(len(yields)) for yields in log.pairs(room)], dtype=float)


@remember
def pairs_before(room: Room) -> pd.Series:
    return pairs(room).cumsum() - pairs(room)


def _ranked(room: Room, share: float) -> pd.Series:
    """The yield at a share of the way from the lowest to the highest; half way between two neighbours."""
    found = []
    for yields in log.pairs(room):
        rank = round((len(yields) - 1) * share, 6)
        two = [yields[math.floor(rank)], yields[math.ceil(rank)]] if yields else [math.nan]
        found.append(sum(two) / len(two))
    return pd.Series(found, dtype=float)


@remember
def own_yield(room: Room) -> pd.Series:
    return _ranked(room, 0.5)


@remember
def yield_low(room: Room) -> pd.Series:
    return _ranked(room, 0.25)


@remember
def yield_high(room: Room) -> pd.Series:
    return _ranked(room, 0.75)


@remember
def yield_is_own(room: Room) -> pd.Series:
    """Whether what the tank's own readings teach is reckoned with."""
    if room.taught:
        return room.taught[1]
    least = room.const["pairs_least"]
    lets = str(room.settings.get("yield_choice") or "").casefold() == "tank"
    counts = (pairs(room) >= least) & (own_yield(room) > 0) & (own_yield(room) <= 1) & lets
    known = _named(room) & (not math.isnan(least))
    return pd.Series(np.where(counts, "yes", "no"), dtype=object).where(known, "")


@remember
def yield_used(room: Room) -> pd.Series:
    if room.taught:
        return room.taught[0]
    of_room, least = room.const["nitrate_yield"], room.const["pairs_least"]
    known = _named(room) & (not math.isnan(least)) & (not math.isnan(of_room))
    return own_yield(room).where(yield_is_own(room) == "yes", of_room).where(known).astype(float)


# Flags


def _known(*columns: pd.Series) -> pd.Series:
    return ~pd.concat(columns, axis=1).isna().any(axis=1)


def kh_gone(room: Room) -> pd.Series:
    return kh_state(room) == 2


def kh_thin(room: Room) -> pd.Series:
    """Thin by use; a source that is thin itself is another matter."""
    return (kh_state(room) == 1) & (tanks.source(room, "kh") >= kh_wanted(room))


def big_step(room: Room) -> pd.Series:
    """Mixed in, the planned share moves the whole tank by more than is allowed."""
    moved = _gap(room) * _plan(room, "change_share")
    return moved > room.const["temperature_step"] + NOISE


def more_nitrate(room: Room) -> pd.Series:
    """A reading well above the plan, where it is above the target too: below that nobody looks for a cause."""
    odd = read_against(room) > 1 + room.const["yield_odd"]
    return odd & (readings.nitrate(room) > _target(room))


def less_nitrate(room: Room) -> pd.Series:
    return read_low(room) < 1 - room.const["yield_odd"]


def cold_names(room: Room) -> list[str]:
    """Each tank that the change planned would chill or heat too much, with the share that would not."""
    most = zip(room.tanks["tank"], big_step(room), largest_share(room), strict=True)
    return [f"{tank} (at most {said(share * 100, 0)} %)" if is_so else "" for tank, is_so, share in most]


globals().update(so_far.running("cold_changes", cold_names))
