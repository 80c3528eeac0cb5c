"""What the flags of the feeds of a day say."""

from tests.oracles import feeds
from tests.oracles.words.saying import Says, share

SAYS = {
    "shares_off": Says(
        "watch",
        "Shares of the feeds do not add up",
        "the shares of all feeds add up to {sum}",
        "Set them so that they add up to 100 %.",
        sum=share(feeds.shares),
    ),
    "out_of_order": Says(
        "note",
        "Feeds not in the order of the day",
        "it stands below a later feed from the same cysts",
        "Bring the rows into the order of the day, so that two feeds can share a hatch.",
    ),
}
