"""Each line of the stock list for the buyer's tank, judged line by line."""

import math

import numpy as np
import pandas as pd

from tests.oracles import livestock, question_answer, question_company, question_lives, species, stock
from tests.oracles.question_lives import asked
from tests.oracles.tools import blank, folded, remember, said, same

WATER = {"temperature": ("temperature", " °C"), "ph": ("pH", ""), "gh": ("GH", " °dH"), "kh": ("KH", " °dH")}


def _of(room, key):
    return livestock.of_species(room, room.species[key])


def _number(room, key):
    return _of(room, key).astype(float)


def _end(room, parameter, end):
    return livestock.of_species(room, getattr(species, f"used_{parameter}_{end}")(room)).astype(float)


def _coded(room, values):
    return values.where(stock.coded(room), "" if values.dtype == object else np.nan)


def _all(room):
    """Every line without a code is no line."""
    return range(len(room.stock))


def one(series):
    return series.iloc[0]


@remember
def considered(room):
    known = np.array(
        [row is not None for row in livestock.rows_of(room.species, "species", room.stock["species"])], dtype=bool
    )
    ready = one(question_company.asked_something(room)) == 1
    return _coded(room, pd.Series((known & (stock.free(room) > 0).to_numpy() & ready).astype(float), dtype=float))


@remember
def mouthful(room):
    return _coded(room, (_number(room, "mouth_share") * _number(room, "adult_length")).round(6))


@remember
def lives(room):
    mine = folded(room.stock["species"])
    kinds, numbers = folded(question_lives.species(room)), question_lives.animals(room)
    known = set(folded(room.species["species"]))
    found = [
        sum(n for kind, n in zip(kinds, numbers, strict=True) if kind == name and n == n)
        if name in known and name
        else math.nan
        for name in mine
    ]
    return _coded(room, pd.Series(found, dtype=float))


@remember
def wanted(room):
    return (_number(room, "group_min") - lives(room)).clip(lower=1)


@remember
def draw_each(room):
    mass = livestock.of_species(room, species.adult_mass(room)).astype(float)
    return _coded(room, question_lives.draw_of_one(room, mass))


@remember
def by_oxygen(room):
    held = max(
        0.0, one(question_answer.saturation(room)) * room.const["oxygen_start_share"] - room.const["oxygen_stop"]
    )
    may_draw = held * one(question_answer.volume(room)) / room.const["oxygen_reserve_wanted"]
    if math.isnan(one(question_answer.saturation(room))):
        may_draw = math.nan
    return (may_draw - one(question_answer.draw(room))) / draw_each(room)


@remember
def at_most(room):
    found = []
    for free, want, best, there, carried in zip(
        stock.free(room), wanted(room), _number(room, "group_best"), lives(room), by_oxygen(room), strict=True
    ):
        if any(math.isnan(x) for x in (free, want, best, there)):
            found.append(math.nan)
            continue
        limits = [free, max(want, best - there)] + ([] if math.isnan(carried) else [math.floor(round(carried, 6))])
        found.append(float(min(limits)))
    return _coded(room, pd.Series(found, dtype=float))


@remember
def how_many(room):
    found = [
        "" if math.isnan(w) else f"{said(w)} to {said(m)}" if (0 if math.isnan(m) else m) > w else said(w)
        for w, m in zip(wanted(room), at_most(room), strict=True)
    ]
    return _coded(room, pd.Series(found, dtype=object))


def _told(room, tell):
    """Reasons of each line that may be sold, joined; blank for the others and for lines without a code."""
    found = ["; ".join(tell(i)) if yes == 1 else "" for i, yes in zip(_all(room), considered(room), strict=True)]
    return pd.Series(found, dtype=object)


def _one_each(room, texts):
    return (texts != "").astype(float).where(considered(room).notna())


@remember
def why_water(room):
    ends = {p: (_end(room, p, "low"), _end(room, p, "high")) for p in WATER}

    def tell(i):
        for p, (word, unit) in WATER.items():
            value, low, high = asked(room, p), ends[p][0].iloc[i], ends[p][1].iloc[i]
            if value < low:
                yield f"wants {word} from {said(low, 1)}{unit}"
            if value > high:
                yield f"wants {word} up to {said(high, 1)}{unit}"

    return _told(room, tell)


@remember
def why_tank(room):
    whole = 1 - room.const["nominal_allowance"]
    litres, long = one(question_answer.volume(room)), one(question_answer.swim_length(room))
    want_litres, want_long = _number(room, "volume_min"), livestock.length_wanted(room)

    def tell(i):
        if litres < want_litres.iloc[i] * whole:
            yield f"wants at least {said(want_litres.iloc[i])} L"
        if long < want_long.iloc[i] * whole:
            yield f"wants a length of {said(want_long.iloc[i], 2)} cm"
        if by_oxygen(room).iloc[i] < wanted(room).iloc[i]:
            yield "the oxygen does not carry its group"

    return _told(room, tell)


@remember
def why_number(room):
    def tell(i):
        want, free = wanted(room).iloc[i], stock.free(room).iloc[i]
        if free < want:
            yield f"wants {said(want)}, free to sell {said(free)}"

    return _told(room, tell)


def _fish(room, i):
    return folded([_of(room, "kind").iloc[i]])[0] == "fish"


