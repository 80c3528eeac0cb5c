"""Workbooks that many tests look at: each is built once a session, and all workers share it through files."""

import contextlib
import datetime
import functools
import io
import os
import pickle
import re
import shutil
import tempfile
import time
import zipfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import openpyxl

from tests import office, short, small_room
from workbook.build import Plan, compute, read, save, templates_folder
from workbook.cells.pages import Records
from workbook.editions import EDITIONS

FOLDER = "SHOALBOOK_TEST_BOOKS"
DAY, ROOM_DAY = datetime.date(2026, 10, 5), datetime.date(2026, 4, 15)
SPARE_ROWS = 2
ROWS = re.compile(rb'<row r="(\d+)"(?:[^>]*/>|.*?</row>)', re.DOTALL)
LONG_IN_ROOM = ("week", "attention", "open_lines")
# What a shop of a few tanks sells, besides goods.
SHOP_TANKS, LINES_EACH, GOODS, LOG_ROWS, COMPARED = 6, 4, 6, 60, 8


def start() -> None:
    """Make the folder that all workers share; they are told of it by the environment."""
    os.environ[FOLDER] = tempfile.mkdtemp(prefix="books-")


def end() -> None:
    """Take the folder away."""
    shutil.rmtree(os.environ.pop(FOLDER), ignore_errors=True)


def shared(name: str, make: Callable[[Path], object]) -> Path:
    """A file of the session: whoever needs it first makes it, the others wait for it. Nobody may change it."""
    target = Path(os.environ[FOLDER]) / name
    if not target.exists():
        with _alone(target.with_name(f"{name}.lock")):
            if not target.exists():
                unfinished = target.with_name(f"unfinished {name}")
                make(unfinished)
                unfinished.rename(target)
    return target


@contextlib.contextmanager
def _alone(lock: Path) -> Iterator[None]:
    """One worker at a time; a folder is made by one of them only, on every system."""
    while True:
        try:
            lock.mkdir()
        except FileExistsError:
            time.sleep(0.1)
        else:
            break
    try:
        yield
    finally:
        lock.rmdir()


# --- what stands in them ---


def template(edition: str, room: str) -> Path:
    """The folder of a starting set."""
    own = templates_folder() / f"{edition}-{room}"
    return own if own.is_dir() else templates_folder() / room


@functools.cache
def whole(edition: str, room: str = "demo") -> Records:
    """A starting set, row by row."""
    return read(template(edition, room), EDITIONS[edition]())


@functools.cache
def few(edition: str, room: str = "demo") -> Records:
    """The same with a few rows of its longest lists, and of the library only the species that it names."""
    records = dict(whole(edition, room))
    if stock := records.get("stock", []):
        gone = {tank["tank"] for tank in records["tanks"][SHOP_TANKS:]}
        records = {key: [row for row in rows if row.get("tank") not in gone] for key, rows in records.items()}
        lines = [[row for row in stock if row.get("tank") == tank["tank"]][:LINES_EACH] for tank in records["tanks"]]
        goods = [row for row in records["stock"] if not row.get("species")][:GOODS]
        records["stock"] = [row for some in [*lines, goods] for row in some]
        codes = {row["code"] for row in records["stock"]}
        records["ledger"] = [row for row in records["ledger"] if row["code"] in codes]
    records["log"] = records["log"][-LOG_ROWS:]
    if compared := records.get("compared"):
        records["compared"] = compared[:COMPARED]
    named = {str(value) for key, rows in records.items() if key != "species" for row in rows for value in row.values()}
    records["species"] = [row for row in records["species"] if row["species"] in named | {"Neon tetra"}]
    return records


@functools.cache
def _blank(edition: str) -> Records:
    return read(template(edition, "blank"), EDITIONS[edition]())


def blank(edition: str = "keeper") -> Records:
    """The set with which people start; whoever asks may change its lists, not what stands in their rows."""
    return {key: list(rows) for key, rows in _blank(edition).items()}


# --- the books ---


def book(
    edition: str = "keeper", units: str = "metric", room: str = "demo", *, complete: bool = False, full: bool = False
) -> Path:
    """The file of a starting set: complete, or with few rows and short answers, or with few rows and answers in full.

    One in which no plan date is typed is built today.
    """
    typed = any("plan_date_typed" in row for row in few(edition, room)["settings"])
    plan = Plan(edition, units, SPARE_ROWS, DAY if typed else datetime.datetime.now().astimezone().date())
    records = (whole if complete else few)(edition, room)

    def make(path: Path) -> None:
        with short.in_full() if complete or full else short.answers():
            save(path, compute(EDITIONS[edition](), records, plan), plan)

    return shared(f"{edition}-{room}-{units}{'-complete' if complete else '-full' if full else ''}.xlsx", make)


def room(*, whole: bool = True) -> Path:
    """The small room in trouble as a workbook; what is due and what is wrong is listed in full, or in few lines too."""
    plan = Plan(spare_rows=6, plan_date=ROOM_DAY)

    def make(path: Path) -> None:
        with tempfile.TemporaryDirectory() as folder, short.answers(*LONG_IN_ROOM if whole else ()):
            save(path, compute(EDITIONS["keeper"](), small_room.records(Path(folder)), plan), plan)

    return shared("room.xlsx" if whole else "short-room.xlsx", make)


def formulas(path: Path) -> dict[office.At, str]:
    """Every formula of a shared book."""
    found: dict[office.At, str] = _read(path, office.formulas)
    return found


def values(path: Path) -> office.Cells:
    """Every value of a shared book."""
    found: office.Cells = _read(path, office.values)
    return found


def opened(path: Path, *whole_ones: str, rows: int = 0, formulas: bool = False) -> openpyxl.Workbook:
    """A file as openpyxl sees it, with the cells of these sheets, and of each other one of its first rows alone.

    Every cell that it reads takes as long as all of what stands around the cells.
    """
    kept = io.BytesIO()
    with zipfile.ZipFile(path) as whole, zipfile.ZipFile(kept, "w") as few_cells:
        titles = {f"sheet{n}.xml": title for n, title in enumerate(office.titles(path), 1)}
        for part in whole.namelist():
            content = whole.read(part)
            if part.startswith("xl/worksheets/sheet") and titles[part.rpartition("/")[2]] not in whole_ones:
                content = ROWS.sub(lambda row: row[0] if int(row[1]) <= rows else b"", content)
            few_cells.writestr(part, content)
    return openpyxl.load_workbook(kept, data_only=not formulas)


def column(path: Path, name: str) -> list[office.Value]:
    """What stands under a defined name of a shared book."""
    return [values(path).get(at, "") for at in office.cells_of(office.areas(path)[name])]


@functools.lru_cache(maxsize=6)
def _read(path: Path, reader: Callable[[Path], Any]) -> Any:
    def make(target: Path) -> None:
        target.write_bytes(pickle.dumps(reader(path)))

    return pickle.loads(shared(f"{path.name}.{reader.__name__}", make).read_bytes())
