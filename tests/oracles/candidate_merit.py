"""What keepers weigh in a candidate, each from 0 to 1; common practice, no published source."""

import math

import numpy as np

from tests.oracles import candidates as c
from tests.oracles import residents, sought, species
from tests.oracles.overlap_detail import PARAMETERS
from tests.oracles.tools import Room


def _comfort(parameter: str) -> c.Oracle:
    """1 within the range, half at an end, 0 as far outside as the edge is wide."""

    def comfort(room: Room, row: int) -> float:
        low, high = c._ends(room, parameter, row)
        kept, share = c.kept_at(room, parameter), room.const["choose_edge"]
        if np.isnan([low, high, kept, share]).any():
            return math.nan
        edge = max(high - low, 0.01) * share
        ends = [low - edge, low + edge, high - edge, high + edge]
        if ends[1] > ends[2]:  # a range turned round
            inside = min(kept - low, high - kept)
            return float(np.clip(0.5 + inside / edge / 2, 0, 1))
        return float(np.interp(kept, ends, [0, 1, 1, 0]))

    comfort.__qualname__ = f"{parameter}_comfort"
    return c.every(comfort)


temperature_comfort, ph_comfort, gh_comfort, kh_comfort = (_comfort(p) for p in PARAMETERS)
COMFORTS = (temperature_comfort, ph_comfort, gh_comfort, kh_comfort)


@c.every
def merit_water(room: Room, row: int) -> float:
    values = [float(column(room)[row]) for column in COMFORTS]
    return float((min(values[:2]) + sum(values) / 4) / 2) if not np.isnan(values).any() else math.nan


def _alone(room: Room) -> bool:
    return sought.staying(room)[0] == 0


@c.every
def merit_kin(room: Room, row: int) -> float:
    """Of the water that it lives in, how much the company lives in too."""
    widths = c.widths(room, row)
    if np.isnan(widths).any():
        return math.nan
    if _alone(room):
        return 1.0
    own = [max(high - low, 0.01) for low, high in (c._ends(room, p, row) for p in PARAMETERS)]
    parts = [min(1.0, max(0.0, width / whole)) for width, whole in zip(widths, own, strict=True)]
    water = float(np.average(parts[:3], weights=[2, 1, 1]))
    liked = {"still": 0, "gentle": 1, "medium": 2, "strong": 3}.get(c.word(room, "flow", row), math.nan)
    apart = abs(liked - sought.usual_current(room)[0])
    return (water + (1.0 if math.isnan(apart) else 1 - apart / 3)) / 2


def _stranger(room: Room, row: int) -> bool:
    """A fish of the rift lakes among others, or the other way round; grazers and what has no home go anywhere."""
    home = c.word(room, "home", row)
    if _alone(room) or not home or c.word(room, "kind", row) != "fish" or c.word(room, "role", row) == "algae":
        return False
    lakes = sought.from_lakes(room)[0] > 0
    length, usual = c.number(room, "adult_length", row), sought.usual_length(room)[0]
    above_them = (
        c.word(room, "zone", row) == "top" and round(float(np.nan_to_num(length) * 1.2 - np.nan_to_num(usual)), 6) >= 0
    )
    return lakes != (home == "rift lakes") and not (lakes and above_them)


def _company(room: Room, key: str, row: int, among: c.Oracle = residents.living) -> int:
    """Groups that stay and have its word; nobody shares what is not known."""
    own = c.word(room, key, row)
    words = residents.said(room, key) if key != "genus" else _genera(room)
    return int(sum(mark for mark, theirs in zip(among(room), words, strict=True) if mark == 1 and theirs == own))


def _genera(room: Room) -> list[str]:
    genera = species.genus(room)
    return ["" if row != row else genera[int(row) - 1].casefold() for row in residents.species_row(room)]


def _new(room: Room, key: str, row: int) -> float:
    return 0.5 if not c.word(room, key, row) else float(_company(room, key, row) == 0)


@c.every
def merit_niche(room: Room, row: int) -> float:
    """A zone, a role and hours that nobody else has."""
    return 1.0 if _alone(room) else sum(_new(room, key, row) for key in ("zone", "role", "active_at")) / 3


@c.every
def merit_size(room: Room, row: int) -> float:
    """As long as the company and as suits the tank; half for each."""
    length, factor = c.number(room, "adult_length", row), room.const["choose_factor"]
    others = [sought.usual_length(room)[0], sought.usual_tank(room)[0]]
    if np.isnan([length, factor, *others]).any():
        return math.nan
    return float(np.mean([np.clip(1.5 - abs(math.log(length / other, factor)), 0, 1) for other in others]))


