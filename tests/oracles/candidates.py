"""The whole library against one tank, species by species: water left, room by counting up, company, verdict, order."""

import functools
import importlib
import math
from collections.abc import Callable

import numpy as np
import pandas as pd

from tests.oracles import overlap_detail, residents, sought, species, stocking, tanks
from tests.oracles.overlap_detail import PARAMETERS
from tests.oracles.tools import Room, blank, folded, living, remember, rounded

MEASURES = {
    "nitrogen": "water change",
    "oxygen": "oxygen",
    "swim": "swim room",
    "bottom": "bottom room",
    "volume": "volume",
}
NO_LIMIT = 1e6
COUNTED = 60  # one by one up to here; above, by halving: a share only grows with the animals
FITS, CARE, UNKNOWN, NOT = "fits", "◆ fits with care", "○ unknown", "▲ does not fit"
TIGHT, CHANGE = "◆ tight", "◆ with more change"
Oracle = Callable[[Room], pd.Series]


def every(function: Callable[[Room, int], float | str]) -> Oracle:
    """A column, row by row; blank where no tank is chosen or the row has no name."""

    @functools.wraps(function)
    def column(room: Room) -> pd.Series:
        nothing: float | str = "" if function.__annotations__["return"] is str else math.nan
        known = residents.tank(room) is not None
        names = blank(room.species["species"])
        found = [nothing if nameless or not known else function(room, row) for row, nameless in enumerate(names)]
        return pd.Series(found, dtype=object if nothing == "" else float)

    return remember(column)


@remember
def _spelled(room: Room, key: str) -> list[str]:
    return folded(room.species[key])


@remember
def _measured(room: Room, key: str) -> list[float]:
    return [float(value) for value in room.species[key]]


def word(room: Room, key: str, row: int) -> str:
    return _spelled(room, key)[row]


def number(room: Room, key: str, row: int) -> float:
    return _measured(room, key)[row]


def name(room: Room, row: int) -> str:
    return str(room.species["species"].iloc[row])


def _source_nitrate(room: Room) -> pd.Series:
    return tanks.source(room, "nitrate")


@remember
def of(room: Room, table: Callable[[Room], pd.Series]) -> float | str:
    """A value of the chosen tank."""
    return sought.of_tank(room, table(room))


# --- water ---


def _ends(room: Room, parameter: str, row: int) -> tuple[float, float]:
    low, high = (float(used(room).iloc[row]) for used in species.USED[parameter])
    return low, high


def _left(room: Room, parameter: str, row: int) -> tuple[float, float]:
    """What the residents leave of the species' own range."""
    shared, (low, high) = overlap_detail.shared(room)[parameter], _ends(room, parameter, row)
    theirs = float(sought.of_tank(room, shared["low"])), float(sought.of_tank(room, shared["high"]))
    return (math.nan if math.isnan(low) else np.fmax(low, theirs[0])), (
        math.nan if math.isnan(high) else np.fmin(high, theirs[1])
    )


def _low(parameter: str) -> Oracle:
    def low(room: Room, row: int) -> float:
        return float(_left(room, parameter, row)[0])

    low.__qualname__ = f"{parameter}_low"
    return every(low)


def _high(parameter: str) -> Oracle:
    def high(room: Room, row: int) -> float:
        return float(_left(room, parameter, row)[1])

    high.__qualname__ = f"{parameter}_high"
    return every(high)


temperature_low, ph_low, gh_low, kh_low = (_low(p) for p in PARAMETERS)
temperature_high, ph_high, gh_high, kh_high = (_high(p) for p in PARAMETERS)


def width_of(room: Room, parameter: str, row: int) -> float:
    low, high = _left(room, parameter, row)
    return float(high - low)


def _width(parameter: str) -> Oracle:
    def width(room: Room, row: int) -> float:
        return width_of(room, parameter, row)

    width.__qualname__ = f"{parameter}_width"
    return every(width)


temperature_width, ph_width, gh_width, kh_width = (_width(p) for p in PARAMETERS)


def widths(room: Room, row: int) -> list[float]:
    return [width_of(room, p, row) for p in PARAMETERS]


