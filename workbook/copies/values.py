"""What a person meant by a cell: numbers typed as text, dates turned numbers, names in other letters."""

import datetime
import re
import unicodedata
from typing import TypeGuard

from workbook.copies.grids import Held
from workbook.tables.kinds import FIRST_DATE, LAST_DATE, Kind, Value
from workbook.tables.units import Twin, written

BLANKS = re.compile(r"[\s\u00a0\u2007\u202f\u200b\ufeff]+")
NOT_IN_FILES = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff\ud800-\udfff]")  # no workbook can hold them
DAY_FIRST = re.compile(r"(\d{1,2})[./-](\d{1,2})[./-](\d{4})")
THOUSANDS = re.compile(r"[+-]?\d{1,3}([.,])\d{3}(?:\1\d{3})*")


def plain_text(text: str) -> str:
    """Text as the plain files hold it: one form for each letter, plain line ends, no blanks around."""
    text = unicodedata.normalize("NFC", text.replace("\r\n", "\n").replace("\r", "\n"))
    return NOT_IN_FILES.sub("", text).strip()


def shown(held: Held | None) -> str:  # noqa: PLR0911  one return for each sort
    """What stands in a cell, as text that a person knows again."""
    match held:
        case None:
            return ""
        case bool():
            return "TRUE" if held else "FALSE"
        case int() | float():
            return f"{held:.15g}"
        case datetime.datetime():
            is_day = held.time() == datetime.time()
            return held.date().isoformat() if is_day else held.isoformat(" ", "seconds")
        case datetime.date() | datetime.time():
            return held.isoformat()
        case datetime.timedelta():
            return str(held)
    return plain_text(held)


def as_value(held: Held | None) -> Value | None:
    """What stands in a cell that has no kind: a number, a day or text."""
    if held is None or isinstance(held, bool):
        return None if held is None else shown(held)
    if isinstance(held, int | float):
        # What is no number on any sheet stays as words.
        return float(f"{held:.15g}") if abs(held) < 1e300 else shown(held)
    if isinstance(held, datetime.datetime) and held.time() == datetime.time():
        return held.date()
    if isinstance(held, datetime.date) and not isinstance(held, datetime.datetime):
        return held
    return shown(held) or None


def as_content(held: Held | None, formula: str) -> Value | None:
    """What stands in a cell of a person's own: a formula as its text; other text that begins with = behind a mark."""
    if formula:
        return formula
    return inert(as_value(held))


def is_formula(value: object) -> TypeGuard[str]:
    """Whether a cell of a person's own holds a formula."""
    return isinstance(value, str) and value.startswith("=")


def inert(value: Value | None) -> Value | None:
    """A text that would act as a formula stays text."""
    return f"'{value}" if is_formula(value) else value


def understood(held: Held, kind: Kind, unit: str, twin: Twin | None, epoch: datetime.date) -> Value:
    """The value of a column that a cell stands for, in the base unit; ValueError when it is none."""
    if isinstance(held, str):
        held = plain_text(held)
    match kind.name:
        case "number" | "count":
            return _number(held, kind, twin.unit if twin else unit, twin)
        case "date":
            return kind.parse(_day(held, epoch).isoformat())
        case "choice" if isinstance(held, bool):
            return kind.parse("yes" if held else "no")
    text = shown(held)
    if kind.name in {"key", "link"}:
        text = BLANKS.sub(" ", text)
    return kind.parse(text)


def _number(held: Held, kind: Kind, unit: str, twin: Twin | None) -> Value:
    match held:
        case bool() | datetime.date() | datetime.time() | datetime.timedelta():
            raise ValueError(shown(held))
        case str():
            found = number_in(held, unit)
        case _:
            found = held
    text = f"{found:.15g}"
    if twin and kind.name == "number":
        text = repr(twin.base(float(text)))
        # The rule of a cell in other units ends at rounded limits.
        for limit in (kind.low, kind.high):
            if abs(limit) < 1e300 and abs(float(text) - limit) <= 1e-9 * max(1, abs(limit)):
                text = repr(float(limit))
    return kind.parse(text)


def number_in(text: str, unit: str) -> float:
    """The number that a text stands for, with a decimal point or comma, and its unit behind it or not."""
    text = BLANKS.sub("", text).replace("\u2212", "-").replace("'", "").casefold()
    for end in (written(unit), unit):
        if end and not end[-1].isdigit():
            text = text.removesuffix(BLANKS.sub("", end).casefold())
    share = 1.0
    if text.endswith("%") and unit == "1":
        text, share = text.removesuffix("%"), 100.0
    if "," in text:
        if "." in text:
            thousands = "." if text.rindex(",") > text.rindex(".") else ","
            if not THOUSANDS.fullmatch(text[: max(text.rindex(","), text.rindex("."))]):
                raise ValueError(text)
            text = text.replace(thousands, "")
        elif THOUSANDS.fullmatch(text) and not text.lstrip("+-").startswith("0,"):
            raise ValueError(text)  # 1,234 is a thousand to some and little more than one to others
        text = text.replace(",", ".")
    if not re.fullmatch(r"[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d{1,3})?", text, re.ASCII):
        raise ValueError(text)
    return float(f"{float(text) / share:.15g}")


def _day(held: Held, epoch: datetime.date) -> datetime.date:
    if isinstance(held, datetime.datetime):
        return held.date()
    if isinstance(held, datetime.date):
        return held
    if isinstance(held, str):
        return _day_in(held, epoch)
    if isinstance(held, bool | datetime.time | datetime.timedelta):
        raise ValueError(shown(held))  # noqa: TRY004  a value that is none of this kind, as everywhere
    low, high = (FIRST_DATE - epoch).days, (LAST_DATE - epoch).days
    if not low <= held <= high + 1:
        raise ValueError(shown(held))
    return epoch + datetime.timedelta(days=int(held))


def _day_in(text: str, epoch: datetime.date) -> datetime.date:
    """2026-03-31 with or without a time, 31.3.2026, a day as a number; 3/4/2026 could be two days, so it is none."""
    if re.fullmatch(r"\d{5}([.,]\d+)?", text, re.ASCII):
        return _day(float(text.replace(",", ".")), epoch)
    if found := DAY_FIRST.fullmatch(text):
        first, second, year = (int(part) for part in found.groups())
        if "." in text or first > 12:
            return datetime.date(year, second, first)
        if second > 12 or first == second:
            return datetime.date(year, first, second)
        raise ValueError(text)
    return datetime.datetime.fromisoformat(text).date()
