"""Newest readings: of each tank and parameter the latest that the log holds, and what they say together."""

import math
from collections.abc import Callable

import numpy as np
import pandas as pd

from tests.oracles import log, tanks
from tests.oracles.tools import Room, blank, remember, said, same, through

Oracle = Callable[[Room], pd.Series]
PLUMMER = (356.3094, 0.06091964, -21834.37, -126.8339, 1684915)


@remember
def newest(room: Room) -> pd.DataFrame:
    """For each tank and parameter the row of the log; blank where it was never read."""
    found = {}
    for key in log.READINGS:
        read = log.typed(room, key).notna()
        last = [[row for row in rows if read[row]][-1:] for rows in log.diaries(room).values()]
        found[key] = pd.Series([float(rows[0]) if rows else math.nan for rows in last], dtype=float)
    return pd.DataFrame(found)


def at(room: Room, key: str, values: pd.Series) -> pd.Series:
    """A column of the log in the row of the newest reading of a parameter."""
    return through(values, [None if math.isnan(row) else int(row) for row in newest(room)[key]])


def row_of(key: str) -> Oracle:
    return lambda room: newest(room)[key] + 1


def value_of(key: str) -> Oracle:
    return lambda room: at(room, key, log.typed(room, key))


def day_of(key: str) -> Oracle:
    return lambda room: at(room, key, log.typed(room, "date"))


temperature_row, ph_row, gh_row, kh_row, ammonia_row, nitrite_row, nitrate_row = map(row_of, log.READINGS)
temperature, ph, gh, kh, ammonia, nitrite, nitrate = map(value_of, log.READINGS)
temperature_date, ph_date, gh_date, kh_date, ammonia_date, nitrite_date, nitrate_date = map(day_of, log.READINGS)


@remember
def tests(room: Room) -> pd.Series:
    homes = log.homes(room)
    return pd.Series([float(homes.count(tank)) for tank in range(len(room.tanks))], dtype=float)


@remember
def tested_on(room: Room) -> pd.Series:
    """The last day on which something was read; a day of nothing but work is no test."""
    days = pd.DataFrame({key: day_of(key)(room) for key in log.READINGS}, index=range(len(room.tanks)))
    return days.max(axis=1).astype("datetime64[ns]")


@remember
def days_since_test(room: Room) -> pd.Series:
    return (room.plan_date - tested_on(room)).dt.days.astype(float)


# Ammonia


@remember
def total(room: Room) -> pd.Series:
    return at(room, "ammonia", log.total(room))


@remember
def toxic(room: Room) -> pd.Series:
    return at(room, "ammonia", log.toxic(room))


@remember
def reading_temperature(room: Room) -> pd.Series:
    return at(room, "ammonia", log.temperature_used(room))


@remember
def reading_ph(room: Room) -> pd.Series:
    return at(room, "ammonia", log.ph_used(room))


def turning(acid: float, alkaline: float, turn: float, ph_: pd.Series) -> pd.Series:
    """Goes from one level in acid water to another in alkaline water, half way at the turning pH."""
    alkaline_part = 1 / (1 + 10.0 ** (turn - ph_))
    return alkaline * alkaline_part + acid * (1 - alkaline_part)


@remember
def acute(room: Room) -> pd.Series:
    """EPA 822-R-13-001: the stricter of salmonids and mussels."""
    ph_, warmth = reading_ph(room), reading_temperature(room)
    salmonids = turning(39.0, 0.275, 7.204, ph_)
    mussels = 0.7249 * turning(1.6181, 0.0114, 7.204, ph_) * 23.12 * 10.0 ** (0.036 * (20 - warmth))
    return pd.concat([salmonids, mussels], axis=1).min(axis=1, skipna=False)


@remember
def chronic(room: Room) -> pd.Series:
    """EPA 822-R-13-001; colder than 7 deg C counts as 7."""
    bracket = turning(1.1994, 0.0278, 7.688, reading_ph(room))
    return 0.8876 * bracket * 2.126 * 10.0 ** (0.028 * (20 - reading_temperature(room).clip(lower=7)))


@remember
def chronic_share(room: Room) -> pd.Series:
    return total(room) / chronic(room)


# Carbon dioxide


@remember
def temperature_used(room: Room) -> pd.Series:
    read = log.sensible("temperature", temperature(room))
    return read.fillna(log.sensible("temperature", tanks.column(room, "temperature")))


@remember
def carbon_dioxide(room: Room) -> pd.Series:
    """Plummer & Busenberg 1982: bicarbonate as KH in mmol/L, times 10 to the power of pK1 - pH, times the molar mass."""
    kelvin = temperature_used(room) + 273.15
    terms = (1, kelvin, 1 / kelvin, np.log10(kelvin), kelvin**-2)
    pk1 = sum(factor * term for factor, term in zip(PLUMMER, terms, strict=True))
    return kh(room) * 0.35665 / 1000 * 10.0 ** (pk1 - log.sensible("ph", ph(room))) * 44_009.5


@remember
def trade_rule(room: Room) -> pd.Series:
    return 3 * kh(room) * 10.0 ** (7 - log.sensible("ph", ph(room)))


# Flags


def _target(room: Room, key: str) -> float:
    value = room.settings.get(key)
    return math.nan if value is None else float(value)


def _living(room: Room) -> pd.Series:
    return tanks.animals(room) > 0


@remember
def ammonia_level(room: Room) -> pd.Series:
    act = room.const["toxic_act"]
    level = pd.Series(np.where(total(room) > 0, np.where(toxic(room).fillna(0) >= act, 2.0, 1.0), 0.0))
    return level.where(total(room).notna() & (not math.isnan(act)))


@remember
def toxic_said(room: Room) -> pd.Series:
    unknown = "how much of it is toxic is unknown without pH and temperature"
    found = []
    for whole, part in zip(total(room), toxic(room), strict=True):
        words = unknown if math.isnan(part) else f"{said(part, 3)} mg/L of it toxic"
        found.append("" if math.isnan(whole) else words)
    return pd.Series(found, dtype=object)


def toxic_act(room: Room) -> pd.Series:
    return ammonia_level(room) == 2


def ammonia_seen(room: Room) -> pd.Series:
    """Any ammonia that is not told of as toxic."""
    return ammonia_level(room) == 1


def never_tested(room: Room) -> pd.Series:
    """Told only where a log is kept at all."""
    kept = (~blank(room.log["tank"])).any()
    return _living(room) & (tests(room) == 0) & kept


def nitrite_seen(room: Room) -> pd.Series:
    return (nitrite(room) > 0) & _living(room)


def cycling(room: Room) -> pd.Series:
    return same(room.tanks["cycled"].reset_index(drop=True), "no") & (tanks.animals(room) == 0)


def today(room: Room) -> pd.Series:
    """Nitrate reckoned for the plan date."""
    from tests.oracles import changes  # noqa: PLC0415  they look at one another

    return changes.nitrate_now(room)


def nitrate_high(room: Room) -> pd.Series:
    now = today(room)
    return (now > _target(room, "nitrate_target") * (1 + room.const["nitrate_slack"])) & (
        now <= _target(room, "nitrate_act")
    )


def nitrate_too_high(room: Room) -> pd.Series:
    return today(room) > _target(room, "nitrate_act")


def old_test(room: Room) -> pd.Series:
    return _living(room) & (days_since_test(room) > room.const["test_days"])


def gas_high(room: Room) -> pd.Series:
    return _living(room) & (carbon_dioxide(room) > room.const["carbon_dioxide_caution"])
