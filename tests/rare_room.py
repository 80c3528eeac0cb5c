"""A small room that raises what other rooms hardly do: sizes in millimetres, waters without an aim, names used twice."""

import pandas as pd

from tests.oracles.tools import Room
from tests.rooms import blank_room, changed, typed

DAY = "2026-10-05"
SPECIES = [
    {"species": "Minnow", "kind": "fish", "adult_length": 4, "body_form": "fusiform", "bottom_room": "social", "temper": 1, "mouth_share": 0.1,
     "temperature_low": 18, "temperature_high": 22, "flow": "strong", "light": "bright", "spawning": "egg scatterer", "eats_own_eggs": "yes",
     "hatch_temperature": 20, "days_to_hatch": 3, "days_to_swim": 3, "first_food": "nauplii"},
    {"species": "Loach", "kind": "fish", "adult_length": 6, "body_form": "elongated", "bottom_room": "social", "temper": 1, "mouth_share": 0.1,
     "temperature_low": 20, "temperature_high": 26, "flow": "medium"},
    {"species": "Snail", "kind": "snail", "adult_length": 2, "bottom_room": "no"},
    {"species": "Giant", "kind": "fish", "adult_length": 30, "body_form": "fusiform", "bottom_room": "holds ground", "temper": 3, "mouth_share": 0.4,
     "eats_snails": "yes", "temperature_low": 26, "temperature_high": 30, "flow": "still", "light": "dim"},
    {"species": "Worded", "adult_length": 5},
]  # fmt: skip
BOX = {
    "shape": "box",
    "measured": "inside",
    "glass": 0.6,
    "water_below_rim": 3,
    "substrate_depth": 3,
    "rock": 0,
    "wood": 0,
}
TANKS = [
    {"tank": "Pool", **BOX, "length": 60, "width": 30, "height": 40, "temperature": 24, "water": "Tap"},
    {"tank": "Typed in mm", **BOX, "length": 800, "width": 500, "height": 500},
    {"tank": "Thick", **BOX, "measured": "outside", "length": 60, "width": 30, "height": 30, "glass": 8},
    {"tank": "Buckets", **BOX, "length": 40, "width": 25, "height": 25, "net_volume_measured": 50},
    {"tank": "Low", **BOX, "length": 40, "width": 25, "height": 3},
    {"tank": "Worded", **BOX, "length": 40},
]  # fmt: skip
LISTS = {
    "species": SPECIES,
    "waters": [
        {"water": "Tap", "temperature": 12, "gh": 8, "kh": 5},
        {"water": "Rain", "temperature": 10, "gh": 1, "kh": 0},
        {"water": "Mix", "first_water": "Tap", "second_water": "Rain"},
        {"water": "Worded"},
    ],
    "tanks": TANKS,
    "livestock": [
        {"tank": "Pool", "species": name, "animals": count}
        for name, count in (("Minnow", 10), ("Loach", 10), ("Snail", 5), ("Giant", 3), ("Worded", 1))
    ],
    "foods": [{"food": "Flake"}, {"food": "FLAKE", "dry_matter": 0.9}, {"food": "Worded"}],
    "feeding": [{"tank": "Pool", "food": "Flake", "share": 0.5}, {"tank": "Pool", "food": "Worded"}],
    "hatching": [
        {"cysts": "Tin", "temperature": 26, "vessel": 25, "vessels": 1, "density": 4},
        {"cysts": "tin", "temperature": 26},
        {"cysts": "Worded", "temperature": 26},
    ],
    "feeds": [{"feed": name, "hour": 8, "share": 0.5, "cysts": "Tin"} for name in ("Morning", "morning", "Worded")],
    "live_wants": [{"tank": "Pool"}],
    "breeding": [
        {"species": "Minnow", "tank": "Pool", "date": "2026-10-04", "eggs": 50, "water_temperature": 28},
        {"species": "Minnow", "tank": "Pool", "date": "2026-10-04", "eggs": 50, "water_temperature": 9},
        {"species": "Minnow", "tank": "Pool", "date": "2025-10-04", "eggs": 50, "water_temperature": 20},
        {"species": "Minnow", "tank": "Pool", "date": "2026-10-04"},
    ],
    "maintenance": [{"task": "Change water", "tank": "Pool", "last_done": "2026-01-01"}],
    "log": [{"date": "2026-01-01", "tank": "Pool", "nitrate": 20}, {"date": "2026-01-02", "tank": "Pool"}],
    "known": [{"known_line": "Pool: Not known of this tank", "until": "2026-12-31", "no_worse": "act", "reason": "r"}],
    "doses": [
        {"product": "Salt", "dose_kind": "salt", "dose": 3, "dose_unit": "g", "stated_for": 1, "dose_into": "all the water"},
        {"product": "Drops", "dose_kind": "other", "dose_unit": "drops", "stated_for": 10},
    ],
}  # fmt: skip
# In the last row of each list, words where numbers and days belong.
WORDS = {
    "species": ("group_min", "own_ph_low", "lifespan_low"), "waters": ("temperature", "nitrate"), "tanks": ("width", "filter_flow", "cycled_on"),
    "livestock": ("length_now", "date_in"), "foods": ("stock", "protein"), "feeding": ("share",), "hatching": ("stock", "ph"), "feeds": ("hour",),
    "live_wants": ("nauplii",), "breeding": ("eggs", "counted_on"), "maintenance": ("every_days", "minutes"), "log": ("ammonia", "losses"),
    "known": ("until",), "doses": ("dose",),
}  # fmt: skip


