"""What is told of each tank in one line for each cause, gathered from the flags that the other oracles raise.

Which flags have one cause is common practice, no published source: nitrate is one trouble, however many numbers show
it; who harms whom in a tank is settled by one move.
"""

from collections.abc import Callable
from typing import Any

import numpy as np
import pandas as pd

from tests.oracles import company as companions
from tests.oracles import flag_tables, livestock, overlap_detail
from tests.oracles.tools import Room, blank, only_planned, remember, said

Oracle = Callable[[Room], Any]
MOST = 10
ALSO = "; also "
PARAMETERS = ("temperature", "ph", "gh", "kh")
# By cause, what asks for hands today, for eyes this week, and what is worth knowing.
CAUSES: dict[str, tuple[list[str], list[str], list[str]]] = {
    "cycling": (
        ["readings.toxic_act", "readings.nitrite_seen", "tanks.not_cycled"],
        ["readings.ammonia_seen", "tanks.cycled_unknown"],
        [],
    ),
    "load": (
        ["stocking.short_of_oxygen"],
        ["stocking.bottom_full"],
        ["stocking.nearly_full", "stocking.mass_unknown"],
    ),
    "carbonate": (["changes.kh_gone"], ["changes.kh_thin", "readings.gas_high"], []),
    "water": (
        [f"overlap.{p}_{what}" for what in ("clash", "outside") for p in PARAMETERS[:2]],
        [f"overlap.{p}_{what}" for what in ("clash", "outside") for p in PARAMETERS[2:]]
        + [f"overlap.{p}_{what}" for what in ("narrow", "read") for p in PARAMETERS],
        [f"overlap.{p}_no_data_flag" for p in PARAMETERS],
    ),
    "source": ([], [f"overlap.{p}_source" for p in PARAMETERS[1:]], []),
    "nitrate": (
        ["readings.nitrate_too_high", "stocking.nothing_holds", "stocking.nitrate_act"],
        ["readings.nitrate_high", "stocking.nitrate_watch", "changes.more_nitrate"],
        ["changes.less_nitrate"],
    ),
    "gear": ([], ["tanks.slow_filter", "tanks.floor"], ["tanks.strong_filter", "tanks.big_heater"]),
    "feeding": ([], ["feeding_tanks.no_food", "feeding_tanks.shares_off", "live_tanks.no_feed"], []),
    "data": (
        ["tanks.no_height", "tanks.no_net_volume"],
        [
            f"tanks.{key}"
            for key in ("no_volume", "no_plan", "water_unknown", "too_large", "thick_glass", "too_much_measured")
        ],
        ["tanks.no_filled_mass", "readings.never_tested", "readings.old_test"],
    ),
}
LEVELS = ("act", "watch", "note")


def sentence(room: Room, flag: str, row: int) -> str:
    """What a flag says in a row, if it is raised there, in the units in which that is wanted."""
    table, key = flag.split(".")
    return _sentences(room, table, key, room.units)[row]


@remember
def _sentences(room: Room, table: str, key: str, units: str) -> list[str]:
    raised = list(flag_tables.verdict(room, table, key))
    if units != "metric" or (table, key) not in room.sentences:
        from tests.oracles.words import saying  # noqa: PLC0415  it looks at this

        return saying.of(table, key).texts(room, raised, units)  # type: ignore[union-attr]
    return [str(text) if is_so else "" for text, is_so in zip(room.sentences[table, key], raised, strict=False)]


def _raised(room: Room, cause: str) -> list[tuple[list[str], ...]]:
    """Of each tank the sentences of a cause, level by level."""
    return [
        tuple([text for flag in flags if (text := sentence(room, flag, row))] for flags in CAUSES[cause])
        for row in range(len(room.tanks))
    ]


def _texts(room: Room, cause: str, tell: Callable[[list[str]], str]) -> pd.Series:
    told = [[text for level in levels for text in level] for levels in _raised(room, cause)]
    return pd.Series([tell(texts) if texts else "" for texts in told], dtype=object)


def whys(texts: list[str]) -> str:
    """Title and cause of each, without its symbol and remedy."""
    return ALSO.join(text[2:].split(" → ")[0] for text in texts)


def _of_cause(cause: str) -> dict[str, Oracle]:
    def at(level: int) -> Oracle:
        def raised(room: Room) -> pd.Series:
            worst = [next((i for i, texts in enumerate(levels) if texts), -1) for levels in _raised(room, cause)]
            return pd.Series([found == level for found in worst], dtype=bool) & ~only_planned(room)

        return raised

    return {
        f"{cause}_why": lambda room: _texts(room, cause, whys),
        f"{cause}_all": lambda room: _texts(room, cause, "¦".join),
        f"{cause}_first": lambda room: _texts(room, cause, lambda texts: " ".join(texts[0].split())),
        f"{cause}_do": lambda room: _texts(room, cause, lambda texts: " ".join(texts[0].split()).split(" → ")[1]),
        **{f"{cause}_{level}": at(i) for i, level in enumerate(LEVELS) if CAUSES[cause][i]},
    }


for _cause in CAUSES:
    globals().update(_of_cause(_cause))


# --- what is said of groups, tank by tank ---

OF_GROUPS = {
    "company": (("eaten", "fins", "shrimp_hunted", "snails_hunted", "small_group"), ("eaten", "fins", "shrimp_hunted")),
    "size": (("tiny_tank", "small_tank", "short_tank"), ("tiny_tank",)),
    "quarantine": (("not_apart", "no_quarantine"), ("not_apart",)),
    "temper": (("clash_of_temper", "gap_of_temper"), ("clash_of_temper",)),
}


