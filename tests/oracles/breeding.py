"""Breeding: the days of each brood, counted on from its date; what is still to be done; how many are likely.

Days are counted as office programs do, so that they can be added up; a brood of a row is read as a person would.
"""

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pandas as pd

from tests.oracles import lists, so_far, tanks
from tests.oracles import species as species_oracles
from tests.oracles.tools import Room, blank, folded, lookup, remember, rows_of, said, through

EPOCH = pd.Timestamp("1899-12-30")
WEEK = 7
WAYS = (
    "egg scatterer",
    "plant layer",
    "cave layer",
    "flat layer",
    "bubble nest",
    "mouthbrooder",
    "livebearer",
    "egg carrier",
    "annual",
    "other",
)
GUARDS = ("cave layer", "flat layer", "bubble nest", "mouthbrooder")
FOODS = ("infusoria", "nauplii", "fine dust", "algae film", "as adults")
CARE = {
    "egg scatterer": "eggs fall anywhere and are eaten: mesh, marbles or moss, then the adults out",
    "plant layer": "eggs hang on plants: move plants or mop to a tank of their own, or the adults out",
    "cave layer": "eggs in a cave: whoever guards them stays, no disturbance",
    "flat layer": "eggs on a leaf, stone or pane: watch whether they are guarded or eaten",
    "bubble nest": "eggs in a nest of bubbles: the male guards, take the female out; lid on, warm air",
    "mouthbrooder": "eggs in the mouth: no netting, quiet, little food until the young are let go",
    "livebearer": "no eggs: a birth; floating plants hide the young",
    "egg carrier": "eggs under the tail: leave her in peace, a sponge over the filter inlet",
    "annual": "eggs lie in peat: take it out, store it damp and warm for the days of the species",
    "other": "its own way: see the note of the species",
}  # fmt: skip
EATEN = {
    "infusoria": ("infusoria", "newly hatched nauplii"),
    "nauplii": ("newly hatched nauplii", "fine dust and crushed food"),
    "fine dust": ("fine dust and nauplii", "crushed adult food"),
    "algae film": ("algae film, soft greens", "wafers and greens"),
    "as adults": ("what adults eat, crushed", ""),
}  # fmt: skip
STEPS = ("infusoria", "adults", "hatch", "swim", "second", "move", "sale")


def typed(room: Room, key: str) -> pd.Series:
    return room.breeding[key].reset_index(drop=True)


def day(room: Room, key: str) -> pd.Series:
    """A typed date as a day."""
    return (pd.to_datetime(typed(room, key)) - EPOCH).dt.days.astype(float)


def today(room: Room) -> float:
    return float((room.plan_date - EPOCH).days)


def numbers(values: list[Any]) -> pd.Series:
    return pd.Series(values, dtype=float)


def words(values: list[str]) -> pd.Series:
    return pd.Series(values, dtype=object)


def row_by_row(reckon: Callable[..., float], *columns: pd.Series) -> pd.Series:
    """A number for each row in which nothing is blank."""
    return numbers(
        [math.nan if pd.isna(row).any() else reckon(*row) for row in map(np.array, zip(*columns, strict=True))]
    )


def where(test: pd.Series, *needed: pd.Series) -> pd.Series:
    """A verdict, only where all of this is known."""
    for series in needed:
        test = test & ~blank(series)
    return test.astype(bool)


def named(room: Room) -> pd.Series:
    return ~blank(typed(room, "species"))


def known(room: Room) -> pd.Series:
    """Whether the library has the species."""
    return pd.Series([row is not None for row in rows_of(room.species, "species", typed(room, "species"))], dtype=bool)


def of_species(room: Room, wanted: str | pd.Series) -> pd.Series:
    return lookup(room.species, "species", typed(room, "species"), wanted)


def word_of(room: Room, key: str) -> list[str]:
    """A word of the species, in small letters."""
    return folded(of_species(room, key))


def _whole(days: pd.Series) -> pd.Series:
    return np.floor(days.round(6))


# --- when ---


@remember
def born(room: Room) -> pd.Series:
    return numbers([float(way == "livebearer") for way in word_of(room, "spawning")]).where(known(room))


@remember
def way(room: Room) -> pd.Series:
    return numbers([WAYS.index(way) + 1.0 if way in WAYS else math.nan for way in word_of(room, "spawning")])


@remember
def guards(room: Room) -> pd.Series:
    return numbers([math.nan if way not in WAYS else float(way in GUARDS) for way in word_of(room, "spawning")])


@remember
def food_no(room: Room) -> pd.Series:
    return numbers([FOODS.index(food) + 1.0 if food in FOODS else math.nan for food in word_of(room, "first_food")])


