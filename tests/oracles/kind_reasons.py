"""What speaks against the pairs of the short list."""

from tests.oracles import kinds
from tests.oracles.reasoning import reckoned

LINES = 200
globals().update(reckoned(kinds, "kinds", LINES))
