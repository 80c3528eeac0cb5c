"""Livestock, reckoned anew: from length to nitrogen, and who is at risk from whom."""

import numpy as np
import pandas as pd

from tests.oracles import comfort, company, feeding_tanks, species, stocking, tanks
from tests.oracles.tools import (
    SAID_IN,
    Oracle,
    Room,
    blank,
    come_less_lost,
    expected,
    folded,
    living,
    lookup,
    remember,
    rows_of,
    said,
    same,
    through,
)


def of_species(room, values):
    """What the row's species says."""
    return lookup(room.species, "species", room.livestock["species"], values)


def of_tank(room, values):
    """What the row's tank says."""
    return lookup(room.tanks, "tank", room.livestock["tank"], values)


def _number(room, name):
    return of_species(room, room.species[name]).astype(float)


def _is(room, name, word):
    return same(of_species(room, room.species[name]), word)


def _only_where(known, values):
    """Values, blank where something they need is unknown."""
    return pd.Series(np.where(known, values, np.nan), dtype=float)


def _animals(room):
    return living(room)


def _alive(room):
    return _animals(room) > 0


def _const(room, name):
    return room.const.get(name, np.nan)


# --- how many there are: what was counted, and what the log has had since ---


@remember
def counted_last(room):
    days = room.livestock["counted_on"].fillna(room.livestock["date_in"])
    return days.mask(blank(room.livestock["tank"]))


def since_then(room):
    """Arrivals less losses of its kind in its tank, from the day after the count to the plan date."""
    return _only_where(pair(room).notna() & counted_last(room).notna(), come_less_lost(room))


# --- the chain: length, mass, oxygen, food, nitrogen ---


def _typed_length(room):
    return room.livestock["length_now"].astype(float)


@remember
def young(room):
    """Longer than when it first swims and shorter than grown: it still grows."""
    now, adult = _typed_length(room), _number(room, "adult_length")
    grows = (now > _const(room, "fry_length")) & (now < adult)
    return pd.Series(np.where(grows, "yes", "no"), dtype=object).mask(blank(room.livestock["species"]), "")


@remember
def days_grown(room):
    return (room.plan_date - pd.to_datetime(room.livestock["measured_on"])).dt.days.clip(lower=0).astype(float)


def _grown_on(room, length, days):
    """von Bertalanffy: what is missing to the adult length shrinks by e in a third of the days of growing up."""
    adult = _number(room, "adult_length")
    pace = 3 / (_const(room, "grown_days") * np.sqrt(adult / _const(room, "rule_reference_length")))
    return adult - (adult - length) * np.exp(-pace * days)


@remember
def length_by_now(room):
    return _grown_on(room, _typed_length(room), days_grown(room)).where(young(room) == "yes")


@remember
def length(room):
    return length_by_now(room).fillna(_typed_length(room)).fillna(_number(room, "adult_length")).astype(float)


@remember
def length_later(room):
    grown_on = _grown_on(room, length(room), _const(room, "growth_ahead"))
    return grown_on.where(young(room) == "yes", length(room)).where(young(room) != "")


@remember
def length_grown(room):
    adult = _number(room, "adult_length")
    return adult.where(young(room) == "yes", length(room)).where(young(room) != "")


def _mass_at(room, longer):
    """W = a L^b: the same a, so the mass goes with the length's power."""
    exponent = of_species(room, species.mass_exponent(room))
    return mass_each(room) * ((longer / length(room)) ** exponent).where(young(room) == "yes", 1.0)


def _draw_at(room, each):
    temperature = of_tank(room, room.tanks["temperature"])
    return _animals(room) * species.routine_oxygen(each, temperature, _const(room, "activity"))


def _nitrogen_at(room, draw):
    """Food goes with breath, and nitrogen with food."""
    usable = _const(room, "food_energy") * _const(room, "assimilated_share")
    fed = feed_factor_used(room) * 24 * draw * _const(room, "oxycalorific") / usable
    return fed * of_tank(room, feeding_tanks.protein(room)) * _const(room, "ammonia_yield")


