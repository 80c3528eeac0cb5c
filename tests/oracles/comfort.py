"""Comfort, reckoned anew: what the residents of each tank want of their place, beside what it offers."""

import numpy as np
import pandas as pd

from tests.oracles import livestock, so_far
from tests.oracles.tools import Room, blank, folded, remember

# What Species and Tanks let one choose, from little to much where there is a more and a less.
CHOICES = {
    "light": ("dim", "medium", "bright"),
    "cover": ("open", "some", "much"),
    "ground": ("any", "fine sand", "dark", "stones"),
    "background": ("any", "dark"),
    "flow": ("still", "gentle", "medium", "strong"),
}
MOST_NAMES = 10
FAR = 2  # one step off is well enough
UNKNOWN, ALL_WELL = "unknown", "suits all"


@remember
def _residents(room):
    """Rows of Livestock that live in each tank; None for a tank without a name."""
    homes = livestock.lives_in(room)
    return [
        None if nameless else [row for row, home in homes.items() if home == tank + 1]
        for tank, nameless in enumerate(blank(room.tanks["tank"]))
    ]


@remember
def _like(room, thing, choice):
    """Of each tank, the species of the groups that like this; None for a tank without a name."""
    liked, names = folded(livestock.of_species(room, room.species[thing])), room.livestock["species"]
    return [
        None if rows is None else [names.iloc[row] for row in rows if liked[row] == choice] for rows in _residents(room)
    ]


@remember
def number(room, thing, choice):
    return pd.Series([np.nan if some is None else float(len(some)) for some in _like(room, thing, choice)], dtype=float)


@remember
def who(room, thing, choice):
    """The first ten, and how many more there are."""
    names = []
    for some in _like(room, thing, choice):
        more = len(some or []) - MOST_NAMES
        names.append(", ".join((some or [])[:MOST_NAMES]) + (f" and {more} more" if more > 0 else ""))
    return pd.Series(names, dtype=object)


@remember
def not_known(room, thing):
    """Groups of which nobody has said what they like."""
    residents = pd.Series([np.nan if rows is None else len(rows) for rows in _residents(room)], dtype=float)
    return residents - sum(number(room, thing, choice) for choice in CHOICES[thing])


@remember
def wants(room, thing):
    """Every choice that somebody likes, with their names."""
    texts = []
    for tank, rows in enumerate(_residents(room)):
        parts = []
        for choice in CHOICES[thing] if rows else ():
            names = who(room, thing, choice)[tank]
            parts += [f"{choice}: {names}"] if names else []
        silent = int(not_known(room, thing)[tank]) if rows else 0
        texts.append("; ".join([*parts, *([f"not known: {silent} of {len(rows)} groups"] if silent else [])]))
    return pd.Series(texts, dtype=object)


@remember
def said(room, thing):
    """The sentences of the flags about it, as they stand on the sheet."""
    order = [key for key, *_ in room.flags["comfort"] if key in ABOUT[thing]]
    raised = {key: globals()[key](room) for key in order}
    rows = [
        "¦".join(str(room.sentences["comfort", key][tank]) or "?" for key in order if raised[key].iloc[tank])
        for tank in range(len(room.tanks))
    ]
    return pd.Series(rows, dtype=object)


@remember
def suits(room, thing):
    """The first thing that is wrong; else whether all is known."""
    symbols = {"act": "▲", "watch": "◆", "note": "○"}
    words = []
    for tank, rows in enumerate(_residents(room)):
        wrong = [
            f"{symbols[level]} {title}"
            for key, level, title in room.flags["comfort"]
            if key in ABOUT[thing] and globals()[key](room).iloc[tank]
        ]
        doubt = blank(room.tanks[thing]).iloc[tank] or (rows and not_known(room, thing)[tank] > 0)
        words.append("" if not rows else [*wrong, UNKNOWN if doubt else ALL_WELL][0])
    return pd.Series(words, dtype=object)


for _thing, _choices in CHOICES.items():
    for _choice in _choices:
        _key = f"{_thing}_{_choice.replace(' ', '_')}"
        globals()[f"{_key}_groups"] = lambda room, t=_thing, c=_choice: number(room, t, c)
        globals()[_key] = lambda room, t=_thing, c=_choice: who(room, t, c)
    globals()[f"{_thing}_not_known"] = lambda room, t=_thing: not_known(room, t)
    globals()[f"{_thing}_wants"] = lambda room, t=_thing: wants(room, t)
    globals()[f"{_thing}_said"] = lambda room, t=_thing: said(room, t)
    globals()[f"{_thing}_suits"] = lambda room, t=_thing: suits(room, t)