def rare_room() -> Room:
    """The room as people typed it."""
    tables = {key: typed(key, pd.DataFrame(rows, dtype=object).fillna("")) for key, rows in LISTS.items()}
    choice = dict(blank_room().choice) | dict.fromkeys(("stocking", "card"), "Pool")
    return changed(blank_room(), **tables, plan_date=pd.Timestamp(DAY), choice=choice)


def worded_room() -> Room:
    """The same, with words pasted where numbers belong: to oracles such cells are blank."""
    words = {key: {len(LISTS[key]) - 1: cells} for key, cells in WORDS.items()}
    room = rare_room()
    tables = {key: getattr(room, key).copy() for key in WORDS}
    for key, cells in WORDS.items():
        for cell in cells:
            tables[key].loc[len(LISTS[key]) - 1, cell] = None
    return changed(room, **tables, words=words)


# A floor of 64 x 36 = 2304 cm2 for four that hold 24 x 24 = 576 each; a filter that moves all water as often as is wanted.
EDGE = {
    "tank": "Edge", **BOX, "length": 64, "width": 36, "height": 40, "net_volume_measured": 50, "temperature": 24, "water": "Tap",
    "change_share": 0.2, "change_interval": 30, "meals": 2, "fasting_days": 0, "cycled": "yes",
}  # fmt: skip
AT_THE_LIMITS = {
    "species": [
        {"species": "Ground", "kind": "fish", "adult_length": 12, "body_form": "fusiform", "bottom_room": "holds ground", "temper": 2,
         "temperature_low": 22, "temperature_high": 26, "flow": "gentle"},
    ],
    "waters": [{"water": "Tap", "temperature": 12, "gh": 8, "kh": 5, "nitrate": 10}],
    "livestock": [{"tank": "Edge", "species": "Ground", "animals": 4}],
    "foods": [{"food": "Flake", "protein": 0.45, "dry_matter": 0.9}],
    "feeding": [{"tank": "Edge", "food": "Flake", "share": 1}],
    "log": [
        {"date": "2026-10-01", "tank": "Edge", "nitrite": 0.5, "ammonia": 0.3, "ph": 8, "temperature": 24},
        {"date": "2026-10-03", "tank": "Edge", "nitrate": 30},
    ],
}  # fmt: skip


def room_at_the_limits() -> Room:
    """What is just as much as is allowed is not too much.

    Nitrate climbs past both levels.
    """
    blank = blank_room()
    often = blank.const["turnover_gentle"]
    lists = AT_THE_LIMITS | {"tanks": [EDGE | {"filter_flow": 50 * often, "flow": "gentle"}]}
    tables = {key: typed(key, pd.DataFrame(rows, dtype=object).fillna("")) for key, rows in lists.items()}
    settings = dict(blank.settings) | {"nitrate_target": 15.0, "nitrate_act": 20.0, "altitude": 0.0}
    return changed(blank, **tables, settings=settings, plan_date=pd.Timestamp(DAY))
