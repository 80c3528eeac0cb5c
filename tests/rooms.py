"""Rooms to reckon with: the starting sets, random ones, and what the workbook makes of them."""

import copy
import datetime
import functools
import math
import random
from collections import ChainMap
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pandas as pd
from hypothesis import strategies as st

from tests.needed import as_asked
from tests.oracles import stock_now
from tests.oracles.tools import Room
from workbook.build import Built, Plan, compute
from workbook.cells.pages import Records
from workbook.editions import EDITIONS, Edition

TEMPLATES = Path(__file__).parent.parent / "templates"
EPOCH = pd.Timestamp("1899-12-30")
ENDS = [f"{p}_{end}" for p in ("temperature", "ph", "gh", "kh") for end in ("low", "high")]
OWN = [f"own_{end}" for end in ENDS]

# Columns in the files; numbers with a span and decimals for random rooms, so narrow that values meet at their limits.
SPANS = {"temperature": (18.0, 30, 0), "ph": (5.0, 8.5, 1), "gh": (0.0, 20, 0), "kh": (0.0, 12, 0)}
RANGES = {f"{own}{p}_{end}": span for own in ("", "own_") for p, span in SPANS.items() for end in ("low", "high")}
NUMBERS: dict[str, dict[str, tuple[float, float, int]]] = {
    "species": {
        "adult_length": (1, 25, 1), "mass_typed": (0.1, 60, 2), "factor_own": (0.001, 0.03, 4), "exponent_own": (2.8, 3.2, 2),
        "lifespan_low": (1, 4, 0), "lifespan_high": (4, 15, 0), "group_min": (1, 10, 0), "group_best": (5, 20, 0), "volume_min": (10, 200, 0),
        "length_min": (20, 120, 0), "temper": (1, 5, 0), "mouth_share": (0, 0.8, 2), "food_size": (0.1, 4, 1), "hatch_temperature": (20, 30, 0),
        "days_to_hatch": (1, 20, 0), "days_to_swim": (1, 8, 0), **RANGES,
    },
    "waters": {**SPANS, "nitrate": (0, 45, 0), "ammonia": (0, 0.5, 1), "target_gh": (0, 20, 0), "target_kh": (0, 12, 0), "batch": (1, 300, 0)},
    "tanks": {
        "length": (8, 160, 0), "width": (10, 60, 0), "height": (6, 70, 0), "second_side": (2, 40, 0), "glass": (0.4, 1.5, 1), "water_below_rim": (0, 8, 0),
        "substrate_depth": (0, 8, 0), "porosity": (0.2, 0.6, 1), "rock": (0, 30, 0), "wood": (0, 8, 0), "net_volume_measured": (10, 300, 0), **SPANS,
        "filter_flow": (0, 2500, -1), "plant_uptake": (0, 10, 0), "change_share": (0.1, 1, 1), "change_interval": (1, 21, 0), "meals": (1, 4, 0),
        "fasting_days": (0, 3, 0),
    },
    "livestock": {"animals": (0, 20, 0), "males": (0, 8, 0), "females": (0, 8, 0), "length_now": (0.5, 15, 1), "feed_factor": (0.5, 2, 1)},
    "foods": {"protein": (0, 0.9, 1), "dry_matter": (0.1, 1, 1), "spoon_mass": (0.5, 5, 1), "piece_mass": (0.1, 4, 1), "particle": (0.1, 4, 1), "pack_price": (0, 30, 0),
              "pack_mass": (20, 500, 0), "stock": (0, 200, -1)},
    "feeding": {"share": (0, 1, 1)},
    "hatching": {"stock": (0, 60, 0), "temperature": (15, 33, 0), "vessel": (0.2, 30, 1), "vessels": (1, 5, 0), "salinity": (5, 35, 0), "ph": (7.0, 10, 1),
                 "density": (0.1, 5, 1), "per_gram": (200_000, 300_000, -3), "hatched": (0.3, 1, 1), "harvested": (0.5, 1, 1), "oldest": (0, 14, 0)},
    "feeds": {"hour": (0, 24, 0), "share": (0, 1, 1)},
    "live_wants": {"nauplii": (0, 90_000, -3)},
    "breeding": {"eggs": (0, 300, -1), "water_temperature": (8, 32, 0), "fry_counted": (0, 200, -1), "hatched_share": (0, 1, 1), "swimming_share": (0, 1, 1),
                 "raised_share": (0, 1, 1), "sale_length": (0.3, 12, 1), "fry_meals": (1, 6, 0), "nauplii_each": (10, 300, -1)},
    "known": {},
    "doses": {"dose": (0.1, 40, 1), "stated_for": (1, 100, 0)},
    "maintenance": {"every_days": (1, 30, 0), "minutes": (0, 60, 0)},
    "log": {**SPANS, "ammonia": (0, 1, 1), "nitrite": (0, 1, 1), "nitrate": (0, 100, 0), "litres_changed": (0, 60, -1), "losses": (0, 3, 0), "arrivals": (0, 4, 0)},
}  # fmt: skip
# Cells that people leave blank although they know the rest of the row: how often.
SPARSE = {("log", key): 0.3 for key in (*SPANS, "ammonia", "nitrite", "losses", "arrivals", "species")} | {
    ("stock", "counted_on"): 0.5, ("stock", "ordered_on"): 0.5, ("ledger", "each"): 0.6, ("log", "nitrate"): 0.1, ("log", "litres_changed"): 0.6, ("waters", "target_gh"): 0.3, ("waters", "target_kh"): 0.3,
    **{("breeding", key): 0.5 for key in ("fry_counted", "water_temperature", "done_to", "adults_out_on", "adults_out")},
    **{("hatching", key): 0.4 for key in ("salinity", "density", "per_gram", "oldest")}, ("breeding", "sale_length"): 0.4,
}  # fmt: skip
# Pasted over the check of a cell, out of all sense.
ODD = {("log", "temperature"): (-5.0, 72), ("log", "ph"): (1.0, 75), ("log", "gh"): (95.0,), ("log", "kh"): (-1.0, 95),
       ("log", "ammonia"): (55.0,), ("log", "nitrite"): (-0.5, 120), ("log", "nitrate"): (1500.0,),
       ("hatching", "temperature"): (10.0, 40.0), ("hatching", "salinity"): (0.0, 40.0), ("hatching", "ph"): (5.0, 12.0), ("hatching", "density"): (9.0, 0.05),
       ("tanks", "length"): (0.0, 1.0), ("tanks", "width"): (1.0,), ("tanks", "height"): (0.5,), ("tanks", "second_side"): (0.0, 90)}  # fmt: skip
