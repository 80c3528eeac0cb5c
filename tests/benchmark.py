"""How long a build takes against bare XlsxWriter, how long copies take to come back against bare openpyxl, and how both grow. Run: python -m tests.benchmark."""

import argparse
import contextlib
import csv
import json
import math
import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import xlsxwriter

from tests import office, short
from workbook.build import Built, Plan, build, compute, read, templates_folder
from workbook.editions import EDITIONS, Edition
from workbook.files import look
from workbook.files.xlsx_writing import About, write
from workbook.sheets.attention import attention_sheet
from workbook.sheets.start import start_sheet

EDITION = EDITIONS["keeper"]()
# Rows at size 1; lists not named here keep their share to the tanks of the demo.
ROWS = {"tanks": 50, "livestock": 500, "species": 200, "log": 200}
QUICK_ROWS = {"tanks": 4, "livestock": 10, "log": 20}
# As when installed: modules are compiled once, and not at every start.
COMPILED = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
AIMS = "processor time in s; aims: build/bare <= 2.5, better 1.6; exponent of total <= 1.2; memory < 1 GB at size 10"


@dataclass(frozen=True)
class Scale:
    """How large everything is, and how often it is measured: in full, or once and so small that it is over at once."""

    sizes: tuple[float, ...] = (1, 3, 10)
    tries: int = 3
    species: int = 2000
    lines: tuple[int, ...] = (500, 2000)
    copies: tuple[int, ...] = (2, 20)
    spare_rows: int = Plan().spare_rows
    bare_sheets: int | None = None
    demos: tuple[str, ...] = ("keeper", "shop")
    shop_tanks: int | None = None
    is_quick: bool = False

    def keeper_room(self, folder: Path) -> Path:
        """The demo; where all is small, the smallest room that was made to see how times grow."""
        return folder / f"room{self.sizes[0]}" if self.is_quick else templates_folder() / "demo"

    def plan(self, edition: str = "keeper") -> Plan:
        """What is asked for of every workbook."""
        return Plan(edition, spare_rows=self.spare_rows)


FULL = Scale()
QUICK = Scale(
    (0.05, 0.1), 1, 30, (24,), (1,), spare_rows=1, bare_sheets=3, demos=("keeper",), shop_tanks=4, is_quick=True
)


# --- rooms ---


def rows_of(path: Path) -> list[dict[str, str]]:
    """The rows of a CSV file, as they stand there."""
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def write_room(folder: Path, size: float, wanted: dict[str, int] | None = None) -> None:
    """The demo over and over, with names of its own for each copy, and each copy's links within it."""
    demo, shared = templates_folder() / "demo", templates_folder() / "shared"
    lists = {t.key: t for t in EDITION.tables if t.typed and t.is_list}
    given = {key: rows_of((demo if (demo / f"{key}.csv").exists() else shared) / f"{key}.csv") for key in lists}
    wanted = wanted or ROWS
    share = wanted["tanks"] / len(given["tanks"])
    count = {key: max(1, round(wanted.get(key, len(rows) * share) * size)) for key, rows in given.items()}
    own = {key: table.row_name[0] for key, table in lists.items() if table[table.row_name[0]].kind.name == "key"}
    names: dict[str, dict[str, list[str]]] = {key: {} for key in own}
    for key, column in own.items():
        for i in range(count[key]):
            copy, at = divmod(i, len(given[key]))
            name = given[key][at][column]
            names[key].setdefault(name, []).append(f"{name} {copy + 1}" if copy else name)
    # Of a list that is cut short the first one stands for those that are not in it.
    linked = {
        key: {row[own[key]]: names[key][given[key][0][own[key]]] for row in given[key]} | names[key] for key in own
    }
    for key, table in lists.items():
        named = {c.key: linked[c.kind.table] for c in table.typed if c.kind.name == "link" and c.kind.table in linked}
        named |= {own[key]: names[key]} if key in own else {}
        rows = []
        for i in range(count[key]):
            copy, at = divmod(i, len(given[key]))
            texts = given[key][at]
            found = {c: by_name[texts[c]] for c, by_name in named.items() if texts[c] in by_name}
            rows.append(texts | {c: some[copy % len(some)] for c, some in found.items()})
        _write(folder / f"{key}.csv", rows)
        for name in sorted({c.kept_in for c in table.typed if c.kept_in}):
            column = own[key]
            more = rows_of(demo / f"{name}.csv")
            _write(
                folder / f"{name}.csv", [row | {column: to} for row in more for to in names[key].get(row[column], [])]
            )
    for form in (t for t in EDITION.tables if t.form and (demo / f"{t.key}.csv").exists()):
        _write(folder / f"{form.key}.csv", rows_of(demo / f"{form.key}.csv"))


