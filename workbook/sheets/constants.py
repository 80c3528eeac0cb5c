"""Constants: every number that a person could doubt, with unit, source and what follows from it."""

from workbook.tables import Flag, Look, Said, Sheet, Table, Typed, key, number, text

CONSTANTS = Table(
    "constants",
    title="Constants",
    given=True,
    names_from="value",
    row_name=("label",),
    purpose="Change a value and everything that uses it follows.",
    columns=(
        Typed("label", "What it is", text(), locked=True, look=Look(width=50)),
        Typed("value", "Value", number(-1e9, 1e9), look=Look(width=12, show="0.######")),
        Typed("unit", "Unit", text(), locked=True, look=Look(width=14)),
        Said(look=Look(width=34)),
        Typed("changes", "What follows from it", text(), locked=True, look=Look(width=40)),
        Typed("confidence", "How sure", text(), locked=True, look=Look(width=17)),
        Typed("source", "Source", text(), locked=True, look=Look(width=20)),
        Typed("low", "Sensible from", number(), locked=True, look=Look(width=10, show="0.####")),
        Typed("high", "to", number(), locked=True, look=Look(width=10, show="0.####")),
        Typed("key", "Name in formulas: const_", text(), locked=True, look=Look(width=26)),
        Flag(
            "no_value",
            "Constant empty",
            seriousness="act",
            copes=True,
            when='{value}=""',
            why="'{label}' has no value, so everything that uses it is blank",
            do="Type a value; the sensible range stands beside it.",
        ),
        Flag(
            "odd_value",
            "Constant out of the ordinary",
            seriousness="watch",
            when="OR({value}<{low},{value}>{high})",
            why="'{label}' lies outside what is sensible",
            do="Check the unit; keep it if you know better.",
        ),
    ),
)

# No animal grows slimmer or stouter than this with its length; 3 would keep its form.
EXPONENTS = (2, 4)

BODY_FORMS = Table(
    "body_forms",
    title="Body forms",
    given=True,
    row_name=("form",),
    purpose="Mass = factor x length ^ exponent, in g and cm of total length.",
    columns=(
        Typed("form", "Body form", key(), locked=True, look=Look(width=16)),
        Typed("mass_factor", "Mass factor", number(0.0001, 1), unit="g", look=Look(width=10, show="0.00000")),
        Typed("mass_exponent", "Mass exponent", number(*EXPONENTS), unit="1", look=Look(width=10, show="0.00")),
        Typed("form_source", "Source", text(), locked=True, look=Look(width=34)),
    ),
)

HEATER_SIZES = Table(
    "heater_sizes",
    title="Heater sizes",
    given=True,
    row_name=("heater_power",),
    purpose="Sizes commonly sold, smallest first.",
    columns=(Typed("heater_power", "Heater", number(1, 5000), unit="W", look=Look(width=9, show="0")),),
)

SHEET = Sheet(
    "Constants",
    role="reference",
    blocks=(CONSTANTS, BODY_FORMS, HEATER_SIZES),
    on_paper=False,  # looked up and changed on the screen; what they lead to is printed with the answers
    frozen_columns=0,
    purpose="Numbers that the sheets reckon with. Each is yours to change; the sheets follow at once.",
    notes=(
        (
            "Marks of certainty: published = a paper or standard; "
            "common practice = what keepers do, no published source; from memory = not looked up."
        ),
    ),
)
