"""What printed pages share: values in words, texts broken into lines, lists that end in how many more, bars of letters."""

import math
import re
from collections.abc import Callable, Sequence
from typing import Any

import pandas as pd

from tests.oracles.tools import Oracle, Room, rounded, said

LONGEST = 120  # letters on a line
LETTERS, MARGIN, END = 24, 3, 8  # of a bar


def tell(value: Any, places: int = 0, unit: str = "") -> str:
    """A value with its unit, or that it is unknown."""
    if value is None or value is pd.NaT or value == "" or value != value:
        return "unknown"
    if isinstance(value, pd.Timestamp):
        return value.strftime("%Y-%m-%d")
    number = said(float(value), places)
    return f"{number} {unit}" if unit else number


def word(value: str) -> str:
    return value or "unknown"


def texts(values: Sequence[str]) -> pd.Series:
    return pd.Series(list(values), dtype=object)


def one(value: float) -> pd.Series:
    return pd.Series([value], dtype=float)


# --- texts broken into lines ---


def _lines(text: str, longest: int) -> list[str]:
    """As many words on each line as there is room for; a longer word is cut."""
    text, found = re.sub(" +", " ", text.strip(" ")), []
    while len(text) > longest:
        at = text.rfind(" ", 0, longest + 1)
        found.append(text[: at if at >= 0 else longest])
        text = text[len(found[-1]) :].lstrip(" ")
    return [*found, text]


def _broken(whole: list[str], lines: int, longest: int) -> pd.DataFrame:
    rows: list[dict[str, Any]] = []
    for number, text in enumerate(whole):
        pieces = _lines(text, longest)
        for i, piece in enumerate(pieces):
            # Words are parted by one space, but a word that was cut goes on without one.
            rest, tail = "", re.sub(" +", " ", text.strip(" "))
            for done in pieces[: i + 1]:
                rest = tail[len(done) :].lstrip(" ")
                tail, before = rest, tail
            rows.append(
                {
                    "shown": piece,
                    "text": before,
                    "cut": float(len(piece)),
                    "rest": rest,
                    "left": "¦".join(whole[number + 1 :]),
                }
            )
    more = len(rows) > lines
    rows = [
        dict(row) for row in (rows + [{"shown": "", "text": "", "cut": 0.0, "rest": "", "left": ""}] * lines)[:lines]
    ]
    for row in rows:
        # A mark stands for each space: programs cut off spaces at the end of a cell.
        row["head"] = f"{row['text']} "[: longest + 1].replace(" ", "¦")
        row["spaces"] = float(row["head"].count("¦"))
    if more:
        rows[-1] = rows[-1] | {"shown": rows[-1]["shown"] + " …"}
    return pd.DataFrame(rows)


def broken(whole: Callable[[Room], list[str]], lines: int, longest: int = LONGEST) -> tuple[Oracle, ...]:
    """Columns shown, text, cut, rest, left, head and spaces of texts that are broken into lines."""

    def column(key: str) -> Oracle:
        return lambda room: _broken(whole(room), lines, longest)[key]

    return tuple(column(key) for key in ("shown", "text", "cut", "rest", "left", "head", "spaces"))


# --- lists ---


def listed(rows: Sequence[int], lines: int) -> list[int | None]:
    """The row on each line; the last line is kept for how many more there are."""
    shown = list(rows)[: lines - 1]
    return [*shown, *[None] * (lines - len(shown))]


def numbers(rows: Sequence[int | None]) -> pd.Series:
    return pd.Series([math.nan if row is None else row + 1.0 for row in rows], dtype=float)


def names(rows: Sequence[int], lines: int, name: Callable[[int], str], what: str) -> pd.Series:
    found = ["" if row is None else name(row) for row in listed(rows, lines)]
    if len(rows) > lines - 1:
        found[-1] = f"and {len(rows) - lines + 1} more {what}"
    return texts(found)


# --- bars ---


def letter(value: float, start: float, end: float, letters: int = LETTERS, margin: int = MARGIN) -> float:
    """Which letter of the bar a value lies at, counted from 1."""
    if any(math.isnan(x) for x in (value, start, end)):
        return math.nan
    if end <= start:
        return margin
    return rounded(round((value - start) * (letters - 2 * margin) / (end - start) + margin, 6))


def bar(low: float, high: float, start: float, end: float, letters: int = LETTERS, margin: int = MARGIN) -> str:
    """Dots, and the letters from low to high shaded."""
    if any(math.isnan(x) for x in (low, high, start, end)):
        return ""
    first, last = (letter(value, start, end, letters, margin) for value in (low, high))
    return "".join("▒" if low <= high and first <= at <= last else "·" for at in range(1, letters + 1))


def with_ends(drawn: str, start: str, end: str) -> str:
    """A bar between the ends of its scale; the first of them fills up its room with spaces that stay."""
    return f"{start.ljust(END, chr(160))}\u00a0{drawn}\u00a0{end}" if drawn else ""
