"""Who lives in the buyer's tank, kind by kind, grown."""

import numpy as np
import pandas as pd

from tests.oracles import species as library
from tests.oracles import stocking
from tests.oracles.tools import lookup, remember, rows_of, same

KINDS = 6


def asked(room, key):
    """A number that was typed."""
    value = room.question.get(key)
    return np.nan if value is None else float(value)


@remember
def species(room):
    return pd.Series([room.question.get(f"kind_{n}") or "" for n in range(1, KINDS + 1)], dtype=object)


@remember
def species_row(room):
    rows = rows_of(room.species, "species", species(room))
    return pd.Series([np.nan if row is None else row + 1.0 for row in rows], dtype=float)


@remember
def animals(room):
    numbers = [room.question.get(f"number_{n}") for n in range(1, KINDS + 1)]
    return pd.Series([np.nan if n is None else float(n) for n in numbers], dtype=float)


def one_of_them(room):
    return species_row(room).notna().astype(float)


def of_kind(room, values):
    return lookup(room.species, "species", species(room), values)


def _number(room, key):
    return of_kind(room, room.species[key]).astype(float)


@remember
def mouthful(room):
    return (_number(room, "mouth_share") * _number(room, "adult_length")).round(6).where(animals(room) > 0)


@remember
def victim_length(room):
    kind = of_kind(room, room.species["kind"])
    return _number(room, "adult_length").round(6).where((animals(room) > 0) & (kind != "") & ~same(kind, "snail"))


@remember
def temper_counted(room):
    return _number(room, "temper").where((animals(room) > 0) & same(of_kind(room, room.species["kind"]), "fish"))


def draw_of_one(room, mass):
    """Breath of one grown animal and of the bacteria that live on its waste, at the buyer's temperature."""
    degrees = room.question.get("temperature")
    own = library.routine_oxygen(mass, np.nan if degrees is None else degrees, room.const["activity"])
    food = 24 * own * room.const["oxycalorific"] / (room.const["food_energy"] * room.const["assimilated_share"])
    ammonia = food * room.const["protein_default"] * room.const["ammonia_yield"]
    return own + ammonia * 1000 / 24 * stocking.OXYGEN_FOR_NITROGEN


@remember
def draw(room):
    return draw_of_one(room, of_kind(room, library.adult_mass(room)).astype(float)) * animals(room)


HABITS = {"biters": ("bites_fins", "yes"), "veils": ("long_fins", "yes"), "shrimp_hunters": ("eats_shrimp", "yes"), "shrimp": ("kind", "shrimp"), "snail_eaters": ("eats_snails", "yes"),
          "snails": ("kind", "snail")}  # fmt: skip


def _reckon(key):
    column, word = HABITS[key]

    def told(room):
        texts = of_kind(room, room.species[column])
        known = species_row(room).notna() & animals(room).notna() & (texts != "")
        return ((animals(room) > 0) & same(texts, word)).astype(float).where(known)

    return told


globals().update({key: _reckon(key) for key in HABITS})


@remember
def size(room):
    length = _number(room, "adult_length")
    return np.log(length.where((animals(room) > 0) & (length > 0)))
