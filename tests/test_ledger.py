"""A shop's ledger by hand: days told event by event, what stands there in the evening counted on fingers.

What an event does to the stock is what its word means: common practice, no published source.
"""

from dataclasses import replace
from pathlib import Path
from typing import Any

import pandas as pd
import pytest
from typer.testing import CliRunner

from tests import office, returned
from tests.returned import DAY, place
from tests.rooms import Evaluated, changed, shortly, typed
from tests.test_shop import TODAY, lines_of
from workbook.cli import app
from workbook.copies.grids import Book, Raw
from workbook.copies.reading import content_of, read_book, read_copy

WEEK = [f"2026-09-{day:02}" for day in range(28, 31)] + [f"2026-10-{day:02}" for day in range(1, 6)]
SCANNED = 4006381333931  # thirteen digits, as a scanner types them


def day_of(events: list[tuple[Any, ...]], *stock: dict[str, Any], **more: Any) -> Evaluated:
    """A shop with these lines of stock, called X1, X2 ..., and these events: day, code, what, how many."""
    rows = pd.DataFrame(events, columns=["date", "code", "event", "pieces"], dtype=object).astype(str)
    shop = lines_of(stock or ({},), None, {"ledger": typed("ledger", rows)})
    if "plan_date" in more:
        more["settings"] = shop.settings | {"plan_date_typed": more["plan_date"]}
    return shortly(changed(shop, **more))


def here(events: list[tuple[Any, ...]], **line: Any) -> Any:
    """What is on hand now of one line, of which ten were typed."""
    return day_of(events, line).column("stock", "here")[0]


# --- on hand ---


def test_without_a_line_all_is_as_typed() -> None:
    found = day_of([], {"sold": 4, "lost": 1})
    assert [found.column("stock", key)[0] for key in ("here", "promised", "sold_lately", "lost_lately")] == [
        10,
        0,
        4,
        1,
    ]


@pytest.mark.parametrize(
    ("event", "left"),
    [("sold", 7), ("lost", 7), ("dead on arrival", 7), ("own use", 7), ("moved", 7), ("delivered", 13), ("returned", 13), ("counted", 3), ("reserved", 10), ("reservation ended", 10)],
)  # fmt: skip
def test_what_each_event_does_to_ten(event: str, left: int) -> None:
    assert here([(WEEK[3], "X1", event, 3)]) == left


def test_a_day_in_the_shop() -> None:
    """10 counted on Monday; Tuesday 20 come, 2 of them dead, 3 sold, one dies; Wednesday one comes back: 25."""
    events = [
        (WEEK[1], "X1", "delivered", 20),
        (WEEK[1], "X1", "dead on arrival", 2),
        (WEEK[1], "X1", "sold", 3),
        (WEEK[1], "X1", "lost", 1),
        (WEEK[2], "X1", "returned", 1),
    ]
    found = day_of(events, {"counted_on": WEEK[0]})
    assert found.column("stock", "here") == [25]
    assert found.column("stock", "sold_lately") == [2]  # 3, of which one came back
    assert found.column("stock", "lost_lately") == [3]
    assert found.column("stock", "free") == [25]


def test_what_was_before_the_count_is_in_it_already() -> None:
    events = [(WEEK[0], "X1", "sold", 4), (WEEK[1], "X1", "sold", 2), (WEEK[2], "X1", "sold", 1)]
    assert here(events, counted_on=WEEK[1]) == 9
    assert here(events) == 3  # no day of the count: all lines are later


def test_a_count_holds_for_its_day_whatever_else_happened_on_it() -> None:
    """Sold before or after the evening's count on the same day, above or below it: 6 is what was there that evening."""
    events = [(WEEK[2], "X1", "sold", 2), (WEEK[2], "X1", "counted", 6), (WEEK[2], "X1", "delivered", 5)]
    assert here(events) == 6
    assert here(events[::-1]) == 6
    assert here([*events, (WEEK[3], "X1", "sold", 1)]) == 5
    assert here([*events, (WEEK[1], "X1", "counted", 40)]) == 6  # an older one, typed later
    assert here([*events, (WEEK[2], "X1", "counted", 7)]) == 7  # of two on one day the lower row
    assert here(events, counted_on=WEEK[3]) == 10  # On hand was typed later
    assert here(events, counted_on=WEEK[2]) == 6


