"""Units of decisions: what does not go together is refused when tables are laid out, and how much can't be told."""

import csv
from collections import Counter

import pytest

from workbook.build import templates_folder
from workbook.editions import EDITIONS
from workbook.tables import Computed, Flag, Pulled, Schema, Table, Typed, choice, key, logic, number, text
from workbook.tables.formula import equation
from workbook.tables.idioms import first_known, middle, only_if, taken_as
from workbook.tables.kinds import date
from workbook.tables.measuring import FREE, TEXT, UNKNOWN, measured, unit_of

UNITS = {"a": "cm", "b": "L", "c": "cm", "day": "date", "other_day": "date", "warmth": "degC", "cold": "degC"}


def unit(name: str) -> object:
    """What a name is measured in; words for any other."""
    return unit_of(UNITS[name]) if name in UNITS else TEXT


@pytest.mark.parametrize(
    ("formula", "wanted"),
    [
        ("{a}+{c}", "cm"),
        ("{a}*{c}", "cm2"),
        ("{a}*{c}/{b}", "cm2/L"),
        ("{a}^2/{c}", "cm"),
        ("{a}/{c}", "1"),
        ("MAX({a},{c},0)", "cm"),
        ('IF({a}>{c},"",{a}*2)', "cm"),
        ("{day}-{other_day}", "day"),
        ("{day}+1", "date"),
        ("{day}-({other_day}-{day})", "date"),
        ("{warmth}-{cold}", "K"),
        ("{warmth}-({warmth}-{cold})", "degC"),
        ("SUMIFS({a},{b},1)", "cm"),
        ("INDEX({a},MATCH(1,{b},0))", "cm"),
        ("COUNT({a},{b})", "1"),
        ("({a}>{c})+(1>0)", "1"),
        ("[mg/L]*{b}", "mg"),
        ("{b}*7/[day]", "L"),
        ("CHOOSE(2,{a},{c})", "cm"),
        ('_xlfn.SWITCH({words},"x",{a},"y",{c},0)', "cm"),
        ("_xlfn.IFS({a}>0,{a},1=1,{c})", "cm"),
        ("-{a}%", "cm"),
        ("MAX({a}:{c})", "cm"),
        ("1E+9*{a}", "cm"),
    ],
)
def test_units_add_multiply_and_cancel(formula: str, wanted: str) -> None:
    assert measured(formula, unit) == unit_of(wanted)


@pytest.mark.parametrize(
    ("formula", "wanted"),
    [
        ("1+2", FREE),
        ('""', FREE),
        ('{a}&" cm"', TEXT),
        ('IF({a}>0,"long","short")', TEXT),
        ("LN({a})", UNKNOWN),
        ("{a}*10^6+{b}", UNKNOWN),
    ],
)
def test_what_has_no_unit_or_none_that_can_be_told(formula: str, wanted: str) -> None:
    assert measured(formula, unit) == wanted


@pytest.mark.parametrize(
    ("formula", "said"),
    [
        ("{a}+{b}", r"\{a\} \[cm\] \+ \{b\} \[L\]"),
        ("{a}*2-{b}/3", r"\{a\}\*2 \[cm\] - \{b\}/3 \[L\]"),
        ("IF({a}<{b},1,0)", r"\{a\} \[cm\] < \{b\} \[L\]"),
        ("IF(1>0,{a},{b})", r"IF\(1>0,\{a\},\{b\}\) has \[cm\], \[L\]"),
        ("MIN({a},{b})", r"has \[cm\], \[L\]"),
        ("{warmth}+{cold}", r"\{warmth\} \[degC\] \+ \{cold\} \[degC\]"),
        ("{warmth}>{warmth}-{cold}", r"\[degC\] > .* \[K\]"),
    ],
)
def test_what_does_not_go_together_is_named(formula: str, said: str) -> None:
    with pytest.raises(TypeError, match=said):
        measured(formula, unit)


def laid_out(*columns: Computed | Flag) -> Schema:
    """A schema of one table with these columns beside typed ones."""
    typed = (
        Typed("name", "Name", key()),
        Typed("a", "A", number(), unit="cm"),
        Typed("b", "B", number(), unit="L"),
        Typed("day", "Day", date()),
        Typed("word", "Word", choice("x", "y")),
    )
    return Schema((Table("livestock", "Livestock", "", ("name",), (*typed, *columns)), CONSTANTS), {"rows_left": "1"})


