"""How the room is, in four lines: who asks for action, by name, water to change, other tasks."""

import pandas as pd

from tests.oracles import next_change, open_flags, week
from tests.oracles.tools import Oracle, Room, blank, only_planned, remember
from tests.oracles.tools import said as spoken

LINES = 4


@remember
def _figures(room: Room) -> dict[str, float]:
    late, poured = next_change.days_late(room), next_change.poured(room)
    tasks = [
        task for task, place in zip(week.all_due(room)[: week.LINES], week.today(room), strict=False) if place == place
    ]
    return {
        "tanks": float((~blank(room.tanks["tank"]) & ~only_planned(room)).sum()),
        "asking": float((open_flags.open_acts(room) > 0).sum()),
        "changes": float((late >= 0).sum()),
        "changes_late": float((late > 0).sum()),
        "litres": float(poured[late >= 0].sum()),
        "tasks": float(len(tasks)),
        "tasks_late": float(sum(task.days_late > 0 for task in tasks)),
        "minutes": float(sum(task.minutes for task in tasks if task.minutes == task.minutes)),
    }


def _same_on_each_line(key: str) -> Oracle:
    return lambda room: pd.Series([_figures(room)[key]] * LINES, dtype=float)


for _key in ("tanks", "asking", "changes", "changes_late", "litres", "tasks", "tasks_late", "minutes"):
    globals()[_key] = _same_on_each_line(_key)


def _many(number: float, word: str) -> str:
    return f"{number:.0f} {word}" + ("" if number == 1 else "s")


def said(room: Room) -> pd.Series:
    f = _figures(room)
    names = list(room.tanks["tank"][open_flags.open_acts(room) > 0])
    if not f["tanks"]:
        tanks = "No tank stands here yet: see the first steps on Start"
    elif not names:
        tanks = "No tank asks for action"
    else:
        asks = "tank asks" if f["tanks"] == 1 else "tanks ask"
        tanks = f"{f['asking']:.0f} of {f['tanks']:.0f} {asks} for action"
    who = ", ".join(names[:4]) + (", …" if len(names) > 4 else "")
    water = "No water to change"
    if f["changes"]:
        late = f"; {f['changes_late']:.0f} late" if f["changes_late"] else ""
        water = f"{_many(f['changes'], 'water change')}, {spoken(f['litres'])} L{late}"
    work = "No other task"
    if f["tasks"]:
        late = f", {f['tasks_late']:.0f} late" if f["tasks_late"] else ""
        about = f"; about {spoken(f['minutes'])} min" if f["minutes"] else ""
        work = f"{_many(f['tasks'], 'other task')}{late}{about}"
    return pd.Series([tanks, who, water, work], dtype=object)
