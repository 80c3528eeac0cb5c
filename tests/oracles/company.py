"""Company, reckoned anew: who matters in each tank."""

import numpy as np
import pandas as pd

from tests.oracles import livestock
from tests.oracles.tools import blank, living, remember, same


@remember
def _groups(room):
    """Rows of Livestock that live in each tank; None for a tank without a name."""
    found = [None if nameless else [] for nameless in blank(room.tanks["tank"])]
    for group, tank in livestock.lives_in(room).dropna().items():
        if found[int(tank) - 1] is not None:
            found[int(tank) - 1].append(group)
    return found


def _chosen(room, wanted):
    """Of each tank, the groups of which something holds."""
    wanted = np.asarray(wanted, dtype=bool)
    return [None if groups is None else [g for g in groups if wanted[g]] for groups in _groups(room)]


def _how_many(room, wanted):
    return pd.Series([np.nan if g is None else float(len(g)) for g in _chosen(room, wanted)], dtype=float)


def _who(room, wanted, place=0):
    """Species of the first (or with -1 the last) of these groups."""
    species = room.livestock["species"]
    return pd.Series([species.iloc[g[place]] if g else "" for g in _chosen(room, wanted)], dtype=object)


def _winners(room, values, *, least=False):
    """Of each tank, the first group that holds the greatest (or least) value; None where none is known."""
    values = values.to_numpy(dtype=float) * (-1 if least else 1)
    known = _chosen(room, ~np.isnan(values))
    return [max(groups, key=lambda g: values[g]) if groups else None for groups in known]


def _value(room, values, *, least=False):
    winners = _winners(room, values, least=least)
    return pd.Series([np.nan if g is None else values.iloc[g] for g in winners], dtype=float)


def _whose(room, values, *, least=False):
    winners = _winners(room, values, least=least)
    return pd.Series(["" if g is None else room.livestock["species"].iloc[g] for g in winners], dtype=object)


def _living(room, habit, word):
    """Groups of living animals with a habit."""
    return same(livestock.of_species(room, room.species[habit]), word) & (living(room) > 0)


@remember
def residents(room):
    return _how_many(room, np.ones(len(room.livestock)))


@remember
def run_end(room):
    """Groups of this tank and of all above it."""
    return pd.Series(np.cumsum([len(groups or ()) for groups in _groups(room)]), dtype=float)


@remember
def in_quarantine(room):
    return _how_many(room, livestock.waiting(room) == 1)


@remember
def mouthful_max(room):
    return _value(room, livestock.mouthful(room))


@remember
def mouthful_who(room):
    return _whose(room, livestock.mouthful(room))


@remember
def victim_min(room):
    return _value(room, livestock.victim_length(room), least=True)


@remember
def victim_who(room):
    return _whose(room, livestock.victim_length(room), least=True)


@remember
def temper_max(room):
    return _value(room, livestock.temper_counted(room))


@remember
def temper_who(room):
    return _whose(room, livestock.temper_counted(room))


@remember
def biters(room):
    return _how_many(room, _living(room, "bites_fins", "yes"))


@remember
def first_biter(room):
    return _who(room, _living(room, "bites_fins", "yes"))


@remember
def last_biter(room):
    return _who(room, _living(room, "bites_fins", "yes"), -1)


@remember
def shrimp_hunters(room):
    return _how_many(room, _living(room, "eats_shrimp", "yes"))


@remember
def shrimp_hunter(room):
    return _who(room, _living(room, "eats_shrimp", "yes"))


@remember
def young_eaters(room):
    """Those that take only the young; hunters of grown shrimp are counted above."""
    return _how_many(room, _living(room, "eats_shrimp", "young"))


@remember
def young_eater(room):
    return _who(room, _living(room, "eats_shrimp", "young"))


@remember
def snail_eaters(room):
    return _how_many(room, _living(room, "eats_snails", "yes"))


@remember
def snail_eater(room):
    return _who(room, _living(room, "eats_snails", "yes"))


def _food_size(room):
    return livestock.of_species(room, room.species["food_size"]).astype(float)


@remember
def mouth_min(room):
    return _value(room, _food_size(room), least=True)


@remember
def mouth_who(room):
    return _whose(room, _food_size(room), least=True)


def _on_the_bottom(room):
    return livestock.bottom_wanted(room) > 0


@remember
def bottom_dwellers(room):
    return _how_many(room, _on_the_bottom(room))


@remember
def first_bottom(room):
    return _who(room, _on_the_bottom(room))


@remember
def last_bottom(room):
    return _who(room, _on_the_bottom(room), -1)
