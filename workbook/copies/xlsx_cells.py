"""The cells of an .xlsx file: each part of a sheet is scanned and read in one pass, by the parser's own calls."""

import datetime
import functools
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from workbook.copies.grids import At, Grid, Held, column_number, held, is_constant
from workbook.copies.plain_bytes import Passed, PlainScan, plain
from workbook.copies.sharing import Shared
from workbook.copies.untrusted import LAST_COLUMN, LAST_ROW, Act, Opened, Scan

CODED = re.compile(r"_x([0-9A-Fa-f]{4})_")
DAYS = re.compile(r'"[^"]*"|\\.|_.|\*.|\[(?!(?:h+|m+|s+)\])[^\]]*\]', re.IGNORECASE)
# Numbers of formats that come with the format itself; from 27 on days of Chinese, Japanese and Korean.
BUILT_IN_DAYS = {*range(14, 23), *range(27, 37), *range(45, 48), *range(50, 59)}
BUILT_IN_SPANS = {46}
# Cells as all programs write them: nothing in them, a value, or a formula and perhaps its value.
HEAD = rb'<c r="(?:[A-Z]{1,2}|[A-W][A-Z]{2})%s"(?: s="[0-9]+")?(?: t="[a-z]+")?'
# But the first of a shared formula, and yes and no as some programs have them.
BODY = (
    rb"(?:/>|>(?:<f(?: (?:t|si|aca|ca)=\"[^\"<>&]*\")*+(?:/>|>(?!(?:TRUE|FALSE)\(\)<)[^<]*+</f>))?+"
    rb"(?:<v>[^<]*+</v>|<v/>)?+</c>)"
)
RUN = re.compile(HEAD % rb"([1-9][0-9]{0,5})" + BODY + rb"(?:" + HEAD % rb"\1" + BODY + rb")*+")
PARTS = rb'<c r="([A-Z]+)[0-9]+"(?: s="([0-9]+)")?(?: t="([a-z]+)")?>'
TYPED = re.compile(PARTS + rb"<v>([^<]+)</v>")
RECKONED = re.compile(PARTS + rb"<f([^>]*)>(?:([^<]*)</f>)?(?:<v>([^<]*)</v>)?")
RECKONED_AT = re.compile(rb'<c r="([A-Z]+)[^>]*><f')
SHARED = re.compile(rb' t="shared".* si="([0-9]+)"| si="([0-9]+)".* t="shared"')


def decoded(text: str) -> str:
    """Text without the marks for letters that XML can't hold."""
    return CODED.sub(lambda m: chr(int(m[1], 16)), text) if "_x" in text else text


class Texts(Scan):
    """The shared texts, in order."""

    def __init__(self, made: Opened, part: str) -> None:
        super().__init__(made, part)
        self.found: list[str] = []
        self.pieces: list[str] = []
        self.is_text = self.is_sound = False

    def _rules(self) -> dict[str, Act]:
        return super()._rules() | {"t": self._piece, "rPh": self._sound, "si": self._text}

    def _closing(self) -> dict[str, Callable[[], None]]:
        return {"t": self._piece_done, "rPh": self._sound_done, "si": self._text_done}

    def _characters(self, content: str) -> None:
        super()._characters(content)
        if self.is_text:
            self.pieces.append(content)

    def _piece(self, _: dict[str, str]) -> None:
        self.is_text = not self.is_sound

    def _piece_done(self) -> None:
        self.is_text = False

    def _sound(self, _: dict[str, str]) -> None:
        """Phonetic guides are said, not written."""
        self.is_sound = True

    def _sound_done(self) -> None:
        self.is_sound = False

    def _text_done(self) -> None:
        self.found.append(decoded("".join(self.pieces)))
        self.pieces.clear()


