"""A tank or a species that has another name in its own list is followed wherever its old one stands, when that is wanted."""

from pathlib import Path

import pytest
from typer.testing import CliRunner

from tests import books, office, returned
from workbook.cli import app
from workbook.copies.content import Content, Entry
from workbook.copies.following import followed
from workbook.copies.reading import read_copy
from workbook.editions import keeper
from workbook.tables.kinds import Value

TABLES = keeper().tables


def content(**tables: list[dict[str, Value]]) -> Content:
    """A workbook of these rows."""
    return Content("mine.xlsx", "keeper", "metric", 1, {key: tuple(map(Entry, rows)) for key, rows in tables.items()})


RENAMED = content(
    tanks=[{"tank": "North"}, {"tank": "Bow"}],
    livestock=[{"tank": "Long", "species": "Neon tetra"}, {"tank": "long"}, {"tank": "Bow"}],
    maintenance=[{"task": "Change water", "tank": "Long"}, {"task": "Trim the plants", "tank": "all"}],
    log=[{"tank": "Bow"}, {"tank": "Long"}],
    species=[{"species": "Neon tetra"}, {"species": "Ember tetra"}],
)


def test_one_line_offers_it_and_names_all_places() -> None:
    same, said = followed(RENAMED, TABLES, follow=False)
    assert same == RENAMED
    assert said == [
        "Tanks: 'Long' is not there any more, but stands in Log (1), Maintenance (1), Livestock (2); if it is 'North' "
        "now, build with --follow to put that in its place"
    ]


def test_followed_it_stands_everywhere_and_nothing_else_has_changed() -> None:
    done, said = followed(RENAMED, TABLES, follow=True)
    assert said == ["Tanks: 'Long' is 'North' now, followed in Log (1), Maintenance (1), Livestock (2)"]
    tanks = {key: [row.values["tank"] for row in done.tables[key]] for key in ("livestock", "maintenance", "log")}
    assert tanks == {"livestock": ["North", "North", "Bow"], "maintenance": ["North", "all"], "log": ["Bow", "North"]}
    assert done.tables["species"] == RENAMED.tables["species"]


DOUBTFUL = {
    "two are named nowhere": {"tanks": [{"tank": "North"}, {"tank": "Bow"}, {"tank": "New"}]},
    "two are gone": {"feeding": [{"tank": "Drum"}]},
    "none is new": {"tanks": [{"tank": "Bow"}]},
}


@pytest.mark.parametrize("case", DOUBTFUL)
def test_where_there_is_doubt_nothing_is_offered(case: str) -> None:
    rows = {key: [dict(row.values) for row in RENAMED.tables[key]] for key in ("tanks", "livestock", "log", "species")}
    assert followed(content(**(rows | DOUBTFUL[case])), TABLES, follow=True)[1] == []


def test_a_species_of_the_library_under_another_name() -> None:
    """Kinds that the package's library has are not new, though nobody keeps them."""
    kinds = [{"species": "Neon"}, {"species": "Ember tetra"}]
    mine = content(tanks=[{"tank": "Bow"}], livestock=[{"tank": "Bow", "species": "Neon tetra"}], species=kinds)
    done, said = followed(mine, TABLES, follow=True)
    assert said == ["Species: 'Neon tetra' is 'Neon' now, followed in Livestock (1)"]
    assert done.tables["livestock"][0].values["species"] == "Neon"


def test_build_offers_it_and_does_it(tmp_path: Path) -> None:
    made = books.book()
    names = list(filter(None, books.column(made, "tanks_tank")))
    row = names.index("Rack B1")
    copy = office.edited(made, tmp_path / "mine.xlsx", {returned.place(made, "tanks_tank", row): "Rack B9"})
    run = CliRunner().invoke(app, ["build", str(copy), "-o", str(tmp_path / "fresh.xlsx"), "--spare-rows", "4"])
    told = [
        line for line in run.output.replace("\n", " ").split("Tanks: ") if line.startswith("'Rack B1' is not there")
    ]
    assert len(told) == 1
    assert "'Rack B9'" in told[0]
    run = CliRunner().invoke(
        app, ["build", str(copy), "-o", str(tmp_path / "fresh.xlsx"), "--spare-rows", "4", "--follow"]
    )
    assert run.exit_code == 0
    fresh = read_copy(tmp_path / "fresh.xlsx")
    for table in ("livestock", "log", "feeding", "maintenance"):
        found = {entry.values.get("tank") for entry in fresh.tables[table]}
        assert "Rack B9" in found
        assert "Rack B1" not in found
