"""Labels, 3 side by side."""

from tests.oracles.label_sheets import columns

globals().update(columns(3))