BLENDED = ("temperature", "gh", "kh", "nitrate")
BLEND = ("first_water", "second_water", "target_gh", "target_kh", "batch")
TEXTS = {
    "species": ["species", "scientific", "kind", "body_form", "zone", "swim", "bottom_room", "bites_fins", "long_fins", "eats_shrimp", "eats_snails",
                "eats_plants", "light", "cover", "ground", "background", "flow", "colour_group", "diet", "spawning", "eats_own_eggs", "first_food",
                "family", "taxon_order", "home", "role", "active_at", "spreads", "ease", "offered",
                "confidence_size", "confidence_water", "confidence_keeping", "confidence_breeding", "source", "caution", "counts", "own_note"],
    "waters": ["water", "water_kind", "first_water", "second_water", "note"],
    "tanks": ["tank", "place", "shape", "measured", "water", "lid", "planted", "light", "cover", "ground", "background", "flow", "cycled",
              "floor_checked", "standing", "tank_note"],
    "livestock": ["tank", "species", "origin", "stock_note"],
    "foods": ["food", "food_form", "piece", "food_note", "food_source"],
    "feeding": ["tank", "food", "feeding_note"],
    "hatching": ["cysts", "food", "cysts_note"],
    "feeds": ["feed", "cysts", "feed_note"],
    "live_wants": ["tank", "live_note"],
    "breeding": ["species", "tank", "adults_out", "grow_tank", "breeding_note"],
    "maintenance": ["task", "tank", "supplies", "task_note"],
    "log": ["tank", "task", "work", "species", "log_note"],
    "known": ["known_line", "no_worse", "reason"],
    "doses": ["product", "dose_kind", "dose_unit", "dose_into", "dose_note"],
}  # fmt: skip
DATES = {"tanks": ["cycled_on"], "livestock": ["counted_on", "measured_on", "date_in", "quarantine_until"], "maintenance": ["last_done"],
         "breeding": ["date", "adults_out_on", "counted_on", "done_to"], "log": ["date"], "known": ["until"]}  # fmt: skip
SETTINGS = {"room_name": str, "plan_date_typed": pd.Timestamp, "altitude": float, "room_temperature": float, "range_choice": str,
            "nitrate_target": float, "nitrate_act": float, "ammonia_kit": str, "yield_choice": str, "energy_price": float, "currency": str, "lead_days": float}  # fmt: skip
LISTS = tuple(TEXTS)
# What a shop has in the place of Livestock.
NUMBERS |= {
    "stock": {"on_hand": (0, 30, 0), "reserved": (0, 12, 0), "incoming": (0, 20, 0), "cost": (0.5, 10, 1), "price": (0.5, 20, 1), "minimum": (0, 20, 0), "order_up_to": (5, 40, 0),
              "sold": (0, 30, 0), "lost": (0, 5, 0), "label": (0, 4, 0), "length_now": (0.5, 15, 1), "males": (0, 8, 0), "females": (0, 8, 0), "feed_factor": (0.5, 2, 1)},
    "suppliers": {"delivery_days": (0, 20, 0), "least_order": (0, 300, 0)}, "ledger": {"pieces": (0, 12, 0), "each": (0.5, 20, 1)},
}  # fmt: skip
TEXTS |= {
    "stock": ["code", "species", "goods", "goods_kind", "tank", "supplier", "stock_note"],
    "suppliers": ["supplier", "supplier_note"],
    "ledger": ["code", "event", "to_tank", "who", "ledger_note"],
}
DATES |= {
    "ledger": ["date"],
    "suppliers": ["settled_to"],
    "stock": ["counted_on", "ordered_on", "quarantine_until", "measured_on", "came_in", "incoming_on"],
}
SHOP_LISTS = (*(key for key in LISTS if key != "livestock"), "stock", "suppliers", "ledger")
LABEL_FIELDS = tuple(
    f"show_{what}" for what in ("latin", "length", "group", "temperature", "ph", "code", "sale", "price")
)
# What a club's member has besides.
OVERRIDDEN: dict[str, tuple[str, ...]] = {
    "species": ("adult_length", "group_min", "volume_min", "temper"), "foods": ("protein", "dry_matter", "spoon_mass", "piece_mass", "particle"), "tasks": ("usual_days", "usual_minutes", "usual_supplies"),
    "constants": ("value",), "body_forms": ("mass_factor", "mass_exponent"),
}  # fmt: skip
NUMBERS["proposals"] = {
    key: NUMBERS["species"][key]
    for key in (
        "adult_length",
        "group_min",
        "group_best",
        "volume_min",
        "lifespan_low",
        "lifespan_high",
        *ENDS,
        "temper",
        "mouth_share",
        "food_size",
    )
}
TEXTS["proposals"] = ["proposed", "proposer", "why", "proposal_source", "sure", "scientific", "kind", "body_form", "zone", "swim", "bottom_room", "bites_fins", "long_fins", "eats_shrimp",
                      "eats_snails", "eats_plants", "light", "cover", "ground", "background", "flow", "diet", "spawning"]  # fmt: skip