@remember
def care(room: Room) -> pd.Series:
    return words([CARE.get(way, "") for way in word_of(room, "spawning")])


@remember
def temperature(room: Room) -> pd.Series:
    own = typed(room, "water_temperature")
    return own.fillna(lookup(room.tanks, "tank", typed(room, "tank"), "temperature"))


@remember
def pace(room: Room) -> pd.Series:
    """Kimmel and others 1995: the rate of development grows in a straight line from a rest at zero."""
    zero = room.const["hatch_zero"]
    rate, rate_known = temperature(room) - zero, of_species(room, "hatch_temperature") - zero
    return rate_known.where((rate > 0) & (rate_known > 0)) / rate


def _stage(room: Room, key: str) -> pd.Series:
    days = of_species(room, key) * pace(room)
    return days.mask(born(room) == 1, 0.0).where(known(room))


@remember
def hatch_days(room: Room) -> pd.Series:
    return _stage(room, "days_to_hatch")


@remember
def swim_days(room: Room) -> pd.Series:
    return _stage(room, "days_to_swim")


@remember
def hatch_on(room: Room) -> pd.Series:
    return day(room, "date") + _whole(hatch_days(room))


@remember
def swim_on(room: Room) -> pd.Series:
    return day(room, "date") + _whole(hatch_days(room) + swim_days(room))


@remember
def first_food_is(room: Room) -> pd.Series:
    return words([EATEN.get(food, ("", ""))[0] for food in word_of(room, "first_food")])


@remember
def second_food_is(room: Room) -> pd.Series:
    return words([EATEN.get(food, ("", ""))[1] for food in word_of(room, "first_food")])


@remember
def infusoria_on(room: Room) -> pd.Series:
    return _whole(swim_on(room) - room.const["infusoria_lead"]).where(food_no(room) == 1)


@remember
def second_on(room: Room) -> pd.Series:
    """Those that eat as adults from the first day need no second food."""
    waits = {food: room.const["infusoria_days" if food == "infusoria" else "second_food_days"] for food in FOODS[:4]}
    return swim_on(room) + _whole(numbers([waits.get(food, math.nan) for food in word_of(room, "first_food")]))


@remember
def adults_on(room: Room) -> pd.Series:
    """At once where they eat the brood; when it swims where one of them guards it till then."""
    found = []
    for eats, way, start, swims in zip(
        word_of(room, "eats_own_eggs"), word_of(room, "spawning"), day(room, "date"), swim_on(room), strict=True
    ):
        late = swims if way in {"bubble nest", "mouthbrooder"} else math.nan
        found.append(start if eats == "yes" else late)
    return numbers(found).where(known(room) & day(room, "date").notna())


def _elsewhere(room: Room) -> pd.Series:
    """Whether another tank is named for growing on."""
    pairs = zip(folded(typed(room, "grow_tank")), folded(typed(room, "tank")), strict=True)
    return pd.Series([bool(grow) and bool(tank) and grow != tank for grow, tank in pairs], dtype=bool)


@remember
def move_on(room: Room) -> pd.Series:
    return (swim_on(room) + np.floor(round(room.const["move_days"], 6))).where(_elsewhere(room))


@remember
def sale_length_used(room: Room) -> pd.Series:
    adult = of_species(room, "adult_length")
    return typed(room, "sale_length").fillna(adult * room.const["sale_share"]).where(adult.notna())


@remember
def growth_days(room: Room) -> pd.Series:
    """Growth in length by von Bertalanffy, 95 % of it in the days that a fish of this length takes."""
    c = room.const

    def days(length: float, adult: float) -> float:
        if not c["fry_length"] < length < adult:
            return math.nan
        rate = 3 / (c["grown_days"] * math.sqrt(adult / c["rule_reference_length"]))
        return -math.log((adult - length) / (adult - c["fry_length"])) / rate

    return row_by_row(days, sale_length_used(room), of_species(room, "adult_length"))


@remember
def sale_on(room: Room) -> pd.Series:
    return swim_on(room) + _whole(growth_days(room))


@remember
def sale_early(room: Room) -> pd.Series:
    return swim_on(room) + _whole(growth_days(room) / room.const["growth_spread"])


@remember
def sale_late(room: Room) -> pd.Series:
    return swim_on(room) + _whole(growth_days(room) * room.const["growth_spread"])


@remember
def nauplii_from(room: Room) -> pd.Series:
    """As second food where mouths are too small for them at first."""
    starts = swim_on(room).where(food_no(room).isin([2, 3]))
    return starts.mask(food_no(room) == 1, second_on(room))


