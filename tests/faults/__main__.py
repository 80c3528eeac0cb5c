"""Puts each fault of the lists beside this file into a copy of the tree and runs the tests that belong to it.

Run: python -m tests.faults [--only ID ...] [--kind KIND ...] [--tree FOLDER] [--results FILE] [--whole] [--seconds N]
"""

import argparse
import ast
import csv
import os
import re
import shutil
import subprocess
import sys
import tempfile
import tomllib
from dataclasses import dataclass
from pathlib import Path

HERE, TREE = Path(__file__).parent, Path(__file__).parent.parent.parent
PARTS = ("workbook", "tests", "templates", "README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", "output")
FAILED = re.compile(r"^(?:FAILED|ERROR) (\S+)", re.MULTILINE)
NOTICED, PASSED, STALE, SLOW = "noticed", "NOT NOTICED", "stale", "too slow"


@dataclass(frozen=True)
class Fault:
    """One change of one place: what stands there, what is put, what a person would get wrong by it, and whose job it is to notice."""

    id: str
    kind: str
    file: str
    find: str
    put: str
    wrong: str
    tests: tuple[str, ...]

    def put_into(self, tree: Path) -> bool:
        """Whether the place was found, once, and what was put can be read."""
        path = tree / self.file
        text = path.read_text(encoding="utf-8") if path.is_file() else ""
        if text.count(self.find) != 1 or self.find == self.put:
            return False
        spoilt = text.replace(self.find, self.put)
        if path.suffix == ".py":
            ast.parse(spoilt)
        path.write_text(spoilt, encoding="utf-8")
        return True


def faults(*, before: bool = False) -> list[Fault]:
    """Every fault of every list; before: as its place was spelled in version 0.1, where a list says so."""
    rows = [row for path in sorted(HERE.glob("*.toml")) for row in tomllib.loads(path.read_text("utf-8"))["fault"]]
    found = []
    for row in rows:
        then = row.pop("before", {})
        found.append(Fault(**{**row, **(then if before else {}), "tests": tuple(row["tests"])}))
    names = [fault.id for fault in found]
    assert len(names) == len(set(names)), "two faults of one id"
    return found


def tried(fault: Fault, tree: Path, wanted: argparse.Namespace) -> tuple[str, str]:
    """What came of it, and the first test that failed."""
    with tempfile.TemporaryDirectory(prefix="fault-") as folder:
        copy = Path(folder)
        for part in PARTS:
            source = tree / part
            if source.is_dir():
                shutil.copytree(source, copy / part, ignore=shutil.ignore_patterns("__pycache__"))
            elif source.exists():
                shutil.copy(source, copy / part)
        if not fault.put_into(copy):
            return STALE, ""
        tests = [] if wanted.whole else [test for test in fault.tests if (copy / test.partition("::")[0]).exists()]
        command = [sys.executable, "-m", "pytest", "-q", "-x", "-p", "no:cacheprovider", "-n", "0", *tests]
        environment = os.environ | {"PYTHONPATH": folder, "PYTHONDONTWRITEBYTECODE": "1"}
        try:
            done = subprocess.run(
                command, cwd=copy, env=environment, capture_output=True, text=True, timeout=wanted.seconds, check=False
            )
        except subprocess.TimeoutExpired:
            return SLOW, ""
    first = FAILED.search(done.stdout)
    return (NOTICED, first[1] if first else "at the start") if done.returncode else (PASSED, "")


def main() -> None:
    """Try the faults that are asked for; those that a file of results knows already are left out."""
    words = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    words.add_argument("--only", nargs="*", help="ids of faults")
    words.add_argument("--kind", nargs="*", help="kinds of faults")
    words.add_argument("--tree", type=Path, default=TREE, help="another checkout to put them into")
    words.add_argument("--results", type=Path, help="a CSV file that is added to")
    words.add_argument("--before", action="store_true", help="the tree is one of version 0.1")
    words.add_argument("--whole", action="store_true", help="run every test, not only those that belong to the fault")
    words.add_argument("--seconds", type=float, default=900)
    words.add_argument("--list", action="store_true", help="only say whether each fault finds its place")
    wanted = words.parse_args()
    chosen = [
        f for f in faults() if (not wanted.only or f.id in wanted.only) and (not wanted.kind or f.kind in wanted.kind)
    ]
    if wanted.list:
        stale = [f.id for f in chosen if (wanted.tree / f.file).read_text(encoding="utf-8").count(f.find) != 1]
        print(f"{len(chosen)} faults; {len(stale)} stale: {', '.join(stale) or 'none'}")
        sys.exit(1 if stale else 0)
    known: dict[str, str] = {}
    if wanted.results and wanted.results.exists():
        known = {row[0]: row[2] for row in csv.reader(wanted.results.open(encoding="utf-8", newline=""))}
    for fault in chosen:
        if fault.id not in known:
            what, first = tried(fault, wanted.tree, wanted)
            known[fault.id] = what
            print(f"{fault.id}: {what} {first}", flush=True)
            if wanted.results:
                with wanted.results.open("a", encoding="utf-8", newline="") as file:
                    csv.writer(file).writerow([fault.id, fault.kind, what, first, fault.wrong])
    count = {what: sum(known[f.id] == what for f in chosen) for what in (NOTICED, PASSED, SLOW, STALE)}
    print(
        f"{count[NOTICED]} of {len(chosen)} noticed; {count[PASSED]} not, {count[SLOW]} too slow, {count[STALE]} stale"
    )
    sys.exit(1 if count[PASSED] or count[STALE] else 0)


if __name__ == "__main__":
    main()
