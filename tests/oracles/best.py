"""The best twenty, in words."""

import math
from collections.abc import Callable

import numpy as np
import pandas as pd

from tests.oracles import candidate_like as like
from tests.oracles import candidates as c
from tests.oracles import overlap_detail, sought, species
from tests.oracles.overlap_detail import PARAMETERS
from tests.oracles.tools import Room, remember
from tests.oracles.tools import said as rounded

LINES = 20
UNITS = {"temperature": " °C", "ph": "", "gh": " °dH", "kh": " °dH"}
MEND = {"water change": "change more water, or keep fewer", "oxygen": "keep fewer, or a larger tank", "swim room": "a longer tank", "bottom room": "a larger floor",
        "volume": "a larger tank"}  # fmt: skip


@remember
def order(room: Room) -> list[int | None]:
    """Rows of the library, the best first; while fewer than three fit, the nearest three in all."""
    ranks = c.rank(room).dropna()
    fit = int((ranks > 5).sum())  # the steps of what does not fit lie below 3, others at 10 and more
    rows = sorted(ranks.index, key=lambda row: -ranks[row])[: min(LINES, max(3, fit))]
    return [*rows, *[None] * (LINES - len(rows))]


def words(make: Callable[[Room, int], str]) -> Callable[[Room], pd.Series]:
    """A text for each line."""

    def column(room: Room) -> pd.Series:
        return pd.Series(["" if row is None else make(room, row) for row in order(room)], dtype=object)

    return column


def place(room: Room) -> pd.Series:
    return pd.Series([math.nan if row is None else i + 1.0 for i, row in enumerate(order(room))], dtype=float)


def score(room: Room) -> pd.Series:
    return pd.Series([math.nan if row is None else c.rank(room)[row] for row in order(room)], dtype=float)


def found(room: Room) -> pd.Series:
    return pd.Series([math.nan if row is None else row + 1.0 for row in order(room)], dtype=float)


def _value(number: float, parameter: str) -> str:
    return rounded(number, 1) + UNITS[parameter]


def _left(room: Room, p: str, row: int, between: str = " to ") -> str:
    low, high = c._left(room, p, row)
    return _value(low, p) + between + _value(high, p)


def _shared(room: Room, p: str, row: int) -> str:
    width = c.width_of(room, p, row)
    return "unknown" if math.isnan(width) else "none" if width < 0 else _left(room, p, row)


temperature_left, ph_left, gh_left, kh_left = (words(lambda room, row, p=p: _shared(room, p, row)) for p in PARAMETERS)


@words
def water(room: Room, row: int) -> str:
    shared = {p: _shared(room, p, row) for p in PARAMETERS}
    return "; ".join(
        f"no shared {sought.WORDS[p]}" if said == "none" else f"{sought.WORDS[p]} {said}" for p, said in shared.items()
    )


def _odds(room: Room, row: int, p: str) -> list[str]:
    """Nothing shared: with whom, or with nobody where residents or the species' own ends exclude each other."""
    if not c.width_of(room, p, row) < 0:
        return []
    shared = overlap_detail.shared(room)[p]
    low, high, low_by, high_by = (sought.of_tank(room, shared[key]) for key in ("low", "high", "low_by", "high_by"))
    own_low, own_high = c._ends(room, p, row)
    if high < low or own_low > own_high:
        return [f"no {sought.WORDS[p]} left to share"]
    return [f"no shared {sought.WORDS[p]} with {high_by if own_low > high else low_by} (one of the two elsewhere)"]


def _water_no(room: Room, row: int) -> list[str]:
    return [text for p in PARAMETERS[:2] for text in _odds(room, row, p)]


def _gap(room: Room, row: int) -> float:
    gap = c.temper_gap(room)[row]
    return 0.0 if math.isnan(gap) else float(gap)


def _temper(room: Room, row: int) -> str:
    value = c.number(room, "temper", row)
    return "" if math.isnan(value) else rounded(value)


def _const(room: Room, key: str) -> float:
    value = room.const[key]
    return 0.0 if math.isnan(value) else float(value)


