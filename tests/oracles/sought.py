"""What is sought: the chosen tank, what it can still carry, who matters in it, and the filters; one line."""

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pandas as pd

from tests.oracles import (
    changes,
    company,
    feeding_tanks,
    livestock,
    overlap_detail,
    residents,
    species,
    stocking,
    tanks,
)
from tests.oracles.overlap_detail import PARAMETERS
from tests.oracles.tools import Room, remember, rounded, rows_of
from tests.oracles.tools import said as rounded_text

WORDS = {"temperature": "temperature", "ph": "pH", "gh": "GH", "kh": "KH"}
WEIGHTS = ("kin", "size", "form", "swim", "zone", "role", "diet", "temper", "group", "colour", "ranges")


def one(value: Any) -> pd.Series:
    is_word = isinstance(value, str)
    return pd.Series([value], dtype=object if is_word else float)


def of_tank(room: Room, column: pd.Series) -> Any:
    """The value of the chosen tank; NaN or nothing where none is chosen."""
    at = residents.tank(room)
    if at is None:
        return math.nan if pd.api.types.is_numeric_dtype(column) else ""
    return column.iloc[at]


@remember
def plan(room: Room, key: str) -> float:
    return float(of_tank(room, room.tanks[key].astype(float)))


def _chosen(room: Room) -> bool:
    return residents.tank(room) is not None


@remember
def species_at(room: Room, key: str) -> int | None:
    return rows_of(room.species, "species", [room.choice.get(key) or ""])[0]


def _number(at: int | None) -> pd.Series:
    return one(math.nan if at is None else at + 1.0)


def row(room: Room) -> pd.Series:
    return _number(residents.tank(room))


def wanted(room: Room) -> pd.Series:
    return _number(species_at(room, "instead_of"))


def just(room: Room) -> pd.Series:
    return _number(species_at(room, "just"))


def zone(room: Room) -> pd.Series:
    word = room.choice.get("zone") or ""
    return one("" if word.casefold() == "any" else word)


def _over(room: Room, key: str) -> pd.Series:
    return one(0.0 if room.choice.get(key) else -1.0)


def _most(room: Room, key: str) -> pd.Series:
    return one(float(room.choice.get(key) or 1e6))


def length_over(room: Room) -> pd.Series:
    return _over(room, "longest")


def length_most(room: Room) -> pd.Series:
    return _most(room, "longest")


def temper_over(room: Room) -> pd.Series:
    return _over(room, "temper_most")


def temper_most(room: Room) -> pd.Series:
    return _most(room, "temper_most")


def easy(room: Room) -> pd.Series:
    return one(float((room.choice.get("easy") or "").casefold() == "yes"))


# --- what the tank carries ---


@remember
def _yield(room: Room) -> float:
    return float(of_tank(room, changes.yield_used(room)))


@remember
def _litres(room: Room) -> float:
    return float(of_tank(room, tanks.net_volume(room)))


def _rise(room: Room, nitrogen: float) -> float:
    """Nitrate between two changes from so much ammonia nitrogen a day, before plants."""
    milligrams = nitrogen * 1000 * stocking.NITRATE_IN_NITROGEN * _yield(room)
    return float(milligrams * plan(room, "change_interval") / _litres(room))


@remember
def nitrogen_by_breath(room: Room) -> float:
    """Ammonia nitrogen a day, mean of the week, of an animal that breathes 1 mg an hour."""
    c = room.const
    grams = 24 * c["oxycalorific"] / (c["assimilated_share"] * c["food_energy"])
    protein = of_tank(room, feeding_tanks.protein(room))
    return float(grams * protein * c["ammonia_yield"] * (7 - plan(room, "fasting_days")) / 7)


def rise(room: Room) -> pd.Series:
    return one(_rise(room, of_tank(room, stocking.ammonia(room))))


def taken(room: Room) -> pd.Series:
    return one(of_tank(room, stocking.uptake(room)) / 7 * plan(room, "change_interval"))


