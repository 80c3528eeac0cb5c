"""What the flags of Comfort say: who likes their place otherwise than it is."""

from tests.oracles import comfort
from tests.oracles.words.saying import Figure, Says, named, typed

LIGHT_BOTH = "Light one end and shade the other with floating plants, wood or tall plants."


def who(thing: str, choice: str) -> Figure:
    """Those that like it so."""
    return named(lambda room: comfort.who(room, thing, choice))


FLOW = named(typed("tanks", "flow"))

SAYS = {
    "too_bright": Says(
        "note",
        "Brighter than some like",
        "the light is bright, while {who} like it dim and stay shy and pale in the open",
        "Floating plants, more cover or a dimmer lamp bring them out.",
        who=who("light", "dim"),
    ),
    "too_dim": Says(
        "note",
        "Dimmer than some like",
        "the light is dim, while {who} like it bright",
        "Light one end more, and leave the rest as it is for the others.",
        who=who("light", "bright"),
    ),
    "light_split": Says(
        "note",
        "Light liked differently",
        "{these} like it dim, {those} bright",
        LIGHT_BOTH,
        these=who("light", "dim"),
        those=who("light", "bright"),
    ),
    # Without a place to hide the shy stop eating: more than a matter of looks.
    "too_open": Says(
        "watch",
        "Too little cover",
        "the tank is open, while {who} like much cover",
        "Add plants, wood, leaf litter or caves until each of them can get out of sight.",
        who=who("cover", "much"),
    ),
    "too_dense": Says(
        "note",
        "Little open water",
        "cover is much, while {who} like open water",
        "Clear the front or the upper half to swim in.",
        who=who("cover", "open"),
    ),
    "cover_split": Says(
        "note",
        "Cover liked differently",
        "{these} like much cover, {those} open water",
        "Cover the back and the sides densely, and leave the front open.",
        these=who("cover", "much"),
        those=who("cover", "open"),
    ),
    # Sharp grains hurt barbels.
    "no_sand": Says(
        "watch",
        "No fine sand",
        "{who} like fine sand, the ground is another",
        "Give them a good part of the floor in fine, rounded sand: they dig, sift or rest in it, and sharp grains hurt "
        "barbels and bellies.",
        who=who("ground", "fine sand"),
    ),
    "no_stones": Says(
        "note",
        "No stones",
        "{who} like stones, the ground is another",
        "Pile rounded stones in one part, standing on the floor pane and not on loose sand.",
        who=who("ground", "stones"),
    ),
    "pale_ground": Says(
        "note",
        "No dark ground",
        "{who} like dark ground",
        "Dark sand or gravel, or leaf litter on part of the floor: they show their colours and feel safer.",
        who=who("ground", "dark"),
    ),
    "ground_split": Says(
        "note",
        "Ground liked differently",
        "{these} like fine sand, {those} stones",
        "Part the floor: sand in front, stones at the back or at one end.",
        these=who("ground", "fine sand"),
        those=who("ground", "stones"),
    ),
    "pale_background": Says(
        "note",
        "No dark background",
        "{who} like a dark background",
        "Dark card or film on the outside of the back pane is enough.",
        who=who("background", "dark"),
    ),
    "flow_too_strong": Says(
        "watch",
        "Flow too strong for some",
        "the flow is {has}, while {who} like it at least two steps calmer",
        "Break it with a spray bar, sponge, plants or stones, or throttle the filter; leave a calm corner.",
        has=FLOW,
        who=named(comfort.flow_weaker),
    ),
    "flow_too_weak": Says(
        "watch",
        "Flow too weak for some",
        "the flow is {has}, while {who} like it at least two steps stronger",
        "Add a pump, or let the outlet run along one end: strong flow also brings the oxygen they are used to.",
        has=FLOW,
        who=named(comfort.flow_stronger),
    ),
    "flow_split": Says(
        "note",
        "Flow liked differently",
        "{calm} like it calm, {lively} moving",
        "Let the current run along one end, and leave the other end calm behind plants, wood or stones.",
        calm=named(comfort.flow_calm),
        lively=named(comfort.flow_rapid),
    ),
}
