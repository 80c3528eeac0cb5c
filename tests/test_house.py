"""House rules: sizes, docstrings, numbers in formulas, colours, what stands at the top level, what xlsxwriter must keep."""

import ast
import csv
import html
import re
import subprocess
import zipfile
from pathlib import Path

import pytest

from tests import books
from workbook.build import rows_of, templates_folder
from workbook.editions import EDITIONS, keeper
from workbook.files import look
from workbook.tables.columns import Computed, Flag, Typed
from workbook.tables.formula import NAME, REGISTRY
from workbook.tables.table import Table

ROOT = Path(__file__).parent.parent
MODULES = sorted((ROOT / "workbook").rglob("*.py"))
TABLES = keeper().tables
CLUB_ONLY = tuple(t for t in EDITIONS["club"]().tables if t not in TABLES)
SHOP_ONLY = tuple(t for t in EDITIONS["shop"]().tables if t.key not in {own.key for own in TABLES})
NUMBER = re.compile(r"(?<![\w.$])\d+(?:\.\d+)?(?:E[+-]?\d+)?(?![\w.])")
# What stands in a decision for an equation.
UNIT = re.compile(r"\[[^\[\]]*\]")
# Days of a week; the rest of the numbers a person could doubt are constants.
PLAIN_NUMBERS = {"0", "1", "2", "7"}


@pytest.fixture(scope="module")
def parts() -> dict[str, str]:
    """Every part of the built demo as text."""
    with zipfile.ZipFile(books.book("keeper")) as archive:
        return {name: archive.read(name).decode() for name in archive.namelist()}


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(ROOT)))
def test_module_is_small_and_says_what_it_is_for(path: Path) -> None:
    source = path.read_text(encoding="utf-8")
    tree = ast.parse(source)
    assert len(source.splitlines()) <= 400
    assert ast.get_docstring(tree)
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            body = node.body[1:] if ast.get_docstring(node) else node.body
            length = (body[-1].end_lineno or 0) - body[0].lineno + 1 if body else 0
            assert length <= 60, f"{node.name} is {length} lines long"
        is_public = isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.name.startswith("_")
        if is_public and node in tree.body:
            assert ast.get_docstring(node), f"{node.name} says nothing"


def test_a_sheet_can_be_read_aloud() -> None:
    """Lines that end in sight, and names in templates instead of braces within braces."""
    declared = [path for path in MODULES if path.parent.name in {"sheets", "tables"} and path.name != "template.py"]
    lines = [(path.name, line) for path in declared for line in path.read_text(encoding="utf-8").splitlines()]
    assert [found for found in lines if len(found[1]) > 120] == []
    doubled = [(name, line) for name, line in lines if re.search(r"""\bf(["']).*(\{\{\{|\{\{[a-z])""", line)]
    assert doubled == []


def _rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _formulas() -> list[tuple[str, str]]:
    """Texts of decisions, with x for each name and each equation in them; words in quotes left out."""
    found = []
    for table in (*TABLES, *SHOP_ONLY, *CLUB_ONLY):
        for column in table.columns:
            texts: tuple[str, ...] = ()
            if isinstance(column, Computed):
                texts = tuple(text for text, _ in column.formula.decisions)
            elif isinstance(column, Flag):
                texts = (column.when,)
            bare = (re.sub(r'"[^"]*"', '""', UNIT.sub("x", NAME.sub("x", text))) for text in texts)
            found += [(f"{table.key}.{column.key}", text) for text in bare]
    return found


