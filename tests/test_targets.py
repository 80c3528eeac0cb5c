"""What stands where the output goes: only a regular file is ever replaced, and it keeps its rights."""

import os
import socket
import stat
from pathlib import Path

import pytest
from typer.testing import CliRunner

from workbook.cli import app
from workbook.files.targets import moved_in, writable
from workbook.findings import BadInputError

HELD = "what was there"


def _pipe(path: Path) -> None:
    os.mkfifo(path)


def _socket(path: Path) -> None:
    # A path of a socket may be short only, so it is made in its own folder.
    here = Path.cwd()
    os.chdir(path.parent)
    try:
        with socket.socket(socket.AF_UNIX) as made:
            made.bind(path.name)
    finally:
        os.chdir(here)


def _circle(path: Path) -> None:
    path.symlink_to(path.name)


def _link_to_pipe(path: Path) -> None:
    os.mkfifo(path.parent / "behind it")
    path.symlink_to("behind it")


NODES = {
    "a folder": Path.mkdir,
    "a pipe": _pipe,
    "a socket": _socket,
    "a link that leads in a circle": _circle,
    "a pipe ": _link_to_pipe,
}


def commands(target: Path) -> list[list[str]]:
    """Every command that writes a file, on sources that are not there: what stands at the target is told first."""
    missing = str(target.parent / "not there.xlsx")
    return [
        ["build", "demo", "-o", str(target)],
        ["build", missing, "-o", str(target)],
        ["merge", missing, missing, "-o", str(target)],
    ]


@pytest.mark.parametrize("found", NODES)
def test_what_is_no_regular_file_is_never_replaced(found: str, tmp_path: Path) -> None:
    """Refused in one line with exit code 2, before anything is read; what stood there stays."""
    target = tmp_path / "out.xlsx"
    NODES[found](target)
    before = target.lstat()
    for command in commands(target):
        result = CliRunner().invoke(app, command)
        assert result.exit_code == 2
        assert f"{target}: found {found.strip()}; expected a name that is free" in result.stderr.replace("\n", "")
        assert (target.lstat().st_mode, target.lstat().st_ino) == (before.st_mode, before.st_ino)
    assert not list(tmp_path.glob(".shoalbook-*"))


@pytest.mark.parametrize("found", NODES)
def test_no_plain_file_replaces_what_is_no_file(found: str, tmp_path: Path) -> None:
    """Export looks at every file of its folder before it reads anything."""
    target = tmp_path / "tanks.csv"
    NODES[found](target)
    result = CliRunner().invoke(app, ["export", str(tmp_path / "not there.xlsx"), "-o", str(tmp_path)])
    assert result.exit_code == 2
    assert f"{target}: found {found.strip()}" in result.stderr.replace("\n", "")


def test_a_link_stays_and_the_file_behind_it_is_replaced(tmp_path: Path) -> None:
    """Also where the file behind it is not there yet."""
    for name in ("there", "not there yet"):
        link, behind = tmp_path / f"link to {name}", tmp_path / "elsewhere" / name
        behind.parent.mkdir(exist_ok=True)
        link.symlink_to(behind)
        if name == "there":
            behind.write_text(HELD)
        with moved_in(link) as beside:
            assert beside.parent == behind.parent
            beside.write_text("new")
        assert link.is_symlink()
        assert behind.read_text() == "new"


def test_the_rights_of_a_replaced_file_are_kept(tmp_path: Path) -> None:
    """A file that only its owner could read is not shown to others by a merge."""
    for rights in (0o600, 0o640, 0o444):
        target = tmp_path / f"{rights:o}"
        target.write_text(HELD)
        target.chmod(rights)
        with moved_in(target) as beside:
            beside.write_text("new")
        assert stat.S_IMODE(target.stat().st_mode) == rights
        assert target.read_text() == "new"


def test_what_goes_wrong_leaves_the_old_file(tmp_path: Path) -> None:
    """And nothing beside it."""
    target = tmp_path / "out"
    target.write_text(HELD)

    def half_done() -> None:
        with moved_in(target) as beside:
            beside.write_text("half")
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        half_done()
    assert target.read_text() == HELD
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def test_a_free_name_and_a_regular_file_are_writable(tmp_path: Path) -> None:
    """So is a name in a folder that is not there yet."""
    assert writable(tmp_path / "new" / "file.xlsx") == tmp_path.resolve() / "new" / "file.xlsx"
    (tmp_path / "old").write_text(HELD)
    assert writable(tmp_path / "old") == tmp_path.resolve() / "old"
    with pytest.raises(BadInputError, match="found a folder"):
        writable(tmp_path)