CLUB_LISTS = (*LISTS, "proposals")
LINES_COMPARED = 30
CHOICES = ("stocking", "path", "log", "card", "candidates", "chain")
# What candidates may be asked for besides the tank; numbers as people type them.
FILTERS = ("instead_of", "zone", "longest", "temper_most", "easy", "just")
READINGS = ("Temperature", "pH", "GH", "KH", "Ammonia", "Nitrite", "Nitrate")


# --- rooms from the starting sets, read by pandas alone ---


def _read(path: Path) -> pd.DataFrame:
    return pd.read_csv(path, dtype=str, keep_default_na=False, encoding="utf-8").map(str.strip)


def typed(table: str, texts: pd.DataFrame) -> pd.DataFrame:
    """A table of texts with every column of its kind."""
    found = pd.DataFrame(index=range(len(texts)))
    columns: dict[str, pd.Series] = {}
    for keys, blank in ((TEXTS[table], ""), (NUMBERS[table], ""), (DATES.get(table, []), "")):
        for key in keys:
            columns[key] = (
                texts[key].reset_index(drop=True) if key in texts else pd.Series([blank] * len(texts), dtype=object)
            )
    for key in NUMBERS[table]:
        columns[key] = pd.to_numeric(columns[key], errors="raise").astype(float)
    for key in DATES.get(table, []):
        columns[key] = pd.to_datetime(columns[key].replace("", None))
    for key in TEXTS[table]:
        columns[key] = columns[key].astype(object)
    return found.assign(**columns)


def _species(folder: Path) -> pd.DataFrame:
    species, own = _read(TEMPLATES / "shared" / "species.csv"), _read(folder / "own_ranges.csv")
    by_name = {row.pop("species").casefold(): row for row in own.to_dict("records")}
    rows = [row | by_name.get(row["species"].casefold(), {}) for row in species.to_dict("records")]
    return typed("species", pd.DataFrame(rows).fillna(""))


def _settings(path: Path) -> dict[str, Any]:
    given = dict(_read(path).itertuples(index=False))
    return {key: kind(given[key]) if given.get(key) else None for key, kind in SETTINGS.items()}


def _most_often(table: pd.DataFrame, key: str = "tank") -> str:
    """The name in the most rows: with it the dropdowns start."""
    groups = table[key].value_counts(sort=False)
    return str(groups.idxmax()) if len(groups) else ""


def _own_or_shared(folder: Path, key: str) -> Path:
    """A list that the set leaves out comes with the package."""
    own = folder / f"{key}.csv"
    return own if own.exists() else TEMPLATES / "shared" / own.name


def as_livestock(stock: pd.DataFrame, here: pd.Series | None = None) -> pd.DataFrame:
    """What the stock list says of animals, as a keeper would type it; goods are no animals. here: how many by now."""
    nameless = stock["species"] == ""
    counted = stock["on_hand"] if here is None else here.set_axis(stock.index)
    animals = counted.where(~nameless, (stock["code"] != "").map({True: 0.0, False: math.nan}).astype(float))
    found = {
        "tank": stock["tank"],
        "species": stock["species"],
        "origin": stock["supplier"],
        "date_in": stock["came_in"],
        "animals": animals,
    }
    same_name = ("males", "females", "length_now", "measured_on", "feed_factor", "quarantine_until", "stock_note")
    never = pd.Series(pd.NaT, index=stock.index, dtype="datetime64[ns]")
    return pd.DataFrame(found | {"counted_on": never} | {key: stock[key] for key in same_name})


def lists_of(room: Room) -> tuple[str, ...]:
    """The lists that are typed in the room's edition."""
    return {"shop": SHOP_LISTS, "club": CLUB_LISTS}.get(room.edition, LISTS)


def _question(path: Path) -> dict[str, Any]:
    given = dict(_read(path).itertuples(index=False))
    names = {"asked", *(f"kind_{n}" for n in range(1, 7))}
    return {key: value if key in names else float(value) for key, value in given.items() if value}


def shop_from(folder: Path, plan_date: str = "2026-01-01") -> Room:
    """A shop's starting set."""
    room = room_from(folder, plan_date, SHOP_LISTS)
    more = _read(TEMPLATES / "shared" / "shop_constants.csv")
    for key in ("value", "low", "high"):
        more[key] = pd.to_numeric(more[key]).astype(float)
    constants = pd.concat([room.constants, more], ignore_index=True)
    return changed(
        room,
        edition="shop",
        constants=constants,
        const=dict(zip(constants["key"], constants["value"], strict=True)),
        question=_question(folder / "question.csv"),
        label_fields=dict.fromkeys(LABEL_FIELDS, "yes"),
    )


