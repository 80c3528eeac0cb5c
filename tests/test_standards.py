"""Every edition measured against modelling standards, in the file as people get it.

The list: FAST Standard, the ICAEW's twenty principles for good spreadsheet practice and EuSpRIG's advice, all from
memory: inputs apart from calculations, one formula a column, no unexplained number in a formula, units in headers,
nothing merged in tables, one volatile function, few nested IFs, legible contrast, words for pictures, nothing hidden,
a guide on the first sheet, one overall light of the self-test. The table is printed: python -m pytest -s tests/test_standards.py
"""

import functools
import re
import zipfile
from collections import defaultdict
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from openpyxl.utils import range_boundaries

from tests import books
from tests.effort import also
from workbook.editions import EDITIONS

CELL = re.compile(r"(?<![\w.])(\$?)([A-Z]{1,3})(\$?)(\d+)(?![\w(])")
QUOTED = re.compile(r'"[^"]*"')
SHEET_NAME = re.compile(r"'[^']*'!")
NUMBER = re.compile(r"(?<![\w.$])\d+(?:\.\d+)?(?:[Ee][+-]?\d+)?(?![\w.(!])")
# What a typed cell takes at the least and at the most, as its own check says: test_typed_cells states each.
ENDS = re.compile(r"MEDIAN\([^()]*\)")
VOLATILE = re.compile(r"\b(NOW|RAND|RANDBETWEEN|OFFSET|INDIRECT|CELL|INFO|TODAY)\(")
# Counting (letters of a name up to the 21st too), days of a week, ends of texts, decimals of rounding; powers of ten are told apart below.
COUNTING = {float(n) for n in range(13)} | {21.0} | {999.0, 9999.0}
# Exact by definition: international inch and foot, US gallon of 231 cubic inches, avoirdupois pound and ounce.
CONVERSIONS = {
    1 / 2.54,
    1 / 2.54**2,
    1 / 3.785411784,
    1 / 0.3048,
    1 / 0.45359237,
    0.3048**2 / 0.45359237,
    1.8,
    32.0,
    1 / 28.349523125,
}
# Where, and why a number of its own is right there.
ARGUED = {("Log workings", "45"): "the limits of the cells' own rules, for what was pasted past them",
          **dict.fromkeys((("Care card", "121"), ("Tank", "141")), "letters of a printed line, and one"),
          **dict.fromkeys((*((sheet, n) for sheet in ("Stocking", "Plan in detail", "For a buyer") for n in ("430", "6000")), ("Water changes", "45")), "the same of altitude and temperature"),
          **dict.fromkeys((("Compatibility", str(n)) for n in range(31)), "which column of the grid it is"),
          **dict.fromkeys((("Proposals workings", n) for n in ("60", "150", "20000")), "the limits of the cells' own rules, for what was pasted past them")}  # fmt: skip


# Units by turns: what tells a US file from a metric one is the same in every edition. A shop has a keeper's tanks,
# waters and species as well.
KINDS = [("keeper", "metric"), ("shop", "us"), ("club", "metric")]


@dataclass
class Measured:
    """One built file, and what was counted in it."""

    path: Path
    book: Any
    parts: dict[str, bytes]
    rows: list[tuple[str, int, list[str]]] = field(default_factory=list)

    def measure(self, what: str, looked_at: int, wrong: list[str]) -> None:
        self.rows.append((what, looked_at, wrong))


def formula_cells(book: Any) -> list[tuple[Any, Any]]:
    return [
        (sheet, cell)
        for sheet in book
        for row in sheet.iter_rows()
        for cell in row
        if isinstance(cell.value, str) and cell.value.startswith("=")
    ]


@functools.cache
def relative(text: str, row: int) -> str:
    """The formula with rows told from its own: the same for each row of a column."""
    parts = re.split(r'("[^"]*")', text)
    parts[::2] = [CELL.sub(lambda m: m[0] if m[3] else f"{m[1]}{m[2]}[{int(m[4]) - row}]", part) for part in parts[::2]]
    return "".join(parts)


def areas(book: Any) -> dict[str, tuple[str, int, int, int, int]]:
    """Sheet, top, left, bottom and right of each defined name."""
    found = {}
    for name, defined in book.defined_names.items():
        for sheet, reference in defined.destinations:
            left, top, right, bottom = range_boundaries(reference.replace("$", ""))
            found[name] = (sheet, top, left, bottom, right)
    return found


def depth(text: str) -> int:
    """IFs within one another; the guard that keeps a row blank is the first."""
    deepest, stack = 0, []
    for token in re.findall(r"[A-Za-z_.]*\(|\)", QUOTED.sub("", text)):
        if token == ")":
            stack.pop()
        else:
            stack.append(token == "IF(")
            deepest = max(deepest, sum(stack))
    return deepest