def test_no_number_in_a_sheet_that_a_person_could_doubt() -> None:
    # Positions of letters and lines of a list are counting, not knowledge: these functions and tables are left out.
    counting = {
        "attention",
        "week",
        "week_days",
        "overlap_bars",
        "chosen_measures",
        "mates",
        "compared",
        "checks",
        "flag_areas",
        "flag_tables",
        "log_drawn",
        "dose_tanks",
        # letters of the lines and bars of printed pages
        "tank_card_flags",
        "tank_card",
        "tank_card_residents",
        "tank_full",
        "tank_nitrate",
        "tank_pairs",
        "tank_shared",
        "care_card_ranges",
        "care_card_company",
        "care_card_caution",
        "cards",
        # levels of seriousness, kinds of things to do, names on a line
        "open_flags",
        "room_figures",
        "room_today",
        # lines of labels, and kinds in a buyer's tank
        *(table.key for table in SHOP_ONLY if table.key.startswith("labels") or table.key == "question_lives"),
    }
    doubtful = {}
    for name, text in _formulas():
        if name.partition(".")[0] in counting:
            continue
        if name in {
            "log.no_sense",
            "hatching.beyond",
            "proposals.beyond",
            "livestock.scaled_length",
        }:  # their limits are the rules of the cells themselves
            continue
        # The limits of a cell, where what lies outside is taken as unknown.
        bare = re.sub(r"AND\(COUNT\(x\)=1,x>=\(?-?[\d.]+\)?,x<=[\d.]+\)", "", text)
        for _ in range(2):  # FIXED is given what ROUND gives
            bare = re.sub(r"(MID|LEFT|ROUND|CHOOSE|SWITCH|FIXED)\((?:[^()]|\([^()]*\))*\)", "", bare)
        bare = bare.replace(",6)", ")")  # digits that rounding keeps
        bare = re.sub(r",\d+,9?999\)", ")", bare)  # the end of joined texts
        bare = re.sub(r"COUNT\([^()]*\)[<=]+\d+", "", bare)
        numbers = {n for n in NUMBER.findall(bare) if n not in PLAIN_NUMBERS and not re.fullmatch(r"10+|1E\+?\d+", n)}
        numbers -= set(re.findall(r"10\^(\d)", bare))
        if numbers:
            doubtful[name] = numbers
    assert doubtful == {}


def test_at_most_three_ifs_within_one_another() -> None:
    deep = {}
    for name, text in _formulas():
        depth = best = 0
        stack: list[bool] = []
        for token in re.findall(r"IF\(|\(|\)", text):
            if token == ")":
                depth -= stack.pop()
            else:
                stack.append(token == "IF(")
                depth += stack[-1]
                best = max(best, depth)
        if best > 3:
            deep[name] = best
    assert deep == {}


def test_every_typed_column_stands_in_the_templates_and_nothing_else() -> None:
    for table, folders in ((t, ("demo", "blank")) for t in TABLES):
        _check_columns(table, folders)
    for table in EDITIONS["shop"]().tables:
        _check_columns(table, ("shop-demo", "shop-blank"))
    for table in EDITIONS["club"]().tables:
        _check_columns(table, ("club-demo", "club-blank"))


def _check_columns(table: Table, folders: tuple[str, ...]) -> None:
    for folder in folders:
        path = templates_folder() / folder / f"{table.key}.csv"
        if path.exists() and not table.form:
            header = path.read_text(encoding="utf-8").splitlines()[0].split(",")
            assert set(header) == {c.header for c in table.typed if not c.kept_in}, path


def test_every_source_key_is_a_reference_and_every_reference_is_used() -> None:
    folder = templates_folder() / "shared"
    known = {row["key"] for row in _rows(folder / "references.csv")}
    used = {key for equation in REGISTRY.values() for key, _ in equation.sources}
    used |= {row["source"] for name in ("constants", "shop_constants") for row in _rows(folder / f"{name}.csv")}
    used |= {row["form_source"] for row in _rows(folder / "body_forms.csv")}
    assert used - known == set()
    assert known - used == set()


def test_inks_can_be_read_on_their_papers() -> None:
    pairs = [*((ink, fill) for fill, ink in look.SERIOUS.values()), (look.BAND_INK, look.BAND), (look.TYPED_INK, look.TYPED_FILL),
             (look.QUIET, look.PAPER), (look.QUIET, look.WORKING_FILL), (look.INK, look.GROUP_FILL), (look.INK, look.GIVEN_FILL),
             (look.BAND, look.PAPER)]  # fmt: skip
    assert [pair for pair in pairs if look.contrast(*pair) < 4.5] == []


