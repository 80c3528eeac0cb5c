"""Templates: where parts are bracketed, what a star stands for, and what a formula takes along from its parts."""

import pytest

from workbook.tables.formula import Formula, filled, logic
from workbook.tables.template import above, column, for_each, here, of, quoted, said, starred


@pytest.mark.parametrize(
    ("template", "part", "wanted"),
    [
        ("IF({x},1,0)", "{a}>{b}", "IF({a}>{b},1,0)"),  # a whole argument
        ("{x}", "{a}+{b}", "{a}+{b}"),  # alone
        ("{x}*2", "{a}+{b}", "({a}+{b})*2"),
        ("2*{x}", "{a}/{b}", "2*({a}/{b})"),
        ("{x}*2", "{a}/{b}", "{a}/{b}*2"),
        ("1-{x}", "{a}-{b}", "1-({a}-{b})"),
        ("{x}-1", "{a}-{b}", "{a}-{b}-1"),
        ("{x}^2", "{a}*{b}", "({a}*{b})^2"),
        ("{x}^2", "-{a}", "(-{a})^2"),
        ("{x}>0", "{a}+{b}", "{a}+{b}>0"),
        ("{x}+1", "{a}>{b}", "({a}>{b})+1"),
        ('"so "&{x}&"."', '{a}&" and "&{b}', '"so "&{a}&" and "&{b}&"."'),
        ('"so "&{x}', "{a}+1", '"so "&{a}+1'),
        ("{x}+1", "MAX({a},{b}-1)", "MAX({a},{b}-1)+1"),
        ("{x}&1", '"a+b, (c"', '"a+b, (c"&1'),
        ("{x}+1", "{livestock.mass[]}", "{livestock.mass[]}+1"),
        ("{x}*2", "1E-9", "1E-9*2"),
    ],
)
def test_a_part_is_bracketed_where_it_would_fall_apart(template: str, part: str, wanted: str) -> None:
    assert filled(template, x=part) == wanted


def test_several_stand_as_so_many_arguments_and_nowhere_else() -> None:
    assert filled("MAX({all},0)", all=["{a}", "{b}+1"]) == "MAX({a},{b}+1,0)"
    with pytest.raises(TypeError, match="several arguments"):
        filled("1+{all}", all=["{a}", "{b}"])


def test_a_part_that_has_no_place_is_a_slip() -> None:
    with pytest.raises(TypeError, match=r"no place for share in \{a\}\+1"):
        filled("{a}+1", share="{b}")


def test_what_stands_in_a_part_is_not_filled_again() -> None:
    assert filled("{a}+{b}", a="{b}", b="{a}") == "{b}+{a}"


def test_a_star_stands_for_the_key_in_names_alone() -> None:
    assert starred("{*_low}*2+{sought.*_high}", "ph") == "{ph_low}*2+{sought.ph_high}"
    assert filled("{*_low}*{x}", each="ph", x="{*_high}") == "{ph_low}*{ph_high}"
    assert logic("{*_low}", needs=("*_low", "row"), each="gh").needs == ("gh_low", "row")
    assert for_each(("ph", "gh"), "COUNT({*})", "+") == "COUNT({ph})+COUNT({gh})"


def test_names_made_in_loops() -> None:
    assert [here("a"), above("a"), of("sought", "a"), column("tanks", "a"), said("a")] == [
        "{a}",
        "{above.a}",
        "{sought.a}",
        "{tanks.a[]}",
        "{@words.a}",
    ]
    assert quoted('6" deep') == '"6"" deep"'


def test_a_formula_brings_its_sources_and_operands_along() -> None:
    inner = Formula("{a}/{b}", "mg/L", ("winberg_1956",), (("a", "mg"), ("b", "L")))
    whole = logic("IF({test},{inner}*2,0)", "mg/L", test="{c}>0", inner=inner)
    assert whole.text == "IF({c}>0,{a}/{b}*2,0)"
    assert (whole.sources, whole.expects) == (inner.sources, inner.expects)
    assert whole.decisions == (("IF({c}>0,[mg/L]*2,0)", "mg/L"), ("{a}/{b}", "mg/L"))
