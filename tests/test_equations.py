"""House rules of the equations, what their decorator refuses, and whether the checks would notice an error."""

import re

import pytest

from tests.formulas import (
    MODULES,
    SHARED,
    Point,
    built,
    constants,
    evaluate,
    evaluate_all,
    parameters,
    published_points,
    rows_of,
)
from tests.second_sources import all_points
from workbook.equations import metabolism
from workbook.tables import formula
from workbook.tables.formula import NAME, REGISTRY, Formula, equation

EQUATIONS = dict(REGISTRY)  # as the modules left it; the tests below make more
POINTS = [*published_points(), *all_points()]
COVERED_BY_LIBRARIES = {
    "ammonia.acute_criterion", "ammonia.chronic_criterion", "ammonia.nitrogen_from_ammonia",
    "ammonia.nitrogen_from_ammonium", "ammonia.toxic_share", "blending.blend_hardness",
    "blending.blend_nitrate", "blending.blend_temperature", "blending.largest_share",
    "blending.share_by_hardness", "carbonate.carbon_dioxide", "carbonate.kh_level", "carbonate.trade_rule",
    "conversions.celsius_to_fahrenheit", "conversions.litre_to_gallon", "feeding.ration", "gases.oxygen_at_altitude", "gases.oxygen_reserve",
    "gases.oxygen_saturation", "gases.pressure", "geometry.bow_front_area", "geometry.bow_front_perimeter",
    "geometry.bow_radius", "geometry.bow_segment", "geometry.box_area", "geometry.box_perimeter",
    "geometry.cylinder_area", "geometry.cylinder_perimeter", "geometry.half_cylinder_area",
    "geometry.half_cylinder_perimeter", "geometry.hexagon_area", "geometry.hexagon_inner_side",
    "geometry.hexagon_longest", "geometry.hexagon_perimeter", "geometry.octagon_area",
    "geometry.octagon_inner_side", "geometry.octagon_longest", "geometry.octagon_perimeter",
    "geometry.quarter_cylinder_area", "geometry.quarter_cylinder_perimeter",
    "geometry.substrate_displacement", "geometry.trapezoid_area", "geometry.trapezoid_perimeter",
    "geometry.volume", "hardness.degrees_to_caco3", "heat.cooled", "heat.cooling_constant",
    "heat.daily_energy", "heat.heat_loss", "heat.hours_to_cool", "heat.watts_per_gallon", "load.floor_load",
    "load.glass_mass", "load.substrate_mass", "load.water_mass", "metabolism.resting_oxygen",
    "nitrogen.alkalinity_used", "nitrogen.ammonia_from_food", "nitrogen.change_needed",
    "nitrogen.changes_to_reach", "nitrogen.days_to_reach", "nitrogen.level_after_change",
    "nitrogen.level_after_changes", "nitrogen.level_before_change", "nitrogen.nitrate_rise", "nitrogen.taken_by_plants",
    "nitrogen.nitrification_oxygen", "nitrogen.own_yield", "nitrogen.rise_after_plants",
    "nitrogen.with_fasting", "reorder.monthly_cost", "space.inches_per_gallon",
}  # fmt: skip
SAFE_FUNCTIONS = {
    "ABS", "ACOS", "AND", "AVERAGEIFS", "CEILING", "CHOOSE", "COUNT", "COUNTA", "COUNTIF", "COUNTIFS", "DATE", "EDATE",
    "EXACT", "EXP", "IF", "INDEX", "INT", "ISERROR", "ISNUMBER", "LARGE", "LEN", "LN", "LOG10", "MATCH",
    "MAX", "MEDIAN", "MIN", "MOD", "MROUND", "OR", "PERCENTILE", "PI", "POWER", "RANK", "ROUND", "ROUNDUP",
    "SEARCH", "SMALL", "SQRT", "SUBSTITUTE", "SUM", "SUMIFS", "SUMPRODUCT", "UPPER", "WEEKDAY", "YEAR",
}  # fmt: skip
# Numbers that need no paper: none, one, two, and the ice point, which the docstring announces as "T in kelvin".
PLAIN_NUMBERS = {0.0, 1.0, 2.0, 273.15}
NUMBER = re.compile(r"\d+(?:\.\d+)?(?:e[+-]?\d+)?", re.IGNORECASE)
PIECE = re.compile(
    rf"(?P<name>{NAME.pattern})|(?P<function>[A-Z][A-Z0-9.]*)|(?P<number>{NUMBER.pattern})|(?P<operator>[-+*/^])"
)
SWAPPED = {"+": "-", "-": "+", "*": "/", "/": "*", "^": "*"}
# Changes that no check can see, by equation and change, each with its reason.
UNSEEN: dict[tuple[str, str], str] = {
    ("brine.start_hour", "9 -> 9.09 at 5"): "decimals of ROUND are cut to a whole number",
    ("brine.days_before", "9 -> 9.09 at 7"): "decimals of ROUND are cut to a whole number",
    **{
        ("brine.vessels", f"6 -> 6.0600000000000005 at {at}"): "decimals of ROUND are cut to a whole number"
        for at in (7, 15)
    },
    **{("brine.vessels", f"0 -> 0.01 at {at}"): "decimals of ROUNDUP are cut to a whole number" for at in (8, 16)},
    ("nitrogen.changes_to_reach", "9 -> 9.09 at 17"): "decimals of ROUND are cut to a whole number",
    ("nitrogen.changes_to_reach", "0 -> 0.01 at 18"): "decimals of ROUNDUP are cut to a whole number",
}


