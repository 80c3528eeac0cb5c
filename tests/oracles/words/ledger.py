"""What the flags of a shop's ledger say."""

from tests.oracles.words.saying import Says, day, typed

SAYS = {
    "future": Says(
        "note",
        "Day still to come",
        "{day} lies after the plan date, so it does not count yet",
        "Check the date.",
        day=day(typed("ledger", "date")),
    ),
}
