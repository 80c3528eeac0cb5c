"""What the flags of each tank's feeding say."""

from tests.oracles import feeding_tanks
from tests.oracles.words.saying import Figure, Says, share

SAYS = {
    "shares_off": Says(
        "watch",
        "Food shares do not add up",
        "the shares of its foods add up to {sum}",
        "Set them so that they add up to 100 %.",
        sum=share(feeding_tanks.shares),
    ),
    "no_food": Says(
        "watch",
        "No food planned",
        "its animals want {ration}, but no food is planned for it",
        "Add a row for this tank to the feeding plan.",
        ration=Figure(feeding_tanks.ration, "g a day", 3),
    ),
}
