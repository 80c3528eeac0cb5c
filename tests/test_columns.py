"""Every computed column and every flag against its oracle, in rooms tame and awkward."""

import ast
import functools
import importlib
import itertools
import keyword
import math
import re
from pathlib import Path
from typing import Any

import pandas as pd
import pint
import pytest
from hypothesis import HealthCheck, Phase, given, settings

from tests import rooms
from tests.effort import also, examples, in_the_end
from tests.oracles import attention, defaults, flag_tables, lists, offered
from tests.oracles.tools import Room, remember_all
from tests.oracles.words import lists as called
from tests.oracles.words import saying
from tests.rare_room import rare_room, room_at_the_limits, worded_room
from tests.rooms import (
    Evaluated,
    blank_room,
    blank_shop,
    changed,
    demo_room,
    demo_shop,
    evaluated,
    few_species,
    few_stock,
    random_rooms,
    shortly,
)
from tests.shop_rooms import random_shops
from workbook.editions import EDITIONS
from workbook.tables.columns import Computed, Flag, Pulled, Said, Typed
from workbook.tables.formula import NAME
from workbook.tables.schema import Schema
from workbook.tables.table import Table

LEVELS = ("act", "watch", "note")
FOLLOWING = {
    "line",
    "one",
    "row_label",
    "formulas",
    "to_list",
    "not_formulas",
    "impossible",
    "handed_lost",
    "handed_gone",
    "said",
    "said_count",
    *(f"{what}_{level}" for what in ("said", "run") for level in LEVELS),
}
# The steps by which the names of a list that dropdowns offer are put in order.
ORDERING = {
    "plain_name",
    "letters_1",
    "letters_2",
    "letters_3",
    "sort_key",
    "names_so_far",
    "in_order",
    "sorted_row",
    "sorted_name",
    "group_no",
    "group_back",
    "firsts",
    "next_of_group",
    "leads_to",
    "place_by_group",
    "row_by_group",
    "group_no_by_group",
    "group_by_group",
    "name_by_group",
}
EDITION = EDITIONS["keeper"]()
UNITS = dict(zip(demo_room().constants["key"], demo_room().constants["unit"], strict=True))
SCHEMA = Schema(EDITION.tables, UNITS)


PAGES = {table.key for sheet in EDITION.sheets if sheet.bands for table in sheet.tables}


def own_columns(table: Table) -> list[Computed | Flag]:
    """What a table reckons itself, without what follows from its links and flags."""
    links = {f"{c.key}_row" for c in table.typed if c.kind.table}
    common = {key for key, *_ in flag_tables.common(table.key)} if table.is_list else set()
    # Without flags "said" is no join of theirs, but what a printed page says.
    following = FOLLOWING if table.flags else FOLLOWING - {"said"}
    following = following | ORDERING if is_offered(table) else following
    return [c for c in table.columns if isinstance(c, Computed | Flag) and c.key not in following | links | common]


def is_offered(table: Table) -> bool:
    """Whether dropdowns offer the names of its rows."""
    return table.key in {name for links in (*lists.LINKS.values(), *lists.PICKED.values()) for name in links.values()}


@functools.cache
def oracle(table: str, key: str) -> Any:
    """The oracle of a column."""
    name = f"{key}_" if keyword.iskeyword(key) or key[0].isdigit() else key
    if not (Path(__file__).parent / "oracles" / f"{table}.py").is_file():
        return None
    return getattr(importlib.import_module(f"tests.oracles.{table}"), name, None)


remember_all()

# --- one value against another ---


def normal(value: Any) -> Any:
    """A value as the workbook holds it: blanks are empty text, dates are counted, truth is 1 or 0."""
    if value is None or value is pd.NaT or (isinstance(value, float) and math.isnan(value)):
        return ""
    if isinstance(value, pd.Timestamp):
        return float((value - rooms.EPOCH).days)
    return value if isinstance(value, str) else float(value)


def same(found: Any, expected: Any, tolerance: float = 1e-9) -> bool:
    """Equal text, or numbers within the tolerance."""
    if isinstance(found, str) or isinstance(expected, str):
        return bool(found == expected)
    return math.isclose(found, expected, rel_tol=tolerance, abs_tol=1e-12)


