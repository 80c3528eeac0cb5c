"""What the flags of two residents of a tank say."""

from tests.oracles import mates, pairs, stocking, tanks
from tests.oracles.words.couples import Sides, says_of
from tests.oracles.words.saying import Figure, Says

SIDES = Sides(pairs)


def of_the_tank(column):
    """What is known of the tank in view, the same for all pairs."""

    def reckon(room):
        at = mates.tank(room)
        return float("nan") if at is None else float(column(room).iloc[at])

    return reckon


FLOOR = Figure(of_the_tank(tanks.plan_area), "cm²")

SAYS = says_of(pairs, "Species, Livestock or Tanks") | {
    "floor_short": Says(
        "watch",
        "bottom",
        "both keep to the bottom: {one} want {this} of floor, {other} {that}, there are {floor}",
        "Move one of the two, keep fewer, or choose a tank with a larger floor; caves and broken lines of sight for "
        "each in the meantime.",
        **SIDES.names,
        this=Figure(SIDES.one(lambda r: r.floor), "cm²", 2),
        that=Figure(SIDES.other(lambda r: r.floor), "cm²", 2),
        floor=FLOOR,
    ),
    "floor_short_for_all": Says(
        "note",
        "bottom",
        "there is floor enough for {one} and {other}, but all on the bottom together want {all}, there are {floor}",
        "Move one of the bottom dwellers, or keep fewer.",
        **SIDES.names,
        all=Figure(of_the_tank(stocking.bottom_wanted), "cm²", 2),
        floor=FLOOR,
    ),
}