def bare(key: str) -> str:
    """The text of an equation with every operand, constants too, as a name of its own."""
    return built(key, list(parameters(key))).text


@pytest.mark.parametrize("key", EQUATIONS)
def test_every_equation_is_checked_against_a_source(key):
    """An equation without a published row or a library check is a claim."""
    assert any(point.equation == key for point in POINTS)


def test_every_check_is_of_an_equation_that_exists():
    """A row for an equation that was renamed would never be missed."""
    assert {point.equation for point in POINTS} <= set(EQUATIONS)


def test_the_list_of_library_checks_is_true():
    """What is said to be covered by libraries is what they check."""
    assert {point.equation for point in all_points()} == COVERED_BY_LIBRARIES


def test_every_module_has_equations():
    """Each file of the package enters its equations."""
    assert {key.partition(".")[0] for key in EQUATIONS} == set(MODULES)


@pytest.mark.parametrize("key", EQUATIONS)
def test_every_source_is_in_the_bibliography(key):
    """A source key in a docstring stands in references.csv, so that the Sources sheet can print it."""
    known = {row["key"] for row in rows_of(SHARED / "references.csv")}
    assert {source for source, _ in EQUATIONS[key].sources} <= known


@pytest.mark.parametrize("key", EQUATIONS)
def test_every_default_is_a_constant_in_the_same_unit(key):
    """A default operand is one constant of constants.csv, measured as the equation wants it."""
    known = constants()
    units = {name: unit for name, unit, _ in EQUATIONS[key].operands}
    for name, default in parameters(key).items():
        if default is not None:
            named = NAME.fullmatch(default)
            assert named, f"{key}: default of {name} is {default}, expected one constant"
            assert named[1].startswith("const."), f"{key}: default of {name} is {default}, expected a constant"
            constant = known.get(named[1].removeprefix("const."))
            assert constant, f"{key}: {default} is not in constants.csv"
            assert constant["unit"] == units[name], f"{key}: {name} is wanted in [{units[name]}]"
            assert float(constant["low"]) <= float(constant["value"]) <= float(constant["high"])


@pytest.mark.parametrize("key", EQUATIONS)
def test_every_operand_is_used(key):
    """What an equation asks for stands in its text, and nothing else does."""
    assert set(NAME.findall(bare(key))) == set(parameters(key))


@pytest.mark.parametrize("key", EQUATIONS)
def test_only_functions_that_every_office_program_has(key):
    """A function outside the list may differ or be missing in another program."""
    used = {match["function"] for match in PIECE.finditer(bare(key)) if match["function"]}
    assert used <= SAFE_FUNCTIONS