def differences(where: str, found: list[Any], expected: list[Any], tolerance: float = 1e-9) -> list[str]:
    """What is not as it should be, a line for each row."""
    if len(found) != len(expected):
        return [f"{where}: {len(found)} rows, expected {len(expected)}"]
    pairs = enumerate(zip(map(normal, found), map(normal, expected), strict=True), 1)
    return [f"{where} row {row}: found {a!r}, expected {b!r}" for row, (a, b) in pairs if not same(a, b, tolerance)]


# --- what every column must do ---


def wrong_columns(found: Evaluated, table: Table) -> list[str]:
    """Computed columns and flags against their oracles."""
    wrong: list[str] = []
    for column in own_columns(table):
        where, values = f"{table.key}.{column.key}", found.column(table.key, column.key)
        if (reckon := oracle(table.key, column.key)) is None:
            wrong.append(f"{where}: no oracle")
            continue
        expected = list(reckon(found.room))
        if isinstance(column, Flag):
            wrong += differences(where, [value != "" for value in values], [bool(value) for value in expected])
        else:
            wrong += differences(where, values, expected)
    return wrong


def wrong_flags(found: Evaluated, table: Table) -> list[str]:
    """Every flag: in which rows it is raised, and all that it says there, as serious as the rule has it."""
    wrong: list[str] = []
    for flag in table.flags:
        where, values = f"{table.key}.{flag.key}", found.column(table.key, flag.key)
        says = saying.of(table.key, flag.key)
        if says is None:
            wrong.append(f"{where}: nothing says what it says")
            continue
        raised = [bool(value) for value in flag_tables.verdict(found.room, table.key, flag.key)][: len(values)]
        wrong += differences(where, values, says.texts(found.room, raised, found.built.placing.system))
    return wrong


def wrong_following(found: Evaluated, table: Table) -> list[str]:
    """Rows of links, running numbers, and the texts of flags, joined and counted."""
    name, room, wrong = table.key, found.room, []
    rows = len(found.whole(name, table.columns[0].key))
    if (not table.given or is_offered(table)) and not table.form:
        wrong += differences(f"{name}.line", found.column(name, "line"), list(range(1, found.rows(name) + 1)))
    if table.is_list:
        wrong += differences(f"{name}.one", found.column(name, "one"), [1.0] * found.rows(name))
        wrong += differences(f"{name}.formulas", found.whole(name, "formulas"), ["ok"] * rows)
        first = found.built.placing.tables[name].first_row
        wrong += differences(f"{name}.to_list", found.whole(name, "to_list"), [f"← {first + i}" for i in range(rows)])
        wrong += differences(f"{name}.not_formulas", found.whole(name, "not_formulas"), [""] * rows)
        if any(column.kind.is_number and column.kind.name != "date" for column in table.typed):
            impossible = [f", {text}" if text else "" for text in called.bounded(name)(room)]
            impossible += [""] * (rows - len(impossible))
            wrong += differences(f"{name}.impossible", found.whole(name, "impossible"), impossible)
    if any(column.handed for column in table.typed) and table.is_list:
        wrong += differences(f"{name}.handed_lost", found.whole(name, "handed_lost"), [0.0, *[""] * (rows - 1)])
    if is_offered(table):
        names = [str(value) for value in lists.offered(room, name)[lists.NAMES[name]]]
        names += [""] * (rows - len(names))
        wrong += offered.wrong(name, names, functools.partial(found.whole, name), differences)
    if name == "species":
        groups = [str(group) for group in oracle(name, "group")(room)]
        groups += [""] * (rows - len(groups))
        wrong += offered.wrong_by_group(name, names, groups, functools.partial(found.whole, name), differences)
    for link in lists.LINKS.get(name, {}):
        wrong += differences(
            f"{name}.{link}_row", found.column(name, f"{link}_row"), list(lists.link_row(room, name, link))
        )
    if name in lists.LABELS:
        wrong += differences(f"{name}.row_label", found.column(name, "row_label"), list(lists.row_label(room, name)))
    if not table.flags:
        return wrong
    whole = {f.key: found.whole(name, f.key) for f in table.flags}

    def texts(levels: tuple[str, ...], *, all_of_them: bool) -> list[str]:
        keys = [
            f.key for one in levels for f in table.flags if f.seriousness == one and (all_of_them or not f.gathered)
        ]
        return ["¦".join(filter(None, (str(whole[key][row]) for key in keys))) for row in range(rows)]

    for level in LEVELS if any(not f.gathered for f in table.flags) else ():
        told = texts((level,), all_of_them=False)
        wrong += differences(f"{name}.said_{level}", found.whole(name, f"said_{level}"), told)
        running = attention.running(room, name, level) if table.listed else apart(room, table, level)
        wrong += differences(f"{name}.run_{level}", found.whole(name, f"run_{level}"), running)
    joined = texts(LEVELS, all_of_them=True)
    wrong += differences(f"{name}.said", found.whole(name, "said"), joined)
    counts = [len(text.split("¦")) if text else 0 for text in joined]
    wrong += differences(f"{name}.said_count", found.whole(name, "said_count"), counts)
    if not any(isinstance(column, Said) for column in table.columns):
        return wrong
    first = [
        text.split("¦")[0] + (f" (+{n - 1} more)" if n > 1 else "") for text, n in zip(joined, counts, strict=True)
    ]
    return wrong + differences(f"{name}.attention", found.whole(name, "attention"), first)