def room_from(folder: Path, plan_date: str = "2026-01-01", lists: tuple[str, ...] = LISTS) -> Room:
    """A starting set as a room; the plan date counts where none is typed."""
    shared = TEMPLATES / "shared"
    tables = {key: typed(key, _read(_own_or_shared(folder, key))) for key in lists if key != "species"}
    if "stock" in tables:
        tables["livestock"] = as_livestock(tables["stock"])
    constants, forms, checks, tasks = (
        _read(shared / f"{name}.csv") for name in ("constants", "body_forms", "checks", "tasks")
    )
    for table, keys in (
        (constants, ("value", "low", "high")),
        (forms, ("mass_factor", "mass_exponent")),
        (checks, ("number", "expected", "tolerance")),
        (tasks, ("usual_days", "usual_minutes")),
    ):
        for key in keys:
            table[key] = pd.to_numeric(table[key]).astype(float)
    settings = _settings(folder / "settings.csv")
    housed = tables["livestock"][tables["livestock"]["species"] != ""] if "stock" in tables else tables["livestock"]
    chosen = _most_often(housed)
    others = housed[housed["tank"] != chosen]
    logged = _most_often(tables["log"]) or chosen
    return Room(
        species=_species(folder), **tables, settings=settings, const=dict(zip(constants["key"], constants["value"], strict=True)),
        body_forms=forms, tasks=tasks, heater_sizes=[float(w) for w in _read(shared / "heater_sizes.csv")["heater_power"]],
        choice={"view": chosen, "stocking": chosen, "path": chosen, "candidates": _most_often(others) or chosen, "log": logged, "card": chosen, "chain": chosen, "log_parameter": READINGS[-1], "care": _most_often(housed, "species")},
        plan_date=settings["plan_date_typed"] or pd.Timestamp(plan_date),
        constants=constants, checks=checks, references=_read(shared / "references.csv"), **_plan(folder),
    )  # fmt: skip


PLAN_LINES, PLAN_VALUES = 12, 2
PLAN_TEXTS = {
    "plan_lines": ("do", "species", "from_tank", "to_tank", "done"),
    "plan_values": ("tank", "shape", "water", "done"),
}
PLAN_NUMBERS = {
    "plan_lines": ("number",),
    "plan_values": ("temperature", "length", "width", "height", "change_share", "change_interval", "filter_flow"),
}


def plan_of(rows: list[dict[str, Any]], table: str = "plan_lines") -> pd.DataFrame:
    """A form of the plan, with so many of its lines filled."""
    many = PLAN_LINES if table == "plan_lines" else PLAN_VALUES
    rows = [*rows, *[{}] * (many - len(rows))]
    columns: dict[str, Any] = {
        key: pd.Series([row.get(key, "") for row in rows], dtype=object) for key in PLAN_TEXTS[table]
    }
    for key in PLAN_NUMBERS[table]:
        columns[key] = pd.Series([float(row.get(key) or math.nan) for row in rows], dtype=float)
    if table == "plan_lines":
        columns["on_day"] = pd.to_datetime(pd.Series([row.get("on_day") or None for row in rows]))
    return pd.DataFrame(columns)


def _plan(folder: Path) -> dict[str, pd.DataFrame]:
    """What a starting set plans."""
    files = {table: folder / f"{table}.csv" for table in PLAN_TEXTS}
    return {
        table: plan_of(_read(path).to_dict("records") if path.is_file() else [], table) for table, path in files.items()
    }


def short_list(names: list[str]) -> pd.DataFrame:
    """Species picked for the chart, one a line."""
    return pd.DataFrame({"species": names + [""] * (LINES_COMPARED - len(names))}, dtype=object)


def _handed(folder: Path, room: Room) -> dict[str, pd.DataFrame]:
    """What the club says, and beside it what the member's own files say."""
    found = {}
    for table, keys in OVERRIDDEN.items():
        frame, name = (
            getattr(room, table),
            {"constants": "label", "body_forms": "form", "tasks": "task"}.get(table) or KEYS[table],
        )
        own = _read(_own_or_shared(folder, f"own_{table}")).set_index(name)
        columns: dict[str, pd.Series] = {}
        for key in keys:
            said = [own[f"own_{key}"].get(row, "") for row in frame[name]]
            number = pd.api.types.is_numeric_dtype(frame[key])
            columns[f"club_{key}"] = frame[key]
            columns[f"own_{key}"] = (
                pd.to_numeric(pd.Series(said, dtype=object).replace("", None)).astype(float)
                if number
                else pd.Series(said, dtype=object)
            )
        found[table] = pd.DataFrame(columns)
    return found


def with_handed(room: Room, handed: dict[str, pd.DataFrame], **more: Any) -> Room:
    """A member's room in which this counts: where the member says something, that, else what the club says."""
    tables: dict[str, Any] = {}
    for table, keys in OVERRIDDEN.items():
        frame = getattr(room, table).copy()
        for key in keys:
            own = handed[table][f"own_{key}"]
            frame[key] = own.where(own.notna() & (own.astype(object) != ""), handed[table][f"club_{key}"])
        tables[table] = frame
    const = dict(zip(tables["constants"]["key"], tables["constants"]["value"], strict=True))
    return changed(room, **{**tables, "const": const, "handed": handed, **more})


def club_from(folder: Path, plan_date: str = "2026-01-01") -> Room:
    """A club's starting set."""
    room = room_from(folder, plan_date, CLUB_LISTS)
    names = (
        [row["species"] for row in _read(folder / "compared.csv").to_dict("records")]
        if (folder / "compared.csv").exists()
        else []
    )
    return with_handed(room, _handed(folder, room), edition="club", compared=short_list(names))


@functools.cache
def demo_club() -> Room:
    """The invented member of an invented club."""
    return club_from(TEMPLATES / "club-demo")


@functools.cache
def blank_club() -> Room:
    """What a club hands out."""
    return club_from(TEMPLATES / "club-blank", "2026-03-02")


@functools.cache
def demo_room() -> Room:
    """The starting set with something of everything."""
    return room_from(TEMPLATES / "demo")


@functools.cache
def demo_shop() -> Room:
    """The invented shop."""
    return shop_from(TEMPLATES / "shop-demo")


