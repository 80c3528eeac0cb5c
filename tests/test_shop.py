"""The shop by hand: lines of stock argued one by one, orders, labels, buyers, and the ways a shop's file is built.

Expected numbers: margin as a share of the price, minimum as sales over the delivery time and some days in hand, and an
order up to a level once the stock that counts falls below the minimum are common practice of retail and stock control,
no published source; the arithmetic beside each number is done by hand.
"""

import functools
import re
import zipfile
from pathlib import Path
from typing import Any

import pandas as pd
import pytest

from tests import books, office, shop_demo
from tests.oracles.tools import living
from tests.rooms import Evaluated, blank_shop, changed, demo_room, demo_shop, evaluated, few_species, shortly, typed
from workbook.build import Plan, compute, read, save, templates_folder
from workbook.editions import EDITIONS
from workbook.findings import BadInputError
from workbook.sheets.labels import LABELS, SIZES
from workbook.tables.columns import Pulled, Typed

TODAY = pd.Timestamp("2026-10-05")
BARE = {
    "code": "X1",
    "goods": "Net",
    "on_hand": 10,
    "reserved": 0,
    "incoming": 0,
    "cost": 4,
    "price": 10,
    "minimum": 5,
    "order_up_to": 20,
    "sold": 0,
    "lost": 0,
}


@functools.cache
def four_tanks() -> Any:
    """The demo shop with four of its tanks and little else, which is reckoned sooner."""
    shop = demo_shop()
    tanks = shop.tanks[shop.tanks["tank"].isin(["Amber 1", "Amber 2", "Birch 1", "Fern 1"])].reset_index(drop=True)
    few = {key: getattr(shop, key).head(0) for key in ("log", "feeding", "maintenance")}
    return changed(shop, tanks=tanks, **few)


def shop_with(*rows: dict[str, Any], suppliers: list[dict[str, Any]] | None = None, **more: Any) -> Evaluated:
    """The demo's tanks and waters with a stock list of these lines."""
    return shortly(lines_of(rows, suppliers, more))


def lines_of(rows: tuple[dict[str, Any], ...], suppliers: list[dict[str, Any]] | None, more: dict[str, Any]) -> Any:
    """A shop with a stock list of these lines, and the species that they name."""
    lines = [BARE | {"code": f"X{n}"} | row for n, row in enumerate(rows, 1)]
    stock = typed("stock", pd.DataFrame(lines).astype(object).where(pd.DataFrame(lines).notna(), "").astype(str))
    if suppliers is not None:
        more["suppliers"] = typed("suppliers", pd.DataFrame(suppliers).astype(str))
    return few_species(changed(four_tanks(), stock=stock, plan_date=TODAY, **more))


def one(key: str, **cells: Any) -> Any:
    """What the stock list says of one line."""
    return shop_with(cells).column("stock", key)[0]


# --- one line of stock ---


def test_margin_is_a_share_of_the_price() -> None:
    found = shop_with({"cost": 6, "price": 8})
    assert found.column("stock", "margin") == [2.0]
    assert found.column("stock", "margin_share") == [0.25]  # not a third, which is the mark-up on cost
    assert found.column("stock", "value_cost") == [60.0]
    assert found.column("stock", "value_price") == [80.0]


def test_a_free_sample_has_no_share() -> None:
    assert one("margin_share", price=0) == ""


@pytest.mark.parametrize(
    ("until", "free", "words"),
    [("2026-10-06", 0, "◆ from 2026-10-06"), ("2026-10-05", 7, "now"), ("2026-09-01", 7, "now"), ("", 7, "now")],
)
def test_quarantine_ends_on_its_day(until: str, free: int, words: str) -> None:
    found = shop_with({"on_hand": 10, "reserved": 3, "quarantine_until": until})
    assert (found.column("stock", "free"), found.column("stock", "sale")) == ([free], [words])


