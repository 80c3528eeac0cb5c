"""What the flags of Species say."""

from tests.oracles import species
from tests.oracles.words.saying import Figure, Says, named, phrase, typed

SAYS = {
    # A range whose low end is above its high end fits no water: whatever compares with it goes wrong.
    "wrong_way": Says(
        "act",
        "Range the wrong way round",
        "its low end is above its high end: {which}",
        "Swap the two numbers.",
        which=named(species.reversed),
    ),
    "do_not_meet": Says(
        "watch",
        "Reported and own ranges do not meet",
        "both are to count, yet they share nothing: {which}",
        "Choose own or either if you trust what you see at home, reported if not.",
        which=named(species.apart),
    ),
    "restricted": Says(
        "note",
        "Caution for this species",
        "{caution}",
        "See that your tank meets it; check local lists before you keep it or pass it on, never release it.",
        caution=named(typed("species", "caution")),
    ),
    "not_known": Says(
        "watch",
        "Data missing",
        "{animals} kept here, but unknown: {gaps}",
        "Type what you know; until then this species is left out where it is needed.",
        animals=Figure(species.kept),
        gaps=named(species.lacking),
    ),
    "own_outside": Says(
        "note",
        "Own experience outside what is reported",
        "kept well at {where}; what counts here: {choice}",
        "Keep your note of it; for newly bought animals start inside the reported range and move slowly.",
        where=phrase(species.beyond),
        choice=named(species.counts_used),
    ),
}