def places_of(found: Evaluated, table: Table, via: str) -> list[float]:
    """The row that each row's link leads to, from 1; a link that is itself pulled is checked where it is typed."""
    if isinstance(found.built.placing.schema.origin(table, via)[1], Computed):
        reckon = oracle(table.key, via)
        return list(reckon(found.room)) if reckon else [row or math.nan for row in found.column(table.key, via)]  # type: ignore[misc]
    if isinstance(table[via], Pulled):
        return [row or math.nan for row in found.column(table.key, f"{via}_row")]  # type: ignore[misc]
    return list(lists.link_row(found.room, table.key, via))


def apart(room: Room, table: Table, level: str) -> list[float]:
    """Running count of flags that Attention does not list, going on from the more serious levels."""
    found: list[float] = [0.0]
    for one in LEVELS[: LEVELS.index(level) + 1]:
        raised = [
            list(flag_tables.verdict(room, table.key, flag.key))
            for flag in table.flags
            if flag.seriousness == one and not flag.gathered
        ]
        ready = lists.rows(room, table.key) - len(raised[0]) if table.is_list and raised else 0
        counts = [float(sum(map(bool, row))) for row in zip(*raised, strict=True)] + [0.0] * ready
        found = [found[-1] + so_far for so_far in itertools.accumulate(counts)]
    return found


def wrong_pulled(found: Evaluated, table: Table) -> list[str]:
    """Every pulled column shows the column that it points to, of the row that its link points to."""
    wrong: list[str] = []
    for column in table.columns:
        if isinstance(column, Pulled):
            schema = found.built.placing.schema
            other, key = schema.source(table, column)
            there = found.column(other.key, key)
            if table.rows_of and column.via == table.rows_of:
                expected = there
            else:
                places = places_of(found, table, column.via)
                expected = ["" if math.isnan(place) else there[int(place) - 1] for place in places]
            wrong += differences(f"{table.key}.{column.key}", found.column(table.key, column.key), expected)
    return wrong


def wrong_spare(found: Evaluated, table: Table) -> list[str]:
    """Ready rows show nothing; running numbers only run on."""
    wrong: list[str] = []
    for column in table.columns:
        if not isinstance(column, Typed) and column.key not in RUNNING:
            quiet = ("", *QUIET.get(column.key, ()))
            values = found.spare(table.key, column.key)
            if not found.rows(table.key) and column.key in OF_THE_LIST:
                values = values[1:]  # an empty list tells of its few rows in the first of them
            wrong += [f"{table.key}.{column.key} in a ready row: {value!r}" for value in values if value not in quiet]
    return wrong


# Working columns that may hold something in a ready row: counts run on from the row above.
QUIET: dict[str, tuple[Any, ...]] = {}
OF_THE_LIST = {"nearly_full", "said_note", "said", "attention", "tanks_note"}
SO_FAR = (
    "late_tasks",
    "late_changes",
    "late_broods",
    "rearing",
    "cold_changes",
    "foods_wanted",
    "coarse_foods",
    "unlike",
)
RUNNING = {
    "firsts",
    "line",
    "one",
    "formulas",
    "to_list",
    "said_count",
    "in_overlap",
    "in_chart",
    "run_end",
    "in_plan",
    "label_from",
    "not_no",
    "batch_run",
    "jobs_run",
    "asking",
    "asking_names",
    "names_so_far",
    "sorted_row",
    "sorted_name",
    *(f"run_{level}" for level in LEVELS),
    *SO_FAR,
    *(f"{key}_count" for key in SO_FAR),
}