def test_all_reserved_and_sold_out_are_told_apart() -> None:
    found = shop_with({"on_hand": 3, "reserved": 3}, {"on_hand": 0})
    assert found.column("stock", "sale") == ["all reserved", "sold out"]


def test_a_blank_is_not_nothing() -> None:
    found = shop_with({"reserved": ""}, {"sold": ""}, {"cost": ""})
    assert found.column("stock", "free")[0] == ""
    assert found.column("stock", "to_order")[0] == ""
    assert found.column("stock", "days_left")[1] == ""
    assert found.column("stock", "margin")[2] == ""
    assert [bool(text) for text in found.column("stock", "not_all_known")] == [True] * 3


@pytest.mark.parametrize(
    ("on_hand", "incoming", "reserved", "wanted"),
    [
        (5, 0, 0, 0),  # at the minimum: not below it
        (4, 0, 0, 16),  # 20 - 4
        (4, 1, 0, 0),  # one on its way reaches the minimum
        (6, 0, 2, 16),  # two are promised: 4 count
        (0, 0, 3, 23),  # three buyers wait: 20 and their three
        (2, 2, 0, 16),
    ],
)
def test_what_to_order(on_hand: int, incoming: int, reserved: int, wanted: int) -> None:
    found = shop_with({"on_hand": on_hand, "incoming": incoming, "reserved": reserved})
    assert found.column("stock", "to_order") == [wanted]
    assert found.column("stock", "order_cost") == [wanted * 4]


def test_days_of_stock_and_the_minimum_by_sales() -> None:
    """45 in 30 days are 1.5 a day: 12 free pieces last 8 days; 6 days of delivery and 7 in hand want 19.5, so 20."""
    found = shop_with(
        {"on_hand": 15, "reserved": 3, "sold": 45, "supplier": "Near"},
        {"sold": 45},
        suppliers=[{"supplier": "Near", "delivery_days": 6, "least_order": "", "supplier_note": ""}],
    )
    assert found.column("stock", "days_left")[0] == pytest.approx(8)
    assert found.column("stock", "least")[0] == 20
    # Without a supplier the days typed on Start count: 6 in the demo.
    assert found.column("stock", "least")[1] == 20


def test_old_stock_is_slow_before_it_is_dead() -> None:
    def came(days: int) -> str:
        return str((TODAY - pd.Timedelta(days=days)).date())

    found = shop_with(
        {"came_in": came(45)}, {"came_in": came(46)}, {"came_in": came(90)}, {"came_in": came(91)}, {"came_in": came(300), "sold": 1}, {"came_in": came(300), "on_hand": 0}
    )  # fmt: skip
    assert [bool(text) for text in found.column("stock", "slow")] == [False, True, True, False, True, False]
    assert [bool(text) for text in found.column("stock", "dead_stock")] == [False, False, False, True, False, False]


def test_a_tenth_lost_is_too_many() -> None:
    found = shop_with(
        {"lost": 1, "sold": 0, "on_hand": 9}, {"lost": 1, "sold": 1, "on_hand": 9}, {"lost": 0, "on_hand": 0}
    )
    assert [bool(text) for text in found.column("stock", "many_lost")] == [True, False, False]
    assert found.column("stock", "loss_share")[0] == pytest.approx(0.1)


# --- the animals of the stock list are seen by every other sheet ---


def test_stock_is_livestock() -> None:
    tank, other = "Amber 1", "Amber 2"
    found = shop_with(
        {"species": "Neon tetra", "goods": "", "tank": tank, "on_hand": 12}, {"species": "Cardinal tetra", "goods": "", "tank": tank, "on_hand": 7}, {"tank": other, "on_hand": 40},
        {"species": "Neon tetra", "goods": "", "tank": other, "on_hand": 0},
    )  # fmt: skip
    assert found.column("stocking", "animals")[:2] == [19, 0]
    assert found.column("company", "residents")[:2] == [2, 0]
    assert found.column("species", "kept")[list(found.room.species["species"]).index("Neon tetra")] == 12
    assert found.column("counts", "groups") == [3]