def test_a_day_still_to_come_does_not_count_yet() -> None:
    found = day_of([("2026-10-06", "X1", "sold", 2), ("2026-10-05", "X1", "sold", 1)])
    assert found.column("stock", "here") == [9]
    assert [bool(text) for text in found.column("ledger", "future")] == [True, False]


def test_a_line_that_lacks_something_or_names_nobody_counts_for_nothing() -> None:
    assert (
        here([(WEEK[1], "X9", "sold", 2), ("", "X1", "sold", 2), (WEEK[1], "X1", "", 2), (WEEK[1], "X1", "sold", "")])
        == 10
    )


def test_more_gone_than_there_were_is_none_and_is_told() -> None:
    found = day_of([(WEEK[1], "X1", "sold", 12)])
    assert found.column("stock", "here") == [0]
    assert found.column("stock", "more_gone")[0].startswith("◆ More gone than there were: 10 were counted")


def test_promises_come_and_go() -> None:
    events = [(WEEK[1], "X1", "reserved", 4), (WEEK[2], "X1", "reservation ended", 1)]
    found = day_of(events, {"reserved": 2})
    assert (found.column("stock", "promised"), found.column("stock", "free")) == ([5], [5])


def test_the_animals_of_a_tank_are_those_that_are_left() -> None:
    fish = {"species": "Neon tetra", "goods": "", "tank": "Amber 1", "on_hand": 12}
    found = day_of([(WEEK[1], "X1", "sold", 5), (WEEK[2], "X1", "lost", 1)], fish)
    assert found.column("stocking", "animals")[0] == 6


# --- moves and deliveries ---


def moved(*events: tuple[Any, ...]) -> Evaluated:
    """Two tanks of neon tetras, 10 and 7, and one line of others; the fifth of an event is the tank it goes to."""
    neon = {"species": "Neon tetra", "goods": ""}
    stock = (
        neon | {"tank": "Amber 1"},
        neon | {"tank": "Amber 2", "on_hand": 7, "counted_on": WEEK[1]},
        {"species": "Ember tetra", "goods": "", "tank": "Amber 2"},
    )
    rows = pd.DataFrame(events, columns=["date", "code", "event", "pieces", "to_tank"], dtype=object).astype(str)
    return shortly(lines_of(stock, None, {"ledger": typed("ledger", rows)}))


def test_a_move_splits_and_joins() -> None:
    """4 of 10 go to the 7; 2 of these 11 come back: 8 and 9, and so it is in the tanks."""
    found = moved((WEEK[2], "X1", "moved", 4, "Amber 2"), (WEEK[3], "X2", "moved", 2, "Amber 1"))
    assert found.column("stock", "here") == [8, 9, 10]
    assert found.column("stocking", "animals")[:2] == [8, 19]
    assert found.column("stock", "sold_lately") == [0, 0, 0]
    assert not any(found.column("ledger", "moved_nowhere"))


def test_what_came_before_the_count_is_in_it() -> None:
    assert moved((WEEK[1], "X1", "moved", 4, "Amber 2")).column("stock", "here") == [6, 7, 10]


def test_a_move_to_where_no_line_is_is_told() -> None:
    found = moved(
        (WEEK[2], "X3", "moved", 4, "Amber 1"), (WEEK[2], "X1", "moved", 1, ""), (WEEK[2], "X1", "sold", 1, "Amber 2")
    )
    assert found.column("stock", "here") == [8, 7, 6]
    assert [bool(text) for text in found.column("ledger", "moved_nowhere")] == [True, True, False]


def test_a_delivery_takes_its_number_off_what_is_incoming() -> None:
    """20 ordered on Tuesday: 12 come on Thursday, 3 of them dead, so 8 are still to come and 19 are here."""
    events = [(WEEK[0], "X1", "delivered", 5), (WEEK[3], "X1", "delivered", 12), (WEEK[3], "X1", "dead on arrival", 3)]
    ordered = {"incoming": 20, "ordered_on": WEEK[1], "counted_on": WEEK[0]}
    found = day_of(events, ordered)
    assert (found.column("stock", "coming"), found.column("stock", "here")) == ([8], [19])
    assert day_of([*events, (WEEK[4], "X1", "delivered", 9)], ordered).column("stock", "coming") == [0]
    assert day_of(events, ordered | {"ordered_on": ""}).column("stock", "coming") == [20]


# --- the last thirty days ---


