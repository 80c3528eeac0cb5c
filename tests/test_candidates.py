"""Candidates, case by case: rooms so small that the answer can be argued without the workbook.

Lengths, tempers and ranges are invented; what follows from them is common sense or the model of Stocking itself: adding
the animals to Livestock and looking at Stocking must say the same.
"""

from functools import cache
from typing import Any

import pytest

from tests.needed import as_asked
from workbook.build import Built, Plan, read, templates_folder
from workbook.editions import keeper

KEEPER = keeper()
Row = dict[str, Any]
RANGES = {
    "temperature_low": 22,
    "temperature_high": 28,
    "ph_low": 6,
    "ph_high": 8,
    "gh_low": 2,
    "gh_high": 18,
    "kh_low": 1,
    "kh_high": 12,
}
WATER: Row = {"water": "Tap", "temperature": 20, "ph": 7, "gh": 8, "kh": 5, "nitrate": 5, "ammonia": 0}
TANK: Row = {
    "tank": "Long", "shape": "box", "measured": "inside", "length": 120, "width": 45, "height": 50, "glass": 1, "water_below_rim": 4, "substrate_depth": 4, "rock": 0,
    "wood": 0, "water": "Tap", "temperature": 25, "cycled": "yes", "change_share": 0.3, "change_interval": 7, "meals": 2, "fasting_days": 1,
}  # fmt: skip


def kind(name: str, **more: Any) -> Row:
    """A peaceful fish of 4 cm that lives in nearly any water, unless more is said."""
    return {
        "species": name, "kind": "fish", "adult_length": 4, "body_form": "fusiform", "group_min": 6, "group_best": 10, "volume_min": 40, "zone": "middle", "swim": "calm",
        "bottom_room": "no", "temper": 1, "bites_fins": "no", "long_fins": "no", "mouth_share": 0.2, "eats_shrimp": "no", "eats_snails": "no", "colour_group": "silver",
        **RANGES, **more,
    }  # fmt: skip


def asked(
    library: list[Row], stock: list[Row], *, tank: Row | None = None, units: str = "metric", **choice: Any
) -> Built:
    """The workbook of one tank with this library and stock."""
    records = read(templates_folder() / "blank", KEEPER)
    records |= {
        "species": library,
        "tanks": [TANK | (tank or {})],
        "waters": [WATER],
        "livestock": [{"tank": "Long", **row} for row in stock],
    }
    records["candidates_choice"] = [{"tank": "Long", **choice}]
    return as_asked(KEEPER, records, Plan(spare_rows=1, units=units))


def cell(built: Built, place: str, row: int = 0) -> str | float:
    """The value of table.column in a row, the first being 0."""
    table, _, column = place.partition(".")
    here = built.placing.tables[table]
    if here.table.form:
        return built.values[here.base_sheet, here.base[column], here.across]
    return built.values[here.base_sheet, here.first_row + row, here.base[column]]


def ranked(built: Built) -> list[str | float]:
    """The species of the best list, the best first."""
    return [name for row in range(20) if (name := cell(built, "best.species", row))]


def said(built: Built, name: str, column: str) -> str | float:
    """What the best list says of a species."""
    return cell(built, f"best.{column}", ranked(built).index(name))


# --- company ---


def test_a_gulper_keeps_a_tiny_fish_out() -> None:
    """A catfish of 20 cm that swallows half its length swallows 3 cm, but not 12."""
    library = [
        kind("Gulper", adult_length=20, mouth_share=0.5, group_min=1),
        kind("Tiny", adult_length=3),
        kind("Stout", adult_length=12, group_min=1),
    ]
    built = asked(library, [{"species": "Gulper", "animals": 1}])
    assert said(built, "Tiny", "verdict") == "▲ does not fit"
    assert "Gulper could swallow it" in str(said(built, "Tiny", "reasons"))
    assert said(built, "Stout", "verdict") == "fits"
    assert cell(built, "candidates.stop", 1) == "company"