def _write(path: Path, rows: list[dict[str, str]]) -> None:
    """These rows under their header, or none under the one that is there."""
    header = list(rows[0]) if rows else path.read_text(encoding="utf-8").splitlines()[0].split(",")
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, header)
        writer.writeheader()
        writer.writerows(rows)


# --- against bare XlsxWriter ---


def bare_cells(built: Built) -> list[tuple[str, list[tuple[Any, ...]]]]:
    """Every cell of a workbook by sheet: kind, row, column, content, style, cached value."""
    pages = []
    for page in built.pages:
        title = page.placed.sheet.title
        cells: list[tuple[Any, ...]] = [
            (c.kind, c.row - 1, c.column - 1, c.content, c.style, None) for c in page.cells if c.kind != "formula"
        ]
        cells += [
            ("formula", row - 1, column - 1, text, style, built.values[title, row, column])
            for row, column, text, style in page.formulas()
        ]
        pages.append((title, cells))
    return pages


def write_bare(path: Path, pages: list[tuple[str, list[tuple[Any, ...]]]], *, search: bool = True) -> None:
    """The same cells with nothing around them; with or without the search for new functions in each formula."""
    book = xlsxwriter.Workbook(str(path))
    formats = {style: book.add_format(look.properties(*style)) for style in {c[4] for _, cells in pages for c in cells}}
    for title, cells in pages:
        sheet = book.add_worksheet(title)
        if not search:
            sheet._prepare_formula = lambda formula, _expand=False: formula[1:]
        for kind, row, column, content, style, value in cells:
            if kind == "number":
                sheet.write_number(row, column, content, formats[style])
            elif kind == "text":
                sheet.write_string(row, column, content, formats[style])
            elif kind == "blank":
                sheet.write_blank(row, column, None, formats[style])
            else:
                sheet.write_formula(row, column, content, formats[style], value)
    book.close()


def best(of: int, work: Callable[[], object]) -> float:
    """Shortest processor time of a few; the clock would count what else runs."""
    times = []
    for _ in range(of):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return min(times)


def against_bare(folder: Path, scale: Scale) -> None:
    """Print how many times longer a whole build takes than writing its cells, the shortest of a few tries."""
    demo, plan = scale.keeper_room(folder), scale.plan()
    pages = bare_cells(compute(EDITION, read(demo, EDITION), plan))
    whole = best(scale.tries, lambda: build(demo, folder / "whole.xlsx", plan))
    cells = sum(len(cells) for _, cells in pages)
    # Bare XlsxWriter searches each formula for a second where we take a moment: a few sheets stand for all of them.
    pages = pages[: scale.bare_sheets]
    share = sum(len(cells) for _, cells in pages) / cells
    bare = best(scale.tries, lambda: write_bare(folder / "bare.xlsx", pages)) / share
    unsearched = best(scale.tries, lambda: write_bare(folder / "bare.xlsx", pages, search=False)) / share
    print(f"demo, {cells} cells: build {whole:.2f}, bare XlsxWriter {bare:.2f}, build/bare {whole / bare:.2f}")
    print(f"without its search for new functions {unsearched:.2f}, build/that {whole / unsearched:.2f}")


# --- the demos ---