def test_a_shop_reckons_its_tanks_as_a_keeper_does() -> None:
    """The keeper's demo, typed as a stock list: every verdict of every tank and group is the same."""
    room = few_species(demo_room())
    stock = pd.DataFrame({
        "code": [f"K{n:03}" for n in range(len(room.livestock))], **{key: room.livestock[key] for key in ("tank", "species", "males", "females", "length_now", "measured_on", "feed_factor", "stock_note")},
        "on_hand": living(room), "came_in": room.livestock["date_in"], "quarantine_until": room.livestock["quarantine_until"],
    })  # fmt: skip
    texts = stock.astype(object).where(stock.notna(), "")
    for key in ("came_in", "quarantine_until", "measured_on"):
        texts[key] = [value.strftime("%Y-%m-%d") if value else "" for value in texts[key]]
    same = {
        key: getattr(room, key)
        for key in (
            "species",
            "waters",
            "tanks",
            "foods",
            "feeding",
            "maintenance",
            "log",
            "settings",
            "plan_date",
            "choice",
        )
    }
    shop = changed(blank_shop(), **same, stock=typed("stock", texts.astype(str)))
    shop, keeper = shortly(shop), shortly(room)
    tables = ("stocking", "overlap", "company", "feeding_tanks", "changes")
    for table in tables:
        for column in next(t for t in shop.built.placing.schema.tables if t.key == table).columns:
            if column.key not in {"run_act", "run_watch", "run_note"}:
                assert shop.column(table, column.key) == keeper.column(table, column.key), f"{table}.{column.key}"
    for key in (
        "mass",
        "nitrogen",
        "water_verdict",
        "eaten",
        "clash_of_temper",
        "small_group",
        "tiny_tank",
        "not_apart",
    ):
        assert shop.column("livestock", key) == keeper.column("livestock", key), key


def test_nobody_types_on_a_shops_livestock() -> None:
    edition = EDITIONS["shop"]()
    livestock = next(t for t in edition.tables if t.key == "livestock")
    assert not [c for c in livestock.columns if isinstance(c, Typed)]
    stock = {c.key for c in next(t for t in edition.tables if t.key == "stock").columns}
    assert {c.origin for c in livestock.columns if isinstance(c, Pulled) and c.via == "stock"} <= stock


def test_counts_add_up_when_copies_are_merged() -> None:
    stock = next(t for t in EDITIONS["shop"]().tables if t.key == "stock")
    assert {c.key for c in stock.typed if c.adds_up} == {"on_hand", "reserved", "incoming", "sold", "lost"}


# --- what a tank can still take ---


def test_more_of_a_kind_until_the_limit_it_names() -> None:
    """As many more as the sheet says fit under every limit; one more does not."""
    rows = [{"species": "Cherry barb", "goods": "", "tank": "Birch 1", "on_hand": 10}]
    before = shop_with(*rows)
    more, limit = before.column("room_lines", "more")[0], before.column("room_lines", "limit")[0]
    measure = {"Water change": "nitrogen_share", "Oxygen": "oxygen_share", "Bottom room": "bottom_share"}[str(limit)]
    tank = list(before.room.tanks["tank"]).index("Birch 1")
    rows[0]["on_hand"] = 10 + int(more)
    assert shop_with(*rows).column("stocking", measure)[tank] <= 1
    rows[0]["on_hand"] += 1
    assert shop_with(*rows).column("stocking", measure)[tank] > 1


def test_a_tank_too_short_takes_none() -> None:
    found = shop_with({"species": "Silver shark", "goods": "", "tank": "Fern 1", "on_hand": 1})
    assert (found.column("room_lines", "more"), found.column("room_lines", "limit")) == ([0], ["Swim room"])


# --- order ---