def rise_by_breath(room: Room) -> pd.Series:
    return one(_rise(room, nitrogen_by_breath(room)))


def draw_by_breath(room: Room) -> pd.Series:
    return one(1 + nitrogen_by_breath(room) * 1000 / 24 * stocking.OXYGEN_FOR_NITROGEN)


def _target(room: Room) -> float:
    value = room.settings.get("nitrate_target")
    return math.nan if value is None else float(value)


@remember
def carried_nitrate(room: Room) -> pd.Series:
    return one((_target(room) - of_tank(room, tanks.source(room, "nitrate"))) * plan(room, "change_share"))


@remember
def carried_draw(room: Room) -> pd.Series:
    c = room.const
    held = of_tank(room, stocking.saturation(room)) * c["oxygen_start_share"] - c["oxygen_stop"]
    held = held if math.isnan(held) else max(0.0, held)
    return one(held * of_tank(room, tanks.net_volume(room)) / c["oxygen_reserve_wanted"])


def _share(amount: float, carried: float, otherwise: float) -> pd.Series:
    if math.isnan(amount) or math.isnan(carried):
        return one(math.nan)
    return one(amount / carried if carried > 0 else otherwise)


def _freed(room: Room, column: Callable[[Room], pd.Series]) -> pd.Series:
    return one(residents.part_gone(room, column) if _chosen(room) else math.nan)


@remember
def freed_nitrogen(room: Room) -> pd.Series:
    return _freed(room, livestock.nitrogen)


@remember
def freed_oxygen(room: Room) -> pd.Series:
    return _freed(room, livestock.oxygen_draw)


@remember
def freed_bottom(room: Room) -> pd.Series:
    return _freed(room, livestock.bottom_wanted)


@remember
def nitrate_full(room: Room) -> pd.Series:
    stays = 1 - freed_nitrogen(room)[0]
    return _share(rise(room)[0] * stays - taken(room)[0], carried_nitrate(room)[0], 100.0)


def nitrate_by_breath(room: Room) -> pd.Series:
    return _share(rise_by_breath(room)[0], carried_nitrate(room)[0], 1.0)


@remember
def oxygen_full(room: Room) -> pd.Series:
    animals, all_of_it = (of_tank(room, column(room)) for column in (stocking.oxygen_draw, stocking.draw))
    stays = animals * (1 - freed_oxygen(room)[0]) + (all_of_it - animals) * (1 - freed_nitrogen(room)[0])
    return _share(stays, carried_draw(room)[0], 100.0)


def oxygen_by_breath(room: Room) -> pd.Series:
    return _share(draw_by_breath(room)[0], carried_draw(room)[0], 1.0)


@remember
def bottom_full(room: Room) -> pd.Series:
    stays = of_tank(room, stocking.bottom_wanted(room)) * (1 - freed_bottom(room)[0])
    return one(stays / of_tank(room, tanks.plan_area(room)))


def _widest(room: Room, wanted: pd.Series, there: float) -> pd.Series:
    least = 0.0 if wanted.isna().all() else float(wanted.max())
    return one(least * (1 - room.const["nominal_allowance"]) / there)


@remember
def swim_full(room: Room) -> pd.Series:
    return _widest(room, residents.room_wanted(room), of_tank(room, tanks.swim_length(room)))


@remember
def volume_full(room: Room) -> pd.Series:
    return _widest(room, residents.litres_wanted(room), _litres(room))


# --- constants ---


def thin(parameter: str) -> Callable[[Room], pd.Series]:
    return lambda room: one(room.const[f"narrow_{parameter}"] - 1e-6 if _chosen(room) else math.nan)


thin_temperature, thin_ph, thin_gh, thin_kh = (thin(p) for p in PARAMETERS)


