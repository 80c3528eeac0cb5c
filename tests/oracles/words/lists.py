"""What the flags say that every list has: names that lead nowhere, rows begun, words for numbers, names used twice."""

from collections.abc import Callable
from typing import Any

from tests.oracles import lists
from tests.oracles.tools import Room, blank
from tests.oracles.words.saying import Says, named, typed

# Where a name must stand, as people call that list.
LISTS = {
    "body_forms": "Body forms",
    "waters": "Waters",
    "tanks": "Tanks",
    "species": "Species",
    "foods": "Foods",
    "hatching": "Cysts",
    "tasks": "Task list",
    "suppliers": "Suppliers",
    "stock": "Stock list",
}
HOLDS = LISTS | {
    "livestock": "Livestock", "feeding": "Feeding plan", "feeds": "Feeds", "live_wants": "Typed wants",
    "breeding": "Breeding", "maintenance": "Maintenance", "log": "Log", "stock": "Stock list", "ledger": "Sales and losses", "proposals": "Proposals",
}  # fmt: skip
ENDS = {
    f"{own}{key}_{end}": f"{whose}{name} {word}"
    for own, whose in (("", ""), ("own_", "Own "))
    for key, name in (("temperature", "Temperature"), ("ph", "pH"), ("gh", "GH"), ("kh", "KH"))
    for end, word in (("low", "from"), ("high", "to"))
}
REPORTED = {key: label for key, label in ENDS.items() if not key.startswith("own_")}
# What cells of numbers and days are called, in the order in which they stand in the row.
CALLED: dict[str, dict[str, str]] = {
    "species": {
        "adult_length": "Adult length", "group_min": "Smallest group", "group_best": "Best group", "volume_min": "Smallest tank",
        "temper": "Temper 1 gentle to 5 hostile", **ENDS, "mass_typed": "Weighed mass", "factor_own": "Own mass factor",
        "exponent_own": "Own mass exponent", "length_min": "Shortest tank", "lifespan_low": "Lives from", "lifespan_high": "to",
        "mouth_share": "Swallows, share of own length", "food_size": "Largest food particle", "hatch_temperature": "Days hold at",
        "days_to_hatch": "Days to hatch", "days_to_swim": "Days to swim free",
    },
    "waters": {
        "temperature": "Temperature", "ph": "pH", "gh": "GH", "kh": "KH", "nitrate": "Nitrate (NO3)", "ammonia": "Ammonia",
        "target_gh": "Target GH", "target_kh": "Target KH", "batch": "Batch",
    },
    "tanks": {
        "length": "Length", "width": "Width", "height": "Height", "second_side": "Short side or bow", "glass": "Glass",
        "water_below_rim": "Water below rim", "substrate_depth": "Substrate depth", "porosity": "Water in the substrate",
        "rock": "Rock", "wood": "Wood", "net_volume_measured": "Net volume measured", "temperature": "Set temperature",
        "ph": "pH kept", "gh": "GH kept", "kh": "KH kept", "filter_flow": "Filter flow",
        "plant_uptake": "Nitrate plants take in a week", "cycled_on": "Since", "change_share": "Water change",
        "change_interval": "every", "meals": "Meals a day", "fasting_days": "Fasting days a week",
    },
    "livestock": {"animals": "How many", "counted_on": "Counted on", "length_now": "Length now", "measured_on": "Measured on", "feed_factor": "Feeding factor", "males": "Males",
                  "females": "Females", "date_in": "Came in", "quarantine_until": "Quarantine until"},
    "foods": {"stock": "On hand", "protein": "Protein on the label", "dry_matter": "Dry matter",
              "spoon_mass": "Level teaspoon", "piece_mass": "One piece", "particle": "Particle size", "pack_price": "Price of a pack", "pack_mass": "Pack"},
    "feeding": {"share": "Share of the ration"},
    "hatching": {
        "stock": "On hand", "temperature": "Temperature", "vessel": "Vessel holds", "vessels": "Vessels", "salinity": "Salt",
        "ph": "pH", "density": "Cysts in a litre", "per_gram": "Cysts in a gram", "hatched": "Share that hatches",
        "harvested": "Share harvested", "oldest": "Oldest when fed",
    },
    "feeds": {"hour": "Hour of the day", "share": "Share of the day's nauplii"},
    "live_wants": {"nauplii": "Nauplii a day"},
    "breeding": {
        "date": "Spawned or born on", "eggs": "Eggs or young", "water_temperature": "Water temperature", "adults_out_on": "Out on",
        "fry_counted": "Young counted", "counted_on": "Counted on", "done_to": "Steps done up to",
        "hatched_share": "Share that hatches", "swimming_share": "of these swim", "raised_share": "of these are raised",
        "sale_length": "Length to part with", "fry_meals": "Meals a day", "nauplii_each": "Nauplii each a meal",
    },
    "log": {
        "date": "Date", "temperature": "Temperature", "ph": "pH", "gh": "GH", "kh": "KH", "ammonia": "Ammonia",
        "nitrite": "Nitrite (NO2)", "nitrate": "Nitrate (NO3)", "litres_changed": "Water changed", "losses": "Losses",
        "arrivals": "Arrivals",
    },
    "known": {"until": "Until"},
    "doses": {"dose": "Dose", "stated_for": "For so much water"},
    "maintenance": {"every_days": "Every", "last_done": "Last done", "minutes": "Minutes"},
    "stock": {
        "on_hand": "On hand", "counted_on": "Counted on", "reserved": "Reserved", "quarantine_until": "Quarantine until", "came_in": "Newest delivery",
        "label": "Labels", "cost": "Cost", "price": "Price", "minimum": "Minimum", "order_up_to": "Order up to",
        "incoming": "Incoming", "ordered_on": "Ordered on", "incoming_on": "Due on", "sold": "Sold", "lost": "Lost", "length_now": "Length now",
        "measured_on": "Measured on", "males": "Males", "females": "Females", "feed_factor": "Feeding factor",
    },
    "ledger": {"date": "Date", "pieces": "How many", "each": "Price or cost of one"},
    "suppliers": {"delivery_days": "Days from order to delivery", "least_order": "Smallest order", "settled_to": "Credit settled up to"},
    "proposals": {
        "adult_length": "Adult length", "group_min": "Smallest group", "group_best": "Best group", "volume_min": "Smallest tank",
        "lifespan_low": "Lives from", "lifespan_high": "Lives to", **REPORTED, "temper": "Temper 1 gentle to 5 hostile",
        "mouth_share": "Swallows, share of own length", "food_size": "Largest food particle",
    },
}  # fmt: skip
# Names that a row cannot do without, as their columns are called.
NAMED = {
    "species": "Species", "water": "Water", "tank": "Tank", "food": "Food", "cysts": "Cysts", "feed": "Feed", "task": "Task",
    "code": "Code", "supplier": "Supplier", "proposed": "Species proposed", "first_water": "First water",
    "second_water": "Second water", "body_form": "Body form", "grow_tank": "Growing-on tank",
    "known_line": "Line of Attention", "no_worse": "While at most", "reason": "Reason",
    "product": "Product", "dose_kind": "Kind",
}  # fmt: skip
CALLED_HERE = {
    ("tanks", "water"): "Water it is filled with",
    ("breeding", "tank"): "Tank it happened in",
    ("hatching", "food"): "Food it becomes",
    ("stock", "tank"): "Display tank",
    ("log", "task"): "Task done",
    ("ledger", "code"): "Article",
    ("ledger", "event"): "What",
    ("ledger", "to_tank"): "To tank",
}


