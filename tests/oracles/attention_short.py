"""What stands above the list of Attention: how much there is, and what is still to be typed first."""

import pandas as pd

from tests.oracles import attention_summary
from tests.oracles.tools import Room


def short(room: Room) -> pd.Series:
    verdict, steps = attention_summary.verdict(room)[0], attention_summary.steps(room)[0]
    return pd.Series([f"{verdict}; still to type: {steps}" if steps else verdict], dtype=object)