@remember
def mass_later(room):
    return _mass_at(room, length_later(room))


@remember
def mass_grown(room):
    return _mass_at(room, length_grown(room))


@remember
def draw_later(room):
    return _draw_at(room, mass_later(room))


@remember
def draw_grown(room):
    return _draw_at(room, mass_grown(room))


@remember
def nitrogen_later(room):
    return _nitrogen_at(room, draw_later(room))


@remember
def nitrogen_grown(room):
    return _nitrogen_at(room, draw_grown(room))


@remember
def mass_by_length(room):
    """W = a L^b, with the factors of its species."""
    factor, exponent = (of_species(room, f(room)) for f in (species.mass_factor, species.mass_exponent))
    return (factor * length(room) ** exponent).mask(exponent.isna())


@remember
def mass_each(room):
    """A weighed mass is that of an adult: it counts as long as no other length was measured."""
    weighed = _number(room, "mass_typed").where(room.livestock["length_now"].isna())
    return weighed.fillna(mass_by_length(room))


@remember
def mass(room):
    return mass_each(room) * _animals(room)


@remember
def oxygen_draw(room):
    temperature = of_tank(room, room.tanks["temperature"])
    return _animals(room) * species.routine_oxygen(mass_each(room), temperature, _const(room, "activity"))


@remember
def feed_factor_used(room):
    return room.livestock["feed_factor"].fillna(1.0).astype(float).mask(blank(room.livestock["species"]))


@remember
def food(room):
    """Grams a day: a day's breath in joules (Elliott & Davison 1975) over what a gram of food gives."""
    burnt = 24 * oxygen_draw(room) * _const(room, "oxycalorific")
    usable = _const(room, "food_energy") * _const(room, "assimilated_share")
    return feed_factor_used(room) * burnt / usable


@remember
def nitrogen(room):
    """Ammonia nitrogen from the protein of the tank's food (Timmons & Ebeling)."""
    protein = of_tank(room, feeding_tanks.protein(room))
    return _const(room, "ammonia_yield") * protein * food(room)


# --- the group and its room ---


@remember
def _ends(room):
    """Row of tank and row of species, from 1; NaN where unknown."""
    by_tank = rows_of(room.tanks, "tank", room.livestock["tank"])
    by_species = rows_of(room.species, "species", room.livestock["species"])
    return pd.DataFrame(
        {
            "tank": [np.nan if row is None else row + 1.0 for row in by_tank],
            "species": [np.nan if row is None else row + 1.0 for row in by_species],
        },
        dtype=float,
    )


@remember
def lives_in(room):
    """Row of its tank; a group of 0 has come to an end, one that was never counted lives on."""
    return _ends(room)["tank"].mask(_animals(room) == 0)


@remember
def place(room):
    """Tank first, then line: a million leaves room for every line."""
    return 1e6 * lives_in(room) + np.arange(1, len(room.livestock) + 1)


@remember
def of_kind(room):
    """Species first, then line; a group that lives in no tank has no place."""
    order = 1e6 * _ends(room)["species"] + np.arange(1, len(room.livestock) + 1)
    return order.where(lives_in(room).notna())


@remember
def pair(room):
    """One number for tank and species: the species' row stands in the millionths."""
    return _ends(room)["tank"] + _ends(room)["species"] / 1_000_000


@remember
def together(room):
    """Animals of this species in this tank, over all rows of Livestock."""
    sums = _ends(room).assign(animals=_animals(room)).groupby(["tank", "species"])["animals"].sum()
    keys = zip(_ends(room)["tank"], _ends(room)["species"], strict=True)
    return pd.Series([sums.get(key, np.nan) for key in keys], dtype=float)


@remember
def small_group_no(room):
    wanted = _number(room, "group_min")
    known = _animals(room).notna() & together(room).notna() & wanted.notna()
    return _only_where(known, _alive(room) & (together(room) < wanted))


@remember
def body_length(room):
    return _animals(room) * length(room)


