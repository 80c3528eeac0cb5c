"""What each tank of a plan would need, told with its unit; the numbers are those of the living room."""

from tests.oracles import planned, stocking, tanks
from tests.oracles.printed import tell
from tests.oracles.tools import Oracle, Room

# Of each: the column of the living room, decimals and unit as told.
TOLD = {
    "filled_mass": (tanks.filled_mass, 0, "kg"),
    "net_volume": (tanks.net_volume, 1, "L"),
    "nitrate_peak": (stocking.nitrate_peak, 1, "mg/L"),
    "change_needed": (stocking.change_needed, 0, "%"),
    "food": (stocking.food, 3, "g a day"),
    "heater_size": (tanks.heater_size, 0, "W"),
}


def _told(key: str, *, then: bool) -> Oracle:
    column, decimals, unit = TOLD[key]

    def reckon(room: Room) -> list[str]:
        values = list(column(planned.room_then(room))) if then else planned.of_own(room, column)
        known = [value if isinstance(value, float | int) else float("nan") for value in values]
        times = 100 if unit == "%" else 1
        found = [tell(value * times, decimals, unit) if value == value else "" for value in known]
        found = found[: len(planned.touched(room))]
        return [*found, *[""] * (planned.TOUCHED - len(found))]

    return reckon


globals().update(
    {f"{key}_{'then' if then else 'now'}_told": _told(key, then=then) for key in TOLD for then in (False, True)}
)
