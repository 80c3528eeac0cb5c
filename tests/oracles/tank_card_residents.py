"""Who lives in the tank in view, how each one fares, the water it bears."""

import math
from typing import Any

import pandas as pd

from tests.oracles import livestock, tank_card
from tests.oracles.overlap_detail import PARAMETERS, brought
from tests.oracles.printed import listed, names, numbers, texts
from tests.oracles.tools import Oracle, Room

LINES = 14
WORDS = {"temperature": "temperature", "ph": "pH", "gh": "GH", "kh": "KH"}


def _groups(room: Room) -> list[int | None]:
    return listed(tank_card.residents(room), LINES)


def found(room: Room) -> pd.Series:
    return numbers(_groups(room))


def species(room: Room) -> pd.Series:
    return names(tank_card.residents(room), LINES, lambda group: room.livestock["species"].iloc[group], "groups")


def _kept(room: Room, p: str) -> float:
    from tests.oracles import tank_water  # noqa: PLC0415  its scale is that of the residents listed here

    return tank_water.kept(room, p)


def _ends(room: Room, group: int, p: str) -> tuple[float, float]:
    low, high = (float(brought(room, p, which).iloc[group]) for which in ("low", "high"))
    return low, high


def _beyond(which: str) -> Oracle:
    """What the tank is kept at lies over what a resident bears, or under it."""

    def tell(room: Room) -> pd.Series:
        found = []
        for group in _groups(room):
            words = []
            for p in PARAMETERS if group is not None else ():
                low, high = _ends(room, group, p)
                if (_kept(room, p) > high) if which == "high" else (_kept(room, p) < low):
                    words.append(WORDS[p])
            found.append(", ".join(words))
        return texts(found)

    return tell


too_high, too_low = _beyond("high"), _beyond("low")


def unlike(room: Room) -> pd.Series:
    """In what another of the tank wants it otherwise."""
    parts = {"light": livestock.light_unlike, "flow": livestock.flow_unlike, "floor": livestock.bottom_rival}
    told = {word: list(of(room)) for word, of in parts.items()}
    return texts(
        [", ".join(word for word in told if group is not None and told[word][group]) for group in _groups(room)]
    )


def water(room: Room) -> pd.Series:
    told = []
    for group, high, low in zip(_groups(room), too_high(room), too_low(room), strict=True):
        if group is None:
            told.append("")
            continue
        compared = any(
            not math.isnan(_kept(room, p)) and not all(math.isnan(end) for end in _ends(room, group, p))
            for p in PARAMETERS
        )
        outside = "; ".join(f"{names_} {word}" for names_, word in ((high, "high"), (low, "low")) if names_)
        told.append(f"◆ {outside}" if outside else "water suits it" if compared else "water not known")
    return texts(told)


def fares(room: Room) -> pd.Series:
    pairs = zip(water(room), unlike(room), strict=True)
    return texts([suits + (f"; apart in {apart}" if apart else "") for suits, apart in pairs])


def _of_bar(p: str, what: str) -> Any:
    def reckon(room: Room) -> pd.Series:
        from tests.oracles import tank_shared  # noqa: PLC0415  see above

        found = []
        for group in _groups(room):
            low, high = (math.nan, math.nan) if group is None else _ends(room, group, p)
            plain = tank_shared.drawn(room, p, low, high)
            found.append(
                {
                    "plain": plain,
                    "bar": "" if group is None else tank_shared.marked(room, p, plain),
                    "low_letter": tank_shared.letter_of(room, p, low),
                    "high_letter": tank_shared.letter_of(room, p, high),
                }[what]
            )
        return pd.Series(found, dtype=float if what.endswith("letter") else object)

    return reckon


globals().update(
    {f"{p}_{what}": _of_bar(p, what) for p in PARAMETERS for what in ("plain", "bar", "low_letter", "high_letter")}
)
