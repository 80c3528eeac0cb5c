"""Do the oracles of a shop's own tables watch? Every number and operator is spoilt, one at a time, and must be noticed."""

import math
from collections.abc import Iterator
from itertools import islice

import pandas as pd

from tests import test_columns
from tests.effort import examples
from tests.oracles.tools import Room
from tests.rooms import blank_shop, changed, demo_shop
from tests.shop_rooms import shop_of
from tests.test_columns import SCHEMA, own_columns
from tests.test_watch import Spot, left_unseen, spots
from workbook.editions import EDITIONS
from workbook.tables.schema import Schema

UNITS = dict(zip(demo_shop().constants["key"], demo_shop().constants["unit"], strict=True))
SHOP = Schema(EDITIONS["shop"]().tables, UNITS)
SIZES = {
    "species": 8,
    "waters": 3,
    "tanks": 6,
    "foods": 3,
    "feeding": 8,
    "maintenance": 2,
    "log": 6,
    "stock": 40,
    "suppliers": 3,
    "ledger": 60,
    "hatching": 1,
    "feeds": 1,
    "live_wants": 1,
    "known": 2,
    "doses": 3,
    "breeding": 1,
}
DAY = pd.Timestamp("2026-05-17")

# What no shop shows, with the reason.
NOT_TO_BE_SEEN = dict.fromkeys(
    (
        "stock.least 6",
        "room_lines.more 6",
        "buyer_lines.at_most 6",
        "question_lives.victim_length 6",
        "buyer_lines.why_company 6",
    ),
    "only float noise is rounded off",
)


def drawn(seed: int, blanks: float, finer: int = 0, **more: object) -> Room:
    """A random shop with as much as there can be of everything."""
    return changed(shop_of(seed, blanks, DAY, SIZES, finer), **more)


def crowded(seed: int) -> Room:
    """A buyer's tank with grown animals of every sort, and all that is in stock for sale."""
    shop = drawn(seed, 0.0)
    kinds = {f"kind_{n}": name for n, name in enumerate(shop.species["species"].iloc[seed % 3 :][:6], 1)}
    question = (
        {"length": 400.0, "width": 80.0, "height": 70.0, "temperature": 24.0, "ph": 6.8, "gh": 9.0, "kh": 5.0}
        | kinds
        | {f"number_{n}": float(n % 3) for n in range(1, 7)}
    )
    stock = shop.stock.assign(on_hand=30.0, reserved=0.0, quarantine_until=pd.NaT)
    return changed(shop, stock=stock, question=question | {"asked": shop.species["species"][seed % 8]})


def limits() -> Room:
    """Numbers that lie at a limit or a hair beside it: of the demo's first lines."""
    shop = demo_shop()
    stock = shop.stock.copy()
    dates = [shop.plan_date - pd.Timedelta(days=days) for days in (44, 45, 46, 89, 90, 91, 0, 1)]
    for row, day in enumerate(dates):
        stock.loc[row, ["on_hand", "sold", "came_in", "quarantine_until"]] = [
            1.0,
            float(row % 2),
            day,
            shop.plan_date + pd.Timedelta(days=row - 4),
        ]
    for row, (here, sold, lost) in enumerate(
        (
            (9.0, 0.0, 1.0),
            (90.0, 0.0, 10.0),
            (0.0, 0.0, 0.0),
            (0.0, 1.0, 0.0),
            (1.0, 1.0, 1.0),
            (89.0, 1.0, 10.0),
            (91.0, 0.0, 10.0),
        ),
        10,
    ):
        stock.loc[row, ["on_hand", "sold", "lost", "reserved", "incoming"]] = [here, sold, lost, 0.0, 0.0]
    stock.loc[20:26, ["price", "cost"]] = [
        [1.0, 1.0],
        [0.0, 0.0],
        [0.0, 1.0],
        [1.0, 0.0],
        [0.01, 0.01],
        [1.005, 2.0],
        [99.995, 1.0],
    ]
    stock.loc[30:34, "label"] = [0.0, 1.0, 2.0, math.nan, 300.0]
    stock.loc[35:40, ["minimum", "order_up_to"]] = 1.0
    stock.loc[35:40, ["on_hand", "incoming", "reserved"]] = [
        [0.0, 0.0, 0.0],
        [1.0, 0.0, 0.0],
        [0.0, 1.0, 0.0],
        [1.0, 0.0, 1.0],
        [2.0, 0.0, 2.0],
        [0.0, 0.0, 1.0],
    ]
    stock.loc[35:40, "cost"] = 0.0
    stock.loc[42, ["on_hand", "sold", "came_in"]] = [1.0, 0.0, shop.plan_date - pd.Timedelta(days=200)]
    animal = stock.index[stock["species"] != ""][45]
    stock.loc[animal, ["tank", "on_hand"]] = ["", 1.0]
    question = shop.question | {"number_1": 1.0, "number_2": 0.0}
    return changed(shop, stock=stock, question=question)


def rooms_to_watch() -> Iterator[Room]:
    """Shops from small to large, until everything has been seen."""
    yield from (drawn(seed, blanks) for seed, blanks in ((1, 0.0), (2, 0.1), (3, 0.0), (4, 0.25), (5, 0.05)))
    yield from (crowded(seed) for seed in (6, 7, 8))
    yield from (drawn(seed, 0.05, finer=2) for seed in (11, 12))
    yield drawn(13, 0.0, question={"volume": 60.0}, label_fields={})
    breathless = crowded(9)
    yield changed(breathless, const=breathless.const | {"oxygen_stop": 20.0})
    yield blank_shop()
    yield limits()
    yield demo_shop()
    yield test_columns.shop_with_unknown_names()


def own_tables() -> frozenset[str]:
    """The tables that only a shop has."""
    return frozenset(table.key for table in SHOP.tables) - {table.key for table in SCHEMA.tables}


def all_spots() -> list[Spot]:
    """Every spot of every table that only a shop has."""
    return [
        spot
        for table in SHOP.tables
        if table.key in own_tables()
        for column in own_columns(table)
        for spot in spots(table, column)
    ]


def test_spoilt_formulas_of_a_shop_are_noticed() -> None:
    """Every one in a long run; of every eighth nine in ten in a usual run, by the first shops alone."""
    spots = all_spots()
    assert len(spots) > 400
    tried = [spot for spot in spots if spot.in_turn(examples(8, 1)) and str(spot) not in NOT_TO_BE_SEEN]
    escaped = left_unseen(tried, ((room, own_tables()) for room in islice(rooms_to_watch(), examples(3, 1000))))
    told = [f"{spot}: {spot.texts[0]}" for spot in escaped]
    assert len(told) <= examples(len(tried) // 10, 0), f"{len(told)} not noticed\n" + "\n".join(told)


def test_what_is_not_to_be_seen_is_still_there() -> None:
    assert set(NOT_TO_BE_SEEN) <= {str(spot) for spot in all_spots()}, "take out what no formula holds any more"
