"""Tankmates and Comfort in rooms made by hand, in which a keeper can work out the answer on paper.

The animals are invented. What they do to each other follows from what is typed of them: nothing here is taken from
the workbook's own answers.
"""

import functools
import math
from typing import Any

import pandas as pd
import pytest

from tests import test_watch
from tests.effort import also
from tests.rooms import Evaluated, blank_room, changed, demo_room, evaluated, few_species, shortly, typed
from tests.test_columns import SCHEMA, spoilt, wrong_columns, wrong_flags, wrong_following, wrong_pulled

# A fish of which all is known and that gets on with its like.
PLAIN = {
    "kind": "fish", "adult_length": 5, "body_form": "fusiform", "group_min": 1, "volume_min": 10, "temper": 2, "swim": "calm", "zone": "middle",
    "bottom_room": "no", "bites_fins": "no", "long_fins": "no", "mouth_share": 0.2, "eats_shrimp": "no", "eats_snails": "no",
    "light": "medium", "cover": "some", "ground": "any", "background": "any", "flow": "gentle",
    "temperature_low": 22, "temperature_high": 26, "ph_low": 6.5, "ph_high": 7.5, "gh_low": 4, "gh_high": 12, "kh_low": 2, "kh_high": 8,
}  # fmt: skip
# Inside 60 by 40 cm: a floor of 2400 cm2.
TANK = {
    "tank": "Glass", "shape": "box", "measured": "inside", "length": 60, "width": 40, "height": 40, "glass": 0.6, "water_below_rim": 2,
    "substrate_depth": 0, "rock": 0, "wood": 0, "temperature": 24, "light": "medium", "cover": "some", "ground": "any",
    "background": "any", "flow": "gentle",
}  # fmt: skip


def frame(table: str, rows: list[dict[str, Any]]) -> pd.DataFrame:
    """Rows of a list; what they do not name is blank."""
    return typed(table, pd.DataFrame(rows).astype(object).fillna("").astype(str))


def room_of(*animals: dict[str, Any], chosen: str = "Glass", **tank: Any) -> Evaluated:
    """A tank with a group of each; an animal says only in what it is not a plain one, and how many it is."""
    kinds = [{**PLAIN, "species": f"Fish {number}"} | one for number, one in enumerate(animals, 1)]
    groups = [{"tank": "Glass", "species": kind["species"], "animals": kind.pop("animals", 6)} for kind in kinds]
    lists = {"livestock": frame("livestock", groups), "species": frame("species", kinds)} if kinds else {}
    room = changed(blank_room(), tanks=frame("tanks", [TANK | tank, {"tank": "Bare"}]), **lists)
    return shortly(changed(room, choice=room.choice | {"card": chosen}))


def words(found: Evaluated, table: str, key: str) -> list[str]:
    """What a column says, without its blanks."""
    return [str(value) for value in found.column(table, key) if value != ""]


def reasons(found: Evaluated) -> list[tuple[str, str]]:
    """Verdict and cause of each reason."""
    return list(zip(words(found, "reasons", "verdict"), words(found, "reasons", "why"), strict=True))


def verdicts(*animals: dict[str, Any], **tank: Any) -> list[str]:
    """The verdict of every pair."""
    return words(room_of(*animals, **tank), "pairs", "verdict")


def beside(one: dict[str, Any], *others: dict[str, Any]) -> list[str]:
    """The verdicts of one kind beside each other one; how those others get on does not matter."""
    return words(room_of(one, *others), "mates", "with_1")[1:]


def reasons_of(one: str, found: Evaluated) -> list[tuple[str, str]]:
    """Verdict and cause of each reason in which one of the two is named so."""
    return [(verdict, why) for verdict, why in reasons(found) if one in why]


GULPER = {"species": "Gulper", "adult_length": 20, "mouth_share": 0.5, "animals": 1}


def test_a_gulper_eats_a_small_shoal() -> None:
    """Half of 20 cm is 10 cm: a shoal of 4 cm fits."""
    found = room_of(GULPER, {"species": "Shoal", "adult_length": 4})
    assert reasons(found) == [("▲ eaten", "Shoal at 4 cm fits the mouth of Gulper, which can swallow 10 cm")]
    assert [found.column("mates", key)[:2] for key in ("with_1", "with_2")] == [
        ["itself", "▲ eaten"],
        ["▲ eaten", "itself"],
    ]


