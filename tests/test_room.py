"""The room on one sheet against all others, in the files as people get them: no sheet says otherwise."""

import csv
import re
import shutil
import zipfile
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from tests import books, office
from tests.effort import in_the_end
from workbook.build import Plan, build, templates_folder

EDITIONS = ["keeper", "shop", "club"]
# A keeper's room as people get it; of the others a few tanks, with answers in full, and with --long all of them.
FILES = [*EDITIONS, *in_the_end("complete shop", "complete club")]
TALL = 30  # pixels of a row of two lines
SIGNS = {"▲ Act": "▲", "◆ Watch": "◆", "○ Note": "○"}
# Labels under which a tank stands; of two on a sheet the first of these.
KNOWN_BY = ("Tank it happened in", "Display tank", "Tank")
# Pixels of a window of 1366 by 768 that show cells: a row's number, the scroll bar and a side bar take the rest.
SCREEN = 1366 - 26 - 20
# Between margins of a quarter of an inch across Letter, at the scale that prints nine points in eight.
PAGE = (11 - 0.5) * 96 / (8 / 9)


class Sheet:
    """What a sheet shows; days are the numbers by which office programs count them."""

    def __init__(self) -> None:
        self.cells: dict[tuple[int, int], office.Value] = {}
        self.rows: dict[int, dict[int, office.Value]] = defaultdict(dict)  # each from the left

    def put(self, row: int, at: int, value: office.Value) -> None:
        self.cells[row, at] = self.rows[row][at] = value


def file(edition: str) -> Path:
    if edition == "keeper":
        return books.book(complete=True)
    name = edition.removeprefix("complete ")
    return books.book(name, complete=edition != name, full=True)


@cache
def book(edition: str) -> dict[str, Sheet]:
    found: dict[str, Sheet] = defaultdict(Sheet)
    for (title, row, column), value in sorted(office.values(file(edition)).items()):
        found[title].put(row, column, value)
    return found


def head(sheet: Sheet, first: str) -> int:
    """The row of labels of the first table in which a label stands."""
    return min(row for (row, _), value in sheet.cells.items() if row <= 40 and value == first)


def table(edition: str, title: str, first: str) -> list[dict[str, Any]]:
    """The rows below a head, by label; of labels that come again the first counts."""
    sheet = book(edition)[title]
    labels = head(sheet, first)
    places: dict[str, int] = {}
    for at, label in sheet.rows[labels].items():
        places.setdefault(str(label), at)
    return [
        {label: sheet.cells.get((row, at)) for label, at in places.items()} | {"row": row}
        for row in range(labels + 2, max(sheet.rows) + 1)
    ]


def room(edition: str) -> dict[str, dict[str, Any]]:
    """The line of each tank."""
    return {line["Tank"]: line for line in table(edition, "Room", "▲◆○") if line["Tank"]}


def tank_of(edition: str, sheet: str, row: int, names: dict[str, str]) -> str | None:
    """The tank that stands in a row of a sheet, where one does, under the label by which tanks are known there."""
    if sheet == "Live food":  # three lists side by side, of which one is of tanks
        return None
    there = book(edition)[sheet]
    labels: dict[str, int] = {}
    for at in range(1, min(row, 30)):  # heads come below what groups their columns
        labels |= {
            str(value): column for column, value in reversed(there.rows.get(at, {}).items()) if value in KNOWN_BY
        }
    found = [there.cells.get((row, labels[label])) for label in KNOWN_BY if label in labels]
    return next((names[str(name).casefold()] for name in found if str(name).casefold() in names), None)


def listed(edition: str) -> Iterator[tuple[str | None, dict[str, Any]]]:
    """Each line of Attention with the tank that it is about."""
    names = {name.casefold(): name for name in room(edition)}
    for line in table(edition, "Attention", "Where"):
        # That a list is nearly full stands in its first row, but says nothing of what that is about.
        if line["Where"] and line["What"] != "List nearly full" and line["Sign"] != "· Known":
            sheet, row = re.fullmatch(r"(.*), row (\d+)", line["Go to"]).groups()  # type: ignore[union-attr]
            yield tank_of(edition, sheet, int(row), names), line


