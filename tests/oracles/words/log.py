"""What the flags of the log say."""

from tests.oracles import log
from tests.oracles.words.saying import Says, day, named, typed

SAYS = {
    "senseless": Says(
        "act",
        "Reading out of all sense",
        "no aquarium water reads so: {which}",
        "Check the cell: a decimal point, or two values swapped.",
        which=named(log.no_sense),
    ),
    "future": Says(
        "note",
        "Date still to come",
        "{day} lies after the plan date",
        "Check the date.",
        day=day(typed("log", "date")),
    ),
}