def kept_at(room: Room, parameter: str) -> float:
    return float(sought.of_tank(room, overlap_detail.kept_at(room, parameter)))


@every
def outside(room: Room, row: int) -> str:
    kept = [kept_at(room, p) for p in PARAMETERS]
    if np.isnan([*kept, *widths(room, row)]).any():
        return ""
    lefts = [_left(room, p, row) for p in PARAMETERS]
    return " ".join(
        sought.WORDS[p]
        for p, v, (low, high) in zip(PARAMETERS, kept, lefts, strict=True)
        if not low <= v <= high and (v < low or v > high)
    )


@every
def width(room: Room, row: int) -> float:
    if not _ready(room):
        return math.nan
    parts = [
        w / (w + room.const[f"narrow_{p}"]) if w > 0 else 0.0 if w == w else w
        for p, w in zip(PARAMETERS, widths(room, row), strict=True)
    ]
    return sum(parts) / 4


# --- load and room ---


@every
def present(room: Room, row: int) -> float:
    animals = [
        living(room).iloc[g]
        for g in residents.here(room)
        if folded([room.livestock["species"].iloc[g]]) == folded([name(room, row)])
    ]
    first = folded(room.species["species"]).index(word(room, "species", row)) == row
    return float(np.nansum(animals)) if first and animals else 0.0


@every
def breath(room: Room, row: int) -> float:
    mass, warmth = float(species.adult_mass(room).iloc[row]), sought.plan(room, "temperature")
    return float(species.routine_oxygen(pd.Series([mass]), pd.Series([warmth]), room.const["activity"])[0])


@every
def nitrate_each(room: Room, row: int) -> float:
    return float(breath(room)[row] * sought.nitrate_by_breath(room)[0])


@every
def oxygen_each(room: Room, row: int) -> float:
    return float(breath(room)[row] * sought.oxygen_by_breath(room)[0])


@every
def bottom_each(room: Room, row: int) -> float:
    sides = {"holds ground": room.const["bottom_holds"], "social": room.const["bottom_social"], "no": 0.0}
    side = sides.get(word(room, "bottom_room", row), math.nan) * number(room, "adult_length", row)
    return float(side**2 / of(room, tanks.plan_area))


def _nominal(room: Room) -> float:
    return 1 - room.const["nominal_allowance"]


@every
def swim_share(room: Room, row: int) -> float:
    lengths = {word: room.const[f"swim_{word}"] for word in ("active", "calm", "sedentary")}
    by_swim = lengths.get(word(room, "swim", row), math.nan) * number(room, "adult_length", row)
    typed = number(room, "length_min", row)
    wanted = typed if typed == typed and by_swim == by_swim else by_swim
    return float(wanted * _nominal(room) / of(room, tanks.swim_length))


@every
def volume_share(room: Room, row: int) -> float:
    return float(number(room, "volume_min", row) * _nominal(room) / of(room, tanks.net_volume))


def shares_with(room: Room, row: int, more: float) -> dict[str, float]:
    """Share of each limit with so many more of a species, from the tank's own totals; 0 where they do not raise it.

    As on Stocking: nitrate that piles up against the change planned, oxygen wanted against oxygen held, floor, length, volume.
    """
    each, c = float(breath(room)[row]), room.const
    nitrogen = sought.nitrogen_by_breath(room) * each * more + of(room, stocking.ammonia) * (
        1 - sought.freed_nitrogen(room)[0]
    )
    plants = of(room, stocking.uptake) / 7 * sought.plan(room, "change_interval")
    rise = max(0.0, sought._rise(room, nitrogen) - plants)
    room_under = sought._target(room) - of(room, _source_nitrate)
    needed = rise / room_under if room_under > 0 else math.inf
    draw = (
        of(room, stocking.oxygen_draw) * (1 - sought.freed_oxygen(room)[0])
        + each * more
        + nitrogen * 1000 / 24 * stocking.OXYGEN_FOR_NITROGEN
    )
    held = max(0.0, of(room, stocking.saturation) * c["oxygen_start_share"] - c["oxygen_stop"]) * of(
        room, tanks.net_volume
    )
    floor = float(bottom_each(room)[row])
    return {
        "nitrogen": needed / sought.plan(room, "change_share") if nitrogen > 0 or room_under <= 0 else 0.0,
        "oxygen": c["oxygen_reserve_wanted"] * draw / held if held > 0 else math.inf,
        "swim": float(swim_share(room)[row]),
        "bottom": of(room, stocking.bottom_wanted) * (1 - sought.freed_bottom(room)[0]) / of(room, tanks.plan_area) + floor * more,
        "volume": float(volume_share(room)[row]),
    }  # fmt: skip


