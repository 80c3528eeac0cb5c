"""What the flags of a club's proposals say."""

from tests.oracles import proposals
from tests.oracles.words.saying import Says, named, phrase

SAYS = {
    "wrong_way": Says(
        "act",
        "Low above high",
        "its low end is above its high end: {which}",
        "Swap the two numbers.",
        which=named(proposals.reversed),
    ),
    "no_sense": Says(
        "act",
        "Number out of range",
        "no cell of the library takes this: {which}",
        "Check the unit; the message of the cell tells what it takes, such as a share of its own length from 0 to 0.8.",
        which=named(proposals.beyond),
    ),
    "looks_odd": Says(
        "watch", "Looks odd", "{what}", "Check it against your source; keep it if it holds.", what=phrase(proposals.odd)
    ),
    "already": Says(
        "watch",
        "Already in the library",
        "it stands there: {where}",
        "If it is wrong there, say so under Why; else clear this row.",
        where=named(proposals.in_library),
    ),
    "incomplete": Says(
        "note",
        "Proposal incomplete",
        "still missing: {gaps}",
        "Type what you know; leave blank what nobody knows.",
        gaps=named(proposals.missing),
    ),
}
