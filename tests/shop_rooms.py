"""Random shops: stock lists, buyers' tanks and labels of every sort."""

import datetime
from typing import Any

import pandas as pd
from hypothesis import strategies as st

from tests.oracles.tools import Room
from tests.rooms import CHOICES, LABEL_FIELDS, NAMES, READINGS, SHOP_LISTS, SPANS, Draw, blank_shop, changed


def drawn_stock(dice: Draw) -> pd.DataFrame:
    """A stock list: most lines are animals, some are goods, a few both or neither."""
    stock = dice.table("stock")
    for row in range(len(stock)):
        pick = dice.dice("stock", "what", row).random()
        if pick < 0.68:
            stock.loc[row, "goods"] = ""
        elif pick < 0.95:
            stock.loc[row, "species"] = ""
        if dice.dice("stock", "uncoded", row).random() < dice.blanks / 3:
            stock.loc[row, "code"] = ""
        if dice.dice("stock", "odd", row).random() < dice.wild:
            stock.loc[row, "reserved"] = -3.0
    return stock


def drawn_question(dice: Draw) -> dict[str, Any]:
    """A buyer's tank; what is not known is not in it."""
    spans = {"length": (20, 160, 0), "width": (15, 60, 0), "height": (15, 60, 0), "volume": (20, 300, 0), **SPANS}
    found: dict[str, Any] = {}
    for key, span in spans.items():
        one = dice.dice("question", key)
        if one.random() > dice.blanks + (0.6 if key == "volume" else 0):
            found[key] = dice.number(one, span)
    for n in range(1, 7):
        one = dice.dice("question", n)
        if one.random() < 0.6:
            found[f"kind_{n}"] = dice.link(one, "species")
            if one.random() > dice.blanks:
                found[f"number_{n}"] = float(one.choice((0, 1, 3, 8)))
    return found | {"asked": dice.link(dice.dice("question", "asked"), "species")}


def shop_of(seed: int, blanks: float, day: pd.Timestamp, sizes: dict[str, int], finer: int = 0) -> Room:
    """A random shop."""
    dice, base = Draw(seed, blanks, day, sizes), blank_shop()
    dice.finer = finer
    names = ["", *NAMES["tanks"][: sizes["tanks"]], "not there"]
    pick = dice.dice("choice")
    counts = pick.choice((None, "reported", "own", "both", "either"))
    settings = dice.settings(counts, typed_date=bool(seed % 2)) | {"currency": pick.choice((None, "EUR"))}
    choice = {key: pick.choice(names) for key in CHOICES}
    return changed(
        base,
        **{key: dice.table(key) for key in SHOP_LISTS if key != "stock"},
        stock=drawn_stock(dice),
        plan_date=day,
        question=drawn_question(dice),
        label_fields={key: dice.dice("labels", key).choice(("yes", "yes", "yes", "no")) for key in LABEL_FIELDS},
        settings=settings,
        const=dice.constants(base.constants),
        choice=choice | {"log_parameter": pick.choice(("", *READINGS)), "care": pick.choice(NAMES["species"])},
    )


@st.composite
def random_shops(draw: st.DrawFn) -> Room:
    """Shops of every valid sort."""
    most = {
        "species": 8,
        "waters": 3,
        "tanks": 6,
        "foods": 3,
        "feeding": 4,
        "log": 6,
        "stock": 24,
        "suppliers": 3,
        "ledger": 20,
    }
    sizes = {key: draw(st.integers(0, size)) for key, size in most.items()} | {
        "maintenance": 2,
        "hatching": 1,
        "feeds": 1,
        "live_wants": 1,
        "breeding": 1,
        "known": 1,
        "doses": 3,
    }
    day = pd.Timestamp(draw(st.dates(datetime.date(2025, 1, 1), datetime.date(2027, 12, 31))))
    return shop_of(draw(st.integers(0, 2**32)), draw(st.sampled_from((0.0, 0.05, 0.25))), day, sizes)