def everything_wrong(room: Room) -> list[str]:
    """All differences in a room."""
    found = evaluated(room)
    wrong: list[str] = []
    for table in found.built.placing.schema.tables:
        for test in (wrong_columns, wrong_flags, wrong_following, wrong_pulled, wrong_spare):
            wrong += test(found, table)
    return wrong


# --- rooms made by hand ---


def spoilt(room: Room, **cells: dict[tuple[int, str], Any]) -> Room:
    """The room with some cells typed over."""
    tables = {}
    for table, changes in cells.items():
        frame = getattr(room, table).copy()
        for (row, key), value in changes.items():
            frame.loc[row, key] = value
        tables[table] = frame
    return changed(room, **tables)


def emptied(room: Room, keep: int = 0) -> Room:
    """Every list with its names (and so many columns more) but nothing else typed."""
    tables = {}
    for table in rooms.lists_of(room):
        frame = getattr(room, table).copy()
        first = {lists.FIRST[table], *list(frame.columns[:keep])}
        for key in frame.columns:
            if key not in first:
                frame[key] = (
                    pd.NaT if key in rooms.DATES.get(table, []) else math.nan if key in rooms.NUMBERS[table] else ""
                )
        tables[table] = frame
    return changed(
        room,
        **tables,
        settings=dict.fromkeys(rooms.SETTINGS),
        choice=dict.fromkeys((*rooms.CHOICES, "log_parameter", "care"), ""),
        plan_date=pd.Timestamp("2026-10-05"),
    )


def one_row() -> Room:
    """A room with one of everything."""
    demo = demo_room()
    tank, species = demo.livestock["tank"][0], demo.livestock["species"][0]
    tables = {key: getattr(demo, key).head(1).copy() for key in rooms.LISTS}
    tables["log"] = demo.log[demo.log["tank"] != tank].head(1).reset_index(drop=True)
    tables["tanks"] = demo.tanks[demo.tanks["tank"] == tank].reset_index(drop=True)
    tables["species"] = demo.species[demo.species["species"] == species].reset_index(drop=True)
    tables["waters"] = demo.waters[demo.waters["water"] == tables["tanks"]["water"][0]].reset_index(drop=True)
    return changed(demo, **tables)


def other_capitals() -> Room:
    """Links typed in other capitals than the names they point to."""
    demo = demo_room()
    found = {key: getattr(demo, key).copy() for key in ("livestock", "feeding", "maintenance", "tanks")}
    for frame, key in (
        (found["livestock"], "tank"),
        (found["livestock"], "species"),
        (found["feeding"], "food"),
        (found["maintenance"], "tank"),
        (found["maintenance"], "task"),
        (found["tanks"], "water"),
    ):
        frame[key] = [name.upper() if row % 2 else name.lower() for row, name in enumerate(frame[key])]
    return changed(demo, **found, choice={key: name.upper() for key, name in demo.choice.items()})


def unknown_names() -> Room:
    """Links that lead nowhere, names used twice, rows left blank or half typed."""
    demo = demo_room()
    return spoilt(
        demo, livestock={(0, "tank"): "nowhere", (1, "species"): "no such fish", (4, "tank"): "", (7, "species"): "", (9, "animals"): math.nan},
        feeding={(0, "food"): "nothing", (3, "tank"): "nowhere", (5, "share"): math.nan}, tanks={(1, "water"): "no water", (3, "tank"): demo.tanks["tank"][0]},
        maintenance={(0, "tank"): "nowhere", (2, "every_days"): math.nan, (3, "task"): "", (4, "task"): "Change w*", (5, "task"): "Change wat?r", (5, "every_days"): math.nan}, species={(2, "body_form"): "square", (5, "species"): demo.species["species"][4]},
        foods={(1, "food"): ""}, waters={(1, "water"): demo.waters["water"][0].upper()},
    )  # fmt: skip


def odd_constants() -> Room:
    """Constants far from what is sensible."""
    demo = demo_room()
    const = dict(demo.const) | {
        "porosity": 0.95,
        "heater_caution": 0.5,
        "rows_left": 0.0,
        "soon_days": 90.0,
        "edge_share": 0.45,
        "swim_calm": 40.0,
        "oxygen_stop": 20.0,
    }
    return changed(demo, const=const)