@remember
def why_company(room):
    there = {key: one(getattr(question_company, key)(room)) for key in
             ("mouthful_max", "mouthful_max_who", "victim_min", "victim_min_who", "temper_max", "temper_max_who", "temper_min", "temper_min_who", *question_lives.HABITS)}  # fmt: skip
    kind, length, temper, clash = (
        _of(room, "kind"),
        livestock.length(room),
        _number(room, "temper"),
        room.const["temper_clash"],
    )
    yes = {key: same(_of(room, key), "yes") for key in ("bites_fins", "long_fins", "eats_shrimp", "eats_snails")}
    is_kind = {word: same(kind, word) for word in ("fish", "shrimp", "snail")}

    def tell(i):
        if not is_kind["snail"].iloc[i] and round(length.iloc[i], 6) < there["mouthful_max"]:
            yield f"fits the mouth of {there['mouthful_max_who']}"
        if mouthful(room).iloc[i] > there["victim_min"]:
            yield f"grown it swallows {there['victim_min_who']}"
        if is_kind["fish"].iloc[i]:
            if there["temper_max"] - temper.iloc[i] >= clash:
                yield f"too gentle for {there['temper_max_who']}"
            if temper.iloc[i] - there["temper_min"] >= clash:
                yield f"too rough for {there['temper_min_who']}"
        for mine, theirs, words in ((yes["bites_fins"], "veils", "bites long fins"), (yes["long_fins"], "biters", "its fins would be bitten"), (is_kind["shrimp"], "shrimp_hunters", "would be hunted"),
                                    (yes["eats_shrimp"], "shrimp", "hunts shrimp"), (is_kind["snail"], "snail_eaters", "would be eaten"), (yes["eats_snails"], "snails", "eats snails")):  # fmt: skip
            if mine.iloc[i] and there[theirs] > 0:
                yield words

    return _told(room, tell)


def no_water(room):
    return _one_each(room, why_water(room))


def no_tank(room):
    return _one_each(room, why_tank(room))


def no_number(room):
    return _one_each(room, why_number(room))


def no_company(room):
    return _one_each(room, why_company(room))


@remember
def why_not(room):
    parts = zip(why_water(room), why_tank(room), why_number(room), why_company(room), strict=True)
    return pd.Series(["; ".join(filter(None, part)) for part in parts], dtype=object)


@remember
def fits(room):
    return ((considered(room) == 1) & (why_not(room) == "")).astype(float).where(considered(room).notna())


def _near(parameter):
    """1 within the range, half at its ends, 0 as far outside as the edge is wide."""

    def told(room):
        low, high = _end(room, parameter, "low"), _end(room, parameter, "high")
        edge = np.maximum(high - low, 0.01) * room.const["choose_edge"]
        inside = np.minimum(asked(room, parameter) - low, high - asked(room, parameter))
        return _coded(room, (0.5 + inside / edge / 2).clip(0, 1))

    return told


globals().update({f"{parameter}_near": _near(parameter) for parameter in WATER})


@remember
def score(room):
    near = pd.DataFrame({p: _near(p)(room) for p in WATER})
    suits, factor = question_answer.usual_length(room)[0], room.const["choose_factor"]
    length = _number(room, "adult_length").astype(float)
    size = (1.5 - (np.log(length / suits) / np.log(factor)).abs()).clip(0, 1).fillna(0.5)
    shares = {"water": near.mean(axis=1).fillna(0.0), "size": size, "ease": _graded(room, "ease", "easy", "demanding")}
    shares["offered"] = _graded(room, "offered", "often", "rarely")
    weights = {key: room.const[f"choose_{key}"] for key in shares}
    found = 100 * sum(share * weights[key] for key, share in shares.items()) / sum(weights.values())
    found -= room.const["rank_water"] * near.isna().sum(axis=1) + 100 * (_graded(room, "spreads", "yes", "no") == 1)
    return found.where(considered(room).notna()) if factor == factor else found * np.nan


def _graded(room, key, best, worst):
    words = folded(_of(room, key))
    return pd.Series([{best: 1.0, worst: 0.0}.get(word, 0.5) for word in words], dtype=float)


@remember
def rank(room):
    points = pd.Series([round(s, 3) if s == s else s for s in score(room)], dtype=float)
    return (points - np.arange(1, len(room.stock) + 1) / 1e9).where(fits(room) == 1)


@remember
def not_no(room):
    return (considered(room) - fits(room)).fillna(0.0).cumsum()


@remember
def is_asked(room):
    name = folded([room.question.get("asked") or ""])[0]
    mine = pd.Series(folded(room.stock["species"]), dtype=object)
    known = considered(room).notna() & ~blank(room.stock["species"]) & (name != "")
    return ((considered(room) == 1) & (mine == name)).astype(float).where(known)


@remember
def reasons(room):
    ends = {p: (_end(room, p, "low"), _end(room, p, "high")) for p in WATER}
    found = []
    for i in _all(room):
        parts = [
            f"{word} {said(ends[p][0].iloc[i], 1)}{unit} to {said(ends[p][1].iloc[i], 1)}{unit}"
            for p, (word, unit) in WATER.items()
            if not math.isnan(ends[p][0].iloc[i] + ends[p][1].iloc[i])
        ]
        litres, group = _number(room, "volume_min").iloc[i], _number(room, "group_min").iloc[i]
        parts += [f"at least {said(litres)} L"] if litres == litres else []
        parts += [f"a group of {said(group)}"] if group > 1 else []
        found.append("; ".join(parts))
    return _coded(room, pd.Series(found, dtype=object))