def test_a_gulper_stays_out_where_a_tiny_fish_lives() -> None:
    library = [kind("Gulper", adult_length=20, mouth_share=0.5, group_min=1), kind("Tiny", adult_length=3)]
    built = asked(library, [{"species": "Tiny", "animals": 8}])
    assert "could swallow Tiny" in str(said(built, "Gulper", "reasons"))


@pytest.mark.parametrize(("resident", "candidate", "words"), [
    ({"bites_fins": "yes"}, {"long_fins": "yes"}, "Resident would bite its long fins"),
    ({"long_fins": "yes"}, {"bites_fins": "yes"}, "would bite the long fins of Resident"),
    ({"temper": 5}, {"temper": 1}, "temper 1 clashes with Resident"),
    ({"temper": 1}, {"temper": 5}, "temper 5 clashes with Resident"),
    ({"eats_shrimp": "yes"}, {"kind": "shrimp"}, "Resident hunts shrimp"),
    ({"kind": "shrimp"}, {"eats_shrimp": "yes"}, "hunts Resident"),
])  # fmt: skip
def test_company_that_forbids_is_named(resident: Row, candidate: Row, words: str) -> None:
    built = asked(
        [kind("Resident", **resident), kind("Candidate", **candidate)], [{"species": "Resident", "animals": 6}]
    )
    assert said(built, "Candidate", "verdict") == "▲ does not fit"
    assert words in str(said(built, "Candidate", "reasons"))


@pytest.mark.parametrize(("resident", "candidate", "words"), [
    ({"temper": 3}, {"temper": 1}, "temper 1 beside Resident"),
    ({"eats_shrimp": "young"}, {"kind": "shrimp"}, "Resident takes its young"),
    ({"eats_snails": "yes"}, {"kind": "snail"}, "Resident eats snails"),
    ({"kind": "snail"}, {"eats_snails": "yes"}, "eats Resident"),
])  # fmt: skip
def test_company_that_wants_care_is_named(resident: Row, candidate: Row, words: str) -> None:
    built = asked(
        [kind("Resident", **resident), kind("Candidate", **candidate)], [{"species": "Resident", "animals": 6}]
    )
    assert said(built, "Candidate", "verdict") == "◆ fits with care"
    assert words in str(said(built, "Candidate", "reasons"))


def test_a_biter_of_its_own_kind_is_no_objection() -> None:
    """More of a kind that bites fins and has long ones: they had each other before. A second kind that bites is one."""
    torn = kind("Torn", bites_fins="yes", long_fins="yes")
    alone = asked([torn, kind("Nipper", bites_fins="yes")], [{"species": "Torn", "animals": 6}])
    assert said(alone, "Torn", "verdict") == "fits"
    beside = asked(
        [torn, kind("Nipper", bites_fins="yes")],
        [{"species": "Torn", "animals": 6}, {"species": "Nipper", "animals": 6}],
    )
    assert "Nipper would bite its long fins" in str(said(beside, "Torn", "reasons"))


# --- water ---


def test_no_shared_water_names_who_sets_the_end() -> None:
    library = [
        kind("Warm", temperature_low=26, temperature_high=30),
        kind("Cold", temperature_low=14, temperature_high=20),
    ]
    built = asked(library, [{"species": "Warm", "animals": 6}], tank={"temperature": 27})
    assert said(built, "Cold", "verdict") == "▲ does not fit"
    assert "no shared temperature with Warm" in str(said(built, "Cold", "reasons"))
    assert cell(built, "candidates.temperature_width", 1) == 20 - 26


def test_a_tank_kept_outside_is_to_be_brought_inside_first() -> None:
    built = asked([kind("Cool", temperature_low=20, temperature_high=24)], [])
    assert said(built, "Cool", "verdict") == "◆ fits with care"
    assert "bring temperature slowly from 25 °C to between 20 °C and 24 °C first" in str(said(built, "Cool", "reasons"))


