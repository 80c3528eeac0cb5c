"""Stocking: how full each tank is by every measure, recomputed from domain.md."""

import numpy as np
import pandas as pd

from tests.oracles import changes, company, livestock, tanks
from tests.oracles.tools import Room, blank, living, lookup, remember, rows_of

MEASURES = ("Water change", "Oxygen", "Swim room", "Bottom room", "Volume")
NONE_HOLDS = "none holds"
NITRATE_IN_NITROGEN = 4.4266  # mass of the nitrate ion over its nitrogen, domain.md
OXYGEN_FOR_NITROGEN = 4.57  # g of oxygen for each g of ammonia nitrogen, domain.md
# Conventions of the sheet: what counts as the share where no change can hold the target,
# and the shortest reserve that a share is taken of, in hours.
NO_CHANGE_HOLDS, SHORTEST_RESERVE = 100.0, 0.01


def _named(room: Room) -> pd.Series:
    """Rows of Tanks that have a name; nothing is known of the others."""
    return ~blank(room.tanks["tank"])


def _groups(room: Room, tank: int) -> list[int]:
    """Rows of Livestock that point to this row of Tanks; not those whose animals are known to be none."""
    to, counts = rows_of(room.tanks, "tank", room.livestock["tank"]), living(room)
    return [row for row, (at, count) in enumerate(zip(to, counts, strict=True)) if at == tank and count != 0]


def _total(room: Room, values: pd.Series) -> pd.Series:
    """Sum over the groups in each tank: 0 in an empty one, unknown where no group's value is known.

    Where only some are known the sum is that of the known ones, and the flag "Load understated" says so.
    """
    found = []
    for tank, named in enumerate(_named(room)):
        of_tank = values.iloc[_groups(room, tank)]
        unknown = not named or (len(of_tank) > 0 and of_tank.isna().all())
        found.append(np.nan if unknown else float(of_tank.sum()))
    return pd.Series(found, dtype=float)


def _greatest(room: Room, values: pd.Series) -> pd.Series:
    """Greatest value of the groups in each tank: 0 in an empty one, unknown where no group's value is known."""
    found = []
    for tank, named in enumerate(_named(room)):
        groups = _groups(room, tank)
        found.append(np.nan if not named else float(values.iloc[groups].max()) if groups else 0.0)
    return pd.Series(found, dtype=float)


def _source_nitrate(room: Room) -> pd.Series:
    return tanks.source(room, "nitrate").where(_named(room))


def _setting(room: Room, key: str) -> float:
    value = room.settings.get(key)
    return np.nan if value is None else float(value)


# Who is there


@remember
def animals(room: Room) -> pd.Series:
    return _total(room, living(room))


@remember
def weighed_groups(room: Room) -> pd.Series:
    known = livestock.mass(room).notna()
    found = [float(known.iloc[_groups(room, tank)].sum()) for tank in range(len(room.tanks))]
    return pd.Series(found, dtype=float).where(_named(room))


@remember
def small_groups(room: Room) -> pd.Series:
    small = livestock.small_group_no(room) == 1
    found = [float(small.iloc[_groups(room, tank)].sum()) for tank in range(len(room.tanks))]
    return pd.Series(found, dtype=float).where(_named(room))


# Totals of the tank


@remember
def oxygen_draw(room: Room) -> pd.Series:
    return _total(room, livestock.oxygen_draw(room))


@remember
def food(room: Room) -> pd.Series:
    return _total(room, livestock.food(room))


@remember
def nitrogen(room: Room) -> pd.Series:
    return _total(room, livestock.nitrogen(room))


@remember
def mass(room: Room) -> pd.Series:
    return _total(room, livestock.mass(room))


@remember
def body_length(room: Room) -> pd.Series:
    return _total(room, livestock.body_length(room))


@remember
def scaled_length(room: Room) -> pd.Series:
    return _total(room, livestock.scaled_length(room))


@remember
def bottom_wanted(room: Room) -> pd.Series:
    return _total(room, livestock.bottom_wanted(room))


@remember
def length_wanted(room: Room) -> pd.Series:
    return _greatest(room, livestock.length_wanted(room))


@remember
def volume_wanted(room: Room) -> pd.Series:
    return _greatest(room, lookup(room.species, "species", room.livestock["species"], "volume_min"))


# From food to water change


@remember
def ammonia(room: Room) -> pd.Series:
    fed_days = 7 - room.tanks["fasting_days"]
    return nitrogen(room) * fed_days / 7