def test_the_order_goes_supplier_by_supplier() -> None:
    """Second and first in the order of Suppliers, not of the alphabet; the line without a supplier comes last."""
    suppliers = [
        {"supplier": name, "delivery_days": "", "least_order": least, "supplier_note": ""}
        for name, least in (("Zeta", 500), ("Alpha", 10))
    ]
    low = {"on_hand": 0}  # 20 at 4 each: 80
    found = shop_with(
        low | {"supplier": "Alpha"},
        low | {"supplier": "Zeta"},
        low,
        low | {"supplier": "Alpha", "cost": 1.5},
        {"supplier": "Zeta"},
        suppliers=suppliers,
    )
    assert found.column("order", "code")[:5] == ["X2", "X1", "X4", "X3", ""]
    assert found.column("order", "supplier")[:4] == ["Zeta", "Alpha", "Alpha", "(no supplier)"]
    assert found.column("order", "subtotal")[:4] == [80, "", 110, 80]
    assert found.column("suppliers", "order_value") == [80, 110]
    assert [bool(text) for text in found.column("suppliers", "small_order")] == [True, False]
    assert (found.column("order_summary", "lines"), found.column("order_summary", "cost")) == ([4], [270])


# --- labels ---


def test_as_many_labels_as_are_wanted() -> None:
    found = shop_with(
        {"label": 0}, {"label": 2}, {"label": ""}, {"label": 1, "goods": "Root", "price": 7.5}, {"label": 0}
    )
    assert found.column("labels", "name")[:4] == ["Net", "Net", "Root", ""]
    assert found.column("labels", "price_said")[2] == "7.50 EUR"
    name, latin, facts, foot, price = (found.column("labels_a4_24", "label_3")[line] for line in range(5))
    assert (name, latin, facts, foot, price) == ("Root", "", "", "X4", "7.50 EUR")
    assert found.column("labels_a4_8", "label_1")[5:10] == ["Root", "", "", "X4", "7.50 EUR"]


def test_a_label_says_what_was_chosen() -> None:
    """Neon tetra as the library has it: 3.5 cm, groups of 8, 20 to 26 degrees, pH 5.5 to 7.5."""
    fish = {"species": "Neon tetra", "goods": "", "label": 1, "quarantine_until": "2026-11-01"}
    assert (
        shop_with(fish).column("labels", "facts")[0]
        == "grows to 3.5 cm, group of 8 or more, 20 °C to 26 °C, pH 5.5 to 7.5"
    )
    assert shop_with(fish).column("labels", "foot")[0] == "X1   for sale from 2026-11-01"
    only = shop_with(fish, label_fields={"show_ph": "yes", "show_code": "no"})
    assert [only.column("labels", key)[0] for key in ("latin", "facts", "foot", "price_said")] == [
        "",
        "pH 5.5 to 7.5",
        "",
        "",
    ]


def test_more_labels_than_there_are() -> None:
    found = shortly(lines_of(({"label": LABELS + 20},), None, {}))
    assert found.column("label_choice", "shown") == [f"◆ only the first {LABELS}"]
    for size in SIZES:
        last = found.column(f"labels_{size.key}", f"label_{(LABELS - 1) % size.across + 1}")
        assert sum(text == "Net" for text in last) >= LABELS // size.across


@pytest.mark.parametrize("size", SIZES, ids=lambda size: size.key)
def test_labels_fit_their_paper(size: Any) -> None:
    """A4 is 210 by 297 mm (ISO 216), US Letter 8.5 by 11 inches (ANSI Y14.1); 96 pixels are an inch."""
    wide, high = {"A4": (210 / 25.4, 297 / 25.4), "Letter": (8.5, 11.0)}[size.paper.name]
    assert size.paper.left + size.across * size.width / 96 + size.paper.right <= wide
    assert size.paper.top + size.down * sum(size.lines) / 96 + size.paper.bottom <= high


# --- a buyer ---


def asked(*rows: dict[str, Any], **question: Any) -> Evaluated:
    """Lines of animals and a buyer's tank."""
    return shop_with(*({"goods": "", "tank": "Birch 1"} | row for row in rows), question=question)


