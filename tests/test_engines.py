"""The same numbers in every program: what the file carries, LibreOffice, and a library in plain Python.

A file shows its cached values wherever nobody recalculates, so these must be right, and so must the formulas.
"""

import datetime
import gc
import re
import shutil
from collections import defaultdict
from dataclasses import replace
from pathlib import Path

import formulas as plain_python
import numpy as np
import pytest
from openpyxl.utils import coordinate_to_tuple

from tests import books, office, small_room
from tests.effort import examples, thorough
from tests.needed import Lineage, formulas_of, only
from workbook.build import Plan, compiled
from workbook.cells.evaluating import Values, evaluate
from workbook.files.xlsx_writing import About, write

TEMPLATES = Path(__file__).parent.parent / "templates"
# The demo has a typed plan date; the blank one counts from today, in its file and in every program that opens it.
SETS = {"demo": ("demo", "metric"), "blank": ("blank", "metric")} | (
    {"demo in US units": ("demo", "us")} if thorough() else {}
)
OPENED = [*SETS] if thorough() else ["blank"]
POISON = 987654.25
# For an engine that takes a fiftieth of a second for a cell: rows of each column, and what one sheet is reckoned from,
# an answer of numbers and of words.
ROWS, ASKED = examples(1, 3), ("Overlap",)

# As spreadsheets.md lists them: these gave the same result in every program tried.
AGREED = {
    "SUM", "SUMIFS", "COUNTIFS", "COUNTIF", "AVERAGE", "AVERAGEIFS", "_xlfn.MAXIFS", "_xlfn.MINIFS", "MIN", "MAX", "COUNT", "COUNTA", "SUMPRODUCT",
    "INDEX", "MATCH", "VLOOKUP", "LOOKUP", "IF", "IFERROR", "AND", "OR", "ISNUMBER", "ISTEXT", "ISERROR", "ROUND", "ROUNDUP", "CEILING", "MROUND", "INT", "MOD",
    "LN", "LOG10", "EXP", "SQRT", "ACOS", "PI", "POWER", "ABS", "DATE", "YEAR", "MONTH", "DAY", "WEEKDAY", "EDATE", "CHOOSE", "_xlfn.SWITCH", "_xlfn.IFS",
    "RANK", "LARGE", "SMALL", "MEDIAN", "PERCENTILE", "CONCATENATE", "_xlfn.TEXTJOIN", "REPT", "UPPER", "LEN", "LEFT", "MID", "SEARCH", "SUBSTITUTE",
    "EXACT", "ROWS", "CHAR", "FIXED",
}  # fmt: skip
# N is not among them: of a blank cell it is an error in Gnumeric.
# Each with what must hold besides; see the tests below.
WITH_CARE = {
    "TODAY": "once, on Start",
    "ROW": "without an argument, less the row of a head: where a row stands after rows were deleted",
    "COUNTBLANK": "of cells that hold texts, where a formula's empty text counts as blank; not alike in plain Python",
    "_xlfn.ISFORMULA": "what a list watches itself by; where an engine lacks it nothing is told",
    "ROUNDDOWN": "of a ROUND, for programs keep float noise differently",
    "TEXT": 'with "00" only',
    "VALUE": "of a whole number in digits, which is one in every language",
    "TRIM": "not alike in plain Python where blanks stand within the text; agreed in office programs",
    "HYPERLINK": "to a place in the file; unknown in plain Python",
}

QUOTED = re.compile(r'"[^"]*"')
SHEET_NAME = re.compile(r"'[^']+'!")
FUNCTION = re.compile(r"([A-Za-z_.][A-Za-z0-9_.]*)\(")
NAME = re.compile(r"(?<![\w.$!])[a-z][a-z0-9_]+\b(?!\()")
ENDS_AT_ITS_LAST = re.compile(r"INDEX\((\w+),1\):INDEX\(\1,MAX\(1,\w+_names_so_far_?\w*\)\)")
OWN_ROW = re.compile(r"(?<![\w$])(\$?[A-Z]{1,3})([1-9]\d*)\b(?!\()")


def bare(formula: str) -> str:
    """The formula without its words in quotes."""
    return QUOTED.sub('""', formula)


# --- the files ---


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("engines")


@pytest.fixture(scope="module")
def files() -> dict[str, Path]:
    """Each starting set as a file; what a whole library changes is seen in tests/test_languages.py."""
    return {name: books.book("keeper", units, room) for name, (room, units) in SETS.items()}


@pytest.fixture(scope="module")
def poison(folder: Path, files: dict[str, Path]) -> dict[str, Path]:
    """The same files, each formula cell with a wrong number in the place of its value."""
    return {name: office.poisoned(path, folder / "poison" / path.name, POISON) for name, path in files.items()}


@pytest.fixture(scope="module")
def texts(files: dict[str, Path]) -> dict[str, dict[office.At, str]]:
    """Every formula."""
    return {name: office.formulas(path) for name, path in files.items()}


