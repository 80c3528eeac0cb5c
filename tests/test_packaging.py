"""What people install: the wheel, also the one made from the sdist, holds all it needs and runs from an empty folder."""

import os
import shutil
import subprocess
import sys
import zipfile
from email.parser import HeaderParser
from pathlib import Path

import openpyxl
import pytest

from workbook import __version__

ROOT = Path(__file__).parent.parent


def packed(kind: str, source: Path, out: Path) -> Path:
    """A wheel or an sdist of a folder, by the project's own build tool, without the internet."""
    program = (
        f"import os, sys; os.chdir(sys.argv[1]); from hatchling.build import build_{kind} as build; build(sys.argv[2])"
    )
    subprocess.run([sys.executable, "-c", program, str(source), str(out)], check=True, capture_output=True)
    (made,) = out.iterdir()
    return made


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("wheel")
    return packed("wheel", ROOT, out)


@pytest.fixture(scope="module")
def sdist(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return packed("sdist", ROOT, tmp_path_factory.mktemp("sdist"))


def contents(path: Path) -> dict[str, bytes]:
    with zipfile.ZipFile(path) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel unpacked, as an installer does."""
    folder = tmp_path_factory.mktemp("installed")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder)
    return folder


def run(installed: Path, here: Path, *words: str) -> str:
    """What the installed command prints in a folder away from the checkout."""
    (points,) = installed.glob("*.dist-info/entry_points.txt")
    module, _, function = points.read_text().partition("shoalbook = ")[2].strip().partition(":")
    program = f"import sys; from {module} import {function} as start; assert {str(installed)!r} in sys.modules[{module!r}].__file__; sys.exit(start())"
    done = subprocess.run(
        [sys.executable, "-P", "-c", program, *words],
        cwd=here, env=os.environ | {"PYTHONPATH": str(installed), "COLUMNS": "200"}, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout.strip()


def test_the_wheel_holds_every_template(wheel: Path) -> None:
    held = contents(wheel)
    beside = {f"workbook/{path.relative_to(ROOT)}": path for path in (ROOT / "templates").rglob("*.csv")}
    assert {name for name in held if name.startswith("workbook/templates/")} == beside.keys()
    assert all(held[name] == path.read_bytes() for name, path in beside.items())
    assert not [name for name in held if "tests/" in name]


def test_licence_and_version_come_along(wheel: Path) -> None:
    held = contents(wheel)
    told = HeaderParser().parsestr(next(held[name] for name in held if name.endswith("dist-info/METADATA")).decode())
    assert (told["Name"], told["Version"], told["License-Expression"], told["License-File"]) == (
        "shoalbook", __version__, "MIT", "LICENSE",
    )  # fmt: skip
    (licence,) = (held[name] for name in held if name.endswith("licenses/LICENSE"))
    assert licence == (ROOT / "LICENSE").read_bytes()
    assert told.get_payload().startswith("# shoalbook")


def test_the_sdist_makes_the_same_wheel_and_can_be_tested(wheel: Path, sdist: Path, tmp_path: Path) -> None:
    shutil.unpack_archive(sdist, tmp_path / "source")
    (source,) = (tmp_path / "source").iterdir()
    assert contents(packed("wheel", source, tmp_path / "again")) == contents(wheel)
    assert {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", "tests"} <= {
        path.name for path in source.iterdir()
    }


def test_the_command_says_its_version(installed: Path, tmp_path: Path) -> None:
    assert run(installed, tmp_path, "--version") == f"shoalbook {__version__}"


def test_the_command_finds_the_starting_sets_it_came_with(installed: Path, tmp_path: Path) -> None:
    """One of them: that all are there is seen in the wheel, and .ci/run builds each of them from it."""
    edition = "shop"
    assert "sheets; " in run(
        installed, tmp_path, "build", "blank", "--edition", edition, "-o", "made.xlsx", "--spare-rows", "1"
    )
    book = openpyxl.load_workbook(tmp_path / "made.xlsx", read_only=True)
    facts = {fact.name: fact.value for fact in book.custom_doc_props.props} if hasattr(book, "custom_doc_props") else {}
    start = [[cell.value for cell in row] for row in book["Start"].iter_rows()]
    book.close()
    assert ["Made by shoalbook", __version__] in [row[:2] for row in start]
    assert facts["shoalbook version"] == __version__
    assert facts["shoalbook edition"] == edition
