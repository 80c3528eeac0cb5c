"""Lines of a plan: what they take, what they bring, whether they can be done."""

import math
from collections.abc import Callable
from typing import Any

import pandas as pd

from tests.oracles import changes, livestock, plan_full, plan_livestock, planned, stocking, tanks
from tests.oracles.tools import Room, remember, rounded

there, counted = planned.there, planned.counted


def _there(room: Room, words: tuple[str, ...]) -> pd.Series:
    do = planned.lines(room)["do"]
    return do.isin(words).astype(float).where(do != "")


def from_there(room: Room) -> pd.Series:
    return _there(room, ("take out", "move"))


def to_there(room: Room) -> pd.Series:
    return _there(room, ("add", "move"))


def from_row(room: Room) -> pd.Series:
    return planned.lines(room)["from_row"]


def to_row(room: Room) -> pd.Series:
    return planned.lines(room)["to_row"]


def _pair(room: Room, rows: pd.Series) -> pd.Series:
    return rows + planned.lines(room)["species_row"] / 1e6


def from_pair(room: Room) -> pd.Series:
    return _pair(room, from_row(room))


def to_pair(room: Room) -> pd.Series:
    return _pair(room, to_row(room))


def moved_pair(room: Room) -> pd.Series:
    return from_pair(room).where(planned.lines(room)["do"] == "move")


def comes(room: Room) -> pd.Series:
    return counted(room).where(to_row(room).notna())


def brings(room: Room) -> pd.Series:
    return planned.lines(room)["species_row"].where(to_row(room).notna())


def begun(room: Room) -> list[float]:
    plan = planned.lines(room)
    words = [
        any(text != "" for text in row)
        for row in plan[["do", "species", "from_tank", "to_tank"]].itertuples(index=False)
    ]
    some = [a or number == number for a, number in zip(words, room.plan_lines["number"], strict=True)]
    return [1.0 if one else math.nan for one in some]


def lacks(room: Room) -> list[str]:
    found = []
    for line, one in zip(planned.lines(room).to_dict("records"), begun(room), strict=True):
        tests = (
            (line["do"] == "", "what to do"),
            (math.isnan(line["number"]), "how many"),
            (math.isnan(line["species_row"]), "which species"),
            (line["do"] != "add" and math.isnan(line["from_tank_row"]), "from which tank"),
            (line["do"] != "take out" and math.isnan(line["to_tank_row"]), "to which tank"),
        )
        found.append(", ".join(words for so, words in tests if so) if one == 1 else "")
    return found


def short(room: Room) -> list[float]:
    found = []
    for line, have in zip(planned.lines(room).to_dict("records"), there(room), strict=True):
        known = line["do"] != "" and not math.isnan(line["number"])
        takes = line["do"] in {"take out", "move"}
        there_are = 0.0 if math.isnan(have) else have
        found.append(float(takes and line["number"] > there_are) if known else math.nan)
    return found


def without_place(room: Room) -> list[float]:
    six = planned.touched(room)
    return [
        float(sum(row == row and row not in six for row in rows))
        for rows in zip(from_row(room), to_row(room), strict=True)
    ]


def clashes(room: Room) -> list[float]:
    own = plan_livestock.new_count(room)[planned.GROUPS :]
    return [many if row == row else math.nan for many, row in zip(own, to_row(room), strict=True)]


def group(room: Room) -> list[float]:
    return [float(planned.GROUPS + at) if row == row else math.nan for at, row in enumerate(to_row(room), 1)]


@remember
def _tank(room: Room) -> list[int | None]:
    """The place of the tank that each line brings to, among those touched."""
    six = planned.touched(room)
    return [six.index(row) if row in six else None for row in to_row(room)]


def _own(room: Room, column: Callable[[Room], Any]) -> list[float]:
    """A column of Livestock about what a line brings, once it lives there."""
    values = list(column(planned.room_then(room)))[planned.GROUPS :]
    return [_number(v) if row == row else math.nan for v, row in zip(values, to_row(room), strict=True)]


def _goal(room: Room, column: Callable[[Room], Any]) -> list[float]:
    """A column about the tank to which a line brings it, as it would be."""
    values = list(column(planned.room_then(room)))
    return [math.nan if at is None else _number(values[at]) for at in _tank(room)]


def _number(value: Any) -> float:
    return math.nan if isinstance(value, str) or value is None else float(value)


def _divided(one: float, other: float) -> float:
    return one / other if other else math.nan


def _brought(room: Room) -> list[float]:
    living = list(planned.room_then(room).livestock["animals"])[planned.GROUPS :]
    return [n if row == row else math.nan for n, row in zip(living, to_row(room), strict=True)]


@remember
def part(room: Room) -> list[float]:
    """Of the nitrogen that all animals of the tank give off."""
    return [_divided(a, b) for a, b in zip(_own(room, livestock.nitrogen), _goal(room, stocking.nitrogen), strict=True)]


@remember
def nitrogen_each(room: Room) -> list[float]:
    """Nitrate rises as nitrogen does."""
    whole = _goal(room, gross)
    return [_divided(a * b, n) for a, b, n in zip(part(room), whole, _brought(room), strict=True)]


