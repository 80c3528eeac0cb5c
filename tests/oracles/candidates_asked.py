"""What the sheet of all candidates says that was asked."""

import pandas as pd

from tests.oracles import candidates, residents, sought
from tests.oracles.tools import Room


def about(room: Room) -> pd.Series:
    return sought.one("Choose a tank on Candidates.") if residents.tank(room) is None else sought.about(room)


def wanted(room: Room) -> pd.Series:
    at = sought.species_at(room, "instead_of")
    none = "nothing: name a species under Instead of, on Candidates"
    return sought.one(none if at is None else candidates.name(room, at))