def _load_known(room: Room, row: int) -> bool:
    values = [
        nitrate_each(room)[row],
        oxygen_each(room)[row],
        sought.nitrate_full(room)[0],
        sought.oxygen_full(room)[0],
    ]
    return not np.isnan(values).any()


def _count(room: Room, row: int, measure: str) -> float:
    """Add one animal after the other until the measure is over its limit."""

    def over(more: float) -> bool:
        return shares_with(room, row, more)[measure] > 1 + 1e-11

    count = 0
    while not over(count + 1):
        count += 1
        if count >= COUNTED:
            low, high = float(count), NO_LIMIT
            if not over(high):
                return NO_LIMIT
            while high - low > 1:
                middle = math.floor((low + high) / 2)
                low, high = (low, middle) if over(middle) else (middle, high)
            return float(low)
    return float(count)


@every
def room_nitrogen(room: Room, row: int) -> float:
    if np.isnan([nitrate_each(room)[row], sought.nitrate_full(room)[0]]).any():
        return math.nan
    if nitrate_each(room)[row] == 0:
        return NO_LIMIT
    return _by_share(room, row, sought.nitrate_full(room)[0], float(nitrate_each(room)[row]), "nitrogen")


def _by_share(room: Room, row: int, full: float, each: float, measure: str) -> float:
    """By counting up the whole model where all of it is known, otherwise by counting up the one share."""
    if _load_known(room, row) and not math.isnan(_all_known(room, row)):
        return _count(room, row, measure)
    return float(min(NO_LIMIT, max(0.0, math.floor((1 - full) / each + 1e-9))))


def _all_known(room: Room, row: int) -> float:
    values = [float(of(room, stocking.oxygen_draw)), float(of(room, stocking.ammonia)), float(of(room, stocking.bottom_wanted)), float(bottom_each(room)[row]),
              float(swim_share(room)[row]), float(volume_share(room)[row]), float(of(room, tanks.plan_area))]  # fmt: skip
    return math.nan if np.isnan(values).any() else 1.0


@every
def room_oxygen(room: Room, row: int) -> float:
    if np.isnan([oxygen_each(room)[row], sought.oxygen_full(room)[0]]).any():
        return math.nan
    return _by_share(room, row, sought.oxygen_full(room)[0], float(oxygen_each(room)[row]), "oxygen")


@every
def room_bottom(room: Room, row: int) -> float:
    each, full = float(bottom_each(room)[row]), sought.bottom_full(room)[0]
    if math.isnan(each) or math.isnan(full):
        return math.nan
    return NO_LIMIT if each == 0 else _by_share(room, row, full, each, "bottom")


def _all_or_none(share: Oracle, label: str) -> Oracle:
    def holds(room: Room, row: int) -> float:
        value = share(room)[row]
        return value if math.isnan(value) else 0.0 if value > 1 + 1e-9 else NO_LIMIT

    holds.__qualname__ = label
    return every(holds)


room_swim, room_volume = _all_or_none(swim_share, "room_swim"), _all_or_none(volume_share, "room_volume")
ROOMS = {
    "nitrogen": room_nitrogen,
    "oxygen": room_oxygen,
    "swim": room_swim,
    "bottom": room_bottom,
    "volume": room_volume,
}


@every
def more(room: Room, row: int) -> float:
    return float(np.min([table(room)[row] for table in ROOMS.values()]))  # NaN where one is