def _company_no(room: Room, row: int) -> list[str]:
    found = []
    if who := c.swallowed_by(room)[row]:
        found.append(f"{who} could swallow it (only with smaller company)")
    if who := c.swallows(room)[row]:
        found.append(f"could swallow {who} (only with larger company)")
    if _gap(room, row) >= _const(room, "temper_clash"):
        found.append(f"temper {_temper(room, row)} clashes with {c.temper_foe(room)[row]} (one of the two elsewhere)")
    if who := c.bitten_by(room)[row]:
        found.append(f"{who} would bite its long fins (part them)")
    if who := c.bites(room)[row]:
        found.append(f"would bite the long fins of {who} (part them)")
    if _hunted(room, row):
        found.append(f"{c.hunted_by(room)[row]} hunts shrimp (a tank without hunters)")
    if who := c.cracked_by(room)[row]:
        found.append(f"{who} would eat it whole (a tank without snail eaters)")
    if c.word(room, "eats_shrimp", row) == "yes" and (who := c.hunts_shrimp(room)[row]):
        found.append(f"hunts {who} (a tank without shrimp)")
    if who := goes_out_of(room, row):
        found.append(f"it fits if {who} goes out")
    return found


def _forbid(room: Room, row: int) -> list[str]:
    """Who forbids it, by each test in turn."""
    names = [column(room)[row] for column in (c.swallowed_by, c.swallows, c.cracked_by, c.bitten_by, c.bites)]
    names.append(c.temper_foe(room)[row] if _gap(room, row) >= _const(room, "temper_clash") else "")
    names.append(c.hunted_by(room)[row] if _hunted(room, row) else "")
    names.append(c.hunts_shrimp(room)[row] if c.word(room, "eats_shrimp", row) == "yes" else "")
    return [str(name) for name in names if name]


def _others_forbid(room: Room, row: int, gone: str) -> bool:
    """Whether somebody else would still, once the first of each test is gone."""
    length, kind = float(np.nan_to_num(c.number(room, "adult_length", row))), c.word(room, "kind", row)
    mouth, temper = c.number(room, "mouth_share", row) * length, c.number(room, "temper", row)
    rough, gentle = (
        (later if who(room)[0].casefold() == gone.casefold() else first)(room)[0]
        for first, who, later in (
            (sought.temper_max, sought.temper_who, sought.rough_next),
            (sought.temper_min, sought.gentle_who, sought.next_gentle),
        )
    )
    clash = _const(room, "temper_clash")
    return bool(
        (kind != "snail" and round(length - sought.mouthful_next(room)[0], 6) < 0)
        or round(float(np.nan_to_num(mouth)) - sought.victim_next(room)[0], 6) > 0
        or (kind == "snail" and round(2 * length - sought.snail_gape_next(room)[0], 6) <= 0)
        or (kind == "fish" and (rough - temper >= clash or temper - gentle >= clash))
        or (c.bitten_by(room)[row] != "" and sought.biters(room)[0] > 1)
        or (c.bites(room)[row] != "" and sought.finned(room)[0] > 1)
        or (kind == "shrimp" and sought.hunters(room)[0] > 1)
        or (c.word(room, "eats_shrimp", row) == "yes" and sought.shrimps(room)[0] > 1)
    )


def goes_out_of(room: Room, row: int) -> str:
    names = _forbid(room, row)
    known = c.unknown(room)[row] == 0 and not c.strain(room)[row] > 2
    if c.stop(room)[row] != "company" or not known or len({name.casefold() for name in names}) != 1:
        return ""
    return "" if _others_forbid(room, row, names[0]) else names[0]


objector = words(lambda room, row: next(iter(_forbid(room, row)), ""))
goes_out = words(goes_out_of)


def _hunted(room: Room, row: int) -> bool:
    return c.word(room, "kind", row) == "shrimp" and sought.hunters(room)[0] > 0


def _room_no(room: Room, row: int) -> list[str]:
    more, wanted = c.more(room)[row], c.add_min(room)[row]
    if not more < wanted:
        return []
    limit = c.limit(room)[row]
    if c.strain(room)[row] == 1:
        return [f"tight: {limit} at {rounded(c.asks_min(room)[row] * 100)} %, within what the model is unsure of"]
    if c.strain(room)[row] == 2:
        then, now = (rounded(share * 100) for share in (c.change_to(room)[row], sought.plan(room, "change_share")))
        return [f"fits if {then} % are changed each time instead of {now} %"]
    return [f"room for {rounded(more) if more else 'none'} of the {rounded(wanted)} to add: {limit} ({MEND[limit]})"]


