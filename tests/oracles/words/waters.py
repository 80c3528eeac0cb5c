"""What the flags of Waters say."""

from tests.oracles import waters
from tests.oracles.words.saying import Figure, Says, named, setting, told, typed

SAYS = {
    "ammonia_in_source": Says(
        "watch",
        "Ammonia in the source water",
        "it holds {held} of ammonia nitrogen before any fish has lived in it",
        "Condition it for ammonia by the product's label, and test the tank after each change.",
        held=Figure(typed("waters", "ammonia"), "mg/L", 2),
    ),
    "nitrate_at_target": Says(
        "watch",
        "Source water no better than the target",
        "its nitrate of {held} is not below the target of {aim}, so no water change can hold the target",
        "Blend with a water that holds less, or raise the target on Start with open eyes.",
        held=Figure(waters.nitrate_used, "mg/L", 1),
        aim=Figure(setting("nitrate_target"), "mg/L"),
    ),
    "poor_source": Says(
        "watch",
        "Poor source water",
        "{trouble}",
        "Blend it with a better water, or prepare it: conditioner by its label for ammonia; a higher target on Start "
        "only with open eyes.",
        trouble=told(waters.trouble),
    ),
    "out_of_reach": Says(
        "watch",
        "Blend out of reach",
        "{aim} wanted, but {one} and {other} lie at {ends}: no blend of the two gets there",
        "Choose a target between them, another water, or mineral salts by their label.",
        aim=named(waters.wanted),
        one=named(typed("waters", "first_water")),
        other=named(typed("waters", "second_water")),
        ends=named(waters.extremes),
    ),
    "kh_missed": Says(
        "note",
        "Blend misses its KH",
        "with GH met, KH comes out at {made} instead of {aim}: one blend has one knob",
        "Decide which of the two matters, or raise KH by a carbonate salt by its label.",
        made=Figure(waters.blend_kh, "°dH", 3),
        aim=Figure(typed("waters", "target_kh"), "°dH", 1),
    ),
    "no_target": Says(
        "note",
        "Blend without a target",
        "two waters are named, but no GH or KH to aim at",
        "Type a target GH or KH.",
    ),
}
