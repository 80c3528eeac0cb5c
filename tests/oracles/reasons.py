"""What speaks against the pairs of the chosen tank."""

from tests.oracles import pairs
from tests.oracles.reasoning import reckoned

LINES = 120
globals().update(reckoned(pairs, "pairs", LINES))
