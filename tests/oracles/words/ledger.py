"""What the flags of a shop's ledger say."""

from tests.oracles.words.saying import Figure, Says, day, typed

SAYS = {
    "moved_nowhere": Says(
        "watch",
        "Moved to no line",
        "{pieces} have left their line, but no line of Stock list is of that species in the tank they went to",
        "Pick the tank; or add that line to Stock list, with 0 on hand.",
        pieces=Figure(typed("ledger", "pieces")),
    ),
    "future": Says(
        "note",
        "Day still to come",
        "{day} lies after the plan date, so it does not count yet",
        "Check the date.",
        day=day(typed("ledger", "date")),
    ),
}
