"""The formula under test, evaluated in IronCalc with numbers in the cells that its names stand for."""

import csv
import importlib
import inspect
import pkgutil
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

import ironcalc

import workbook.equations
from workbook.tables.formula import NAME, Formula

ROOT = Path(__file__).parent.parent
SHARED = ROOT / "templates" / "shared"
PUBLISHED = Path(__file__).parent / "published"
MODULES = [module.name for module in pkgutil.iter_modules(workbook.equations.__path__)]
for _module in MODULES:
    importlib.import_module(f"workbook.equations.{_module}")  # fills the registry


def rows_of(path: Path) -> list[dict[str, str]]:
    """The rows of a CSV file, as they stand there."""
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def constants() -> dict[str, dict[str, str]]:
    """The rows of the constants by key, those of a shop with them."""
    return {row["key"]: row for name in ("constants", "shop_constants") for row in rows_of(SHARED / f"{name}.csv")}


DEFAULTS = {f"const.{key}": float(row["value"]) for key, row in constants().items()}


def evaluate_all(formulas: Iterable[tuple[str, Mapping[str, float]]]) -> list[float | str]:
    """Values of many formula texts, each with its own numbers, out of one model; an error is its text."""
    model = ironcalc.create("formulas", "en", "UTC", "en")
    row = 0
    for row, (text, numbers) in enumerate(formulas, 1):
        known = DEFAULTS | dict(numbers)
        cells = {}
        for column, name in enumerate(dict.fromkeys(NAME.findall(text)), 2):
            model.update_cell_with_number(0, row, column, known[name])
            cells[name] = f"{ironcalc.column_name_from_number(column)}{row}"
        model.update_cell_with_formula(0, row, 1, "=" + NAME.sub(lambda m, at=cells: at[m[1]], text))
    model.evaluate()
    return [model.get_cell_value(0, at, 1) for at in range(1, row + 1)]


def evaluate(text: str, **numbers: float) -> float | str:
    """Value of one formula text; a constant that is not given has the value in constants.csv."""
    return evaluate_all([(text, numbers)])[0]


def built(equation: str, given: Iterable[str] | Mapping[str, str]) -> Formula:
    """The formula of an equation, module.function; operands that are not given keep their defaults."""
    module, _, name = equation.partition(".")
    function = getattr(importlib.import_module(f"workbook.equations.{module}"), name)
    texts = given if isinstance(given, Mapping) else {key: f"{{{key}}}" for key in given}
    return function(**texts)


def parameters(equation: str) -> dict[str, str | None]:
    """Operands of an equation with their defaults; None where there is none."""
    module, _, name = equation.partition(".")
    function = getattr(importlib.import_module(f"workbook.equations.{module}"), name)
    signature = inspect.signature(function)
    return {key: None if p.default is inspect.Parameter.empty else p.default for key, p in signature.parameters.items()}


@dataclass(frozen=True)
class Point:
    """What a source says an equation gives for some operands, and how near is near enough."""

    equation: str
    operands: Mapping[str, float]
    expected: float
    tolerance: str
    source: str

    @property
    def allowed(self) -> float:
        """Greatest difference; with a % sign a share of the expected value."""
        if self.tolerance.endswith("%"):
            return abs(self.expected) * float(self.tolerance[:-1]) / 100
        return float(self.tolerance)

    @property
    def formula(self) -> tuple[str, Mapping[str, float]]:
        """The real text of the equation and the numbers for its names."""
        return built(self.equation, list(self.operands)).text, self.operands

    def met_by(self, found: float | str | None) -> bool:
        """Whether a value is a number and near enough."""
        # The hair above: a tolerance of half a last digit must not fail on float noise.
        return isinstance(found, float | int) and abs(found - self.expected) <= self.allowed * (1 + 1e-9) + 1e-12

    def __str__(self) -> str:
        given = "; ".join(f"{key}={value:g}" for key, value in self.operands.items())
        return f"{self.equation}({given})"


def published_points() -> list[Point]:
    """Every row of tests/published."""
    points = []
    for path in sorted(PUBLISHED.glob("*.csv")):
        for row in rows_of(path):
            pairs = [pair.split("=") for pair in re.split(r"; *", row["operands"])]
            operands = {key.strip(): float(value) for key, value in pairs}
            points.append(Point(row["equation"], operands, float(row["expected"]), row["tolerance"], row["source"]))
    return points


def misses(points: Iterable[Point]) -> list[str]:
    """What the equations get wrong, in words; empty when every point is met."""
    points = list(points)
    found = evaluate_all(point.formula for point in points)
    return [
        f"{point} gives {value}, expected {point.expected:g} within {point.tolerance} ({point.source})"
        for point, value in zip(points, found, strict=True)
        if not point.met_by(value)
    ]
