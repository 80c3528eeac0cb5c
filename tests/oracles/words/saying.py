"""How a flag speaks: symbol, title, cause and remedy; names as typed, figures rounded as their columns show them.

A sentence gives a figure with the unit that the file shows; in a US file that is the customary one. What a figure is
(which column, how many decimals, which unit) is stated here by whoever writes the sentence, never looked up.
"""

import importlib
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import pandas as pd

from tests.oracles.tools import Room, said

# Of a column, or one number that is the same for all rows.
Values = Callable[[Room], Any]
# act: harm is likely soon or has begun, or a row by which nothing can be reckoned; watch: look after it in the next
# days; note: worth knowing, nothing presses.
SYMBOLS = {"act": "▲", "watch": "◆", "note": "○"}
# Exact by definition: inch 2.54 cm, foot 12 inches, US gallon 231 cubic inches, avoirdupois pound 0.45359237 kg.
GALLON, POUND, FOOT = 231 * 2.54**3 / 1000, 0.45359237, 0.3048
IN_US = {
    "cm": ("in", 1 / 2.54),
    "cm²": ("in²", 1 / 2.54**2),
    "L": ("US gal", 1 / GALLON),
    "kg": ("lb", 1 / POUND),
    "kg/m²": ("lb/ft²", FOOT**2 / POUND),
    "W/L": ("W per US gal", GALLON),
}
MEASURED = re.compile(r"(-?[0-9.]*[0-9]) (°C|cm)\b")
EPOCH = pd.Timestamp("1899-12-30")


@dataclass(frozen=True)
class Figure:
    """What a sentence tells of each row: how many decimals, and the unit as a sentence says it."""

    values: Values
    unit: str = ""
    places: int = 0

    def tell(self, value: Any, units: str) -> str:
        """One of them in words."""
        match self.unit:
            case "name" | "told":
                return str(value)
            case "phrase":
                return MEASURED.sub(lambda m: self._again(m[1], m[2], units), str(value))
            case "day":
                day = value if isinstance(value, pd.Timestamp) else EPOCH + pd.Timedelta(days=float(value))
                return f"{day:%Y-%m-%d}"
            case "%":
                return f"{said(value * 100, self.places)} %"
            case "°C" if units == "us":
                return f"{said(value * 9 / 5 + 32, self.places)} °F"
            case "°C apart":
                step, unit = (value * 9 / 5, "°F") if units == "us" else (value, "°C")
                return f"{said(step, self.places)} {unit}"
        unit, factor = IN_US.get(self.unit, (self.unit, 1.0)) if units == "us" else (self.unit, 1.0)
        return f"{said(value * factor, self.places)} {unit}".rstrip()

    def _again(self, number: str, unit: str, units: str) -> str:
        """A figure within words, in the unit that the file shows."""
        return Figure(self.values, unit, self.places).tell(float(number), units)


def phrase(values: Values, places: int = 1) -> Figure:
    """Words with measures in them, as an oracle tells them in metric units."""
    return Figure(values, "phrase", places)


def named(values: Values) -> Figure:
    """Words, as they stand in the cell."""
    return Figure(values, "name")


def told(values: Values) -> Figure:
    """Words that other flags say, in the units of the file."""
    return Figure(values, "told")


def _in(room: Room, figure: Figure, units: str) -> Room:
    """The room as what is told wants it."""
    return replace(room, units=units) if figure.unit == "told" else room


def day(values: Values) -> Figure:
    """A day, as people write it everywhere."""
    return Figure(values, "day")


def share(values: Values) -> Figure:
    """A share in per cent."""
    return Figure(values, "%")


def warmth(values: Values, places: int = 1) -> Figure:
    """A temperature, whose scales do not begin at the same point."""
    return Figure(values, "°C", places)


def step(values: Values) -> Figure:
    """A difference of temperatures, as exact as a constant is typed."""
    return Figure(values, "°C apart", 6)


class Says:
    """What one flag says."""

    def __init__(self, level: str, title: str, why: str, do: str, **told: Figure) -> None:
        self.level, self.title, self.why, self.do, self.told = level, title, why, do, told

    def texts(self, room: Room, raised: Sequence[bool], units: str = "metric") -> list[str]:
        """The full text of each row; nothing where the flag is not raised."""
        if not any(raised):
            return [""] * len(raised)
        values = {name: figure.values(_in(room, figure, units)) for name, figure in self.told.items()}
        columns = {name: [v] * len(raised) if isinstance(v, float) else list(v) for name, v in values.items()}

        def text(row: int) -> str:
            words = {name: figure.tell(columns[name][row], units) for name, figure in self.told.items()}
            sentence = f"{self.why.format(**words)} → {self.do.format(**words)}"
            return f"{SYMBOLS[self.level]} {self.title}: {sentence}"

        return [text(row) if is_so else "" for row, is_so in enumerate(raised)]


class AsPlanned:
    """What a flag of the living room says of the room as it would be."""

    def __init__(self, says: Says) -> None:
        self.says, self.level, self.title = says, says.level, says.title

    def texts(self, room: Room, raised: Sequence[bool], units: str = "metric") -> list[str]:
        """The full text of each row; nothing where the flag is not raised."""
        planned = importlib.import_module("tests.oracles.planned")
        return self.says.texts(planned.room_then(room), raised, units)


def of(table: str, key: str) -> Says | AsPlanned | None:
    """What the oracles let a flag say: those of its table, or those that all lists share."""
    if table.startswith("plan_"):  # the flags of the living room, of the room as it would be
        says = of(table.removeprefix("plan_"), key)
        return AsPlanned(says) if says else None
    own = {}
    if (Path(__file__).parent / f"{table}.py").is_file():
        own = importlib.import_module(f"{__package__}.{table}").SAYS
    common = importlib.import_module(f"{__package__}.lists")
    return own.get(key) or common.says(table, key)  # type: ignore[no-any-return]


def all_of_them() -> set[tuple[str, str]]:
    """Table and key of every flag that is no common one."""
    modules = (path.stem for path in Path(__file__).parent.glob("*.py"))
    found = {table: getattr(importlib.import_module(f"{__package__}.{table}"), "SAYS", {}) for table in modules}
    return {(table, key) for table, flags in found.items() for key in flags}


# --- where figures come from ---


def typed(table: str, key: str) -> Values:
    """A column as a person typed it."""
    return lambda room: getattr(room, table)[key]


def setting(key: str) -> Values:
    """One number of Start for all rows."""
    return lambda room: room.settings.get(key)


def const(key: str) -> Values:
    """A constant for all rows."""
    return lambda room: room.const[key]
