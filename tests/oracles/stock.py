"""The stock list, reckoned anew: money, orders, sales, and what is wrong with a line."""

import math

import numpy as np
import pandas as pd

from tests.oracles.stock_now import (  # noqa: F401  each is the oracle of its column
    bought,
    coming,
    count_day,
    count_order,
    count_row,
    counted,
    counted_last,
    days_before,
    here,
    lines,
    lost_lately,
    mean_cost,
    more_gone,
    paid,
    promised,
    reckoned,
    since_then,
    sold_lately,
    window_from,
)
from tests.oracles.tools import blank, lookup, remember, rows_of

WORDS = {"reserved": "reserved (0 for none)", "incoming": "incoming (0 for none)", "cost": "cost", "price": "price", "minimum": "minimum", "order_up_to": "order up to",
         "sold": "sold (0 for none)", "lost": "lost (0 for none)"}  # fmt: skip


def typed(room, key):
    return room.stock[key].astype(float)


def coded(room):
    return ~blank(room.stock["code"])


def _flag(room, where):
    return pd.Series(np.asarray(where, dtype=bool) & np.ones(len(room.stock), dtype=bool), dtype=bool)


@remember
def name(room):
    found = [species or goods for species, goods in zip(room.stock["species"], room.stock["goods"], strict=True)]
    return pd.Series(found, dtype=object).where(coded(room), "")


@remember
def animals(room):
    """Goods are no animals; a line that says neither is not one yet."""
    is_animal = ~blank(room.stock["species"])
    return here(room).where(is_animal, pd.Series(np.where(coded(room), 0.0, np.nan)))


@remember
def waiting(room):
    later = room.stock["quarantine_until"] > room.plan_date
    return later.astype(float).where(coded(room))


@remember
def unpromised(room):
    return (here(room) - promised(room)).clip(lower=0)


@remember
def free(room):
    return unpromised(room).where(waiting(room) != 1, unpromised(room) * 0).where(waiting(room).notna())


@remember
def sale(room):
    found = []
    for until, waits, there, left in zip(
        room.stock["quarantine_until"], waiting(room), here(room), free(room), strict=True
    ):
        if math.isnan(left):
            found.append("")
        elif waits:
            found.append(f"◆ from {until:%Y-%m-%d}")
        else:
            found.append("sold out" if there <= 0 else "now" if left else "all reserved")
    return pd.Series(found, dtype=object)


# --- money ---


@remember
def margin(room):
    return typed(room, "price") - typed(room, "cost")


@remember
def margin_share(room):
    """Of the price, not of the cost."""
    price = typed(room, "price")
    return (1 - typed(room, "cost") / price.where(price > 0)).where(price > 0)


@remember
def value_cost(room):
    return mean_cost(room) * here(room)


@remember
def value_price(room):
    return typed(room, "price") * here(room)


# --- sales and orders ---


@remember
def rate(room):
    return sold_lately(room) / room.const["sale_window"]


@remember
def days_left(room):
    selling = rate(room).where(rate(room) > 0)
    return unpromised(room) / selling


@remember
def lead(room):
    own = lookup(room.suppliers, "supplier", room.stock["supplier"], "delivery_days").astype(float)
    usual = room.settings["lead_days"]
    return own.fillna(np.nan if usual is None else usual).where(coded(room)).astype(float)


@remember
def least(room):
    """Sales until a delivery comes and a few days more, in whole pieces."""
    pieces = rate(room) * (lead(room) + room.const["safety_days"])
    return pd.Series([math.nan if p != p else float(math.ceil(round(p, 6))) for p in pieces], dtype=float)


@remember
def position(room):
    return here(room) + coming(room) - promised(room)


@remember
def to_order(room):
    """Nothing until the minimum is passed, then up to the level."""
    known = position(room).notna() & typed(room, "minimum").notna() & typed(room, "order_up_to").notna()
    missing = (typed(room, "order_up_to") - position(room)).clip(lower=0)
    return missing.where(position(room) < typed(room, "minimum"), 0.0).where(known)


@remember
def order_cost(room):
    return to_order(room) * typed(room, "cost")


@remember
def orders(room):
    return (to_order(room) > 0).astype(float).where(coded(room))


@remember
def supplier_number(room):
    """The supplier's row from 1; those without stand behind the last ready row."""
    last = len(room.suppliers) + math.ceil(room.spare_rows * 0.25)
    found = rows_of(room.suppliers, "supplier", room.stock["supplier"])
    return pd.Series([float(max(2, last) + 1 if row is None else row + 1) for row in found], dtype=float)


@remember
def order_key(room):
    places = np.arange(1, len(room.stock) + 1)
    return (supplier_number(room) * 1_000_000 + places).where(orders(room) == 1)


@remember
def days_here(room):
    return (room.plan_date - room.stock["came_in"]).dt.days.astype(float)


@remember
def loss_share(room):
    lost, total = lost_lately(room), lost_lately(room) + sold_lately(room) + here(room)
    return lost / total.where(total > 0)


@remember
def label_from(room):
    return 1 + typed(room, "label").fillna(0).cumsum().shift(fill_value=0.0)


@remember
def lacking(room):
    known = room.stock[["cost", "price", "minimum", "order_up_to"]].assign(
        incoming=typed(room, "incoming"), reserved=promised(room), sold=sold_lately(room), lost=lost_lately(room)
    )
    found = [", ".join(word for key, word in WORDS.items() if math.isnan(row[key])) for row in known.to_dict("records")]
    return pd.Series(found, dtype=object).where(coded(room), "")


# --- flags ---


def below_zero(room):
    keys = ["on_hand", "reserved", "incoming", "sold", "lost", "label"]
    return _flag(room, (room.stock[keys] < 0).any(axis=1) | (promised(room) < 0))


def over_reserved(room):
    return _flag(room, promised(room) > here(room))


def no_name(room):
    return _flag(room, coded(room) & blank(room.stock["species"]) & blank(room.stock["goods"]))


def two_names(room):
    return _flag(room, ~blank(room.stock["species"]) & ~blank(room.stock["goods"]))


def no_tank(room):
    return _flag(room, ~blank(room.stock["species"]) & blank(room.stock["tank"]) & (here(room) > 0))


def below_cost(room):
    return _flag(room, typed(room, "price") < typed(room, "cost"))


def many_lost(room):
    return _flag(room, (lost_lately(room) > 0) & (loss_share(room) >= room.const["loss_caution"]))


def overdue(room):
    return _flag(room, (coming(room) > 0) & (room.stock["incoming_on"] < room.plan_date))


def dead_stock(room):
    return _flag(room, (here(room) > 0) & (sold_lately(room) == 0) & (days_here(room) > room.const["dead_days"]))


def minimum_high(room):
    return _flag(room, typed(room, "minimum") > typed(room, "order_up_to"))


def slow(room):
    old = (here(room) > 0) & sold_lately(room).notna() & (days_here(room) > room.const["slow_days"])
    return _flag(room, old & ((sold_lately(room) > 0) | (days_here(room) <= room.const["dead_days"])))


def sold_out(room):
    return _flag(room, (here(room) == 0) & (coming(room) == 0) & (sold_lately(room) > 0))


def minimum_low(room):
    return _flag(room, typed(room, "minimum") < least(room))


def not_all_known(room):
    return _flag(room, lacking(room) != "")