def called(table: str, key: str) -> str:
    """What a person calls a column of a list."""
    return CALLED_HERE.get((table, key)) or CALLED[table].get(key) or NAMED[key]


def lacks(table: str) -> Callable[[Room], Any]:
    """What each row still lacks of what it cannot do without."""

    def tell(room: Room) -> list[str]:
        empty = {key: blank(getattr(room, table)[key]) for key in lists.WANTED[table]}
        rows = range(len(getattr(room, table)))
        return [", ".join(called(table, key) for key in empty if empty[key].iloc[row]) for row in rows]

    return tell


def worded(table: str) -> Callable[[Room], Any]:
    """The cells of each row that hold words where a number or a day belongs."""

    def tell(room: Room) -> list[str]:
        rows = getattr(room, "words", {}).get(table, {})
        found = (rows.get(row, ()) for row in range(len(getattr(room, table))))
        return [", ".join(label for key, label in CALLED[table].items() if key in keys) for keys in found]

    return tell


def none(room: Room) -> Any:
    """In a fresh workbook there is nothing of this to be told."""
    return ""


def bounded(table: str) -> Callable[[Room], Any]:
    """The cells of each row that hold a number that can't be, in the order of the row."""

    def tell(room: Room) -> list[str]:
        order = list(CALLED[table])

        def place(key: str) -> int:
            return order.index(key if key in order else key.removeprefix("own_").removeprefix("club_"))

        def label(key: str) -> str:
            if key in CALLED[table]:
                return called(table, key)
            whose, _, bare = key.partition("_")
            return f"{called(table, bare)}: own" if whose == "own" else called(table, bare)

        return [", ".join(map(label, sorted(keys, key=place))) for keys in lists.outside(room, table)]

    return tell