def ready(room: Room) -> pd.Series:
    keys = ("temper_clash", "temper_watch", *(f"narrow_{p}" for p in PARAMETERS))
    return one(1.0 if _chosen(room) and not any(math.isnan(room.const[key]) for key in keys) else math.nan)


# --- who matters ---


def _extreme(room: Room, values: pd.Series, sign: int) -> tuple[float, str]:
    """The least (1) or greatest (-1) of those who stay and whose it is: the first of equal ones."""
    pairs = [(v, n) for v, n in zip(values, residents.names(room), strict=True) if not math.isnan(v)]
    return min(pairs, key=lambda pair: sign * pair[0], default=(math.nan, ""))


def _pair(column: Callable[[Room], pd.Series], sign: int) -> tuple[Callable[[Room], pd.Series], ...]:
    return (
        lambda room: one(_extreme(room, column(room), sign)[0]),
        lambda room: one(_extreme(room, column(room), sign)[1]),
    )


mouthful_max, mouthful_who = _pair(residents.gape, -1)
snail_gape_max, cracks_who = _pair(residents.snail_gape, -1)
bold_max, bold_who = _pair(residents.bold_length, -1)


def _next_to(column: Callable[[Room], pd.Series], sign: int) -> Callable[[Room], pd.Series]:
    def second(room: Room) -> pd.Series:
        values = sorted(column(room).dropna(), key=lambda value: sign * value)
        return one(values[1] if _chosen(room) and len(values) > 1 else math.nan)

    return second


mouthful_next, snail_gape_next = _next_to(residents.gape, -1), _next_to(residents.snail_gape, -1)
victim_next = _next_to(residents.prey_length, 1)
rough_next, next_gentle = _next_to(residents.temper, -1), _next_to(residents.temper, 1)


def biters(room: Room) -> pd.Series:
    return one(float(residents.biter_line(room).notna().sum()) if _chosen(room) else math.nan)


def finned(room: Room) -> pd.Series:
    return one(float(residents.finned_line(room).notna().sum()) if _chosen(room) else math.nan)


def shrimps(room: Room) -> pd.Series:
    return _sum(room, residents.shrimp)


victim_min, victim_who = _pair(residents.prey_length, 1)
temper_max, temper_who = _pair(residents.temper, -1)
temper_min, gentle_who = _pair(residents.temper, 1)


def _sum(room: Room, column: Callable[[Room], pd.Series]) -> pd.Series:
    return one(float(column(room).sum()) if _chosen(room) else math.nan)


@remember
def staying(room: Room) -> pd.Series:
    return _sum(room, residents.living)


@remember
def hunters(room: Room) -> pd.Series:
    return _sum(room, residents.hunter)


@remember
def hunter_who(room: Room) -> pd.Series:
    return _first(room, residents.hunter(room))


@remember
def young_eater(room: Room) -> pd.Series:
    return _first(room, residents.young_eater(room))


def shrimp_eater(room: Room) -> pd.Series:
    return one(hunter_who(room)[0] or young_eater(room)[0])


@remember
def snail_eater(room: Room) -> pd.Series:
    return _first(room, residents.snail_eater(room))


@remember
def first_biter(room: Room) -> pd.Series:
    return _first(room, residents.biter_line(room))


def usual_tank(room: Room) -> pd.Series:
    return one(of_tank(room, tanks.swim_length(room)) / room.const["choose_lengths"])


@remember
def usual_length(room: Room) -> pd.Series:
    """The geometric mean of those who stay; what suits the tank where nobody does."""
    sizes, tank = residents.size(room).dropna(), usual_tank(room)[0]
    return one(tank if math.isnan(tank) or sizes.empty else math.prod(math.exp(s) for s in sizes) ** (1 / len(sizes)))


@remember
def usual_pace(room: Room) -> pd.Series:
    return one(residents.pace(room).mean() if _chosen(room) else math.nan)


@remember
def usual_current(room: Room) -> pd.Series:
    return one(residents.current(room).mean() if _chosen(room) else math.nan)


