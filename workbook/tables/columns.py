"""The roles of a column: typed by a person, pulled through a link, computed, a flag, and the flags in one cell."""

from dataclasses import dataclass, field

from workbook.tables.formula import Formula
from workbook.tables.kinds import Kind, number, text

SERIOUSNESS = ("act", "watch", "note")
# In the row of examples: how its first cell begins, and what stands where a cell may well stay blank.
SUCH_AS, OPTIONAL = "such as ", "optional"


@dataclass(frozen=True)
class Look:
    """How a column stands on the sheet: its group's heading, width, number format, and whether it is working.

    status: a text whose first symbol says how serious it is.
    measure: a share of a limit, coloured when it is over it ("fit"), or nears it too ("load").
    link: text that leads to another place of the file. metric_only: needless where the unit shown is that of US.
    upright: what stands below its header runs from bottom to top, so that the column can be narrow.
    style: how it stands on a printed page, a role of files/look; span: how many columns of the page its text runs over.
    runs_on: a sentence of a form that runs on over the empty cells at its right.
    drawn: working, yet a chart draws it, in the unit that the file shows.
    bought: goods by the pack, in ounces in a US workbook.
    drawn_from, drawn_to: the cell shows small bars of the cells of these working columns, where a program draws them;
    the column itself stays empty.
    """

    group: str = ""
    width: float = 10
    show: str = "0.##"
    working: bool = False
    status: bool = False
    measure: str = ""
    link: bool = False
    metric_only: bool = False
    style: str = ""
    span: int = 1
    upright: bool = False
    runs_on: bool = False
    drawn: bool = False
    bought: bool = False
    drawn_from: str = ""
    drawn_to: str = ""


@dataclass(frozen=True)
class Typed:
    """A person types it; the kind becomes its dropdown or range check.

    kept_in: the CSV file that holds it, where that is not the table's own.
    locked: its content comes with the package.
    adds_up: a count that several people may change at once; when their copies are merged, what each one added or
    took away is added up.
    handed: its content comes from whoever hands the file out: the cell is locked where something stands in it.
    filed: its name in plain files, where that is not its key.
    free: a person's own column, in which numbers, days, words and formulas stand as they are.
    narrows: of a form, the list of which the dropdowns on its sheet offer only the names of the group picked here.
    """

    key: str
    label: str
    kind: Kind
    unit: str = ""
    help: str = ""
    required: bool = False
    kept_in: str = ""
    locked: bool = False
    adds_up: bool = False
    free: bool = False
    handed: bool = False
    filed: str = ""
    narrows: str = ""
    look: Look = field(default_factory=Look)

    @property
    def header(self) -> str:
        """Its name in plain files."""
        return self.filed or self.key


@dataclass(frozen=True)
class Pulled:
    """The same column of the row that a link points to; blank where that one is blank."""

    key: str
    via: str
    of: str = ""
    label: str = ""
    look: Look = field(default_factory=lambda: Look(working=True))

    @property
    def origin(self) -> str:
        """The key, or table.key, of the column that it shows."""
        return self.of or self.key


def pulled(via: str, *keys: str, table: str = "") -> tuple[Pulled, ...]:
    """Several columns through one link; table: of another table that has a row for each of that one's."""
    return tuple(Pulled(key, via=via, of=f"{table}.{key}" if table else "") for key in keys)


@dataclass(frozen=True)
class Computed:
    """The same formula in every row; blank while something it needs is blank.

    seed: what stands above the first row, for formulas that add to the cell above.
    beside: it stands at the right of a list, in the row that it is about, and is looked at as what is typed there is.
    """

    key: str
    label: str
    formula: Formula
    help: str = ""
    kind: Kind = field(default_factory=number)
    seed: str = ""
    beside: bool = False
    look: Look = field(default_factory=Look)

    @property
    def unit(self) -> str:
        """What the equation returns."""
        return self.formula.unit


@dataclass(frozen=True)
class Flag:
    """Says why something is wrong and what to do about it; blank when all is well.

    copes: the test itself says what happens when something it looks at is blank.
    gathered: its own row says it, but Attention only in a line that gathers what has one cause and place, or, where it
    is a lasting fact that asks for nothing, not at all.
    """

    key: str
    title: str
    when: str
    why: str
    do: str
    seriousness: str = "watch"
    copes: bool = False
    gathered: bool = False
    kind: Kind = field(default_factory=text)
    unit: str = ""
    help: str = ""
    look: Look = field(default_factory=lambda: Look(width=14, working=True))

    @property
    def label(self) -> str:
        """What stands in the header."""
        return self.title


@dataclass(frozen=True)
class Said:
    """The most serious flag of the row, and how many more there are."""

    key: str = "attention"
    label: str = "Needs attention"
    kind: Kind = field(default_factory=text)
    unit: str = ""
    help: str = "The most serious point of this row; Attention lists all of them."
    look: Look = field(default_factory=lambda: Look(width=52))


Column = Typed | Pulled | Computed | Flag | Said
