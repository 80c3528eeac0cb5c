"""The benchmark, which only the gate runs, still fits what it measures: its rooms can be read, its smaller edition is one."""

from pathlib import Path

from tests import benchmark, books, short
from workbook.build import compiled, read
from workbook.editions import EDITIONS


def test_its_edition_without_candidates_can_be_laid_out() -> None:
    cut = benchmark.without("Candidates", "All candidates")
    with short.answers():
        placing, pages = compiled(cut, books.few("keeper"), benchmark.QUICK.plan())
    whole = {sheet.title for sheet in benchmark.EDITION.sheets}
    assert whole - set(placing.sheets) == {"Candidates", "All candidates"}
    assert [page.placed.sheet.title for page in pages] == list(placing.sheets)


def test_its_rooms_can_be_read(tmp_path: Path) -> None:
    smaller, larger = tmp_path / "smaller", tmp_path / "larger"
    for room, size in ((smaller, benchmark.QUICK.sizes[0]), (larger, 2)):
        room.mkdir()
        benchmark.write_room(room, size)
    assert len(read(larger, benchmark.EDITION)["tanks"]) == 2 * benchmark.ROWS["tanks"]
    assert read(smaller, benchmark.EDITION)["livestock"]


def test_its_small_shop_can_be_read(tmp_path: Path) -> None:
    folder = benchmark.shop_folder(tmp_path / "shop.xlsx", 7, benchmark.QUICK)
    records = read(folder, EDITIONS["shop"]())
    assert len(records["stock"]) == 7
    assert len(records["tanks"]) == benchmark.QUICK.shop_tanks