@remember
def nauplii_until(room: Room) -> pd.Series:
    return nauplii_from(room) + room.const["nauplii_days"]


@remember
def risk_until(room: Room) -> pd.Series:
    least = day(room, "date") + room.const["egg_risk_days"]
    return pd.concat([least, swim_on(room)], axis=1).max(axis=1).where(least.notna())


# --- how many ---


def _used(key: str, const: str) -> Callable[[Room], pd.Series]:
    def reckon(room: Room) -> pd.Series:
        return typed(room, key).fillna(room.const[const]).where(named(room))

    return reckon


hatched_used = _used("hatched_share", "egg_survival")
swimming_used = _used("swimming_share", "larva_survival")
raised_used = _used("raised_share", "fry_survival")
meals_used = _used("fry_meals", "fry_meals")
each_used = _used("nauplii_each", "fry_nauplii")


@remember
def hatched(room: Room) -> pd.Series:
    share = hatched_used(room).mask(born(room) == 1, 1.0)
    return (typed(room, "eggs") * share).where(known(room))


@remember
def swimming(room: Room) -> pd.Series:
    return hatched(room) * swimming_used(room).mask(born(room) == 1, 1.0)


@remember
def fry(room: Room) -> pd.Series:
    return typed(room, "fry_counted").fillna(swimming(room))


@remember
def raised(room: Room) -> pd.Series:
    return fry(room) * raised_used(room)


@remember
def survived(room: Room) -> pd.Series:
    eggs = typed(room, "eggs")
    return typed(room, "fry_counted") / eggs.where(eggs > 0)


@remember
def grow_wanted(room: Room) -> pd.Series:
    return raised(room) * sale_length_used(room) / room.const["fry_length_per_litre"]


@remember
def nauplii_day(room: Room) -> pd.Series:
    """Only for young that eat them."""
    return (fry(room) * meals_used(room) * each_used(room)).where(nauplii_from(room).notna())


# --- what is still to be done ---


@remember
def going(room: Room) -> pd.Series:
    """A brood of which none is left is over; one that was never counted goes on."""
    return (fry(room) != 0).astype(float).where(named(room))


@remember
def done(room: Room) -> pd.Series:
    """A day long before the event where nothing is ticked off."""
    start = day(room, "date")
    return day(room, "done_to").fillna(start - 1000).where(named(room) & start.notna())


@remember
def out(room: Room) -> pd.Series:
    gone = pd.Series([word == "yes" for word in folded(typed(room, "adults_out"))], dtype=bool)
    return (gone | (day(room, "adults_out_on") <= today(room))).astype(float).where(named(room))


@remember
def adults_do(room: Room) -> pd.Series:
    said_of = {
        "bubble nest": "take the male out as well",
        "mouthbrooder": "take the mother out, let her feed up",
        "livebearer": "part the young from the adults",
    }
    return words(
        [
            said_of.get(way, "take the adults out") if is_known else ""
            for way, is_known in zip(word_of(room, "spawning"), known(room), strict=True)
        ]
    )


@remember
def hatch_do(room: Room) -> pd.Series:
    found = []
    for way, eats, is_known in zip(word_of(room, "spawning"), word_of(room, "eats_own_eggs"), known(room), strict=True):
        text = (
            "look for hatching, leave whoever guards to it"
            if eats == "no"
            else "look for hatching, take white eggs out"
        )
        text = "hatching in the mouth: leave her in peace" if way == "mouthbrooder" else text
        found.append(text if is_known else "")
    return words(found)


@remember
def what(room: Room) -> pd.Series:
    return words([{1.0: "young", 0.0: "eggs and young"}.get(is_born, "") for is_born in born(room)])


def _open(room: Room, days: pd.Series) -> pd.Series:
    return days.where((going(room) == 1) & (days > done(room)))


def left_infusoria(room: Room) -> pd.Series:
    return _open(room, infusoria_on(room))


def left_adults(room: Room) -> pd.Series:
    return _open(room, adults_on(room).where(out(room) == 0))


def left_hatch(room: Room) -> pd.Series:
    """Looking for it is no work that can be late: after its day the brood is at the next step."""
    return _open(room, hatch_on(room).where((born(room) == 0) & (hatch_on(room) >= today(room))))


def left_swim(room: Room) -> pd.Series:
    return _open(room, swim_on(room))


def left_second(room: Room) -> pd.Series:
    return _open(room, second_on(room))


def left_move(room: Room) -> pd.Series:
    return _open(room, move_on(room))


def left_sale(room: Room) -> pd.Series:
    return _open(room, sale_on(room))


