"""What each tank of a plan would carry by water changes."""

import math
from collections.abc import Callable
from typing import Any

from tests.oracles import plan_lines, planned
from tests.oracles.tools import Room


def _then(column: Callable[[Room], list[float]]) -> Any:
    def six(room: Room) -> list[float]:
        found = column(planned.room_then(room))
        return [*found, *[math.nan] * (planned.TOUCHED - len(found))]

    return six


rise, carried = _then(plan_lines.rises), _then(plan_lines.carries)
nitrogen_full, nitrogen_gross = _then(plan_lines.full), _then(plan_lines.gross)
