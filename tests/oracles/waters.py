"""Waters: source waters that bring trouble with them."""

import pandas as pd

from tests.oracles.tools import Room, remember


@remember
def ammonia_in_source(room: Room) -> pd.Series:
    return room.waters["ammonia"].reset_index(drop=True) > 0


@remember
def nitrate_at_target(room: Room) -> pd.Series:
    """No change brings a tank under what the new water holds; without a target nothing can be said."""
    target = room.settings.get("nitrate_target")
    return room.waters["nitrate"].reset_index(drop=True) >= (float("nan") if target is None else target)
