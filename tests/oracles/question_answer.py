"""The buyer's tank in short."""

import math

import numpy as np
import pandas as pd

from tests.oracles import buyer_lines, question_company, question_lives
from tests.oracles.question_lives import asked
from tests.oracles.tools import folded, remember

BEST = 20
WHY = {"water": "the water", "tank": "the size of the tank", "number": "their number", "company": "the company"}


def one(value):
    return pd.Series([value], dtype=object if isinstance(value, str) else float)


def by_sides(room):
    return one(asked(room, "length") * asked(room, "width") * asked(room, "height") / 1000)


@remember
def volume(room):
    typed = asked(room, "volume")
    return by_sides(room) if math.isnan(typed) else one(typed)


def swim_length(room):
    sides = [asked(room, "length"), asked(room, "width")]
    return one(math.nan if math.isnan(sides[0]) else float(np.nanmax(sides)))


@remember
def saturation(room):
    """Benson & Krause 1984, with the water vapour taken off the air."""
    altitude = room.settings["altitude"]
    kelvin = asked(room, "temperature") + 273.15
    logs = sum(a / kelvin**n for n, a in enumerate((-139.34411, 1.575701e5, -6.642308e7, 1.243800e10, -8.621949e11)))
    vapour = math.exp(11.8571 - 3840.70 / kelvin - 216961 / kelvin**2)
    air = (1 - 2.25577e-5 * (math.nan if altitude is None else altitude)) ** 5.25588
    return one(math.exp(logs) * (air - vapour) / (1 - vapour))


def draw(room):
    return one(float(question_lives.draw(room).sum()))


def fitting(room):
    fits = int(buyer_lines.fits(room).sum())
    if not question_company.asked_something(room)[0]:
        return one("type the tank or its water first")
    return one(f"{fits}, the best {BEST} below" if fits > BEST else f"{fits} below")


def not_fitting(room):
    return one(
        ", ".join(f"{int(getattr(buyer_lines, f'no_{key}')(room).sum())} by {said}" for key, said in WHY.items())
    )


def asked_says(room):
    if not room.question.get("asked"):
        return one("")
    name = folded([room.question["asked"]])[0]
    for here, considered, why, many in zip(
        folded(room.stock["species"]),
        buyer_lines.considered(room),
        buyer_lines.why_not(room),
        buyer_lines.how_many(room),
        strict=True,
    ):
        if here == name and considered == 1:
            return one(f"does not fit: {why}" if why else f"fits: {many}")
    return one("none of it may be sold now")


def untold(room):
    lacking = int(question_company.kinds(room)[0] - question_company.counted(room)[0])
    return one(f"◆ {lacking} kinds lack their number or are not known" if lacking > 0 else "all that was typed")


@remember
def usual_length(room):
    """The geometric mean of those that live there; of an empty tank what suits it."""
    sizes, lengths = question_lives.size(room).dropna(), room.const["choose_lengths"]
    if math.isnan(lengths):
        return one(math.nan)
    return one(float(np.exp(sizes.mean())) if len(sizes) else swim_length(room)[0] / lengths)
