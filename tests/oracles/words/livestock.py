"""What the flags of Livestock say: of a group in its tank."""

from collections.abc import Callable
from typing import Any

from tests.oracles import company, livestock, tanks
from tests.oracles.tools import Room
from tests.oracles.words.saying import Figure, Says, day, named, typed

Column = Callable[[Room], Any]
SCALE = "1 gentle to 5 hostile"


def here(column: Column) -> Column:
    """What is known of the tank in which the group lives."""
    return lambda room: livestock.of_tank(room, column(room))


def of_its_species(key: str) -> Column:
    """What the library says of the group's species."""
    return lambda room: livestock.of_species(room, room.species[key])


TOO_SMALL = "{has} net, this species wants at least {wants}"
ROOM_TO_LIVE = {"has": Figure(here(tanks.net_volume), "L", 1), "wants": Figure(of_its_species("volume_min"), "L")}
TEMPERS = {
    "own": Figure(livestock.temper_counted),
    "fiercest": named(here(company.temper_who)),
    "its": Figure(here(company.temper_max)),
}

SAYS = {
    # The eater is the one with the greatest mouthful, and the figure beside its name is that mouthful.
    "eaten": Says(
        "act",
        "Can be eaten",
        "at {prey} it fits the mouth of {eater}, which can swallow {mouthful}",
        "Part them, or raise these larger before they meet.",
        prey=Figure(livestock.victim_length, "cm", 2),
        eater=named(here(company.mouthful_who)),
        mouthful=Figure(here(company.mouthful_max), "cm", 2),
    ),
    "clash_of_temper": Says(
        "act",
        "Temper clash",
        "temper {own} beside {fiercest}, temper {its} on the scale of " + SCALE,
        "House the gentler kind elsewhere.",
        **TEMPERS,
    ),
    "gap_of_temper": Says(
        "watch",
        "Temper gap",
        "temper {own} beside {fiercest}, temper {its}",
        "Watch for chasing, torn fins and hiding; give broken lines of sight, or part them.",
        **TEMPERS,
    ),
    "fins": Says(
        "act",
        "Fins at risk",
        "its long fins will be bitten by {biter}",
        "Part them; a larger group of the biter helps, but does not cure it.",
        biter=named(livestock.biter),
    ),
    "shrimp_hunted": Says(
        "act",
        "Shrimp hunted",
        "{hunter} hunts grown shrimp",
        "Give the shrimp a tank without hunters.",
        hunter=named(here(company.shrimp_hunter)),
    ),
    "shrimp_young": Says(
        "note",
        "Young shrimp will be eaten",
        "{eater} takes their young",
        "Give moss and leaf litter, or a shrimp tank if you want them to multiply.",
        eater=named(here(company.young_eater)),
    ),
    "snails_hunted": Says(
        "watch",
        "Snails at risk",
        "{eater} eats snails",
        "Give the snails another tank, or accept the loss.",
        eater=named(here(company.snail_eater)),
    ),
    # Less than half of what the species wants does harm soon; a little less is for the next move.
    "tiny_tank": Says(
        "act",
        "Tank far too small",
        TOO_SMALL,
        "Move it to a larger tank now; until then change water often and feed little.",
        **ROOM_TO_LIVE,
    ),
    "small_tank": Says("watch", "Tank too small", TOO_SMALL, "Move it to a larger tank.", **ROOM_TO_LIVE),
    "short_tank": Says(
        "watch",
        "Tank too short",
        "{has} to swim in, this species wants {wants}",
        "Move it to a longer tank.",
        has=Figure(here(tanks.swim_length), "cm", 1),
        wants=Figure(livestock.length_wanted, "cm", 1),
    ),
    # All rows of the species in the tank count together, so that is the number told.
    "small_group": Says(
        "watch",
        "Group too small",
        "{kept} kept, this species wants at least {wants}; fewer are shy, pale or nippy",
        "Add animals of this species, or move these to a group.",
        kept=Figure(livestock.together),
        wants=Figure(of_its_species("group_min")),
    ),
    "not_apart": Says(
        "watch",
        "Quarantine not apart",
        "in quarantine until {until}, yet among animals that are not",
        "Move it to a tank of its own until then; own net, own towels, wash hands between tanks. Illness: a "
        "veterinarian.",
        until=day(typed("livestock", "quarantine_until")),
    ),
    "no_quarantine": Says(
        "note",
        "New, without a quarantine date",
        "it came in {came} and no end of quarantine is typed",
        "Type the day until which it stays apart, or the day it came out.",
        came=day(typed("livestock", "date_in")),
    ),
    "sexes": Says(
        "note",
        "Sexes do not add up",
        "{males} males and {females} females are more than {all}",
        "Count again.",
        males=Figure(typed("livestock", "males")),
        females=Figure(typed("livestock", "females")),
        all=Figure(typed("livestock", "animals")),
    ),
    "no_mass": Says(
        "note",
        "Mass unknown",
        "without length or body form its load counts for nothing in this tank",
        "Type its length, or complete the species.",
    ),
}