def no_constants() -> Room:
    """Constants that somebody has cleared."""
    demo = demo_room()
    return changed(
        demo,
        const=dict(demo.const)
        | dict.fromkeys(
            ("activity", "porosity", "oxygen_stop", "days_very_late", "narrow_ph", "temper_clash", "month_days"),
            math.nan,
        ),
    )


def half_rows() -> Room:
    """The first cells of every row, nothing more."""
    return emptied(demo_room(), keep=3)


def shop_with_unknown_names() -> Room:
    """A stock list with links that lead nowhere, codes used twice or lacking, and numbers that cannot be."""
    shop = demo_shop()
    return spoilt(
        shop, stock={(0, "tank"): "nowhere", (1, "species"): "no such fish", (2, "supplier"): "nobody", (3, "code"): shop.stock["code"][4], (5, "code"): "", (6, "on_hand"): math.nan,
                     (7, "on_hand"): -2.0, (8, "goods"): "and a net", (9, "species"): "", (10, "label"): 500.0, (11, "species"): shop.stock["species"][11].upper()},
        suppliers={(1, "supplier"): shop.suppliers["supplier"][0], (3, "supplier"): ""},
    )  # fmt: skip


def no_shop_constants() -> Room:
    """A shop whose constants somebody has cleared, and which asks nothing."""
    shop = demo_shop()
    keys = ("sale_window", "safety_days", "slow_days", "dead_days", "loss_caution", "rank_water")
    return changed(shop, const=dict(shop.const) | dict.fromkeys(keys, math.nan), question={}, label_fields={})


SHOPS = {
    "demo shop": lambda: few_stock(demo_shop(), 16, 6, 20), "blank shop": blank_shop, "shop with unknown names": lambda: few_stock(shop_with_unknown_names()),
    "no shop constants": lambda: few_stock(no_shop_constants()), "shop with nothing but names": lambda: emptied(few_stock(demo_shop())),
}  # fmt: skip


@functools.cache
def few_demo() -> Room:
    """The demo with the species that it keeps."""
    return few_species(demo_room())


@functools.cache
def few_shop() -> Room:
    """The demo shop with a few lines of stock."""
    return few_stock(demo_shop())


@functools.cache
def few_club() -> Room:
    """The demo of a club with the species that it keeps and compares."""
    return few_species(rooms.demo_club())


def club_of_all_sorts() -> Room:
    """Own values everywhere, a short list with gaps, twins, unknown and unfinished species, proposals that can't be."""
    club = rooms.demo_club()
    species = club.species.copy()
    at = {name: row for row, name in enumerate(species["species"])}
    for row, key in enumerate(("kind", "bites_fins", "eats_shrimp", "eats_snails", "light", "flow", "long_fins")):
        species.loc[at["Platy"] + row, key] = ""
    species.loc[at["Otocinclus"], ["mouth_share", "temperature_low", "own_temperature_low"]] = math.nan
    handed = {table: frame.copy() for table, frame in club.handed.items()}
    for table, frame in handed.items():
        for place, key in enumerate(k for k in frame if k.startswith("own_")):
            club_key = key.replace("own_", "club_")
            frame.loc[place::3, key] = frame.loc[place::3, club_key]
            frame.loc[place + 1 :: 5, club_key] = (
                frame[club_key]
                if table in {"body_forms", "constants"}
                else math.nan
                if table != "tasks" or not key.endswith("supplies")
                else ""
            )
            if table == "species":
                frame.loc[place::4, key] = frame.loc[place::4, club_key] + 1
    handed["constants"]["club_value"] = club.handed["constants"]["club_value"]
    names = list(species["species"])
    listed = [
        "",
        "Platy",
        names[at["Platy"] + 1].upper(),
        "no such fish",
        *names[at["Platy"] + 2 : at["Platy"] + 7],
        "Platy",
        "Otocinclus",
        "Amano shrimp",
        "Nerite snail",
        "Convict cichlid",
        "Nerite snail",
        "Least killifish",
        "Hillstream loach",
    ]
    proposals = club.proposals.copy()
    proposals.loc[0, ["temperature_low", "lifespan_low", "group_min", "proposed"]] = [41.0, 9.0, 600.0, "GLASS W*"]
    proposals.loc[1, ["mouth_share", "temper", "adult_length", "proposed", "scientific"]] = [
        0.9,
        6.0,
        250.0,
        "Glass w*",
        "xiphophorus MACULATUS",
    ]
    proposals.loc[2, ["proposed", "ph_low", "ph_high", "body_form"]] = ["", 7.0, 6.0, "square"]
    return rooms.with_handed(
        changed(club, species=species), handed, compared=rooms.short_list(listed), proposals=proposals
    )


