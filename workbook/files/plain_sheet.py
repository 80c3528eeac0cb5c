"""A sheet that takes formulas as they are, and writes one that many cells of a column share only once.

It goes round internals of xlsxwriter: ours hold no function that would have to be marked as new, a search for such
functions takes SWITCH for an array, and each formula is written out in every cell.
"""

from collections.abc import Sequence
from typing import Any
from xml.sax.saxutils import escape

from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

from workbook.cells.pages import Run
from workbook.cells.placing import letters

ERRORS = frozenset({"#DIV/0!", "#N/A", "#NAME?", "#NULL!", "#NUM!", "#REF!", "#VALUE!"})


class Formula:
    """A formula in a cell with what it shows. The charts of xlsxwriter look for values in what is called by this name.

    Cells of a column that differ in nothing but their row are one of these; rest: what the file says of it, once known.
    """

    __slots__ = ("element", "made", "rest", "value")

    def __init__(self, element: str, made: Format, value: str | float) -> None:
        self.element, self.made, self.value, self.rest = element, made, value, ""


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
        alike: dict[tuple[str, Format, str], Formula] = {}
        for row, element, made, value in zip(rows, self._elements(run), formats, values, strict=True):
            if type(value) is str:
                key = element, made, value
                cell = alike.get(key) or alike.setdefault(key, Formula(element, made, value))
            else:
                cell = Formula(element, made, value)
            self.table[row][at] = cell
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
        return escape(formula.removeprefix("="))

    def _prepare_formula(self, formula: str, _expand: object = False) -> str:  # noqa: FBT002  as xlsxwriter calls it
        """The formula of a rule or a colour as it is, without the search for new functions."""
        return formula.removeprefix("=")

    def _calculate_spans(self) -> None:
        """The columns that hold something in each sixteen rows."""
        ends: dict[int, set[int]] = {}
        for row in range(self.dim_rowmin, self.dim_rowmax + 1):
            for held in (self.table.get(row), self.comments.get(row)):
                if held:
                    ends.setdefault(row // 16, set()).update((min(held), max(held)))
        self.row_spans = {block: f"{min(columns) + 1}:{max(columns) + 1}" for block, columns in ends.items()}

    def _write_rows(self) -> None:
        """All rows of the file: cell by cell only through what is there, and without a list of attributes for each."""
        self._calculate_spans()
        named = [letters(column + 1) for column in range(self.dim_colmax + 1)]
        for row in range(self.dim_rowmin, self.dim_rowmax + 1):
            cells, info = self.table.get(row), self.row_info.get(row)
            if not cells:
                if row in self.row_info or row in self.comments:
                    self._write_empty_row(row, self.row_spans.get(row // 16), info)
                continue
            self._write_row(row, self.row_spans.get(row // 16), info)
            parts, end = [], f'{row + 1}"'
            for column in sorted(cells):
                cell = cells[column]
                rest = (cell.rest if type(cell) is Formula else "") or rest_of(cell)
                parts.append(f'<c r="{named[column]}{end}{rest}')
            self.fh.write("".join(parts))
            self._xml_end_tag("row")

    def _xml_start_tag_unencoded(self, tag: str, attributes: list[tuple[str, object]]) -> None:
        """Heights stay automatic, but on a printed page: a row grows when its text does, it is only given a height to begin with."""
        automatic = tag == "row" and dict(attributes)["r"] not in self.fixed_rows
        super()._xml_start_tag_unencoded(tag, [a for a in attributes if not automatic or a[0] != "customHeight"])


def rest_of(cell: Any) -> str:
    """What the file says of a cell after its address."""
    if type(cell) is Formula:
        kind, value = "", cell.value
        if value and isinstance(value, str):
            kind, value = (' t="e"' if value in ERRORS else ' t="str"'), escape(value)
        style = cell.made._get_xf_index()  # noqa: SLF001  as xlsxwriter asks for it
        cell.rest = f' s="{style}"{kind}>{cell.element}<v>{value}</v></c>'
        return cell.rest
    style = cell.format._get_xf_index()  # noqa: SLF001  as above
    match type(cell).__name__:
        case "Number":
            return f' s="{style}"><v>{cell.number:.16G}</v></c>'
        case "String":
            return f' s="{style}" t="s"><v>{cell.string}</v></c>'
        case "Blank":
            return f' s="{style}"/>'
    raise TypeError(f"a cell of a kind that is not written here: {cell}")


def is_shared(template: str) -> bool:
    """Whether cells may share a formula: not where it names a cell of another sheet.

    Excel shares formulas wherever they were filled down, but not such ones: its older file formats had no room for
    them, so programs are used to find each written out.
    """
    return not any("!" in part for part in template.split('"')[::2])
