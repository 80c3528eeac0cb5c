"""Sheets of labels: five lines of each, dealt out from left to right."""

import pandas as pd

from tests.oracles import labels
from tests.oracles.labels import LINES

PARTS = ("names", "latin", "facts", "foot", "price_said")


def columns(across):
    """Oracles of a sheet with so many labels side by side."""
    bands = LINES // across

    def place(k):
        def told(room):
            texts = [getattr(labels, part)(room) for part in PARTS]
            found = [text[band * across + k] for band in range(bands) for text in texts]
            return pd.Series(found, dtype=object)

        return told

    def band(room):
        return pd.Series([float(b) for b in range(bands) for _ in PARTS])

    def part(room):
        return pd.Series([float(p + 1) for _ in range(bands) for p in range(len(PARTS))])

    return {f"label_{k + 1}": place(k) for k in range(across)} | {"band": band, "part": part}
