"""What is open about each tank: the lines of Attention that speak of it, or of what lives, eats or is due in it."""

from collections.abc import Callable

import numpy as np
import pandas as pd

from tests.oracles import attention
from tests.oracles.tools import Oracle, Room, blank, remember

NAMES_SAID = 4


def _named(room: Room) -> list[bool]:
    return [not nameless for nameless in blank(room.tanks["tank"])]


@remember
def lines(room: Room) -> list[list[int]]:
    """The lines of each tank, from 0; a row without a name is no tank."""
    about = list(attention.open_tank(room))
    return [
        [line for line, of in enumerate(about) if of == tank] if named else []
        for tank, named in enumerate(_named(room), 1)
    ]


def _many(sign: str) -> Oracle:
    def count(room: Room) -> pd.Series:
        signs = [text[:1] for text in attention.serious(room)]
        many = [float(sum(signs[line] == sign for line in of_tank)) for of_tank in lines(room)]
        return pd.Series(many, dtype=float).where(_named(room))

    return count


open_acts, open_watches, open_notes = LEVELS = tuple(map(_many, "▲◆○"))


def open_all(room: Room) -> pd.Series:
    return open_acts(room) + open_watches(room) + open_notes(room)


@remember
def worst_line(room: Room) -> pd.Series:
    """The first of them: the list goes from the most serious down."""
    return pd.Series([of_tank[0] + 1.0 if of_tank else np.nan for of_tank in lines(room)], dtype=float)


def _of_worst(room: Room, column: Callable[[Room], pd.Series]) -> list[str]:
    texts = list(column(room))
    return [texts[of_tank[0]] if of_tank else "" for of_tank in lines(room)]


def _texts(values: list[str]) -> pd.Series:
    return pd.Series(values, dtype=object)


def worst_sign(room: Room) -> pd.Series:
    return _texts([text[:1] for text in _of_worst(room, attention.serious)])


def worst_about(room: Room) -> pd.Series:
    return _texts(_of_worst(room, attention.about))


def all_lines(room: Room) -> pd.Series:
    """All its lines in full: what stands in the last of them."""
    told = list(attention.of_tank(room))
    return _texts([told[of_tank[-1]] if of_tank else "" for of_tank in lines(room)])


def worst_what(room: Room) -> pd.Series:
    return _texts(_of_worst(room, attention.what))


def worst_why(room: Room) -> pd.Series:
    return _texts(_of_worst(room, attention.why))


def worst_do(room: Room) -> pd.Series:
    return _texts(_of_worst(room, attention.do))


@remember
def worst_sentence(room: Room) -> pd.Series:
    parts = zip(worst_sign(room), worst_about(room), worst_what(room), worst_why(room), worst_do(room), strict=True)
    return _texts([f"{sign} {about}{what}: {why} → {do}" if sign else "" for sign, about, what, why, do in parts])


@remember
def asking(room: Room) -> pd.Series:
    """How many tanks so far have something to act on."""
    return (open_acts(room) > 0).cumsum().astype(float)


def asking_names(room: Room) -> pd.Series:
    """The first few of them by name."""
    so_far: list[str] = []
    found = []
    for name, acts in zip(room.tanks["tank"], open_acts(room), strict=True):
        so_far += [name] if acts > 0 else []
        found.append(", ".join(so_far[:NAMES_SAID]))
    return _texts(found)
