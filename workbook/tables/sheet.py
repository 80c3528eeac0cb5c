"""A sheet: title, purpose, and blocks side by side (tables, forms, charts); still only words."""

from dataclasses import dataclass

from workbook.tables.table import Table


@dataclass(frozen=True)
class Series:
    """One series of a chart: its name, the columns of labels and values, and its colour; without one it is not drawn."""

    name: str
    labels: str
    values: str
    colour: str = ""


@dataclass(frozen=True)
class Chart:
    """A chart of columns of one table: stacked bars (a range is an undrawn bar and a drawn one), plain bars, or lines.

    over_time: lines through points; days names the kind of number along the bottom: "day" is a date.
    """

    title: str
    describes: str
    series: tuple[Series, ...]
    axis: str
    stacked: bool = False
    height: int = 300
    width: int = 560
    low: float | None = None
    high: float | None = None
    percent: bool = False
    over_time: bool = False
    days: str = "day"
    days_axis: str = "date"


@dataclass(frozen=True)
class Charts:
    """Room for charts between tables: so many side by side, then the next row of them."""

    key: str
    charts: tuple[Chart, ...]
    columns: int = 16
    across: int = 2


@dataclass(frozen=True)
class Sheet:
    """What a sheet is for and what stands on it.

    role: guide, input, answer, printable or reference; the sheet's tab shows it.
    forms stand above the tables, one below the other; blocks stand side by side and share their header rows.
    frozen_columns stay in sight, and are printed on every page: 0 where the blocks are about different rows.
    frozen_head: whether the header rows stay in sight: not where the forms above them would fill the screen.
    """

    title: str
    purpose: str
    blocks: tuple[Table | Charts, ...] = ()
    forms: tuple[Table, ...] = ()
    notes: tuple[str, ...] = ()
    new_page_before: tuple[str, ...] = ()
    frozen_columns: int = 1
    frozen_head: bool = True
    portrait: bool = False
    role: str = "answer"

    @property
    def tables(self) -> tuple[Table, ...]:
        """Every table and form that stands here."""
        return (*self.forms, *(b for b in self.blocks if isinstance(b, Table)))