@pytest.fixture(scope="module")
def cached(files: dict[str, Path]) -> dict[str, office.Cells]:
    """Every value as it stands in the file."""
    return {name: office.values(path) for name, path in files.items()}


@pytest.fixture(scope="module")
def as_opened(folder: Path, files: dict[str, Path], poison: dict[str, Path]) -> dict[str, office.Cells]:
    """What a person sees in a LibreOffice as it comes."""
    opened = [files[name] for name in OPENED]
    paths = [*opened, folder / "poison" / "blank poisoned.xlsx"]
    shutil.copy(poison["blank"], paths[-1])
    return dict(
        zip([*OPENED, "blank poisoned"], office.recalculated(paths, folder / "as opened", always=False), strict=True)
    )


@pytest.fixture(scope="module")
def recalculated(folder: Path, poison: dict[str, Path]) -> dict[str, office.Cells]:
    """What LibreOffice reckons from the formulas alone: the files hold nothing but wrong values to take over."""
    return dict(zip(poison, office.recalculated(poison.values(), folder / "recalculated"), strict=True))


# --- LibreOffice ---


@pytest.mark.office
@pytest.mark.parametrize("name", OPENED)
def test_who_only_opens_the_file_sees_its_values(name: str, texts: dict, cached: dict, as_opened: dict) -> None:
    found = office.differences(cached[name], as_opened[name], texts[name])
    assert not found, f"{len(found)} of {len(texts[name])} formula cells differ: {found[:10]}"


@pytest.mark.office
@pytest.mark.parametrize("name", SETS)
def test_who_recalculates_gets_the_same_values(name: str, texts: dict, cached: dict, recalculated: dict) -> None:
    found = office.differences(cached[name], recalculated[name], texts[name])
    assert not found, f"{len(found)} of {len(texts[name])} formula cells differ: {found[:10]}"


@pytest.mark.parametrize("name", SETS)
def test_the_poison_is_in_every_formula_cell(name: str, texts: dict, poison: dict) -> None:
    """Else a program that only repeats what it finds in the file would pass for one that recalculates."""
    assert office.formulas(poison[name]) == texts[name]
    values = office.values(poison[name])
    assert {values.get(at) for at in texts[name]} == {POISON}


@pytest.mark.office
def test_an_office_program_as_it_comes_believes_the_file(texts: dict, cached: dict, as_opened: dict) -> None:
    """Why the values in the file must be right: a wrong one is shown, but for columns of which a cell hangs on TODAY."""
    shown = [as_opened["blank poisoned"].get(at, "") for at in texts["blank"]]
    right = not office.differences(cached["blank"], as_opened["blank poisoned"], texts["blank"])
    assert right or POISON in shown


# --- an engine in plain Python ---


@pytest.fixture(scope="module")
def small(folder: Path) -> tuple[Path, Values]:
    """The small room in trouble, of each list the first rows: its file and the values that IronCalc gave."""
    path, plan = folder / "small.xlsx", Plan(spare_rows=1, plan_date=datetime.date(2026, 4, 15))
    placing, whole = compiled(small_room.short_edition(), small_room.records(folder / "small"), plan)
    pages = [replace(page, runs=[replace(run, rows=min(run.rows, ROWS)) for run in page.runs]) for page in whole]
    if not examples(0, 1):
        lineage = Lineage(pages, placing.names())
        needed = lineage.of([one for page in pages if page.placed.sheet.title in ASKED for one in formulas_of(page)])
        pages = [only(page, needed) for page in pages]
    found = evaluate(pages, placing.names(), plan.plan_date)
    # Where a page ends on paper hangs on rows that are left out here.
    shown = Values()
    for page in whole:
        for row, column in page.places():
            at = (page.placed.sheet.title, row, column)
            shown.put(*at, found.get(at, ""))
    write(path, pages, shown, placing, About("small", {}))
    return path, found


def reckoned_in_plain_python(path: Path) -> office.Cells:
    """Every cell as the library `formulas` reckons it."""
    plain_python.get_functions()["HYPERLINK"] = lambda _place, said: said
    gc.disable()  # it makes so many objects that looking for waste among them takes a third of the time
    try:
        solution = plain_python.ExcelModel().loads(str(path)).finish().calculate()
    finally:
        gc.enable()
    titles = {at[0].upper(): at[0] for at in office.values(path)}
    found: office.Cells = {}
    for name, value in solution.items():
        sheet, _, cell = str(name).rpartition("!")
        title = titles.get(sheet.partition("]")[2].rstrip("'"))
        if title and ":" not in cell and hasattr(value, "value"):
            content = value.value[0, 0]
            if isinstance(content, int | float | np.number):
                content = float(content)
            # A blank is an object of its own there.
            found[title, *coordinate_to_tuple(cell)] = content if isinstance(content, str | float) else ""
    return found