def demos(folder: Path, scale: Scale) -> None:
    """Print what each step of building a demo takes, and how large the file gets."""
    print("demos, processor time in s; aims: keeper <= 3.5 s and 2.4 MB, shop <= 6 s and 4.4 MB")
    for name in scale.demos:
        steps: list[tuple[str, float]] = []
        target, plan = folder / f"{name}-demo.xlsx", scale.plan(name)
        source = scale.keeper_room(folder) if name == "keeper" else templates_folder() / f"{name}-demo"
        build(source, target, plan, lambda step, s=steps: s.append((step, time.process_time())))  # type: ignore[misc]
        ends = [*(at for _, at in steps[1:]), time.process_time()]
        each = ", ".join(f"{step} {end - at:.2f}" for (step, at), end in zip(steps, ends, strict=True))
        print(f"{name}: {ends[-1] - steps[0][1]:.2f} ({each}), {target.stat().st_size / 1e6:.2f} MB", flush=True)


# --- growth ---


def one(folder: Path, size: float, scale: Scale) -> dict[str, float]:
    """Seconds of each step of one build, and the peak of its memory."""
    room = folder / f"room{size}"
    room.mkdir()
    write_room(room, size)
    steps: list[tuple[str, float]] = []
    start = time.process_time()
    built = build(room, folder / f"{size}.xlsx", scale.plan(), lambda step: steps.append((step, time.process_time())))
    ends = [at for _, at in steps[1:]] + [time.process_time()]
    found = {step: end - at for (step, at), end in zip(steps, ends, strict=True)}
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * (1 if sys.platform == "darwin" else 1024)
    cells = sum(len(page) for page in built.pages)
    return found | {"total": time.process_time() - start, "GB": peak / 1e9, "cells": cells}


def growth(folder: Path, scale: Scale) -> None:
    """Print times and memory by size, each size in a process of its own."""
    found: dict[float, dict[str, float]] = {}
    sizes = scale.sizes
    for size in sizes:
        words = [sys.executable, "-m", "tests.benchmark", "--one", str(size), "--folder", str(folder)]
        words += ["--quick"] if scale.is_quick else []
        done = subprocess.run(
            words, check=True, stdout=subprocess.PIPE, text=True, cwd=Path(__file__).parent.parent, env=COMPILED
        )
        found[size] = json.loads(done.stdout)
        if size == sizes[0]:
            print(f"{'size':>8}" + "".join(f" {key:>10}" for key in found[size]))
        print(f"{size:>8}" + "".join(f" {value:>10.4g}" for value in found[size].values()), flush=True)
    least, most = found[sizes[0]], found[sizes[-1]]
    exponents = {key: math.log(most[key] / least[key], sizes[-1] / sizes[0]) for key in most}
    print(f"{'exponent':>8}" + "".join(f" {value:>10.2f}" for value in exponents.values()))


# --- one sheet of answers over a large library ---


def without(*titles: str) -> Edition:
    """The edition without sheets that no other reads."""
    kept = tuple(s for s in EDITION.sheets if s.title not in {*titles, "Start", "Attention"})
    attention, behind, tables, areas = attention_sheet(kept)
    kept = tuple(s for s in kept if s.title != behind.title)
    sheets = (start_sheet((attention, *kept)), attention, *kept, behind)
    return replace(EDITION, sheets=sheets, given=EDITION.given | {"flag_tables": tables, "flag_areas": areas})


def office_seconds(file: Path, folder: Path) -> float:
    """Processor time in which LibreOffice loads and recalculates a file; writing only the first sheet as text."""
    profile = folder / f"profile-{file.stem}"
    office.make_profile(profile, always=True, locale=None)
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run([str(office.soffice()), f"-env:UserInstallation={profile.as_uri()}", "--headless", "--norestore", "--convert-to", "csv", "--outdir", str(folder), str(file)],
                   check=True, capture_output=True)  # fmt: skip
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def candidates_share(folder: Path, scale: Scale) -> None:
    """Print what Candidates and All candidates add to the time LibreOffice takes for the demo with a large library."""
    if office.soffice() is None:
        print("Candidates: no LibreOffice on this machine")
        return
    room, demo, species = folder / "library", templates_folder() / "demo", scale.species
    room.mkdir()
    as_demo = {key: len(rows_of(demo / f"{key}.csv")) for key in ("tanks", "livestock", "log")}
    write_room(room, 1, {"species": species} | (QUICK_ROWS if scale.is_quick else as_demo))
    seconds = {}
    for name, edition in (("with", EDITION), ("without", without("Candidates", "All candidates"))):
        built = compute(edition, read(room, EDITION), scale.plan())
        file = folder / f"{name}.xlsx"
        write(file, built.pages, built.values, built.placing, About(name, {}))
        seconds[name] = office_seconds(file, folder)
    share = seconds["with"] - seconds["without"]
    print(
        f"Candidates over {species} species in LibreOffice: {share:.1f} s of {seconds['with']:.1f}; with/without {seconds['with'] / seconds['without']:.2f}; aim <= 2 s"
    )