def test_the_last_thirty_days_roll_with_the_plan_date() -> None:
    """Thirty days up to 5 October begin on 6 September."""
    events = [("2026-09-05", "X1", "sold", 1), ("2026-09-06", "X1", "sold", 10), ("2026-10-05", "X1", "sold", 100)]
    found = day_of(events, {"sold": "", "lost": "", "on_hand": 900})
    assert found.column("stock", "sold_lately") == [110]
    later = day_of(events, {"sold": "", "lost": "", "on_hand": 900}, plan_date=TODAY + pd.Timedelta(days=1))
    assert later.column("stock", "sold_lately") == [100]


def test_sales_typed_with_the_count_fade_as_its_days_leave_the_window() -> None:
    """30 sold in the 30 days up to 25 September: ten days later 20 of the 30 days are left, so 20; and 3 since."""
    found = day_of(
        [(WEEK[1], "X1", "sold", 3), ("2026-09-20", "X1", "sold", 9)], {"sold": 30, "counted_on": "2026-09-25"}
    )
    assert found.column("stock", "sold_lately") == [23]  # what was sold on the 20th is among the 30
    old = day_of([(WEEK[1], "X1", "sold", 3)], {"sold": 30, "counted_on": "2026-08-01"})
    assert old.column("stock", "sold_lately") == [3]


def test_never_counted_and_never_sold_is_unknown() -> None:
    found = day_of(
        [(WEEK[1], "X2", "lost", 1)],
        {"sold": "", "lost": ""},
        {"sold": "", "lost": ""},
        {"sold": "", "lost": "", "counted_on": "2026-08-01"},
    )
    assert found.column("stock", "sold_lately") == ["", 0, 0]
    assert found.column("stock", "lost_lately") == ["", 1, 0]


# --- money ---


def money_of(events: list[tuple[Any, ...]], *stock: dict[str, Any], **more: Any) -> Evaluated:
    """As day_of, with what one was sold or bought for as the fifth of an event."""
    rows = pd.DataFrame(events, columns=["date", "code", "event", "pieces", "each"], dtype=object).astype(str)
    suppliers = [{"supplier": "Near", "settled_to": more.pop("settled_to", "")}, {"supplier": "Far"}]
    shop = lines_of(stock or ({},), [{"delivery_days": "", "least_order": "", **one} for one in suppliers], {})
    return shortly(changed(shop, ledger=typed("ledger", rows)))


def test_takings_of_a_day() -> None:
    """3 at the price of 10, 2 of them as a bargain at 7, one comes back at 10: 30 + 14 - 10 = 34 for 4 x 4 = 16."""
    events = [
        (WEEK[-1], "X1", "sold", 3, ""),
        (WEEK[-1], "X1", "sold", 2, 7),
        (WEEK[-1], "X1", "returned", 1, ""),
        (WEEK[-1], "X1", "lost", 2, ""),
        (WEEK[-2], "X1", "sold", 1, ""),
        (WEEK[-2], "X1", "own use", 1, ""),
    ]
    found = money_of(events)
    told = {key: found.column("takings", key)[:2] for key in ("pieces", "taken", "goods", "left_over", "died_cost")}
    assert told == {"pieces": [4, 1], "taken": [34, 10], "goods": [16, 4], "left_over": [18, 6], "died_cost": [8, 0]}
    assert found.column("takings", "weekday")[:2] == ["Mon 5", "Sun 4"]
    assert found.column("takings_summary", "week") == [44]


def test_what_has_no_price_takes_in_nothing_that_is_known() -> None:
    found = money_of([(WEEK[-1], "X1", "sold", 3, ""), (WEEK[-1], "X1", "sold", 1, 8)], {"price": ""})
    assert found.column("ledger", "taken") == ["", 8]
    assert found.column("takings", "taken")[0] == 8


def test_the_mean_of_what_was_paid() -> None:
    """10 at 4 and 30 at 6 are 40 + 180 for 40: 5.50 each, whichever of them are sold; the count's own cost stays 4."""
    events = [(WEEK[1], "X1", "delivered", 30, 6), (WEEK[2], "X1", "sold", 20, "")]
    found = money_of(events, {"counted_on": WEEK[0]})
    assert found.column("stock", "mean_cost") == [5.5]
    assert found.column("stock", "value_cost") == [110]  # 20 left
    assert found.column("ledger", "went_cost") == [0, 110]
    assert money_of(events[:1], {"cost": ""}).column("stock", "mean_cost") == [6]
    assert money_of([(WEEK[1], "X1", "delivered", 30, "")], {"cost": ""}).column("stock", "mean_cost") == [""]
    assert money_of(events[1:]).column("stock", "mean_cost") == [4]


