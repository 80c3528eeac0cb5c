"""What the tank gets: water, food, air."""

import pandas as pd

from tests.oracles import feeding_tanks, live_tanks, next_change, stocking, tank_card, week_tanks
from tests.oracles.printed import tell, texts
from tests.oracles.tools import Room

LABELS = ("Water change", "Next change", "Food a day", "Meals", "Nauplii", "In a power cut")


def label(room: Room) -> pd.Series:
    return texts(LABELS)


def said(room: Room) -> pd.Series:
    at = tank_card.chosen(room)
    if at is None:
        return texts([""] * len(LABELS))
    typed = room.tanks.iloc[at]
    due, recipe, fasting = next_change.next_change(room)[at], next_change.recipe(room)[at], typed["fasting_days"]
    grams, nauplii = tell(feeding_tanks.grams_day(room).iloc[at], 3, "g a day"), live_tanks.wanted(room).iloc[at]
    hours, litres = tell(stocking.reserve(room).iloc[at], 1, "hours"), tell(week_tanks.litres(room).iloc[at], 1, "L")
    return texts([
        f"{tell(typed['change_share'] * 100, 0, '%')} ({litres}) every {tell(typed['change_interval'], 1, 'days')}",
        "no interval known" if pd.isna(due) else f"{tell(due)}, {recipe}",
        grams if grams == "unknown" else f"{grams} as fed",
        tell(typed["meals"], 0, "a day") + (f"; fasting {tell(fasting, 0, 'a week')}" if fasting > 0 else ""),
        tell(nauplii, 0, "a day") if nauplii > 0 else "none",
        "hours of oxygen unknown" if hours == "unknown" else f"oxygen for {hours}",
    ])  # fmt: skip