@pytest.mark.parametrize("key", EQUATIONS)
def test_numbers_are_those_of_the_shown_form(key):
    """Each number in the text stands in the form that the reader sees."""
    shown = {float(number) for number in NUMBER.findall(EQUATIONS[key].form)}
    used = {float(match["number"]) for match in PIECE.finditer(bare(key)) if match["number"]}
    assert used <= shown | PLAIN_NUMBERS
    if 273.15 in used:
        assert any("kelvin" in says for _, _, says in EQUATIONS[key].operands)


@pytest.mark.parametrize("key", EQUATIONS)
def test_a_sum_as_operand_is_kept_together(key):
    """Each operand may be a sum: the brackets keep it one number, wherever it stands."""
    point = next(point for point in POINTS if point.equation == key)
    texts = {name: f"{{{name}}}-{{spare.{name}}}" for name in point.operands}
    numbers = {name: value + 3 for name, value in point.operands.items()}
    numbers |= {f"spare.{name}": 3.0 for name in point.operands}
    # As near as subtracting 3 again leaves the operands.
    assert evaluate(built(key, texts).text, **numbers) == pytest.approx(
        evaluate_all([point.formula])[0], rel=1e-6, abs=1e-9
    )


@pytest.fixture
def empty_registry(monkeypatch):
    """Equations made by a test stay in the test."""
    monkeypatch.setattr(formula, "REGISTRY", {})


@pytest.mark.usefixtures("empty_registry")
class TestDecorator:
    """What @equation refuses and what it makes safe."""

    def test_brackets_keep_a_difference_together(self):
        """pH typed as 7.6-0.4 is 7.2: without brackets the toxic share would be six times too high."""

        @equation
        def toxic_share(ph: str) -> str:
            """Share of ammonia that is toxic.

            ph [1]: of the water
            returns [1]: share
            source: definition
            """
            return f"1/(1+10^(9.2455-{ph}))"

        built_of_difference = toxic_share(ph="7.6-0.4").text
        assert built_of_difference == "1/(1+10^(9.2455-(7.6-0.4)))"
        assert evaluate(built_of_difference) == pytest.approx(1 / (1 + 10 ** (9.2455 - 7.2)), rel=1e-9)
        without = built_of_difference.replace("(7.6-0.4)", "7.6-0.4")
        assert evaluate(without) / evaluate(built_of_difference) > 5

    def test_a_negative_number_is_bracketed_too(self):
        """-2 squared is 4 and 5 - -2 is no error, in every office program."""

        @equation
        def square(value: str) -> str:
            """Square of a number.

            value [1]: any
            returns [1]: its square
            source: definition
            """
            return f"5-{value}^2"

        assert square(value="-2").text == "5-(-2)^2"
        assert evaluate(square(value="-2").text) == 1
        assert square(value="{length}").text == "5-{length}^2"
        assert square(value="2.5").text == "5-2.5^2"
        assert square(value=Formula("{a}+{b}", "1")).text == "5-({a}+{b})^2"

    def test_a_docstring_without_an_operand_is_refused(self):
        """Every operand has a unit and a meaning, or the module does not load."""

        def half(value: str, share: str) -> str:
            """Half.

            value [g]: any
            returns [g]: half
            source: definition
            """
            return f"{value}*{share}"

        with pytest.raises(TypeError, match=r"half: .*must name value, share, returns.*found value, returns"):
            equation(half)
        assert not formula.REGISTRY

    def test_operands_in_another_order_are_refused(self):
        """The docstring follows the signature."""

        def half(value: str, share: str) -> str:
            """Half.

            share [1]: any
            value [g]: any
            returns [g]: half
            source: definition
            """
            return f"{value}*{share}"

        with pytest.raises(TypeError, match=r"in this order.*found share, value, returns"):
            equation(half)

    def test_a_docstring_without_a_result_is_refused(self):
        """What comes out has a unit."""

        def half(value: str) -> str:
            """Half.

            value [g]: any
            source: definition
            """
            return f"{value}/2"

        with pytest.raises(TypeError, match="found value and definition"):
            equation(half)

    def test_a_docstring_without_a_source_is_refused(self):
        """No equation without a source."""

        def half(value: str) -> str:
            """Half.

            value [g]: any
            returns [g]: half
            """
            return f"{value}/2"

        with pytest.raises(TypeError, match="found value, returns and no source"):
            equation(half)

    def test_a_function_without_docstring_is_refused(self):
        """Also when docstrings were stripped by -OO."""

        def half(value: str) -> str:
            return f"{value}/2"

        with pytest.raises(TypeError, match="found no operand and no source"):
            equation(half)