def test_us_sentences_are_in_us_units() -> None:
    built = asked([kind("Cool", temperature_low=20, temperature_high=25)], [], units="us")
    assert str(said(built, "Cool", "water")).startswith("temperature 68 °F to 77 °F; pH 6 to 8")


# --- room ---

SIZES = [
    kind("Small"), kind("Large", adult_length=12, volume_min=100), kind("Sitter", bottom_room="holds ground", adult_length=9),
    kind("Deep", body_form="short and deep", adult_length=10), kind("Shrimp", kind="shrimp", adult_length=2.5, body_form="shrimp"),
]  # fmt: skip
SHARES = {
    "water change": "nitrogen_share",
    "oxygen": "oxygen_share",
    "swim room": "swim_share",
    "bottom room": "bottom_share",
    "volume": "volume_share",
}


@cache
def stocked(name: str, animals: int) -> Built:
    """Eight small ones, and so many of another kind, really there."""
    return asked(
        SIZES, [{"species": "Small", "animals": 8}, *([{"species": name, "animals": animals}] if animals else [])]
    )


@pytest.mark.parametrize("row", range(len(SIZES)))
def test_as_many_as_are_said_to_fit_do_fit_on_stocking_and_one_more_does_not(row: int) -> None:
    name, built = str(SIZES[row]["species"]), stocked("Small", 0)
    more, limit = int(cell(built, "candidates.more", row)), SHARES[str(cell(built, "candidates.limit", row))]
    assert more > 0
    full, over = stocked(name, more), stocked(name, more + 1)
    assert float(cell(full, f"stocking.{limit}")) <= 1 < float(cell(over, f"stocking.{limit}"))
    assert all(float(cell(full, f"stocking.{share}")) <= 1 for share in SHARES.values())


@pytest.mark.parametrize("row", range(len(SIZES)))
@pytest.mark.parametrize("group", ["min", "best"])
def test_the_fullest_share_is_that_of_stocking(row: int, group: str) -> None:
    built = stocked("Small", 0)
    after = stocked(str(SIZES[row]["species"]), int(cell(built, f"candidates.add_{group}", row)))
    raised = [float(cell(after, f"stocking.{share}")) for share in SHARES.values()]
    own = [float(cell(built, f"candidates.{share}", row)) for share in ("swim_share", "volume_share")]
    theirs = {cell(after, "stocking.swim_share"), cell(after, "stocking.volume_share")}
    expected = max(*(share for share in raised if share not in theirs), *own)
    assert cell(built, f"candidates.binding_{group}", row) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("row", range(len(SIZES)))
@pytest.mark.parametrize("group", ["min", "best"])
def test_each_measure_with_either_group_is_that_of_stocking(row: int, group: str) -> None:
    """Of what the candidate raises: one that wants no floor has no share of it."""
    built = stocked("Small", 0)
    after = stocked(str(SIZES[row]["species"]), int(cell(built, f"candidates.add_{group}", row)))
    wants_floor = SIZES[row]["bottom_room"] != "no"
    for measure in ("nitrogen", "oxygen", *(["bottom"] if wants_floor else [])):
        expected = float(cell(after, f"stocking.{measure}_share"))
        assert cell(built, f"candidates.{measure}_{group}", row) == pytest.approx(expected, rel=1e-9)
    assert wants_floor or cell(built, f"candidates.bottom_{group}", row) == 0


