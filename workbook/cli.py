"""The command line: thin commands that read arguments, call one function, print, and set the exit code."""

import datetime
import sys
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console

from workbook import __version__
from workbook.build import SPARE_ROWS, Plan, templates_folder
from workbook.build import build as build_workbook
from workbook.findings import BadInputError
from workbook.tables.kinds import Value, date

app = typer.Typer(
    add_completion=False,
    pretty_exceptions_enable=False,
    no_args_is_help=True,
    help="Builds planning workbooks for people who keep freshwater aquarium fish.",
)
out, err = Console(), Console(stderr=True)


class Edition(StrEnum):
    """The editions."""

    keeper = "keeper"
    shop = "shop"


class Units(StrEnum):
    """The unit systems."""

    metric = "metric"
    us = "us"


def _version(wanted: bool) -> None:  # noqa: FBT001  typer's way
    if wanted:
        out.print(f"shoalbook {__version__}", highlight=False)
        raise typer.Exit


@app.callback()
def start(
    version: Annotated[  # noqa: FBT002
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Show the version.")
    ] = False,
) -> None:
    """Builds planning workbooks for people who keep freshwater aquarium fish."""


def _day(text: str) -> Value:
    try:
        return date().parse(text)
    except ValueError:
        raise typer.BadParameter(f"found '{text}'; expected {date().expected}") from None


def _folder(source: str, edition: str) -> Path:
    """The folder of that path, or else the starting set of that name: the edition's own before the keeper's."""
    folder, named = Path(source), [templates_folder() / name for name in (f"{edition}-{source}", source)]
    return next((one for one in named if one.is_dir()), folder) if not folder.is_dir() else folder


@app.command()
def build(
    source: Annotated[
        str,
        typer.Argument(
            metavar="FROM", help="A folder of CSV files, or the name of a starting set such as demo or blank."
        ),
    ] = "demo",
    output: Annotated[
        Path | None, typer.Option("-o", "--output", help="The workbook to write. Default: output/EDITION.xlsx.")
    ] = None,
    edition: Annotated[Edition, typer.Option(help="For whom.")] = Edition.keeper,
    units: Annotated[Units, typer.Option(help="Units that people see.")] = Units.metric,
    spare_rows: Annotated[int, typer.Option(min=1, max=20000, help="Ready rows below the data.")] = SPARE_ROWS,
    plan_date: Annotated[
        datetime.date | None,
        typer.Option(
            parser=_day,
            metavar="DATE",
            help="Day of the values in the file where no plan date is typed. Default: today.",
        ),
    ] = None,
) -> None:
    """Build a workbook from plain data."""
    target = output or Path("output") / f"{edition.value}.xlsx"
    today = datetime.datetime.now().astimezone().date()
    plan = Plan(edition.value, units.value, spare_rows, plan_date or today)
    try:
        with err.status("reading", spinner="dots") as status:
            built = build_workbook(_folder(source, edition.value), target, plan, status.update)
    except BadInputError as error:
        for finding in error.findings:
            err.print(str(finding), style="red", highlight=False, markup=False, soft_wrap=True)
        err.print(f"{len(error.findings)} found; nothing was written.", highlight=False)
        raise typer.Exit(2) from None
    except OSError as error:
        where = error.filename2 or error.filename or target
        err.print(
            f"{where}: {error.strerror or error}; nothing was written.",
            style="red",
            highlight=False,
            markup=False,
            soft_wrap=True,
        )
        raise typer.Exit(2) from None
    out.print(f"{target}: {len(built.pages)} sheets; {built.verdict}", highlight=False, markup=False, soft_wrap=True)


def main() -> None:
    """Entry point of the command."""
    sys.exit(app())
