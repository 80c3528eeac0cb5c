"""What is said of the whole room in one line for each cause."""

from tests.oracles import matters_everywhere
from tests.oracles.words.saying import Says, const, step, told

WHICH = {"which": told(matters_everywhere.which)}

SAYS = {
    "tasks": Says(
        "watch",
        "Tasks late",
        "{which}",
        "This week lists them. Do them, then type the day under Last done; or lengthen the interval.",
        **WHICH,
    ),
    "broods": Says(
        "watch",
        "Broods wait",
        "{which}",
        "Do it, then type the date under Steps done up to; 0 under Young counted if the brood is lost.",
        **WHICH,
    ),
    "rearing": Says(
        "watch",
        "Room for young",
        "{which}",
        "Choose an empty tank that is large enough, share them out, or raise fewer; name it under Growing on in.",
        **WHICH,
    ),
    "cold_water": Says(
        "watch",
        "Change too cold or warm",
        "the change planned moves the tank by more than {most}: {which}",
        "Bring the new water nearer to the tank's temperature, or change less at one go.",
        most=step(const("temperature_step")),
        **WHICH,
    ),
    "foods": Says(
        "watch", "Foods to order", "{which}", "Order them, or put others in their place on Feeding.", **WHICH
    ),
    "coarse": Says(
        "watch", "Food too coarse", "{which}", "Crush or sieve it, or give those a finer food as well.", **WHICH
    ),
    # Light, ground and cover weigh less than water, company and room.
    "comfort": Says(
        "note",
        "Light, ground, cover, flow",
        "not as some like it: {which}",
        "Sand to dig in, a calm corner, shade or shelter often mend it.",
        **WHICH,
    ),
}