@every
def limit(room: Room, row: int) -> str:
    least = more(room)[row]
    if math.isnan(least):
        return ""
    return (
        "none"
        if least == NO_LIMIT
        else next(MEASURES[key] for key, table in ROOMS.items() if table(room)[row] == least)
    )


@every
def add_min(room: Room, row: int) -> float:
    lacking = number(room, "group_min", row) - present(room)[row]
    return lacking if math.isnan(lacking) else max(1.0, lacking)


@every
def add_best(room: Room, row: int) -> float:
    best = number(room, "group_best", row) - present(room)[row]
    return math.nan if math.isnan(best) or math.isnan(add_min(room)[row]) else max(add_min(room)[row], best)


def _binding(room: Room, row: int, added: float) -> float:
    if math.isnan(added) or math.isnan(more(room)[row]):
        return math.nan
    there = [sought.swim_full(room)[0], sought.volume_full(room)[0]]  # what residents want of the tank, on Stocking too
    return float(np.nanmax([*_shares(room, row, added).values(), *there]))


def _asks(room: Room, row: int, added: float, *, change: bool) -> float:
    """The fullest of what it raises itself; with or without the water change."""
    if math.isnan(added) or math.isnan(more(room)[row]):
        return math.nan
    shares = _shares(room, row, added)
    raised = {key: share for key, share in shares.items() if key != "bottom" or bottom_each(room)[row] > 0}
    return max(share for key, share in raised.items() if change or key != "nitrogen")


@every
def apart_min(room: Room, row: int) -> float:
    return _asks(room, row, add_min(room)[row], change=False)


@every
def asks_min(room: Room, row: int) -> float:
    return _asks(room, row, add_min(room)[row], change=True)


@every
def asks_best(room: Room, row: int) -> float:
    return _asks(room, row, add_best(room)[row], change=True)


@every
def change_to(room: Room, row: int) -> float:
    """To the next twentieth of the water."""
    return (
        math.ceil(round(sought.plan(room, "change_share") * nitrogen_min(room)[row] * 20, 6)) / 20
        if not math.isnan(sought.plan(room, "change_share") * nitrogen_min(room)[row])
        else math.nan
    )


def _shares(room: Room, row: int, added: float) -> dict[str, float]:
    shares = shares_with(room, row, added)
    for key, carried in (("nitrogen", sought.carried_nitrate(room)[0]), ("oxygen", sought.carried_draw(room)[0])):
        if carried <= 0:  # nothing is carried: a hundred times the limit, and each animal counts as its breath
            shares[key] = 100.0 + float(breath(room)[row]) * added
    return shares


def _with_group(key: str, measure: str, known: Callable[[Room, int], list[float]]) -> Oracle:
    """The share of one measure with the smallest or the best group, where what it takes is known."""

    def share(room: Room, row: int) -> float:
        added = float({"min": add_min, "best": add_best}[key](room)[row])
        return math.nan if np.isnan([added, *known(room, row)]).any() else _shares(room, row, added)[measure]

    share.__qualname__ = f"{measure}_{key}"
    return every(share)


def _nitrogen_known(room: Room, row: int) -> list[float]:
    return [float(nitrate_each(room)[row]), float(sought.nitrate_full(room)[0])]


def _oxygen_known(room: Room, row: int) -> list[float]:
    return [float(oxygen_each(room)[row]), float(sought.oxygen_full(room)[0])]


def _bottom_known(room: Room, row: int) -> list[float]:
    return [float(bottom_each(room)[row]), float(sought.bottom_full(room)[0])]


nitrogen_min, nitrogen_best = (_with_group(key, "nitrogen", _nitrogen_known) for key in ("min", "best"))
oxygen_min, oxygen_best = (_with_group(key, "oxygen", _oxygen_known) for key in ("min", "best"))
bottom_min, bottom_best = (_with_group(key, "bottom", _bottom_known) for key in ("min", "best"))


@every
def binding_min(room: Room, row: int) -> float:
    return _binding(room, row, add_min(room)[row])


@every
def binding_best(room: Room, row: int) -> float:
    return _binding(room, row, add_best(room)[row])


# --- company ---