def week_end(room: Room) -> pd.Series:
    return numbers([today(room) + WEEK] * len(room.breeding)).where(named(room))


def daily_from(room: Room) -> pd.Series:
    """From free swimming on, or today; until the first of them may be large enough."""
    young = (going(room) == 1) & (sale_early(room) > today(room))
    return swim_on(room).clip(lower=today(room)).where(young)


@remember
def fry_row(room: Room) -> pd.Series:
    """In the growing-on tank once the move is ticked off; nowhere before the day is known."""
    found = []
    grow = rows_of(room.tanks, "tank", typed(room, "grow_tank"))
    for moved, to, from_ in zip(
        done(room) >= move_on(room), grow, rows_of(room.tanks, "tank", typed(room, "tank")), strict=True
    ):
        row = to if moved and to is not None else from_
        found.append(math.nan if row is None else row + 1.0)
    return numbers(found).where(done(room).notna())


def _at_home(room: Room, values: pd.Series) -> pd.Series:
    return through(values, [None if math.isnan(row) else int(row) - 1 for row in fry_row(room)])


@remember
def home(room: Room) -> pd.Series:
    return _at_home(room, room.tanks["tank"])


@remember
def home_volume(room: Room) -> pd.Series:
    return _at_home(room, tanks.net_volume(room)).astype(float)


@remember
def litres_day(room: Room) -> pd.Series:
    return home_volume(room) * room.const["fry_change_share"]


@remember
def nauplii_now(room: Room) -> pd.Series:
    from_, until = nauplii_from(room), nauplii_until(room)
    eats = (going(room) == 1) & (from_ <= today(room)) & (today(room) < until)
    return nauplii_day(room).where(eats, 0.0).where(from_.notna() & going(room).notna() & nauplii_day(room).notna())


@remember
def steps(room: Room) -> list[list[tuple[float, str]]]:
    """The steps that each brood still has before it, in the order of its life, with their words."""
    left = [globals()[f"left_{step}"](room) for step in STEPS]
    said_of = zip(
        adults_do(room),
        hatch_do(room),
        first_food_is(room),
        second_food_is(room),
        typed(room, "grow_tank"),
        strict=True,
    )
    found = []
    for row, (adults, hatch, first, second, tank) in enumerate(said_of):
        texts = ("start an infusoria culture", adults, hatch, f"first food: {first}", f"second food: {second}", f"move the young to {tank}",
                 "large enough to part with: look for good homes")  # fmt: skip
        found.append([(days[row], text) for days, text in zip(left, texts, strict=True) if days[row] == days[row]])
    return found


@remember
def next_on(room: Room) -> pd.Series:
    return numbers([min((on for on, _ in todo), default=math.nan) for todo in steps(room)])


@remember
def next_do(room: Room) -> pd.Series:
    return words(
        [
            "; ".join(text for on, text in todo if on == first)
            for todo, first in zip(steps(room), next_on(room), strict=True)
        ]
    )


@remember
def jobs(room: Room) -> list[list[tuple[float, str, float]]]:
    """What each brood asks for within the week: from which day, what, and every how many days."""
    found = []
    for todo, daily, litres, tank in zip(steps(room), daily_from(room), litres_day(room), home(room), strict=True):
        water = "" if math.isnan(litres) else f", change {said(litres, 1)} L in {tank}"
        both = [*((on, text, 7.0) for on, text in todo), (daily, f"feed the young{water}", 1.0)]
        found.append([job for job in both if job[0] < today(room) + WEEK])
    return found


def _joined(room: Room, part: int) -> pd.Series:
    return words(["¦".join(str(int(job[part])) if part != 1 else str(job[1]) for job in found) for found in jobs(room)])


def jobs_said(room: Room) -> pd.Series:
    return _joined(room, 1)


def jobs_on(room: Room) -> pd.Series:
    return _joined(room, 0)


def jobs_every(room: Room) -> pd.Series:
    return _joined(room, 2)


def jobs_run(room: Room) -> pd.Series:
    return numbers([len(found) for found in jobs(room)]).cumsum()


# --- flags ---


def _eats(room: Room, word: str) -> pd.Series:
    return pd.Series([eats == word for eats in word_of(room, "eats_own_eggs")], dtype=bool)


def _of_grow(room: Room, values: pd.Series) -> pd.Series:
    return lookup(room.tanks, "tank", typed(room, "grow_tank"), values)


def eggs_at_risk(room: Room) -> pd.Series:
    now = (day(room, "date") <= today(room)) & (today(room) < risk_until(room))
    return where(_eats(room, "yes") & (out(room) == 0) & (going(room) == 1) & now, typed(room, "tank"))


