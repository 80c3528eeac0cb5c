"""Lines of a plan: what they take, what they bring, whether they can be done."""

import math

import pandas as pd

from tests.oracles import plan_livestock, planned
from tests.oracles.tools import Room

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
        any(text != "" for text in row) for row in plan[["do", "species", "from_tank", "to_tank"]].itertuples(index=False)
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
        have = 0.0 if math.isnan(have) else have
        found.append(float(takes and line["number"] > have) if known else math.nan)
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


def says(room: Room) -> list[str]:
    found = []
    columns = zip(begun(room), lacks(room), short(room), there(room), without_place(room), clashes(room), strict=True)
    for one, lacking, few, have, places, many in columns:
        if one != 1:
            found.append("")
        elif lacking:
            found.append(f"still lacks {lacking}")
        elif few == 1:
            found.append(f"◆ only {int(max(0, have))} are there")
        elif places:
            found.append("◆ a seventh tank: the plan reckons with six")
        elif many == many and many:
            found.append(f"◆ {int(many)} {'clash' if many == 1 else 'clashes'} of its own, below")
        else:
            found.append("can be done")
    return found