# --- copies of a shop that come back ---


def shop_folder(path: Path, lines: int, scale: Scale) -> Path:
    """The invented shop with so many lines of stock, its own over and over under codes of their own."""
    folder = path.with_suffix("")
    shutil.copytree(templates_folder() / "shop-demo", folder)
    if scale.shop_tanks:
        cut_shop(folder, scale.shop_tanks)
    stock = rows_of(folder / "stock.csv")
    _write(folder / "stock.csv", [stock[i % len(stock)] | {"code": f"S{i}"} for i in range(lines)])
    codes = {row["code"]: f"S{i}" for i, row in enumerate(stock[:lines])}
    ledger = [row | {"code": codes[row["code"]]} for row in rows_of(folder / "ledger.csv") if row["code"] in codes]
    _write(folder / "ledger.csv", ledger)
    return folder


def write_shop(path: Path, lines: int, scale: Scale) -> float:
    """Its workbook, and how long that took."""
    folder = shop_folder(path, lines, scale)
    return best(1, lambda: build(folder, path, scale.plan("shop")))


def cut_shop(folder: Path, tanks: int) -> None:
    """Of a shop only its first tanks, what names no other one, and of the library the species that are left."""
    gone = {row["tank"] for row in rows_of(folder / "tanks.csv")[tanks:]}
    named: set[str] = set()
    for file in folder.glob("*.csv"):
        if rows := rows_of(file):
            kept = [row for row in rows if not gone & {*row.values()}]
            named |= {text for row in kept for text in row.values()}
            _write(file, kept)
    _write(
        folder / "species.csv",
        [row for row in rows_of(templates_folder() / "shared" / "species.csv") if row["species"] in named],
    )


def copies_of(path: Path, count: int) -> list[Path]:
    """Edited copies: in each, somebody sold one of each of ten lines."""
    sheet, top, left, *_ = office.areas(path)["stock_on_hand"]
    made = []
    for n in range(count):
        typed: dict[office.At, office.Value] = {(sheet, top + 10 * n + i, left): 7.0 for i in range(10)}
        made.append(office.edited(path, path.with_name(f"{path.stem}-{n}.xlsx"), typed))
    return made


PASS = """
import sys
import openpyxl
for path in sys.argv[1:]:
    book = openpyxl.load_workbook(path, read_only=True, data_only=True)
    for sheet in book.worksheets:
        for _ in sheet.iter_rows():
            pass
"""


