"""Measuring: the unit of what a formula decides, derived from the units of its names, so that no cm is added to L.

What is derived: a unit as powers of its symbols, FREE (a bare number or a blank: fits everywhere), TEXT, or UNKNOWN
where it can't be told, which fits everywhere too. Science is left out: an equation checks its operands and tells its
unit.
"""

import functools
import re
from collections.abc import Callable
from dataclasses import dataclass, field

from workbook.tables.template import TOKEN

FREE, TEXT, UNKNOWN = "free", "text", "unknown"
Unit = frozenset[tuple[str, int]]
Measured = Unit | str
BARE: Unit = frozenset()
SYMBOL = re.compile(r"([A-Za-z]+)(\d?)")
# Functions that give what they are given: all of it must be of one unit, or only the first counts.
ALIKE = frozenset(["MIN", "MAX", "SUM", "ABS", "INT", "AVERAGE", "MEDIAN"])
FIRST_COUNTS = frozenset(
    ["LARGE", "SMALL", "ROUND", "ROUNDUP", "ROUNDDOWN", "MOD", "INDEX", "SUMIFS", "AVERAGEIFS", "MAXIFS", "MINIFS"]
)
# Functions that give a bare number, a text or a day whatever they are given.
COUNTS = frozenset(
    [
        "COUNT",
        "COUNTA",
        "COUNTBLANK",
        "ISFORMULA",
        "COUNTIF",
        "COUNTIFS",
        "MATCH",
        "ROWS",
        "ROW",
        "LEN",
        "SEARCH",
        "FIND",
        "AND",
        "OR",
        "NOT",
        "ISNUMBER",
        "ISTEXT",
        "ISERROR",
        "EXACT",
        "WEEKDAY",
        "YEAR",
        "MONTH",
        "DAY",
        "RANK",
    ]
)
TEXTS = frozenset(
    ["TEXT", "MID", "LEFT", "RIGHT", "TRIM", "SUBSTITUTE", "UPPER", "LOWER", "REPT", "HYPERLINK", "CHAR", "FIXED"]
)
DAYS = frozenset(["DATE", "EDATE", "TODAY"])
# Functions that pick one of their arguments: which ones.
BRANCHES: dict[str, Callable[[int], range]] = {
    "IF": lambda n: range(1, n),
    "IFERROR": range,
    "IFS": lambda n: range(1, n, 2),
    "CHOOSE": lambda n: range(1, n),
}


class UnitsDifferError(TypeError):
    """Two things of different units are compared, added, or stand for one another."""


@functools.cache
def unit_of(written: str) -> Unit:
    """The powers of the symbols of a unit: W/m2K is W by m squared and K."""
    if written.startswith("a "):  # a price
        written = f"currency/{written[2:]}"
    powers: dict[str, int] = {}
    for i, part in enumerate(written.split("/")):
        for name, power in SYMBOL.findall(part):
            powers[name] = powers.get(name, 0) + (-1 if i else 1) * int(power or 1)
    return frozenset((name, power) for name, power in powers.items() if power)


DATE, DAY, WARMTH, KELVIN = (unit_of(name) for name in ("date", "day", "degC", "K"))


def written(measured: Measured) -> str:
    """A unit as a message says it."""
    if isinstance(measured, str):
        return measured
    up = "".join(f"{name}{power if power > 1 else ''}" for name, power in sorted(measured) if power > 0)
    down = "".join(f"{name}{-power if power < -1 else ''}" for name, power in sorted(measured) if power < 0)
    return (up or "1") + (f"/{down}" if down else "")


