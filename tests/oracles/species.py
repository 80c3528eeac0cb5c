"""Species, reckoned anew: ranges in use, mass and breath of an adult, what is known of it."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pandas as pd

from tests.oracles.tools import SAID_IN, blank, living, lookup, overridden, remember, rows_of, said

# Key of the columns, name, name within a sentence.
PARAMETERS = (
    ("temperature", "Temperature", "temperature"),
    ("ph", "pH", "pH"),
    ("gh", "GH", "GH"),
    ("kh", "KH", "KH"),
)
CHOICES = ("reported", "own", "both", "either")
ENDS = ("low", "high")
# What a full description of a species holds, besides its four reported ranges.
DESCRIPTION = (
    "adult_length",
    "body_form",
    "group_min",
    "volume_min",
    "zone",
    "swim",
    "temper",
    "mouth_share",
)
Oracle = Callable[[Any], pd.Series]


def _texts(words: list[str]) -> pd.Series:
    return pd.Series(words, dtype=object)


def _filled(words: pd.Series) -> pd.Series:
    return words.astype(bool)


def _named(function: Oracle, key: str) -> Oracle:
    """A function made in a loop, remembered under the key of its column."""
    function.__name__ = function.__qualname__ = key
    return remember(function)


@remember
def _choices(room):
    """The species' own choice, or else the room's."""
    default = room.settings.get("range_choice")
    default = default if isinstance(default, str) and default else "reported"
    return _texts([choice or default for choice in room.species["counts"]])


def _places(choices):
    """Place of each choice among the four; where nothing was chosen the reported range counts."""
    places = {word: place for place, word in enumerate(CHOICES, 1)}
    return np.array([places.get(choice.casefold(), 1) for choice in choices], dtype=int)


@remember
def _nameless(room):
    """Rows of which nothing is known yet, not even the name."""
    return blank(room.species["species"])


@remember
def counts_used(room):
    return _choices(room).mask(_nameless(room), "")


@remember
def counts_no(room):
    return pd.Series(_places(_choices(room)), dtype=float).mask(_nameless(room))


def _used(parameter: str, end: str) -> Oracle:
    """One end of the range that counts."""

    def used(room):
        pair = room.species[[f"{parameter}_{end}", f"own_{parameter}_{end}"]].to_numpy(dtype=float)
        # Both: where they meet, so the ends that lie further in. Either: the wider, so those further out.
        inner, outer = (np.fmax, np.fmin) if end == "low" else (np.fmin, np.fmax)
        reported, own = pair[:, 0], pair[:, 1]
        by_choice = np.stack([reported, own, inner(reported, own), outer(reported, own)], axis=1)
        picked = by_choice[np.arange(len(pair)), _places(_choices(room)) - 1]
        only_one = np.isnan(pair).sum(axis=1) == 1
        return pd.Series(np.where(only_one, np.fmax(reported, own), picked), dtype=float)

    return _named(used, f"used_{parameter}_{end}")


used_temperature_low, used_temperature_high = (_used("temperature", end) for end in ENDS)
used_ph_low, used_ph_high = (_used("ph", end) for end in ENDS)
used_gh_low, used_gh_high = (_used("gh", end) for end in ENDS)
used_kh_low, used_kh_high = (_used("kh", end) for end in ENDS)
USED = {
    "temperature": (used_temperature_low, used_temperature_high),
    "ph": (used_ph_low, used_ph_high),
    "gh": (used_gh_low, used_gh_high),
    "kh": (used_kh_low, used_kh_high),
}


@remember
def mass_factor(room):
    form = lookup(room.body_forms, "form", room.species["body_form"], "mass_factor")
    return room.species["factor_own"].fillna(form).astype(float)


@remember
def mass_exponent(room):
    form = lookup(room.body_forms, "form", room.species["body_form"], "mass_exponent")
    return room.species["exponent_own"].fillna(form).astype(float)


@remember
def mass_by_form(room):
    """W = a L^b (Froese, Thorson & Reyes 2014)."""
    length = room.species["adult_length"].astype(float)
    return (mass_factor(room) * length ** mass_exponent(room)).mask(mass_exponent(room).isna())


@remember
def adult_mass(room):
    """A weighed mass overrides the estimate."""
    return room.species["mass_typed"].fillna(mass_by_form(room)).astype(float)


@remember
def mid_temperature(room):
    low, high = (used(room) for used in USED["temperature"])
    return low + (high - low) / 2


def routine_oxygen(mass, temperature, activity):
    """Breath of one animal, mg/h: Clarke & Johnston 1999 for 50 g, exponent 0.80, times everyday activity."""
    per_fifty_grams = np.exp(15.7 - 5020 / (temperature + 273.15))  # mmol/h
    return activity * 31.9988 * per_fifty_grams * np.exp(0.80 * np.log(mass / 50))


@remember
def genus(room):
    """The first word of its scientific name."""
    return _texts([name.split(" ")[0] for name in room.species["scientific"]])


@remember
def oxygen(room):
    return routine_oxygen(adult_mass(room), mid_temperature(room), room.const.get("activity", np.nan))


@remember
def kept(room):
    """Animals in all groups that point to this row: 0 where there are none, unknown where none of them was counted."""
    to = rows_of(room.species, "species", room.livestock["species"])
    found = []
    for row, nameless in enumerate(_nameless(room)):
        groups = living(room).iloc[[i for i, at in enumerate(to) if at == row]]
        found.append(np.nan if nameless else groups.sum(min_count=min(1, len(groups))))
    return pd.Series(found, dtype=float)


@remember
def completeness(room):
    """Share of a full description that stands in the row."""
    wanted = [*DESCRIPTION, *(f"{key}_{end}" for key, *_ in PARAMETERS for end in ENDS)]
    share = (~room.species[wanted].apply(blank)).to_numpy(dtype=float).sum(axis=1) / len(wanted)
    return pd.Series(np.where(_nameless(room), np.nan, share), dtype=float)


def _beyond(parameter: str, word: str) -> Oracle:
    """In words, where the own range leaves the reported one."""
    unit = SAID_IN[word]

    def words(room):
        found = []
        for _, row in room.species.iterrows():
            low, high = row[f"{parameter}_low"], row[f"{parameter}_high"]
            own_low, own_high = row[f"own_{parameter}_low"], row[f"own_{parameter}_high"]
            parts = []
            if own_low < low:  # never so when one of the two is unknown
                parts.append(f"{word} from {said(own_low, 1)}{unit} (reported from {said(low, 1)}{unit})")
            if own_high > high:
                parts.append(f"{word} up to {said(own_high, 1)}{unit} (reported up to {said(high, 1)}{unit})")
            found.append("; ".join(parts))
        return _texts(found)

    return _named(words, f"{parameter}_beyond")


temperature_beyond, ph_beyond, gh_beyond, kh_beyond = (_beyond(key, word) for key, _, word in PARAMETERS)


@remember
def beyond(room):
    each = [column(room) for column in (temperature_beyond, ph_beyond, gh_beyond, kh_beyond)]
    return _texts(["; ".join(filter(None, words)) for words in zip(*each, strict=True)])


@remember
def reversed(room):  # noqa: A001  the column's key
    """Ranges of which the low end was typed above the high end."""
    found = [[] for _ in range(len(room.species))]
    for key, label, _ in PARAMETERS:
        for prefix, whose in (("", "reported"), ("own_", "own")):
            wrong = room.species[f"{prefix}{key}_low"] > room.species[f"{prefix}{key}_high"]
            for row in np.flatnonzero(wrong):
                found[row].append(f"{whose} {label}")
    return _texts([", ".join(names) for names in found])


@remember
def apart(room):
    """Parameters of which the range in use is empty."""
    found = [""] * len(room.species)
    for key, label, _ in PARAMETERS:
        low, high = (used(room) for used in USED[key])
        for row in np.flatnonzero(low > high):
            found[row] += f", {label}" if found[row] else label
    return _texts(found)


@remember
def lacking(room):
    """What other sheets need of it and do not find."""
    names = {
        "adult_length": "adult length",
        "body_form": "body form",
        "group_min": "smallest group",
        "volume_min": "smallest tank",
        "temper": "temper",
        "mouth_share": "what it can swallow",
    }
    gaps = {name: blank(room.species[key]) for key, name in names.items()}
    # A body form is wanted for the mass, so not where that was weighed; a form that nothing knows is none.
    of_form = mass_factor(room).isna() | mass_exponent(room).isna()
    gaps["body form"] = room.species["mass_typed"].isna() & of_form
    for key, _, word in PARAMETERS:
        low, high = (used(room) for used in USED[key])
        gaps[f"{word} range"] = low.isna() | high.isna()
    words = [", ".join(name for name, gap in gaps.items() if gap[row]) for row in range(len(room.species))]
    return _texts(words).mask(_nameless(room), "")


@remember
def wrong_way(room):
    return _filled(reversed(room))


@remember
def do_not_meet(room):
    """The range in use is empty, and not for a slip of typing."""
    return _filled(apart(room)) & ~_filled(reversed(room))


@remember
def restricted(room):
    """A caution is of interest to those who keep it."""
    return (kept(room) > 0) & ~blank(room.species["caution"])


@remember
def not_known(room):
    return (kept(room) > 0) & _filled(lacking(room))


@remember
def own_outside(room):
    """So whatever range counts, and whether or not one was chosen."""
    return _filled(beyond(room))


# In the files of a club.
globals().update(overridden("species", "adult_length", "group_min", "volume_min", "temper"))


# Common practice, no published source: the words by which keepers and shops part them; orders and families from memory.
WORDS_OF_KEEPERS = (
    ("loaches", "family", {"botiidae", "cobitidae", "nemacheilidae", "balitoridae", "gastromyzontidae"}),
    ("livebearers", "family", {"poeciliidae", "goodeidae", "anablepidae"}),
    ("tetras and kin", "taxon_order", {"characiformes"}),
    ("barbs and rasboras", "taxon_order", {"cypriniformes"}),
    ("catfish", "taxon_order", {"siluriformes"}),
    ("cichlids", "taxon_order", {"cichliformes"}),
    ("gouramis and kin", "taxon_order", {"anabantiformes"}),
    ("killifish", "taxon_order", {"cyprinodontiformes"}),
    ("rainbowfish", "taxon_order", {"atheriniformes"}),
)
NO_FISH = {"shrimp": "shrimps", "snail": "snails", "other": "other animals"}


@remember
def group(room):
    """What keepers call its kind: shrimps, snails and others first, then families, then whole orders."""

    def called(row):
        kind = row["kind"].casefold()
        words = (word for word, key, named in WORDS_OF_KEEPERS if row[key].casefold() in named)
        return NO_FISH.get(kind) or next(words, "other fish" if kind == "fish" else "other animals")

    return _texts([called(row) if row["species"] else "" for _, row in room.species.iterrows()])