@pytest.mark.parametrize("edition", FILES)
def test_each_tank_shows_what_attention_lists_about_it(edition: str) -> None:
    """Sign, how many, and what the worst of them is: of the tank and of all that lives, eats, grows or is due in it."""
    lines: dict[str, list[dict[str, Any]]] = {tank: [] for tank in room(edition)}
    for tank, line in listed(edition):
        if tank:
            lines[tank].append(line)
    assert sum(map(len, lines.values())) > len(lines)
    wrong = []
    for tank, shown in room(edition).items():
        signs = [
            next(sign for word, sign in SIGNS.items() if str(line["Sign"]).startswith(word)) for line in lines[tank]
        ]
        more = f" +{len(signs) - 1}" if len(signs) > 1 else ""
        expected = signs[0] + more if signs else ""
        if (shown["▲◆○"] or "") != expected:
            wrong.append(f"{tank}: {shown['▲◆○']} instead of {expected}")
        worst = str(shown["The rest stands on Attention"] or "")
        if signs and not (
            lines[tank][0]["What"] in worst and str(lines[tank][0]["What to do"]).startswith(worst.rsplit(": ", 1)[1])
        ):
            wrong.append(f"{tank}: {worst} instead of {lines[tank][0]['What']}")
    assert wrong == []


@pytest.mark.parametrize("edition", FILES)
def test_no_card_is_calm_beside_an_open_flag(edition: str) -> None:
    cards = book(edition)["Cards"]
    told = {
        str(value): str(cards.cells.get((row, 3))) for (row, at), value in cards.cells.items() if row >= 6 and at == 1
    }
    counts: dict[str, list[int]] = {tank: [0, 0, 0] for tank in room(edition)}
    for tank, line in listed(edition):
        if tank:
            counts[tank][list(SIGNS).index(str(line["Sign"]))] += 1
    for tank, (acts, watches, notes) in counts.items():
        words = f"▲ {acts} to act on, ◆ {watches} to watch, ○ {notes} to note"
        assert (words if acts + watches + notes else "Nothing needs attention.") in told[tank], tank


@pytest.mark.parametrize("edition", FILES)
def test_the_page_of_one_tank_says_what_attention_lists(edition: str) -> None:
    """Of every tank the same lines in the same order, none that is known; on its page those of the tank in view."""
    path = file(edition)
    told = dict(zip(books.column(path, "tanks_tank"), books.column(path, "open_flags_all_lines"), strict=True))
    expected: dict[str, list[str]] = {tank: [] for tank in room(edition)}
    for tank, line in listed(edition):
        if tank:
            why = str(line["Why"]).split(" (and ")[0]
            expected[tank].append(f"{str(line['Sign'])[0]} … {line['What']}: {why} … → {line['What to do']}")
    for tank, lines in expected.items():
        found = [one for one in str(told[tank] or "").split("¦") if one]
        assert len(found) == len(lines), tank
        for one, parts in zip(found, lines, strict=True):
            assert all(part.strip() in one for part in parts.split("…")), (tank, one)
    (in_view,) = books.column(path, "tank_card_tank")
    shown = " ".join(str(line) for line in books.column(path, "tank_card_flags_shown") if line)
    assert " ".join((str(told[in_view] or "Nothing.")).replace("¦", " ").split()).startswith(shown.removesuffix(" …"))


@pytest.mark.parametrize("edition", FILES)
def test_each_cell_is_that_of_its_own_sheet(edition: str) -> None:
    """Temperature and nitrate as Water changes has them, the limit as Stocking, the change as Maintenance."""
    shown = room(edition)
    stocking = {line["Tank"]: line for line in table(edition, "Stocking", "Binding measure") if line["Tank"]}
    changes = {line["Tank"]: line for line in table(edition, "Water changes", "Newest nitrate") if line["Tank"]}
    plan_date = table_date(edition)
    planned: dict[str, Any] = {}
    for line in table(edition, "Maintenance", "Next due"):
        if line["Task"] == "Change water" and line["Next due"] and line["Tank"] in shown:
            planned[line["Tank"]] = min(line["Next due"], planned.get(line["Tank"], line["Next due"]))
    for tank, line in shown.items():
        assert line["which"] == stocking[tank]["Binding measure"], tank
        assert line["was"] == changes[tank]["Temperature"], tank
        if changes[tank]["Newest nitrate"] not in {None, ""}:
            assert str(line["from, to"]).endswith(f"{changes[tank]['Newest nitrate']:.0f}"), tank
            assert line["age"] == plan_date - changes[tank]["on"], tank
        if tank in planned:
            late = plan_date - planned[tank]
            due = f"{late:.0f} late" if late > 0 else "today" if late == 0 else None
            assert (line["when"] == due) if due else re.fullmatch(r"\w+ \w+", line["when"]), tank


