"""What the flags of cysts say."""

from tests.oracles import hatching
from tests.oracles.words.saying import Figure, Says, named, phrase, setting, typed

SAYS = {
    # Young that wait for them have nothing else.
    "no_hatch": Says(
        "act",
        "Hardly any will hatch",
        "this lies outside what hatches: {which}",
        "Check the cell, then bring the water into that range.",
        which=named(hatching.beyond),
    ),
    "slow_hatch": Says(
        "watch",
        "Not the best water for a hatch",
        "fewer hatch, or later; better is {better}",
        "Heat or cool the water, add salt without iodine, lift pH with baking soda; strong light and strong air from "
        "below.",
        better=phrase(hatching.not_best, 6),
    ),
    "crowded": Says(
        "watch",
        "Too many cysts in a litre",
        "{has} where at most {most} is usual for a vessel of {vessel}: oxygen runs short",
        "Use more water or several vessels, and strong air.",
        has=Figure(hatching.density_used, "g/L", 1),
        most=Figure(hatching.density_most, "g/L", 2),
        vessel=Figure(typed("hatching", "vessel"), "L", 1),
    ),
    "few_vessels": Says(
        "watch",
        "Too few vessels",
        "{wanted} are wanted in rotation, {has} are there",
        "Add a vessel, warm the water, feed two feeds from one hatch or take larger vessels.",
        wanted=Figure(hatching.vessels_wanted),
        has=Figure(typed("hatching", "vessels")),
    ),
    "none_left": Says(
        "watch",
        "Out of cysts",
        "{wanted} are wanted, but none is left",
        "Order them; until then frozen food, and infusoria or fine dust for fry.",
        wanted=Figure(hatching.cysts_day, "g a day", 2),
    ),
    "runs_out": Says(
        "watch",
        "Order cysts now",
        "the stock lasts {lasts}, an order takes {lead}",
        "Order them today; keep the rest dry, cold and closed.",
        lasts=Figure(hatching.days_left, "days"),
        lead=Figure(setting("lead_days"), "days"),
    ),
}
