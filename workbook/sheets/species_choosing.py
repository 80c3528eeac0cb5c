"""Columns of Species by which keepers choose: relatives, home, part in a tank, hours, ease, how often offered."""

from workbook.sheets.groups import GROUP
from workbook.tables import Computed, Look, Typed, choice, logic, text

KIN, PART = Look("Relatives", 16), Look("Its part in a tank", 11)
ROLES = ("shoal", "show", "ground", "surface", "algae", "leftovers", "snails", "hunter")
HOURS = ("day", "night", "both")
EASES = ("easy", "medium", "demanding")
HOMES = (
    *("South America", "Central America", "North America", "Africa", "rift lakes"),
    *("South Asia", "Southeast Asia", "East Asia", "Australasia", "Europe"),
)
OFFERED = ("often", "sometimes", "rarely")

CHOOSING = (
    Typed(
        "family",
        "Family",
        text(),
        look=KIN,
        help="As in Eschmeyer's Catalog of Fishes and WoRMS, from memory; the genus is in the scientific name.",
    ),
    Typed("taxon_order", "Order", text(), look=KIN, help="Blank where taxonomists leave it open."),
    Typed("home", "Home", choice(*HOMES), look=KIN, help="Where its kind comes from; blank for what people bred."),
    Typed(
        "role",
        "Role",
        choice(*ROLES),
        look=PART,
        help=(
            "What people keep it for: a shoal, a show of its own, the ground, the surface, algae, leftovers, "
            "against snails; hunter: what eats other animals."
        ),
    ),
    Typed("active_at", "Active at", choice(*HOURS), look=PART),
    Typed(
        "spreads",
        "Breeds without end",
        choice("yes", "no"),
        look=PART,
        help="yes: comes with plants or breeds without end; it never leads a list of candidates.",
    ),
    Typed("ease", "Ease", choice(*EASES), look=PART, help="For somebody with a tank that runs well."),
    Typed("offered", "Offered", choice(*OFFERED), look=PART, help="How often the trade has it; differs by country."),
)

GENUS = Computed(
    "genus",
    "Genus",
    logic('IF({scientific}="","",LEFT({scientific},SEARCH(" ",{scientific}&" ")-1))', copes=True),
    kind=text(),
    look=Look(working=True, width=16),
    help="The first word of its scientific name.",
)

# What follows from what is known of its relatives.
DERIVED = (GENUS, GROUP)
