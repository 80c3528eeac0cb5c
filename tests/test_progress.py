"""What a person at a terminal sees while a command works; nothing of it reaches a pipe or a file."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.effort import also, in_the_end
from tests.returned import small

pty = pytest.importorskip("pty")  # no such terminals on Windows

ROOT = Path(__file__).parent.parent
STEPS = {
    "build": (["build", "room", "-o", "new.xlsx", "--spare-rows", "1"], ["reading", "laying out", "compiling", "evaluating", "writing"]),
    "carried over": (["build", "book.xlsx", "-o", "new.xlsx", "--spare-rows", "1"], ["reading", "compiling", "evaluating", "writing"]),
    "check": (["check", "book.xlsx"], ["reading", "compiling", "evaluating", "comparing"]),
    "compare": (["compare", "book.xlsx", "copy.xlsx"], ["reading", "comparing"]),
    "merge": (["merge", "book.xlsx", "copy.xlsx", "-o", "new.xlsx", "--spare-rows", "1"], ["reading 2 workbooks", "merging", "evaluating", "writing"]),
    "export": (["export", "book.xlsx", "-o", "plain"], ["reading", "writing"]),
}  # fmt: skip


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small workbook and a copy of it."""
    made = tmp_path_factory.mktemp("progress")
    small(made / "room", "keeper", species=3)
    run(made, ["build", "room", "-o", "book.xlsx", "--spare-rows", "1"])
    (made / "copy.xlsx").write_bytes((made / "book.xlsx").read_bytes())
    return made


def run(folder: Path, words: list[str], **more: str) -> "subprocess.CompletedProcess[str]":
    """A command, all it says piped."""
    command = [sys.executable, "-m", "workbook", *words]
    environment = os.environ | {"PYTHONPATH": str(ROOT)} | more
    return subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True, check=False)


def at_terminal(folder: Path, words: list[str]) -> tuple[str, str]:
    """A command whose complaints and progress go to a terminal: what it prints, and what passes over the terminal."""
    ours, theirs = pty.openpty()
    command = [sys.executable, "-m", "workbook", *words]
    environment = os.environ | {"PYTHONPATH": str(ROOT), "TERM": "xterm"}
    seen = bytearray()
    with subprocess.Popen(command, cwd=folder, env=environment, stdout=subprocess.PIPE, stderr=theirs) as process:
        os.close(theirs)
        while True:
            try:
                part = os.read(ours, 4096)
            except OSError:  # so Linux says that the other end was closed
                break
            if not part:
                break
            seen += part
        assert process.stdout
        printed = process.stdout.read().decode()
    os.close(ours)
    return printed, seen.decode()


@pytest.mark.parametrize("name", ["build", "check", *also("compare", "export"), *in_the_end("carried over", "merge")])
def test_a_terminal_shows_what_is_being_done(name: str, folder: Path) -> None:
    """Every step in its order; in the end the line is gone, and what is printed holds none of it."""
    words, steps = STEPS[name]
    printed, seen = at_terminal(folder, words)
    at = [seen.find(step) for step in steps]
    assert -1 not in at, seen
    assert at == sorted(at)
    assert seen.rstrip().endswith("\x1b[2K"), "the line is wiped out"
    assert "\x1b" not in printed


def test_a_pipe_gets_nothing_of_it_even_where_colours_are_forced(folder: Path) -> None:
    """As some runners of tests do for all programs."""
    done = run(folder, ["check", "book.xlsx"], FORCE_COLOR="1", TTY_COMPATIBLE="1", TTY_INTERACTIVE="1")
    assert done.stderr == ""
    assert "reading" not in done.stdout