def held(table: str, link: str) -> Callable[[Room], list[str]]:
    """The lists that hold a row's name, and how often."""
    return lambda room: [
        ", ".join(f"{HOLDS[other]} {many}" for other, many in found.items())
        for found in lists.holding(room, table, link)
    ]


def says(table: str, key: str) -> Says | None:
    """One of the flags that all lists share."""
    if key.startswith("unknown_"):
        link = key.removeprefix("unknown_")
        there = LISTS[lists.LINKS[table][link]]
        # Whatever hangs on that name is left out, and nothing else says so.
        return Says(
            "act",
            f"{called(table, link)} not known",
            "'{name}' does not stand in the list "
            + there
            + ", so what hangs on it is not reckoned; rows with it: {rows}",
            f"Pick a name from the dropdown, or add it to {there} first; a new name there is followed by "
            "'shoalbook build' on this file.",
            name=named(typed(table, link)),
            rows=named(held(table, link)),
        )
    if key == "unfinished":
        do = "Fill the cell, or clear the row."
        why = "this row was begun, but still lacks {gaps}"
        return Says("watch", "Row not finished", why, do, gaps=named(lacks(table)))
    if key == "not_read":
        why = "taken as unknown, because a number or date was pasted or typed as text: {cells}"
        do = "Type it anew: a plain number without its unit, or a date such as 2026-03-31."
        return Says("watch", "Words instead of a number", why, do, cells=named(worded(table)))
    if key == "out_of_bounds":
        why = "outside of what can be, so what hangs on it is unknown or wrong: {cells}"
        do = "Check the cell: its unit, a decimal point, a % sign; clear it where it is not known."
        return Says("watch", "Number that can't be", why, do, cells=named(bounded(table)))
    if key == "handed_gone":
        why = "cells that held something when this file was handed out and are blank: {cells} or more"
        do = "Take them from the file as it was handed out; a value of your own belongs in the column beside."
        return Says("note", "Handed-out cells cleared", why, do, cells=none)
    if key == "formulas_gone":
        do = "Copy those cells from the row above or below."
        return Says("watch", "Formulas gone", "no formula stands any more in this row under: {cells}", do, cells=none)
    if key == "workings_gone":
        why = "on the sheet of its workings no formula stands any more in this row, in the columns{cells}"
        return Says("act", "Workings gone", why, "Copy those cells from the row above or below.", cells=none)
    if key == "twice":
        why = "'{name}' stands in more than one row, so rows that point to it find only the first"
        twice = named(typed(table, lists.NAMES[table]))
        return Says("act", "Name used twice", why, "Give each row a name of its own.", name=twice)
    if key == "nearly_full":
        do = "Run 'shoalbook build' on this file: the fresh one has ready rows again."
        return Says("note", "List nearly full", "only a few ready rows are left in this list", do)
    return None
