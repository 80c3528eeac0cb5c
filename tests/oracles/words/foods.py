"""What the flags of Foods say."""

from tests.oracles import foods
from tests.oracles.words.saying import Figure, Says, setting, share, typed

SAYS = {
    "understated": Says(
        "note",
        "Use understated",
        "rows of the feeding plan for it that can't be reckoned: {rows}; so it is used up faster than shown",
        "Complete those tanks: volume, temperature, meals, fasting days; and dry matter of the food.",
        rows=Figure(foods.unknown_rows),
    ),
    "none_left": Says(
        "watch",
        "Out of stock",
        "it stands in the feeding plan, but none is left",
        "Order it, or put another food in its place on Feeding.",
    ),
    "runs_out": Says(
        "watch",
        "Order now",
        "the stock lasts {lasts}, an order takes {lead}",
        "Order it today.",
        lasts=Figure(foods.days_left, "days"),
        lead=Figure(setting("lead_days"), "days"),
    ),
    "cannot_reckon": Says(
        "note",
        "Food data missing",
        "the default protein counts for it while protein or dry matter is missing; without dry matter its grams stay blank",
        "Type both from the label.",
    ),
    # Protein is a part of the dry matter.
    "more_than_dry": Says(
        "act",
        "Protein above dry matter",
        "protein {protein} cannot be more than dry matter {dry}",
        "Check both on the label.",
        protein=share(typed("foods", "protein")),
        dry=share(typed("foods", "dry_matter")),
    ),
}
