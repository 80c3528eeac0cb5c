"""What the flags of constants say."""

from tests.oracles.words.saying import Says, named, typed

LABEL = named(typed("constants", "label"))

SAYS = {
    "no_value": Says(
        "act",
        "Constant empty",
        "'{label}' has no value, so everything that uses it is blank",
        "Type a value; the sensible range stands beside it.",
        label=LABEL,
    ),
    "odd_value": Says(
        "watch",
        "Constant out of the ordinary",
        "'{label}' lies outside what is sensible",
        "Check the unit; keep it if you know better.",
        label=LABEL,
    ),
}