@functools.cache
def blank_shop() -> Room:
    """A shop in which nothing is typed yet."""
    return shop_from(TEMPLATES / "shop-blank", "2026-03-02")


@functools.cache
def blank_room() -> Room:
    """The starting set of somebody who has typed nothing yet."""
    return room_from(TEMPLATES / "blank", "2026-03-02")


def changed(room: Room, **tables: Any) -> Room:
    """A copy with other tables, with nothing remembered, nor what a workbook of the first one said."""
    other = copy.copy(room)
    for key, value in tables.items():
        setattr(other, key, value)
    other.remembered, other.sentences = {}, {}
    if other.edition == "shop" and "livestock" not in tables:
        other.livestock = as_livestock(other.stock, stock_now.here(other))
        other.remembered = {}
    return other


def few_species(room: Room, *more: str) -> Room:
    """The same room with only those species of its library that it names, and some more."""
    named = {name.casefold() for name in more}
    texts = [getattr(room, key)[text] for key in lists_of(room) if key != "species" for text in TEXTS[key]]
    if room.edition == "club":
        texts.append(room.compared["species"])
    named |= {str(text).casefold() for column in texts for text in column}
    named |= {str(text).casefold() for text in (*room.choice.values(), *room.question.values())}
    kept = room.species["species"].str.casefold().isin(named)
    tables: dict[str, Any] = {"species": room.species[kept].reset_index(drop=True)}
    if room.edition == "club":
        tables["handed"] = room.handed | {"species": room.handed["species"][kept].reset_index(drop=True)}
    return changed(room, **tables)


def few_stock(shop: Room, tanks: int = 8, lines: int = 4, goods: int = 8) -> Room:
    """The same shop with a few tanks, a few lines of stock in each, a few goods and the end of its log."""
    some = shop.tanks.head(tanks)
    stock = pd.concat([shop.stock[shop.stock["tank"] == tank].head(lines) for tank in some["tank"]]
                      + [shop.stock[shop.stock["species"] == ""].head(goods)], ignore_index=True)  # fmt: skip
    feeding, log = (
        getattr(shop, key)[getattr(shop, key)["tank"].isin(some["tank"])].reset_index(drop=True)
        for key in ("feeding", "log")
    )
    ledger = shop.ledger[shop.ledger["code"].isin(stock["code"])].reset_index(drop=True)
    log = log.tail(30).reset_index(drop=True)
    return few_species(changed(shop, tanks=some, stock=stock, feeding=feeding, log=log, ledger=ledger))


# --- the workbook's answers ---


def _rows(frame: pd.DataFrame) -> list[dict[str, Any]]:
    rows: list[dict[str, Any]] = [{} for _ in range(len(frame))]
    for key in frame:
        for row, value, blank in zip(rows, frame[key].tolist(), frame[key].isna().tolist(), strict=True):
            if not blank and value != "":
                row[key] = _plain(value)
    return rows


GIVEN: dict[int, tuple[pd.DataFrame, list[dict[str, Any]]]] = {}


def _given(frame: pd.DataFrame) -> list[dict[str, Any]]:
    """The same of what comes with the package, which many rooms share; it is kept, so that nothing else gets its id."""
    if id(frame) not in GIVEN:
        GIVEN[id(frame)] = frame, _rows(frame)
    return [dict(row) for row in GIVEN[id(frame)][1]]


def _constants(room: Room) -> list[dict[str, Any]]:
    rows = _given(room.constants)
    for row, key in zip(rows, room.constants["key"], strict=True):
        row["value"] = _plain(room.const[key])
        if row["value"] == "" or pd.isna(row["value"]):
            del row["value"]
    return rows


def _plain(value: Any) -> Any:
    if isinstance(value, pd.Timestamp):
        return value.date()
    return int(value) if isinstance(value, float) and value.is_integer() else value


def shown(typed: dict[str, str]) -> dict[str, str]:
    """The tank that each sheet shows: its own, or the one in view."""
    return typed | {key: typed[key] or typed["view"] for key in CHOICES}


def records_of(room: Room) -> dict[str, list[dict[str, Any]]]:
    """The room as the builder takes it: missing keys for blanks."""
    found = {key: _rows(getattr(room, key)) for key in lists_of(room)}
    found |= {key: _given(getattr(room, key)) for key in ("body_forms", "tasks", "checks", "references")}
    found["constants"] = _constants(room)
    for table, rows in getattr(room, "words", {}).items():  # pasted over the checks of their cells
        for row, cells in rows.items():
            found[table][row] |= dict.fromkeys(cells, "about 7")
    if room.edition == "shop":
        found["question"] = [{key: _plain(value) for key, value in room.question.items()}]
        found["label_choice"] = [dict(room.label_fields)]
    else:
        found["livestock"] = [{"tank": "", **row} for row in found["livestock"]]  # the builder wants the key
    if room.edition == "club":
        for table, keys in OVERRIDDEN.items():
            found[table] = _rows(getattr(room, table).drop(columns=list(keys)).join(room.handed[table]))
        found["compared"] = _rows(room.compared)
    view = room.choice.get("view", "")
    picked = {key: room.choice.get(key) for key in CHOICES}
    chosen = {f"{key}_choice": [{"tank": tank} if tank and tank != view else {}] for key, tank in picked.items()}
    chosen["view"] = [{"tank": view} if view else {}]
    if parameter := room.choice["log_parameter"]:
        chosen["log_choice"][0]["parameter"] = parameter
    chosen["care_choice"] = [{"species": room.choice["care"]} if room.choice["care"] else {}]
    asked = {key: room.choice[key] for key in FILTERS if room.choice.get(key)}
    numbers = {key: float(asked[key]) for key in ("longest", "temper_most") if key in asked}
    chosen["candidates_choice"][0].update(asked | numbers)
    chosen["outage"] = [{} if math.isnan(room.outage_air) else {"air": _plain(room.outage_air)}]
    if room.edition == "keeper":
        found |= {table: _rows(getattr(room, table)) for table in PLAN_TEXTS}
    settings = {key: _plain(value) for key, value in room.settings.items() if value is not None}
    heaters = [{"heater_power": _plain(w)} for w in room.heater_sizes]
    return found | chosen | {"heater_sizes": heaters, "settings": [settings]}