def _not_known(room: Room, row: int) -> str:
    lacks = species.lacking(room)[row]
    biters, shrimp, snail = (
        sought.first_biter(room)[0] != "",
        sought.shrimp_who(room)[0],
        sought.snail_who(room)[0],
    )
    tests = [
        (lacks != "", lacks), (c.word(room, "kind", row) == "", "its kind"), (not lacks and c.word(room, "swim", row) == "", "how it swims"),
        (c.word(room, "bottom_room", row) == "", "room on the bottom"), (c.word(room, "long_fins", row) == "" and biters, "whether its fins are long"),
        (c.word(room, "bites_fins", row) == "" and sought.first_finned(room)[0] != "", "whether it bites fins"),
        (c.word(room, "eats_shrimp", row) == "" and shrimp != "", "whether it eats shrimp"), (c.word(room, "eats_snails", row) == "" and snail != "", "whether it eats snails"),
        (sought.lacking(room)[0] != "", "the tank (see above)"),
    ]  # fmt: skip
    return ", ".join(text for test, text in tests if test)


def _mind(room: Room, row: int) -> list[str]:
    found = [text for p in PARAMETERS[2:] for text in _odds(room, row, p)]
    for p in PARAMETERS:
        kept, (low, high) = c.kept_at(room, p), c._left(room, p, row)
        if low <= high and (kept < low or kept > high):
            found.append(
                f"bring {sought.WORDS[p]} slowly from {_value(kept, p)} to between {_left(room, p, row, ' and ')} first"
            )
    thin = [p for p in PARAMETERS if 0 <= c.width_of(room, p, row) < _const(room, f"narrow_{p}") - 1e-6]
    found += [f"only {_left(room, p, row)} of {sought.WORDS[p]} shared: keep it steady" for p in thin]
    kind, eats, hunter = c.word(room, "kind", row), c.word(room, "eats_shrimp", row), c.hunted_by(room)[row]
    if _const(room, "temper_watch") <= _gap(room, row) < _const(room, "temper_clash"):
        found.append(f"temper {_temper(room, row)} beside {c.temper_foe(room)[row]}: watch for chasing, give cover")
    if kind == "shrimp" and hunter and not _hunted(room, row):
        found.append(f"{hunter} takes its young: give moss")
    if kind == "snail" and hunter and not c.cracked_by(room)[row]:
        found.append(f"{hunter} eats snails: expect losses")
    if eats == "young" and c.hunts_shrimp(room)[row]:
        found.append(f"takes the young of {c.hunts_shrimp(room)[row]}: give moss")
    if c.hunts_snails(room)[row]:
        found.append(f"eats {c.hunts_snails(room)[row]}: expect losses")
    if sought.care(room)[0]:
        found.append("see above: mind first")
    return found


def _there(room: Room, row: int) -> list[str]:
    here = c.present(room)[row]
    praise = ["nothing speaks against it"] if c.verdict(room)[row] == c.FITS else []
    best = c.number(room, "group_best", row)
    to_best = (
        f" to the best group of {rounded(best, 6)}"
        if here < best and c.more(room)[row] >= c.add_best(room)[row]
        else ""
    )
    return [*praise, *([f"tops up the {rounded(here, 6)} there{to_best}"] if here > 0 else [])]


def _lacks(room: Room, row: int) -> list[str]:
    return [f"unknown: {text}"] if (text := _not_known(room, row)) else []


def _short_of_best(room: Room, row: int) -> list[str]:
    return ["no room for the best group"] if c.add_min(room)[row] <= c.more(room)[row] < c.add_best(room)[row] else []


def _caution(room: Room, row: int) -> list[str]:
    return [text] if (text := room.species["caution"].iloc[row]) else []


def _joined(*makes: Callable[[Room, int], list[str]]) -> Callable[[Room], pd.Series]:
    return words(lambda room, row: "; ".join(text for make in makes for text in make(room, row)))