CLUBS = {"demo club": rooms.demo_club, "blank club": rooms.blank_club, "club of all sorts": club_of_all_sorts}
HAND_MADE = SHOPS | CLUBS | {
    "demo": few_demo, "whole demo": demo_room, "blank": blank_room, "one row": one_row, "other capitals": lambda: few_species(other_capitals()),
    "unknown names": lambda: few_species(unknown_names()), "nothing but names": lambda: emptied(few_species(demo_room())), "half rows": half_rows,
    "odd constants": lambda: few_species(odd_constants()), "no constants": lambda: few_species(no_constants()), "rare flags": rare_room, "at the limits": room_at_the_limits,
}  # fmt: skip


# --- the tests ---

# A room that was reckoned in both units is kept for the next test: tests of one parameter stay on one worker.
US_ROOMS = {"demo": few_demo, "odd constants": HAND_MADE["odd constants"], "demo shop": few_shop, "demo club": few_club}


# Of these another room of the same edition stands for most in every run.
FURTHER = ("blank", "other capitals", "half rows", "nothing but names", "odd constants",
           "shop with nothing but names", "demo club")  # fmt: skip
# Larger than the demo with few species, or as blank as a keeper's set.
LAST = ("whole demo", "blank shop", "blank club")


@pytest.mark.parametrize(
    "name", [*(name for name in HAND_MADE if name not in FURTHER + LAST), *also(*FURTHER), *in_the_end(*LAST)]
)
def test_room_made_by_hand(name: str) -> None:
    wrong = everything_wrong(HAND_MADE[name]())
    assert not wrong, f"{len(wrong)} cells differ\n" + "\n".join(wrong[:40])


@settings(
    max_examples=examples(2, 60, 4),
    phases=[Phase.explicit, Phase.generate],  # a failing room is told as it is: shrinking it takes many minutes
    deadline=None,
    derandomize=True,
    database=None,
    suppress_health_check=list(HealthCheck),
    print_blob=False,
)
@given(random_shops())
def test_random_shop(room: Room) -> None:
    wrong = everything_wrong(room)
    assert not wrong, f"{len(wrong)} cells differ\n" + "\n".join(wrong[:40])


@settings(
    max_examples=examples(4, 200, 8),
    phases=[Phase.explicit, Phase.generate],
    deadline=None,
    derandomize=True,
    database=None,
    suppress_health_check=list(HealthCheck),
    print_blob=False,
)
@given(random_rooms())
def test_random_room(room: Room) -> None:
    wrong = everything_wrong(room)
    assert not wrong, f"{len(wrong)} cells differ\n" + "\n".join(wrong[:40])


@pytest.mark.parametrize("name", ["demo", "demo shop", *also("demo club"), *in_the_end("odd constants")])
def test_us_workbook_reckons_the_same(name: str) -> None:
    """Every cell: numbers and words are the same, sentences are but for the values in them, which convert."""
    room = US_ROOMS[name]()
    metric, us = evaluated(room), evaluated(room, "us")
    schema, wrong = metric.built.placing.schema, []
    typed = "\n".join(
        str(text) for table in schema.tables for column in table.typed for text in metric.whole(table.key, column.key)
    )
    for table in schema.tables:
        wrong += wrong_flags(us, table)
        for key in us.built.placing.tables[table.key].base if table.key != "about" else ():  # it says which units
            # Lines of a printed page end elsewhere where words differ in length: tests/test_pages.py reads these.
            if table.key in PAGES or key in {"cut", "spaces"}:
                continue
            for row, (found, wanted) in enumerate(
                zip(us.whole(table.key, key), metric.whole(table.key, key), strict=True), 1
            ):
                if isinstance(found, str) and isinstance(wanted, str):
                    wrong += (
                        []
                        if says_the_same(found, wanted, typed)
                        else [f"{table.key}.{key} row {row}: {found!r} beside {wanted!r}"]
                    )
                else:
                    wrong += differences(f"{table.key}.{key} row {row}", [found], [wanted], 1e-8)
    assert not wrong, f"{len(wrong)} cells differ\n" + "\n".join(wrong[:40])


