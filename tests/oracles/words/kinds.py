"""What the flags of two species of a short list say; a list has no tank and no floor."""

from tests.oracles import kinds
from tests.oracles.words.couples import says_of

SAYS = says_of(kinds, "Species")