def table_date(edition: str) -> Any:
    """The day for which the file is reckoned."""
    start = book(edition)["Start"].cells
    return next(start[row, 2] for (row, at), value in start.items() if at == 1 and value == "Reckoned for")


def first_seen(edition: str, given: str) -> str:
    """The sheet on which a file opens."""
    with zipfile.ZipFile(books.book(edition, room=given)) as archive:
        workbook = archive.read("xl/workbook.xml").decode()
    active = re.search(r'activeTab="(\d+)"', workbook)
    return re.findall(r'<sheet name="([^"]+)"', workbook)[int(active[1]) if active else 0]


@pytest.mark.parametrize("edition", EDITIONS)
def test_a_filled_file_opens_on_the_room_and_a_blank_one_on_start(edition: str) -> None:
    assert (first_seen(edition, "demo"), first_seen(edition, "blank")) == ("Room", "Start")


@pytest.mark.parametrize("edition", FILES)
def test_it_fits_across_a_small_screen_and_a_page(edition: str) -> None:
    """In a row of one line, with the last column that can be read within the window and the page."""
    with zipfile.ZipFile(file(edition)) as archive:
        names = re.findall(r'<sheet name="([^"]+)"', archive.read("xl/workbook.xml").decode())
        xml = archive.read(f"xl/worksheets/sheet{names.index('Room') + 1}.xml").decode()
    sheet = book(edition)["Room"]
    labels = sheet.rows[head(sheet, "▲◆○")]
    last = next(at for at, value in labels.items() if value == "The rest stands on Attention")
    widths = {
        at: float(width)
        for first, end, width in re.findall(r'<col min="(\d+)" max="(\d+)" width="([\d.]+)"', xml)
        for at in range(int(first), int(end) + 1)
    }
    assert sum(7 * widths[at] for at in range(1, last + 1)) <= min(SCREEN, PAGE)
    assert ('fitToHeight="0"' in xml) == (edition == "complete shop")  # forty tanks take two pages
    assert xml.count("<x14:sparkline>") == max(sheet.rows) - head(sheet, "▲◆○") - 1


def test_thirty_tanks_stand_on_one_page_with_two_lines_where_there_is_room(tmp_path: Path) -> None:
    """All have a task of many words; some rows are higher for it, as many as the page has room for."""
    room_of_thirty = tmp_path / "room"
    shutil.copytree(templates_folder() / "blank", room_of_thirty)
    tanks = [f"Tank {n}" for n in range(1, 31)]
    for table_, rows in {
        "tanks": [{"tank": tank} for tank in tanks],
        "maintenance": [{"task": "Rinse the filter sponge in tank water", "tank": tank} for tank in tanks],
    }.items():
        path = room_of_thirty / f"{table_}.csv"
        columns = path.read_text(encoding="utf-8").splitlines()[0].split(",")
        with path.open("w", newline="", encoding="utf-8") as file:
            writer = csv.DictWriter(file, columns)
            writer.writeheader()
            writer.writerows(rows)
    made = tmp_path / "thirty.xlsx"
    build(room_of_thirty, made, Plan(spare_rows=4, plan_date=books.ROOM_DAY))
    with zipfile.ZipFile(made) as archive:
        names = re.findall(r'<sheet name="([^"]+)"', archive.read("xl/workbook.xml").decode())
        xml = archive.read(f"xl/worksheets/sheet{names.index('Room') + 1}.xml").decode()
    assert "fitToPage" in xml
    assert 'fitToHeight="0"' not in xml
    heights = [float(points) * 4 / 3 for points in re.findall(r'<row r="\d+"[^>]*? ht="([\d.]+)"', xml)]
    assert 0 < sum(pixels == TALL for pixels in heights) < len(tanks)
