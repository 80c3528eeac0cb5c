"""What people get wrong in their files is told in one line each, all at once, and nothing is written."""

import csv
import io
import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from typer.testing import CliRunner

from tests.effort import examples
from workbook.build import Plan, build, compute, read, templates_folder
from workbook.cli import app
from workbook.editions import EDITIONS
from workbook.files.csv_folder import Folder
from workbook.findings import BadInputError, Finding
from workbook.tables.columns import Typed
from workbook.tables.kinds import choice
from workbook.terminal import say

BLANK, DEMO, SHARED = (templates_folder() / name for name in ("blank", "demo", "shared"))
EDITION = EDITIONS["keeper"]()
SMALL = Plan(spare_rows=1)

# A small room of our own invention; the first row of each table is the one that tests spoil.
ROOM: dict[str, list[dict[str, str]]] = {
    "species": [
        {"species": "Reed tetra", "kind": "fish", "adult_length": "4", "body_form": "fusiform", "ph_low": "6"},
        {"species": "Moss shrimp", "kind": "shrimp"},
    ],
    "own_ranges": [{"species": "Reed tetra", "counts": "own", "own_ph_low": "6", "own_ph_high": "7"}],
    "waters": [{"water": "Tap", "water_kind": "tap", "temperature": "20"}],
    "tanks": [
        {"tank": "Hall", "shape": "box", "length": "60", "width": "30", "height": "36", "glass": "0.6", "water": "Tap"},
        {"tank": "Süd", "water": "Tap"},
    ],
    "livestock": [
        {"tank": "Hall", "species": "Reed tetra", "animals": "8"},
        {"tank": "Süd", "species": "Moss shrimp", "animals": "20"},
    ],
    "foods": [{"food": "Crumbs", "food_form": "flake", "stock": "50"}],
    "feeding": [{"tank": "Hall", "food": "Crumbs", "share": "1"}],
    "maintenance": [{"task": "Count heads", "tank": "all", "every_days": "7"}],
}
Change = dict[str, dict[str, str]]


def header(table: str) -> list[str]:
    """The columns of a table's file."""
    path = (SHARED if table in {"species", "foods"} else BLANK) / f"{table}.csv"
    with path.open(encoding="utf-8", newline="") as file:
        return next(csv.reader(file))


