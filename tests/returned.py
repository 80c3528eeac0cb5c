"""Small files as people send them back: an invented room, shop and club, and copies in which somebody typed."""

import csv
import datetime
import shutil
import tempfile
from pathlib import Path

from tests import books, office, short
from workbook.build import Plan, build, templates_folder
from workbook.editions import EDITIONS

DAY = datetime.date(2026, 11, 25)
FEW = 6  # ready rows
ROWS = {
    "tanks": [{"tank": "Shelf 1", "length": "100", "width": "40", "height": "40", "temperature": "25"}],
    "stock": [
        {"code": "T1", "goods": "Net", "on_hand": "20", "sold": "0", "cost": "2", "price": "5"},
        {"code": "T2", "species": "Neon tetra", "tank": "Shelf 1", "on_hand": "30", "sold": "4", "price": "3"},
    ],
    "proposals": [{"proposed": "Marsh goby", "adult_length": "6"}],
}


def small(folder: Path, edition: str, species: int | None = None) -> Path:
    """The edition's empty set with a few rows of our own invention; with the first species of the library, or all."""
    shutil.copytree(templates_folder() / {"keeper": "blank"}.get(edition, f"{edition}-blank"), folder)
    for table in (t for t in EDITIONS[edition]().tables if t.key in ROWS and t.is_list):
        keys = [c.header for c in table.typed if not c.kept_in]
        with (folder / f"{table.key}.csv").open("w", encoding="utf-8", newline="") as file:
            writer = csv.DictWriter(file, keys)
            writer.writeheader()
            writer.writerows({k: v for k, v in row.items() if k in keys} for row in ROWS[table.key])
    if species:
        library = (templates_folder() / "shared" / "species.csv").read_text(encoding="utf-8").splitlines(keepends=True)
        (folder / "species.csv").write_text("".join(library[: species + 1]), encoding="utf-8")
    return folder


def book(edition: str, units: str = "metric") -> Path:
    """Its file with twelve species and a few ready rows, built once a session."""
    plan = Plan(edition, units, FEW, DAY)

    def make(path: Path) -> None:
        with tempfile.TemporaryDirectory() as folder, short.answers():
            build(small(Path(folder) / edition, edition, species=12), path, plan)

    return books.shared(f"returned-{edition}-{units}.xlsx", make)


def place(path: Path, name: str, row: int = 0) -> office.At:
    """The cell of a defined name, so many rows down."""
    sheet, top, left, *_ = office.areas(path)[name]
    return sheet, top + row, left


def desk(folder: Path) -> Path:
    """What the README assumes: of a room, a shop and a club what was handed out, and two copies of it each."""
    typed: dict[str, dict[str, list[tuple[str, int, office.Value]]]] = {
        "room": {
            "edited": [("tanks_length_cm", 0, 120.0), ("tanks_tank", 1, "Window")],
            "other": [("tanks_length_cm", 0, 110.0), ("tanks_height_cm", 0, 45.0)],
        },
        "shop": {
            "anna": [("stock_on_hand", 0, 17.0), ("stock_sold", 0, 3.0)],
            "ben": [("stock_on_hand", 0, 18.0), ("stock_sold", 0, 2.0)],
        },
        "club": {
            "carl": [("proposals_proposed", 1, "Reed loach"), ("tanks_tank", 1, "Carl's tank")],
            "dora": [("proposals_proposed", 1, "Blue danio"), ("species_own_adult_length_cm", 0, 4.0)],
        },
    }
    for name, copies in typed.items():
        edition, base = {"room": "keeper"}.get(name, name), folder / f"{name}.xlsx"
        build(small(folder / f"{name}-folder", edition, species=12), base, Plan(edition, spare_rows=6, plan_date=DAY))
        for who, cells in copies.items():
            office.edited(base, folder / f"{who}.xlsx", {place(base, c, row): value for c, row, value in cells})
    return folder
