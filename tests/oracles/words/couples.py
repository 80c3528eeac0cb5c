"""What the flags of two side by side say: residents of a tank, or species of a short list."""

from collections.abc import Callable
from types import ModuleType
from typing import Any

from tests.oracles.livestock import FLOWS, LIGHTS
from tests.oracles.pairs import Resident
from tests.oracles.tools import Room
from tests.oracles.words.livestock import SCALE
from tests.oracles.words.overlap import HARM, NAMES, value
from tests.oracles.words.saying import Figure, Says, named

Of = Callable[[Resident], Any]
PART, APART = "Part them, or raise the smaller ones before they meet.", "House one of the two elsewhere; "


class Sides:
    """What the one and the other of each couple bring; the other way round where the second does it to the first."""

    def __init__(self, pairs: ModuleType, *, swapped: bool = False) -> None:
        self.pairs, self.swapped = pairs, swapped

    def _of(self, side: int, of: Of) -> Callable[[Room], list[Any]]:
        at = 1 - side if self.swapped else side
        return lambda room: [None if couple is None else of(couple[at]) for couple in self.pairs.couples(room)]

    def one(self, of: Of) -> Callable[[Room], list[Any]]:
        """What the doer brings, or the first."""
        return self._of(0, of)

    def other(self, of: Of) -> Callable[[Room], list[Any]]:
        """What the other brings."""
        return self._of(1, of)

    @property
    def names(self) -> dict[str, Figure]:
        """Both names."""
        return {"one": named(self.one(lambda r: r.name)), "other": named(self.other(lambda r: r.name))}

    def word(self, thing: str, words: tuple[str, ...]) -> dict[str, Figure]:
        """What each likes, in words."""

        def like(resident: Resident) -> str:
            step = getattr(resident, thing)
            return words[int(step) - 1] if step == step else ""

        return {"this": named(self.one(like)), "that": named(self.other(like))}


def done_to(sides: Sides, who: str) -> dict[str, Says]:
    """What the one does to the other; who: how the keys name the doer."""
    size = {
        "mouthful": Figure(sides.one(lambda r: r.mouthful), "cm", 2),
        "prey": Figure(sides.other(lambda r: r.victim_length), "cm", 2),
    }
    return {
        f"{who}_swallows": Says(
            "act", "eaten", "{other} at {prey} fits the mouth of {one}, which can swallow {mouthful}", PART,
            **sides.names, **size,
        ),
        f"{who}_hunts_shrimp": Says(
            "act", "shrimp", "{one} hunts grown shrimp such as {other}", "Give the shrimp a tank without hunters.",
            **sides.names,
        ),
        f"{who}_bites": Says(
            "act", "fins", "{one} bites fins, {other} has long ones",
            "Part them; a larger group of the biter helps, but does not cure it.", **sides.names,
        ),
        f"{who}_eats_snails_too": Says(
            "watch", "snails", "{one} eats snails such as {other}",
            "Give the snails another tank, or accept the loss.", **sides.names,
        ),
        f"{who}_takes_young": Says(
            "note", "young", "{one} takes the young of {other}",
            "Give moss and leaf litter, or a shrimp tank if you want them to multiply.", **sides.names,
        ),
        # The one whose low end lies above the high end of the other.
        **{
            f"{parameter}_{who}_above": Says(
                HARM[parameter], "water", name + ": {one} wants at least {low}, {other} at most {high}",
                APART + "if you have kept both well in one water, type your own ranges on Species.", **sides.names,
                low=value(parameter, sides.one(lambda r, p=parameter: r.low[p])),
                high=value(parameter, sides.other(lambda r, p=parameter: r.high[p])),
            )
            for parameter, name in NAMES.items()
        },
    }  # fmt: skip


def beside_one_another(sides: Sides) -> dict[str, Says]:
    """What holds both ways: the first of the couple is named first."""
    tempers = {
        "own": Figure(sides.one(lambda r: r.temper)),
        "its": Figure(sides.other(lambda r: r.temper)),
    }
    flow = "{one} likes the flow {this}, {other} {that}"
    return {
        "clash_of_temper": Says(
            "act", "temper", "{one} has temper {own}, {other} {its}, on the scale of " + SCALE,
            "House the gentler kind elsewhere.", **sides.names, **tempers,
        ),
        "gap_of_temper": Says(
            "watch", "temper", "{one} has temper {own}, {other} {its}",
            "Watch for chasing, torn fins and hiding; give broken lines of sight, or part them.", **sides.names,
            **tempers,
        ),
        "flow_far_apart": Says(
            "watch", "flow", flow, APART + "no tank is a still pool and a rapid at once.", **sides.names,
            **sides.word("flow", FLOWS),
        ),
        "flow_apart": Says(
            "note", "flow", flow,
            "Let the current run along one end, and leave the other end calm behind plants, wood or stones.",
            **sides.names, **sides.word("flow", FLOWS),
        ),
        "light_apart": Says(
            "note", "light", "{one} likes the light {this}, {other} {that}",
            "Light one end and shade the other with floating plants, wood or tall plants.", **sides.names,
            **sides.word("light", LIGHTS),
        ),
    }  # fmt: skip


def says_of(pairs: ModuleType, where_to_type: str) -> dict[str, Says]:
    """All that two lists of couples have in common."""
    unknown = Says(
        "note",
        "unknown",
        "not known: {what}",
        f"Type it on {where_to_type}; until then the pair is judged by the rest.",
        what=named(pairs.unknown),
    )
    return {
        "not_known": unknown,
        **done_to(Sides(pairs), "first"),
        **done_to(Sides(pairs, swapped=True), "second"),
        **beside_one_another(Sides(pairs)),
    }
