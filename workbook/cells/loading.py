"""Formulas as the engine takes them at once: a file in which each column's formula stands a single time.

Given cell by cell it would read every formula anew, which took longer than all the rest of a build.
"""

import io
import re
import tempfile
import zipfile
from collections.abc import Callable, Iterable
from itertools import pairwise
from pathlib import Path
from xml.sax.saxutils import escape

import ironcalc

from workbook.cells.pages import Page, Run
from workbook.cells.placing import letters

SHEET = "xl/worksheets/sheet{}.xml"
CELLS = b"<sheetData></sheetData>"
# From a file the engine takes fifteen digits of a number in a formula; a formula with more goes in cell by cell.
LONG_NUMBER = re.compile(r"[\d.]{16,}")
# A formula cell without a value makes the engine print a complaint.
VALUE = "<v>0</v></c>"


def loaded(pages: Iterable[Page], wording: Callable[[str], str]) -> ironcalc.Model:
    """A model with a sheet for each page and its columns of formulas, in the wording that the engine is to see."""
    pages = list(pages)
    empty = _empty([page.placed.sheet.title for page in pages])
    with tempfile.TemporaryDirectory(prefix="shoalbook-") as folder:
        path = Path(folder) / "formulas.xlsx"
        with zipfile.ZipFile(io.BytesIO(empty)) as blank, zipfile.ZipFile(path, "w") as full:
            sheets = {SHEET.format(i): page for i, page in enumerate(pages, 1)}
            for name in (n for n in blank.namelist() if not n.endswith("/")):
                content = blank.read(name)
                if name in sheets:
                    before, cells, after = content.partition(CELLS)
                    if not cells:
                        raise RuntimeError(f"{name}: the engine writes an empty sheet in another way than it did")
                    data = f"<sheetData>{_rows(sheets[name].runs, wording)}</sheetData>"
                    content = before + data.encode() + after
                full.writestr(name, content)
        model = ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
    for i, page in enumerate(pages):
        for run in page.runs:
            if LONG_NUMBER.search(run.template):
                for row, text in run.texts(wording(run.template)):
                    model.update_cell_with_formula(i, row, run.column, text)
    return model


def _empty(titles: list[str]) -> bytes:
    """A file of the engine's own with these sheets and nothing on them."""
    model = ironcalc.create("plan", "en", "UTC", "en")
    model.rename_sheet(0, titles[0])
    for title in titles[1:]:
        model.add_sheet(title)
    found: bytes = model.to_xlsx()
    return found


def _rows(runs: Iterable[Run], wording: Callable[[str], str]) -> str:
    """The rows of a sheet: each run's formula in its first cell, and a mark that stands for it in the others."""
    areas: dict[tuple[int, int], list[tuple[int, Run]]] = {}
    for mark, run in enumerate(r for r in runs if r.rows and not LONG_NUMBER.search(r.template)):
        areas.setdefault((run.first_row, run.first_row + run.rows - 1), []).append((mark, run))
    rows: dict[int, list[str]] = {}
    for (first, last), alike in areas.items():
        rows.setdefault(first, []).extend(_first(mark, run, last, wording) for mark, run in alike)
        # The cells of all rows but the first differ in nothing but the number of the row.
        cells = [(f'<c r="{letters(run.column)}', f'"><f t="shared" si="{mark}"/>{VALUE}') for mark, run in alike]
        parts = [
            cells[0][0],
            *(end + start for (_, end), (start, _) in pairwise(cells)),
            cells[-1][1],
        ]
        for row in range(first + 1, last + 1):
            rows.setdefault(row, []).append(str(row).join(parts))
    return "".join(f'<row r="{row}">{"".join(cells)}</row>' for row, cells in sorted(rows.items()))


def _first(mark: int, run: Run, last: int, wording: Callable[[str], str]) -> str:
    at = letters(run.column)
    _, text = next(run.texts(wording(run.template)))
    area = f"{at}{run.first_row}:{at}{last}"
    return (
        f'<c r="{at}{run.first_row}"><f t="shared" ref="{area}" si="{mark}">{escape(text.removeprefix("="))}</f>{VALUE}'
    )
