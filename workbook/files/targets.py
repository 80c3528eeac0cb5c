"""Where the output goes: a name that is free, a regular file, or a link to either; nothing else is ever replaced."""

import contextlib
import os
import stat
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import NoReturn

from workbook.findings import BadInputError, Finding

NEW_FILE = 0o644
SORTS = (
    (stat.S_ISDIR, "a folder"),
    (stat.S_ISCHR, "a device"),
    (stat.S_ISBLK, "a device"),
    (stat.S_ISFIFO, "a pipe"),
    (stat.S_ISSOCK, "a socket"),
)


def writable(target: Path) -> Path:
    """The file that a name leads to, links followed; BadInputError when something stands there that is no regular file."""
    try:
        place = target.resolve()
        mode = place.stat().st_mode
    except FileNotFoundError:
        return place
    except (RuntimeError, OSError) as error:
        if isinstance(error, PermissionError | NotADirectoryError):
            raise
        refuse(target, "a link that leads in a circle")
    if not stat.S_ISREG(mode):
        refuse(target, next((words for is_one, words in SORTS if is_one(mode)), "something that is no file"))
    return place


def refuse(target: Path, found: str) -> NoReturn:
    """One line about a name that nothing can be written under."""
    raise BadInputError([Finding(str(target), None, "", found, "a name that is free, or a regular file to replace")])


@contextlib.contextmanager
def moved_in(target: Path) -> Iterator[Path]:
    """A file to write beside its place; it is moved in when all went well, and an old file stays whole until then.

    It takes over the rights of the file that it replaces. A link stays a link.
    """
    place = writable(target)
    place.parent.mkdir(parents=True, exist_ok=True)
    # Not named .xlsx: what a power cut leaves behind must not pass for a workbook.
    handle, name = tempfile.mkstemp(suffix=".part", prefix=".shoalbook-", dir=place.parent)
    os.close(handle)
    beside = Path(name)
    try:
        yield beside
        _take_over_rights(place, beside)
        beside.replace(place)
    finally:
        beside.unlink(missing_ok=True)


def _take_over_rights(place: Path, beside: Path) -> None:
    try:
        before = place.stat()
    except FileNotFoundError:
        beside.chmod(NEW_FILE)
        return
    if hasattr(os, "chown"):
        with contextlib.suppress(PermissionError):  # only an administrator may give a file to somebody else
            os.chown(beside, before.st_uid, before.st_gid)
    beside.chmod(stat.S_IMODE(before.st_mode))
