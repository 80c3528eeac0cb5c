"""The one concept: tables with typed, pulled, computed and flag columns."""

from workbook.tables.columns import Computed, Flag, Look, Pulled, Said, Typed, pulled
from workbook.tables.formula import Formula, equation, logic
from workbook.tables.kinds import choice, count, date, key, link, number, row, text
from workbook.tables.schema import Schema
from workbook.tables.sheet import Chart, Charts, Series, Sheet
from workbook.tables.table import Table

__all__ = [
    "Chart", "Charts", "Computed", "Flag", "Formula", "Look", "Pulled", "Said", "Schema", "Series", "Sheet", "Table",
    "Typed", "choice", "count", "date", "equation", "key", "link", "logic", "number", "pulled", "row", "text",
]  # fmt: skip
