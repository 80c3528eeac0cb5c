"""The power goes while a workbook is written: the old file or the new one is there, whole, and nothing else looks like one."""

import os
import random
import signal
import subprocess
import sys
import time
import zipfile
from pathlib import Path

import openpyxl

from tests.effort import examples

ROOT = Path(__file__).parent.parent
KILLS = examples(5, 24, 8)
# One warm process makes two workbooks and then, whenever it is told to, a child that writes them in turn until it is killed.
SCRIPT = """
import dataclasses, datetime, os, sys
from pathlib import Path
from workbook.build import Plan, compute, read, save, templates_folder
from workbook.editions import EDITIONS

target, edition = Path(sys.argv[1]), EDITIONS["keeper"]()
plan = Plan(spare_rows=1, plan_date=datetime.date(2026, 1, 1))
records = read(templates_folder() / "blank", edition)
records["species"] = records["species"][:3]
made = [compute(edition, records | {"waters": [{"water": name}]}, plan) for name in ("Old", "New")]
for built in made:
    save(target, built, plan)
    print("whole", target.stat().st_size, flush=True)
for _ in sys.stdin:
    child = os.fork()
    if child == 0:
        while True:
            for built in made:
                save(target, built, plan)
    print(child, flush=True)
    os.waitpid(child, 0)
    print("gone", flush=True)
"""


def water(path: Path) -> str:
    """Which of the two workbooks it is; opening it reads it to its end."""
    with zipfile.ZipFile(path) as archive:
        assert archive.testzip() is None
    book = openpyxl.load_workbook(path, read_only=True)
    area = book.defined_names["waters_water"].attr_text
    sheet, cells = area.rsplit("!", 1)
    found = book[sheet.strip("'")][cells.replace("$", "").split(":")[0]].value
    book.close()
    return str(found)


def test_a_kill_at_any_moment_leaves_a_whole_workbook(tmp_path: Path) -> None:
    target = tmp_path / "room.xlsx"
    dice = random.Random(20260415)
    with subprocess.Popen(
        [sys.executable, "-c", SCRIPT, str(target)], cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    ) as warm:
        assert warm.stdin
        assert warm.stdout
        assert [warm.stdout.readline().split()[0] for _ in range(2)] == ["whole", "whole"]
        litter, seen = 0, set()
        for _ in range(KILLS):
            warm.stdin.write("go\n")
            warm.stdin.flush()
            child = int(warm.stdout.readline())
            time.sleep(dice.uniform(0.02, 1.2))
            os.kill(child, signal.SIGKILL)
            assert warm.stdout.readline() == "gone\n"
            seen.add(water(target))
            # What a person, or a pattern such as *.xlsx, takes for a workbook.
            assert [path.name for path in tmp_path.glob("*.xlsx")] == ["room.xlsx"]
            litter += sum(1 for path in tmp_path.iterdir() if path != target)
        warm.stdin.close()
    assert seen <= {"Old", "New"}
    assert litter > 0, "no kill fell into the writing"
