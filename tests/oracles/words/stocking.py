"""What the flags of Stocking say: of a tank as a whole."""

from tests.oracles import company, stocking, tanks
from tests.oracles.words.saying import Figure, Says, const, setting, share, typed

TARGET, ACT = Figure(setting("nitrate_target"), "mg/L"), Figure(setting("nitrate_act"), "mg/L")
PEAK = Figure(stocking.nitrate_peak, "mg/L", 1)

SAYS = {
    "nothing_holds": Says(
        "act",
        "No water change holds the target",
        "the source water has {held} of nitrate, the target is {target}",
        "Blend with water that holds less, add fast plants, or set another target on Start.",
        held=Figure(lambda room: tanks.source(room, "nitrate"), "mg/L", 1),
        target=TARGET,
    ),
    "nitrate_act": Says(
        "act",
        "Nitrate will climb high",
        "with the changes planned it settles at {peak} before a change; above {act} is the time to act",
        "Change more or more often, feed less, add plants, or move animals; Change needed says what holds the target.",
        peak=PEAK,
        act=ACT,
    ),
    "nitrate_watch": Says(
        "watch",
        "Nitrate will pass the target",
        "nitrate rises {rise} a week; {share} every {days} lets it settle at {peak} before a change, the target is "
        "{target}",
        "Change more or more often, feed less, add plants, or move animals.",
        rise=Figure(stocking.nitrate_week, "mg/L", 2),
        share=share(typed("tanks", "change_share")),
        days=Figure(typed("tanks", "change_interval"), "days", 1),
        peak=PEAK,
        target=TARGET,
    ),
    # A pump that stops at night is enough: the fish cannot wait for the morning.
    "short_of_oxygen": Says(
        "act",
        "Little oxygen in reserve",
        "without aeration the oxygen lasts {lasts}; {wanted} are wanted",
        "Keep fewer or smaller animals, and have a battery air pump ready; after a failure aerate this tank first.",
        lasts=Figure(stocking.reserve, "hours", 1),
        wanted=Figure(const("oxygen_reserve_wanted"), "hours", 6),
    ),
    "bottom_full": Says(
        "watch",
        "Bottom crowded",
        "its bottom dwellers want {wanted} of floor, there are {floor}",
        "Move some, or choose a tank with a larger floor.",
        wanted=Figure(stocking.bottom_wanted, "cm²", 2),
        floor=Figure(tanks.plan_area, "cm²"),
    ),
    "nearly_full": Says(
        "note",
        "Nearly full",
        "water change, oxygen or bottom room stands at {load} of its limit",
        "Add nothing that raises it further.",
        load=share(stocking.load_share),
    ),
    "mass_unknown": Says(
        "note",
        "Load understated",
        "{weighed} of {all} groups have a known mass, the others count for nothing",
        "Type their length or body form.",
        weighed=Figure(stocking.weighed_groups),
        all=Figure(company.residents),
    ),
}