@remember
def scaled_length(room):
    """Length in slim fish of the reference length that breathe as much (exponent 0.80)."""
    slim = rows_of(room.body_forms, "form", ["fusiform"])
    factor, exponent = (through(room.body_forms[name], slim)[0] for name in ("mass_factor", "mass_exponent"))
    reference = _const(room, "rule_reference_length")
    breath = (mass_each(room) / (factor * reference**exponent)) ** 0.80
    return reference * _animals(room) * breath


@remember
def swim_multiple(room):
    """6, 4 or 3 lengths unless the constants say otherwise."""
    multiples = {word: _const(room, f"swim_{word}") for word in ("active", "calm", "sedentary")}
    swim = folded(of_species(room, room.species["swim"]))
    return pd.Series([multiples.get(word, np.nan) for word in swim], dtype=float)


@remember
def swim_wanted(room):
    return swim_multiple(room) * _number(room, "adult_length")


@remember
def length_wanted(room):
    """As typed for the species, or by its swimming."""
    return _number(room, "length_min").fillna(swim_wanted(room))


@remember
def bottom_factor(room):
    """Only those that live on the bottom want room there."""
    sides = {"holds ground": _const(room, "bottom_holds"), "social": _const(room, "bottom_social"), "no": 0.0}
    habit = folded(of_species(room, room.species["bottom_room"]))
    return pd.Series([sides.get(word, np.nan) for word in habit], dtype=float)


@remember
def bottom_wanted(room):
    """A square of so many adult lengths for each."""
    return _animals(room) * np.square(bottom_factor(room) * _number(room, "adult_length"))


# --- who is at risk from whom ---


@remember
def mouthful(room):
    return (_number(room, "mouth_share") * length(room)).round(6).where(_alive(room))


@remember
def victim_length(room):
    """Snails have a shell: they are no prey by size."""
    prey = ~blank(of_species(room, room.species["kind"])) & ~_is(room, "kind", "snail")
    return length(room).round(6).where(_alive(room) & prey)


@remember
def eaten_by(room):
    return of_tank(room, company.mouthful_who(room)).where(_fits_a_mouth(room), "").astype(object)


@remember
def could_eat(room):
    fits = mouthful(room) > of_tank(room, company.victim_min(room))
    return of_tank(room, company.victim_who(room)).where(fits, "").astype(object)


@remember
def temper_counted(room):
    return _number(room, "temper").where(_alive(room) & _is(room, "kind", "fish"))


@remember
def days_here(room):
    return (room.plan_date - pd.to_datetime(room.livestock["date_in"])).dt.days.astype(float)


@remember
def waiting(room):
    until = pd.to_datetime(room.livestock["quarantine_until"])
    return _only_where(until.notna() & pd.notna(room.plan_date), until > room.plan_date)


@remember
def _tank_bites(room):
    """Of each row of Livestock: whether living fin-biters are in it, and the row of its tank."""
    return pd.DataFrame({"tank": _ends(room)["tank"], "bites": _is(room, "bites_fins", "yes") & _alive(room)})


@remember
def other_biters(room):
    """Groups of living fin-biters in the tank, this row left out."""
    found = _tank_bites(room)
    in_tank = found.groupby("tank")["bites"].sum()
    known = found["tank"].notna() & ~blank(of_species(room, room.species["bites_fins"])) & _animals(room).notna()
    return _only_where(known, found["tank"].map(in_tank).astype(float) - found["bites"])


@remember
def biter(room):
    """Of the first and the last fin-biter of the tank one of another species; else no name, it is a group of its own."""
    found, names = _tank_bites(room), room.livestock["species"]
    words = []
    for tank, own in zip(found["tank"], names, strict=True):
        who = list(names[(found["tank"] == tank) & found["bites"]]) if own else []
        others = [name for name in (*who[:1], *who[-1:]) if name.casefold() != own.casefold()]
        words.append(others[0] if others else "another group" if who else "")
    return pd.Series(words, dtype=object)