@every
def swallowed_by(room: Room, row: int) -> str:
    prey = word(room, "kind", row) not in {"", "snail"}
    return (
        str(sought.mouthful_who(room)[0])
        if prey and number(room, "adult_length", row) < sought.mouthful_max(room)[0] - 5e-7
        else ""
    )


@every
def swallows(room: Room, row: int) -> str:
    mouthful = number(room, "mouth_share", row) * number(room, "adult_length", row)
    return str(sought.victim_who(room)[0]) if mouthful > sought.victim_min(room)[0] + 5e-7 else ""


def _gaps(room: Room, row: int) -> tuple[float, float]:
    own = number(room, "temper", row) if word(room, "kind", row) == "fish" else math.nan
    return float(sought.temper_max(room)[0]) - own, own - float(sought.temper_min(room)[0])


@every
def temper_gap(room: Room, row: int) -> float:
    return float(np.max(_gaps(room, row)))


@every
def temper_foe(room: Room, row: int) -> str:
    up, down = _gaps(room, row)
    gap = temper_gap(room)[row]
    if math.isnan(gap) or gap == 0:
        return ""
    return str(sought.temper_who(room)[0]) if up >= down else str(sought.gentle_who(room)[0])


def _of_others(room: Room, row: int, habit: str) -> str:
    """The first living group with a habit that is of another kind."""
    own = word(room, "species", row)
    lines = zip(residents.names(room), residents.stays(room), residents.said(room, habit), strict=True)
    return next((who for who, lives, does in lines if lives and does == "yes" and who.casefold() != own), "")


@every
def bitten_by(room: Room, row: int) -> str:
    return _of_others(room, row, "bites_fins") if word(room, "long_fins", row) == "yes" else ""


@every
def bites(room: Room, row: int) -> str:
    return _of_others(room, row, "long_fins") if word(room, "bites_fins", row) == "yes" else ""


@every
def hunted_by(room: Room, row: int) -> str:
    kind = word(room, "kind", row)
    if kind == "shrimp":
        return str(sought.shrimp_eater(room)[0])
    return str(sought.snail_eater(room)[0]) if kind == "snail" else ""


@every
def cracked_by(room: Room, row: int) -> str:
    """A snail goes down whole where it is at most half a mouthful of who eats snails; from memory, no published source."""
    if word(room, "kind", row) != "snail":
        return ""
    length, mouthful = number(room, "adult_length", row), sought.snail_gape_max(room)[0]
    return str(sought.cracks_who(room)[0]) if round(2 * length - mouthful, 6) <= 0 else ""


@every
def hunts_shrimp(room: Room, row: int) -> str:
    return str(sought.shrimp_who(room)[0]) if word(room, "eats_shrimp", row) in {"yes", "young"} else ""


@every
def hunts_snails(room: Room, row: int) -> str:
    return str(sought.snail_who(room)[0]) if word(room, "eats_snails", row) == "yes" else ""


# --- verdict ---


def _ready(room: Room) -> bool:
    return not math.isnan(sought.ready(room)[0])


@every
def bars(room: Room, row: int) -> float:
    if not _ready(room):
        return math.nan
    mouths_and_fins = any(column(room)[row] for column in (swallowed_by, swallows, bitten_by, bites, cracked_by))
    clash = np.nan_to_num(temper_gap(room)[row]) >= room.const["temper_clash"]
    hunted = word(room, "kind", row) == "shrimp" and sought.hunters(room)[0] > 0
    hunts = word(room, "eats_shrimp", row) == "yes" and hunts_shrimp(room)[row] != ""
    return float(bool(mouths_and_fins or clash or hunted or hunts))


@every
def stop(room: Room, row: int) -> str:
    if not _ready(room):
        return ""
    if width_of(room, "temperature", row) < 0 or width_of(room, "ph", row) < 0:
        return "water"
    if bars(room)[row] == 1:
        return "company"
    return str(limit(room)[row]) if strain(room)[row] == 10 else ""