# --- flow: two steps off or more ---


@remember
def flow_no(room):
    words = CHOICES["flow"]
    has = folded(room.tanks["flow"])
    steps = [words.index(word) + 1.0 if word in words else np.nan for word in has]
    return pd.Series(steps, dtype=float).mask(blank(room.tanks["tank"]))


def _far(room, sign):
    """Those that like the flow so much weaker (-1) or stronger (1) than it is."""
    texts = []
    for tank, has in enumerate(flow_no(room)):
        far = [choice for step, choice in enumerate(CHOICES["flow"], 1) if sign * (step - has) >= FAR]
        texts.append(", ".join(filter(None, (who(room, "flow", choice)[tank] for choice in far))))
    return pd.Series(texts, dtype=object)


@remember
def flow_weaker(room):
    return _far(room, -1)


@remember
def flow_stronger(room):
    return _far(room, 1)


def _at_odds(room, sign):
    """Those that like it so much calmer (1) or livelier (-1) than others in the tank do."""
    texts = []
    for tank in range(len(room.tanks)):
        liked = [step for step, word in enumerate(CHOICES["flow"]) if number(room, "flow", word)[tank] > 0]
        odd = [step for step in liked if any(sign * (other - step) >= FAR for other in liked)]
        texts.append(", ".join(who(room, "flow", CHOICES["flow"][step])[tank] for step in odd))
    return pd.Series(texts, dtype=object)


@remember
def flow_calm(room):
    return _at_odds(room, 1)


@remember
def flow_rapid(room):
    return _at_odds(room, -1)


# --- flags ---


def _has(room, thing, *words):
    return pd.Series([word in words for word in folded(room.tanks[thing])], dtype=bool)


def _some(room, thing, choice):
    return number(room, thing, choice) > 0


def too_bright(room):
    """Two steps: those that like it medium bear a bright lamp."""
    return _has(room, "light", "bright") & _some(room, "light", "dim")


def too_dim(room):
    return _has(room, "light", "dim") & _some(room, "light", "bright")


def light_split(room):
    return _some(room, "light", "dim") & _some(room, "light", "bright")


def too_open(room):
    return _has(room, "cover", "open") & _some(room, "cover", "much")


def too_dense(room):
    return _has(room, "cover", "much") & _some(room, "cover", "open")


def cover_split(room):
    return _some(room, "cover", "much") & _some(room, "cover", "open")


def no_sand(room):
    return _has(room, "ground", "any", "dark", "stones") & _some(room, "ground", "fine sand")


def no_stones(room):
    return _has(room, "ground", "any", "dark", "fine sand") & _some(room, "ground", "stones")


def pale_ground(room):
    """Fine sand may well be dark."""
    return _has(room, "ground", "any", "stones") & _some(room, "ground", "dark")


def ground_split(room):
    return _some(room, "ground", "fine sand") & _some(room, "ground", "stones")


def pale_background(room):
    return _has(room, "background", "any") & _some(room, "background", "dark")


def flow_too_strong(room):
    return flow_weaker(room) != ""


def flow_too_weak(room):
    return flow_stronger(room) != ""


def flow_split(room):
    return flow_calm(room) != ""


ABOUT = {
    "light": ("too_bright", "too_dim", "light_split"),
    "cover": ("too_open", "too_dense", "cover_split"),
    "ground": ("no_sand", "no_stones", "pale_ground", "ground_split"),
    "background": ("pale_background",),
    "flow": ("flow_too_strong", "flow_too_weak", "flow_split"),
}


UNLIKE = ("too_open", "no_sand", "flow_too_strong", "flow_too_weak", "too_bright", "too_dim", "too_dense")


def unlike_what(room: Room) -> pd.Series:
    """What can be mended about a tank's light, ground, cover and flow, by the titles of its flags."""
    from tests.oracles import matters  # noqa: PLC0415  they look at one another

    texts = [
        [text for key in UNLIKE if (text := matters.sentence(room, f"comfort.{key}", row))]
        for row in range(len(room.tanks))
    ]
    return pd.Series([", ".join(text[2:].split(": ")[0] for text in found) for found in texts], dtype=object)


def unlike_names(room: Room) -> list[str]:
    """Each tank in which something is."""
    return [
        f"{tank} ({what})" if what else "" for tank, what in zip(room.tanks["tank"], unlike_what(room), strict=True)
    ]


globals().update(so_far.running("unlike", unlike_names))
