"""The command line: what it takes, says and returns, and that the same input gives the same bytes."""

import datetime
import os
import re
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import openpyxl
import pytest
import typer
from typer.testing import CliRunner

from tests import office, short, small_room
from tests.returned import small
from workbook import __version__
from workbook.build import Plan, build, templates_folder
from workbook.cli import app
from workbook.files.xlsx_writing import Writer
from workbook.findings import BadInputError

ROOT = Path(__file__).parent.parent
SMALL = ["--spare-rows", "1"]
COMMANDS = typer.main.get_command(app).commands  # type: ignore[attr-defined]


def run(*words: str | Path) -> tuple[int, str, str]:
    """Exit code, what is said, what is complained about."""
    result = CliRunner().invoke(app, [str(word) for word in words], env={"COLUMNS": "200"})
    if result.exception and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result.exit_code, result.stdout, result.stderr


def outside(folder: Path, *words: str | Path, **env: str) -> subprocess.CompletedProcess[str]:
    """The command in a process of its own, in another folder."""
    return subprocess.run(
        [sys.executable, "-m", "workbook", *map(str, words)],
        cwd=folder,
        env=os.environ | {"PYTHONPATH": str(ROOT)} | env,
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
        timeout=120,
    )


def settings(path: Path) -> dict[str, object]:
    """Labels and values of the room's settings."""
    book = openpyxl.load_workbook(path, data_only=True, read_only=True)
    found = {row[0]: row[1] for row in book["Start"].iter_rows(max_col=2, values_only=True)}
    book.close()
    return found


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo's workbook, with few spare rows."""
    target = tmp_path_factory.mktemp("demo") / "demo.xlsx"
    with short.answers():
        code, said, complained = run("build", "demo", "-o", target, "--plan-date", "2026-03-31", *SMALL)
    assert (code, complained) == (0, "")
    assert re.fullmatch(rf"{re.escape(str(target))}: \d+ sheets; .+\n", said)
    return target


