"""Sources: every equation with its units and origin, every reference, and a self-test of published values."""

from workbook.equations import conversions, feeding, gases, geometry, mass, metabolism, nitrogen
from workbook.tables import Computed, Look, Sheet, Table, Typed, count, logic, number, text
from workbook.tables.template import for_each

# Each is reckoned by the real equation from plain numbers; checks.csv holds what the source says, in this order.
VALUES = {
    "ammonia_kilogram": nitrogen.ammonia_from_food(food="1000", protein="0.35", yield_="0.092"),
    "saturation_15": gases.oxygen_saturation(temperature="15"),
    "saturation_25": gases.oxygen_saturation(temperature="25"),
    "saturation_30": gases.oxygen_saturation(temperature="30"),
    "pressure_1000": gases.pressure(altitude="1000"),
    "resting_1_20": metabolism.resting_oxygen(mass="1", temperature="20"),
    "resting_50_25": metabolism.resting_oxygen(mass="50", temperature="25"),
    "mass_10": mass.from_length(length="10", factor="0.01122", exponent="3.04"),
    "bow": geometry.bow_segment(radius=geometry.bow_radius(chord="90", bow="10"), bow="10"),
    "cylinder": geometry.volume(area=geometry.cylinder_area(diameter="40"), height="50"),
    "steady": nitrogen.level_before_change(rise="12.83", share="0.25", source="5"),
    "needed": nitrogen.change_needed(rise="12.83", target="40", source="5"),
    "nitrification": nitrogen.nitrification_oxygen(ammonia="0.0414"),
    "gallon": conversions.litre_to_gallon(value="75.70823568"),
    "fahrenheit": conversions.celsius_to_fahrenheit(value="26"),
    "as_fed": feeding.as_fed(dry="1", dry_matter="0.2"),
}

CHECK_VALUES = Table(
    "check_values",
    title="Reckoned by the program you have open",
    form=True,
    row_name=("gallon",),
    purpose="",
    columns=tuple(
        Computed(key, key.replace("_", " ").capitalize(), formula, look=Look(show="0.0000"))
        for key, formula in VALUES.items()
    ),
)

CHECKS = Table(
    "checks",
    title="Self-test",
    given=True,
    row_name=("number",),
    purpose="Published values, and what the program you have open makes of them.",
    columns=(
        Typed("number", "No.", count(1, 99), locked=True, look=Look("Self-test", 34, "0")),
        Typed("says", "What", text(), locked=True, look=Look("Self-test", 46)),
        Typed("expected", "Published", number(), locked=True, look=Look("Self-test", 14, "0.0000")),
        Computed(
            "here",
            "Here",
            logic("CHOOSE({number},{check_values})", check_values=for_each(VALUES, "{check_values.*}")),
            look=Look("Self-test", 14, "0.0000"),
        ),
        Typed("tolerance", "May differ by", number(), locked=True, look=Look("Self-test", 11, "0.0000")),
        Computed(
            "holds", "Holds", logic("IF(ABS({here}-{expected})<={tolerance},1,0)", "1"), look=Look("Self-test", 8, "0")
        ),
        Computed(
            "verdict",
            "Verdict",
            logic('IF({holds}=1,"right","▲ differs")'),
            kind=text(),
            look=Look("Self-test", 11, status=True),
        ),
        Typed("check_source", "Source", text(), locked=True, look=Look("Self-test", 58)),
    ),
)

CHECK_SUMMARY = Table(
    "check_summary",
    title="Self-test",
    form=True,
    row_name=("held",),
    purpose="",
    columns=(
        Computed(
            "held", "Published values that come out right", logic("SUM({checks.holds[]})", "1"), look=Look(show="0")
        ),
        Computed("of", "of", logic("ROWS({checks.number[]})", "1"), look=Look(show="0")),
    ),
)

EQUATIONS = Table(
    "equations",
    title="Equations",
    given=True,
    row_name=("equation",),
    purpose="Every equation the sheets use.",
    columns=(
        Typed("equation", "Equation", text(), locked=True, look=Look("Equations", 34)),
        Typed("summary", "What it gives", text(), locked=True, look=Look("Equations", 46)),
        Typed("form", "Form", text(), locked=True, look=Look("Equations", 52)),
        Typed("operands", "Operands, units, where it holds", text(), locked=True, look=Look("Equations", 70)),
        Typed("equation_source", "Source", text(), locked=True, look=Look("Equations", 40)),
    ),
)

REFERENCES = Table(
    "references",
    title="References",
    given=True,
    row_name=("key",),
    purpose="Where it comes from, and how far it was checked.",
    columns=(
        Typed("key", "Key", text(), locked=True, look=Look("References", 22)),
        Typed("citation", "Citation", text(), locked=True, look=Look("References", 76)),
        Typed("seen", "How far checked", text(), locked=True, look=Look("References", 56)),
    ),
)

SHEET = Sheet(
    "Sources",
    role="reference",
    blocks=(CHECKS, EQUATIONS, REFERENCES),
    forms=(CHECK_SUMMARY, CHECK_VALUES),
    frozen_head=False,
    frozen_columns=0,
    on_paper=False,  # equations are read beside the cells that they explain; How this workbook thinks is its page
    purpose="Where every number comes from, and a test that the program you have open reckons as it should.",
)