def test_what_is_as_long_as_the_mouth_is_wide_is_not_swallowed() -> None:
    assert beside(GULPER, {"adult_length": 10}, {"adult_length": 9.9}) == ["fine", "▲ eaten"]


@pytest.mark.parametrize("length", [1.4, 1.9, 3.4, 5.6, 7.2, 11.1])
@pytest.mark.parametrize("units", ["metric", "us"])
def test_inches_do_not_tip_what_lies_at_the_limit(length: float, units: str) -> None:
    """A mouth of half its length beside a fish of just that half: safe in either unit, though an inch is 2.54 cm."""
    found = room_of({"adult_length": 2 * length, "mouth_share": 0.5}, {"adult_length": length})
    assert words(shortly(found.room, units), "pairs", "verdict") == ["fine"]
    assert words(shortly(found.room, units), "livestock", "eaten") == []


def test_a_biter_beside_long_fins_whoever_comes_first() -> None:
    """One of them bites, the other has something to bite: that both do not bite one another does not help."""
    biter, veil = {"species": "Nipper", "bites_fins": "yes"}, {"species": "Veil", "long_fins": "yes"}
    told = [("▲ fins", "Nipper bites fins, Veil has long ones")]
    assert reasons(room_of(biter, veil)) == reasons(room_of(veil, biter)) == told
    assert verdicts(biter, biter | {"species": "Other nipper"}) == ["fine"]


def test_two_that_hold_ground_on_a_small_floor() -> None:
    """Each of 12 cm holds a square of twice its length: 24 x 24 = 576 cm2. Two of each kind want 2304 cm2."""
    one = {"adult_length": 12, "bottom_room": "holds ground", "animals": 2}
    assert verdicts(one, one) == ["fine"]  # of 2400
    found = room_of(one, one, width=36)  # 60 x 36 = 2160
    assert reasons(found)[0][0] == "◆ bottom"
    assert reasons(found)[0][1].endswith("Fish 1 want 1152 cm² of floor, Fish 2 1152 cm², there are 2160 cm²")


def test_a_third_on_the_floor_makes_it_small_for_all() -> None:
    """Three groups of 1152 cm2 want 3456 of 2400: any two would do, the third is too many."""
    one = {"adult_length": 12, "bottom_room": "holds ground", "animals": 2}
    assert verdicts(one, one, one) == ["○ bottom"] * 3
    assert room_of(one, one, one).column("livestock", "bottom_rival") == ["Fish 3", "Fish 1", "Fish 1"]


def test_grown_shrimp_larger_than_the_fish_are_safe_their_young_are_not() -> None:
    """A fish of 3 cm swallows a fifth of that, 0.6 cm: no shrimp of 5 cm, but what has just hatched."""
    fish = {"species": "Mite", "adult_length": 3, "eats_shrimp": "young"}
    shrimp = {"species": "Fan shrimp", "kind": "shrimp", "adult_length": 5, "mouth_share": 0, "temper": 1}
    found = room_of(fish, shrimp)
    assert reasons(found) == [("○ young", "Mite takes the young of Fan shrimp")]
    assert words(found, "livestock", "eaten") == []
    assert verdicts(fish | {"eats_shrimp": "yes"}, shrimp) == ["▲ shrimp"]


def test_a_shell_is_no_mouthful_but_some_crack_it() -> None:
    snail = {"species": "Whorl", "kind": "snail", "adult_length": 2, "mouth_share": 0}
    assert beside(snail, GULPER, GULPER | {"species": "Cracker", "eats_snails": "yes"}) == ["fine", "◆ snails"]


WARM = {"species": "Warm", "temperature_low": 27, "temperature_high": 30}


