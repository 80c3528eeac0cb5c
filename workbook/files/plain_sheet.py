"""A sheet that takes formulas as they are, and writes one that many cells of a column share only once.

It goes round internals of xlsxwriter: ours hold no function that would have to be marked as new, a search for such
functions takes SWITCH for an array, and each formula is written out in every cell.
"""

from collections.abc import Sequence
from typing import NamedTuple

from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

from workbook.cells.pages import Run
from workbook.cells.placing import letters

ERRORS = frozenset({"#DIV/0!", "#N/A", "#NAME?", "#NULL!", "#NUM!", "#REF!", "#VALUE!"})


class Formula(NamedTuple):
    """A formula in a cell with what it shows. The charts of xlsxwriter look for values in what is called by this name."""

    element: str
    made: Format
    value: str | float


class PlainSheet(Worksheet):  # type: ignore[misc]  # xlsxwriter has no types
    """A sheet that takes formulas as they are."""

    fixed_rows: frozenset[int] = frozenset()
    shared = 0

    def put_formula(self, row: int, column: int, formula: str, made: Format, value: str | float) -> None:
        """A formula in a cell of its own."""
        self.table[row][column] = Formula(f"<f>{self._text(formula)}</f>", made, value)
        self._check_dimensions(row, column)

    def put_run(self, run: Run, formats: Sequence[Format], values: Sequence[str | float]) -> None:
        """The formulas of a column, with the format and the value of each cell."""
        rows, at = range(run.first_row - 1, run.first_row - 1 + run.rows), run.column - 1
        for row, element, made, value in zip(rows, self._elements(run), formats, values, strict=True):
            self.table[row][at] = Formula(element, made, value)
        if rows:
            self._check_dimensions(rows[0], at)
            self._check_dimensions(rows[-1], at)

    def _elements(self, run: Run) -> list[str]:
        if run.rows < 2 or not is_shared(run.template):
            return [f"<f>{self._text(text)}</f>" for _, text in run.texts()]
        mark, at, (_, text) = self.shared, letters(run.column), next(run.texts())
        self.shared += 1
        area = f"{at}{run.first_row}:{at}{run.first_row + run.rows - 1}"
        first = f'<f t="shared" ref="{area}" si="{mark}">{self._text(text)}</f>'
        return [first, *[f'<f t="shared" si="{mark}"/>'] * (run.rows - 1)]

    def _text(self, formula: str) -> str:
        return str(self._escape_data(formula.removeprefix("=")))

    def _prepare_formula(self, formula: str, _expand: object = False) -> str:  # noqa: FBT002  as xlsxwriter calls it
        """The formula of a rule or a colour as it is, without the search for new functions."""
        return formula.removeprefix("=")

    def _write_cell(self, row: int, col: int, cell: object) -> None:
        """One cell of the file; called for every one, so without a list of attributes where it is a formula."""
        if type(cell) is not Formula:
            super()._write_cell(row, col, cell)
            return
        kind, value = "", cell.value
        if value and isinstance(value, str):
            kind, value = (' t="e"' if value in ERRORS else ' t="str"'), self._escape_data(value)
        style = cell.made._get_xf_index()  # noqa: SLF001  as xlsxwriter asks for it
        self.fh.write(f'<c r="{letters(col + 1)}{row + 1}" s="{style}"{kind}>{cell.element}<v>{value}</v></c>')

    def _xml_start_tag_unencoded(self, tag: str, attributes: list[tuple[str, object]]) -> None:
        """Heights stay automatic, but on a printed page: a row grows when its text does, it is only given a height to begin with."""
        automatic = tag == "row" and dict(attributes)["r"] not in self.fixed_rows
        super()._xml_start_tag_unencoded(tag, [a for a in attributes if not automatic or a[0] != "customHeight"])


def is_shared(template: str) -> bool:
    """Whether cells may share a formula: not where it names a cell of another sheet.

    Excel shares formulas wherever they were filled down, but not such ones: its older file formats had no room for
    them, so programs are used to find each written out.
    """
    return not any("!" in part for part in template.split('"')[::2])