@remember
def _water(room):
    """For each parameter: word, the tank's value, low and high end of the species' range in use."""
    values = {
        "temperature": room.tanks["temperature"],
        "ph": tanks.ph_used(room),
        "gh": tanks.gh_used(room),
        "kh": tanks.kh_used(room),
    }
    return [
        (word, of_tank(room, values[key]), *(of_species(room, used(room)) for used in species.USED[key]))
        for key, _, word in species.PARAMETERS
    ]


@remember
def outside(room):
    parts = [[] for _ in range(len(room.livestock))]
    for word, values, lows, highs in _water(room):
        unit = SAID_IN[word]
        for row, (value, low, high) in enumerate(zip(values, lows, highs, strict=True)):
            if value < low:
                parts[row].append(f"{word} {said(value, 1)}{unit} below its {said(low, 1)}{unit}")
            if value > high:
                parts[row].append(f"{word} {said(value, 1)}{unit} above its {said(high, 1)}{unit}")
    return pd.Series(["; ".join(part) for part in parts], dtype=object)


@remember
def water_verdict(room):
    """Outside, inside as far as it can be compared, or unknown; blank where tank or species is not known."""
    compared = np.any([v.notna() & (low.notna() | high.notna()) for _, v, low, high in _water(room)], axis=0)
    placed = _ends(room).notna().all(axis=1)
    words = np.select(
        [~placed, expected(room) == 1, outside(room).astype(bool), compared],
        ["", "not there yet", "◆ " + outside(room), "inside its ranges"],
        "unknown",
    )
    return pd.Series(words, dtype=object)


@remember
def in_overlap(room):
    """Groups so far that live in the tank chosen on Overlap."""
    return _drawn(room).cumsum().astype(float)


@remember
def _drawn(room):
    choice = room.choice.get("card") or ""
    return same(room.livestock["tank"], choice) & (choice != "") & lives_in(room).notna()


def drawn_groups(room):
    """The rows that have a bar in the charts of Overlap, if there are bars enough."""
    return [int(row) for row in np.flatnonzero(_drawn(room))]


# --- light, flow and floor that do not suit all ---

LIGHTS, FLOWS = ("dim", "medium", "bright"), ("still", "gentle", "medium", "strong")
FAR = 2  # steps that are more than a compromise


def _step(room, thing, words):
    """Which word it is, counted from 1."""
    liked = folded(of_species(room, room.species[thing]))
    return pd.Series([words.index(word) + 1.0 if word in words else np.nan for word in liked], dtype=float)


@remember
def light_no(room):
    return _step(room, "light", LIGHTS)


@remember
def flow_no(room):
    return _step(room, "flow", FLOWS)


def _far_off(room, thing, words):
    """Of each row, those in its tank that like something two steps away or more, from little to much."""
    liked = {step: of_tank(room, comfort.who(room, thing, word)) for step, word in enumerate(words, 1)}
    found = []
    for row, own in enumerate(_step(room, thing, words)):
        far = [names[row] for step, names in liked.items() if abs(step - own) >= FAR]
        found.append(", ".join(filter(None, far)))
    return pd.Series(found, dtype=object)


@remember
def light_unlike(room):
    return _far_off(room, "light", LIGHTS)


@remember
def flow_unlike(room):
    return _far_off(room, "flow", FLOWS)


@remember
def bottom_other(room):
    """Another kind on the bottom of the tank, the first or the last; else another group of its own kind."""
    first, last = (of_tank(room, f(room)) for f in (company.first_bottom, company.last_bottom))
    names = []
    for own, *others in zip(room.livestock["species"], first, last, strict=True):
        different = [name for name in others if name.casefold() != own.casefold()]
        names.append("" if not own or not all(others) else (different or ["another group"])[0])
    return pd.Series(names, dtype=object)


@remember
def bottom_rival(room):
    """Named only where the floor is too small for all, and there is another on it."""
    wanted, floor = (of_tank(room, f(room)) for f in (stocking.bottom_wanted, tanks.plan_area))
    short = (bottom_wanted(room) > 0) & (of_tank(room, company.bottom_dwellers(room)) >= FAR) & (wanted > floor)
    return bottom_other(room).where(short, "")