def will_eat(room: Room) -> pd.Series:
    return _eats(room, "yes") & (out(room) == 0) & (day(room, "date") > today(room))


def infusoria_due(room: Room) -> pd.Series:
    start = infusoria_on(room)
    return (going(room) == 1) & (start <= today(room)) & (today(room) < second_on(room)) & (done(room) < start)


def late_step(room: Room) -> pd.Series:
    return next_on(room) < today(room)


def guard_gone(room: Room) -> pd.Series:
    brooding = (guards(room) == 1) & _eats(room, "no") & (today(room) < swim_on(room))
    return brooding & (out(room) == 1) & (going(room) == 1)


def off_range(room: Room) -> pd.Series:
    low, high = (of_species(room, getattr(species_oracles, f"used_temperature_{end}")(room)) for end in ("low", "high"))
    beyond = (temperature(room) < low) | (temperature(room) > high)
    return where(beyond & (going(room) == 1), low, high)


def too_cold(room: Room) -> pd.Series:
    return (born(room) == 0) & (going(room) == 1) & (temperature(room) <= room.const["hatch_zero"])


def grow_occupied(room: Room) -> pd.Series:
    return (going(room) == 1) & _elsewhere(room) & (_of_grow(room, tanks.animals(room)) > 0)


def grow_small(room: Room) -> pd.Series:
    return (going(room) == 1) & (_of_grow(room, tanks.net_volume(room)) < grow_wanted(room))


def no_grow_tank(room: Room) -> pd.Series:
    return named(room) & blank(typed(room, "grow_tank")) & (raised(room) > 0) & (going(room) == 1)


def no_dates(room: Room) -> pd.Series:
    """Where it is too cold, another flag tells of that; where the date is blank, the row is not finished."""
    too_cold_ = temperature(room) <= room.const["hatch_zero"]
    return known(room) & day(room, "date").notna() & swim_on(room).isna() & (going(room) == 1) & ~too_cold_


def far_off(room: Room) -> pd.Series:
    gap = (temperature(room) - of_species(room, "hatch_temperature")).abs()
    return (born(room) == 0) & (going(room) == 1) & (today(room) < swim_on(room)) & (gap > room.const["hatch_far"])


def count_early(room: Room) -> pd.Series:
    return day(room, "counted_on") < day(room, "date")


def more_than_eggs(room: Room) -> pd.Series:
    return typed(room, "fry_counted") > typed(room, "eggs")


def daily_water(room: Room) -> pd.Series:
    young = (swim_on(room) <= today(room)) & (today(room) < sale_early(room))
    return where(young & (going(room) == 1), litres_day(room))


def pass_on(room: Room) -> pd.Series:
    return (going(room) == 1) & (sale_on(room) <= today(room)) & (done(room) < sale_on(room))


# --- the chart ---


def _in_chart(room: Room) -> pd.Series:
    return (going(room) == 1) & day(room, "date").notna()


def drawn(room: Room) -> list[int]:
    """The rows of the broods that are going on, in their order."""
    return [int(row) for row in np.flatnonzero(_in_chart(room))]


def in_chart(room: Room) -> pd.Series:
    return _in_chart(room).cumsum().astype(float)


def waiting_names(room: Room) -> list[str]:
    """Each brood for which something is to be done now, but for those that are in danger: these have a line of their own."""
    labels, late, culture = lists.row_label(room, "breeding"), late_step(room), infusoria_due(room)
    rows = zip(labels, late | culture, will_eat(room), eggs_at_risk(room), next_do(room), strict=True)
    return [
        ""
        if in_danger or not (now or to_come)
        else f"{label}: {'ready mesh, moss or a second tank before it' if to_come else do}"
        for label, now, to_come, in_danger, do in rows
    ]


def room_why(room: Room) -> pd.Series:
    """What is wrong with the tank for the young: too small, taken, or none named."""
    from tests.oracles import matters  # noqa: PLC0415  they look at one another

    keys = ("grow_small", "grow_occupied", "no_grow_tank")
    texts = [
        [text for key in keys if (text := matters.sentence(room, f"breeding.{key}", row))]
        for row in range(len(room.breeding))
    ]
    return pd.Series([", ".join(t.split(": ", 1)[1].split(" → ")[0] for t in found) for found in texts], dtype=object)


def rearing_names(room: Room) -> list[str]:
    """Each brood with such trouble."""
    pairs = zip(lists.row_label(room, "breeding"), room_why(room), strict=True)
    return [f"{label}: {why}" if why else "" for label, why in pairs]


globals().update(so_far.running("late_broods", waiting_names) | so_far.running("rearing", rearing_names))