def seconds(*words: str | Path) -> float:
    """Processor time of a Python process and of all that it starts; a command may end with 1, that something was found."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run(
        [sys.executable, *map(str, words)],
        capture_output=True,
        text=True,
        check=False,
        cwd=Path(__file__).parent.parent,
        env=COMPILED,
    )
    if done.returncode > 1:
        raise RuntimeError(done.stderr)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def command(*words: str | Path) -> float:
    """Processor time of a whole command."""
    return seconds("-m", "workbook", *words)


def openpyxl_pass(*paths: Path) -> float:
    """Every cell of every file with openpyxl and nothing more, in its faster way, its own start with it."""
    return seconds("-c", PASS, *paths)


def against_pass(name: str, ours: float, theirs: float, aim: float) -> None:
    """Print one comparison."""
    print(f"{name}: {ours:.1f}, openpyxl's pass {theirs:.1f}, ours/pass {ours / theirs:.2f}; aim <= {aim}", flush=True)


def one_copy(folder: Path, scale: Scale) -> None:
    """Print whole commands over the demo shop as built; the shortest of a few tries, in turn, so that both see the same machine."""
    path, of = folder / f"shop-{scale.lines[0]}.xlsx" if scale.is_quick else folder / "demo-shop.xlsx", scale.tries
    if scale.is_quick:
        built = write_shop(path, scale.lines[0], scale)
    else:
        seconds("-c", "import workbook.cli, openpyxl")  # so that no module has to be compiled
        built = command("build", "demo", "--edition", "shop", "-o", path)
    copy = copies_of(path, 1)[0]
    times = [(openpyxl_pass(path), command("export", path, "-o", folder / "plain"), command("compare", path, copy))
             for _ in range(of)]  # fmt: skip
    bare, export, compare = (min(column) for column in zip(*times, strict=True))
    reading = min(seconds("-c", READ, path) for _ in range(of))
    against_pass("reading one demo shop copy", reading, bare, 0.35)
    against_pass("export", export, bare, 0.35)
    against_pass("compare of two", compare, 2 * bare, 0.5)
    if scale.is_quick:  # a command that builds does so with answers in full
        return
    check = min(command("check", path) for _ in range(of))
    print(f"check {check:.1f}, build {built:.1f}, check/(build+reading) {check / (built + reading):.2f}; aim <= 1")


READ = "import sys; from pathlib import Path; from workbook.copies.many import read_copies; read_copies([*map(Path, sys.argv[1:])])"
MERGE = """
import sys
from pathlib import Path
from workbook.copies.commands import tables_of
from workbook.copies.many import read_copies
from workbook.copies.merging import merge
if __name__ == "__main__":
    first, *others = read_copies([*map(Path, sys.argv[1:])])
    merge(first, others, tables_of([first]))
"""


def coming_back(folder: Path, scale: Scale) -> None:
    """Print reading and merging, and the whole command with the building at its end, by lines of stock and by copies."""
    print("copies coming back, processor time in s, children with it")
    script, lines, counts = folder / "merging.py", scale.lines, scale.copies
    script.write_text(MERGE, encoding="utf-8")
    found: dict[tuple[int, int], float] = {}
    sizes = [(many, counts[0]) for many in lines] + [(lines[-1], count) for count in counts[1:]]
    for many, count in sizes:
        base = folder / f"shop-{many}.xlsx"
        if not base.exists():
            write_shop(base, many, scale)
        copies = copies_of(base, count)
        bare = openpyxl_pass(*copies)
        found[many, count] = seconds(script, base, *copies)
        against_pass(f"{many} lines, {count} copies: reading and merging", found[many, count], bare, 0.6)
    if scale.is_quick:
        return
    whole = command("merge", base, *copies, "-o", folder / "merged.xlsx")
    print(
        f"the whole command {whole:.1f}, of it building and the start {whole - found[many, count]:.1f}, whole/pass {whole / bare:.2f}"
    )
    by_lines = math.log(found[sizes[len(lines) - 1]] / found[sizes[0]], lines[-1] / lines[0])
    by_files = math.log(found[sizes[-1]] / found[lines[-1], counts[0]], (counts[-1] + 1) / (counts[0] + 1))
    print(f"exponent by lines {by_lines:.2f}, by files {by_files:.2f}; aims <= 1.05")


def main() -> None:
    """Print both, or make one measurement for the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument(
        "--quick",
        action="store_true",
        help="so small that it is over at once: everything is run, and no figure of it compares with another",
    )
    parser.add_argument("--copies", action="store_true", help="only the copies that come back")
    parser.add_argument("--one", type=float, help=argparse.SUPPRESS)
    parser.add_argument("--folder", type=Path, help=argparse.SUPPRESS)
    words = parser.parse_args()
    scale = QUICK if words.quick else FULL
    with tempfile.TemporaryDirectory() as made, short.answers() if words.quick else contextlib.nullcontext():
        folder = Path(made)
        if words.one:
            print(json.dumps(one(words.folder, words.one, scale)))
            return
        if not words.copies:
            print(AIMS)
            # First: a process on Linux begins with the peak of memory of the one that started it.
            growth(folder, scale)
            demos(folder, scale)
            against_bare(folder, scale)
            candidates_share(folder, scale)
        one_copy(folder, scale)
        coming_back(folder, scale)


if __name__ == "__main__":
    main()