@remember
def at_odds(room):
    parts = {"light": light_unlike(room), "flow": flow_unlike(room), "floor": bottom_rival(room)}
    rows = zip(*parts.values(), strict=True)
    texts = ["; ".join(f"{word}: {names}" for word, names in zip(parts, row, strict=True) if names) for row in rows]
    return pd.Series(texts, dtype=object).where(_ends(room)["species"].notna(), "")


# --- flags ---


@remember
def eaten(room):
    """Smallest body length below share times length of the eater; of shrimp with a hunter the other flag tells."""
    told = _is(room, "kind", "shrimp") & _has(room, company.shrimp_hunters)
    return _fits_a_mouth(room) & ~told


@remember
def _fits_a_mouth(room):
    return victim_length(room) < of_tank(room, company.mouthful_max(room))


@remember
def _temper_gap(room):
    return of_tank(room, company.temper_max(room)) - temper_counted(room)


@remember
def clash_of_temper(room):
    return _temper_gap(room) >= _const(room, "temper_clash")


@remember
def gap_of_temper(room):
    gap = _temper_gap(room)
    return (gap >= _const(room, "temper_watch")) & (gap < _const(room, "temper_clash"))


@remember
def fins(room):
    return _is(room, "long_fins", "yes") & (other_biters(room) > 0) & _alive(room)


def _has(room, count):
    return of_tank(room, count(room)) > 0


@remember
def shrimp_hunted(room):
    return _is(room, "kind", "shrimp") & _has(room, company.shrimp_hunters) & _alive(room)


@remember
def shrimp_young(room):
    """Said only where the grown ones are safe."""
    hunted = shrimp_hunted(room)
    return _is(room, "kind", "shrimp") & _has(room, company.young_eaters) & ~hunted & _alive(room)


@remember
def snails_hunted(room):
    return _is(room, "kind", "snail") & _has(room, company.snail_eaters) & _alive(room)


def _nominal(room, wanted):
    """Sizes in books and on tanks are nominal: so much less still counts as the size."""
    return wanted * (1 - _const(room, "nominal_allowance"))


@remember
def tiny_tank(room):
    return _alive(room) & (of_tank(room, tanks.net_volume(room)) < _number(room, "volume_min") / 2)


@remember
def small_tank(room):
    lacks = of_tank(room, tanks.net_volume(room)) < _nominal(room, _number(room, "volume_min"))
    return _alive(room) & lacks & ~tiny_tank(room)


@remember
def short_tank(room):
    return _alive(room) & (of_tank(room, tanks.swim_length(room)) < _nominal(room, length_wanted(room)))


@remember
def small_group(room):
    return small_group_no(room) == 1


@remember
def not_apart(room):
    """Animals in quarantine, with others in the same tank that are not."""
    tank, apart = lives_in(room), waiting(room) == 1
    return _alive(room) & apart & tank.isin(tank[~apart].dropna())


@remember
def no_quarantine(room):
    """Came lately, and nobody has typed until when it stays apart, or stayed."""
    lately = days_here(room) < _const(room, "quarantine_days")
    others = through(company.residents(room), [None if t != t else int(t) - 1 for t in lives_in(room)]) > 1
    return _alive(room) & pd.to_datetime(room.livestock["quarantine_until"]).isna() & lately & others


@remember
def sexes(room):
    return room.livestock["males"] + room.livestock["females"] > room.livestock["animals"]


@remember
def no_mass(room):
    return _ends(room)["species"].notna() & mass_each(room).isna() & (expected(room) != 1)


def _why(what: str) -> Oracle:
    def reckon(room: Room) -> pd.Series:
        from tests.oracles import matters  # noqa: PLC0415  they look at one another

        return pd.Series([matters.group_why(room, what, row) for row in range(len(room.livestock))], dtype=object)

    return reckon


company_why, size_why, quarantine_why = (_why(what) for what in ("company", "size", "quarantine"))
