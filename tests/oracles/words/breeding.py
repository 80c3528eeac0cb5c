"""What the flags of broods say."""

from tests.oracles import breeding, species, tanks
from tests.oracles.tools import lookup
from tests.oracles.words.saying import Figure, Says, const, day, named, typed, warmth


def of_its_species(column):
    """What the library says of the brood's species."""
    return lambda room: lookup(room.species, "species", room.breeding["species"], column(room))


def of_the_growing_tank(column):
    """What is known of the tank in which the young are to grow."""
    return lambda room: lookup(room.tanks, "tank", room.breeding["grow_tank"], column(room))


KIND, WHAT = named(typed("breeding", "species")), named(breeding.what)
WARMTH, RAISED = warmth(breeding.temperature, places=2), Figure(breeding.raised)
SWIMS, LENGTH = day(breeding.swim_on), Figure(breeding.sale_length_used, "cm", 2)

SAYS = {
    "eggs_at_risk": Says(
        "act",
        "Adults will eat the brood",
        "{kind} eats its {what}, and the adults are still in {tank}",
        "Take the adults out now, or eggs or young to a tank of their own; then type yes under Adults out.",
        kind=KIND,
        what=WHAT,
        tank=named(typed("breeding", "tank")),
    ),
    "will_eat": Says(
        "watch",
        "Adults will eat the brood to come",
        "{kind} eats its {what}, and a brood is planned for {day}",
        "Ready mesh, moss or a second tank before that day, and take the adults out as soon as they have spawned or "
        "given birth.",
        kind=KIND,
        what=WHAT,
        day=day(typed("breeding", "date")),
    ),
    "infusoria_due": Says(
        "watch",
        "Start infusoria now",
        "its young swim on {day} with mouths too small for nauplii, and a culture takes {lead} to ripen",
        "Start a culture today or ask for a ripe one; bridge the gap with the finest dust, very little at a time. Type "
        "the day under Steps done up to.",
        day=SWIMS,
        lead=Figure(const("infusoria_lead"), "days", 6),
    ),
    "late_step": Says(
        "watch",
        "Step of a brood late",
        "due on {day}: {step}",
        "Do it, then type the date under Steps done up to; 0 under Young counted if the brood is lost.",
        day=day(breeding.next_on),
        step=named(breeding.next_do),
    ),
    "guard_gone": Says(
        "watch",
        "Guard taken away",
        "this species guards its brood until {day}, and the adults are said to be out",
        "Leave or put back whoever guards, or stand in: an air stone beside the eggs, white eggs out, each day.",
        day=SWIMS,
    ),
    "off_range": Says(
        "watch",
        "Water outside the species' range",
        "{has}, the range in use is {low} to {high}",
        "Bring it back slowly: eggs and larvae bear less than adults.",
        has=WARMTH,
        low=warmth(of_its_species(species.used_temperature_low)),
        high=warmth(of_its_species(species.used_temperature_high)),
    ),
    "too_cold": Says(
        "watch",
        "Too cold to develop",
        "at {has} eggs come to rest by the equation, so no date can be told",
        "Warm the water slowly, or check the cell.",
        has=WARMTH,
    ),
    "grow_occupied": Says(
        "watch",
        "Growing-on tank occupied",
        "animals that live in {tank}: {animals}; most of them eat young or their food",
        "Choose an empty tank, or wait until the young are too large to be eaten.",
        tank=named(typed("breeding", "grow_tank")),
        animals=Figure(of_the_growing_tank(tanks.animals)),
    ),
    "grow_small": Says(
        "watch",
        "Growing-on tank too small",
        "{young} young of {length} want {wanted}, it holds {holds}",
        "Share them out over more tanks, part with some earlier, or raise fewer.",
        young=RAISED,
        length=LENGTH,
        wanted=Figure(breeding.grow_wanted, "L"),
        holds=Figure(of_the_growing_tank(tanks.net_volume), "L", 1),
    ),
    "no_grow_tank": Says(
        "note",
        "No growing-on tank",
        "{young} young are likely to be raised, and no tank is named for them",
        "Name the tank in which they are to grow; it may be the one they hatched in.",
        young=RAISED,
    ),
    "no_dates": Says(
        "note",
        "Breeding data missing",
        "days to hatch and to swim, or the water's temperature, are not known",
        "Type them on Species from what you see at home, and the temperature here.",
    ),
    "far_off": Says(
        "note",
        "Dates are a guess",
        "its days are known at {known}, the water has {has}",
        "Look daily from now on; type on Species what you see.",
        known=warmth(of_its_species(lambda room: room.species["hatch_temperature"])),
        has=WARMTH,
    ),
    "count_early": Says(
        "note",
        "Counted before it happened",
        "the count of {counted} lies before {day}",
        "Check the two dates.",
        counted=day(typed("breeding", "counted_on")),
        day=day(typed("breeding", "date")),
    ),
    "more_than_eggs": Says(
        "note",
        "More young than eggs",
        "{young} counted of {eggs}",
        "Count again, or correct the eggs.",
        young=Figure(typed("breeding", "fry_counted")),
        eggs=Figure(typed("breeding", "eggs")),
    ),
    "daily_water": Says(
        "note",
        "Fresh water each day for the young",
        "young foul their water fast and bear little",
        "Change {water} each day with water of the same warmth, siphon off what is left of the food, test ammonia and "
        "nitrite.",
        water=Figure(breeding.litres_day, "L", 1),
    ),
    "pass_on": Says(
        "note",
        "Large enough to part with",
        "by growth since {day} they measure about {length}",
        "Good homes, a club or a shop, by local law; never release one. Brother and sister are better not paired for "
        "long.",
        day=SWIMS,
        length=LENGTH,
    ),
}
