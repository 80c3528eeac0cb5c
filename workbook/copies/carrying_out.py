"""A plan that is done: its lines are taken over into Livestock and Tanks, one after the other, and emptied."""

import datetime
from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from workbook.copies.content import Content, Entry
from workbook.copies.identity import folded
from workbook.tables.kinds import Value

LINES, OTHER_TANKS = "plan_lines", "plan_values"
# What a group takes along to another tank, and what was counted in buckets only of the tank as it was.
GOES_ALONG, SIZES, COUNTED = (
    ("length_now", "measured_on", "feed_factor"),
    ("shape", "length", "width", "height"),
    "net_volume_measured",
)


def with_plan_done(content: Content, today: datetime.date, *, carry_out: bool) -> tuple[Content, list[str]]:
    """The content with the lines that are marked done carried out, or as it is with an offer to; what is told."""
    done = [
        entry
        for table in (LINES, OTHER_TANKS)
        for entry in content.tables.get(table, ())
        if _says(entry, "done", "yes")
    ]
    if not carry_out:
        many = "1 line is" if len(done) == 1 else f"{len(done)} lines are"
        offer = f"Plan: {many} marked done; build with --carry-out to take that over into Livestock and Tanks"
        return content, [offer] if done else []
    if not done:
        return content, ["Plan: no line is marked done, so nothing was carried out"]
    room = _Room(content, _plan_date(content, today))
    lines = tuple(room.line(entry) if _says(entry, "done", "yes") else entry for entry in content.tables.get(LINES, ()))
    others = tuple(
        room.other(entry) if _says(entry, "done", "yes") else entry for entry in content.tables.get(OTHER_TANKS, ())
    )
    tables = content.tables | {
        "livestock": tuple(room.groups),
        "tanks": tuple(room.tanks),
        LINES: lines,
        OTHER_TANKS: others,
    }
    return replace(content, tables={key: tables[key] for key in (*content.tables, *_new(content, tables))}), room.said


def _new(content: Content, tables: dict[str, tuple[Entry, ...]]) -> Iterator[str]:
    yield from (key for key, rows in tables.items() if rows and key not in content.tables)


def _says(entry: Entry, key: str, word: str) -> bool:
    return folded(entry.values.get(key)) == word


def _plan_date(content: Content, today: datetime.date) -> datetime.date:
    """The day that the file is reckoned for."""
    settings = content.tables.get("settings", ())
    typed = settings[0].values.get("plan_date_typed") if settings else None
    return typed if isinstance(typed, datetime.date) else today


def _number(entry: Entry, key: str) -> int:
    found = entry.values.get(key)
    return int(found) if isinstance(found, int | float) else 0


