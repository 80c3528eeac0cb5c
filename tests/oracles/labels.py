"""Every label: lines repeated as often as they are wanted, and their words."""

import numpy as np
import pandas as pd

from tests.oracles import species, stock
from tests.oracles.tools import remember, rounded, rows_of, said

LINES = 480


@remember
def _rows(room):
    found = []
    for place, wanted in enumerate(room.stock["label"].fillna(0)):
        found += [place] * int(wanted)
    return found[:LINES]


def _each(room, tell, empty=""):
    found = [tell(place) for place in _rows(room)]
    return pd.Series(found + [empty] * (LINES - len(found)), dtype=object if empty == "" else float)


@remember
def _kinds(room):
    return rows_of(room.species, "species", room.stock["species"])


def chosen(room, field):
    return room.label_fields.get(f"show_{field}") == "yes"


def row(room):
    return _each(room, lambda place: place + 1.0, np.nan)


@remember
def latin(room):
    def tell(place):
        kind = _kinds(room)[place]
        return "" if kind is None or not chosen(room, "latin") else room.species["scientific"].iloc[kind]

    return _each(room, tell)


def _span(room, key, kind, unit, places):
    low, high = (getattr(species, f"used_{key}_{end}")(room).iloc[kind] for end in ("low", "high"))
    return "" if np.isnan(low) or np.isnan(high) else f"{said(low, places)}{unit} to {said(high, places)}{unit}"


@remember
def facts(room):
    def tell(place):
        kind = _kinds(room)[place]
        if kind is None:
            return ""
        grown, group = room.species["adult_length"].iloc[kind], room.species["group_min"].iloc[kind]
        parts = []
        if chosen(room, "length") and grown == grown:
            parts.append(f"grows to {said(grown, 1)} cm")
        if chosen(room, "group") and group > 1:
            parts.append(f"group of {said(group)} or more")
        if chosen(room, "temperature") and (span := _span(room, "temperature", kind, " °C", 1)):
            parts.append(span)
        if chosen(room, "ph") and (span := _span(room, "ph", kind, "", 1)):
            parts.append(f"pH {span}")
        return ", ".join(parts)

    return _each(room, tell)


@remember
def foot(room):
    def tell(place):
        parts = [room.stock["code"].iloc[place]] if chosen(room, "code") else []
        if chosen(room, "sale") and stock.waiting(room).iloc[place] == 1:
            parts.append(f"for sale from {room.stock['quarantine_until'].iloc[place]:%Y-%m-%d}")
        return "   ".join(part for part in parts if part)

    return _each(room, tell)


@remember
def price_said(room):
    currency = room.settings["currency"]

    def tell(place):
        price = room.stock["price"].iloc[place]
        if price != price or not chosen(room, "price"):
            return ""
        return f"{rounded(price, 2):.2f}" + (f" {currency}" if currency else "")

    return _each(room, tell)


@remember
def names(room):
    return _each(room, lambda place: stock.name(room).iloc[place])