CONSTANTS = Table(
    "constants", "Constants", "", ("key",), (Typed("key", "Key", text()), Typed("value", "Value", number())), given=True
)


@equation
def twice(length: str) -> str:
    """Twice the length.

    length [cm]: any
    returns [cm]: any
    source: definition
    """
    return f"2*{length}"


def test_a_column_that_adds_apples_and_pears_is_refused_with_its_name() -> None:
    with pytest.raises(TypeError, match=r"livestock\.x: \{a\} \[cm\] \+ \{b\} \[L\]"):
        laid_out(Computed("x", "X", logic("{a}+{b}", "cm")))


def test_a_column_says_the_unit_that_it_has() -> None:
    with pytest.raises(TypeError, match=r"livestock\.x: \{a\}\*\{a\} is in \[cm2\], said to be in \[cm\]"):
        laid_out(Computed("x", "X", logic("{a}*{a}", "cm")))


def test_a_flag_compares_what_can_be_compared() -> None:
    with pytest.raises(TypeError, match=r"livestock\.x: \{a\} \[cm\] > \{b\} \[L\]"):
        laid_out(Flag("x", "X", when="{a}>{b}", why="why", do="do"))


def test_an_equation_stands_in_a_decision_as_its_unit() -> None:
    laid_out(Computed("x", "X", logic("{doubled}+{a}", "cm", doubled=twice(length="{a}"))))
    with pytest.raises(TypeError, match=r"livestock\.x: \[cm\] \[cm\] \+ \{b\} \[L\]"):
        laid_out(Computed("x", "X", logic("{doubled}+{b}", "cm", doubled=twice(length="{a}"))))


def test_a_decision_within_an_equation_is_looked_at_too() -> None:
    with pytest.raises(TypeError, match=r"livestock\.x: MAX\(\{a\},\{b\}\) has \[cm\], \[L\]"):
        laid_out(Computed("x", "X", twice(length=logic("MAX({a},{b})", "cm"))))


def test_recipes_bring_their_units() -> None:
    laid_out(Computed("x", "X", only_if("{a}>0", first_known("{a}", "{a}", unit="cm"))))
    laid_out(Computed("x", "X", middle("{a}", "{a}", "cm")))
    laid_out(Computed("x", "X", taken_as(logic("{a}", "cm"), "cm/day")))
    with pytest.raises(TypeError, match=r"b is in \[L\], wanted in \[cm\]"):
        laid_out(Computed("x", "X", first_known("{a}", "{b}", unit="cm")))


def test_a_column_of_many_units_says_none() -> None:
    """Line by line another measure: that is only right where no unit is said of the column."""
    laid_out(Computed("x", "X", logic("CHOOSE({line},{a},{b})")))
    with pytest.raises(TypeError, match=r"has \[cm\], \[L\]"):
        laid_out(Computed("x", "X", logic("CHOOSE({line},{a},{b})", "cm")))


def units_of_constants() -> dict[str, str]:
    """The constants of every edition."""
    found = {}
    for name in ("constants", "shop_constants"):
        with (templates_folder() / "shared" / f"{name}.csv").open(encoding="utf-8", newline="") as file:
            found |= {row["key"]: row["unit"] for row in csv.DictReader(file)}
    return found


@pytest.mark.parametrize("edition", EDITIONS)
def test_of_few_decisions_the_unit_cannot_be_told(edition: str) -> None:
    """Orders packed into one number, columns of many units and a logarithm; no more than one in twenty."""
    schema = Schema(EDITIONS[edition]().tables, units_of_constants())
    told: Counter[bool] = Counter()
    for table in schema.tables:
        for column in table.columns:
            if not isinstance(column, Pulled):
                told.update(found != UNKNOWN for _, _, found in schema.decided(table, column))
    print(f"{edition}: {sum(told.values())} decisions, {told[False]} of which the unit can't be told")
    assert told[True] > 1000
    assert told[False] / sum(told.values()) < 0.05
