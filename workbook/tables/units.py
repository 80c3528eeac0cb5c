"""Units: what is shown instead in a US workbook, how it converts, and how a unit is written in a header or a name."""

from dataclasses import dataclass

SYSTEMS = ("metric", "us")
# Of base values typed in another unit: finer than any rule or tape, coarser than what dividing leaves behind.
KEPT_DECIMALS = 8


@dataclass(frozen=True)
class Twin:
    """The unit shown instead of a base unit: shown = base * factor + offset."""

    unit: str
    factor: float
    offset: float = 0.0

    def shown(self, base: float) -> float:
        """A base value in the shown unit, without float noise."""
        return float(f"{base * self.factor + self.offset:.12g}")

    def base(self, shown: float) -> float:
        """The shortest base value that shows as this one, so that a value comes back as it was typed."""
        exact, wanted = (shown - self.offset) / self.factor, float(f"{shown:.12g}")
        short = (float(f"{exact:.{digits}g}") for digits in range(6, 17))
        return next((base for base in short if self.shown(base) == wanted), exact)

    def base_text(self, cell: str) -> str:
        """Formula text: the base value of a cell that holds the shown one; 75.2 °F are 24 °C, not a trace more."""
        bare = f"({cell}-{self.offset:.17g})" if self.offset else cell
        return f"ROUND({bare}/{self.factor:.17g},{KEPT_DECIMALS})"

    def shown_text(self, cell: str) -> str:
        """Formula text: the shown value of a cell that holds the base one."""
        return f"{cell}*{self.factor:.17g}" + (f"+{self.offset:.17g}" if self.offset else "")


# Exact by definition: inch 2.54 cm, US gallon 231 cubic inches, foot 0.3048 m, avoirdupois pound 0.45359237 kg.
US = {
    "cm": Twin("in", 1 / 2.54),
    "L": Twin("gal", 1 / 3.785411784),
    "L/h": Twin("gal/h", 1 / 3.785411784),
    "degC": Twin("degF", 1.8, 32.0),
    "K": Twin("Fdiff", 1.8),
    "m": Twin("ft", 1 / 0.3048),
    "kg": Twin("lb", 1 / 0.45359237),
    "cm2": Twin("in2", 1 / 2.54**2),
    "kg/m2": Twin("lb/ft2", 0.3048**2 / 0.45359237),
    "W/L": Twin("W/gal", 3.785411784),
}

# Exact by definition: avoirdupois ounce 28.349523125 g. Rations stay in grams: they are weighed on a scale, not bought.
US_BOUGHT = {"g": Twin("oz", 1 / 28.349523125)}

WRITTEN = {
    "degC": "°C",
    "degF": "°F",
    "Fdiff": "°F apart",
    "K": "°C apart",
    "degH": "°dH",
    "1": "",
    "cm2": "cm²",
    "in2": "in²",
    "kg/m2": "kg/m²",
    "lb/ft2": "lb/ft²",
    "W/m2K": "W/m²K",
    "1/h": "per hour",
    "1/day": "a day",
    "day": "days",
    "h": "hours",
    "g/day": "g a day",
    "g/m2day": "g a day per m²",
    "gal": "US gal",
    "currency": "money",
    "date": "",
    "gal/h": "US gal/h",
    "in/gal": "in per US gal",
    "W/gal": "W per US gal",
    "1/g": "per g",
    "ug": "µg",
    "mg/h": "mg/h",
    "Wh": "Wh",
}


def twin(unit: str, system: str, *, bought: bool = False) -> Twin | None:
    """What is shown instead of a base unit; none when the base unit itself is shown. bought: by the pack."""
    if system != "us":
        return None
    return US_BOUGHT.get(unit, US.get(unit)) if bought else US.get(unit)


def written(unit: str) -> str:
    """The unit as a header shows it."""
    return WRITTEN.get(unit, unit)


def in_a_sentence(unit: str) -> str:
    """The unit as a sentence says it: "moves it by 2 °C" tells by its words that it is a step."""
    return written(unit).removesuffix(" apart")


def in_a_name(unit: str) -> str:
    """The unit as the end of a defined name; nothing for a bare number."""
    if unit in {"", "1", "date", "currency"}:
        return ""
    return "_" + unit.lower().replace("1/", "per_").replace("/", "_per_").replace(" ", "_")
