"""A card of every tank: its water, its routine, who lives in it, and the first thing that needs attention."""

import pandas as pd

from tests.oracles import feeding_tanks, open_flags, overlap_detail, stocking, tanks, week_tanks
from tests.oracles.printed import tell, texts
from tests.oracles.tools import Room, blank, living, remember, said

ROOM_FOR = 300  # letters of a sentence


def _each(room: Room) -> list[int | None]:
    """Rows of tanks; None without a name."""
    return [None if nameless else row for row, nameless in enumerate(blank(room.tanks["tank"]))]


def animal_words(room: Room, group: int) -> str:
    """How many of what."""
    many = living(room).iloc[group]
    return f"{'some' if many != many else said(many)} {room.livestock['species'].iloc[group]}"


@remember
def who(room: Room) -> pd.Series:
    groups = overlap_detail.groups(room)
    return texts(
        ["" if tank is None else ", ".join(animal_words(room, group) for group in groups[tank]) for tank in _each(room)]
    )


def short(room: Room) -> pd.Series:
    return texts([text[:ROOM_FOR] for text in open_flags.worst_sentence(room)])


def facts(room: Room) -> pd.Series:
    found = []
    for tank in _each(room):
        if tank is None:
            found.append("")
            continue
        typed = room.tanks.iloc[tank]
        ph, gh, kh = (overlap_detail.kept_at(room, p).iloc[tank] for p in ("ph", "gh", "kh"))
        hours = tell(stocking.reserve(room).iloc[tank], 1, "hours")
        share, litres = tell(typed["change_share"] * 100, 0, "%"), tell(week_tanks.litres(room).iloc[tank], 1, "L")
        found.append("\n".join((
            typed["place"] or "place: unknown",
            f"{tell(tanks.net_volume(room).iloc[tank], 1, 'L')} net, set to {tell(typed['temperature'], 1, '°C')}",
            f"pH {tell(ph, 1)}, GH {tell(gh, 1, '°dH')}, KH {tell(kh, 1, '°dH')}",
            "",
            f"Food: {tell(feeding_tanks.grams_day(room).iloc[tank], 3, 'g a day')} as fed",
            f"Meals: {tell(typed['meals'], 0, 'a day')}; fasting days: {tell(typed['fasting_days'])}",
            f"Change {share} ({litres}) every {tell(typed['change_interval'], 1, 'days')}",
            "Power cut: " + ("no hours reckoned" if hours == "unknown" else f"oxygen for {hours}"),
            "",
            "Unplug before hands go in. Gloves; no siphon by mouth. Never release animals, plants or water.",
        )))  # fmt: skip
    return texts(found)


def company(room: Room) -> pd.Series:
    found = []
    for tank in _each(room):
        if tank is None:
            found.append("")
            continue
        many, names = tell(stocking.animals(room).iloc[tank]), who(room)[tank]
        told, needs = open_flags.worst_sentence(room)[tank], "Nothing needs attention."
        if told:
            sentence = told if len(told) <= ROOM_FOR else told[:ROOM_FOR] + " …"
            acts, watches, notes = (level(room)[tank] for level in open_flags.LEVELS)
            needs = f"▲ {acts:.0f} to act on, ◆ {watches:.0f} to watch, ○ {notes:.0f} to note\n{sentence}"
        found.append((f"{many} in all: {names}" if names else "No animals live in it.") + "\n\n" + needs)
    return texts(found)
