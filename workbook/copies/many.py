"""Many copies read at once, in processes of their own where that pays."""

import concurrent.futures
import multiprocessing
import os
from collections.abc import Iterator, Sequence
from concurrent.futures.process import BrokenProcessPool
from pathlib import Path

from workbook.copies.content import Content
from workbook.copies.reading import read_copy
from workbook.findings import BadInputError, Finding

# A process of its own takes as long to start as reading a few megabytes does.
FEWEST, SMALLEST = 3, 12_000_000


def read_copies(paths: Sequence[Path]) -> list[Content]:
    """What people typed in each, in order; BadInputError for the first that can't be read, as if they were read in turn."""
    workers = min(_cores(), len(paths))
    if workers < 2 or len(paths) < FEWEST or sum(map(_size, paths)) < SMALLEST:
        return [read_copy(path) for path in paths]
    found: list[Content] = []
    try:
        found += _in_processes(paths, workers)
    except (OSError, ImportError, BrokenProcessPool):  # a machine without semaphores, a process that was ended
        found += [read_copy(path) for path in paths[len(found) :]]
    return found


def _in_processes(paths: Sequence[Path], workers: int) -> Iterator[Content]:
    # Started anew on every system: a copy of this process would copy its threads' locks without the threads.
    context = multiprocessing.get_context("spawn")
    with concurrent.futures.ProcessPoolExecutor(workers, context) as pool:
        waiting = [pool.submit(_content_or_findings, path) for path in paths]
        try:
            for one in waiting:
                content = one.result()
                if not isinstance(content, Content):
                    raise BadInputError(content)
                yield content
        finally:
            pool.shutdown(wait=False, cancel_futures=True)


def _content_or_findings(path: Path) -> Content | tuple[Finding, ...]:
    """What goes back to the process that asked: errors lose what they carry on the way."""
    try:
        return read_copy(path)
    except BadInputError as error:
        return error.findings


def _cores() -> int:
    """How many this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _size(path: Path) -> int:
    try:
        return path.stat().st_size
    except OSError:
        return 0