def gross(then: Room) -> list[float]:
    """Share of the rise that the changes carry, before plants take any."""
    carried = carries(then)
    return [_divided(a, b) for a, b in zip(rises(then), carried, strict=True)]


def rises(then: Room) -> list[float]:
    """Nitrate between two changes: all nitrogen of the food but what goes elsewhere becomes it."""
    grams = stocking.ammonia(then) * then.tanks["change_interval"] * changes.yield_used(then)
    return list(grams * 1000 * stocking.NITRATE_IN_NITROGEN / tanks.net_volume(then))


def carries(then: Room) -> list[float]:
    """The change takes a share of what stands above the source."""
    target = then.settings.get("nitrate_target")
    above = (math.nan if target is None else float(target)) - tanks.source(then, "nitrate")
    return list(above * then.tanks["change_share"])


def full(then: Room) -> list[float]:
    """The same with what plants take in that time counted off."""
    taken = stocking.uptake(then) * then.tanks["change_interval"] / 7
    pairs = zip(rises(then), taken, carries(then), strict=True)
    return [(rise - plants) / carried if carried > 0 else math.nan for rise, plants, carried in pairs]


@remember
def oxygen_each(room: Room) -> list[float]:
    """What the animals and the bacteria behind them draw, of all that is drawn."""
    columns = zip(_own(room, livestock.oxygen_draw), part(room), _goal(room, stocking.bacteria_draw), _goal(room, stocking.draw),
                  _goal(room, stocking.oxygen_share), _brought(room), strict=True)  # fmt: skip
    return [
        _divided(_divided(own + bacteria * of_it, draw) * share, number)
        for own, of_it, bacteria, draw, share, number in columns
    ]


@remember
def bottom_each(room: Room) -> list[float]:
    columns = zip(_own(room, livestock.bottom_wanted), _brought(room), _goal(room, tanks.plan_area), strict=True)
    return [_divided(_divided(wanted, number), area) for wanted, number, area in columns]


def _most(room: Room, each: list[float], taken: list[float]) -> list[float]:
    found = []
    for number, by_one, share in zip(counted(room), each, taken, strict=True):
        if any(math.isnan(one) for one in (number, by_one, share)):
            found.append(math.nan)
        elif by_one <= 0:
            found.append(1e6)
        else:
            found.append(float(min(1e6, math.floor(max(0.0, rounded(number + (1 - share) / by_one, 6))))))
    return found


@remember
def most_nitrogen(room: Room) -> list[float]:
    return _most(room, nitrogen_each(room), _goal(room, full))


@remember
def most_oxygen(room: Room) -> list[float]:
    return _most(room, oxygen_each(room), _goal(room, stocking.oxygen_share))


@remember
def most_bottom(room: Room) -> list[float]:
    return _most(room, bottom_each(room), _goal(room, stocking.bottom_share))


@remember
def most(room: Room) -> list[float]:
    rows = zip(most_nitrogen(room), most_oxygen(room), most_bottom(room), strict=True)
    return [min((n for n in row if n == n), default=math.nan) if row[1] == row[1] else math.nan for row in rows]


@remember
def limit(room: Room) -> list[str]:
    words, found = ("water change", "oxygen", "bottom room"), []
    for least, *row in zip(most(room), most_nitrogen(room), most_oxygen(room), most_bottom(room), strict=True):
        found.append(words[row.index(least)] if least == least else "")
    return found


def to_type(room: Room) -> list[str]:
    found = []
    plan = planned.lines(room).to_dict("records")
    for line, one, lacking, have, number in zip(
        plan, begun(room), lacks(room), there(room), counted(room), strict=True
    ):
        if one != 1 or lacking:
            found.append("")
            continue
        there_are, taken = (0.0 if math.isnan(n) else n for n in (have, number))
        told = [f"{line['from_tank']} down to {int(max(0, there_are - taken))}"] if line["do"] != "add" else []
        told += [f"a row in {line['to_tank']} with {int(taken)}"] if line["do"] != "take out" else []
        found.append("Livestock: " + " and ".join(told))
    return found


def says(room: Room) -> list[str]:
    found = []
    columns = zip(begun(room), lacks(room), short(room), there(room), without_place(room), clashes(room), most(room),
                  limit(room), counted(room), _tank(room), strict=True)  # fmt: skip
    new_here = plan_full.new_here(room)
    for one, lacking, few, have, places, many, at_most, by, number, at in columns:
        if one != 1:
            found.append("")
        elif lacking:
            found.append(f"still lacks {lacking}")
        elif few == 1:
            found.append(f"◆ only {int(max(0, have))} are there")
        elif places:
            found.append("◆ a seventh tank: the plan reckons with six")
        elif many == many and many:
            found.append(f"◆ clashes of its own, below: {int(many)}")
        elif by and at_most == 0:
            found.append(f"◆ none, by {by}")
        elif by and at_most < number:
            found.append(f"◆ at most {int(at_most)}, by {by}")
        elif at is not None and new_here[at]:
            found.append(f"◆ clashes in its tank, below: {int(new_here[at])}")
        else:
            found.append("can be done")
    return found
