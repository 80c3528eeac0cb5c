"""The way of the data: plain text, tables, cells, values, file."""

import datetime
import math
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from workbook import __version__
from workbook.cells.compiling import Compiler, Page, Records
from workbook.cells.evaluating import Values, evaluate
from workbook.cells.placing import Placing
from workbook.editions import EDITIONS, SCHEMA, Edition, first_choices
from workbook.files.csv_folder import Folder
from workbook.files.xlsx_writing import About, write
from workbook.tables.schema import Schema
from workbook.tables.table import Table
from workbook.tables.units import written

SPARE_ROWS = 40
CHOSEN_HERE = {"overlap_choice", "stocking_choice", "path_choice", "log_choice", "candidates_choice", "outage", "about"}


@dataclass(frozen=True)
class Plan:
    """What a person asked for."""

    edition: str = "keeper"
    units: str = "metric"
    spare_rows: int = SPARE_ROWS
    plan_date: datetime.date = datetime.date(2026, 1, 1)


@dataclass(frozen=True)
class Built:
    """A workbook before it is written: where everything lies, every cell and every value."""

    edition: Edition
    placing: Placing
    pages: list[Page]
    values: Values

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
    """Every typed table of an edition from a folder of CSV files."""
    tables = [t for t in edition.tables if t.key not in {*edition.given, *CHOSEN_HERE}]
    return Folder(folder, templates_folder() / "shared", tables).read()


def rows_of(tables: tuple[Table, ...], records: Records, spare_rows: int) -> dict[str, int]:
    """How many rows each table gets."""
    found: dict[str, int] = {}
    for table in tables:
        typed = len(records.get(table.key, []))
        if table.form:
            found[table.key] = 1
        elif table.lines:
            found[table.key] = table.lines
        elif not table.rows_of:
            found[table.key] = max(2, typed + (math.ceil(spare_rows * table.spare_rows) if table.is_list else 0))
    return found | {t.key: found[t.rows_of] for t in tables if t.rows_of}


def compute(edition: Edition, records: Records, plan: Plan, say: Callable[[str], None] = lambda _: None) -> Built:
    """Lay out, compile and evaluate."""
    about: Records = {
        "about": [{"edition": edition.name, "units": plan.units, "version": __version__, "schema": SCHEMA}]
    }
    records = edition.given | first_choices(records) | about | records
    say("laying out")
    schema = Schema(edition.tables, {str(row["key"]): str(row["unit"]) for row in records["constants"]})
    placing = Placing(schema, edition.sheets, rows_of(schema.tables, records, plan.spare_rows), plan.units)
    placing.name_rows("constants", "value", "const", [str(row["key"]) for row in records["constants"]])
    shown = [row | {"unit": written(str(row["unit"])) or "share or number"} for row in records["constants"]]
    records = records | {"constants": shown}
    say("compiling")
    pages = Compiler(placing, records).pages()
    say("evaluating")
    return Built(edition, placing, pages, evaluate(pages, placing.names(), plan.plan_date))


def build(folder: Path, target: Path, plan: Plan, say: Callable[[str], None] = lambda _: None) -> Built:
    """Read a folder and write a workbook; nothing is written unless all went well."""
    edition = EDITIONS[plan.edition]()
    say("reading")
    built = compute(edition, read(folder, edition), plan, say)
    say("writing")
    facts: dict[str, str | int] = {
        "shoalbook schema": SCHEMA,
        "shoalbook edition": edition.name,
        "shoalbook units": plan.units,
        "shoalbook version": __version__,
    }
    write(target, built.pages, built.values, built.placing, About(f"shoalbook {edition.name}", facts))
    return built
