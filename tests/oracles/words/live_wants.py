"""What the flags of counted nauplii say."""

from tests.oracles import live_wants
from tests.oracles.words.saying import Figure, Says

SAYS = {
    "same_tank": Says(
        "watch",
        "Tank in two rows",
        "rows of this tank: {rows}; they are added up",
        "Keep one row for each tank.",
        rows=Figure(live_wants.together),
    ),
}