@remember
def plant_growth(room: Room) -> pd.Series:
    """Dry matter, g a square metre and day, by how the tank is planted."""
    grown = {"none": 0.0} | {
        kind: room.const[name]
        for kind, name in (("some", "plants_some"), ("dense", "plants_dense"), ("dense, with co2", "plants_fed"))
    }
    return room.tanks["planted"].str.casefold().map(grown).astype(float)


@remember
def plants_take(room: Room) -> pd.Series:
    """mg/L of nitrate in a week: the nitrogen in what grows on the floor, shared out over the water."""
    square_metres = tanks.plan_area(room) / 100**2
    nitrogen_a_week = plant_growth(room) * room.const["plant_nitrogen"] * square_metres * 7
    return nitrogen_a_week * 1000 * NITRATE_IN_NITROGEN / tanks.net_volume(room)


@remember
def by_planting(room: Room) -> pd.Series:
    return plants_take(room).fillna(room.const["plant_uptake"]).where(_named(room))


@remember
def uptake(room: Room) -> pd.Series:
    """As typed; none besides the tank's own yield, in which its plants are; else by planting; else the constant."""
    own = pd.Series(0.0, index=room.tanks.index).where(changes.yield_is_own(room) == "yes")
    return room.tanks["plant_uptake"].fillna(own).fillna(by_planting(room)).where(_named(room))


def _rise(room: Room, days: pd.Series | float) -> pd.Series:
    """Nitrate, mg/L, that so many days bring after what plants take, at the tank's own yield or the room's."""
    milligrams = ammonia(room) * 1000 * days * NITRATE_IN_NITROGEN * changes.yield_used(room)
    return (milligrams / tanks.net_volume(room) - uptake(room) / 7 * days).clip(lower=0)


@remember
def nitrate_week(room: Room) -> pd.Series:
    return _rise(room, 7.0)


@remember
def nitrate_interval(room: Room) -> pd.Series:
    return _rise(room, room.tanks["change_interval"])


def _share_that_holds(room: Room, rise: pd.Series) -> pd.Series:
    """f = d / (target - source); none does it while the source is not below the target, or all water is too little."""
    target, source = _setting(room, "nitrate_target"), _source_nitrate(room)
    found: list[float | str] = []
    for d, s in zip(rise, source, strict=True):
        if np.isnan([d, s, target]).any():
            found.append(np.nan)
        else:
            share = d / (target - s) if s < target else np.inf
            found.append(NONE_HOLDS if share > 1 else share)
    return pd.Series(found, dtype=object)


@remember
def change_a_week(room: Room) -> pd.Series:
    return _share_that_holds(room, nitrate_week(room))


@remember
def change_needed(room: Room) -> pd.Series:
    return _share_that_holds(room, nitrate_interval(room))


@remember
def nitrate_peak(room: Room) -> pd.Series:
    return _source_nitrate(room) + nitrate_interval(room) / room.tanks["change_share"]


# Oxygen


@remember
def saturation(room: Room) -> pd.Series:
    """Benson & Krause 1984 at 1 atm; at altitude with the water vapour taken off the air (handbook.md 3)."""
    kelvin = room.tanks["temperature"].where(_named(room)) + 273.15
    at_sea = np.exp(
        np.polynomial.polynomial.polyval(1 / kelvin, [-139.34411, 1.575701e5, -6.642308e7, 1.243800e10, -8.621949e11])
    )
    vapour = np.exp(11.8571 - 3840.70 / kelvin - 216961 / kelvin**2)
    air = (1 - 2.25577e-5 * _setting(room, "altitude")) ** 5.25588
    return at_sea * (air - vapour) / (1 - vapour)


@remember
def bacteria_draw(room: Room) -> pd.Series:
    return ammonia(room) * 1000 / 24 * OXYGEN_FOR_NITROGEN


@remember
def draw(room: Room) -> pd.Series:
    return oxygen_draw(room) + bacteria_draw(room)


@remember
def reserve(room: Room) -> pd.Series:
    """Hours from saturation to the stop level; of a tank in which nothing breathes there is no such time."""
    held = saturation(room) * room.const["oxygen_start_share"] - room.const["oxygen_stop"]
    breathed = draw(room).where(oxygen_draw(room) > 0)
    return held.clip(lower=0) * tanks.net_volume(room) / breathed


# How dense


@remember
def density(room: Room) -> pd.Series:
    return mass(room) / tanks.net_volume(room)


@remember
def length_per_litre(room: Room) -> pd.Series:
    return body_length(room) / tanks.net_volume(room)