def test_two_that_differ_only_in_water() -> None:
    """Temperature and pH are harm, hardness is a risk; whoever stands first, the one who wants more is named first."""
    others = (
        WARM,
        {"species": "Soft", "ph_low": 5, "ph_high": 6.2},
        {"species": "Hard", "gh_low": 13, "gh_high": 25},
        {"species": "Rift", "kh_low": 10, "kh_high": 18},
    )
    expected = {
        ("▲ water", "temperature: Warm wants at least 27 °C, Plain at most 26 °C"),
        ("▲ water", "pH: Plain wants at least 6.5, Soft at most 6.2"),
        ("◆ water", "GH: Hard wants at least 13 °dH, Plain at most 12 °dH"),
        ("◆ water", "KH: Rift wants at least 10 °dH, Plain at most 8 °dH"),
    }
    for animals in ((*others, {"species": "Plain"}), ({"species": "Plain"}, *others)):
        found = room_of(*animals)
        assert set(reasons_of("Plain", found)) == expected
        assert len(reasons_of("Plain", found)) == len(expected)


def test_ranges_that_meet_in_a_point_are_fine() -> None:
    assert verdicts({}, {"temperature_low": 26, "temperature_high": 30}) == ["fine"]


def test_temper() -> None:
    """Beside temper 2; a gap of two is a risk, of three a clash, by the constants."""
    others = ({"temper": temper} for temper in (2, 3, 4, 5))
    assert beside({"temper": 2}, *others) == ["fine", "fine", "◆ temper", "▲ temper"]


def test_flow_liked_differently() -> None:
    """Beside still: one step is well enough, two are a note, a still pool and a rapid are no one tank."""
    others = ({"flow": flow} for flow in ("still", "gentle", "medium", "strong"))
    assert beside({"flow": "still"}, *others) == ["fine", "fine", "○ flow", "◆ flow"]


def test_light_liked_differently() -> None:
    assert beside({"light": "dim"}, *({"light": light} for light in ("dim", "medium", "bright"))) == [
        "fine",
        "fine",
        "○ light",
    ]


GAPS = {
    "temper": {"temper": ""}, "what it can swallow": {"mouth_share": ""}, "whether it bites fins": {"bites_fins": ""},
    "KH range": {"kh_low": "", "kh_high": ""}, "light": {"light": ""}, "bottom room": {"bottom_room": ""}, "how many": {"animals": ""},
}  # fmt: skip


def test_unknown_is_not_fine() -> None:
    """With everything known two are fine; one gap, and nobody can say."""
    riddles = [{"species": f"Riddle: {said}", **gap} for said, gap in GAPS.items()]
    found = room_of({"species": "Plain"}, {"species": "Other"}, *riddles)
    assert words(found, "mates", "with_1") == ["itself", "fine", *["○ unknown"] * len(GAPS)]
    names, causes = words(found, "reasons", "who"), words(found, "reasons", "why")
    for said in GAPS:
        cause = causes[names.index(f"Plain and Riddle: {said}")]
        assert cause.startswith(f"not known: Riddle: {said}: ")
        assert said in cause.removeprefix(f"not known: Riddle: {said}: ").split(", ")


def test_a_gap_hides_nothing_worse() -> None:
    """What is known to be serious comes first, what is not known is told as well."""
    found = room_of(GULPER, {"adult_length": 4, "light": ""})
    assert [verdict for verdict, _ in reasons(found)] == ["▲ eaten", "○ unknown"]
    assert words(found, "pairs", "verdict") == ["▲ eaten"]


def test_most_serious_first() -> None:
    """Three kinds: the first two only like other light; the third wants other water than both, and the gulper eats it."""
    third = WARM | {"adult_length": 4, "gh_low": 13, "gh_high": 20}
    found = room_of({"light": "dim", "adult_length": 12}, GULPER | {"light": "bright"}, third)
    expected = ["▲ water", "▲ eaten", "▲ water", "◆ water", "◆ water", "○ light"]
    assert [verdict for verdict, _ in reasons(found)] == expected
    assert words(found, "mates_choice", "found") == ["▲ 3 to act on, ◆ 2 to watch, ○ 1 to note"]
    assert words(found, "mates_choice", "paired") == ["3, of them fine: 0"]