@every
def strain(room: Room, row: int) -> float:
    """0 it has room, 1 within what the model is unsure of, 2 with more water changed, 10 too much."""
    if not _ready(room) or math.isnan(room.const["tight"]) or math.isnan(room.const["change_most"]):
        return math.nan
    if not more(room)[row] < add_min(room)[row]:
        return 0.0
    if asks_min(room)[row] <= room.const["tight"]:
        return 1.0
    mended = apart_min(room)[row] <= room.const["tight"] and change_to(room)[row] <= room.const["change_most"]
    return 2.0 if mended else 10.0


@every
def unknown(room: Room, row: int) -> float:
    things = [
        species.lacking(room)[row] != "", sought.lacking(room)[0] != "", word(room, "kind", row) == "", math.isnan(more(room)[row]), math.isnan(add_min(room)[row]),
        word(room, "long_fins", row) == "" and sought.first_biter(room)[0] != "", word(room, "bites_fins", row) == "" and sought.first_finned(room)[0] != "",
        word(room, "eats_shrimp", row) == "" and sought.shrimp_who(room)[0] != "", word(room, "eats_snails", row) == "" and sought.snail_who(room)[0] != "",
    ]  # fmt: skip
    return float(any(things))


@every
def care(room: Room, row: int) -> float:
    if not _ready(room):
        return math.nan
    told = [outside, hunted_by, hunts_shrimp, hunts_snails]
    words = (
        any(column(room)[row] for column in told)
        or room.species["caution"].iloc[row] != ""
        or sought.care(room)[0] != ""
    )
    gap = np.nan_to_num(temper_gap(room)[row]) >= room.const["temper_watch"]
    narrow = any(w < room.const[f"narrow_{p}"] - 1e-6 for p, w in zip(PARAMETERS, widths(room, row), strict=True))
    return float(bool(words or gap or narrow))


@every
def objects(room: Room, row: int) -> str:
    """Who lives there and does not go with it, each with the reason in a few words."""
    if not _ready(room):
        return ""
    parts = [(swallowed_by, "swallows it"), (swallows, "it swallows")]
    told = [f"{column(room)[row]} ({reason})" for column, reason in parts if column(room)[row]]
    if np.nan_to_num(temper_gap(room)[row]) >= room.const["temper_watch"]:
        told.append(f"{temper_foe(room)[row]} (temper)")
    parts = [
        (bitten_by, "bites its fins"),
        (bites, "it bites the fins"),
        (hunted_by, "eats it or its young"),
        (hunts_shrimp, "it eats"),
        (hunts_snails, "it eats"),
    ]
    return ", ".join([*told, *(f"{column(room)[row]} ({reason})" for column, reason in parts if column(room)[row])])


@every
def why(room: Room, row: int) -> str:
    """What else than company stands against it, in few words."""
    if not _ready(room):
        return ""
    left = dict(zip(PARAMETERS, widths(room, row), strict=True))
    apart = [sought.WORDS[p] for p, w in left.items() if w < 0]
    thin = [sought.WORDS[p] for p, w in left.items() if 0 <= w < room.const[f"narrow_{p}"] - 1e-6]
    told = ["no shared " + ", ".join(apart)] if apart else []
    if outside(room)[row] and not apart:
        told.append("tank kept outside in " + ", ".join(str(outside(room)[row]).split()))
    told += ["little shared " + ", ".join(thin)] if thin else []
    if more(room)[row] < add_min(room)[row]:
        mended = f", all with {rounded(change_to(room)[row] * 100):.0f} % changed each time"
        told.append(
            f"room for {more(room)[row]:.0f} of {add_min(room)[row]:.0f} ({limit(room)[row]})"
            + (mended if strain(room)[row] == 2 else "")
        )
    if unknown(room)[row] == 1:
        told.append(f"not known: {species.lacking(room)[row] or 'room, fins, prey or the tank'}")
    told += ["see its caution"] if room.species["caution"].iloc[row] != "" else []
    told += ["mind the tank first"] if sought.care(room)[0] != "" else []
    return "; ".join(told)


@every
def verdict(room: Room, row: int) -> str:
    if not _ready(room):
        return ""
    if stop(room)[row]:
        return NOT
    if unknown(room)[row]:
        return UNKNOWN
    if strain(room)[row] > 0:
        return TIGHT if strain(room)[row] == 1 else CHANGE
    return CARE if care(room)[row] else FITS