@pytest.mark.thorough  # a third one in every run, and of every cell of that room: tests/test_gnumeric.py
def test_plain_python_reckons_the_same(small: tuple[Path, Values]) -> None:
    """A third engine that shares no code with the other two; no cell has to be left out."""
    path, wanted = small
    found = office.differences(wanted, reckoned_in_plain_python(path), wanted)
    assert not found, f"{len(found)} of {len(wanted)} formula cells differ: {found[:10]}"


# --- what formulas may hold ---


@pytest.mark.parametrize("name", SETS)
def test_only_functions_that_are_alike_everywhere(name: str, texts: dict) -> None:
    used = defaultdict(list)
    for at, text in texts[name].items():
        for function in FUNCTION.findall(bare(text)):
            used[function].append(at)
    assert {function: places[0] for function, places in used.items() if function not in AGREED | WITH_CARE.keys()} == {}
    assert [at[0] for at in used["TODAY"]] == ["Start"]
    patterns = {pattern for text in texts[name].values() for pattern in re.findall(r'TEXT\([^"]+,"([^"]*)"\)', text)}
    assert patterns <= {"00"}


@pytest.mark.parametrize("name", SETS)
def test_no_array_formula_and_no_whole_column(name: str, texts: dict) -> None:
    assert [at for at, text in texts[name].items() if text.startswith("{")][:5] == []
    assert [at for at, text in texts[name].items() if re.search(r"\$?[A-Z]+:\$?[A-Z]+\b(?!\d)", bare(text))][:5] == []


@pytest.mark.parametrize("name", SETS)
def test_no_argument_is_left_empty(name: str, texts: dict) -> None:
    """AND(a,b,) is TRUE in one program and FALSE in the next."""
    assert {at: text for at, text in texts[name].items() if re.search(r"[(,],|,\)", bare(text))} == {}


@pytest.mark.parametrize("name", SETS)
def test_no_error_anywhere(name: str, texts: dict, cached: dict) -> None:
    assert {at: cached[name][at] for at in texts[name] if str(cached[name].get(at, "")).startswith("#")} == {}
    assert [at for at, text in texts[name].items() if "#REF!" in text] == []


@pytest.mark.parametrize("name", SETS)
def test_no_text_that_programs_trim(name: str, texts: dict, cached: dict) -> None:
    """Blanks around a cached text are lost on opening in some programs, so that what is seen depends on recalculation."""
    shown = {at: str(cached[name].get(at, "")) for at in texts[name]}
    assert {at: text for at, text in shown.items() if text != text.strip()} == {}


@pytest.mark.parametrize("name", SETS)
def test_every_name_stands_for_a_range(name: str, files: dict, texts: dict, cached: dict) -> None:
    known, areas = office.names(files[name]), office.areas(files[name])
    used = {word for text in texts[name].values() for word in NAME.findall(SHEET_NAME.sub("", bare(text)))}
    assert used - areas.keys() == set()
    formulas_named = {key: text for key, text in known.items() if key not in areas and not key.startswith("_xlnm")}
    # What dropdowns offer ends at the last name: no program agrees on such a range in a cell, so no formula looks at it.
    assert all(ENDS_AT_ITS_LAST.fullmatch(text) and key.endswith("_dropdown") for key, text in formulas_named.items())
    assert formulas_named
    assert {area[0] for area in areas.values()} <= {at[0] for at in cached[name]}


# A label that tells the limits once the number beside it lies outside: =IF(COUNT(cell)=0,"Longest",...
WATCHED = re.compile(r'=IF\(COUNT\(\$[A-Z]+\$\d+\)=0,"(?:[^"]|"")*",IF\(')


def like_first(row: int, formula: str) -> str:
    """The formula with rows counted from its own, so that all rows of a column read alike."""
    parts = formula.split('"')
    parts[::2] = [OWN_ROW.sub(lambda m: f"{m[1]}[{int(m[2]) - row}]", part) for part in parts[::2]]
    return '"'.join(parts)


@pytest.mark.parametrize("name", SETS)
def test_one_formula_a_column(name: str, files: dict, texts: dict) -> None:
    """In every row the same formula; elsewhere only a start above it, and the ways to other sheets beside a title."""
    # A name over columns side by side stands for nothing that its columns do not, nor one from a head to the row below.
    areas = {key: area for key, area in office.areas(files[name]).items() if not key.endswith("_listed")}
    columns = {key: area for key, area in areas.items() if area[2] == area[4]}
    for key, area in columns.items():
        found = {like_first(at[1], texts[name].get(at, "typed")) for at in office.cells_of(area)}
        assert len(found) == 1, f"{key} holds {len(found)} formulas: {sorted(found)[:3]}"
    named = {at for area in columns.values() for at in office.cells_of(area)}
    starts = {(sheet, top - 1, left) for sheet, top, left, *_ in columns.values()}
    ways = {at for at, text in texts[name].items() if at[1] == 1 and text.startswith("=HYPERLINK(")}
    watched = {at for at, text in texts[name].items() if WATCHED.match(text)}  # labels beside numbers of a form
    assert texts[name].keys() - named - starts - ways - watched == set()
