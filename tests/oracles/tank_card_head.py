"""The name over the page of one tank, and the tank in short."""

import pandas as pd

from tests.oracles import stocking, tank_card, tanks
from tests.oracles.printed import tell, texts
from tests.oracles.tools import Room


def said(room: Room) -> pd.Series:
    tank = tank_card.chosen(room)
    return texts(["Choose a tank above" if tank is None else room.tanks["tank"].iloc[tank]])


def about(room: Room) -> pd.Series:
    at = tank_card.chosen(room)
    if at is None:
        return texts([""])
    typed = room.tanks.iloc[at]
    volume, set_to = tell(tanks.net_volume(room).iloc[at], 1, "L"), tell(typed["temperature"], 1, "°C")
    animals, share = tell(stocking.animals(room).iloc[at]), stocking.binding_share(room).iloc[at]
    full = "unknown" if share != share else f"{stocking.binding(room).iloc[at]} ({tell(share * 100, 0, '%')})"
    place = f".  Stands: {typed['place']}" if typed["place"] else ""
    return texts([f"{volume} net, set to {set_to}, {animals} animals; fullest by {full}{place}"])