@remember
def inches_per_gallon(room: Room) -> pd.Series:
    inches, gallons = body_length(room) / 2.54, tanks.net_volume(room) / 3.785411784
    return inches / gallons


@remember
def scaled_per_litre(room: Room) -> pd.Series:
    return scaled_length(room) / tanks.net_volume(room)


# Shares of the limits


@remember
def nitrogen_share(room: Room) -> pd.Series:
    """What the rise takes of the room under the target, against what is planned; so it may want more than all water."""
    target = _setting(room, "nitrate_target")
    columns = (animals(room), nitrate_interval(room), _source_nitrate(room), room.tanks["change_share"])
    found = []
    for count, rise, source, planned in zip(*columns, strict=True):
        if np.isnan([count, rise, source, planned, target]).any():
            found.append(np.nan)
        elif count == 0:
            found.append(0.0)
        else:
            found.append(NO_CHANGE_HOLDS if source >= target else rise / (target - source) / planned)
    return pd.Series(found, dtype=float)


@remember
def oxygen_share(room: Room) -> pd.Series:
    share = room.const["oxygen_reserve_wanted"] / reserve(room).clip(lower=SHORTEST_RESERVE)
    return share.mask(oxygen_draw(room) == 0, 0.0)


def _nominal(room: Room) -> float:
    """Sizes in books and on tanks are nominal: so much of one still counts as the whole."""
    return 1 - room.const["nominal_allowance"]


@remember
def swim_share(room: Room) -> pd.Series:
    return length_wanted(room) * _nominal(room) / tanks.swim_length(room)


@remember
def bottom_share(room: Room) -> pd.Series:
    return bottom_wanted(room) / tanks.plan_area(room)


@remember
def volume_share(room: Room) -> pd.Series:
    return volume_wanted(room) * _nominal(room) / tanks.net_volume(room)


def _shares(room: Room) -> pd.DataFrame:
    """The five measures side by side, under their names."""
    functions = (nitrogen_share, oxygen_share, swim_share, bottom_share, volume_share)
    return pd.DataFrame({name: f(room) for name, f in zip(MEASURES, functions, strict=True)})


@remember
def binding_share(room: Room) -> pd.Series:
    """Nothing is said of a tank of which water change or oxygen is not known."""
    table = _shares(room)
    return table.max(axis=1).where(table[["Water change", "Oxygen"]].notna().all(axis=1))


@remember
def binding(room: Room) -> pd.Series:
    """The first of the measures that reach the greatest share."""
    table = _shares(room)
    found = []
    for count, greatest, (_, row) in zip(animals(room), binding_share(room), table.iterrows(), strict=True):
        if np.isnan(greatest) or np.isnan(count):
            found.append("")
        elif count == 0:
            found.append("empty")
        else:
            found.append(next(name for name in MEASURES if row[name] == greatest))
    return pd.Series(found, dtype=object)


@remember
def load_share(room: Room) -> pd.Series:
    return _shares(room)[["Water change", "Oxygen", "Bottom room"]].max(axis=1, skipna=False)


@remember
def rank(room: Room) -> pd.Series:
    """The share, of equal ones the upper row first."""
    return binding_share(room) - (np.arange(len(room.tanks)) + 1) / 1e9


@remember
def rule_share(room: Room) -> pd.Series:
    return length_per_litre(room) / room.const["rule_length_per_litre"]


@remember
def scaled_share(room: Room) -> pd.Series:
    return scaled_per_litre(room) / room.const["rule_length_per_litre"]


# Flags


def _known(*columns: pd.Series) -> pd.Series:
    """Rows in which none of these is blank."""
    return ~pd.concat([blank(column) for column in columns], axis=1).any(axis=1)


def nothing_holds(room: Room) -> pd.Series:
    return (nitrate_week(room) > 0) & (_source_nitrate(room) >= _setting(room, "nitrate_target"))


def nitrate_act(room: Room) -> pd.Series:
    return nitrate_peak(room) > _setting(room, "nitrate_act")


def nitrate_watch(room: Room) -> pd.Series:
    """Above the target by more than rounding."""
    peak = nitrate_peak(room)
    return (peak > _setting(room, "nitrate_target") * (1 + room.const["nitrate_slack"])) & (
        peak <= _setting(room, "nitrate_act")
    )


def short_of_oxygen(room: Room) -> pd.Series:
    return reserve(room) < room.const["oxygen_reserve_wanted"]


def bottom_full(room: Room) -> pd.Series:
    return bottom_share(room) > 1


def nearly_full(room: Room) -> pd.Series:
    return (load_share(room) > room.const["nearly_full"]) & (binding_share(room) <= 1)


