"""What all commands share: how they show progress, say a line, and tell what went wrong."""

import contextlib
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path

import typer
from rich.console import Console
from rich.status import Status

from workbook.findings import BadInputError, FormulaError
from workbook.tables.kinds import Value, date

SPINNER = "dots"
out, err = Console(), Console(stderr=True)


def day(text: str) -> Value:
    """A day that was given as an option."""
    try:
        return date().parse(text)
    except ValueError:
        raise typer.BadParameter(f"found '{text}'; expected {date().expected}") from None


class Progress:
    """What is being done at the moment; shown to a person at a terminal, and to nothing else."""

    def __init__(self, status: Status | None) -> None:
        self.status = status

    def update(self, doing: str) -> None:
        """Say what is done from now on."""
        if self.status:
            # Naming the spinner draws the line at once: the engine then keeps the interpreter to itself for a while.
            self.status.update(doing, spinner=SPINNER)


@contextlib.contextmanager
def _progress() -> Iterator[Progress]:
    # Not what rich takes for a terminal: it lets the environment say that a pipe is one.
    if not sys.stderr.isatty():
        yield Progress(None)
        return
    with err.status("reading", spinner=SPINNER) as status:
        yield Progress(status)


@contextlib.contextmanager
def told(target: Path, end: str = "nothing was written.") -> Iterator[Progress]:
    """Progress on a terminal; what went wrong in one line each, and exit code 2."""
    try:
        with _progress() as progress:
            yield progress
    except BadInputError as error:
        complain(error.findings)
        err.print(f"{len(error.findings)} found; {end}", highlight=False)
        raise typer.Exit(2) from None
    except FormulaError as error:
        complain(
            [f"{target}: {error}; {end} Please report this: a formula of shoalbook can't cope with what stands there"]
        )
        raise typer.Exit(2) from None
    except OSError as error:
        where = error.filename2 or error.filename or target
        complain([f"{where}: {error.strerror or error}; {end}"])
        raise typer.Exit(2) from None


def complain(lines: Iterable[object]) -> None:
    """What is wrong, a line for each."""
    for line in lines:
        err.print(plain(str(line)), style="red", highlight=False, markup=False, soft_wrap=True)


def say(line: str) -> None:
    """One line of what was done."""
    out.print(plain(line), highlight=False, markup=False, soft_wrap=True)


def plain(text: str) -> str:
    """One line, and nothing in it that a terminal would act on."""
    return "".join(c if c.isprintable() else repr(c)[1:-1] for c in text)