def test_nothing_is_listed_before_something_is_typed() -> None:
    found = asked({"species": "Neon tetra"})
    assert found.column("buyer_list", "name")[0] == ""
    assert found.column("question_answer", "fitting") == ["type the tank or its water first"]


@pytest.mark.parametrize(
    ("species", "question", "why"),
    [
        ("Neon tetra", {"temperature": 29.0}, "wants temperature up to 26 °C"),  # the library: 20 to 26
        ("Discus", {"temperature": 24.0}, "wants temperature from "),
        ("Neon tetra", {"volume": 30.0}, "wants at least 60 L"),
        ("Neon tetra", {"ph": 7.0, "kind_1": "Oscar", "number_1": 1.0}, "fits the mouth of Oscar"),
        ("Oscar", {"ph": 7.0, "kind_1": "Neon tetra", "number_1": 8.0}, "grown it swallows Neon tetra"),
        ("Siamese fighter", {"ph": 7.0, "kind_1": "Tiger barb", "number_1": 8.0}, "its fins would be bitten"),
        ("Red cherry shrimp", {"ph": 7.0, "kind_1": "Clown loach", "number_1": 5.0}, "hunted"),
    ],
)
def test_why_not(species: str, question: dict[str, Any], why: str) -> None:
    found = asked({"species": species, "on_hand": 30}, **question, asked=species)
    assert why in str(found.column("question_answer", "asked_says")[0])
    assert found.column("buyer_not", "name")[0] == species
    assert found.column("buyer_list", "name")[0] == ""


def test_a_group_that_is_begun_counts() -> None:
    """Eight make a group; three that live there want five more, and four in stock are too few for anybody."""
    water = {"temperature": 23.0, "ph": 6.5}
    few = asked({"species": "Neon tetra", "on_hand": 4}, **water)
    assert few.column("buyer_not", "why_not")[0] == "wants 8, free to sell 4"
    begun = asked({"species": "Neon tetra", "on_hand": 5}, **water, kind_1="Neon tetra", number_1=3.0)
    assert begun.column("buyer_list", "how_many")[0] == "5"


def test_what_is_comfortable_first() -> None:
    """At 23 degrees a neon tetra (20 to 26) is well inside its range, an ember tetra (23 to 29) at its end."""
    found = asked({"species": "Ember tetra", "on_hand": 20}, {"species": "Neon tetra", "on_hand": 20}, temperature=23.0)
    assert found.column("buyer_list", "name")[:3] == ["Neon tetra", "Ember tetra", ""]


def test_quarantined_animals_are_not_offered() -> None:
    found = asked(
        {"species": "Neon tetra", "on_hand": 20, "quarantine_until": "2026-12-01"}, temperature=23.0, asked="Neon tetra"
    )
    assert found.column("buyer_list", "name")[0] == ""
    assert found.column("question_answer", "asked_says") == ["none of it may be sold now"]


# --- the files ---


def test_the_demo_is_what_its_script_draws(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shop_demo, "TARGET", tmp_path / "shop-demo")
    shop_demo.main()
    kept = templates_folder() / "shop-demo"
    assert {p.name for p in kept.iterdir()} == {p.name for p in (tmp_path / "shop-demo").iterdir()}
    for path in kept.iterdir():
        assert (tmp_path / "shop-demo" / path.name).read_text(encoding="utf-8") == path.read_text(encoding="utf-8"), (
            path.name
        )


def test_the_demo_is_alive_and_says_that_it_is_invented() -> None:
    shop = demo_shop()
    found = evaluated(shop)
    assert (len(shop.stock), len(shop.tanks)) == (400, 40)
    assert "(invented)" in shop.settings["room_name"]
    flags = [f.key for f in next(t for t in EDITIONS["shop"]().tables if t.key == "stock").flags]
    quiet = [key for key in flags if not any(found.whole("stock", key))]
    assert set(quiet) <= {"below_zero", "more_gone", "no_name", "two_names"}, "these are slips of the hand"
    assert found.whole("buyer_list", "name")[-1]
    assert found.whole("order", "code")[20]


