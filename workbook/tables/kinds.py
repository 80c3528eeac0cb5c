"""What a cell may hold: how it is read from text, what is refused, what is expected instead."""

import datetime
import math
import re
from dataclasses import dataclass

Value = str | int | float | datetime.date
FIRST_DATE, LAST_DATE = datetime.date(1970, 1, 1), datetime.date(2150, 12, 31)
# Wildcards and operators at the start would act inside MATCH and SUMIFS; ¦ and → part the sentences of Attention.
NOT_IN_KEYS = re.compile(r"[*?~¦→\n\t]|^[<>=+\-@]")
NUMBER = re.compile(r"[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)(e[+-]?[0-9]+)?", re.IGNORECASE)
# Text that office programs take for an error of a formula.
ERROR = re.compile(r"#(N/A|[A-Z/0]+[!?])")
LONGEST_KEY, LONGEST_TEXT = 60, 2000
FIVE_DIGITS = 100_000


def in_full(limit: float) -> str:
    """A limit as people write it, without powers of ten."""
    return f"{limit:g}" if abs(limit) < FIVE_DIGITS else f"{limit:.0f}"


@dataclass(frozen=True)
class Kind:
    """One kind of value: its limits, its choices or the table that it points to.

    table: of a link, where the name must stand; of a text, where names stand that people may pick.
    """

    name: str
    low: float = -math.inf
    high: float = math.inf
    choices: tuple[str, ...] = ()
    table: str = ""

    @property
    def is_number(self) -> bool:
        """Whether blank can be told from a value by COUNT."""
        return self.name in {"number", "count", "date"}

    @property
    def is_positive(self) -> bool:
        """Whether 0 and less are out of the question."""
        return self.name == "date" or (self.is_number and self.low > 0)

    @property
    def expected(self) -> str:
        """What a cell of this kind should hold, in words."""
        if self.name == "choice":
            return f"one of {', '.join(self.choices)}"
        if self.name == "date":
            return f"a date such as 2026-03-31, from {FIRST_DATE.year} to {LAST_DATE.year}"
        if self.name == "link":
            also = "".join(f" or {word}" for word in self.choices)
            return f"a name that stands in {self.table}{also}"
        if self.name == "key":
            return (
                f"a name of at most {LONGEST_KEY} letters on one line, without * ? ~ ¦ → "
                "and not starting with < > = + - @"
            )
        if self.name == "text":
            return f"text of at most {LONGEST_TEXT} letters, not starting with = and no error such as #N/A"
        whole = "a whole number" if self.name == "count" else "a number"
        limits = (
            f" from {in_full(self.low)} to {in_full(self.high)}" if self.low > -math.inf or self.high < math.inf else ""
        )
        return whole + limits

    def parse(self, text: str) -> Value:
        """The value that a text stands for; ValueError when it is none of this kind."""
        match self.name:
            case "number" | "count":
                return self._number(text)
            case "date":
                return _date(text)
            case "choice":
                found = [choice for choice in self.choices if choice.casefold() == text.casefold()]
                if not found:
                    raise ValueError(text)
                return found[0]
            case "key" | "link":
                if NOT_IN_KEYS.search(text) or ERROR.fullmatch(text) or len(text) > LONGEST_KEY:
                    raise ValueError(text)
                return text
        if text.startswith("=") or ERROR.fullmatch(text) or len(text) > LONGEST_TEXT:
            raise ValueError(text)
        return text

    def _number(self, text: str) -> int | float:
        if not NUMBER.fullmatch(text):
            raise ValueError(text)
        found = float(text)
        if not math.isfinite(found) or not self.low <= found <= self.high:
            raise ValueError(text)
        if self.name == "count":
            if found != int(found):
                raise ValueError(text)
            return int(found)
        return found


def _date(text: str) -> datetime.date:
    found = datetime.date.fromisoformat(text)
    # Other forms of the standard, such as 20260331, are more often a slip than a date.
    if found.isoformat() != text or not FIRST_DATE <= found <= LAST_DATE:
        raise ValueError(text)
    return found


def text(suggests: str = "") -> Kind:
    """Any words; suggests: a table whose names may be picked, and then lead to its rows."""
    return Kind("text", table=suggests)


def key() -> Kind:
    """The name by which other tables know this row."""
    return Kind("key")


def number(low: float = -math.inf, high: float = math.inf) -> Kind:
    """A measure between low and high."""
    return Kind("number", low, high)


def count(low: int, high: int) -> Kind:
    """A whole number between low and high."""
    return Kind("count", low, high)


def row(table: str) -> Kind:
    """The number of a row of another table: what is pulled through it is read there."""
    return Kind("count", 1, 10**6, table=table)


def date() -> Kind:
    """A day."""
    return Kind("date")


def choice(*choices: str) -> Kind:
    """One of a few words."""
    return Kind("choice", choices=choices)


def link(table: str, *also: str) -> Kind:
    """The name of a row of another table, or one of a few words."""
    return Kind("link", table=table, choices=also)