@dataclass(frozen=True)
class Meaning:
    """What values in cells stand for: the shared texts, the numbers of styles that show days or spans of time, and day 0."""

    texts: Sequence[str] = ()
    days: frozenset[str] = frozenset()
    spans: frozenset[str] = frozenset()
    epoch: datetime.date = datetime.date(1899, 12, 30)

    def value(self, kind: str, style: str, text: str) -> Held | None:  # noqa: PLR0911  one return for each sort
        """What a cell of this kind and style holds."""
        match kind:
            case "s":
                return self.texts[int(text)] or None if text else None
            case "str" | "inlineStr" | "e":
                return decoded(text) or None
        text = text.strip()
        if not text:
            return None
        if kind == "b":
            return text in {"1", "true"}
        if kind == "d":
            return datetime.datetime.fromisoformat(text).replace(tzinfo=None)
        number = int(text) if text.removeprefix("-").isdecimal() else float(text)
        if style in self.days:
            try:
                return _moment(number, self.epoch, is_span=style in self.spans)
            except (OverflowError, ValueError):
                return number
        return number


def _moment(number: float, epoch: datetime.date, *, is_span: bool) -> Held:
    """A number as the day, the time of day or the span of time that it is shown as."""
    if is_span:
        return datetime.timedelta(
            milliseconds=round(datetime.timedelta(days=number) / datetime.timedelta(milliseconds=1))
        )
    day, share = divmod(number, 1)
    time = datetime.timedelta(milliseconds=round(share * 86_400_000))
    if 0 <= number < 1 and not time.days:
        return (datetime.datetime.combine(epoch, datetime.time()) + time).time()
    if 0 < number < 60 and epoch.year == 1899:
        day += 1  # the format has a 29 February 1900
    return datetime.datetime.combine(epoch, datetime.time()) + datetime.timedelta(days=day) + time


def shows_days(code: str) -> bool:
    """Whether a format of numbers shows a day or a time."""
    return re.search("[dmhys]", DAYS.sub("", code.partition(";")[0]), re.IGNORECASE) is not None


def shows_spans(code: str) -> bool:
    """Whether a format of numbers counts hours, minutes or seconds on and on."""
    return re.search(r"\[(?:h+|m+|s+)\]", code.partition(";")[0], re.IGNORECASE) is not None