# Exact by definition: inch, US gallon of 231 cubic inches, foot, avoirdupois pound; °C as a value or as a difference.
SAID_IN_US = {"cm": ("in", 1 / 2.54), "L": ("US gal", 1 / 3.785411784), "L/h": ("US gal/h", 1 / 3.785411784), "m": ("ft", 1 / 0.3048), "kg": ("lb", 1 / 0.45359237),
              "kg/m²": ("lb/ft²", 0.3048**2 / 0.45359237), "cm²": ("in²", 1 / 2.54**2), "°C": ("°F", 1.8), "W/L": ("W per US gal", 3.785411784)}  # fmt: skip
SAID = re.compile(
    rf"(-?\d+(?:\.(\d+))?) ({'|'.join(sorted({*SAID_IN_US, *(u for u, _ in SAID_IN_US.values())}, key=len, reverse=True))})(?![\w/²])"
)


def says_the_same(us: str, metric: str, typed: str) -> bool:
    """The same words, and values that are one another's conversions as far as they are rounded; what a person typed stays."""
    if us == metric and not SAID.search(us):
        return True
    us = re.sub(r"(?<!US) gal(?= )", " US gal", us)  # a recipe has little room

    def converts(shown: tuple[str, str, str], base: tuple[str, str, str]) -> bool:
        unit, factor = SAID_IN_US.get(base[2], (base[2], 1))
        if shown == base and base[2] in SAID_IN_US:
            return f"{base[0]} {base[2]}" in typed
        coarse = 0.51 * (10.0 ** -len(shown[1]) + factor * 10.0 ** -len(base[1]))
        exact = float(base[0]) * factor
        return shown[2] == unit and any(
            abs(float(shown[0]) - exact - more) <= coarse for more in ((0, 32) if unit == "°F" else (0,))
        )

    return SAID.sub("#", us) == SAID.sub("#", metric) and all(map(converts, SAID.findall(us), SAID.findall(metric)))


def test_a_us_file_says_rare_things_in_its_own_units_and_names_cells_of_words() -> None:
    """Two cells a figure, one to type in and one to reckon with; rows with words in them are told of those alone."""
    found, wrong = evaluated(worded_room(), "us"), []
    worded = found.room.words  # type: ignore[attr-defined]
    assert set(worded) == {table.key for table in found.built.placing.schema.tables if table.is_list}
    for table in found.built.placing.schema.tables:
        for line in wrong_flags(found, table):
            row = int(line.partition(" row ")[2].partition(":")[0]) - 1
            wrong += [line] if ".not_read" in line or row not in worded.get(table.key, {}) else []
    assert not wrong


PINT = {"g": "gram", "oz": "ounce", "in2": "inch**2", "cm2": "centimeter**2", "in": "inch", "gal": "US_liquid_gallon", "gal/h": "US_liquid_gallon/hour", "degF": "degF", "Fdiff": "delta_degF", "ft": "foot", "lb": "pound",
        "lb/ft2": "pound/foot**2", "cm": "centimeter", "L": "liter", "L/h": "liter/hour", "degC": "degC", "K": "delta_degC", "m": "meter", "kg": "kilogram",
        "kg/m2": "kilogram/meter**2", "W/L": "watt/liter", "W/gal": "watt/US_liquid_gallon"}  # fmt: skip


@pytest.mark.parametrize("name", ["demo", "demo shop", *also("demo club")])
def test_shown_values_of_a_us_workbook(name: str) -> None:
    registry, found, seen, wrong = pint.UnitRegistry(), evaluated(US_ROOMS[name](), "us"), set(), []
    schema = found.built.placing.schema
    for key, here in found.built.placing.tables.items():
        for slot in here.slots:
            if slot.shows not in {"twin", "typed"} or not slot.twin:
                continue
            base = schema.origin(here.table, slot.column.key)[1].unit
            seen.add(base)
            values = zip(found.at(key, slot.at, slot.sheet), found.whole(key, slot.column.key), strict=True)
            for row, (shown, value) in enumerate(values, 1):
                expected = (
                    value if value == "" else registry.Quantity(float(value), PINT[base]).to(PINT[slot.unit]).magnitude
                )
                wrong += differences(f"{key}.{slot.column.key} {row}", [shown], [expected])
    assert not wrong, "\n".join(wrong[:40])
    assert seen >= {"cm", "L", "L/h", "degC", "m", "kg", "kg/m2", "g"}