@dataclass
class _Room:
    """Livestock and Tanks while lines are carried out, one after the other; what is told of each."""

    content: Content
    today: datetime.date
    groups: list[Entry] = field(init=False)
    tanks: list[Entry] = field(init=False)
    said: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.groups, self.tanks = ([*self.content.tables.get(key, ())] for key in ("livestock", "tanks"))

    def line(self, entry: Entry) -> Entry:
        """The line when it is carried out: an empty one; as it is where that can't be."""
        values, many = entry.values, _number(entry, "number")
        do, species = folded(values.get("do")), str(values.get("species") or "")
        source = self._tank(values.get("from_tank")) if do != "add" else ""
        goal = self._tank(values.get("to_tank")) if do != "take out" else ""
        if do not in {"add", "take out", "move"} or many < 1 or not species or source is None or goal is None:
            return self._left(entry, "it is not finished, or names a tank that does not stand on Tanks")
        taken = [(Entry({}), many)]
        if source:
            if (there := sum(self._living(at) for at in self._of_kind(source, species))) < many:
                return self._left(entry, f"only {there} {species} live in {source}")
            taken = self._take(source, species, many)
        if goal:
            day = values.get("on_day")
            for group, number in taken:
                self._put(
                    group, number, (goal, species, source or ""), day if isinstance(day, datetime.date) else self.today
                )
        self.said.append("Plan: " + self._told(do, many, species, (source or "", goal or "")))
        return replace(entry, values={})

    @staticmethod
    def _told(do: str, many: int, species: str, tanks: tuple[str, str]) -> str:
        source, goal = tanks
        if do == "add":
            return f"{many} {species} added to {goal}, as a new row of Livestock"
        if do == "take out":
            return f"{many} {species} taken out of {source}, from How many on Livestock"
        return f"{many} {species} moved from {source} to {goal}, there as a new row of Livestock"

    def _left(self, entry: Entry, why: str) -> Entry:
        values = entry.values
        words = " ".join(str(values[key]) for key in ("do", "number", "species", "tank") if key in values)
        self.said.append(f"Plan: '{words}' left as it is: {why}")
        return entry

    def _tank(self, name: Value | None) -> str | None:
        """The name as it stands on Tanks."""
        names = (str(tank.values["tank"]) for tank in self.tanks if "tank" in tank.values)
        return next((one for one in names if folded(one) == folded(name)), None)

    def _of_kind(self, tank: str, species: str) -> list[int]:
        """Positions of its groups on Livestock."""
        wanted = folded(tank), folded(species)
        return [
            at
            for at, group in enumerate(self.groups)
            if (folded(group.values.get("tank")), folded(group.values.get("species"))) == wanted
        ]

    def _since(self, at: int) -> int:
        """What came less what died by the Log since the group was counted: of the first group of its kind."""
        group = self.groups[at]
        tank, species = (str(group.values.get(key) or "") for key in ("tank", "species"))
        counted = group.values.get("counted_on") or group.values.get("date_in")
        if not isinstance(counted, datetime.date) or self._of_kind(tank, species)[0] != at:
            return 0
        found = 0
        for row in self.content.tables.get("log", ()):
            day = row.values.get("date")
            same = (folded(row.values.get("tank")), folded(row.values.get("species"))) == (
                folded(tank),
                folded(species),
            )
            if same and isinstance(day, datetime.date) and counted < day <= self.today:
                found += _number(row, "arrivals") - _number(row, "losses")
        return found

    def _living(self, at: int) -> int:
        return max(0, _number(self.groups[at], "animals") + self._since(at))

    def _take(self, tank: str, species: str, many: int) -> list[tuple[Entry, int]]:
        """Take so many from the groups of a kind, the first one first; the groups with how many each gave."""
        found = []
        for at in self._of_kind(tank, species):
            if number := min(many, living := self._living(at)):
                group = self.groups[at]
                left = _number(group, "animals") - number
                # With arrivals of the Log there are more than were counted: that is a count of today.
                now: dict[str, Value] = (
                    {"animals": left} if left >= 0 else {"animals": living - number, "counted_on": self.today}
                )
                self.groups[at] = replace(group, values=group.values | now)
                found.append((group, number))
                many -= number
        return found

    def _put(self, group: Entry, number: int, where: tuple[str, str, str], day: datetime.date) -> None:
        """A new row for animals that come; moved ones take along what is known of their size."""
        tank, species, source = where
        values: dict[str, Value] = {"tank": tank, "species": species, "animals": number, "date_in": day}
        values |= {key: group.values[key] for key in GOES_ALONG if key in group.values}
        self.groups.append(Entry(values | ({"origin": f"From {source}"} if source else {})))

    def other(self, entry: Entry) -> Entry:
        """The same of a tank that has other values now."""
        name = self._tank(entry.values.get("tank"))
        new = {key: value for key, value in entry.values.items() if key not in {"tank", "done"}}
        if name is None or not new:
            return self._left(entry, "it names no tank of Tanks, or nothing that is other")
        at = next(i for i, tank in enumerate(self.tanks) if tank.values.get("tank") == name)
        old = self.tanks[at]
        gone = COUNTED if any(key in new for key in SIZES) and COUNTED in old.values else ""
        values = {key: value for key, value in old.values.items() if key != gone}
        self.tanks[at] = replace(old, values=values | new)
        was = f"; its volume counted in buckets, {old.values[gone]}, is gone with its old size" if gone else ""
        self.said.append(f"Plan: {name} has other values now: {', '.join(sorted(new)).replace('_', ' ')}{was}")
        return replace(entry, values={})
