"""Who matters among those that live in the buyer's tank."""

import numpy as np
import pandas as pd

from tests.oracles import buyer_lines, question_answer
from tests.oracles import question_lives as there
from tests.oracles.tools import remember

PARAMETERS = ("temperature", "ph", "gh", "kh")


def one(value):
    return pd.Series([value], dtype=object if isinstance(value, str) else float)


def kinds(room):
    return one(float((there.species(room) != "").sum()))


def counted(room):
    return one(float((there.species_row(room).notna() & (there.animals(room) >= 0)).sum()))


@remember
def asked_something(room):
    typed = [room.question.get(p) for p in PARAMETERS]
    return one(float(any(v is not None for v in typed) or not np.isnan(question_answer.volume(room)[0])))


@remember
def asked_row(room):
    rows = np.flatnonzero(buyer_lines.is_asked(room) == 1)
    return one(float(rows[0] + 1) if len(rows) else np.nan)


def _extreme(values, *, least):
    known = values.dropna()
    return np.nan if known.empty else float(known.min() if least else known.max())


def _pair(key, column, least):
    def value(room):
        return one(_extreme(getattr(there, column)(room), least=least))

    def who(room):
        values = getattr(there, column)(room)
        best = _extreme(values, least=least)
        return one("" if best != best else there.species(room)[int(np.flatnonzero(values == best)[0])])

    return {key: value, f"{key}_who": who}


for _key, _column, _least in (
    ("mouthful_max", "mouthful", False),
    ("victim_min", "victim_length", True),
    ("temper_max", "temper_counted", False),
    ("temper_min", "temper_counted", True),
):
    globals().update(_pair(_key, _column, _least))


def _sum(key):
    return lambda room: one(float(getattr(there, key)(room).sum()))


globals().update({key: _sum(key) for key in there.HABITS})
