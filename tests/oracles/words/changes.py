"""What the flags of Water changes say."""

from tests.oracles import changes, readings, stocking, tanks
from tests.oracles.words.saying import Figure, Says, const, day, share, step, typed, warmth

READ, READ_ON = Figure(readings.nitrate, "mg/L"), day(readings.nitrate_date)

SAYS = {
    # Without carbonate nothing holds pH.
    "kh_gone": Says(
        "act",
        "Carbonate runs out",
        "nitrification uses {used} a week, the changes do not bring that back; without carbonate pH can fall within "
        "days",
        "Change more water, use water with more KH or add a carbonate by its label, feed less; test KH weekly.",
        used=Figure(changes.kh_used, "°dH", 2),
    ),
    "kh_thin": Says(
        "watch",
        "Little carbonate left",
        "by the plan KH settles at {low} before a change, below {least}",
        "Change more or more often, or use water with more KH; test KH and pH weekly.",
        low=Figure(changes.kh_low, "°dH", 2),
        least=Figure(changes.kh_wanted, "°dH", 1),
    ),
    "big_step": Says(
        "watch",
        "New water too cold or warm for the change",
        "a change of {share} with water of {new} moves the tank by more than {step}",
        "Bring the new water nearer to {kept}, or change {most} at the most at one go.",
        share=share(typed("tanks", "change_share")),
        new=warmth(lambda room: tanks.source(room, "temperature")),
        step=step(const("temperature_step")),
        kept=warmth(typed("tanks", "temperature")),
        most=share(changes.largest_share),
    ),
    # More than the highest the plan gives, the level before a change; less than the lowest, the level after one.
    "more_nitrate": Says(
        "watch",
        "Nitrate above what the plan gives",
        "{read} read on {day}, at most {most} expected",
        "Find the cause: more food than planned, missed changes, a dead animal, a dirty filter.",
        read=READ,
        day=READ_ON,
        most=Figure(stocking.nitrate_peak, "mg/L", 1),
    ),
    "less_nitrate": Says(
        "note",
        "Nitrate below what the plan gives",
        "{read} read on {day}, at least {least} expected",
        "Plants, larger changes or less food than planned; with enough pairs of readings the tank's own yield can "
        "count (Start).",
        read=READ,
        day=READ_ON,
        least=Figure(changes.nitrate_trough, "mg/L", 1),
    ),
}