@c.every
def merit_temper(room: Room, row: int) -> float:
    left = 1 - float(np.nan_to_num(c.temper_gap(room)[row])) / room.const["temper_clash"]
    return left if math.isnan(left) else (2 * max(0.0, left) + _pace(room, row)) / 3


def _pace(room: Room, row: int) -> float:
    usual = sought.usual_pace(room)[0]
    if c.word(room, "zone", row) == "bottom" or math.isnan(usual):
        return 1.0
    return float(1 - abs({"sedentary": 0, "active": 2}.get(c.word(room, "swim", row), 1) - usual) / 2)


@c.every
def merit_group(room: Room, row: int) -> float:
    full, crowded = room.const["choose_full"], room.const["choose_crowded"]
    asks = c.asks_best(room)[row]
    return asks if math.isnan(asks) else float(np.interp(asks, [full, crowded], [1, 0]))


@c.every
def merit_colour(room: Room, row: int) -> float:
    return 0.5 if c.word(room, "colour_group", row) in {"brown", "silver", "clear"} else _new(room, "colour_group", row)


@c.every
def merit_ease(room: Room, row: int) -> float:
    return {"easy": 1.0, "demanding": 0.0}.get(c.word(room, "ease", row), 0.5)


@c.every
def merit_offered(room: Room, row: int) -> float:
    return {"often": 1.0, "rarely": 0.0}.get(c.word(room, "offered", row), 0.5)


@c.every
def merit_home(room: Room, row: int) -> float:
    if _alone(room):
        return 1.0
    return 0.5 if not c.word(room, "home", row) else float(_company(room, "home", row) > 0)


def _swept_off(room: Room, row: int) -> bool:
    """It likes two steps less of current than the company."""
    liked = {"still": 0, "gentle": 1, "medium": 2, "strong": 3}.get(c.word(room, "flow", row), math.nan)
    return bool(sought.usual_current(room)[0] - liked >= 1.9)


def _loses_ground(room: Room, row: int) -> bool:
    length = float(np.nan_to_num(c.number(room, "adult_length", row)))
    holds = c.word(room, "bottom_room", row) == "holds ground"
    return holds and bool(np.nan_to_num(sought.bold_max(room)[0]) > 1.5 * length)


def _no_full_peace(room: Room, row: int) -> bool:
    """Hunters, prey, crayfish and frogs, livebearers among others, show fish among fin biters."""
    role, eaten = c.word(room, "role", row), (c.hunted_by, c.hunts_shrimp, c.hunts_snails)
    return (
        role == "hunter"
        or c.word(room, "kind", row) == "other"
        or any(column(room)[row] for column in eaten)
        or (c.word(room, "spawning", row) == "livebearer" and not _alone(room) and sought.livebearers(room)[0] == 0)
        or (role == "show" and sought.first_biter(room)[0] != "")
    )


@c.every
def merit_peace(room: Room, row: int) -> float:
    """No rival of its family, nobody it would cross with, no snail eater without snails, no stranger, a place of its own."""
    role, genus = c.word(room, "role", row), species.genus(room)[row].casefold()
    rival = (
        role in {"show", "hunter"} and c.word(room, "family", row) and _company(room, "family", row, residents.one_show)
    )
    kin = sum(
        mark
        for mark, theirs in zip(residents.living(room), _genera(room), strict=True)
        if mark == 1 and theirs == genus
    )
    crosses = c.word(room, "spawning", row) == "livebearer" and genus and c.present(room)[row] == 0 and kin
    if rival or crosses or _stranger(room, row) or (role == "snails" and sought.snail_who(room)[0] == ""):
        return 0.0
    if _swept_off(room, row) or _loses_ground(room, row):
        return 0.0
    return 0.5 if _no_full_peace(room, row) else 1.0


SHARES = {
    "water": merit_water, "kin": merit_kin, "niche": merit_niche, "size": merit_size,
    "temper": merit_temper, "group": merit_group, "colour": merit_colour, "ease": merit_ease,
    "offered": merit_offered, "home": merit_home, "peace": merit_peace,
}  # fmt: skip


@c.every
def keeping(room: Room, row: int) -> float:
    weights = [room.const[f"choose_{key}"] for key in SHARES]
    return float(np.average([column(room)[row] for column in SHARES.values()], weights=weights))
