"""What the tank gets: water, food, air."""

import pandas as pd

from tests.oracles import feeding_tanks, stocking, tank_card, week_tanks
from tests.oracles.printed import tell, texts
from tests.oracles.tools import Room

LABELS = ("Water change", "That is", "Next by the log", "Food a day", "Meals", "Fasting days", "In a power cut")


def label(room: Room) -> pd.Series:
    return texts(LABELS)


def said(room: Room) -> pd.Series:
    at = tank_card.chosen(room)
    if at is None:
        return texts([""] * len(LABELS))
    typed = room.tanks.iloc[at]
    due = tank_card.next_change(room)[0]
    grams, fasting = tell(feeding_tanks.grams_day(room).iloc[at], 3, "g a day"), tell(typed["fasting_days"])
    hours = tell(stocking.reserve(room).iloc[at], 1, "hours")
    return texts([
        f"{tell(typed['change_share'] * 100, 0, '%')} every {tell(typed['change_interval'], 1, 'days')}",
        tell(week_tanks.litres(room).iloc[at], 1, "L"),
        "no change in the log" if pd.isna(due) else tell(due),
        grams if grams == "unknown" else f"{grams} as fed",
        tell(typed["meals"], 0, "a day"),
        fasting if fasting == "unknown" else f"{fasting} a week",
        "hours of oxygen unknown" if hours == "unknown" else f"oxygen for {hours}",
    ])  # fmt: skip
