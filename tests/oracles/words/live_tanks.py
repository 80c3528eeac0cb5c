"""What the flags of each tank's nauplii say."""

from tests.oracles.words.saying import Says

SAYS = {
    "no_feed": Says(
        "watch",
        "Nauplii wanted, no feed planned",
        "its animals want nauplii, but no feed stands in the list of feeds",
        "Type at least two feeds a day with their hour.",
    ),
}