def test_the_long_list_says_who_objects_and_what_else() -> None:
    """A hunter of 20 cm swallows what is below 10 cm; 6 to 12 °C have nothing to do with 22 to 28 °C."""
    library = [
        kind("Gulper", adult_length=20, mouth_share=0.5, group_min=1, temper=3),
        kind("Tiny", adult_length=3),
        kind("Stout", adult_length=12, group_min=1, temper=2),
        kind("Glacier", adult_length=12, group_min=1, temper=2, temperature_low=6, temperature_high=12),
        kind("Herd", adult_length=12, group_min=5000, temper=2),
    ]
    built = asked(library, [{"species": "Gulper", "animals": 1}])
    assert [cell(built, "candidates.objects", row) for row in range(1, 5)] == [
        "Gulper (swallows it), Gulper (temper)",
        "",
        "",
        "",
    ]
    assert [cell(built, "candidates.why", row) for row in range(1, 4)] == ["", "", "no shared temperature"]
    assert str(cell(built, "candidates.why", 4)).startswith("room for ")
    assert str(cell(built, "candidates.why", 4)).endswith(" of 5000 (water change)")


def test_a_full_tank_takes_none_and_says_which_limit() -> None:
    built = asked([kind("Small"), kind("Other")], [{"species": "Small", "animals": 600}])
    assert cell(built, "candidates.more", 1) == 0
    assert cell(built, "candidates.limit", 1) == "water change"
    assert "room for none of the 6 to add: water change" in str(said(built, "Other", "reasons"))
    assert cell(built, "candidates_choice.stopped") == "Nothing fits. Most are stopped by water change: 2 of 2."
    assert "already over its limit: water change" in str(cell(built, "candidates_choice.mind"))


def test_a_short_tank_takes_none_of_a_long_swimmer() -> None:
    """Six lengths of 25 cm are 150 cm; 15 % less still counts, but that is more than 120 cm."""
    built = asked(
        [kind("Swimmer", adult_length=25, body_form="eel-like", swim="active", mouth_share=0, group_min=1)], []
    )
    assert (cell(built, "candidates.more"), cell(built, "candidates.limit")) == (0, "swim room")
    assert "a longer tank" in str(said(built, "Swimmer", "reasons"))


def test_topping_up_wants_only_what_the_group_lacks() -> None:
    built = asked([kind("Small")], [{"species": "Small", "animals": 4}])
    assert (cell(built, "candidates.add_min"), cell(built, "candidates.add_best")) == (2, 6)
    assert str(said(built, "Small", "reasons")) == "nothing speaks against it; tops up the 4 there"
    many = asked([kind("Small")], [{"species": "Small", "animals": 14}])
    assert (cell(many, "candidates.add_min"), cell(many, "candidates.add_best")) == (1, 1)


# --- unknown ---


def test_an_empty_tank_leaves_each_kind_its_own_water() -> None:
    built = asked([kind("Small")], [])
    assert said(built, "Small", "verdict") == "fits"
    assert (
        said(built, "Small", "water") == "temperature 22 °C to 28 °C; pH 6 to 8; GH 2 °dH to 18 °dH; KH 1 °dH to 12 °dH"
    )
    assert str(cell(built, "candidates_choice.about")).endswith("25 °C, empty")


@pytest.mark.parametrize(
    "key",
    [
        "adult_length",
        "body_form",
        "group_min",
        "volume_min",
        "temper",
        "mouth_share",
        "swim",
        "bottom_room",
        "kind",
        *RANGES,
    ],
)
def test_a_kind_of_which_something_is_not_known_never_fits(key: str) -> None:
    built = asked([{k: v for k, v in kind("Odd").items() if k != key}], [])
    assert said(built, "Odd", "verdict") == "○ unknown"
    assert str(said(built, "Odd", "reasons")).startswith("unknown: ")


@pytest.mark.parametrize("key", ["length", "change_share", "temperature", "fasting_days", "water", "change_interval"])
def test_a_tank_of_which_something_is_not_known_is_said_to_be_so(key: str) -> None:
    built = asked([kind("Small")], [], tank={key: ""} if key == "water" else {key: None})
    assert said(built, "Small", "verdict") == "○ unknown"
    assert str(cell(built, "candidates_choice.mind")).startswith("unknown: ")
    assert cell(built, "candidates_choice.stopped") == "Nothing is known to fit."