@remember
def from_lakes(room: Room) -> pd.Series:
    lakes = residents.stays(room) & (residents.said(room, "home") == "rift lakes")
    return one(float(lakes.sum()) if _chosen(room) else math.nan)


@remember
def livebearers(room: Room) -> pd.Series:
    bearers = residents.stays(room) & (residents.said(room, "spawning") == "livebearer")
    return one(float(bearers.sum()) if _chosen(room) else math.nan)


MERITS = (
    "water", "kin", "niche", "size", "temper", "group", "colour", "ease", "offered", "home", "peace",
)  # fmt: skip


@remember
def weights(room: Room) -> pd.Series:
    return one(sum(room.const[f"choose_{part}"] for part in MERITS) if _chosen(room) else math.nan)


def _first(room: Room, lines: pd.Series) -> pd.Series:
    """The species in the first line of which something holds."""
    marked = [name for name, mark in zip(residents.names(room), lines, strict=True) if mark > 0]
    return one(marked[0] if marked else "")


def first_finned(room: Room) -> pd.Series:
    return _first(room, residents.finned_line(room))


@remember
def second_finned(room: Room) -> pd.Series:
    return _first(room, residents.other_finned_line(room))


@remember
def second_biter(room: Room) -> pd.Series:
    return _first(room, residents.other_biter_line(room))


@remember
def shrimp_who(room: Room) -> pd.Series:
    return _first(room, residents.shrimp(room))


@remember
def snail_who(room: Room) -> pd.Series:
    return _first(room, residents.snail(room))


@remember
def half_known(room: Room) -> pd.Series:
    return one(residents.half_known(room).sum() if _chosen(room) else math.nan)


# --- in words ---


def _missing(value: Any) -> bool:
    return value == "" or value is None or (isinstance(value, float) and math.isnan(value))


@remember
def lacking(room: Room) -> pd.Series:
    if not _chosen(room):
        return one("")
    things = [(of_tank(room, tanks.net_volume(room)), "its net volume"), (plan(room, "temperature"), "its set temperature"),
              *((of_tank(room, tanks.kept_or_source(room, p)), f"its {WORDS[p]}") for p in PARAMETERS[1:]),
              (of_tank(room, tanks.plan_area(room)), "its water surface"), (of_tank(room, tanks.swim_length(room)), "its longest swim"),
              (plan(room, "change_share"), "its water change"), (plan(room, "change_interval"), "how often water is changed"), (plan(room, "fasting_days"), "its fasting days"),
              (of_tank(room, tanks.source(room, "nitrate")), "nitrate of its source water"), (of_tank(room, stocking.draw(room)), "what its animals breathe"),
              (of_tank(room, stocking.ammonia(room)), "what its animals give off"), (of_tank(room, stocking.bottom_wanted(room)), "the floor its animals want"),
              (_target(room), "the nitrate target (Start)"), (room.settings.get("altitude"), "the altitude (Start)")]  # fmt: skip
    return one(", ".join(label for value, label in things if _missing(value)))


@remember
def over(room: Room) -> pd.Series:
    names = (
        ("nitrogen", "water change"),
        ("oxygen", "oxygen"),
        ("swim", "swim room"),
        ("bottom", "bottom room"),
        ("volume", "volume"),
    )
    shares = (
        [(float(of_tank(room, getattr(stocking, f"{key}_share")(room))), label) for key, label in names]
        if _chosen(room)
        else []
    )
    return one(", ".join(f"{label} {rounded_text(share * 100)} %" for share, label in shares if rounded(share, 2) > 1))


@remember
def at_odds(room: Room) -> pd.Series:
    widths = {
        p: of_tank(room, overlap_detail.shared(room)[p]["high"] - overlap_detail.shared(room)[p]["low"])
        for p in PARAMETERS
    }
    return one(", ".join(WORDS[p] for p, width in widths.items() if width < 0))