water_no, company_no, room_no, mind = (_joined(make) for make in (_water_no, _company_no, _room_no, _mind))
there, lacks, short_of_best = (_joined(make) for make in (_there, _lacks, _short_of_best))
not_known = words(_not_known)
reasons = _joined(_there, _water_no, _company_no, _room_no, _lacks, _mind, _short_of_best, _caution)


# --- what speaks for it ---


def _share(room: Room, row: int, key: str) -> float:
    return float(getattr(c, f"merit_{key}")(room)[row])


def _good(room: Room, row: int, *shares: tuple[str, str]) -> str:
    return ", ".join(words for key, words in shares if _share(room, row, key) >= 0.9 - 1e-12)


@words
def for_it(room: Room, row: int) -> str:
    lived_in = sought.staying(room)[0] > 0
    told = [
        ("niche", "a zone, a part and hours that nobody has"), ("size", "of a size that suits"),
        ("group", "room for its best group"), ("water", "water well inside its ranges"), ("home", "from where others come"),
        ("colour", "a new colour"), ("ease", "easy"), ("offered", "often offered"),
    ]  # fmt: skip
    return _good(room, row, *(pair for pair in told if lived_in or pair[0] not in {"niche", "home", "colour"}))


@words
def against_it(room: Room, row: int) -> str:
    told = [
        ("peace", "a rival, relative or stranger to who lives there, or no life for it here"), ("size", "of a size that does not suit"),
        ("group", "its best group would crowd the tank"), ("water", "water near the ends of its ranges"),
        ("ease", "demanding"), ("offered", "rarely offered"),
    ]  # fmt: skip
    return ", ".join(text for key, text in told if _share(room, row, key) < 0.5)


def _kin(room: Room, row: int) -> str:
    at = sought.species_at(room, "instead_of")
    genera = species.genus(room)
    if at is not None and genera[row] and genera[row].casefold() == genera[at].casefold():
        return "genus"
    return (
        "family"
        if like.known_same(room, "family", row)
        else "order"
        if like.known_same(room, "taxon_order", row)
        else ""
    )


@words
def alike(room: Room, row: int) -> str:
    same = [(key, text) for key, text in (("body_form", "form"), ("zone", "zone"), ("role", "part in the tank"), ("diet", "diet"),
            ("colour_group", "colour")) if like.known_same(room, key, row)]  # fmt: skip
    mine, theirs = like.both_numbers(room, "temper", row)
    told = [_kin(room, row), "size" if c.like_size(room)[row] >= 0.8 else "", *(text for _, text in same)]
    told += ["temper" if mine == theirs else "", "water" if c.like_ranges(room)[row] >= 0.8 else ""]
    return ", ".join(filter(None, told))


@words
def unlike(room: Room, row: int) -> str:
    at = sought.species_at(room, "instead_of")
    if at is None:
        return ""
    (length, other), (temper, its) = (
        like.both_numbers(room, "adult_length", row),
        like.both_numbers(room, "temper", row),
    )
    warmth = species.mid_temperature(room)
    other_size = c.like_size(room)[row] < 0.8
    own_zone, zone = like.both_words(room, "zone", row)
    habits = (("eats_plants", "it eats plants"), ("eats_shrimp", "it eats shrimp"), ("bites_fins", "it bites fins"))
    told = [
        (other_size and length > other, "larger"), (other_size and not length > other, "smaller"), (temper > its, "rougher"),
        (temper < its, "gentler"), (warmth[row] - warmth[at] >= 2, "warmer"), (warmth[at] - warmth[row] >= 2, "cooler"),
        ("" not in {own_zone, zone} and own_zone != zone, "of another zone"),
        *((like.both_words(room, key, row)[0] == "yes" != like.both_words(room, key, row)[1], text) for key, text in habits),
    ]  # fmt: skip
    return ", ".join(text for is_so, text in told if is_so)


def speaks(room: Room) -> pd.Series:
    instead = sought.species_at(room, "instead_of") is not None
    first, second, joint = (alike, unlike, "; ") if instead else (for_it, against_it, "; but ")
    before = "same " if instead else ""
    found = []
    for has, one, other in zip(order(room), first(room), second(room), strict=True):
        parts = [before + one if one else "", other]
        text = joint.join(filter(None, parts)) if instead else one + (joint + other if other else "")
        found.append(text if has is not None else "")
    return pd.Series(found, dtype=object)
