"""Puts each fault of the lists beside this file into a copy of the tree and runs the tests that belong to it.

Run: python -m tests.faults [--list] [--only ID ...] [--kind KIND ...] [--tree FOLDER] [--results FILE] [--jobs N] ...
"""

import argparse
import ast
import contextlib
import csv
import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import threading
import tomllib
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

HERE, TREE = Path(__file__).parent, Path(__file__).parent.parent.parent
NEEDED = ("workbook", "tests", "templates", "README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", "output")
FAILED = re.compile(r"^(?:FAILED|ERROR) (\S+)", re.MULTILINE)
NOTICED, PASSED, STALE, SLOW, BROKEN = "noticed", "NOT NOTICED", "stale", "timeout", "did not run"
PASSES = "passes"
# Files that take minutes: what needs one of them is tried last.
LONG = ("tests/test_columns.py", "tests/test_checking.py", "tests/test_standards.py", "tests/test_engines.py")
ONE_AT_A_TIME = threading.Lock()
AS_IT_IS: dict[str, bool] = {}  # by test: whether it fails without any fault


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

    def why_not(self, tree: Path) -> str:
        """Why it can't be put into a tree; empty when it can."""
        path = tree / self.file
        if not path.is_file():
            return f"no file {self.file}"
        text = path.read_text(encoding="utf-8")
        if (count := text.count(self.find)) != 1:
            return f"{self.file} holds its text {count} times, not once: {self.find!r}"
        if self.find == self.put:
            return "what is put is what stands there"
        if path.suffix == ".py":
            try:
                ast.parse(text.replace(self.find, self.put))
            except SyntaxError as error:
                return f"{self.file} can't be read with it: {error}"
        return "" if self.tests_in(tree) else "none of its test files is there"

    def tests_in(self, tree: Path) -> list[str]:
        """Its test files, as far as a tree has them."""
        return [test for test in self.tests if (tree / test.partition("::")[0]).exists()]

    def put_into(self, tree: Path) -> None:
        """Spoil a copy."""
        path = tree / self.file
        path.write_text(path.read_text(encoding="utf-8").replace(self.find, self.put), encoding="utf-8")


def faults(*, before: bool = False) -> list[Fault]:
    """Every fault of every list; before: as its place was spelled in the first version, where a list says so."""
    rows = [row for path in sorted(HERE.glob("*.toml")) for row in tomllib.loads(path.read_text("utf-8"))["fault"]]
    found = []
    for row in rows:
        then = row.pop("before", {})
        found.append(Fault(**{**row, **(then if before else {}), "tests": tuple(row["tests"])}))
    names = [fault.id for fault in found]
    if twice := sorted({name for name in names if names.count(name) > 1}):
        sys.exit(f"two faults of one id: {', '.join(twice)}")
    return sorted(found, key=lambda fault: any(test in LONG for test in fault.tests))


def copied(tree: Path, copy: Path) -> None:
    """What a run needs, with changes that are not committed; a repository of its own, as a test looks at what is in it."""
    for part in NEEDED:
        if (tree / part).is_dir():
            shutil.copytree(tree / part, copy / part, ignore=shutil.ignore_patterns("__pycache__"))
        elif (tree / part).exists():
            shutil.copy(tree / part, copy / part)
    for command in (("init", "-q"), ("add", "-A")):
        subprocess.run(["git", *command], cwd=copy, check=False, capture_output=True)


def tried(fault: Fault | None, tests: list[str], wanted: argparse.Namespace) -> tuple[str, str]:
    """What came of it, and the first test that failed. Without a fault: whether the tests pass as the tree is."""
    with tempfile.TemporaryDirectory(prefix="fault-", ignore_cleanup_errors=True) as folder:
        copy = Path(folder)
        copied(wanted.tree, copy)
        if fault:
            fault.put_into(copy)
        command = [sys.executable, "-m", "pytest", "-q", "-x", "-p", "no:cacheprovider", "-n", wanted.workers, *tests]
        if fault:
            command += [f"--deselect={test}" for test, fails in AS_IT_IS.items() if fails]
        # Commands that tests start find the copy before any package that is installed.
        environment = os.environ | {"PYTHONPATH": folder, "PYTHONDONTWRITEBYTECODE": "1"}
        with subprocess.Popen(
            command, cwd=copy, env=environment, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True,
            start_new_session=True,
        ) as running:  # fmt: skip
            try:
                said, _ = running.communicate(timeout=wanted.seconds)
            except subprocess.TimeoutExpired:
                with contextlib.suppress(ProcessLookupError):
                    os.killpg(running.pid, signal.SIGKILL)  # with the programs that its tests started
                return SLOW, ""
    first = FAILED.search(said)
    if running.returncode == 0:
        return PASSED, ""
    # 1: tests failed; 2: a module can't be imported. All else says nothing about the fault.
    if running.returncode not in {1, 2} or not first:
        return BROKEN, said.strip()[-200:]
    if fault and fails_as_it_is(first[1], wanted):
        return tried(fault, tests, wanted)  # without that test, which has noticed nothing
    return NOTICED, first[1]


