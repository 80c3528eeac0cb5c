"""The engine is given each column's formula once; that must say the same as giving it every cell by itself."""

import dataclasses
import datetime

import ironcalc
import pytest

from tests.effort import also, in_the_end
from workbook.build import Plan, compiled, read, templates_folder
from workbook.cells.evaluating import FormulaError, Plain, evaluate
from workbook.cells.pages import Cell, Page, Records, Run
from workbook.cells.slots import PlacedSheet
from workbook.editions import EDITIONS
from workbook.tables.sheet import Sheet

DAY = datetime.date(2026, 1, 1)
At = tuple[str, int, int]


def one_by_one(pages: list[Page], names: dict[str, tuple[str, int, int, int, int]]) -> dict[At, object]:
    """The value of every formula, each put into the engine by itself."""
    model, plain = ironcalc.create("cells", "en", "UTC", "en"), Plain(names, DAY)
    model.rename_sheet(0, pages[0].placed.sheet.title)
    for page in pages[1:]:
        model.add_sheet(page.placed.sheet.title)
    for i, page in enumerate(pages):
        for row, column, kind, content, _ in page.cells:
            if kind == "number":
                model.update_cell_with_number(i, row, column, content)
            elif kind == "text":
                model.update_cell_with_text(i, row, column, content)
        for row, column, text, _ in page.formulas():
            model.update_cell_with_formula(i, row, column, plain(text))
    model.evaluate()
    return {
        (page.placed.sheet.title, row, column): model.get_cell_value(i, row, column)
        for i, page in enumerate(pages)
        for row, column in page.places()
    }


def few(records: Records) -> Records:
    """Some rows of the long lists, and the species that they name."""
    cut = records | {key: records[key][:20] for key in ("livestock", "stock", "log") if key in records}
    named = {row.get("species") for key in ("livestock", "stock") for row in cut.get(key, [])}
    return cut | {"species": [row for row in records["species"] if row["species"] in named] or records["species"][:9]}


@pytest.mark.parametrize(
    ("source", "units"), [("shop-demo", "us"), *also(("club-blank", "metric")), *in_the_end(("demo", "us"))]
)
def test_a_column_has_the_values_of_its_cells_put_in_one_by_one(source: str, units: str) -> None:
    """Every cell of every table of every edition, those of ready rows too, to the last digit."""
    name = source.partition("-")[0] if "-" in source else "keeper"
    edition = EDITIONS[name]()
    records = few(read(templates_folder() / source, edition))
    placing, pages = compiled(edition, records, Plan(name, units, spare_rows=3))
    values = evaluate(pages, placing.names(), DAY)
    expected = one_by_one(pages, placing.names())
    assert set(values) == set(expected)
    assert [at for at in expected if values[at] != expected[at]] == []


def page(title: str, cells: list[Cell], runs: list[Run]) -> Page:
    """A page that is no edition's."""
    return Page(PlacedSheet(Sheet(title, "")), cells, runs)


def column(at: int, template: str, rows: int = 3) -> Run:
    """A run of formulas from the second row."""
    return Run(at, 2, rows, template, ("", ""))


def test_titles_and_texts_may_hold_what_a_file_marks_otherwise() -> None:
    """Angle brackets, ampersands, quotes, blanks at the ends; sheets beside a sheet of such a name."""
    odd = "A & <B> 'n' \"C\""
    there = "'" + odd.replace("'", "''") + "'"
    pages = [
        page(odd, [Cell(row, 1, "number", row * 1.5, ("", "")) for row in (2, 3, 4)], []),
        page(
            "Answers",
            [],
            [
                column(1, f"={there}!A\x000\x00*2"),
                column(2, '=IF(A\x000\x00<>3," <a> & ""b""  ","é→▲")'),
                column(3, "=SUM($A$2:$A$4)-A\x00-1\x00", rows=1),
            ],
        ),
    ]
    values = evaluate(pages, {}, DAY)
    assert dict(values) == one_by_one(pages, {})
    assert [values["Answers", row, 1] for row in (2, 3, 4)] == [6, 9, 12]
    assert values["Answers", 3, 2] == ' <a> & "b"  '


def test_no_digit_of_a_number_in_a_formula_is_lost() -> None:
    """Seventeen digits tell two numbers apart, the engine's own files hold fifteen."""
    cells = [Cell(row, 1, "number", row, ("", "")) for row in (2, 3, 4)]
    made = page("Answers", cells, [column(2, "=A\x000\x00*0.39370078740157477")])
    assert [evaluate([made], {}, DAY)["Answers", row, 2] for row in (2, 3, 4)] == [
        row * 0.39370078740157477 for row in (2, 3, 4)
    ]


def test_a_name_in_quotes_is_a_word() -> None:
    cells = [Cell(row, 1, "number", row, ("", "")) for row in (2, 3, 4)]
    made = page("Answers", cells, [column(2, '="the sum of mine_a: "&SUM(mine_a)')])
    assert evaluate([made], {"mine_a": ("Answers", 2, 1, 4, 1)}, DAY)["Answers", 2, 2] == "the sum of mine_a: 9"


def test_a_run_without_rows_leaves_no_trace() -> None:
    """What a file holds in place of a whole column."""
    made = page("Answers", [], [column(1, "=1+1", rows=0), column(2, "=B\x00-1\x00+1")])
    assert dict(evaluate([made], {}, DAY)) == {("Answers", 2, 2): 1, ("Answers", 3, 2): 2, ("Answers", 4, 2): 3}


def test_a_formula_that_gives_no_value_is_told_with_its_cell() -> None:
    """Whatever the row, the message names it."""
    made = page("Answers", [Cell(4, 1, "number", 0, ("", ""))], [column(2, "=IF(A\x000\x00=0,1/A\x000\x00,1)")])
    made.cells += [Cell(row, 1, "number", 1, ("", "")) for row in (2, 3)]
    with pytest.raises(FormulaError, match=r"Answers, row 4, column 2: =IF\(A4=0,1/A4,1\) gives #DIV/0!"):
        evaluate([made], {}, DAY)
    wrong = dataclasses.replace(made, runs=[column(2, "=A\x000\x00=1")])
    with pytest.raises(FormulaError, match="the formula gives True"):
        evaluate([wrong], {}, DAY)


def test_a_formula_the_engine_does_not_know_is_told() -> None:
    """A fault in a declaration must not pass for a value."""
    made = page("Answers", [], [column(2, "=NOSUCH(A\x000\x00)")])
    with pytest.raises(FormulaError, match="row 2, column 2"):
        evaluate([made], {}, DAY)
    broken = page("Answers", [], [column(2, "=1+")])
    with pytest.raises(FormulaError, match="row 2, column 2"):
        evaluate([broken], {}, DAY)


def test_a_formula_of_a_persons_own_may_fail_by_what_it_looks_at() -> None:
    """As it does in an office program; what only this engine does not know stays blank."""
    texts = ("=1/0", "=0+MATCH(2,A9:A9,0)", '="a"+1', "=SQRT(-1)", "=NOSUCH(1)", "=1+1")
    made = page("Mine", [Cell(row, 1, "formula", text, ("", "")) for row, text in enumerate(texts, 1)], [])
    made.own = {(row, 1) for row in range(1, len(texts) + 1)}
    values = evaluate([made], {}, DAY)
    assert [values["Mine", row, 1] for row in range(1, 7)] == ["#DIV/0!", "#N/A", "#VALUE!", "#NUM!", "", 2]