@remember
def wrong(room: Room, what: str, which: int) -> list[bool]:
    """The groups of which something of that kind is said; which: any of it, or what is most serious."""
    return [
        any(sentence(room, f"livestock.{key}", row) for key in OF_GROUPS[what][which])
        for row in range(len(room.livestock))
    ]


def group_why(room: Room, what: str, row: int) -> str:
    """Why, flag by flag."""
    texts = [sentence(room, f"livestock.{key}", row) for key in OF_GROUPS[what][0]]
    return "; ".join(text.split(": ", 1)[1].split(" → ")[0] for text in texts if text)


def name_of(room: Room, what: str, row: int) -> str:
    """How a group stands in the list: with its reasons, or with its temper."""
    species = room.livestock["species"].iloc[row]
    if what == "temper":
        return f"{species} ({said(livestock.temper_counted(room).iloc[row])})"
    return f"{species}: {group_why(room, what, row)}"


def listed(room: Room, what: str, rows: list[int]) -> str:
    """The first ten of them."""
    return (", " if what == "temper" else ALSO).join(name_of(room, what, row) for row in rows[:MOST])


def _tank_rows(room: Room, what: str, which: int) -> list[list[int] | None]:
    is_wrong = wrong(room, what, which)
    return [
        None if nameless else [row for row in groups if is_wrong[row]]
        for groups, nameless in zip(overlap_detail.groups(room), blank(room.tanks["tank"]), strict=True)
    ]


def _of_groups(what: str) -> dict[str, Oracle]:
    def count(which: int) -> Oracle:
        return lambda room: pd.Series(
            [np.nan if rows is None else float(len(rows)) for rows in _tank_rows(room, what, which)], dtype=float
        )

    def words(room: Room) -> pd.Series:
        found = _tank_rows(room, what, 0)
        more = [f"{ALSO}{len(rows) - MOST} more" if rows and len(rows) > MOST else "" for rows in found]
        return pd.Series(
            [listed(room, what, rows) + rest if rows else "" for rows, rest in zip(found, more, strict=True)],
            dtype=object,
        )

    return {f"{what}_groups": count(0), f"{what}_now": count(1), what: words}


for _what in OF_GROUPS:
    globals().update(_of_groups(_what))


def _both(room: Room, first: str, second: str) -> tuple[list[int], ...]:
    """How many groups of either kind; unknown counts as none."""
    return tuple(
        [len(rows or []) for rows in _tank_rows(room, what, which)]
        for what, which in ((first, 0), (first, 1), (second, 0), (second, 1))
    )


def temper_why(room: Room) -> pd.Series:
    names = _of_groups("temper")["temper"](room)
    whose, most = companions.temper_who(room), companions.temper_max(room)
    return pd.Series(
        [
            f"{who}, temper {said(worst)} on the scale of 1 gentle to 5 hostile, beside {those}" if those else ""
            for who, worst, those in zip(whose, most, names, strict=True)
        ],
        dtype=object,
    )


def company_why(room: Room) -> pd.Series:
    texts = zip(_of_groups("company")["company"](room), temper_why(room), strict=True)
    return pd.Series([ALSO.join(filter(None, pair)) for pair in texts], dtype=object)


def company_does(room: Room) -> pd.Series:
    """Danger before discomfort, who is eaten before who is chased."""
    found = []
    for any_, now, gentle, gentle_now, who in zip(
        *_both(room, "company", "temper"), companions.temper_who(room), strict=True
    ):
        does = []
        if now:
            does.append("part them: no hunters for what fits a mouth, has long fins or is a shrimp")
        if gentle_now:
            does.append(f"house {who} elsewhere, or the gentler ones")
        if any_ and not now:
            does.append("more of its kind, or another tank; snails elsewhere, or accept the loss")
        if gentle and not gentle_now:
            does.append("watch for chasing and torn fins, give broken lines of sight")
        found.append("; ".join(does))
    return pd.Series(found, dtype=object)


def company_do(room: Room) -> pd.Series:
    return pd.Series([text[:1].upper() + text[1:] for text in company_does(room)], dtype=object)


def company_act(room: Room) -> pd.Series:
    _, now, _, gentle_now = _both(room, "company", "temper")
    return pd.Series([a + b > 0 for a, b in zip(now, gentle_now, strict=True)], dtype=bool)


def company_watch(room: Room) -> pd.Series:
    any_, _, gentle, _ = _both(room, "company", "temper")
    return pd.Series([a + b > 0 for a, b in zip(any_, gentle, strict=True)], dtype=bool) & ~company_act(room)


def size_act(room: Room) -> pd.Series:
    return pd.Series([bool(rows) for rows in _tank_rows(room, "size", 1)], dtype=bool)


def size_watch(room: Room) -> pd.Series:
    return pd.Series([bool(rows) for rows in _tank_rows(room, "size", 0)], dtype=bool) & ~size_act(room)


def quarantine_watch(room: Room) -> pd.Series:
    return pd.Series([bool(rows) for rows in _tank_rows(room, "quarantine", 1)], dtype=bool)


def quarantine_note(room: Room) -> pd.Series:
    return pd.Series([bool(rows) for rows in _tank_rows(room, "quarantine", 0)], dtype=bool) & ~quarantine_watch(room)