class Evaluated:
    """What the workbook reckons for a room."""

    def __init__(self, room: Room, units: str, reckon: Callable[[Edition, Records, Plan], Built] = compute) -> None:
        plan = Plan(units=units, spare_rows=room.spare_rows, plan_date=room.plan_date.date())
        if room.settings.get("plan_date_typed") is not None:
            plan = Plan(
                units=units, spare_rows=room.spare_rows, plan_date=datetime.date(1999, 12, 31)
            )  # what is typed counts
        self.room, self.built = room, reckon(EDITIONS[room.edition](), records_of(room), plan)
        self.typed: dict[tuple[str, int, int], str | float | None] = {
            (page.placed.sheet.title, cell.row, cell.column): cell.content
            for page in self.built.pages for cell in page.cells if cell.kind in {"number", "text"}
        }  # fmt: skip
        self.values = ChainMap(self.typed, self.built.values)  # type: ignore[arg-type]
        self.columns: dict[tuple[str, int, str], list[str | float]] = {}

    def at(self, table: str, place: int, sheet: str = "") -> list[str | float]:
        """Every row of a table in one column of the sheet where it is reckoned, or of another; of a form, its one value."""
        here = self.built.placing.tables[table]
        sheet = sheet or here.base_sheet
        if (table, place, sheet) not in self.columns:
            self.columns[table, place, sheet] = (
                [self._value(sheet, place, here.across)]
                if here.table.form
                else [self._value(sheet, here.first_row + i, place) for i in range(here.rows)]
            )
        return self.columns[table, place, sheet]

    def _value(self, *at: Any) -> str | float:
        # Looked up in turn: a chain of maps asks each of them twice.
        value = self.typed.get(at)
        if value is None:
            try:
                value = self.built.values[at]
            except KeyError:
                return ""
        return value

    def rows(self, table: str) -> int:
        """How many rows hold data."""
        here = self.built.placing.tables[table].table
        if here.is_list or (here.rows_of and hasattr(self.room, here.rows_of)):
            return len(getattr(self.room, here.rows_of or table))
        return self.built.placing.tables[table].rows

    def whole(self, table: str, key: str) -> list[str | float]:
        """A column in base units, spare rows and all."""
        return self.at(table, self.built.placing.tables[table].base[key])

    def column(self, table: str, key: str) -> list[str | float]:
        """A column in base units, over the rows of data."""
        return self.whole(table, key)[: self.rows(table)]

    def spare(self, table: str, key: str) -> list[str | float]:
        """The same column in the ready rows below the data."""
        return self.whole(table, key)[self.rows(table) :]


def evaluated(room: Room, units: str = "metric") -> Evaluated:
    """The workbook's answers, kept with the room."""
    name = f"evaluated {units}"
    if name not in room.remembered:
        room.remembered[name] = Evaluated(room, units)
        if units == "metric":
            _note_layout(room)
    return room.remembered[name]  # type: ignore[no-any-return]


def shortly(room: Room, units: str = "metric") -> Evaluated:
    """The same where a few columns are asked for: only what these read is reckoned."""
    return Evaluated(room, units, as_asked)


def _note_layout(room: Room) -> None:
    """What no oracle can know of itself: where tables lie, and the sentences that Attention passes on."""
    found = room.remembered["evaluated metric"]
    room.top, room.sheets, room.sentences = {}, {}, {}
    tables = found.built.edition.tables
    room.flags = {t.key: [(f.key, f.seriousness, f.title) for f in t.flags] for t in tables}
    room.gathered = {(t.key, f.key) for t in tables for f in t.flags if f.gathered}
    for key, here in found.built.placing.tables.items():
        room.top[key], room.sheets[key] = here.first_row - 1, here.sheet
        if here.table.flags:
            room.sentences |= {(key, flag.key): found.whole(key, flag.key) for flag in here.table.flags}


# --- random rooms ---

NAMES = {
    "species": [
        "Ash tetra",
        "Bee catfish",
        "Coal barb",
        "Dune goby",
        "Elm danio",
        "Fog shrimp",
        "Glow snail",
        "O'Hara's \"blue\" loach",
    ],
    "waters": ["Tap", "Barrel & butt", "Well"],
    "tanks": ["Long", "Corner tank", "Nano 1", "Kitchen, left", "60", "Größe L"],
    "foods": ["Flake", "Fine (dust)", "Frozen krill", "Wafer"],
    "suppliers": ["Own breeding", "Import & Co", "Plants, wet"],
    "stock": [f"S{number:02}" for number in range(1, 61)],
    "hatching": ["Tin", "Old tin", "Bag <b>"],
    "feeds": ["Morning", "Noon", "Evening", "Night", "Late"],
    "doses": ["Rack salt", "Leaf food", "Drops & co", "Powder 7"],
}
LINKS = {
    "species": {}, "waters": {"first_water": "waters", "second_water": "waters"}, "foods": {}, "log": {"tank": "tanks", "species": "species"}, "tanks": {"water": "waters"}, "livestock": {"tank": "tanks", "species": "species"},
    "feeding": {"tank": "tanks", "food": "foods"}, "maintenance": {"tank": "tanks"},
    "hatching": {"food": "foods"}, "feeds": {"cysts": "hatching"}, "live_wants": {"tank": "tanks"},
    "breeding": {"species": "species", "tank": "tanks", "grow_tank": "tanks"},
    "stock": {"species": "species", "tank": "tanks", "supplier": "suppliers"}, "suppliers": {}, "ledger": {"code": "stock", "to_tank": "tanks"}, "known": {}, "doses": {},
}  # fmt: skip
# Of the task list, in other capitals, people's own, and what a search would take for a pattern.
TASKS = (
    "Change water",
    "Trim the plants",
    "CHECK DRIP LOOPS AND PLUGS",
    "Oil the hinges",
    "Change *",
    "Wipe the front pane?",
)
# Titles of lines that random rooms often have.
OFTEN_RAISED = ("Company", "Not known of this tank", "Water that suits all", "Feeding plan", "Tank too small")
KEYS = {
    "species": "species",
    "waters": "water",
    "tanks": "tank",
    "foods": "food",
    "hatching": "cysts",
    "feeds": "feed",
    "doses": "product",
    "suppliers": "supplier",
    "stock": "code",
}