class Cells(PlainScan):
    """The cells of one sheet, put into its grid; of formulas in rows that are passed only that they are there."""

    run_pattern, cell_begins = RUN, b"<c "

    def __init__(self, made: Opened, part: str, grid: Grid, meaning: Meaning, passing: Mapping[int, range]) -> None:
        super().__init__(made, part)
        self.grid, self.meaning, self.passed = grid, meaning, Passed(passing)
        self.first: dict[str, tuple[At, str]] = {}
        self.shared: list[tuple[At, Held | None, str]] = []
        # Of the cell that the parser tells of, if any.
        self.kind = self.style = self.key = self.value = ""
        self.formula: str | None = None
        self.is_cell = self.is_sound = False
        self.text: list[str] | None = None
        self.pieces: list[str] = []

    # --- cells that the parser tells of ---

    def _rules(self) -> dict[str, Act]:
        rules = {"row": self._row, "c": self._cell, "f": self._formula, "v": self._value, "is": self._inline}
        return super()._rules() | rules | {"t": self._piece, "rPh": self._sound, "mergeCell": self._merge}

    def _closing(self) -> dict[str, Callable[[], None]]:
        ends = {"c": self._cell_done, "f": self._formula_done, "v": self._value_done}
        return ends | {"t": self._piece_done, "rPh": self._sound_done}

    def _characters(self, content: str) -> None:
        super()._characters(content)
        if self.text is not None:
            self.text.append(content)

    def _cell(self, attrs: dict[str, str]) -> None:
        super()._cell(attrs)
        self.kind, self.style, self.key, self.value = attrs.get("t", "n"), attrs.get("s", "0"), "", ""
        self.is_cell, self.formula, self.text, self.pieces = True, None, None, []

    def _formula(self, attrs: dict[str, str]) -> None:
        if self.is_cell:  # formulas also stand in rules for colours and dropdowns
            super()._formula(attrs)
            self.key = attrs.get("si", "") if attrs.get("t") == "shared" else ""
            self.text = []

    def _formula_done(self) -> None:
        if self.is_cell and self.text is not None:
            self.formula, self.text = "".join(self.text), None

    def _value(self, attrs: dict[str, str]) -> None:
        if self.is_cell:
            super()._value(attrs)
            self.text = []

    def _value_done(self) -> None:
        if self.is_cell and self.text is not None:
            self.value, self.text = "".join(self.text), None

    def _inline(self, attrs: dict[str, str]) -> None:
        super()._value(attrs)

    def _piece(self, _: dict[str, str]) -> None:
        if self.is_cell and not self.is_sound:
            self.text = self.pieces

    def _piece_done(self) -> None:
        self.text = None

    def _sound(self, _: dict[str, str]) -> None:
        self.is_sound = True

    def _sound_done(self) -> None:
        self.is_sound = False

    def _cell_done(self) -> None:
        self.is_cell, self.text = False, None
        if self.cell is None:
            return
        if self.kind == "inlineStr":
            self.value = "".join(self.pieces)
        if self.formula is None:
            self._hold(self.cell, self.meaning.value(self.kind, self.style, self.value), "")
        else:
            self._hold_formula(self.cell, (self.kind, self.style, self.value), self.formula, self.key)

    # --- what becomes of a cell ---

    def _hold(self, place: At, value: Held | None, formula: str) -> None:
        if value is not None or formula:
            self.grid.cells[place] = held(value, formula)

    def _hold_formula(self, place: At, value: tuple[str, str, str], formula: str, key: str) -> None:
        if key and formula:
            self.first[key] = (place, formula)
        if place in self.passed and not is_constant("=" + formula):
            self.grid.passed[0].add(place[0])
            self.grid.passed[1].add(place[1])
        elif key and not formula:
            self.shared.append((place, self.meaning.value(*value), key))
        else:
            self._hold(place, self.meaning.value(*value), "=" + formula)

    # --- cells that are written as all programs write them ---

    def run(self, data: bytes, found: re.Match[bytes]) -> None:
        """Cells of one row."""
        row = int(found[1])
        typed, reckoned = TYPED.findall(data) if b'"><v>' in data else [], RECKONED_AT.findall(data)
        cells = data.count(b"<c ")
        self.count(elements=cells + len(typed) + 2 * len(reckoned), cells=len(typed) + len(reckoned))
        for at, style, kind, value in typed:
            place = self._here(row, at)
            self._hold(place, self.meaning.value(kind.decode() or "n", style.decode() or "0", plain(value)), "")
        passed = self.passed.columns(row)
        if not passed.issuperset(reckoned):
            for at, style, kind, attrs, formula, value in RECKONED.findall(data):
                shared = SHARED.search(attrs) if attrs else None
                key = (shared[1] or shared[2]).decode() if shared else ""
                told = (kind.decode() or "n", style.decode() or "0", plain(value))
                self._hold_formula(self._here(row, at), told, plain(formula), key)
        elif reckoned:
            self.grid.passed[0].add(row)
            self.grid.passed[1].update(map(_column, reckoned))
        self.row, self.column = row, _column(data[6 : data.index(b'"', 6)].rstrip(b"0123456789")) + cells - 1

    def _here(self, row: int, at: bytes) -> At:
        place = row, _column(at)
        if row > LAST_ROW or place[1] > LAST_COLUMN:
            self.far(place)
        return place

    def end(self) -> None:
        """The last bytes; then shared formulas are known in full."""
        super().end()
        cut: dict[str, Shared] = {}
        for place, value, key in self.shared:
            origin, text = self.first.get(key, (place, ""))
            if key not in cut:
                cut[key] = self.grid.shared[origin] = Shared(text, origin)
            self.grid.shared[place] = cut[key]
            self._hold(place, value, "=" + cut[key].at(place))


@functools.cache
def _column(at: bytes) -> int:
    return column_number(at.decode())