def told_at(limit: float, constant: str, table: str, flag: str) -> bool:
    """Whether a flag of the only row is raised with another limit."""
    room = room_at_the_limits()
    return shortly(changed(room, const=dict(room.const) | {constant: limit})).column(table, flag) != [""]


def test_what_just_meets_a_limit() -> None:
    """To the last digit, as the workbook itself reckons it: oxygen that lasts as long as is wanted, ammonia to act on."""
    found = shortly(room_at_the_limits())
    (lasts,), (toxic,) = found.column("stocking", "reserve"), found.column("readings", "toxic")
    wanted = [told_at(lasts * more, "oxygen_reserve_wanted", "stocking", "short_of_oxygen") for more in (1, 1.001)]
    allowed = [told_at(toxic * more, "toxic_act", "readings", "toxic_act") for more in (1, 1.001)]
    assert (wanted, allowed) == ([False, True], [True, False])


# --- guards ---


@pytest.mark.parametrize("name", EDITIONS)
def test_every_column_has_an_oracle(name: str) -> None:
    shop = rooms.demo_shop().constants
    tables = Schema(EDITIONS[name]().tables, UNITS | dict(zip(shop["key"], shop["unit"], strict=True))).tables
    missing = [f"{t.key}.{c.key}" for t in tables for c in own_columns(t) if not callable(oracle(t.key, c.key))]
    assert not missing, "columns without an oracle"


def test_every_flag_has_its_words_and_its_seriousness() -> None:
    """Stated apart from the sheets, for each flag of each edition, whether or not a room of these tests raises it."""
    shop, held, wrong = rooms.demo_shop().constants, set(), []
    units = UNITS | dict(zip(shop["key"], shop["unit"], strict=True))
    for table in (table for edition in EDITIONS.values() for table in Schema(edition().tables, units).tables):
        for flag in table.flags:
            says = saying.of(table.key, flag.key)
            held.add((table.key, flag.key))
            if says is None or (says.level, says.title) != (flag.seriousness, flag.title):
                wrong.append(f"{table.key}.{flag.key}: {says and (says.level, says.title)}")
        if table.is_list:
            numbers = {c.key: c.label for c in table.typed if c.kind.is_number and not (c.locked or c.free)}
            handed = {
                key for key in numbers if f"club_{key.removeprefix('own_')}" in numbers or key.startswith("club_")
            }
            wanted = {key: label for key, label in called.CALLED[table.key].items() if f"club_{key}" not in numbers}
            assert list(wanted.items()) == [pair for pair in numbers.items() if pair[0] not in handed]
    assert not wrong
    assert saying.all_of_them() - held == set(), "words of flags that are no more"


def test_oracles_do_not_look_at_the_workbook() -> None:
    for path in (Path(__file__).parent / "oracles").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            names = (
                [a.name for a in node.names]
                if isinstance(node, ast.Import)
                else [node.module or ""]
                if isinstance(node, ast.ImportFrom)
                else []
            )
            assert not [n for n in names if n.split(".")[0] == "workbook" or n == "tests.rooms"], path.name


def test_constants_are_those_of_the_domain_notes() -> None:
    table = demo_room().constants.set_index("key")
    assert set(table.index) == set(defaults.STATED) | defaults.CHOSEN
    assert {key: table["value"][key] for key in defaults.STATED} == pytest.approx(defaults.STATED, rel=1e-12)
    assert ((table["low"] <= table["value"]) & (table["value"] <= table["high"])).all()


def test_body_forms_are_those_of_the_domain_notes() -> None:
    forms = demo_room().body_forms.set_index("form")
    assert {
        form: (forms["mass_factor"][form], forms["mass_exponent"][form]) for form in defaults.BODY_FORMS
    } == defaults.BODY_FORMS


def test_every_constant_is_used() -> None:
    texts = [part for table in EDITION.tables for c in table.columns
             for part in ((c.formula.text, c.seed) if isinstance(c, Computed) else (c.when, c.why, c.do) if isinstance(c, Flag) else ())]  # fmt: skip
    texts += [flag.when for table in SCHEMA.tables for flag in table.flags]
    used = {name.removeprefix("const.") for text in texts for name in NAME.findall(text) if name.startswith("const.")}
    assert set(demo_room().const) - used == set(), "constants that nothing uses"
