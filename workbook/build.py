"""The way of the data: plain text, tables, cells, values, file."""

import datetime
import functools
import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from workbook import __version__
from workbook.cells.compiling import Compiler
from workbook.cells.pages import Page, Records, own_cell
from workbook.cells.placing import Placing
from workbook.cells.slots import PlacedSheet
from workbook.editions import EDITIONS, SCHEMA, Edition, first_choices
from workbook.files.csv_folder import Folder
from workbook.stamps import UNSTAMPED, Stamp, stamp_of
from workbook.tables.kinds import Value
from workbook.tables.schema import Schema
from workbook.tables.sheet import Sheet
from workbook.tables.table import Table
from workbook.tables.units import written

if TYPE_CHECKING:
    from workbook.cells.evaluating import Values

SPARE_ROWS = 40
# Where nobody typed how many days lie between two rows; and how many ready rows a list may have before it grows slow.
WEEK, YEAR, MOST_READY = 7, 365, 2000


@dataclass(frozen=True)
class Plan:
    """What a person asked for; rows: how many rows tables have where that is not to follow from their data.

    made_from: what the workbook is made from, in words that end in a stamp. holds: marks of the copies merged into it.
    library: the workbook of the club whose library is to stand under what a member typed. follow: whether a name that
    was changed in its own list is put wherever the old one stands. carry_out: whether what is done of a plan is taken
    over.
    """

    edition: str = "keeper"
    units: str = "metric"
    spare_rows: int = SPARE_ROWS
    plan_date: datetime.date = datetime.date(2026, 1, 1)
    rows: Mapping[str, int] = field(default_factory=dict)
    made_from: str = ""
    holds: str = ""
    library: Path | None = None
    follow: bool = False
    carry_out: bool = False


@dataclass(frozen=True)
class Built:
    """A workbook before it is written: where everything lies, every cell and every value."""

    edition: Edition
    placing: Placing
    pages: list[Page]
    values: "Values"
    stamp: Stamp = UNSTAMPED

    @property
    def verdict(self) -> str:
        """What Attention says in short."""
        here = self.placing.tables["attention_summary"]
        return str(self.values[here.sheet, here.base["verdict"], here.across])


def templates_folder() -> Path:
    """The starting sets: beside the package in a checkout, inside it when installed."""
    beside = Path(__file__).parent.parent / "templates"
    return beside if (beside / "shared").is_dir() else Path(__file__).parent / "templates"


def read(folder: Path, edition: Edition) -> Records:
    """Every typed table of an edition from a folder of CSV files; what is only set to show, where it has a file."""
    chosen = {t.key for t in edition.tables if t.chosen and (t.told or not (folder / f"{t.key}.csv").is_file())}
    tables = [t for t in edition.tables if t.key not in {*edition.given, *chosen}]
    return Folder(folder, templates_folder() / "shared", tables, dict(edition.more)).read()


def rows_of(
    tables: tuple[Table, ...], records: Records, spare_rows: int, asked: Mapping[str, int] | None = None
) -> dict[str, int]:
    """How many rows each table gets."""
    found: dict[str, int] = {}
    for table in tables:
        typed = len(records.get(table.key, []))
        if table.form:
            found[table.key] = 1
        elif table.lines:
            housed = sum(len(records.get(key, [])) for key in table.lines_of)
            found[table.key] = max(table.lines, min(table.lines_each * housed, table.lines_most))
        elif not table.rows_of:
            found[table.key] = max(2, typed + (_ready(table, records, spare_rows) if table.is_list else 0))
    found |= {key: rows for key, rows in (asked or {}).items() if key in found}
    follow = {t.key: t.rows_of for t in tables if t.rows_of}

    def rows(key: str) -> int:
        return rows(follow[key]) if key in follow else found[key]

    return found | {key: rows(key) for key in follow}


def _ready(table: Table, records: Records, spare_rows: int) -> int:
    """Ready rows of a list; asked for the usual number, those of one that grows with time last a year."""
    there, _, days = table.yearly.partition(".")
    between = [row.get(days) for row in records.get(there, [])]
    year = sum(YEAR / (d if isinstance(d, int | float) and d >= 1 else WEEK) for d in between)
    more = min(year, MOST_READY) / SPARE_ROWS
    return math.ceil(round(spare_rows * max(table.spare_rows, more), 6))


@dataclass(frozen=True)
class Extras:
    """What people put on the sheets beside their tables: notes on cells by sheet, and sheets of their own by title.

    headed: the sheets whose first row is a row of headers.
    """

    notes: dict[str, dict[tuple[int, int], str]] = field(default_factory=dict)
    sheets: dict[str, dict[tuple[int, int], Value]] = field(default_factory=dict)
    headed: tuple[str, ...] = ()


@functools.lru_cache(maxsize=8)  # the check of every unit takes longer than to see that nothing has changed
def _schema(sheets: tuple[Sheet, ...], constants: tuple[tuple[str, str], ...]) -> Schema:
    return Schema(tuple(table for sheet in sheets for table in sheet.tables), dict(constants))