def mass_unknown(room: Room) -> pd.Series:
    return weighed_groups(room) < company.residents(room)


# Grown on: only breath and food change, so only water change and oxygen


def _rise_with(room: Room, a_feeding_day: pd.Series) -> pd.Series:
    """Nitrate between two changes when the animals give off so much nitrogen on a feeding day."""
    milligrams = a_feeding_day * (7 - room.tanks["fasting_days"]) / 7 * 1000 * NITRATE_IN_NITROGEN
    days = room.tanks["change_interval"]
    made = milligrams * days * changes.yield_used(room) / tanks.net_volume(room)
    return (made - uptake(room) / 7 * days).clip(lower=0)


def _change_with(room: Room, rise: pd.Series) -> pd.Series:
    target, source = _setting(room, "nitrate_target"), _source_nitrate(room)
    share = (rise / (target - source) / room.tanks["change_share"]).mask(source >= target, NO_CHANGE_HOLDS)
    known = pd.concat([animals(room), rise, source, room.tanks["change_share"]], axis=1).notna().all(axis=1)
    return share.mask(animals(room) == 0, 0.0).where(known & (not np.isnan(target)))


def _hours_with(room: Room, breath: pd.Series, a_feeding_day: pd.Series) -> pd.Series:
    filter_takes = a_feeding_day * (7 - room.tanks["fasting_days"]) / 7 * 1000 / 24 * OXYGEN_FOR_NITROGEN
    held = saturation(room) * room.const["oxygen_start_share"] - room.const["oxygen_stop"]
    return held.clip(lower=0) * tanks.net_volume(room) / (breath + filter_takes).where(breath > 0)


def _oxygen_with(room: Room, breath: pd.Series, hours: pd.Series) -> pd.Series:
    share = room.const["oxygen_reserve_wanted"] / hours.clip(lower=SHORTEST_RESERVE)
    return share.mask(breath == 0, 0.0)


def _greatest_with(room: Room, change: pd.Series, oxygen: pd.Series) -> pd.Series:
    others = [swim_share(room), bottom_share(room), volume_share(room)]
    return pd.concat([change, oxygen, *others], axis=1).max(axis=1).where(change.notna() & oxygen.notna())


@remember
def draw_later(room: Room) -> pd.Series:
    return _total(room, livestock.draw_later(room))


@remember
def nitrogen_later(room: Room) -> pd.Series:
    return _total(room, livestock.nitrogen_later(room))


@remember
def rise_later(room: Room) -> pd.Series:
    return _rise_with(room, nitrogen_later(room))


@remember
def nitrogen_share_later(room: Room) -> pd.Series:
    return _change_with(room, rise_later(room))


@remember
def draw_of_all_later(room: Room) -> pd.Series:
    fed = nitrogen_later(room) * (7 - room.tanks["fasting_days"]) / 7
    return draw_later(room) + fed * 1000 / 24 * OXYGEN_FOR_NITROGEN


@remember
def reserve_later(room: Room) -> pd.Series:
    return _hours_with(room, draw_later(room), nitrogen_later(room))


@remember
def oxygen_share_later(room: Room) -> pd.Series:
    return _oxygen_with(room, draw_later(room), reserve_later(room))


@remember
def binding_share_later(room: Room) -> pd.Series:
    return _greatest_with(room, nitrogen_share_later(room), oxygen_share_later(room))


@remember
def draw_grown(room: Room) -> pd.Series:
    return _total(room, livestock.draw_grown(room))


@remember
def nitrogen_grown(room: Room) -> pd.Series:
    return _total(room, livestock.nitrogen_grown(room))


@remember
def rise_grown(room: Room) -> pd.Series:
    return _rise_with(room, nitrogen_grown(room))


@remember
def nitrogen_share_grown(room: Room) -> pd.Series:
    return _change_with(room, rise_grown(room))


@remember
def draw_of_all_grown(room: Room) -> pd.Series:
    fed = nitrogen_grown(room) * (7 - room.tanks["fasting_days"]) / 7
    return draw_grown(room) + fed * 1000 / 24 * OXYGEN_FOR_NITROGEN


@remember
def reserve_grown(room: Room) -> pd.Series:
    return _hours_with(room, draw_grown(room), nitrogen_grown(room))


@remember
def oxygen_share_grown(room: Room) -> pd.Series:
    return _oxygen_with(room, draw_grown(room), reserve_grown(room))


@remember
def binding_share_grown(room: Room) -> pd.Series:
    return _greatest_with(room, nitrogen_share_grown(room), oxygen_share_grown(room))
