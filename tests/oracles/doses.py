"""What the label of each product makes for the tank in view: the dose goes with the water."""

import math

import pandas as pd

from tests.oracles import tank_card, tanks, week_tanks
from tests.oracles.printed import tell
from tests.oracles.tools import Room, folded, remember

KINDS = ("conditioner", "minerals", "bicarbonate", "salt", "fertiliser", "medicine", "other")
# Common practice, no published source; a medicine is left to its label and a veterinarian.
WITH_CARE = (
    "By its label; into the new water before it meets the fish.",
    "Dissolve first; raise hardness over days, and measure.",
    "Dissolve first; a degree a day at most: pH follows. Never mix with acids.",
    "Not for plants, snails and loaches at the doses for others; it leaves only with changed water.",
    "By its label, less at first; copper in it kills shrimps and snails.",
    "By its label and a veterinarian, in a tank apart; aerate well, gloves, carbon out, local law.",
    "By its label; gloves; never mix products.",
)


@remember
def kind_no(room: Room) -> pd.Series:
    kinds = folded(room.doses["dose_kind"])
    return pd.Series([KINDS.index(kind) + 1.0 if kind in KINDS else math.nan for kind in kinds], dtype=float)


def care(room: Room) -> pd.Series:
    return pd.Series([WITH_CARE[int(n) - 1] if n == n else "" for n in kind_no(room)], dtype=object)


def _for(room: Room, litres: float) -> pd.Series:
    return room.doses["dose"] * litres / room.doses["stated_for"]


@remember
def all_amount(room: Room) -> pd.Series:
    return _for(room, tank_card.of_tank(room, tanks.net_volume(room)))


@remember
def change_amount(room: Room) -> pd.Series:
    goes = pd.Series(folded(room.doses["dose_into"]), index=room.doses.index) == "each change"
    return _for(room, tank_card.of_tank(room, week_tanks.litres(room))).where(goes)


def _said(room: Room, amounts: pd.Series) -> pd.Series:
    pairs = zip(amounts, room.doses["dose_unit"], strict=True)
    return pd.Series([f"{tell(n, 2, '')} {unit}" if n == n and unit else "" for n, unit in pairs], dtype=object)


def for_all(room: Room) -> pd.Series:
    return _said(room, all_amount(room))


def for_change(room: Room) -> pd.Series:
    return _said(room, change_amount(room))