@pytest.mark.parametrize(
    ("groups", "chosen", "said"),
    [
        (2, "", "pick a tank on Tank"),
        (2, "Elsewhere", "◆ no such tank stands on Tanks"),
        (2, "Bare", "no animals live in it"),
        (1, "Glass", "a single group: there is nobody beside it"),
        (2, "Glass", "all 2 groups"),
        (16, "Glass", "all 16 groups"),
        (19, "Glass", "◆ the first 16 of 19 groups; 3 are left out"),
    ],
)
def test_who_is_shown_is_said_in_words(groups: int, chosen: str, said: str) -> None:
    found = room_of(*([{}] * groups), chosen=chosen)
    here = min(groups, 16) if chosen == "Glass" else 0
    assert words(found, "mates_choice", "shown") == [said]
    assert len(words(found, "mates", "name")) == here
    assert words(found, "pairs", "verdict") == ["fine"] * (here * (here - 1) // 2)
    assert words(found, "reasons", "why") == []


def test_us_units_in_the_reasons() -> None:
    """10 cm are 3.94 in, 4 cm are 1.57 in; 27 and 26 degrees C are 80.6 and 78.8 F."""
    metric = room_of(GULPER, {"species": "Shoal", "adult_length": 4, "temperature_low": 27, "temperature_high": 30})
    assert [why for _, why in reasons(shortly(metric.room, "us"))] == [
        "Shoal at 1.57 in fits the mouth of Gulper, which can swallow 3.94 in",
        "temperature: Shoal wants at least 80.6 °F, Gulper at most 78.8 °F",
    ]


# --- the same on Livestock ---

SAME_ON_LIVESTOCK = {
    "eaten": ("second_swallows", "first_swallows"), "clash_of_temper": ("clash_of_temper",) * 2, "fins": ("second_bites", "first_bites"),
    "shrimp_hunted": ("second_hunts_shrimp", "first_hunts_shrimp"), "snails_hunted": ("second_eats_snails_too", "first_eats_snails_too"),
    "light_unlike": ("light_apart",) * 2,
}  # fmt: skip


@functools.cache
def in_tank(tank: str) -> Evaluated:
    demo = few_species(demo_room())
    return shortly(changed(demo, spare_rows=1, choice=demo.choice | {"card": tank}))


@pytest.mark.parametrize("tank", ["Rack B1", "Landing bow", "Long wall"])
def test_livestock_says_the_same_of_each_resident(tank: str) -> None:
    """A resident is flagged on Livestock exactly if some pair it belongs to says so."""
    found = in_tank(tank)
    rows = [int(row) - 1 for row in found.column("mates", "group") if row != ""]
    ends = list(zip(found.column("pairs", "first_place"), found.column("pairs", "second_place"), strict=True))
    for flag, (for_first, for_second) in SAME_ON_LIVESTOCK.items():
        hit = {int(a) for (a, _), said in zip(ends, found.column("pairs", for_first), strict=True) if said}
        hit |= {int(b) for (_, b), said in zip(ends, found.column("pairs", for_second), strict=True) if said}
        if flag == "clash_of_temper":  # on Livestock it is told of the gentler one
            tempers = [found.column("livestock", "temper_counted")[row] for row in rows]
            hit = {place for place in hit if tempers[place - 1] != max(t for t in tempers if t != "")}
        if flag == "eaten":  # of shrimp with a hunter the other flag tells there
            hit -= {place for place, row in enumerate(rows, 1) if found.column("livestock", "shrimp_hunted")[row]}
        flagged = {place for place, row in enumerate(rows, 1) if found.column("livestock", flag)[row]}
        assert flagged == hit, flag


# --- Comfort ---


def comfort(found: Evaluated, key: str) -> str:
    return str(found.column("comfort", key)[0])


SHY, SUNNY = {"species": "Shy", "light": "dim"}, {"species": "Sunny", "light": "bright"}


def test_shy_fish_under_a_bright_lamp_are_told_what_helps() -> None:
    """A note with help, no clash; a lamp one step brighter than they like is well enough."""
    found = room_of(SHY, {}, light="bright")
    assert not {"▲", "◆"} & set(comfort(found, "said"))
    assert comfort(found, "attention").startswith(
        "○ Brighter than some like: the light is bright, while Shy like it dim"
    )
    assert all(help_ in comfort(found, "attention") for help_ in ("Floating plants", "cover", "dimmer lamp"))
    assert comfort(found, "light_wants") == "dim: Shy; medium: Fish 2"
    assert comfort(room_of(SHY, {}), "light_suits") == "suits all"


def test_disagreement_is_named() -> None:
    found = room_of(SHY, SUNNY)
    assert comfort(found, "light_split").startswith("○ Light liked differently: Shy like it dim, Sunny bright → ")
    assert found.column("livestock", "at_odds") == ["light: Sunny", "light: Shy"]
    still, rapid = {"species": "Pool", "flow": "still"}, {"species": "Rapid", "flow": "strong"}
    found = room_of(still, rapid, {"species": "Brook"})
    assert "Pool, Brook like it calm, Rapid moving" in comfort(found, "flow_split")
    assert comfort(found, "flow_too_weak").startswith("◆ Flow too weak for some: the flow is gentle, while Rapid ")
    assert comfort(found, "flow_too_strong") == ""  # gentle is one step from still


def test_what_a_tank_lacks() -> None:
    digger = {"species": "Digger", "ground": "fine sand", "cover": "much", "background": "dark"}
    found = room_of(digger, cover="open", ground="stones")
    assert [comfort(found, f"{thing}_suits") for thing in ("light", "cover", "ground", "background", "flow")] == [
        "suits all", "◆ Too little cover", "◆ No fine sand", "○ No dark background", "suits all",
    ]  # fmt: skip
    better = room_of(digger, cover="some", ground="fine sand", background="dark")
    assert words(better, "comfort", "said") == []


def test_an_unknown_place_is_not_called_good() -> None:
    assert comfort(room_of({}, light=""), "light_suits") == "unknown"
    silent = room_of({}, {"light": ""})
    assert comfort(silent, "light_suits") == "unknown"
    assert comfort(silent, "light_wants") == "medium: Fish 1; not known: 1 of 2 groups"


def test_an_empty_tank_wants_nothing() -> None:
    found = room_of({})
    assert [found.column("comfort", key)[1] for key in ("light_wants", "light_suits", "attention")] == ["", "", ""]


def test_a_crowd_is_named_up_to_ten() -> None:
    """Thirteen that like it dim: ten names, and three more; with a species in several groups each counts."""
    found = room_of(*([{"light": "dim"}] * 13))
    first = ", ".join(f"Fish {number}" for number in range(1, 11))
    assert comfort(found, "light_wants") == f"dim: {first} and 3 more"


def test_no_flag_of_comfort_is_serious() -> None:
    flags = blank_room(), room_of({}).built.placing.tables["comfort"].table.flags
    assert {flag.seriousness for flag in flags[1]} == {"watch", "note"}


def test_a_group_without_a_species_is_shown_and_unknown() -> None:
    room = spoilt(room_of({}, {}).room, livestock={(1, "species"): "", (1, "animals"): math.nan})
    found = shortly(room)
    assert words(found, "mates", "name") == ["Fish 1", "(no species)"]
    assert words(found, "pairs", "verdict") == ["○ unknown"]


CROWDED = {
    **{
        f"crowd {seed}": functools.partial(test_watch.crowd, seed, blanks, groups)
        for seed, blanks, groups in ((31, 0.0, 24), (37, 0.1, 17), (38, 0.0, 16), (39, 0.3, 9))
    },
    **{f"of one mind {step}": functools.partial(test_watch.of_one_mind, step) for step in (0, 3)},
}


@pytest.mark.parametrize(
    "name", ["crowd 37", "of one mind 0", *also("crowd 31", "crowd 38", "crowd 39", "of one mind 3")]
)
def test_a_crowd_is_judged_as_the_oracles_judge_it(name: str) -> None:
    """Random rooms have few in one tank; here it is full, and its reasons many."""
    found = evaluated(CROWDED[name]())
    wrong: list[str] = []
    for key in ("roll", "company", "livestock", "mates", "pairs", "reasons", "mates_choice", "comfort"):
        for test in (wrong_columns, wrong_flags, wrong_following, wrong_pulled):
            wrong += test(found, SCHEMA[key])
    assert not wrong, f"{len(wrong)} cells differ\n" + "\n".join(wrong[:40])