def test_residents_not_fully_known_let_nothing_simply_fit() -> None:
    built = asked([kind("Small"), {"species": "Riddle"}], [{"species": "Riddle", "animals": 3}], tank={})
    assert said(built, "Small", "verdict") != "fits"
    assert "not all is known of 1 of its groups" in str(cell(built, "candidates_choice.mind"))


def test_a_tank_not_cycled_wants_care() -> None:
    built = asked([kind("Small")], [], tank={"cycled": "no"})
    assert said(built, "Small", "verdict") == "◆ fits with care"
    assert "not cycled" in str(cell(built, "candidates_choice.mind"))


def test_without_a_tank_nothing_is_said() -> None:
    built = asked([kind("Small")], [], tank={"tank": "Other"})
    assert cell(built, "candidates_choice.told") == "Choose a tank."
    assert ranked(built) == []


# --- order, filters, likeness ---


def test_ties_come_out_by_line() -> None:
    built = asked([kind(name) for name in ("Zeta", "Alpha", "Mid")], [])
    assert ranked(built) == ["Zeta", "Alpha", "Mid"]


def test_what_fits_stands_before_what_wants_care_before_unknown_before_what_does_not() -> None:
    library = [
        kind("Never", adult_length=60, mouth_share=0),
        {"species": "Riddle"},
        kind("Care", caution="Jumps."),
        kind("Fits"),
    ]
    assert ranked(asked(library, [])) == ["Fits", "Care", "Riddle", "Never"]


LIBRARY = [
    kind("Surface", zone="top"),
    kind("Anywhere", zone="all", adult_length=8),
    kind("Rough", temper=4, zone="bottom"),
    kind("Fussy", ph_low=6.5, ph_high=7.5),
    {"species": "Riddle"},
]


@pytest.mark.parametrize(("choice", "passing"), [
    ({}, {"Surface", "Anywhere", "Rough", "Fussy", "Riddle"}), ({"zone": "any"}, {"Surface", "Anywhere", "Rough", "Fussy", "Riddle"}), ({"zone": "top"}, {"Surface", "Anywhere"}),
    ({"longest": 4}, {"Surface", "Rough", "Fussy"}), ({"temper_most": 2}, {"Surface", "Anywhere", "Fussy"}), ({"easy": "yes"}, {"Surface", "Anywhere", "Rough"}),
    ({"just": "Rough"}, {"Rough"}), ({"instead_of": "Rough"}, {"Surface", "Anywhere", "Fussy", "Riddle"}), ({"zone": "middle", "longest": 5}, {"Fussy"}),
])  # fmt: skip
def test_filters(choice: Row, passing: set[str]) -> None:
    """What is not known passes no filter that asks for it."""
    built = asked(LIBRARY, [], **choice)
    assert set(ranked(built)) == passing
    assert str(cell(built, "candidates_choice.told")).startswith(f"{len(passing)} of 5 kinds pass the filters: ")


def test_what_is_like_the_one_that_cannot_be_had_stands_first() -> None:
    """A double is wholly alike; one that differs in all words and is twice as long keeps what it shares in size and water."""
    wanted = kind("Wanted", colour_group="blue")
    library = [
        kind(
            "Unlike",
            adult_length=8,
            body_form="eel-like",
            zone="bottom",
            temper=4,
            colour_group="red",
            group_min=3,
            mouth_share=0,
        ),
        wanted,
        {**wanted, "species": "Double"},
    ]
    built = asked(library, [], instead_of="Wanted")
    assert ranked(built)[0] == "Double"
    assert said(built, "Double", "likeness") == pytest.approx(1)
    # Size and group count half of 0.2 and 0.1, the ranges all of 0.1, of weights that add up to 1.
    assert said(built, "Unlike", "likeness") == pytest.approx(0.1 + 0.05 + 0.1)


def test_the_list_holds_twenty_of_a_larger_library() -> None:
    assert len(ranked(asked([kind(f"Kind {i}") for i in range(25)], []))) == 20
