"""The README is true: its console blocks print what they say they print, and it names every command and option."""

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from typer.testing import CliRunner

from tests import books, returned
from tests.test_cli import run
from workbook.build import SPARE_ROWS
from workbook.cli import app

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
FEW = ("--spare-rows", "20")
BLOCKS = re.findall(r"```console\n(.*?)```", README, re.DOTALL)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """What the README assumes: a room of one's own, one with two faults, and files that people sent back."""
    shutil.copytree(books.shared("returned", returned.desk), tmp_path, dirs_exist_ok=True)
    shutil.copytree(ROOT / "templates/demo", tmp_path / "my-room")
    shutil.copytree(ROOT / "templates/blank", tmp_path / "broken-room")
    for name, row in {
        "tanks": {"tank": "Low", "length": "-60"},
        "livestock": {"tank": "Low", "species": "Neon tetrra", "animals": "6"},
    }.items():
        path = tmp_path / f"broken-room/{name}.csv"
        header = path.read_text().splitlines()[0].split(",")
        path.write_text(",".join(header) + "\n" + ",".join(row.get(key, "") for key in header) + "\n")
    return tmp_path


def parts(block: str) -> tuple[list[str], list[str]]:
    """The words of its command, and the lines that it prints."""
    command, *expected = block.strip().splitlines()
    return command.removeprefix("$ shoalbook ").split(), expected


@pytest.mark.parametrize("block", BLOCKS)
def test_console_block_prints_what_it_says(block: str, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    words, expected = parts(block)
    monkeypatch.chdir(folder)
    # How many rows are ready is not said, but for lists with hardly any.
    _, said, complained = run(*words, *(FEW if words[0] in {"build", "merge"} else ()))
    assert [line.rstrip() for line in (said + complained).strip().splitlines()] == expected


def test_a_console_block_prints_the_same_in_a_process_of_its_own(folder: Path) -> None:
    (block,) = (block for block in BLOCKS if " broken-room " in block)
    words, expected = parts(block)
    done = subprocess.run(
        [sys.executable, "-m", "workbook", *words],
        cwd=folder, env={"PYTHONPATH": str(ROOT), "PATH": "", "COLUMNS": "200"}, capture_output=True, text=True, check=False,
    )  # fmt: skip
    said = (done.stdout + done.stderr).strip().splitlines()
    assert [line.rstrip() for line in said] == expected


@pytest.mark.parametrize(("command", "wanted"), [
    ("build", {"--output", "--edition", "--units", "--spare-rows", "--plan-date", "--library", "--follow", "--carry-out"}), ("compare", {"--json"}),
    ("merge", {"--output", "--also", "--spare-rows", "--plan-date"}), ("check", {"--json"}),
])  # fmt: skip
def test_every_option_is_in_the_readme_and_has_help(command: str, wanted: set[str]) -> None:
    said = CliRunner().invoke(app, [command, "--help"], env={"COLUMNS": "200", "NO_COLOR": "1", "TERM": "dumb"}).output
    options = set(re.findall(r"--[a-z][a-z-]+", said)) - {"--help"}
    assert options == wanted
    assert f"shoalbook {command} " in README
    assert {option for option in options if f"`{option}`" not in README} == set()


def test_the_usual_number_of_ready_rows_is_said() -> None:
    assert f"ready rows below the data, {SPARE_ROWS} without it" in README


def test_pictures_of_the_readme_are_kept() -> None:
    shown = re.findall(r"!\[[^\]]+\]\((output/pictures/[^)]+)\)", README)
    assert len(shown) >= 1
    assert [name for name in shown if not (ROOT / name).is_file()] == []


def test_first_paragraph_is_the_job_and_two_commands_follow() -> None:
    title, job, *_ = README.split("\n\n")
    assert title == "# shoalbook"
    assert job.startswith("Someone with a room full of freshwater tanks")
    assert README.index("shoalbook build\n") < README.index("-m pytest\n") < README.index("## What is in the workbook")