@dataclass
class Reader:
    """Reads one formula from left to right, each rule of the grammar a method, and tells the unit of what it read.

    next: the piece that comes; blank at the end.
    """

    text: str
    unit: Callable[[str], Measured]
    mixed: bool = False
    at: int = 0
    tokens: tuple[str, ...] = field(init=False)
    next: str = field(init=False)

    def __post_init__(self) -> None:
        self.tokens = _pieces(self.text)
        self.next = self.tokens[0]

    def read(self) -> Measured:
        """The unit of the whole."""
        found = self.comparison()
        if self.next:
            raise TypeError(f"{self.text}: '{self.next}' is not understood")
        return found

    def take(self) -> str:
        """What comes, and step over it."""
        if not self.next:
            raise TypeError(f"{self.text} ends too early")
        taken, self.at = self.next, self.at + 1
        self.next = self.tokens[self.at]
        return taken

    def since(self, start: int) -> str:
        """The text from there to here."""
        return "".join(self.tokens[start : self.at])

    def differ(self, start: int, left: Measured, sign: str, middle: int, right: Measured) -> UnitsDifferError:
        """What does not fit together, in words."""
        first = "".join(self.tokens[start : middle - 1])
        return UnitsDifferError(f"{first} [{written(left)}] {sign} {self.since(middle)} [{written(right)}]")

    def comparison(self) -> Measured:
        """Both sides of one unit; what comes out is yes or no."""
        start, found = self.at, self.words()
        while self.next in {"=", "<>", "<", ">", "<=", ">="}:
            sign, middle, right = self.take(), self.at, self.words()
            if agreed(found, right) is None:
                raise self.differ(start, found, sign, middle, right)
            found = BARE
        return found

    def words(self) -> Measured:
        """Whatever is joined becomes a text."""
        found = self.sum()
        while self.next == "&":
            self.take()
            self.sum()
            found = TEXT
        return found

    def sum(self) -> Measured:
        """Both sides of one unit; a day less a day is so many days, and warmth may rise by a step."""
        start, found = self.at, self.product()
        while self.next in {"+", "-"}:
            sign, middle, right = self.take(), self.at, self.product()
            if (total := _added(found, right, sign)) is None:
                raise self.differ(start, found, sign, middle, right)
            found = total
        return found

    def product(self) -> Measured:
        """Units multiply and divide as their numbers do."""
        found = self.factor()
        while self.next in {"*", "/"}:
            sign, right = self.take(), self.factor()
            found = _times(found, right, 1 if sign == "*" else -1)
        return found

    def factor(self) -> Measured:
        """7 beside a measure is a week; a power of ten makes place for another number in the same one, or converts."""
        start, found = self.at, self.power()
        if not self._multiplies(start):
            return found
        number = self.since(start)
        return DAY if number == "7" else UNKNOWN if number.startswith("10^") else found

    def _multiplies(self, start: int) -> bool:
        """Whether what was read since there stands beside a measure."""
        before = self.tokens[start - 1] if start else ""
        return self.next in {"*", "/"} or (before in {"*", "/"} and not self.tokens[start - 2][0].isdigit())

    def power(self) -> Measured:
        """A whole power of a unit is one; of others nothing is known."""
        while self.next in {"+", "-"}:
            self.take()
        found = self.single()
        while self.next in {"^", "%"}:
            if self.take() == "^":
                exponent, right = self.next, self.single()
                found = _raised(found, exponent if right == FREE else "")
        return found

    def single(self) -> Measured:
        """A number, a text, a name, an equation's unit, a range, something in brackets or a function."""
        piece = self.take()
        if piece == "(":
            found = self.comparison()
            self.take()
        elif piece[0] == "{":
            found = self.unit(piece[1:-1])
        elif piece[0] == "[":
            found = unit_of(piece[1:-1])
        elif piece[0] == '"':
            found = TEXT if len(piece) > 2 else FREE
        elif self.next == "(":
            found = self.function(piece.removeprefix("_xlfn."))
        else:
            found = FREE if piece[0].isdigit() else UNKNOWN
        if self.next == ":":
            self.take()
            self.single()
        return found

    def function(self, name: str) -> Measured:
        """What a function gives for what it is given."""
        start, given = self.at - 1, self.arguments()
        for names, found in ((COUNTS, BARE), (TEXTS, TEXT), (DAYS, DATE)):
            if name in names:
                return found
        if name in FIRST_COUNTS:
            return given[0]
        if name == "SUMPRODUCT":
            return functools.reduce(lambda one, other: _times(one, other, 1), given)
        if name == "SWITCH":
            otherwise = given[-1:] if len(given) % 2 == 0 else []
            return self.all_alike(name, [*given[2::2], *otherwise], start)
        if name in BRANCHES:
            return self.all_alike(name, [given[i] for i in BRANCHES[name](len(given))], start)
        return self.all_alike(name, given, start) if name in ALIKE else UNKNOWN

    def arguments(self) -> list[Measured]:
        """What a function is given."""
        given: list[Measured] = []
        self.take()
        while self.next != ")":
            given.append(FREE if self.next == "," else self.comparison())
            if self.next == ",":
                self.take()
        self.take()
        return given

    def all_alike(self, name: str, chosen: list[Measured], start: int) -> Measured:
        """The one unit of all of them."""
        found: Measured = FREE
        for one in chosen:
            both = agreed(found, one)
            if both is None and self.mixed and name in BRANCHES:
                return UNKNOWN
            if both is None:
                units = ", ".join(f"[{written(each)}]" for each in dict.fromkeys(chosen))
                raise UnitsDifferError(f"{self.since(start)} has {units}")
            found = both
        return found


@functools.lru_cache(maxsize=20_000)
def _pieces(text: str) -> tuple[str, ...]:
    """A formula cut up, with a blank at its end."""
    return (*TOKEN.findall(text), "")


def agreed(one: Measured, other: Measured) -> Measured | None:
    """The unit of both; none where they differ. Words may stand in place of a number."""
    if one == other or other in {FREE, TEXT}:
        return one if one != FREE or other != TEXT else TEXT
    if one in {FREE, TEXT}:
        return other
    if UNKNOWN in {one, other}:
        return UNKNOWN
    return None


def _added(one: Measured, other: Measured, sign: str) -> Measured | None:
    if TEXT in {one, other}:
        return UNKNOWN
    for whole, step in ((DATE, DAY), (WARMTH, KELVIN)):
        if one == whole and other == whole:
            return step if sign == "-" else None
        if one == whole and other == step:
            return whole
        if one == step and other == whole and sign == "+":
            return whole
    if (one, other) in {(DATE, BARE), (BARE, DATE)}:
        return DATE
    return agreed(one, other)


def _times(one: Measured, other: Measured, sign: int) -> Measured:
    if one == other == FREE:
        return FREE
    one, other = (BARE if each == FREE else each for each in (one, other))
    if isinstance(one, str) or isinstance(other, str):
        return UNKNOWN
    powers = dict(one)
    for name, power in other:
        powers[name] = powers.get(name, 0) + sign * power
    return frozenset((name, power) for name, power in powers.items() if power)


def _raised(base: Measured, exponent: str) -> Measured:
    if base in {FREE, BARE}:
        return base
    if isinstance(base, str) or not exponent.isdigit():
        return UNKNOWN
    return frozenset((name, power * int(exponent)) for name, power in base)


def measured(text: str, unit: Callable[[str], Measured], *, mixed: bool = False) -> Measured:
    """The unit of what a formula's text gives; unit: that of a name; mixed: each row may have one of its own."""
    return Reader(text, unit, mixed).read()