def light(colour: Any) -> float | None:
    """Relative luminance of WCAG 2.1."""
    if colour is None or colour.type != "rgb":
        return None
    parts = [int(colour.rgb[i : i + 2], 16) / 255 for i in (2, 4, 6)]
    linear = [x / 12.92 if x <= 0.04045 else ((x + 0.055) / 1.055) ** 2.4 for x in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


class Looks(dict[int, tuple[bool, str]]):
    """Whether a cell is locked and the colour it is filled with; looked up once for each style."""

    def of(self, cell: Any) -> tuple[bool, str]:
        if cell.style_id not in self:
            filled = cell.has_style and cell.fill.fill_type == "solid"
            self[cell.style_id] = cell.protection.locked, str(cell.fill.fgColor.rgb) if filled else ""
        return self[cell.style_id]


def inputs_apart(found: Measured, formulas: list[tuple[Any, Any]]) -> None:
    looks = Looks()
    wrong = [f"{sheet.title}!{cell.coordinate}" for sheet, cell in formulas if not looks.of(cell)[0]]
    found.measure("every formula is locked", len(formulas), wrong)
    fills: dict[bool, set[str]] = {True: set(), False: set()}
    opened = 0
    for sheet in found.book:
        for row in sheet.iter_rows():
            for cell in row:
                locked, colour = looks.of(cell)
                if colour:
                    fills[locked].add(colour)
                opened += not locked
    # Told by the file alone: what is open has a fill of its own, the same everywhere, and nothing locked looks like it.
    odd = fills[False] & fills[True] | (fills[False] if len(fills[False]) != 1 else set())
    found.measure("typed cells are open and look like it, all others neither", opened, sorted(odd))
    # Rows of lists are sorted and deleted; what is typed over a formula is told on Attention. Slips in what a club
    # hands out are caught by protection, which has no password.
    kept = [sheet.title for sheet in found.book if sheet.protection.password]
    found.measure("no password on any sheet", len(found.book.worksheets), kept)


def one_formula_a_column(found: Measured) -> None:
    wrong, looked_at, sheets = [], 0, {sheet.title: sheet for sheet in found.book}
    for name, (sheet, top, left, bottom, right) in areas(found.book).items():
        if left != right or top == bottom or sheet not in sheets:
            continue
        cells = ((str(sheets[sheet].cell(row, left).value or ""), row) for row in range(top, bottom + 1))
        texts = {relative(text, row) for text, row in cells if text.startswith("=")}
        looked_at += 1
        if len(texts) > 1:
            wrong.append(f"{name}: {len(texts)} formulas")
    found.measure("one formula a column", looked_at, wrong)


def no_unexplained_number(found: Measured, formulas: list[tuple[Any, Any]]) -> None:
    """A number stands in the equations printed on Sources, in the unit conversions, or only counts."""
    sources = " ".join(str(c.value) for row in found.book["Sources"].iter_rows() for c in row if c.value is not None)
    printed = CONVERSIONS | {float(n) for n in re.findall(r"\d+(?:\.\d+)?(?:[Ee][+-]?\d+)?", sources)}
    wrong: dict[str, set[str]] = defaultdict(set)
    looked_at: set[str] = set()
    for sheet, cell in formulas:
        text = relative(cell.value, cell.row)
        if text in looked_at:
            continue
        looked_at.add(text)
        bare = SHEET_NAME.sub("", QUOTED.sub('""', cell.value))
        bare = ENDS.sub("", bare)
        for number in NUMBER.findall(CELL.sub("", bare)):
            value = float(number)
            known = value in printed or any(abs(value - other) <= 1e-9 * other for other in printed)
            if not (
                known
                or (sheet.title, number) in ARGUED
                or value in COUNTING
                or re.fullmatch(r"10*|1[Ee]\+?\d+", number)
            ):
                wrong[number].add(f"{sheet.title}!{cell.coordinate}")
    told = [f"{number} in {min(places)} ({len(places)})" for number, places in sorted(wrong.items())]
    found.measure("no unexplained number in a formula", len(looked_at), told)


def units_in_headers(found: Measured) -> None:
    """A name that ends in a unit belongs to a column under a header that shows one."""
    wrong, looked_at = [], 0
    for name, (sheet, top, left, bottom, right) in areas(found.book).items():
        if not re.search(r"_(cm|degc|mg_per_l|kg|degh|mg_per_h|cm2|g_per_day|gal|degf)$", name) or top == bottom:
            continue
        looked_at += 1
        # On Plan one head stands over what is now, one or two columns wide, and beside it what would be then.
        heads = range(left - 2, left + 1) if name.startswith("plan_") and "_then_" in name else (left,)
        if left == right and not any(found.book[sheet].cell(top - 1, column).value for column in heads):
            wrong.append(name)
    found.measure("units in headers", looked_at, wrong)


def plain_grid(found: Measured) -> None:
    sheets = found.book.worksheets
    found.measure("no merged cells", len(sheets), [s.title for s in sheets if s.merged_cells.ranges])
    hidden = [s.title for s in sheets if s.sheet_state != "visible"]
    # What is folded away opens with one click on its sign in the margin.
    columns = ((s.title, c, d) for s in sheets for c, d in s.column_dimensions.items())
    hidden += [f"{title}: column {c}" for title, c, d in columns if d.hidden and not d.outlineLevel]
    hidden += [f"{s.title}: row {r}" for s in sheets for r, d in s.row_dimensions.items() if d.hidden]
    found.measure("nothing hidden", len(sheets), hidden)


def short_formulas(found: Measured, formulas: list[tuple[Any, Any]]) -> None:
    texts = {relative(cell.value, cell.row): f"{sheet.title}!{cell.coordinate}" for sheet, cell in formulas}
    deep = [f"{place}: {depth(text)}" for text, place in texts.items() if depth(text) > 3]
    found.measure("at most two IFs within one another inside the guard for blanks", len(texts), deep)
    volatile = {f"{s.title}!{c.coordinate}" for s, c in formulas if VOLATILE.search(QUOTED.sub("", c.value))}
    found.measure("one volatile cell: the plan date", len(formulas), sorted(volatile) if len(volatile) != 1 else [])


def legible(found: Measured) -> None:
    styles = {}
    for sheet in found.book:
        for row in sheet.iter_rows():
            for cell in row:
                if cell.value is not None:
                    styles.setdefault(cell.style_id, (sheet, cell))
    wrong = []
    for sheet, cell in styles.values():
        ink = light(cell.font.color)
        paper = light(cell.fill.fgColor) if cell.fill.fill_type == "solid" else 1.0
        if ink is None or paper is None:
            continue
        contrast = (max(ink, paper) + 0.05) / (min(ink, paper) + 0.05)
        if contrast < 4.5:
            wrong.append(f"{sheet.title}!{cell.coordinate}: {contrast:.1f}")
    found.measure("contrast of at least 4.5 to 1", len(styles), wrong)


def pictures_in_words(found: Measured) -> None:
    drawings = [part.decode() for name, part in found.parts.items() if re.match(r"xl/drawings/drawing\d+\.xml", name)]
    frames = [frame for part in drawings for frame in re.findall(r"<xdr:cNvPr [^>]*>", part)]
    silent = [frame for frame in frames if not re.search(r'descr="[^"]{20,}"', frame)]
    found.measure("every chart has words for those who do not see it", len(frames), silent)


def guide_and_light(found: Measured) -> None:
    first = found.book.worksheets[0]
    words = [str(cell.value) for row in first.iter_rows(max_row=12) for cell in row if cell.value]
    found.measure("a guide on the first sheet", len(words), [] if len(words) >= 8 else ["too short"])
    lit = [name for name in areas(found.book) if name.startswith("check_summary")]
    found.measure("self-test with one overall light", len(lit), [] if lit else ["none"])


def test_every_edition_is_measured() -> None:
    assert {edition for edition, _ in KINDS} == EDITIONS.keys()


@pytest.mark.parametrize(
    ("edition", "units"), [("shop", "us"), *also(*(kind for kind in KINDS if kind != ("shop", "us")))]
)
def test_edition_keeps_to_the_standards(edition: str, units: str) -> None:
    path = books.book(edition, units)
    with zipfile.ZipFile(path) as archive:
        parts = {name: archive.read(name) for name in archive.namelist() if name.startswith("xl/drawings/")}
    found = Measured(path, openpyxl.load_workbook(path), parts)
    formulas = formula_cells(found.book)
    inputs_apart(found, formulas)
    one_formula_a_column(found)
    no_unexplained_number(found, formulas)
    units_in_headers(found)
    plain_grid(found)
    short_formulas(found, formulas)
    legible(found)
    pictures_in_words(found)
    guide_and_light(found)
    print(f"\n{edition}, {units}, {len(found.book.sheetnames)} sheets")
    for what, looked_at, wrong in found.rows:
        print(f"  {'held' if not wrong else 'BROKEN':6} {what} ({looked_at} looked at)")
    broken = {what: wrong[:12] for what, _, wrong in found.rows if wrong}
    assert not broken, "\n".join(f"{what}: {wrong}" for what, wrong in broken.items())
