"""Tests that need an office program: run them, leave them out and say so, or insist on them."""

import contextlib
import gc
import os
import shutil
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
from xdist.remote import Producer
from xdist.scheduler import LoadScopeScheduling

from tests import books, effort, remembering, short

LEFT_OUT = pytest.StashKey[Counter[tuple[str, str]]]()  # file and reason
# Programs that a test can need, whose they are, and those of a plain `office` mark.
PROGRAMS = {"soffice": "LibreOffice", "pdftotext": "poppler", "ssconvert": "Gnumeric"}
USUAL = ("soffice", "pdftotext")
# What takes longest begins first, so that no worker is left alone with it at the end.
LONGEST = ("test_watch", "test_languages", "test_engines", "test_columns", "test_live_use", "test_returning", "test_checking",
           "test_shop", "test_sequences", "test_standards", "test_watch_shop", "test_readme", "test_cli", "test_merging")  # fmt: skip
# Files whose tests share nothing costly: each test goes to whoever is free.
LOOSE = {
    "test_columns",
    "test_readme",
    "test_checking",
    "test_standards",
    "test_languages",
    "test_shop",
    "test_tankmates",
    "test_candidates",
}
# Files about copies, commands and reading: how many lines an answer has is not their point.
SHORT = {"test_returning", "test_lineage", "test_rebuild", "test_any_content", "test_merging", "test_rebasing", "test_comparing", "test_sequences",
         "test_reading", "test_checking", "test_export", "test_bad_input", "test_untrusted", "test_targets", "test_progress",
         "test_reader", "test_meanings", "test_rows_of_lists", "test_first_hour", "test_readme", "test_evaluating", "test_shared_formulas",
         "test_nonsense", "test_pages"}  # fmt: skip
# What is long in the books that a file looks at all the same.
WHOLE = {
    "test_rows_of_lists": books.LONG_IN_ROOM,
    "test_first_hour": ("attention", "open_lines"),
    "test_readme": ("attention", "open_lines"),
}


# Files about how sheets are read: each time anew.
READING = {"test_reader", "test_untrusted", "test_bad_input", "test_any_content", "test_alike"}


@pytest.fixture(scope="module", autouse=True)
def _remembered(request: pytest.FixtureRequest) -> Iterator[None]:
    anew = request.path.stem in READING
    with remembering.compiled(), contextlib.nullcontext() if anew else remembering.sheets():
        yield


@pytest.fixture(scope="module", autouse=True)
def _short_answers(request: pytest.FixtureRequest) -> Iterator[None]:
    stem = request.path.stem
    with short.answers(*WHOLE.get(stem, ())) if stem in SHORT else contextlib.nullcontext():
        yield


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--office",
        choices=("auto", "required", "none"),
        default="auto",
        help="tests that need LibreOffice: auto = leave them out where it is not found, required = fail there, none = leave them out",
    )

    parser.addoption(
        "--long",
        action="store_true",
        help="what --thorough tries, the largest files in every program, and many more random rooms and edits: an hour in place of minutes",
    )

    parser.addoption(
        "--thorough",
        action="store_true",
        help="further variants of tests, of which every run has one: other editions, units and file formats",
    )


def why_not(wanted: str, needed: tuple[str, ...]) -> str:
    """Why tests with an office program can't or shall not run; empty when they run."""
    if wanted == "none":
        return "--office=none"
    missing = [f"{program} ({PROGRAMS[program]})" for program in needed if not shutil.which(program)]
    return f"{' and '.join(missing)} not found" if missing else ""


def is_thorough(config: pytest.Config) -> bool:
    """Whether further variants are tried."""
    return bool(config.getoption("--thorough") or config.getoption("--long"))


def pytest_configure(config: pytest.Config) -> None:
    config.stash[LEFT_OUT] = Counter()
    # Nearly all that is made lives as long as its test: looking for what does not takes a tenth of the time.
    gc.set_threshold(100_000, 20, 50)
    if config.getoption("--long"):
        os.environ[effort.NAME] = "yes"
    if is_thorough(config):
        os.environ[effort.THOROUGH] = "yes"
    if not hasattr(config, "workerinput"):
        books.start()


def pytest_unconfigure(config: pytest.Config) -> None:
    if not hasattr(config, "workerinput"):
        books.end()


class ByFile(LoadScopeScheduling):
    """The tests of a file stay on one worker where they share what is costly to make; of others, those of one parameter."""

    def _split_scope(self, nodeid: str) -> str:
        path, _, test = nodeid.partition("::")
        if Path(path).stem not in LOOSE:
            return path
        return f"{path} [{test.partition('[')[2]}" if "[" in test else nodeid


def pytest_xdist_make_scheduler(config: pytest.Config, log: Producer) -> ByFile:
    """By the names of tests alone: marks of groups reach no worker in some versions of pytest, and nothing tells."""
    return ByFile(config, log)


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """The longest first."""
    left_out = {"thorough": not is_thorough(config), "long": not config.getoption("--long")}
    items[:] = [
        item for item in items if not any(item.get_closest_marker(name) for name, out in left_out.items() if out)
    ]
    order = {name: place for place, name in enumerate(LONGEST)}
    items.sort(key=lambda item: order.get(item.path.stem, len(LONGEST)))


@pytest.hookimpl(tryfirst=True)
def pytest_runtest_setup(item: pytest.Item) -> None:
    wanted = item.config.getoption("--office")
    mark = item.get_closest_marker("office")
    if mark and (reason := why_not(wanted, mark.args or USUAL)):
        if wanted == "required":
            pytest.fail(f"--office=required, but {reason}", pytrace=False)
        item.config.stash[LEFT_OUT][item.nodeid.partition("::")[0], reason] += 1
        item.user_properties.append(("left out", reason))
        pytest.skip(reason)


def pytest_report_teststatus(report: pytest.TestReport) -> tuple[str, str, str] | None:
    """One line of our own says it for all of them, whatever pytest is asked to report."""
    if report.skipped and "left out" in dict(report.user_properties):
        return "left out", "s", "LEFT OUT"
    return None


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    counts = config.stash[LEFT_OUT]
    for reason in sorted({reason for _, reason in counts}):
        files = ", ".join(f"{count} of {file}" for (file, why), count in sorted(counts.items()) if why == reason)
        terminalreporter.write_line(f"office tests left out: {files}; reason: {reason}", yellow=True)
