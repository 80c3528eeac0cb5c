"""What the flags of the feeding plan say."""

from tests.oracles import company
from tests.oracles.tools import lookup
from tests.oracles.words.saying import Figure, Says, named

SAYS = {
    # The smallest mouth of the tank, and whose it is.
    "too_coarse": Says(
        "watch",
        "Particle too coarse",
        "its particles of {particle} are more than {who} takes, {takes}",
        "Crush or sieve it, or give those a finer food as well.",
        particle=Figure(lambda room: lookup(room.foods, "food", room.feeding["food"], "particle"), "mm", 2),
        who=named(lambda room: lookup(room.tanks, "tank", room.feeding["tank"], company.mouth_who(room))),
        takes=Figure(lambda room: lookup(room.tanks, "tank", room.feeding["tank"], company.mouth_min(room)), "mm", 2),
    ),
}