def text_of(names: list[str], rows: list[dict[str, str]]) -> str:
    """A CSV file."""
    out = io.StringIO()
    writer = csv.DictWriter(out, names, lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return out.getvalue()


@pytest.fixture
def room(tmp_path: Path) -> Path:
    """The small room as files."""
    folder = tmp_path / "room"
    shutil.copytree(BLANK, folder)
    for table, rows in ROOM.items():
        (folder / f"{table}.csv").write_text(text_of(header(table), rows), encoding="utf-8")
    return folder


def change(room: Path, changes: Change) -> None:
    """Other texts in the first row of some tables."""
    for table, cells in changes.items():
        first, *others = ROOM[table]
        (room / f"{table}.csv").write_text(text_of(header(table), [first | cells, *others]), encoding="utf-8")


def edit(path: Path, old: str, new: str) -> None:
    """Another wording in a file."""
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8", newline="")


def refused(source: Path | str, target: Path) -> list[str]:
    """The lines of a build that ends in 2 and writes nothing."""
    target.parent.mkdir(exist_ok=True)
    target.write_bytes(b"an older workbook")
    result = CliRunner().invoke(app, ["build", str(source), "-o", str(target)])
    assert result.exit_code == 2, result.output
    assert result.stdout == ""
    assert target.read_bytes() == b"an older workbook"
    assert list(target.parent.iterdir()) == [target]  # no temporary file
    target.unlink()
    assert CliRunner().invoke(app, ["build", str(source), "-o", str(target)]).exit_code == 2
    assert not list(target.parent.iterdir())
    *lines, last = result.stderr.splitlines()
    assert last == f"{len(lines)} found; nothing was written."
    return lines


def accepted(room: Path) -> dict[str, list[dict[str, object]]]:
    """The values of a room in which nothing is wrong."""
    return read(room, EDITION)  # type: ignore[return-value]


# --- one cell ---

NAMES = "expected a name of at most 60 letters on one line, without * ? ~ ¦ → and not starting with < > = + - @"
CELLS: list[tuple[Change, str]] = [
    # links
    (
        {"livestock": {"species": "Reed tetre"}},
        "livestock.csv, row 2, column species: found 'Reed tetre'; "
        "expected a name that stands in species (near: Reed tetra)",
    ),
    (
        {"livestock": {"tank": "Cellar"}},
        "livestock.csv, row 2, column tank: found 'Cellar'; expected a name that stands in tanks",
    ),
    (
        {"feeding": {"food": "Crumb"}},
        "feeding.csv, row 2, column food: found 'Crumb'; expected a name that stands in foods (near: Crumbs)",
    ),
    (
        {"tanks": {"water": "Brook"}},
        "tanks.csv, row 2, column water: found 'Brook'; expected a name that stands in waters",
    ),
    (
        {"maintenance": {"tank": "every"}},
        "maintenance.csv, row 2, column tank: found 'every'; expected a name that stands in tanks or all",
    ),
    (
        {"own_ranges": {"species": "Reed"}},
        "own_ranges.csv, row 2, column species: found 'Reed'; expected a name that stands in species",
    ),
    (
        {"species": {"body_form": "round"}},
        "species.csv, row 2, column body_form: found 'round'; expected a name that stands in body_forms",
    ),
    # sizes
    (
        {"tanks": {"length": "-60"}},
        "tanks.csv, row 2, column length: found '-60'; expected a number from 2 to 1000 cm",
    ),
    (
        {"tanks": {"height": "36000"}},
        "tanks.csv, row 2, column height: found '36000'; expected a number from 2 to 500 cm",
    ),
    (
        {"livestock": {"animals": "-1"}},
        "livestock.csv, row 2, column animals: found '-1'; expected a whole number from 0 to 10000",
    ),
    # ranges
    (
        {"species": {"temperature_low": "28", "temperature_high": "22"}},
        "species.csv, row 2, column temperature_low: found 28.0 above temperature_high 22.0; "
        "expected a low end that is not above the high end",
    ),
    (
        {"own_ranges": {"own_ph_low": "7.5"}},
        "own_ranges.csv, row 2, column own_ph_low: found 7.5 above own_ph_high 7.0; "
        "expected a low end that is not above the high end",
    ),
    (
        {"species": {"lifespan_low": "5", "lifespan_high": "3"}},
        "species.csv, row 2, column lifespan_low: found 5.0 above lifespan_high 3.0; "
        "expected a low end that is not above the high end",
    ),
    # numbers
    ({"tanks": {"length": "sixty"}}, "tanks.csv, row 2, column length: found 'sixty'; expected a number from 2 to 1000 cm"),
    *(
        ({"waters": {"ph": text}}, f"waters.csv, row 2, column ph: found '{text}'; expected a number from 3 to 11")
        for text in ("nan", "NaN", "inf", "-inf", "infinity", "1e999", "0x7", "1_0", "７", "7 5", "--7", "7.4.1", "1e", ".")
    ),
    (
        {"tanks": {"length": "24,5"}},
        "tanks.csv, row 2, column length: found '24,5'; expected a number from 2 to 1000 cm, with a decimal point",
    ),
    (
        {"livestock": {"animals": "2.5"}},
        "livestock.csv, row 2, column animals: found '2.5'; expected a whole number from 0 to 10000",
    ),
    # dates
    *(
        (
            {"livestock": {"date_in": text}},
            f"livestock.csv, row 2, column date_in: found '{text}'; expected a date such as 2026-03-31, from 1970 to 2150",
        )
        for text in ("2026-02-30", "31.12.2026", "03/31/2026", "20260331", "2026-W14-2", "1899-12-31", "9999-12-31", "today")
    ),
    # words
    (
        {"tanks": {"shape": "sphere"}},
        "tanks.csv, row 2, column shape: found 'sphere'; expected one of box, cylinder, half cylinder, quarter cylinder, "
        "hexagon, octagon, trapezoid, bow front",
    ),
    (
        {"own_ranges": {"counts": "mine"}},
        "own_ranges.csv, row 2, column counts: found 'mine'; expected one of reported, own, both, either",
    ),
    (
        {"tanks": {"tank_note": '=HYPERLINK("x")'}},
        "tanks.csv, row 2, column tank_note: found '=HYPERLINK(\"x\")'; "
        "expected text of at most 2000 letters, not starting with = and no error such as #N/A",
    ),
    (
        {"tanks": {"tank_note": "n" * 2001}},
        f"tanks.csv, row 2, column tank_note: found '{'n' * 76}...; "
        "expected text of at most 2000 letters, not starting with = and no error such as #N/A",
    ),
    (
        {"tanks": {"tank_note": "n" * 200_000}},
        f"tanks.csv, row 2, column tank_note: found '{'n' * 76}...; "
        "expected text of at most 2000 letters, not starting with = and no error such as #N/A",
    ),
    *(
        (
            {"maintenance": {"supplies": text}},
            f"maintenance.csv, row 2, column supplies: found '{text}'; "
            "expected text of at most 2000 letters, not starting with = and no error such as #N/A",
        )
        for text in ("#N/A", "#REF!", "#DIV/0!", "#NAME?", "#VALUE!", "#NUM!", "#NULL!", "#SPILL!", "#N/IMPL!")
    ),
    # names
    *(
        ({"foods": {"food": text}}, f"foods.csv, row 2, column food: found {text!r}; {NAMES}")
        for text in (
            "Flake*", "Fl?ke", "~Flake", "=Flake", "+Flake", "-Flake", "@Flake", "<Flake", ">Flake", "Flake ¦ fine",
            "Flake → fine", "Flake\nfine", "Flake\tfine", "#N/A", "#REF!", "F" * 61,
        )
    ),
    # what must be there
    ({"tanks": {"tank": ""}}, f"tanks.csv, row 2, column tank: found nothing; {NAMES}"),
    (
        {"livestock": {"animals": ""}},
        "livestock.csv, row 2, column animals: found nothing; expected a whole number from 0 to 10000",
    ),
    (
        {"feeding": {"share": ""}},
        "feeding.csv, row 2, column share: found nothing; expected a number from 0 to 1",
    ),
]  # fmt: skip


@pytest.mark.parametrize(
    ("changes", "line"), CELLS, ids=[f"{line.split(':')[0]} {i}" for i, (_, line) in enumerate(CELLS)]
)
def test_a_bad_cell(room: Path, changes: Change, line: str) -> None:
    change(room, changes)
    lines = refused(room, room.parent / "out" / "keeper.xlsx")
    assert line in lines
    key_lost = "column tank: found nothing" in line or line.startswith("foods.csv, row 2, column food: ")
    others = [other for other in lines if other != line]
    # A name that is refused, or is not there, can't be pointed to either: that is a fault of its own.
    assert all(key_lost and "a name that stands in" in other for other in others), others


@pytest.mark.parametrize("again", ["Hall", "HALL", "hall", " Hall "])
def test_a_name_twice(room: Path, again: str) -> None:
    (room / "tanks.csv").write_text(text_of(header("tanks"), [*ROOM["tanks"], {"tank": again}]), encoding="utf-8")
    line = f"tanks.csv, row 4, column tank: found '{again.strip()}' again, as in row 2; expected each name once"
    assert refused(room, room.parent / "out" / "keeper.xlsx") == [line]


def test_own_ranges_twice(room: Path) -> None:
    rows = [*ROOM["own_ranges"], {"species": "REED TETRA"}]
    (room / "own_ranges.csv").write_text(text_of(header("own_ranges"), rows), encoding="utf-8")
    line = "own_ranges.csv, row 3, column species: found 'REED TETRA' again, as in row 2; expected each name once"
    assert refused(room, room.parent / "out" / "keeper.xlsx") == [line]


# --- the settings ---

SETTINGS = [column.key for table in EDITION.tables if table.key == "settings" for column in table.typed]


@pytest.mark.parametrize(
    ("old", "new", "lines"),
    [
        ("altitude,0", "altitud,0", ["settings.csv, row 4, column key: found 'altitud'; expected one of altitude"]),
        ("altitude,0", ",5", ["settings.csv, row 4, column key: found ''; expected one of " + ", ".join(SETTINGS)]),
        ("altitude,0", "altitude,9999",
         ["settings.csv, row 4, column value: found '9999' for altitude; expected a number from -430 to 6000 m"]),
        ("altitude,0", "altitude,0\naltitude,20",
         ["settings.csv, row 5, column key: found 'altitude' again, as in row 4; expected each key once"]),
        ("altitude,0", "altitude,\naltitude,20",
         ["settings.csv, row 5, column key: found 'altitude' again, as in row 4; expected each key once"]),
        ("reported", "mine", ["settings.csv, row 6, column value: found 'mine' for range_choice; "
                              "expected one of reported, own, both, either"]),
        ("plan_date_typed,", "plan_date_typed,2026-02-30",
         ["settings.csv, row 3, column value: found '2026-02-30' for plan_date_typed; "
          "expected a date such as 2026-03-31, from 1970 to 2150"]),
        ("key,value", "key,vlue", ["settings.csv, row 1, column vlue: found a column that is not known; expected value"]),
        ("key,value", "value", ["settings.csv, row 1, column key: found no such column; expected a column of this name",
                                *(f"settings.csv, row {row}: found 2 cells; expected 1, as in the header" for row in range(2, len(SETTINGS) + 2))]),
    ],
)  # fmt: skip
def test_bad_settings(room: Path, old: str, new: str, lines: list[str]) -> None:
    edit(room / "settings.csv", old, new)
    assert refused(room, room.parent / "out" / "keeper.xlsx") == lines


def test_settings_may_lack_lines(room: Path) -> None:
    edit(room / "settings.csv", "altitude,0\n", "")
    assert "altitude" not in accepted(room)["settings"][0]


# --- the shape of a file ---

WATERS = text_of(header("waters"), ROOM["waters"])
HEAD, FIRST = WATERS.splitlines()
COLUMNS, WIDE = ", ".join(header("waters")), len(header("waters"))
REST = "," * (WIDE - 1)  # of a row of which only the first cell is filled
FILES: list[tuple[str, bytes, list[str]]] = [
    ("empty", b"", ["waters.csv: found an empty file; expected a header row and a row for each entry"]),
    ("only a mark", b"\xef\xbb\xbf", ["waters.csv: found an empty file; expected a header row and a row for each entry"]),
    ("only blank lines", b"\r\n \n", ["waters.csv: found an empty file; expected a header row and a row for each entry"]),
    ("blank first row", f"\n{WATERS}".encode(), ["waters.csv, row 1: found an empty row; expected a header row"]),
    ("column missing", f"{HEAD.replace('nitrate,', '')}\n{FIRST[:-1]}\n".encode(),
     ["waters.csv, row 1, column nitrate: found no such column; expected a column of this name"]),
    ("typo", WATERS.replace("nitrate", "nitrat").encode(),
     ["waters.csv, row 1, column nitrat: found a column that is not known; expected nitrate"]),
    ("capitals", WATERS.replace("ph", "PH").encode(),
     ["waters.csv, row 1, column PH: found a column that is not known; expected ph"]),
    ("column too many", f"{HEAD},hardness\n{FIRST},5\n".encode(),
     [f"waters.csv, row 1, column hardness: found a column that is not known; expected one of {COLUMNS}"]),
    ("column without a name", f"{HEAD},\n{FIRST},\n".encode(),
     [f"waters.csv, row 1, column (no name): found a column that is not known; expected one of {COLUMNS}"]),
    ("column twice", f"{HEAD},ph\n{FIRST},7\n".encode(),
     ["waters.csv, row 1, column ph: found the column twice; expected each column once"]),
    ("header and a cell", f"{HEAD},ph\n{FIRST},7\n".replace("20", "hot").encode(),
     ["waters.csv, row 1, column ph: found the column twice; expected each column once",
      "waters.csv, row 2, column temperature: found 'hot'; expected a number from 0 to 40 degC"]),
    ("semicolons", WATERS.replace(",", ";").encode(),
     ["waters.csv, row 1: found columns parted by ';'; expected columns parted by commas, numbers with a decimal point"]),
    ("tabs", WATERS.replace(",", "\t").encode(),
     ["waters.csv, row 1: found columns parted by '\\t'; expected columns parted by commas, numbers with a decimal point"]),
    ("too few cells", f"{HEAD}\nTap,tap\n".encode(), [f"waters.csv, row 2: found 2 cells; expected {WIDE}, as in the header"]),
    ("too many cells", f"{HEAD}\n{FIRST},9,8\n".encode(), [f"waters.csv, row 2: found {WIDE + 2} cells; expected {WIDE}, as in the header"]),
    ("decimal comma", WATERS.replace("20", "24,5").encode(),
     [f"waters.csv, row 2: found {WIDE + 1} cells; expected {WIDE}, as in the header"]),
    ("latin-1", f"{HEAD}\n{FIRST}\n\nRain{REST}über Nacht\n".encode("latin-1"),
     ["waters.csv, row 4, column note: found byte 0xfc that is not UTF-8; expected a file saved as UTF-8"]),
    ("latin-1 in the header", WATERS.replace("note", "nöte").encode("latin-1"),
     ["waters.csv, row 1: found byte 0xf6 that is not UTF-8; expected a file saved as UTF-8"]),
    ("utf-16", WATERS.encode("utf-16"), ["waters.csv, row 1: found byte 0xff that is not UTF-8; expected a file saved as UTF-8"]),
    ("utf-16 without a mark", WATERS.encode("utf-16-le"), ["waters.csv, row 1: found the character '\\x00'; expected plain text"]),
    ("a workbook", b"PK\x03\x04\x14\x00\x06\x00", ["waters.csv, row 1: found the character '\\x03'; expected plain text"]),
    ("NUL", f"{HEAD}\n{FIRST}\x00\n".encode(), ["waters.csv, row 2, column note: found the character '\\x00'; expected plain text"]),
    ("escape", f"{HEAD}\n{FIRST}\x1b[31m\n".encode(), ["waters.csv, row 2, column note: found the character '\\x1b'; expected plain text"]),
    ("no character", f"{HEAD}\n{FIRST}\uffff\n".encode(),
     ["waters.csv, row 2, column note: found the character '\\uffff'; expected plain text"]),
    ("unclosed quote", f'{HEAD}\n{FIRST}\n"Rain{REST}\n'.encode(),
     ["waters.csv, row 3: found a quote mark out of place (unexpected end of data); "
      "expected each quote closed, and doubled inside a cell"]),
    ("unclosed quote in the header", f'"{WATERS}'.encode(),
     ["waters.csv, row 1: found a quote mark out of place (unexpected end of data); "
      "expected each quote closed, and doubled inside a cell"]),
    ("quote inside", f'{HEAD}\n{FIRST}"a "small" tap"\n'.encode(),
     ["waters.csv, row 2: found a quote mark out of place (',' expected after '\"'); "
      "expected each quote closed, and doubled inside a cell"]),
    ("quote after a note of two lines", f'{HEAD}\n{FIRST}"one\ntwo"\n"B"{REST}\n"C" x{REST}\n'.encode(),
     ["waters.csv, row 4: found a quote mark out of place (',' expected after '\"'); "
      "expected each quote closed, and doubled inside a cell"]),
]  # fmt: skip


@pytest.mark.parametrize(("content", "lines"), [f[1:] for f in FILES], ids=[f[0] for f in FILES])
def test_a_bad_file(room: Path, content: bytes, lines: list[str]) -> None:
    (room / "waters.csv").write_bytes(content)
    assert refused(room, room.parent / "out" / "keeper.xlsx") == lines


def test_a_missing_file(room: Path) -> None:
    (room / "waters.csv").unlink()
    line = f"waters.csv: found no such file; expected a CSV file with the columns {COLUMNS}"
    assert refused(room, room.parent / "out" / "keeper.xlsx") == [line]
    (room / "waters.csv").mkdir()
    assert refused(room, room.parent / "out" / "keeper.xlsx") == [line]


def test_a_file_that_cannot_be_read(room: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    opened = Path.open

    def refuse(path: Path, *more: object, **also: object) -> object:
        if path.name == "waters.csv":
            raise PermissionError(13, "Permission denied", str(path))
        return opened(path, *more, **also)  # type: ignore[call-overload]

    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(BadInputError) as caught:
        read(room, EDITION)
    assert str(caught.value) == "waters.csv: found Permission denied; expected a file that can be read"


def test_files_too_large(room: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("workbook.files.csv_folder.LARGEST_FILE", 1500)
    (room / "waters.csv").write_text(WATERS + "\n" * 2000, encoding="utf-8")
    with pytest.raises(BadInputError, match=r"waters\.csv: found more than 1500 bytes; expected a smaller file"):
        read(room, EDITION)
    monkeypatch.setattr("workbook.files.csv_folder.LARGEST_FILE", 1_000_000)
    monkeypatch.setattr("workbook.files.csv_folder.MOST_ROWS", 60)
    (room / "waters.csv").write_text(WATERS + "\n".join(f"W{i}{REST}" for i in range(80)), encoding="utf-8")
    with pytest.raises(BadInputError, match=r"waters\.csv, row 61: found more rows; expected at most 60"):
        read(room, EDITION)


def test_all_faults_of_all_files_at_once(room: Path) -> None:
    change(room, {
        "species": {"adult_length": "0", "ph_high": "5"},
        "tanks": {"length": "x", "shape": "sphere", "tank_note": "=1"},
        "foods": {"stock": "-1"},
    })  # fmt: skip
    (room / "waters.csv").write_text(f"{HEAD}\n{FIRST}\nTAP,well,x{REST[2:]}\nRain\n", encoding="utf-8")
    (room / "livestock.csv").write_text(
        text_of(
            header("livestock"),
            [
                {"tank": "Hal", "species": "Reed tetra", "animals": "many"},
                {"tank": "Hall", "species": "Moss shrimps", "date_in": "2026-13-01"},
            ],
        ),
        encoding="utf-8",
    )
    (room / "maintenance.csv").unlink()
    (room / "settings.csv").write_text("key,value\nlead_days,1.5\naltitude,high\n", encoding="utf-8")
    # File by file, in the order of the tabs; here only what is told counts.
    assert sorted(refused(room, room.parent / "out" / "keeper.xlsx")) == sorted(
        [
            "settings.csv, row 2, column value: found '1.5' for lead_days; expected a whole number from 0 to 365",
            "settings.csv, row 3, column value: found 'high' for altitude; expected a number from -430 to 6000 m",
            "species.csv, row 2, column adult_length: found '0'; expected a number from 0.3 to 200 cm",
            "species.csv, row 2, column ph_low: found 6.0 above ph_high 5.0; expected a low end that is not above the high end",
            "waters.csv, row 3, column temperature: found 'x'; expected a number from 0 to 40 degC",
            "waters.csv, row 3, column water: found 'TAP' again, as in row 2; expected each name once",
            f"waters.csv, row 4: found 1 cells; expected {WIDE}, as in the header",
            "tanks.csv, row 2, column shape: found 'sphere'; expected one of box, cylinder, half cylinder, quarter cylinder, "
            "hexagon, octagon, trapezoid, bow front",
            "tanks.csv, row 2, column length: found 'x'; expected a number from 2 to 1000 cm",
            "tanks.csv, row 2, column tank_note: found '=1'; expected text of at most 2000 letters, not starting with = and no error such as #N/A",
            "livestock.csv, row 2, column animals: found 'many'; expected a whole number from 0 to 10000",
            "livestock.csv, row 2, column tank: found 'Hal'; expected a name that stands in tanks (near: Hall)",
            "livestock.csv, row 3, column animals: found nothing; expected a whole number from 0 to 10000",
            "livestock.csv, row 3, column date_in: found '2026-13-01'; "
            "expected a date such as 2026-03-31, from 1970 to 2150",
            "livestock.csv, row 3, column species: found 'Moss shrimps'; "
            "expected a name that stands in species (near: Moss shrimp)",
            "foods.csv, row 2, column stock: found '-1'; expected a number from 0 to 100000 g",
            f"maintenance.csv: found no such file; expected a CSV file with the columns {', '.join(header('maintenance'))}",
        ]
    )


def test_no_faults_that_only_follow_from_others(room: Path) -> None:
    """A file that can't be read, or a row that lacks cells, makes no links to its names wrong."""
    (room / "tanks.csv").write_bytes(b"\xff")
    assert len(refused(room, room.parent / "out" / "keeper.xlsx")) == 1
    (room / "tanks.csv").write_text(text_of(header("tanks"), ROOM["tanks"]).replace("tank,", "", 1), encoding="utf-8")
    assert len(refused(room, room.parent / "out" / "keeper.xlsx")) == 3  # the column, and two rows with a cell too many
    lines = text_of(header("tanks"), ROOM["tanks"]).replace("Süd", "Süd,").encode()
    (room / "tanks.csv").write_bytes(lines)
    assert len(refused(room, room.parent / "out" / "keeper.xlsx")) == 1


# --- rows that come with the package ---


@pytest.mark.parametrize(
    ("name", "edited", "line"),
    [
        ("constants", lambda t: t.replace("kg/L", "m", 1),
         "constants.csv, row 2, column unit: found 'm'; expected 'kg/L', as it comes with the package"),
        ("constants", lambda t: t.replace("glass_density", "pane_density", 1),
         "constants.csv, row 3, column key: found 'pane_density'; expected 'glass_density', as it comes with the package"),
        ("checks", lambda t: t + "17,one more,1,1,here\n", "checks.csv: found 17 rows; expected the 16 rows that come with the package"),
        ("references", lambda t: t.splitlines()[0], "references.csv: found 0 rows; expected the"),
        ("heater_sizes", lambda t: t.splitlines()[0], "heater_sizes.csv: found 0 rows; expected the"),
    ],
)  # fmt: skip
def test_own_copies_of_given_rows(room: Path, name: str, edited: Callable[[str], str], line: str) -> None:
    text = (SHARED / f"{name}.csv").read_text(encoding="utf-8")
    (room / f"{name}.csv").write_text(edited(text), encoding="utf-8")
    (found,) = refused(room, room.parent / "out" / "keeper.xlsx")
    assert found.startswith(line)


def test_own_constants_may_have_other_values(room: Path) -> None:
    rows = list(csv.DictReader(io.StringIO((SHARED / "constants.csv").read_text(encoding="utf-8"))))
    rows[0]["value"], rows[1]["value"] = "0.998", ""
    (room / "constants.csv").write_text(text_of(list(rows[0]), rows), encoding="utf-8")
    first, second, *_ = accepted(room)["constants"]
    assert first["value"] == 0.998
    assert "value" not in second


def test_a_task_may_be_of_the_list_or_of_ones_own(room: Path) -> None:
    rows = [
        {"task": "Change water", "tank": "Hall"},
        {"task": "Oil the hinges", "tank": "all", "every_days": "90"},
        {"task": "Why is it cold?", "tank": "all"},
    ]
    (room / "maintenance.csv").write_text(text_of(header("maintenance"), rows), encoding="utf-8")
    assert accepted(room)["maintenance"] == [
        {"task": "Change water", "tank": "Hall"},
        {"task": "Oil the hinges", "tank": "all", "every_days": 90},
        {"task": "Why is it cold?", "tank": "all"},
    ]


def test_the_task_list_may_have_other_intervals_but_not_other_cautions(room: Path) -> None:
    rows = list(csv.DictReader(io.StringIO((SHARED / "tasks.csv").read_text(encoding="utf-8"))))
    rows[0]["usual_days"], rows[1]["usual_minutes"] = "2", ""
    (room / "tasks.csv").write_text(text_of(list(rows[0]), rows), encoding="utf-8")
    first, second, *_ = accepted(room)["tasks"]
    assert first["usual_days"] == 2
    assert "usual_minutes" not in second
    rows[0]["task_caution"] = "None."
    (room / "tasks.csv").write_text(text_of(list(rows[0]), rows), encoding="utf-8")
    (line,) = refused(room, room.parent / "out" / "keeper.xlsx")
    assert line.startswith("tasks.csv, row 2, column task_caution: found 'None.'; expected ")


def test_foods_come_with_the_package_where_a_folder_brings_none(room: Path) -> None:
    (room / "foods.csv").unlink()
    change(room, {"feeding": {"food": "FRY powder"}})
    found = accepted(room)
    assert len(found["foods"]) == 30
    assert found["feeding"][0]["food"] == "Fry powder"


# --- places ---


def test_no_folder(tmp_path: Path) -> None:
    expected = "expected a folder of CSV files, the name of a starting set, or an edited workbook"
    assert refused(tmp_path / "none", tmp_path / "out" / "a.xlsx") == [
        f"{tmp_path / 'none'}: found no such folder; {expected}"
    ]
    (tmp_path / "file.csv").write_text("tank\n", encoding="utf-8")
    assert refused(tmp_path / "file.csv", tmp_path / "out" / "a.xlsx") == [
        "file.csv: found something that is no workbook; expected a workbook saved as .xlsx or .ods"
    ]


@pytest.mark.parametrize("source", ["x" * 5000, "a\nb", "\x1b[31m"])
def test_odd_names_of_folders(source: str) -> None:
    result = CliRunner().invoke(app, ["build", source])
    assert result.exit_code == 2, result.output
    assert "Traceback" not in result.stderr
    assert "\x1b" not in result.stderr
    assert len(result.stderr.splitlines()) == 2 if len(source) < 100 else 1


def test_a_place_that_cannot_be_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    built = compute(EDITION, read(BLANK, EDITION), SMALL)
    monkeypatch.setattr("workbook.build.compute", lambda *_: built)
    (tmp_path / "file").write_text("", encoding="utf-8")
    result = CliRunner().invoke(app, ["build", "blank", "-o", str(tmp_path / "file" / "a.xlsx")])
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == f"{tmp_path / 'file' / 'a.xlsx'}: Not a directory; nothing was written.\n"
    (tmp_path / "folder.xlsx").mkdir()
    result = CliRunner().invoke(app, ["build", "blank", "-o", str(tmp_path / "folder.xlsx")])
    assert (result.exit_code, result.stdout) == (2, "")
    found = f"{tmp_path / 'folder.xlsx'}: found a folder; expected a name that is free, or a regular file to replace"
    assert result.stderr == f"{found}\n1 found; nothing was written.\n"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["file", "folder.xlsx"]

    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied", str(tmp_path))

    monkeypatch.setattr("tempfile.mkstemp", refuse)
    result = CliRunner().invoke(app, ["build", "blank", "-o", str(tmp_path / "a.xlsx")])
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == f"{tmp_path}: Permission denied; nothing was written.\n"


# --- what is allowed ---


def test_forms_of_text(room: Path) -> None:
    expected = accepted(room)
    for path in room.glob("*.csv"):
        text = path.read_text(encoding="utf-8")
        spaced = text.replace(",", " ,\u00a0") + "\n \n\n"
        path.write_bytes(b"\xef\xbb\xbf" + spaced.replace("\n", "\r\n").encode())
    assert accepted(room) == expected
    for path in room.glob("*.csv"):
        path.write_bytes(path.read_bytes().replace(b"\r\n", b"\r"))
    assert accepted(room) == expected


def test_rows_of_commas_are_blank(room: Path) -> None:
    (room / "waters.csv").write_text(f"{WATERS}{REST}\n{REST * 2}\n", encoding="utf-8")
    assert accepted(room)["waters"] == [{"water": "Tap", "water_kind": "tap", "temperature": 20.0}]


def test_columns_in_any_order(room: Path) -> None:
    expected = accepted(room)
    for table, rows in ROOM.items():
        (room / f"{table}.csv").write_text(text_of(header(table)[::-1], rows), encoding="utf-8")
    assert accepted(room) == expected


def test_a_header_without_rows() -> None:
    assert accepted(BLANK)["tanks"] == []


def test_links_take_the_spelling_of_the_name(room: Path) -> None:
    change(room, {
        "livestock": {"tank": "HALL", "species": "reed TETRA"}, "feeding": {"tank": "hall", "food": "CRUMBS"},
        "maintenance": {"tank": "ALL"}, "own_ranges": {"species": "REED tetra"}, "tanks": {"water": "tAP", "shape": "BOX"},
    })  # fmt: skip
    found = accepted(room)
    assert (found["livestock"][0]["tank"], found["livestock"][0]["species"]) == ("Hall", "Reed tetra")
    assert (found["feeding"][0]["tank"], found["feeding"][0]["food"]) == ("Hall", "Crumbs")
    assert (found["tanks"][0]["water"], found["tanks"][0]["shape"]) == ("Tap", "box")
    assert found["maintenance"][0]["tank"] == "all"
    assert found["species"][0]["species"] == "Reed tetra"
    assert found["species"][0]["own_ph_low"] == 6


def test_words_in_any_capitals() -> None:
    kind = choice("yes", "NH3")
    assert [kind.parse(text) for text in ("YES", "yes", "nh3", "NH3")] == ["yes", "yes", "NH3", "NH3"]


@pytest.mark.parametrize(
    "name",
    [
        "Nord",
        "Großes Becken",
        "Ünïcödé",
        "水槽 3",
        "Аквариум",
        "🐟 1",
        "O'Hara's",
        'The "big" one',
        "A, B",
        "100 %",
        "#2",
    ],
)
def test_names_in_any_script(room: Path, name: str) -> None:
    change(room, {"tanks": {"tank": name}, "livestock": {"tank": name.upper()}, "feeding": {"tank": name.lower()}})
    found = accepted(room)
    assert [found[table][0]["tank"] for table in ("tanks", "livestock", "feeding")] == [name] * 3


def test_a_letter_written_in_two_ways(room: Path) -> None:
    change(
        room, {"tanks": {"tank": "Cafe\u0301"}, "livestock": {"tank": "Caf\u00e9"}, "feeding": {"tank": "CAFE\u0301"}}
    )
    found = accepted(room)
    assert [found[table][0]["tank"] for table in ("tanks", "livestock", "feeding")] == ["Caf\u00e9"] * 3


@pytest.mark.parametrize(
    "note",
    ["one, two", "one\ntwo", 'said "no"', "-5 below", "+ more", "@ noon", "<3", "~*?", "1,5", "ends in a comma,", "# N/A", "#1", "007", "NaN"],
)  # fmt: skip
def test_notes_hold_what_people_write(room: Path, note: str) -> None:
    change(room, {"tanks": {"tank_note": note}})
    assert accepted(room)["tanks"][0]["tank_note"] == note
    path = room / "tanks.csv"
    path.write_bytes(path.read_bytes().replace(b"\n", b"\r\n"))
    assert accepted(room)["tanks"][0]["tank_note"] == note


@pytest.mark.parametrize(("text", "value"), [("6", 6), ("+6.5", 6.5), ("6.", 6), ("65e-1", 6.5), ("006", 6)])
def test_numbers_as_people_write_them(room: Path, text: str, value: float) -> None:
    change(room, {"waters": {"ph": text}})
    assert accepted(room)["waters"][0]["ph"] == value


def test_no_line_that_is_said_moves_the_cursor_or_colours_the_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    """A name in a file may hold what terminals act on; by ECMA-48 such a sequence begins with ESC or CSI."""
    say("a tank\x1b[2J called\x9b31m\r\nnothing")
    said = capsys.readouterr().out
    assert said.count("\n") == 1
    assert all(letter.isprintable() for letter in said.rstrip("\n"))
    assert "a tank\\x1b[2J called" in said


def test_findings_are_one_plain_line() -> None:
    finding = Finding("a\nb.csv", 3, "c\x1b[31m", "x" * 500 + "\n", "one\u2028two")
    assert str(finding) == f"a\\nb.csv, row 3, column c\\x1b[31m: found {'x' * 77}...; expected one\\u2028two"


# --- anything at all ---


def _limits(column: Typed, end: str) -> str:
    """The least or the greatest that a column takes."""
    kind = column.kind
    match kind.name:
        case "number" | "count":
            return repr(kind.low if end == "low" else kind.high)
        case "date":
            return "1970-01-01" if end == "low" else "2150-12-31"
        case "choice":
            return kind.choices[0 if end == "low" else -1]
        case "text":
            return "'" if end == "low" else "&<\"'>%;" * 285
    return ""


@pytest.mark.parametrize("end", ["low", "high"])
def test_values_at_their_limits_give_a_workbook(room: Path, tmp_path: Path, end: str) -> None:
    """What is taken is also reckoned and written, however odd."""
    for table in EDITION.tables:
        if table.key in ROOM or table.key == "settings":
            cells = {c.key: _limits(c, end) for c in table.typed if c.kind.name not in {"key", "link"}}
            for name in {table.key} | {c.kept_in for c in table.typed if c.kept_in}:
                rows = [row | {k: v for k, v in cells.items() if k in header(name)} for row in ROOM.get(name, [])]
                rows = rows or [{"key": key, "value": value} for key, value in cells.items()]
                (room / f"{name}.csv").write_text(text_of(header(name), rows), encoding="utf-8")
    build(room, tmp_path / "limits.xlsx", SMALL)


NASTY = [
    "", " ", "0", "-1", "1e308", "1e999", "nan", "inf", "1,5", "=1+1", "@x", "*", "?", "~", '"', '""', "'", ",", "\n", "\r", "\t",
    "\x00", "\x1b[0m", "\ufeff", "\uffff", "\u202e", "é", "\U0001f41f", "¦", "→", "x" * 3000, "9" * 400, "2026-02-30", "all", "TRUE",
    "#REF!", "{}", "{0}", "%s", "&amp;", "]]>", "../x", "1/2", "1_000", "٣",
]  # fmt: skip
Spoil = Callable[[bytes], bytes]


def _cell(line: int, column: int, text: str) -> Spoil:
    def spoil(raw: bytes) -> bytes:
        rows = list(csv.reader(io.StringIO(raw.decode("utf-8", "replace"), newline="")))
        row = rows[line % len(rows)] if rows else []
        if row:
            row[column % len(row)] = text
        out = io.StringIO()
        csv.writer(out, lineterminator="\n").writerows(rows)
        return out.getvalue().encode("utf-8", "replace")

    return spoil


def _without(line: int) -> Spoil:
    def spoil(raw: bytes) -> bytes:
        lines = raw.splitlines(keepends=True)
        return b"".join(part for i, part in enumerate(lines) if i != line % len(lines)) if lines else raw

    return spoil


def _flipped(at: int, bits: int) -> Spoil:
    def spoil(raw: bytes) -> bytes:
        i = at % len(raw) if raw else 0
        return raw[:i] + bytes([raw[i] ^ bits]) + raw[i + 1 :] if raw else raw

    return spoil


PLACES = st.integers(0, 10_000)
SPOILS = st.one_of(
    st.builds(_cell, PLACES, PLACES, st.sampled_from(NASTY) | st.text(max_size=12)),
    st.builds(_without, PLACES),
    st.builds(_flipped, PLACES, st.integers(1, 255)),
)
NOT_READ = {*EDITION.given, *(table.key for table in EDITION.tables if table.chosen)}
NAMES_OF_FILES = sorted(path.name for path in DEMO.glob("*.csv"))


@settings(max_examples=examples(50, 300, 100), deadline=None)
@given(spoils=st.lists(st.tuples(st.sampled_from(NAMES_OF_FILES), SPOILS), min_size=1, max_size=4))
def test_spoiled_files_never_end_in_a_traceback(
    tmp_path_factory: pytest.TempPathFactory, spoils: list[tuple[str, Spoil]]
) -> None:
    folder = tmp_path_factory.getbasetemp() / "spoiled"
    shutil.copytree(DEMO, folder, dirs_exist_ok=True)
    for name, spoil in spoils:
        (folder / name).write_bytes(spoil((folder / name).read_bytes()))
    lines = ["nothing wrong: found none; expected none"]
    try:
        Folder(folder, SHARED, [t for t in EDITION.tables if t.key not in NOT_READ]).read()
    except BadInputError as error:
        lines = [str(finding) for finding in error.findings]
    assert lines
    for line in lines:
        assert line.isprintable()
        assert re.fullmatch(r".+: found .+; expected .+", line), line
