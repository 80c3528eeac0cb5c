"""The values of the chosen tank along the chain, in words."""

from typing import Any

import pandas as pd

from tests.oracles import chain_tank, changes, feeding_tanks, stocking, tanks
from tests.oracles.printed import tell, texts
from tests.oracles.tools import Room

STEPS = 7


def here(room: Room) -> pd.Series:
    at = chain_tank.chosen(room)
    if at is None:
        return texts([""] * STEPS)

    def of(values: Any, places: int = 0, unit: str = "", scale: float = 1) -> str:
        value = pd.Series(values).reset_index(drop=True).iloc[at]
        return (
            value
            if isinstance(value, str) and value
            else tell(value if value == "" else float(value) * scale, places, unit)
        )

    def share(values: Any) -> str:
        return of(values, 0, "%", 100)

    activity = room.const["activity"]
    return texts([
        f"{of(stocking.animals(room))} animals, {of(stocking.body_length(room), 1, 'cm')} of body in all",
        f"{of(stocking.mass(room), 1, 'g')} of animals",
        f"{of(stocking.oxygen_draw(room), 1, 'mg/h')} at {of(room.tanks['temperature'], 1, '°C')}, everyday draw {tell(activity, 6)} times the resting one",
        f"{of(stocking.food(room), 3, 'g a day')} of dry food",
        f"{of(stocking.ammonia(room), 4, 'g a day')} as nitrogen, mean of the week, from food with {share(feeding_tanks.protein(room))} protein in its dry matter",
        f"{of(stocking.nitrate_week(room), 2, 'mg/L')} a week in {of(tanks.net_volume(room), 1, 'L')}, with a yield of {of(changes.yield_used(room), 2)}",
        f"change needed: {share(stocking.change_needed(room))}; planned: {share(room.tanks['change_share'])} every {of(room.tanks['change_interval'], 0, 'days')},"
        f" which settles at {of(stocking.nitrate_peak(room), 1, 'mg/L')} before a change",
    ])  # fmt: skip