def test_a_result_in_another_unit_is_refused():
    """Grams do not pass for degrees."""
    grams = built("mass.of_group", ("each", "animals"))
    with pytest.raises(TypeError, match=r"temperature is wanted in \[degC\], found \[g\]"):
        built("metabolism.resting_oxygen", {"mass": grams, "temperature": grams})


def test_a_missing_operand_is_named():
    """A call says which operand it lacks."""
    with pytest.raises(TypeError, match=r"metabolism\.resting_oxygen: temperature not given"):
        built("metabolism.resting_oxygen", ("mass",))


def test_an_operand_that_does_not_exist_is_refused():
    """A misspelt operand must not vanish behind a default."""
    with pytest.raises((TypeError, KeyError), match="activty"):
        built("metabolism.routine_oxygen", {"resting": "{a}", "activty": "{b}"})


def test_operands_are_given_by_name():
    """Two numbers in the wrong order cannot happen."""
    with pytest.raises(TypeError):
        metabolism.resting_oxygen("{mass}", "{temperature}")


def test_a_composed_formula_carries_units_and_sources_along():
    """What an inner equation wants and cites is wanted and cited by the whole."""
    resting = built("metabolism.resting_oxygen", ("mass", "temperature"))
    whole = built("metabolism.routine_oxygen", {"resting": resting})
    assert whole.unit == "mg/h"
    assert set(whole.sources) == {"clarke_1999", "winberg_1956"}
    assert set(whole.expects) == {("mass", "g"), ("temperature", "degC"), ("const.activity", "1")}


def saboteurs(key: str) -> dict[str, str]:
    """The text of an equation with one number a hundredth greater or one operator swapped, by what was done."""
    text = bare(key)
    changed = {}
    for at, match in enumerate(PIECE.finditer(text)):
        if number := match["number"]:
            other = "0.01" if float(number) == 0 else repr(float(number) * 1.01)
            # Office programs know 1.2e+12 as well, but plain digits are what our texts hold.
            other = f"{float(other):.15f}".rstrip("0").rstrip(".") if "e" in other else other
        elif operator := match["operator"]:
            other = SWAPPED[operator]
        else:
            continue
        done = f"{match[0]} -> {other} at {at}"
        changed[done] = text[: match.start()] + other + text[match.end() :]
    return changed


def unnoticed(key: str) -> set[str]:
    """The saboteurs of an equation that every check of it lets through."""
    points: list[Point] = [point for point in POINTS if point.equation == key]
    plots = saboteurs(key)
    numbers = [
        {name: evaluate(default) for name, default in parameters(key).items() if default and name not in point.operands}
        | dict(point.operands)
        for point in points
    ]
    found = evaluate_all((text, given) for text in plots.values() for given in numbers)
    of_each = [found[at : at + len(points)] for at in range(0, len(found), len(points))]
    return {
        done
        for done, values in zip(plots, of_each, strict=True)
        if all(point.met_by(value) for point, value in zip(points, values, strict=True))
    }


@pytest.mark.parametrize("key", EQUATIONS)
def test_checks_notice_every_saboteur(key):
    """Each number x 1.01 and each swapped operator breaks at least one check of the equation."""
    assert unnoticed(key) == {done for equation_key, done in UNSEEN if equation_key == key}


def test_there_are_saboteurs():
    """The sabotage would be easy to pass without any."""
    assert sum(len(saboteurs(key)) for key in EQUATIONS) > 250
    assert "15.7 -> 15.857 at 1" in saboteurs("metabolism.resting_oxygen")