# --- filters and order ---


@every
def easy(room: Room, row: int) -> float:
    """As wide in temperature, pH and GH as the constants ask."""
    spans = [_ends(room, p, row)[1] - _ends(room, p, row)[0] for p in PARAMETERS[:3]]
    if np.isnan(spans).any():
        return math.nan
    return float(all(span >= room.const[f"easy_{p}"] - 1e-7 for p, span in zip(PARAMETERS, spans, strict=False)))


@every
def passes(room: Room, row: int) -> float:
    """What is not known passes no filter that asks for it; the species that can't be had never passes."""
    asked = {key: room.choice.get(key) or "" for key in ("zone", "longest", "temper_most", "easy")}
    tests = [
        asked["zone"].casefold() in {"", "any"} or word(room, "zone", row) in {asked["zone"].casefold(), "all"},
        not asked["longest"] or number(room, "adult_length", row) <= float(asked["longest"]),
        not asked["temper_most"] or number(room, "temper", row) <= float(asked["temper_most"]),
        asked["easy"].casefold() != "yes" or easy(room)[row] == 1,
        sought.species_at(room, "just") in {None, row},
        sought.species_at(room, "instead_of") != row,
    ]  # fmt: skip
    return float(all(tests))


@every
def never(room: Room, row: int) -> float:
    """Longer than the tank, or of other water: not listed unless asked for by name."""
    if not verdict(room)[row]:
        return math.nan
    return float(stop(room)[row] == "water" or number(room, "adult_length", row) > float(of(room, tanks.swim_length)))


@every
def spare(room: Room, row: int) -> float:
    no_peace = _beside("merit_peace")(room)[row] == 0
    return float(word(room, "spreads", row) == "yes" or present(room)[row] > 0 or no_peace)


@every
def merit(room: Room, row: int) -> float:
    if math.isnan(room.const["choose_step"]):
        return math.nan
    if sought.species_at(room, "instead_of") is None:
        return float(np.nan_to_num(_beside("keeping")(room)[row]))
    other_water = {"temperature", "pH"} & set(str(outside(room)[row]).split())
    return float(np.nan_to_num(_beside("likeness")(room)[row])) - (room.const["choose_step"] if other_water else 0.0)


@every
def step(room: Room, row: int) -> float:
    """What fits, what lives there or breeds without end, what is not known, what lacks room, who clashes, other water."""
    off = room.const["choose_step"]
    careful = room.const["choose_care"]
    if not verdict(room)[row] or math.isnan(off) or math.isnan(careful):
        return math.nan
    stopped = stop(room)[row]
    if stopped in {"water", "company"}:
        return -2.0 if stopped == "water" else 0.0
    if stopped:
        return float(2 - spare(room)[row] - min(2.0, asks_min(room)[row] - 1) * off)
    taken_off = care(room)[row] * careful + np.nan_to_num(strain(room)[row]) * off
    return 10.0 if unknown(room)[row] else float(100 - 10 * spare(room)[row] - taken_off)


@every
def rank(room: Room, row: int) -> float:
    listed = never(room)[row] == 0 or sought.species_at(room, "just") is not None
    if passes(room)[row] != 1 or not listed:
        return math.nan
    return float(step(room)[row] + math.floor(merit(room)[row] * 1000 + 0.5 + 1e-10) / 1000 - (row + 1) / 1e9)


# What speaks for a candidate, and how like it is, is told in modules of their own, which look at this one.
ELSEWHERE = {"keeping": "merit", "merit_": "merit", "like": "like"}


def _beside(key: str) -> Oracle:
    """A column that is told in another module."""
    module = next(found for begin, found in ELSEWHERE.items() if key.startswith(begin))
    return getattr(importlib.import_module(f"tests.oracles.candidate_{module}"), key)


def __getattr__(key: str) -> Oracle:
    """The columns of those modules stand in the same table."""
    if not key.startswith(tuple(ELSEWHERE)):
        raise AttributeError(key)
    return _beside(key)