@remember
def care(room: Room) -> pd.Series:
    if not _chosen(room):
        return one("")
    cycled = str(of_tank(room, room.tanks["cycled"])).casefold()
    groups, half = float(of_tank(room, company.residents(room))), half_known(room)[0]
    parts = []
    if cycled == "no":
        parts.append("it is not cycled: add animals only once ammonia and nitrite stay at zero")
    if not cycled:
        parts.append("nothing says whether it is cycled: test ammonia and nitrite first")
    if half > 0:
        parts.append(
            f"not all is known of {half:.0f} of its groups, so what they want or do may be missed: complete them on Species and Livestock"
        )
    if groups > residents.LINES:
        parts.append(f"only its first {residents.LINES} groups are looked at one by one")
    return one("; ".join(parts))


def _waits(room: Room) -> bool:
    return _chosen(room) and of_tank(room, company.in_quarantine(room)) > 0


def mind(room: Room) -> pd.Series:
    parts = [(lacking(room)[0], "unknown: {} (type it on Tanks, Waters or Livestock)"), (over(room)[0], "already over its limit: {}"),
             (at_odds(room)[0], "its residents share no {}: part them first (Overlap)"), (care(room)[0], "{}"),
             ("a group in it is in quarantine: wait until that ends" if _waits(room) else "", "{}")]  # fmt: skip
    return one("; ".join(sentence.format(text) for text, sentence in parts if text))


def about(room: Room) -> pd.Series:
    if not _chosen(room):
        return one("")
    volume, warmth = of_tank(room, tanks.net_volume(room)), plan(room, "temperature")
    groups, animals = of_tank(room, company.residents(room)), of_tank(room, stocking.animals(room))
    full, by = float(of_tank(room, stocking.binding_share(room))), of_tank(room, stocking.binding(room))
    words = [of_tank(room, room.tanks["tank"]) + ": " + ("volume unknown" if _missing(volume) else f"{rounded_text(volume, 1)} L net"),
             "temperature unknown" if _missing(warmth) else f"{rounded_text(warmth, 1)} °C",
             f"{groups:.0f} groups with {'' if _missing(animals) else rounded_text(animals, 6)} animals" if groups else "empty"]  # fmt: skip
    if _missing(full):
        words.append("load unknown")
    elif groups:
        words.append(f"{rounded_text(full * 100)} % full by {by}")
    return one(", ".join(words))


# --- the species wanted ---


def like_width(parameter: str) -> Callable[[Room], pd.Series]:
    def width(room: Room) -> pd.Series:
        at = species_at(room, "instead_of")
        low, high = (used(room) for used in species.USED[parameter])
        return one(math.nan if at is None else float(np.maximum(0.0, high[at] - low[at])) + 0.01)

    return width


like_temperature_width, like_ph_width, like_gh_width, like_kh_width = (like_width(p) for p in PARAMETERS)


def weight(part: str) -> Callable[[Room], pd.Series]:
    def share(room: Room) -> pd.Series:
        total = sum(room.const[f"like_{other}"] for other in WEIGHTS)
        return one(math.nan if species_at(room, "instead_of") is None else room.const[f"like_{part}"] / total)

    return share


(
    weight_kin, weight_size, weight_form, weight_swim, weight_zone, weight_role,
    weight_diet, weight_temper, weight_group, weight_colour, weight_ranges,
) = (weight(part) for part in WEIGHTS)  # fmt: skip


def like_ready(room: Room) -> pd.Series:
    """Whether all is known of the species wanted that likeness looks at."""
    at = species_at(room, "instead_of")
    if at is None:
        return one(math.nan)
    said = [
        room.species[key].iloc[at]
        for key in ("adult_length", "body_form", "zone", "temper", "colour_group", "group_min")
    ]
    ends = [used(room).iloc[at] for p in PARAMETERS for used in species.USED[p]]
    return one(math.nan if any(_missing(value) for value in [*said, *ends, room.const["temper_clash"]]) else 1.0)
