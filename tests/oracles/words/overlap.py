"""What the flags of Shared water say: one set for each parameter, in its own unit."""

from collections.abc import Callable
from typing import Any

from tests.oracles import company, overlap_detail
from tests.oracles.tools import Room
from tests.oracles.words.saying import Figure, Says, named, warmth

Column = Callable[[Room], Any]
NAMES = {"temperature": "temperature", "ph": "pH", "gh": "GH", "kh": "KH"}
# Warmth and pH out of range harm within days, hardness within weeks.
HARM = {"temperature": "act", "ph": "act", "gh": "watch", "kh": "watch"}


def value(parameter: str, column: Column, places: int = 1) -> Figure:
    """A value of a parameter: of pH there is no unit."""
    if parameter == "temperature":
        return warmth(column)
    return Figure(column, "" if parameter == "ph" else "°dH", places)


def end(parameter: str, which: str) -> Figure:
    """One end of the range that all share."""
    return value(parameter, lambda room: overlap_detail.shared(room)[parameter][which])


def by(parameter: str, which: str) -> Figure:
    """Whose range sets that end."""
    return named(lambda room: overlap_detail.shared(room)[parameter][f"{which}_by"])


def flags(parameter: str) -> dict[str, Says]:
    """The flags of one parameter."""
    name, low, high = NAMES[parameter], end(parameter, "low"), end(parameter, "high")
    called = name[0].upper() + name[1:] if parameter == "temperature" else name
    ends, whose = {"low": low, "high": high}, {"low_by": by(parameter, "low"), "high_by": by(parameter, "high")}
    share = "all residents share {low} to {high}"
    kept = value(parameter, lambda room: room.tanks[parameter])
    newest = value(parameter, lambda room: overlap_detail.read(room, parameter), 2 if parameter == "ph" else 1)
    filled_with = value(parameter, lambda room: overlap_detail.source(room, parameter))
    no_data = Figure(lambda room: overlap_detail.shared(room)[parameter]["no_data"])
    return {
        # The higher low end stands against the lower high end, each with the species that sets it.
        f"{parameter}_clash": Says(
            HARM[parameter], f"No shared {name} range",
            "{low_by} wants at least {low}, {high_by} at most {high}",
            "House one of the two elsewhere; if you have kept both well in one water, type your own ranges on Species.",
            **ends, **whose,
        ),
        f"{parameter}_outside": Says(
            HARM[parameter], f"{called} outside the shared range",
            "kept at {kept}, while " + share,
            "Bring it slowly into the range: {low_by} sets the low end, {high_by} the high end.",
            kept=kept, **ends, **whose,
        ),
        f"{parameter}_narrow": Says(
            "watch", f"Narrow shared {name} range",
            "only {low} to {high} suits all, set by {low_by} and {high_by}",
            "Keep it steady and test often, or part the two.",
            **ends, **whose,
        ),
        f"{parameter}_no_data_flag": Says(
            "note", f"{called} range not known for all",
            "{lacking} of {all} groups have no " + name + " range, so the shared one may be too wide",
            "Complete those species; until then trust the shared range less.",
            lacking=no_data, all=Figure(company.residents),
        ),
        f"{parameter}_read": Says(
            "watch", f"Newest {name} reading outside the shared range",
            "read {newest}, while " + share,
            "Read it again; if it holds, find out what moved it and bring it back slowly.",
            newest=newest, **ends,
        ),
        f"{parameter}_source": Says(
            "watch", f"Source water outside in {name}",
            "the water it is filled with has {new}, while " + share,
            "Each water change pulls the tank towards it: blend or prepare the new water first, or change smaller "
            "shares more often.",
            new=filled_with, **ends,
        ),
    }  # fmt: skip


SAYS = {key: says for parameter in NAMES for key, says in flags(parameter).items() if key != "temperature_source"}
