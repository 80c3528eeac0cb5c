"""What can be wrong with a group of animals: who is eaten, bitten, crowded or alone."""

from workbook.tables import Computed, Flag, Look, text
from workbook.tables.completing import ARROW
from workbook.tables.idioms import between, joined
from workbook.tables.template import here

FLAGS = (
    Flag(
        "eaten",
        "Can be eaten",
        gathered=True,
        seriousness="act",
        when='AND({living}>0,{victim_length}<{mouthful_max},OR({kind}<>"shrimp",{shrimp_hunters}=0))',
        why="at {victim_length} it fits the mouth of {mouthful_who}, which can swallow {mouthful_max}",
        do="Part them, or raise these larger before they meet.",
    ),
    Flag(
        "clash_of_temper",
        "Temper clash",
        gathered=True,
        seriousness="act",
        when="{temper_max}-{temper_counted}>={const.temper_clash}",
        why=("temper {temper_counted} beside {temper_who}, temper {temper_max} on the scale of 1 gentle to 5 hostile"),
        do="House the gentler kind elsewhere.",
    ),
    Flag(
        "fins",
        "Fins at risk",
        gathered=True,
        seriousness="act",
        when='AND({long_fins}="yes",{other_biters}>0,{living}>0)',
        why="its long fins will be bitten by {biter}",
        do="Part them; a larger group of the biter helps, but does not cure it.",
    ),
    Flag(
        "shrimp_hunted",
        "Shrimp hunted",
        gathered=True,
        seriousness="act",
        when='AND({kind}="shrimp",{shrimp_hunters}>0,{living}>0)',
        why="{shrimp_hunter} hunts grown shrimp",
        do="Give the shrimp a tank without hunters.",
    ),
    Flag(
        "tiny_tank",
        "Tank far too small",
        gathered=True,
        seriousness="act",
        when="AND({living}>0,{net_volume}<{volume_min}/2)",
        why="{net_volume} net, this species wants at least {volume_min}",
        do="Move it to a larger tank now; until then change water often and feed little.",
    ),
    Flag(
        "small_tank",
        "Tank too small",
        gathered=True,
        seriousness="watch",
        when=("AND({living}>0,{net_volume}<{volume_min}*(1-{const.nominal_allowance}),{net_volume}>={volume_min}/2)"),
        why="{net_volume} net, this species wants at least {volume_min}",
        do="Move it to a larger tank.",
    ),
    Flag(
        "short_tank",
        "Tank too short",
        gathered=True,
        seriousness="watch",
        when="AND({living}>0,{swim_length}<{length_wanted}*(1-{const.nominal_allowance}))",
        why="{swim_length} to swim in, this species wants {length_wanted}",
        do="Move it to a longer tank.",
    ),
    Flag(
        "small_group",
        "Group too small",
        gathered=True,
        seriousness="watch",
        when="{small_group_no}=1",
        why="{together} kept, this species wants at least {group_min}; fewer are shy, pale or nippy",
        do="Add animals of this species, or move these to a group.",
    ),
    Flag(
        "gap_of_temper",
        "Temper gap",
        gathered=True,
        seriousness="watch",
        when=(
            "AND({temper_max}-{temper_counted}>={const.temper_watch},"
            "{temper_max}-{temper_counted}<{const.temper_clash})"
        ),
        why="temper {temper_counted} beside {temper_who}, temper {temper_max}",
        do="Watch for chasing, torn fins and hiding; give broken lines of sight, or part them.",
    ),
    Flag(
        "snails_hunted",
        "Snails at risk",
        gathered=True,
        seriousness="watch",
        when='AND({kind}="snail",{snail_eaters}>0,{living}>0)',
        why="{snail_eater} eats snails",
        do="Give the snails another tank, or accept the loss.",
    ),
    Flag(
        "not_apart",
        "Quarantine not apart",
        gathered=True,
        seriousness="watch",
        when="AND({living}>0,{waiting}=1,{residents}>{in_quarantine})",
        why="in quarantine until {quarantine_until}, yet among animals that are not",
        do=(
            "Move it to a tank of its own until then; own net, own towels, wash hands between tanks. Illness: "
            "a veterinarian."
        ),
    ),
    Flag(
        "no_quarantine",
        "New, without a quarantine date",
        gathered=True,
        seriousness="note",
        copes=True,
        when=(
            'AND(SUM({living})>0,SUM({residents})>1,{quarantine_until}="",'
            "COUNT({days_here},{const.quarantine_days})=2,"
            "SUM({days_here})<SUM({const.quarantine_days}))"
        ),
        why="it came in {date_in} and no end of quarantine is typed",
        do="Type the day until which it stays apart, or the day it came out.",
    ),
    Flag(
        "sexes",
        "Sexes do not add up",
        seriousness="note",
        when="{males}+{females}>{animals}",
        why="{males} males and {females} females are more than {animals}",
        do="Count again.",
    ),
    Flag(
        "shrimp_young",
        "Young shrimp will be eaten",
        gathered=True,
        seriousness="note",
        when='AND({kind}="shrimp",{young_eaters}>0,{shrimp_hunters}=0,{living}>0)',
        why="{young_eater} takes their young",
        do="Give moss and leaf litter, or a shrimp tank if you want them to multiply.",
    ),
    Flag(
        "no_mass",
        "Mass unknown",
        seriousness="note",
        copes=True,
        when='AND({species_row}<>"",{mass_each}="",SUM({expected})=0)',
        why="without length or body form its load counts for nothing in this tank",
        do="Type its length, or complete the species.",
    ),
)


# What Attention says of all groups of a tank in one line: the flags of each, most serious first.
GATHERED = {
    "company": ("eaten", "fins", "shrimp_hunted", "snails_hunted", "small_group"),
    "size": ("tiny_tank", "small_tank", "short_tank"),
    "quarantine": ("not_apart", "no_quarantine"),
}


def why_of(key: str) -> Computed:
    """What the flags of one matter say of a group, without their titles and remedies."""
    parts = ((f'{here(flag)}<>""', between(here(flag), ": ", ARROW)) for flag in GATHERED[key])
    return Computed(
        f"{key}_why", f"{key.capitalize()}: why", joined(*parts), kind=text(), look=Look(working=True, width=18)
    )


WHYS = tuple(why_of(key) for key in GATHERED)