@functools.cache
def choices(table: str, key: str) -> tuple[str, ...]:
    """The words that a cell may hold."""
    edition = "shop" if table in {"stock", "suppliers", "ledger"} else "keeper"
    column = next(t for t in EDITIONS[edition]().tables if t.key == table)[key]
    return tuple(column.kind.choices)  # type: ignore[union-attr]


class Draw:
    """Every cell has its own dice, so that a smaller room keeps the cells that stay."""

    finer = 0  # more decimals than people type
    wild = 0.02  # how often a cell holds something out of all sense

    def __init__(self, seed: int, blanks: float, plan_date: pd.Timestamp, sizes: dict[str, int]) -> None:
        self.seed, self.blanks, self.plan_date, self.sizes = seed, blanks, plan_date, sizes

    def dice(self, *where: Any) -> random.Random:
        return random.Random(f"{self.seed} {where}")

    def number(self, dice: random.Random, span: tuple[float, float, int]) -> float:
        low, high, decimals = span
        decimals += self.finer if isinstance(low, float) or decimals else 0
        return float(dice.choice((low, high)) if dice.random() < 0.08 else round(dice.uniform(low, high), decimals))

    def day(self, dice: random.Random, key: str = "") -> pd.Timestamp:
        long_ago = (dice.randint(-160, -30),) * 3 if key == "date" else ()  # young take months to grow
        return self.plan_date + pd.Timedelta(days=dice.choice((0, 0, 1, -1, 7, -7, dice.randint(-40, 20), *long_ago)))

    def link(self, dice: random.Random, table: str) -> str:
        names = NAMES[table][: self.sizes[table]]
        if not names or dice.random() < 0.06:
            return "not there"
        name = dice.choice(names)
        return name.upper() if dice.random() < 0.1 and "ß" not in name else name

    def text(self, dice: random.Random, table: str, key: str, row: int) -> str:
        if key == KEYS.get(table):
            return NAMES[table][row]
        if key in LINKS[table]:
            return "all" if table == "maintenance" and dice.random() < 0.3 else self.link(dice, LINKS[table][key])
        if (table, key) == ("log", "task"):
            return dice.choice(("Change water", "Change water", "trim the plants", "", "Oil the hinges"))
        if (table, key) == ("known", "known_line"):
            return f"{self.link(dice, 'tanks')}: {dice.choice(OFTEN_RAISED)}"
        if (table, key) == ("maintenance", "task"):
            return dice.choice(TASKS)
        if key == "standing":
            return dice.choice(("", "", "yes", "no"))
        if key == "body_form":
            return dice.choice(("elongated", "fusiform", "Fusiform", "short and thick", "eel-like"))
        if words := choices(table, key):
            return dice.choice(words)
        return dice.choice(("some words", "see note", f"{key} {row}"))

    def not_of_this_water(self, key: str, row: int) -> bool:
        """Some waters are blends of two: most of them have not been measured."""
        blend = self.dice("waters", "blend", row).random() < 0.5
        if key in BLEND:
            return not blend
        return blend and key in BLENDED and self.dice("waters", "measured", key, row).random() < 0.8

    def value(self, table: str, key: str, row: int) -> Any:
        dice = self.dice(table, key, row)
        must = (
            key in {"tank", "species", "animals", "shape", "height", "temperature", "adult_length", "date"}
            or key in LINKS[table]
        )
        is_blank = dice.random() < self.blanks * (0.25 if must else 1) or dice.random() < SPARSE.get((table, key), 0)
        if table == "waters":
            is_blank |= self.not_of_this_water(key, row)
        if key in NUMBERS[table]:
            odd = ODD.get((table, key))
            if odd and not is_blank and dice.random() < self.wild:
                return float(dice.choice(odd))
            return math.nan if is_blank else self.number(dice, NUMBERS[table][key])
        if key in DATES.get(table, []):
            return pd.NaT if is_blank else self.day(dice, key if table == "breeding" else "")
        return "" if is_blank and key != KEYS.get(table) else self.text(dice, table, key, row)

    def table(self, table: str) -> pd.DataFrame:
        keys = [*TEXTS[table], *NUMBERS[table], *DATES.get(table, [])]
        frame = pd.DataFrame({key: [self.value(table, key, row) for row in range(self.sizes[table])] for key in keys})
        frame = frame.astype(
            dict.fromkeys(NUMBERS[table], float)
            | dict.fromkeys(TEXTS[table], object)
            | dict.fromkeys(DATES.get(table, []), "datetime64[ns]")
        )
        for low in (key for key in keys if key.endswith("_low")):
            high = low.removesuffix("_low") + "_high"
            mend = pd.Series(
                [self.dice(table, low, row, "order").random() < 0.9 for row in range(len(frame))], dtype=bool
            )
            swap = (frame[low] > frame[high]) & mend
            frame.loc[swap, [low, high]] = frame.loc[swap, [high, low]].to_numpy()
        return frame

    def settings(self, choice: str | None, typed_date: bool) -> dict[str, Any]:
        spans = {"altitude": (-100, 2500, -2), "room_temperature": (5, 28, 0), "nitrate_target": (5, 40, 0), "nitrate_act": (30, 80, 0),
                 "energy_price": (0, 0.6, 2), "lead_days": (0, 20, 0)}  # fmt: skip
        found: dict[str, Any] = dict.fromkeys(SETTINGS)
        for key, span in spans.items():
            dice = self.dice("settings", key)
            found[key] = None if dice.random() < self.blanks / 2 else self.number(dice, span)
        return found | {
            "room_name": "A room",
            "ammonia_kit": self.dice("settings", "kit").choice((None, "N", "NH3", "NH4")),
            "yield_choice": self.dice("settings", "yield").choice((None, "room", "tank", "tank")),
            "range_choice": choice,
            "plan_date_typed": self.plan_date if typed_date else None,
        }

    def constants(self, table: pd.DataFrame) -> dict[str, float]:
        found = {}
        for row in table.to_dict("records"):
            dice = self.dice("constants", row["key"])
            other = round(dice.uniform(row["low"], row["high"]), 3)
            found[row["key"]] = other if dice.random() < 0.15 else row["value"]
        return found