@pytest.fixture(scope="module")
def room(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small room's workbook."""
    folder = tmp_path_factory.mktemp("room")
    assert run("build", small_room.write(folder / "room"), "-o", folder / "room.xlsx", *SMALL)[0] == 0
    return folder / "room.xlsx"


# --- building ---


def test_a_demo(demo: Path) -> None:
    found = settings(demo)
    assert "(invented)" in str(found["Name of the room"])
    assert found["Units"] == "metric"
    assert found["Made by shoalbook"] == __version__
    assert list(demo.parent.iterdir()) == [demo]
    assert demo.stat().st_mode & 0o777 == 0o644


def test_the_default_place_and_the_plan_date(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    room = small(tmp_path / "room", "keeper", species=3)
    code, said, _ = run("build", "room", "--plan-date", "2026-01-01", *SMALL)
    assert code == 0
    assert said.startswith("output/keeper.xlsx: ")
    first = tmp_path / "output" / "keeper.xlsx"
    assert list(first.parent.iterdir()) == [first]
    second = tmp_path / "second.xlsx"
    build(room, second, Plan(spare_rows=1, plan_date=datetime.date(2026, 1, 2)))
    assert first.read_bytes() != second.read_bytes()
    found = [settings(file)["Reckoned for"] for file in (first, second)]
    assert found == [datetime.datetime(2026, 1, day) for day in (1, 2)]


def test_today_is_the_plan_date(monkeypatch: pytest.MonkeyPatch) -> None:
    plans: list[Plan] = []

    def stop(_folder: Path, _target: Path, plan: Plan, _say: object) -> None:
        plans.append(plan)
        raise BadInputError([])

    monkeypatch.setattr("workbook.cli.build_workbook", stop)
    before, (code, *_), after = datetime.datetime.now().date(), run("build"), datetime.datetime.now().date()
    assert code == 2
    assert before <= plans[0].plan_date <= after


def test_an_own_folder_units_rows_and_date(tmp_path: Path) -> None:
    room = small(tmp_path / "Süd room", "keeper", species=3)
    target = tmp_path / "new" / "folder" / "book.xlsx"
    code, _, complained = run(
        "build", room, "--units", "us", "--spare-rows", "3", "--plan-date", "2026-03-31", "-o", target
    )
    assert (code, complained) == (0, "")
    found = settings(target)
    assert found["Units"] == "us"
    assert found["Reckoned for"] == datetime.datetime(2026, 3, 31)
    _, top, _, bottom, _ = office.areas(target)["waters_water"]
    assert bottom - top + 1 == 3


def test_a_folder_comes_before_a_starting_set(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    shutil.copytree(templates_folder() / "blank", tmp_path / "demo")
    (tmp_path / "demo" / "tanks.csv").unlink()
    code, _, complained = run("build", "demo", *SMALL)
    assert code == 2
    assert complained.startswith("tanks.csv: found no such file; ")
    assert not (tmp_path / "output").exists()


def test_shared_is_no_starting_set(tmp_path: Path) -> None:
    code, _, complained = run("build", "shared", "-o", tmp_path / "a.xlsx")
    assert code == 2
    assert "tanks.csv: found no such file" in complained


def test_an_edition_has_its_own_starting_sets(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    code, said, complained = run("build", "blank", "--edition", "shop", "--plan-date", "2026-01-01", *SMALL)
    assert (code, complained) == (0, "")
    assert said.startswith("output/shop.xlsx: ")
    found = settings(tmp_path / "output" / "shop.xlsx")
    assert found["Edition"] == "shop"
    assert found["Name of the shop"]
    code, _, complained = run("build", templates_folder() / "blank", "--edition", "shop", *SMALL)
    assert code == 2
    assert "stock.csv: found no such file" in complained


# --- words ---


def test_version() -> None:
    assert run("--version") == (0, f"shoalbook {__version__}\n", "")


def test_no_words_give_help() -> None:
    code, said, complained = run()
    assert code in {0, 2}  # click has changed its mind
    assert "build" in said + complained


@pytest.mark.parametrize("name", COMMANDS)
def test_every_option_has_help(name: str) -> None:
    code, said, complained = run(name, "--help")
    assert (code, complained) == (0, "")
    plain = re.sub(r"[\s│]+", " ", said)
    for parameter in COMMANDS[name].params:
        assert getattr(parameter, "help", ""), f"{parameter.name} says nothing"
        assert re.sub(r"\s+", " ", parameter.help) in plain
        for option in parameter.opts if parameter.param_type_name == "option" else ():
            assert option in said
    assert COMMANDS[name].help in plain


@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        (["bild"], "No such command 'bild'"),
        (["build", "--colour", "red"], "No such option"),
        (["build", "demo", "more"], "unexpected extra argument"),
        (["build", "-o"], "requires an argument"),
        (["build", "--units", "roman"], "Invalid value for '--units'"),
        (["build", "--edition", "pond"], "Invalid value for '--edition'"),
        *(
            (["build", "--spare-rows", rows], "Invalid value for '--spare-rows'")
            for rows in ("0", "20001", "1.5", "few")
        ),
        *(
            (["build", "--plan-date", day], f"found '{day}'; expected a date such as 2026-03-31, from 1970 to 2150")
            for day in ("2026-02-30", "31.12.2026", "20261231", "1969-12-31", "2151-01-01", "tomorrow", "")
        ),
    ],
)
def test_wrong_words(words: list[str], wanted: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    code, said, complained = run(*words)
    assert (code, said) == (2, "")
    assert wanted in re.sub(r"[\s│]+", " ", complained)
    assert not list(tmp_path.iterdir())


# --- the same bytes ---


@pytest.mark.parametrize(
    "env",
    [
        {"PYTHONHASHSEED": "1", "TZ": "Pacific/Kiritimati", "LANG": "C", "LC_ALL": "C"},
        {
            "PYTHONHASHSEED": "4711",
            "TZ": "America/Adak",
            "LANG": "de_DE.UTF-8",
            "LC_ALL": "de_DE.UTF-8",
            "PYTHONUTF8": "0",
        },
    ],
    ids=["C", "de"],
)
def test_the_same_bytes_anywhere(room: Path, tmp_path: Path, env: dict[str, str]) -> None:
    """Nor does --plan-date matter: the room's own is typed."""
    folder = small_room.write(tmp_path / "room")
    done = outside(tmp_path, "build", folder, "-o", "same.xlsx", "--plan-date", "2031-01-01", *SMALL, **env)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("same.xlsx: ")
    assert (tmp_path / "same.xlsx").read_bytes() == room.read_bytes()


def test_faults_from_another_folder(tmp_path: Path) -> None:
    done = outside(tmp_path, "build", "nowhere", LANG="C", LC_ALL="C")
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.splitlines() == [
        "nowhere: found no such folder; expected a folder of CSV files, the name of a starting set, or an edited workbook",
        "1 found; nothing was written.",
    ]
    assert not list(tmp_path.iterdir())


# --- failing midway ---


@pytest.mark.parametrize(
    "error", [OSError(28, "No space left on device"), RuntimeError("a fault of ours"), KeyboardInterrupt()]
)
def test_failing_midway_leaves_the_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, error: BaseException
) -> None:
    room, target = small(tmp_path / "room", "keeper", species=3), tmp_path / "out" / "book.xlsx"
    target.parent.mkdir()
    target.write_bytes(b"an older workbook")
    add_page, pages = Writer.add_page, []

    def add(writer: Writer, page: object, values: object) -> None:
        assert len(list(target.parent.iterdir())) == 2
        if len(pages) == 3:
            raise error
        pages.append(page)
        add_page(writer, page, values)  # type: ignore[arg-type]

    monkeypatch.setattr(Writer, "add_page", add)
    result = CliRunner().invoke(app, ["build", str(room), "-o", str(target), *SMALL])
    if isinstance(error, OSError):
        assert result.exit_code == 2
        assert result.stderr == f"{target}: No space left on device; nothing was written.\n"
    assert result.exit_code != 0
    assert result.stdout == ""
    assert len(pages) == 3
    assert target.read_bytes() == b"an older workbook"
    assert list(target.parent.iterdir()) == [target]


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="needs signals")
def test_a_kill_midway_leaves_the_old_file(tmp_path: Path) -> None:
    room, target = small(tmp_path / "room", "keeper", species=3), tmp_path / "book.xlsx"
    target.write_bytes(b"an older workbook")
    script = (
        "import os, signal, sys; from workbook.cli import app; from workbook.files.xlsx_writing import Writer\n"
        "Writer.add_page = lambda *_: os.kill(os.getpid(), signal.SIGKILL)\n"
        f"app(['build', {str(room)!r}, '-o', {str(target)!r}, '--spare-rows', '1'])"
    )
    done = subprocess.run([sys.executable, "-c", script], cwd=ROOT, capture_output=True, check=False, timeout=120)
    assert done.returncode == -signal.SIGKILL
    assert target.read_bytes() == b"an older workbook"