def test_the_name_of_a_set_depends_on_the_edition() -> None:
    path = books.book("shop", room="blank")
    assert books.template("shop", "blank") == templates_folder() / "shop-blank"
    assert books.values(path)["Start", 1, 1] == "Start"
    assert any(sheet == "Stock list" for sheet, *_ in books.values(path))
    areas = office.areas(path)
    (_, top, _, bottom, _), (_, first, _, last, _) = areas["livestock_tank"], areas["stock_code"]
    assert bottom - top == last - first > 0


def test_label_sheets_keep_their_heights(tmp_path: Path) -> None:
    target, plan = tmp_path / "shop.xlsx", Plan(edition="shop", spare_rows=1)
    save(target, compute(EDITIONS["shop"](), books.few("shop", "blank"), plan), plan)
    with zipfile.ZipFile(target) as archive:
        place = office.SHEET.findall(archive.read("xl/workbook.xml").decode()).index("Labels Letter 30") + 1
        text = archive.read(f"xl/worksheets/sheet{place}.xml").decode()
    size = next(size for size in SIZES if size.key == "letter_30")
    heights = [float(h) for h in re.findall(r'<row [^>]*ht="([\d.]+)"[^>]*customHeight="1"', text)]
    assert sum(heights[:5]) == pytest.approx(72)  # an inch in points
    assert len(heights) >= size.down * 5
    assert '<pageSetup orientation="portrait"' in text or 'paperSize="1"' in text


def test_the_constants_of_a_shop_stand_below_the_others() -> None:
    edition = EDITIONS["shop"]()
    keys = [row["key"] for row in read(templates_folder() / "shop-blank", edition)["constants"]]
    plain = [row["key"] for row in read(templates_folder() / "blank", EDITIONS["keeper"]())["constants"]]
    assert keys[: len(plain)] == plain
    assert "safety_days" in keys
    assert "safety_days" not in plain


def test_a_fault_in_a_stock_list_is_told(tmp_path: Path) -> None:
    folder = tmp_path / "shop"
    folder.mkdir()
    for path in (templates_folder() / "shop-blank").iterdir():
        (folder / path.name).write_text(path.read_text(encoding="utf-8"), encoding="utf-8")
    stock = (folder / "stock.csv").read_text(encoding="utf-8")
    header = stock.strip().split(",")
    row = dict.fromkeys(header, "") | {"code": "A1", "species": "Neon tetrra", "on_hand": "-2"}
    (folder / "stock.csv").write_text(stock + ",".join(row.values()) + "\n", encoding="utf-8")
    with pytest.raises(BadInputError) as found:
        read(folder, EDITIONS["shop"]())
    told = sorted(str(finding) for finding in found.value.findings)
    assert told[0].startswith("stock.csv, row 2, column on_hand: found '-2'; expected a whole number from 0")
    assert told[1].startswith(
        "stock.csv, row 2, column species: found 'Neon tetrra'; expected a name that stands in species (near: Neon tetra"
    )


def test_numbers_are_numbers() -> None:
    """The stock list adds up to what a plain loop over its rows says."""
    shop, worth = books.few("shop"), 0.0
    for row in shop["stock"]:
        happened = [e for e in shop["ledger"] if e["code"] == row["code"]]
        assert "counted" not in {e["event"] for e in happened}
        come, gone = (
            sum(e["pieces"] for e in happened if e["event"] in which)
            for which in ({"delivered", "returned"}, {"sold", "lost", "dead on arrival", "own use"})
        )
        worth += (row["on_hand"] + come - gone) * row.get("cost", 0)
    assert books.column(books.book("shop", "us"), "counts_stock_cost")[0] == pytest.approx(worth)
