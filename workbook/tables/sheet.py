"""A sheet: title, purpose, and blocks side by side (tables, forms, charts); still only words."""

from collections.abc import Iterable
from dataclasses import dataclass

from workbook.tables.table import Table


@dataclass(frozen=True)
class Series:
    """One series of a chart: its name, columns of labels and values, and its colour; without one it is not drawn."""

    name: str
    labels: str
    values: str
    colour: str = ""


@dataclass(frozen=True)
class Chart:
    """A chart of columns of one table: stacked bars (a range is an undrawn bar and a drawn one), plain bars, or lines.

    dates: the axis of its bars is a calendar.
    title: none where a cell above it says what it shows.
    over_time: lines through points; days names the kind of number along the bottom: "day" is a date, "near" one of few
    weeks.
    legend: not where few words along the bottom say what is drawn, and the room is small.
    axis: in it {unit} is the unit in which the file shows what is drawn; low and high are in base units.
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
    dates: bool = False
    over_time: bool = False
    days: str = "day"
    days_axis: str = "date"
    legend: bool = True


@dataclass(frozen=True)
class Charts:
    """Room for charts between tables: so many side by side, then the next row of them; or on a page, so many rows.

    on_paper: whether they are printed; not where they only draw what stands in the list beside them.
    """

    key: str
    charts: tuple[Chart, ...]
    columns: int = 16
    across: int = 2
    rows: int = 0
    on_paper: bool = True


@dataclass(frozen=True)
class Band:
    """Stacks of tables and charts side by side on a page; each begins at a column of its grid, counted from 1."""

    stacks: tuple[tuple[Table | Charts, ...], ...]
    begins: tuple[int, ...] = (1,)

    @property
    def placed(self) -> tuple[tuple[int, tuple[Table | Charts, ...]], ...]:
        """Each stack with the column in which it begins."""
        return tuple(zip(self.begins, self.stacks, strict=True))


@dataclass(frozen=True)
class Paper:
    """Paper cut into pieces of a fixed size: its name and margins in inches; nothing is scaled, no footer printed."""

    name: str
    left: float
    right: float
    top: float
    bottom: float


# What one does on a sheet, in the order in which sheets stand in a file: those for every day, then what is looked up,
# then what stands behind the answers; the workings of lists come last.
ROLES = ("guide", "answer", "input", "choice", "printable", "reference", "detail")


@dataclass(frozen=True)
class Sheet:
    """What a sheet is for and what stands on it.

    role: what one does there, which its tab shows and by which Start groups the sheets: guide, answer, input, choice,
    printable, reference or detail (what stands on others in short); or own (a person added it, and it is not
    protected).
    forms stand above the tables, one below the other; blocks stand side by side and share their header rows.
    left: forms that stand at the left of the blocks and stay in sight there, their sentences above: what is picked,
    beside what it steers.
    grid: widths of the columns of a printed page. Its bands stand one below the other, only they are printed, and what
    they are reckoned from stands at the right of it: working columns, then the forms beside it.
    above: bands that stand above the blocks, in the columns of these: short texts that run on over several of them.
    opens_when: the list of which one row is enough for the file to open on this sheet; without any, on the first one.
    all_printed: its rows of one line are as wide as a page: all that can be read is printed, not the first columns.
    close: on a page, a table's title and labels stand in one line, and none above a table without a title; what stands
    above the bands stays in sight.
    new_page_before: tables that are printed besides the lists or the first table, each on a page of its own; of a
    printed page, those with which a further one begins.
    on_paper: whether it is printed at all; what is read beside formulas, or repeats another sheet, is not.
    folds: whether its working columns can be folded away, for which a mark takes a line of the screen.
    large: it is printed on paper twice the size, A3 or Tabloid.
    frozen_columns stay in sight, and are printed on every page: 0 where the blocks are about different rows.
    frozen_head: whether the header rows stay in sight: not where the forms above them would fill the screen.
    """

    title: str
    purpose: str
    blocks: tuple[Table | Charts, ...] = ()
    bands: tuple[Band, ...] = ()
    grid: tuple[float, ...] = ()
    beside: tuple[Table, ...] = ()
    forms: tuple[Table, ...] = ()
    left: tuple[Table, ...] = ()
    notes: tuple[str, ...] = ()
    above: tuple[Band, ...] = ()
    opens_when: str = ""
    new_page_before: tuple[str, ...] = ()
    all_printed: bool = False
    frozen_columns: int = 1
    frozen_head: bool = True
    portrait: bool = False
    close: bool = False
    large: bool = False
    on_paper: bool = True
    folds: bool = True
    paper: Paper | None = None
    role: str = "answer"

    @property
    def is_for_people(self) -> bool:
        """Whether it is one of the tabs for every day, before what is looked up now and then."""
        return self.role in ROLES[: ROLES.index("reference")]

    @property
    def tables(self) -> tuple[Table, ...]:
        """Every table and form that stands here."""
        bands = (*self.above, *self.bands)
        banded = (t for band in bands for stack in band.stacks for t in stack if isinstance(t, Table))
        return (*self.forms, *self.left, *(b for b in self.blocks if isinstance(b, Table)), *banded, *self.beside)

    @property
    def remarks(self) -> tuple[str, ...]:
        """What stands below its purpose, a line each: what a row is of the lists that people type, and its notes."""
        lists = [block for block in self.blocks if isinstance(block, Table) and block.is_list]
        rows = [block.purpose for block in lists if block.example]
        first = "; ".join(filter(None, (block.first_typed for block in lists)))
        said = " ".join(filter(None, (*rows, first and f"Fill first: {first}.")))
        return (*filter(None, (said,)), *self.notes)

    def has_head(self, form: Table) -> bool:
        """Whether a form has a line of its own for its title: not a picker above tables, nor the only form there."""
        if self.close:
            return form not in self.forms
        return not self.blocks or (not form.chosen and len(self.forms) > 1)


def in_order(sheets: Iterable[Sheet]) -> tuple[Sheet, ...]:
    """The sheets by what one does there, else as they are."""
    return tuple(sorted(sheets, key=lambda sheet: ROLES.index(sheet.role)))
