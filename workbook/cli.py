"""The command line: thin commands that read arguments, call one function, print, and set the exit code."""

import datetime
import gc
import sys
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from workbook import __version__
from workbook.build import SPARE_ROWS, Plan, templates_folder
from workbook.build import build as build_workbook
from workbook.copies import commands
from workbook.copies.carrying import build_content, rebuild
from workbook.copies.exporting import export as write_folder
from workbook.copies.exporting import faults_of, folder_content, is_plain, refuse_folder, told_by
from workbook.copies.reading import read_copy
from workbook.editions import EDITIONS
from workbook.files.targets import writable
from workbook.findings import BadInputError, Finding
from workbook.terminal import complain, day, err, out, say, told

MANY_OBJECTS = 500_000

app = typer.Typer(
    add_completion=False,
    pretty_exceptions_enable=False,
    no_args_is_help=True,
    help="Builds planning workbooks for people who keep freshwater aquarium fish.",
)


class Edition(StrEnum):
    """The editions."""

    keeper = "keeper"
    shop = "shop"
    club = "club"


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


def _folder(source: str, edition: str) -> Path:
    """The folder of that path, or else the starting set of that name: the edition's own before the keeper's."""
    folder, named = Path(source), [templates_folder() / name for name in (f"{edition}-{source}", source)]
    return next((one for one in named if one.is_dir()), folder) if not folder.is_dir() else folder


@app.command()
def build(  # noqa: PLR0913, PLR0917  an option is an argument, typer's way
    source: Annotated[
        str,
        typer.Argument(
            metavar="FROM",
            help="A folder of CSV files, the name of a starting set such as demo or blank, or an edited workbook.",
        ),
    ] = "demo",
    output: Annotated[
        Path | None, typer.Option("-o", "--output", help="The workbook to write. Default: output/EDITION.xlsx.")
    ] = None,
    edition: Annotated[Edition | None, typer.Option(help="For whom. Default: keeper, or that of the workbook.")] = None,
    units: Annotated[
        Units | None, typer.Option(help="Units that people see. Default: metric, or those of the workbook.")
    ] = None,
    spare_rows: Annotated[int, typer.Option(min=1, max=20000, help="Ready rows below the data.")] = SPARE_ROWS,
    plan_date: Annotated[
        datetime.date | None,
        typer.Option(
            parser=day,
            metavar="DATE",
            help="Day of the values in the file where no plan date is typed. Default: today.",
        ),
    ] = None,
    library: Annotated[
        Path | None,
        typer.Option(help="A club's workbook: its library goes under what a member typed in the edited workbook."),
    ] = None,
    follow: Annotated[  # noqa: FBT002  typer's way
        bool, typer.Option("--follow", help="Put a name that was changed in its own list wherever the old one stands.")
    ] = False,
    carry_out: Annotated[  # noqa: FBT002  typer's way
        bool,
        typer.Option("--carry-out", help="Take lines of Plan that are marked done over into Livestock and Tanks."),
    ] = False,
) -> None:
    """Build a workbook from plain data, or carry an edited one over into a fresh one."""
    target = output or Path("output")
    today = datetime.datetime.now().astimezone().date()
    said: list[str] = []
    with told(target) as status:
        folder = _folder(source, (edition or Edition.keeper).value)
        says = told_by(folder)
        name = says.get("edition", edition or Edition.keeper.value)
        if edition and edition != name:
            raise BadInputError([Finding(source, None, "", f"a folder of the edition {name}", str(edition))])
        plan = Plan(
            name,
            units or says.get("units", Units.metric.value),
            spare_rows,
            plan_date or today,
            library=library,
            follow=follow,
            carry_out=carry_out,
        )
        target = output or Path("output") / f"{name}.xlsx"
        writable(target)
        if library and not folder.is_file():
            raise BadInputError([Finding(source, None, "", "no edited workbook", "a member's file, for --library")])
        if carry_out and not folder.is_file():
            raise BadInputError([Finding(source, None, "", "no edited workbook", "one with a plan, for --carry-out")])
        if folder.is_file():
            built, said = rebuild(folder, output, plan, units=units, edition=edition, say=status.update)
        elif folder.is_dir() and not is_plain(folder):
            content = folder_content(folder, EDITIONS[plan.edition](), says.get("units", plan.units))
            built, said = build_content(content, target, plan, status.update)
        else:
            built = build_workbook(folder, target, plan, status.update)
    target = output or Path("output") / f"{built.edition.name}.xlsx"
    say(f"{target}: {len(built.pages)} sheets; {built.verdict}")
    for line in said:
        say(line)


@app.command()
def export(
    source: Annotated[Path, typer.Argument(metavar="FILE", help="An edited workbook, .xlsx or .ods.")],
    output: Annotated[Path, typer.Option("-o", "--output", help="The folder to write.")],
) -> None:
    """Write what was typed in a workbook as plain CSV files, which build the same workbook again."""
    with told(output) as status:
        refuse_folder(output)
        content = read_copy(source)
        status.update("writing")
        files = write_folder(content, output)
    say(
        f"{output}: {len(files)} files, in metric units"
        + ("; a build of it shows US units again" if content.units == "us" else "")
    )
    if left := faults_of(output, EDITIONS[content.edition]()):
        complain(left)
        err.print(f"{len(left)} to mend before the folder builds.", highlight=False)
        raise typer.Exit(1)


app.command()(commands.compare)
app.command()(commands.merge)
app.command()(commands.check)


def main() -> None:
    """Entry point of the command."""
    # A workbook is a million objects, none of them in a circle: looking for circles took a tenth of the time.
    gc.set_threshold(MANY_OBJECTS)
    sys.exit(app())