def test_what_was_dead_on_arrival_is_claimed_until_it_is_settled() -> None:
    """3 at 4 and 2 at 6 from Near: 24; settled up to the first day, 12 are left. Far delivered another line."""
    near, far = {"supplier": "Near"}, {"supplier": "Far"}
    events = [
        (WEEK[1], "X1", "dead on arrival", 3, ""),
        (WEEK[2], "X1", "dead on arrival", 2, 6),
        (WEEK[2], "X1", "lost", 1, ""),
        (WEEK[2], "X2", "dead on arrival", 1, 5),
    ]
    found = money_of(events, near, far)
    assert (found.column("suppliers", "dead"), found.column("suppliers", "claim")) == ([5, 1], [24, 5])
    later = money_of(events, near, far, settled_to=WEEK[1])
    assert (later.column("suppliers", "dead"), later.column("suppliers", "claim")) == ([2, 1], [12, 5])
    assert [bool(text) for text in money_of(events, near, far, settled_to=WEEK[2]).column("suppliers", "to_claim")] == [
        False,
        True,
    ]


def test_losses_by_supplier_and_species() -> None:
    """Two lines of one species from two suppliers, and one of another species."""
    neon = {"species": "Neon tetra", "goods": "", "tank": "Amber 1"}
    stock = (
        neon | {"supplier": "Near", "on_hand": 20},
        neon | {"supplier": "Far", "tank": "Amber 2", "on_hand": 10},
        {"species": "Ember tetra", "goods": "", "tank": "Amber 2", "supplier": "Far", "on_hand": 10},
    )
    events = [
        (WEEK[1], "X1", "lost", 4, ""),
        (WEEK[1], "X1", "sold", 6, ""),
        (WEEK[2], "X2", "dead on arrival", 6, ""),
        (WEEK[3], "X3", "lost", 1, ""),
    ]
    found = money_of(events, *stock)
    # Near: 4 of 20. Far: 6 of 10 and 1 of 10.
    assert found.column("suppliers", "loss_share") == [pytest.approx(4 / 20), pytest.approx(7 / 20)]
    # Neon tetras: 10 of 30; ember tetras: 1 of 10.
    assert found.column("losses", "species")[:3] == ["Neon tetra", "Ember tetra", ""]
    assert found.column("losses", "loss_share")[:2] == [pytest.approx(1 / 3), pytest.approx(1 / 10)]


# --- scanned, merged, brought over ---


def run(*words: Any) -> str:
    done = CliRunner().invoke(app, [str(word) for word in words])
    assert done.exit_code == 0, done.output
    return done.stdout


def on_hand(path: Path) -> office.Value:
    """What the first line of the stock list shows as on hand now."""
    return office.values(path)[place(path, "stock_here")]


def sold_at_the_till(shop: Path, out: Path, *lines: dict[str, office.Value], **cells: office.Value) -> Path:
    """A copy in which somebody typed lines into the ledger."""
    typed_there = {
        place(shop, f"ledger_{key}", row): value for row, one in enumerate(lines) for key, value in one.items()
    }
    return office.edited(shop, out, typed_there | {place(shop, name): value for name, value in cells.items()})


def line(code: office.Value, pieces: float, **more: office.Value) -> dict[str, office.Value]:
    day = float((DAY - pd.Timestamp("1899-12-30").date()).days)
    return {"date": day, "code": code, "event": "sold", "pieces": pieces, **more}


def test_a_scanned_code_is_a_number_and_stays_whole(tmp_path: Path) -> None:
    """Typed as a number in both lists, or in one of them: it is the same article, in the file and in the next one."""
    shop = returned.book("shop")
    for n, (there, scanned) in enumerate(((float(SCANNED), float(SCANNED)), (str(SCANNED), float(SCANNED)))):
        copy = sold_at_the_till(shop, tmp_path / f"scanned {n}.xlsx", line(scanned, 3.0), stock_code=there)
        assert run("build", copy, "-o", tmp_path / f"fresh {n}.xlsx").splitlines()[0].startswith(f"{tmp_path}")
        entry = read_copy(tmp_path / f"fresh {n}.xlsx").tables["ledger"][0]
        assert entry.values["code"] == "4006381333931"
        assert on_hand(tmp_path / f"fresh {n}.xlsx") == 17
    run("export", tmp_path / "fresh 0.xlsx", "-o", tmp_path / "folder")
    assert ",4006381333931,sold,3," in (tmp_path / "folder" / "ledger.csv").read_text(encoding="utf-8")