def asked(dice: random.Random, species: list[str]) -> dict[str, str]:
    """Filters for candidates, most of them left blank."""
    kinds = ["", "", *species, "not there"]
    return {
        "instead_of": dice.choice(kinds), "just": dice.choice(["", "", "", *kinds]), "zone": dice.choice(("", "any", "top", "middle", "bottom")),
        "longest": dice.choice(("", "", "8", "12.5")), "temper_most": dice.choice(("", "", "2", "4")), "easy": dice.choice(("", "", "no", "yes")),
    }  # fmt: skip


def planned(dice: Draw) -> dict[str, pd.DataFrame]:
    """Plans of all sorts: of things that are there and not there, finished and unfinished."""
    lines = []
    for row in range(dice.dice("plan").choice((0, 1, 4, 12))):
        die = dice.dice("plan", row)
        line = {
            "do": die.choice(("add", "take out", "move", "move", "")), "number": die.choice((1, 2, 7, 30, "")),
            "species": die.choice(NAMES["species"][: dice.sizes["species"]] or [""]), "from_tank": dice.link(die, "tanks"), "to_tank": dice.link(die, "tanks"),
        }  # fmt: skip
        lines.append(line | ({die.choice(list(line)): ""} if die.random() < dice.blanks else {}))
    values = []
    for row in range(dice.dice("plan values").choice((0, 0, 1, 2))):
        die = dice.dice("plan values", row)
        drawn = {key: dice.number(die, NUMBERS["tanks"][key]) for key in PLAN_NUMBERS["plan_values"]}
        words = {
            "tank": dice.link(die, "tanks"),
            "shape": die.choice(choices("tanks", "shape")),
            "water": dice.link(die, "waters"),
        }
        values.append({key: value for key, value in (drawn | words).items() if key == "tank" or die.random() < 0.5})
    return {"plan_lines": plan_of(lines), "plan_values": plan_of(values, "plan_values")}


@st.composite
def random_rooms(draw: st.DrawFn) -> Room:
    """Rooms of every valid sort, with blanks here and there."""
    sizes = {"species": draw(st.integers(0, 8)), "waters": draw(st.integers(0, 3)), "tanks": draw(st.integers(0, 6)), "foods": draw(st.integers(0, 4)),
             "livestock": draw(st.integers(0, 12)), "feeding": draw(st.integers(0, 8)), "maintenance": draw(st.integers(0, 8)),
             "hatching": draw(st.integers(0, 3)), "feeds": draw(st.integers(0, 5)), "live_wants": draw(st.integers(0, 4)), "breeding": draw(st.integers(0, 8)),
             "log": draw(st.integers(0, 14)), "known": draw(st.integers(0, 4)), "doses": draw(st.integers(0, 4))}  # fmt: skip
    plan_date = pd.Timestamp(draw(st.dates(datetime.date(2025, 1, 1), datetime.date(2027, 12, 31))))
    dice = Draw(draw(st.integers(0, 2**32)), draw(st.sampled_from((0.0, 0.05, 0.25))), plan_date, sizes)
    base = blank_room()
    names = ["", *NAMES["tanks"][: sizes["tanks"]], "not there"]
    return changed(
        base, **{key: dice.table(key) for key in LISTS}, **planned(dice), plan_date=plan_date, spare_rows=draw(st.integers(1, 2)),
        settings=dice.settings(draw(st.sampled_from((None, "reported", "own", "both", "either"))), draw(st.booleans())),
        const=dice.constants(base.constants), choice=shown({key: draw(st.sampled_from(names)) for key in ("view", *CHOICES)}) | {"log_parameter": draw(st.sampled_from(("", *READINGS))), "care": draw(st.sampled_from(("", *NAMES["species"][: sizes["species"]], "not there")))}
        | asked(random.Random(draw(st.integers(0, 2**16))), NAMES["species"][: sizes["species"]]),
        outage_air=draw(st.sampled_from((math.nan, -5.0, 12.5, 30.0))),
    )  # fmt: skip