def test_formulas_reach_the_file_as_they_are_and_rows_stay_automatic(parts: dict[str, str]) -> None:
    sheets = [text for name, text in parts.items() if name.startswith("xl/worksheets/sheet")]
    assert sum(text.count("<f>") + text.count("<f t=") for text in sheets) > 10_000
    pages = sum(bool(sheet.bands or sheet.above) for sheet in keeper().sheets)
    assert sum("customHeight" in text for text in sheets) == pages, "only printed pages keep the heights of their rows"
    assert not any("_xlfn._xlfn" in text or "_xlws" in text for text in sheets)
    assert any("_xlfn.MAXIFS(" in text for text in sheets)


def test_no_merged_cells_no_macros_no_outside_links(parts: dict[str, str]) -> None:
    assert not any("<mergeCell" in text for text in parts.values())
    assert not any("vba" in name or "externalLink" in name for name in parts)
    assert not any('TargetMode="External"' in text for text in parts.values())


def test_every_chart_has_a_title_an_axis_title_and_alternative_text(parts: dict[str, str]) -> None:
    charts = [text for name, text in parts.items() if name.startswith("xl/charts/chart")]
    assert len(charts) == 11
    assert all(text.count("<c:title>") >= 2 for text in charts)
    drawn = "".join(text for name, text in parts.items() if name.startswith("xl/drawings/drawing"))
    assert len(re.findall(r'<xdr:cNvPr [^>]*descr="[^"]{40,}"', drawn)) == len(charts)


def test_typed_cells_are_unlocked_and_checked(parts: dict[str, str]) -> None:
    checks = sum(text.count("<dataValidation ") for text in parts.values())
    wanted = sum(1 for t in TABLES for c in t.columns if isinstance(c, Typed) and not c.locked)
    assert checks == wanted
    # A keeper's own file is not locked: who types everything in it also sorts, deletes and mends.
    assert not any("<sheetProtection" in text for text in parts.values())


def test_top_level_is_what_it_should_be() -> None:
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False).stdout.split(
        "\n"
    )
    top = {name.split("/")[0] for name in listed if name}
    assert top <= {
        "README.md",
        "DEVELOPERS.md",
        "pyproject.toml",
        "workbook",
        "tests",
        "templates",
        "output",
        ".ci",
        ".gitignore",
        "LICENSE",
    }


@pytest.mark.parametrize(("groups", "wanted"), [(0, 300), (145, 300), (146, 302), (495, 1000), (2000, 1000)])
def test_attention_has_two_lines_for_each_row_of_animals_and_tanks_up_to_a_thousand(groups: int, wanted: int) -> None:
    """Past that each further line would make the whole workbook slower, and nobody works off a list so long."""
    records = {"tanks": [{}] * 5, "livestock": [{}] * groups}
    assert rows_of(EDITIONS["keeper"]().tables, records, 0)["attention"] == wanted


def test_the_tour_shows_the_column_as_it_is(parts: dict[str, str]) -> None:
    """What DEVELOPERS.md quotes of one column stands so in its sheet, in its formula and in the demo."""
    tour = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").partition("## One column's way")[2]
    declared, text, cell = (block.strip("\n") for block in re.findall(r"```\n(.*?)```", tour, re.DOTALL)[:3])
    assert declared in (ROOT / "workbook" / "sheets" / "stocking.py").read_text(encoding="utf-8")
    column = next(table for table in TABLES if table.key == "stocking")["nitrogen_share"]
    assert isinstance(column, Computed)
    assert column.formula.text == text
    written = html.escape(cell.removeprefix("="), quote=False)
    assert any(f">{written}</f>" in part for name, part in parts.items() if name.startswith("xl/worksheets/sheet"))
