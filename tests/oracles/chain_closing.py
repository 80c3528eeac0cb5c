"""What to keep in mind of the chain: the words themselves."""

import pandas as pd

from tests.oracles.printed import texts
from tests.oracles.tools import Room

WORDS = (
    "Oxygen also goes to the bacteria of the filter, which turn the ammonia into nitrate and use up carbonate (KH) on the way: see Stocking and Water changes.",
    "An error early in the chain goes through to its end: weigh some animals, read the food's label, log nitrate twice between two water changes.",
    "All of this plans, none of it measures. Test the water and watch the animals: they overrule any calm cell.",
)


def said(_: Room) -> pd.Series:
    return texts(WORDS)