@pytest.mark.office
def test_a_scanned_code_is_found_at_once_in_an_office_program(tmp_path: Path) -> None:
    """A scanner types a number, the list may hold digits as text, and the other way round."""
    shop = returned.book("shop")
    pairs = ((float(SCANNED), float(SCANNED)), (str(SCANNED), float(SCANNED)), (float(SCANNED), str(SCANNED)))
    copies = [
        sold_at_the_till(shop, tmp_path / f"scanned {n}.xlsx", line(scanned, 3.0), stock_code=there)
        for n, (there, scanned) in enumerate(pairs)
    ]
    shown = office.recalculated(copies, tmp_path / "shown")
    assert [cells[place(shop, "stock_here")] for cells in shown] == [17, 17, 17]


def test_lines_of_two_copies_are_all_kept(tmp_path: Path) -> None:
    """Anna sells 3 nets and 2, Ben 2: his line is word for word hers, and still another sale. 20 - 7 = 13."""
    shop = returned.book("shop")
    anna = sold_at_the_till(shop, tmp_path / "anna.xlsx", line("T1", 3.0), line("T1", 2.0))
    ben = sold_at_the_till(shop, tmp_path / "ben.xlsx", line("T1", 2.0))
    told = run("merge", shop, anna, ben, "-o", tmp_path / "evening.xlsx")
    assert told.endswith("; 0 to decide\n")
    assert sorted(e.values["pieces"] for e in read_copy(tmp_path / "evening.xlsx").tables["ledger"]) == [2, 2, 3]
    assert on_hand(tmp_path / "evening.xlsx") == 13


def test_a_copy_that_comes_twice_sells_once(tmp_path: Path) -> None:
    shop = returned.book("shop")
    anna = sold_at_the_till(shop, tmp_path / "anna.xlsx", line("T1", 3.0))
    again = tmp_path / "anna (1).xlsx"
    again.write_bytes(anna.read_bytes())
    run("merge", shop, anna, again, "-o", tmp_path / "evening.xlsx")
    assert [e.values["pieces"] for e in read_copy(tmp_path / "evening.xlsx").tables["ledger"]] == [3]


def without_a_ledger(book: Book) -> Book:
    """The file as one of schema 3 was: no ledger, no day of the count, and three more answers beside the stock list."""
    gone = book.names["stock_counted_on"]
    grid = book.grids[gone.sheet]
    far = max(column for _, column in grid.cells) + 1
    answers = {
        "stock_margin_shown": "Margin",
        "stock_value_price_shown": "On hand at price",
        "stock_days_here_day_shown": "Days since delivery",
    }
    cells = {at: raw for at, raw in grid.cells.items() if at[1] != gone.left}
    names = {
        name: area
        for name, area in book.names.items()
        if not name.startswith(("ledger_", "stock_counted_on", "stock_ordered_on"))
    }
    for at, (name, label) in enumerate(answers.items(), far):
        cells |= {(gone.top - 3, at): Raw(label)} | {(row, at): Raw(3.0) for row in range(gone.top, gone.bottom + 1)}
        names[name] = gone._replace(left=at, right=at)
    grids = {title: held for title, held in book.grids.items() if not title.startswith("Sales and losses")}
    facts = book.facts | {"shoalbook schema": "3"}
    return Book(book.name, grids | {gone.sheet: replace(grid, cells=cells)}, names, facts)


def test_a_file_without_a_ledger_comes_over_as_it_was_typed() -> None:
    book, now = read_book(returned.book("shop"))
    old = content_of(without_a_ledger(book))
    assert [entry.values for entry in old.tables["stock"]] == [entry.values for entry in now.tables["stock"]]
    assert (old.schema, old.added_columns, old.tables.get("ledger", ())) == (3, {}, ())
    not_brought_up = content_of(replace_facts(without_a_ledger(book), now.schema))
    assert set(not_brought_up.added_columns["stock"]) == {"Margin", "On hand at price", "Days since delivery"}


def replace_facts(book: Book, schema: int) -> Book:
    """The same file as if it said that it is of this schema."""
    return replace(book, facts=book.facts | {"shoalbook schema": str(schema)})
