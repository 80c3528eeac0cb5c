"""How near Candidates comes to a panel of readers. Run: python -m tests.panel.

tests/published/panel: twenty tanks and thirty fish that can't be had, and what independent readers would put there or would
find absurd. Common practice, a panel of readers from memory, no published source; they had the library's names alone
before them, none of what the workbook says.

Weights are fitted on the odd cases alone, even ones tell how good they are. The rules (who swallows snails, who is swept off
by a current, who loses its ground, livebearers among others, the rift lakes) came of looking at what was offered in all of
them, each with a reason of its own: the even cases are no longer ones never looked at.
"""

import csv
from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests import books
from tests.needed import as_asked
from workbook.build import Plan
from workbook.editions import keeper

PANEL = Path(__file__).parent / "published" / "panel"
FIRST = {"tank": 10, "lost": 5}
READERS = sorted(PANEL.glob("reader_*.csv"))
ENOUGH = min(2, len(READERS))  # who must say so
KEEPER = keeper()
Row = dict[str, Any]
WATER = {"water": "Tap", "temperature": 20, "ph": 7, "gh": 8, "kh": 5, "nitrate": 5, "ammonia": 0}
PLAN = {
    "tank": "Case", "shape": "box", "measured": "inside", "glass": 1, "water_below_rim": 3, "substrate_depth": 4, "rock": 0,
    "wood": 0, "water": "Tap", "cycled": "yes", "change_interval": 7, "meals": 2, "fasting_days": 1,
}  # fmt: skip
PLANTED = {"dense plants": "dense", "some plants": "some"}


@dataclass(frozen=True)
class Told:
    """What is offered first in one case, and what the panel says of each."""

    part: str
    case: int
    offered: list[str]
    good: int
    absurd: int

    @property
    def share(self) -> float:
        """Good ones of ten, or of five; fewer than those count as they are where fewer are offered."""
        return self.good / max(1, len(self.offered)) * FIRST[self.part]


def rows_of(name: str) -> list[Row]:
    with (PANEL / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def answers() -> dict[tuple[str, int], dict[str, Counter[str]]]:
    """For each case, how many readers call a species good, and how many absurd."""
    found: dict[tuple[str, int], dict[str, Counter[str]]] = defaultdict(lambda: defaultdict(Counter))
    for path in READERS:
        for row in rows_of(path.name):
            verdict = "absurd" if row["verdict"] == "absurd" else "good"
            found[row["part"], int(row["case"])][verdict][row["species"]] += 1
    return found


def tank_of(case: Row) -> tuple[Row, list[Row]]:
    """A tank of the panel and who lives there."""
    length, width, height, litres = (float(case[key]) for key in ("length_cm", "width_cm", "height_cm", "litres_net"))
    stock = [one.strip().partition(" ") for one in case["residents"].split(";") if one.strip()]
    tank = PLAN | {
        "length": length, "width": width, "height": height, "net_volume_measured": litres,
        "temperature": float(case["temperature_c"]), **{key: float(case[key]) for key in ("ph", "gh", "kh")},
        "change_share": float(case["change_percent_a_week"]) / 100, "filter_flow": float(case["filter_litres_per_hour"]),
        "planted": PLANTED.get(case["planting"], "none"),
    }  # fmt: skip
    return tank, [{"species": name, "animals": int(number)} for number, _, name in stock]


def tank_for(species: Row) -> tuple[Row, list[Row]]:
    """A tank set up for a fish: half as much again as its smallest, in the middle of its ranges, its best group in it."""
    litres = max(60.0, 1.5 * float(species["volume_min"]))
    length = max((litres * 1000 / 2) ** (1 / 3) * 2, 1.2 * float(species["length_min"]))
    side = (litres * 1000 / length) ** 0.5
    middle = {p: (species[f"{p}_low"] + species[f"{p}_high"]) / 2 for p in ("temperature", "ph", "gh", "kh")}
    tank = PLAN | middle | {"length": length, "width": side, "height": side + 8, "net_volume_measured": litres}
    tank |= {"change_share": 0.4, "planted": "some"}
    return tank, [{"species": species["species"], "animals": int(species["group_best"])}]


def offered(tank: Row, stock: list[Row], first: int, **choice: str) -> list[str]:
    """The species that stand first."""
    records = books.blank()
    records |= {"tanks": [tank], "waters": [WATER], "livestock": [{"tank": "Case", **row} for row in stock]}
    records["candidates_choice"] = [{"tank": "Case", **choice}]
    built = as_asked(KEEPER, records, Plan(spare_rows=1, units="metric"))
    best = built.placing.tables["best"]
    names = [built.values[best.base_sheet, best.first_row + row, best.base["species"]] for row in range(first)]
    return [str(name) for name in names if name]


def told(part: str, case: int, names: list[str]) -> Told:
    """What the panel says of them."""
    said = ANSWERS[part, case]
    good, absurd = (sum(said[verdict][name] >= ENOUGH for name in names) for verdict in ("good", "absurd"))
    return Told(part, case, names, good, absurd)


ANSWERS = answers()


def tanks(cases: Iterable[int] = range(1, 21)) -> list[Told]:
    """The first ten for each tank."""
    by_case = {int(row["case"]): tank_of(row) for row in rows_of("tanks.csv")}
    return [told("tank", case, offered(*by_case[case], FIRST["tank"])) for case in cases]


def lost(cases: Iterable[int] = range(1, 31)) -> list[Told]:
    """The first five in place of each fish."""
    library = {row["species"]: row for row in books.blank()["species"]}
    names = {int(row["case"]): row["fish_that_cannot_be_had"] for row in rows_of("lost.csv")}
    return [
        told("lost", case, offered(*tank_for(library[names[case]]), FIRST["lost"], instead_of=names[case]))
        for case in cases
    ]


def summary(found: list[Told]) -> str:
    """Mean, least, and how many absurd."""
    shares = [one.share for one in found]
    return f"mean {sum(shares) / len(shares):.2f}, least {min(shares):.1f}, absurd {sum(one.absurd for one in found)}"


def main() -> None:
    for part, judge in (("tank", tanks), ("lost", lost)):
        found = judge()
        for one in found:
            print(f"{part} {one.case}: {one.share:.1f} good, {one.absurd} absurd: {', '.join(one.offered)}")
        for which, odd in (("odd cases", 1), ("even cases", 0)):
            print(f"{part}, {which}: {summary([one for one in found if one.case % 2 == odd])} of {FIRST[part]}")


if __name__ == "__main__":
    main()