def fails_as_it_is(test: str, wanted: argparse.Namespace) -> bool:
    """Whether a test fails in a copy that is not spoiled: then it has noticed nothing."""
    if test not in AS_IT_IS:
        AS_IT_IS[test] = tried(None, [test], wanted)[0] == NOTICED
    return AS_IT_IS[test]


def options() -> argparse.Namespace:
    """What is asked for."""
    words = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    words.add_argument("--list", action="store_true", help="only say which faults do not find their place any more")
    words.add_argument("--as-it-is", action="store_true", help="run each test file without a fault: it must pass")
    words.add_argument("--only", nargs="*", help="ids of faults")
    words.add_argument("--kind", nargs="*", help="kinds of faults")
    words.add_argument("--tree", type=Path, default=TREE, help="another checkout to put them into")
    words.add_argument("--before", action="store_true", help="the tree is one of the first version")
    words.add_argument("--results", type=Path, help="a CSV file that is added to; what it knows is not run again")
    words.add_argument(
        "--tests-all", action="store_true", help="run every test, not only those that belong to the fault"
    )
    words.add_argument("--jobs", type=int, default=1, help="faults at the same time")
    words.add_argument("--workers", default="0", help="processes of each test run, as pytest's -n")
    words.add_argument("--seconds", type=float, default=900, help="after which a fault is given up as a timeout")
    return words.parse_args()


def remember(wanted: argparse.Namespace, line: tuple[str, ...]) -> None:
    """One result, at once: a run that is ended loses nothing."""
    with ONE_AT_A_TIME:
        print(": ".join(line[:1] + line[2:4]), flush=True)
        if wanted.results:
            wanted.results.parent.mkdir(parents=True, exist_ok=True)
            with wanted.results.open("a", encoding="utf-8", newline="") as file:
                csv.writer(file).writerow(line)


def main() -> None:
    """Try the faults that are asked for; exit code 1 when one is not noticed, 2 when one is stale."""
    wanted = options()
    chosen = [
        f for f in faults(before=wanted.before)
        if (not wanted.only or f.id in wanted.only) and (not wanted.kind or f.kind in wanted.kind)
    ]  # fmt: skip
    stale = {fault.id: why for fault in chosen if (why := fault.why_not(wanted.tree))}
    for name, why in stale.items():
        print(f"{name}: {STALE}: {why}")
    if wanted.list:
        print(f"{len(chosen)} faults, {len(stale)} {STALE}")
        sys.exit(2 if stale else 0)
    known: dict[str, str] = {}
    if wanted.results and wanted.results.exists():
        with wanted.results.open(encoding="utf-8", newline="") as file:
            known = {row[0]: row[2] for row in csv.reader(file)}
    if wanted.as_it_is:
        files = dict.fromkeys(test for fault in chosen for test in fault.tests_in(wanted.tree))
        ways = [(test, "as it is", None, [test], "") for test in sorted(files, key=lambda test: test in LONG)]
    else:
        ways = [(f.id, f.kind, f, [] if wanted.tests_all else f.tests_in(wanted.tree), f.wrong)
                for f in chosen if f.id not in stale]  # fmt: skip

    def one(way: tuple[str, str, Fault | None, list[str], str]) -> None:
        name, kind, fault, tests, wrong = way
        what, first = tried(fault, tests, wanted)
        if not fault:
            what = {PASSED: PASSES, NOTICED: "fails"}.get(what, what)
        known[name] = what
        remember(wanted, (name, kind, what, first, wrong))

    with ThreadPoolExecutor(wanted.jobs) as pool:
        list(pool.map(one, [way for way in ways if way[0] not in known]))
    count = {what: sum(known[way[0]] == what for way in ways) for what in (NOTICED, PASSED, SLOW, BROKEN, PASSES)}
    if wanted.as_it_is:
        print(f"{count[PASSES]} of {len(ways)} test files pass as they are")
        sys.exit(count[PASSES] != len(ways))
    print(f"{count[NOTICED]} of {len(chosen)} noticed; {count[PASSED]} not, {count[SLOW]} timeout, "
          f"{count[BROKEN]} did not run, {len(stale)} stale")  # fmt: skip
    sys.exit(2 if stale or count[BROKEN] else 1 if count[PASSED] else 0)


if __name__ == "__main__":
    main()