def lay_out(edition: Edition, records: Records, plan: Plan) -> Placing:
    """Where everything lies."""
    schema = _schema(edition.sheets, tuple((str(row["key"]), str(row["unit"])) for row in records["constants"]))
    placing = Placing(schema, edition.sheets, rows_of(schema.tables, records, plan.spare_rows, plan.rows), plan.units)
    placing.name_rows("constants", "value", "const", [str(row["key"]) for row in records["constants"]])
    return placing


def compute(
    edition: Edition,
    records: Records,
    plan: Plan,
    say: Callable[[str], None] = lambda _: None,
    extras: Extras = Extras(),
) -> Built:
    """Lay out, compile and evaluate."""
    from workbook.cells.evaluating import evaluate  # noqa: PLC0415  slow to load, and reading needs none

    notes = [words for on_sheet in extras.notes.values() for words in on_sheet.values()]
    own = stamped(edition, records, notes, extras.sheets)
    stamp = Stamp(own, "" if plan.made_from.endswith(own) else plan.made_from, plan.holds)
    placing, pages = compiled(edition, records, plan, say, stamp)
    for page in pages:
        page.notes.update(extras.notes.get(page.placed.sheet.title, {}))
    pages += [own_page(title, cells, headed=title in extras.headed) for title, cells in extras.sheets.items()]
    say("evaluating")
    return Built(edition, placing, pages, evaluate(pages, placing.names(), plan.plan_date), stamp)


def stamped(
    edition: Edition,
    records: Records,
    notes: Iterable[str] = (),
    sheets: Mapping[str, Mapping[tuple[int, int], Value]] | None = None,
) -> str:
    """The digest of everything that was typed; what sheets are only set to show is no part of it."""
    tables = [table for table in edition.tables if not table.chosen and table.key not in edition.given]
    return stamp_of(tables, records, notes, sheets)


def compiled(
    edition: Edition,
    records: Records,
    plan: Plan,
    say: Callable[[str], None] = lambda _: None,
    stamp: Stamp = UNSTAMPED,
) -> tuple[Placing, list[Page]]:
    """Lay out and compile: every cell, still without the values of formulas."""
    about: Records = {
        "about": [
            {
                "edition": edition.name,
                "units": plan.units,
                "version": __version__,
                "schema": SCHEMA,
                "stamp": stamp.own,
                "made_from": stamp.made_from,
                "holds": stamp.holds,
                **_handed(edition, records),
            }
        ]
    }
    records = edition.given | first_choices(edition, records) | about | records
    say("laying out")
    placing = lay_out(edition, records, plan)
    shown = [row | {"unit": written(str(row["unit"])) or "share or number"} for row in records["constants"]]
    records = records | {"constants": shown}
    say("compiling")
    return placing, Compiler(placing, records).pages()


def _handed(edition: Edition, records: Records) -> dict[str, Value]:
    """How many cells of each list hold what somebody hands out."""
    counted: dict[str, Value] = {}
    for table in edition.tables:
        keys = [column.key for column in table.typed if column.handed]
        if keys and table.is_list:
            rows = records.get(table.key, [])
            counted[f"handed_{table.key}"] = sum(row.get(key, "") != "" for row in rows for key in keys)
    return counted


def own_page(title: str, cells: dict[tuple[int, int], Value], *, headed: bool = False) -> Page:
    """A sheet of a person's own."""
    placed = PlacedSheet(Sheet(title, "", role="own"), last_printed_column=max(column for _, column in cells))
    page = Page(placed, [own_cell(at, value) for at, value in sorted(cells.items())])
    roles = ("head" if headed and cell.row == 1 else "own" for cell in page.cells)
    page.cells = [cell._replace(style=(role, cell.style[1])) for cell, role in zip(page.cells, roles, strict=True)]
    page.own = {(cell.row, cell.column) for cell in page.cells if cell.kind == "formula"}
    return page


def save(target: Path, built: Built, plan: Plan) -> None:
    """Write what was computed."""
    from workbook.files.xlsx_writing import About, write  # noqa: PLC0415  as above

    facts: dict[str, str | int] = {
        "shoalbook schema": SCHEMA,
        "shoalbook edition": built.edition.name,
        "shoalbook units": plan.units,
        "shoalbook version": __version__,
        "shoalbook stamp": built.stamp.own,
        "shoalbook made from": built.stamp.made_from,
    }
    facts = {name: fact for name, fact in facts.items() if fact != ""}
    write(target, built.pages, built.values, built.placing, About(f"shoalbook {built.edition.name}", facts))


def build(folder: Path, target: Path, plan: Plan, say: Callable[[str], None] = lambda _: None) -> Built:
    """Read a folder and write a workbook; nothing is written unless all went well."""
    edition = EDITIONS[plan.edition]()
    say("reading")
    built = compute(edition, read(folder, edition), plan, say)
    say("writing")
    save(target, built, plan)
    return built
