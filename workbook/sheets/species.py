"""Species: what is known of each kind of animal, as reported and as kept at home."""

from workbook.equations import mass, metabolism
from workbook.sheets.constants import EXPONENTS
from workbook.sheets.parameters import KEYS, PARAMETERS, RANGE_CHOICES
from workbook.sheets.ranges import ANIMAL, RECKONED, WRONG_WAY, beyond, low_above_high, own, reported, used
from workbook.sheets.species_choosing import CHOOSING, DERIVED
from workbook.sheets.species_shown import OFTEN, SHOWN
from workbook.sheets.wishes import BACKGROUND, COVER, FLOW, GROUND, LIGHT
from workbook.tables import (
    Computed,
    Flag,
    Look,
    Pulled,
    Said,
    Sheet,
    Table,
    Typed,
    choice,
    count,
    key,
    link,
    logic,
    number,
    text,
)
from workbook.tables.idioms import (
    POSITIVE,
    all_said,
    first_known,
    first_said,
    in_rows_with,
    joined,
    middle,
    position,
    sum_of_rows,
    within,
)
from workbook.tables.template import for_each, here, quoted, starred

COMPANY, PLACE = Look("Company", 9), Look("Place it likes", 10)
BREEDING, SURE = Look("Breeding", 12, "0.0"), Look("How sure", 15)

YES_NO = choice("yes", "no")
CONFIDENCE = choice("published", "common practice", "from memory")


def word(key_: str, label: str, look: Look, *choices: str, help: str = "") -> Typed:  # noqa: A002
    """A column with a few words to choose from."""
    return Typed(key_, label, choice(*choices), look=look, help=help)


NEEDED = (
    *("adult_length", "body_form", "group_min", "volume_min", "zone", "swim", "temper", "mouth_share"),
    *(f"{key_}_{end}" for key_ in KEYS for end in ("low", "high")),
)

FLAGS = (
    Flag(
        "wrong_way",
        "Range the wrong way round",
        seriousness="act",
        when='{reversed}<>""',
        why="its low end is above its high end: {reversed}",
        do="Swap the two numbers.",
    ),
    Flag(
        "do_not_meet",
        "Reported and own ranges do not meet",
        seriousness="watch",
        when='AND({apart}<>"",{reversed}="")',
        copes=True,
        why="both are to count, yet they share nothing: {apart}",
        do="Choose own or either if you trust what you see at home, reported if not.",
    ),
    Flag(
        "restricted",
        "Caution for this species",
        gathered=True,
        seriousness="note",
        when="{kept}>0",
        why="{caution}",
        do="See that your tank meets it; check local lists before you keep it or pass it on, never release it.",
    ),
    Flag(
        "not_known",
        "Data missing",
        seriousness="watch",
        when="{kept}>0",
        why="{kept} kept here, but unknown: {lacking}",
        do="Type what you know; until then this species is left out where it is needed.",
    ),
    Flag(
        "own_outside",
        "Own experience outside what is reported",
        gathered=True,
        seriousness="note",
        when='{beyond}<>""',
        why="kept well at {beyond}; what counts here: {counts_used}",
        do="Keep your note of it; for newly bought animals start inside the reported range and move slowly.",
    ),
)

SPECIES = Table(
    "species",
    title="Species",
    row_name=("species",),
    enough=OFTEN[:8],
    often=OFTEN,
    answers=SHOWN,
    grouped="group",
    purpose="The library: one row for each species. Add your own below.",
    columns=(
        Typed(
            "species",
            "Species",
            key(),
            required=True,
            look=Look("The animal", 24),
            help="The name by which the other sheets know it.",
        ),
        Typed("scientific", "Scientific name", text(), look=Look("The animal", 26)),
        word("kind", "Kind", Look("The animal", 8), "fish", "shrimp", "snail", "other"),
        Typed(
            "adult_length",
            "Adult length",
            number(0.3, 200),
            unit="cm",
            look=ANIMAL,
            help=(
                "Total length, nose to tip of tail, of a typical adult; "
                "of snails the shell, of crabs its width, of frogs without the legs."
            ),
        ),
        Typed("group_min", "Smallest group", count(1, 500), unit="1", look=Look("The animal", 9, "0")),
        Typed("group_best", "Best group", count(1, 1000), unit="1", look=Look("The animal", 8, "0")),
        Typed(
            "volume_min",
            "Smallest tank",
            number(1, 20000),
            unit="L",
            look=Look("The animal", 9, "0"),
            help="Net volume for the smallest group.",
        ),
        Typed("temper", "Temper 1 gentle to 5 hostile", count(1, 5), unit="1", look=Look("The animal", 10, "0")),
        *(used(p, end) for p in PARAMETERS for end in ("low", "high")),
        Computed(
            "adult_mass",
            "Adult mass",
            first_known("{mass_typed}", "{mass_by_form}", unit="g", test=POSITIVE),
            look=RECKONED,
            help="From length and body form: good to about a third, a factor of two for tiny fish.",
        ),
        Computed(
            "oxygen",
            "Oxygen draw of an adult",
            metabolism.routine_oxygen(
                resting=metabolism.resting_oxygen(mass="{adult_mass}", temperature="{mid_temperature}")
            ),
            look=RECKONED,
            help="Everyday activity, in the middle of its temperature range.",
        ),
        Computed(
            "kept",
            "Kept here",
            sum_of_rows("{livestock.species_row[]}", "{livestock.living[]}", "1"),
            look=Look("Reckoned", 8, "0"),
        ),
        Computed(
            "completeness",
            "Known of it",
            logic(
                "AVERAGE({ones_for_what_is_known})",
                "1",
                needs=("species",),
                ones_for_what_is_known=for_each(NEEDED, 'IF({*}="",0,1)'),
            ),
            look=Look("Reckoned", 8, "0%"),
        ),
        Said(look=Look("Reckoned", 66)),
        *(column for p in PARAMETERS for column in reported(p)),
        Typed(
            "counts",
            "Which range counts",
            choice(*RANGE_CHOICES),
            kept_in="own_ranges",
            look=Look("Own experience", 11),
            help=(
                "reported, own, both (where they meet) or either (the wider). Blank: the room's choice on Start. "
                "Where only one is known, that one counts."
            ),
        ),
        *(column for p in PARAMETERS for column in own(p)),
        Typed("own_note", "What you saw", text(), kept_in="own_ranges", look=Look("Own experience", 34)),
        Typed("body_form", "Body form", link("body_forms"), look=Look("Size", 15)),
        Typed(
            "mass_typed",
            "Weighed mass",
            number(0.0005, 20000),
            unit="g",
            look=Look("Size", 10, "0.00"),
            help="Only if weighed; it overrides the estimate.",
        ),
        Typed("factor_own", "Own mass factor", number(0.0001, 1), unit="g", look=Look("Size", 10, "0.00000")),
        Typed("exponent_own", "Own mass exponent", number(*EXPONENTS), unit="1", look=Look("Size", 10, "0.00")),
        Typed(
            "length_min",
            "Shortest tank",
            number(5, 1000),
            unit="cm",
            look=Look("Size", 9, "0"),
            help="Blank: reckoned from adult length and swimming.",
        ),
        Typed("lifespan_low", "Lives from", number(0.1, 150), unit="year", look=Look("Size", 8, "0.#")),
        Typed("lifespan_high", "to", number(0.1, 150), unit="year", look=Look("Size", 8, "0.#")),
        word("zone", "Zone", COMPANY, "top", "middle", "bottom", "all"),
        word("swim", "Swimming", COMPANY, "active", "calm", "sedentary"),
        word(
            "bottom_room",
            "Bottom room",
            Look("Company", 12),
            "no",
            "social",
            "holds ground",
            help="For bottom dwellers: social, or holding ground of their own.",
        ),
        Typed("bites_fins", "Bites fins", YES_NO, look=COMPANY),
        Typed("long_fins", "Long fins", YES_NO, look=COMPANY),
        Typed(
            "mouth_share",
            "Swallows, share of own length",
            number(0, 0.8),
            unit="1",
            look=Look("Company", 10, "0.00"),
            help="0.10 micro-feeders, 0.20 small mouths, 0.33 usual, 0.50 gulpers.",
        ),
        word("eats_shrimp", "Eats shrimp", COMPANY, "no", "young", "yes"),
        Typed("eats_snails", "Eats snails", YES_NO, look=COMPANY),
        Typed("eats_plants", "Eats plants", YES_NO, look=COMPANY),
        word("light", "Light", PLACE, *LIGHT.choices),
        word("cover", "Cover", PLACE, *COVER.choices),
        word("ground", "Ground", PLACE, *GROUND.choices),
        word("background", "Background", PLACE, *BACKGROUND.choices),
        word("flow", "Flow", PLACE, *FLOW.choices),
        word(
            "colour_group",
            "Colour",
            PLACE,
            "red",
            "orange",
            "yellow",
            "green",
            "blue",
            "silver",
            "black",
            "brown",
            "white",
            "mixed",
            "clear",
        ),
        word(
            "diet",
            "Diet",
            Look("Place it likes", 15),
            "omnivore",
            "carnivore",
            "herbivore",
            "micropredator",
            "algae grazer",
            "detritus grazer",
        ),
        Typed(
            "food_size", "Largest food particle", number(0.02, 100), unit="mm", look=Look("Place it likes", 9, "0.0#")
        ),
        word(
            "spawning",
            "Spawning",
            BREEDING,
            "egg scatterer",
            "plant layer",
            "cave layer",
            "flat layer",
            "bubble nest",
            "mouthbrooder",
            "livebearer",
            "egg carrier",
            "annual",
            "other",
        ),
        Typed("eats_own_eggs", "Eats its eggs or young", YES_NO, look=BREEDING),
        Typed("hatch_temperature", "Days hold at", number(0, 40), unit="degC", look=BREEDING),
        Typed("days_to_hatch", "Days to hatch", number(0, 400), unit="day", look=BREEDING),
        Typed("days_to_swim", "Days to swim free", number(0, 100), unit="day", look=BREEDING),
        word("first_food", "First food", BREEDING, "infusoria", "nauplii", "fine dust", "algae film", "as adults"),
        *CHOOSING,
        Typed("confidence_size", "Size", CONFIDENCE, look=SURE),
        Typed("confidence_water", "Water", CONFIDENCE, look=SURE),
        Typed("confidence_keeping", "Keeping", CONFIDENCE, look=SURE),
        Typed("confidence_breeding", "Breeding", CONFIDENCE, look=SURE),
        Typed("source", "Source", text(), look=Look("How sure", 34)),
        Typed("caution", "Caution", text(), look=Look("How sure", 44)),
        Pulled("form_factor", via="body_form", of="mass_factor", label="Factor of its form"),
        Pulled("form_exponent", via="body_form", of="mass_exponent", label="Exponent of its form"),
        Computed(
            "mass_factor",
            "Factor reckoned with",
            first_known("{factor_own}", "{form_factor}", unit="g", test=POSITIVE),
            look=Look(working=True, show="0.00000"),
        ),
        Computed(
            "mass_exponent",
            "Exponent reckoned with",
            first_known("{exponent_own}", "{form_exponent}", unit="1", test=within(EXPONENTS)),
            look=Look(working=True, show="0.00"),
        ),
        Computed(
            "mass_by_form",
            "Mass by form",
            mass.from_length(length="{adult_length}", factor="{mass_factor}", exponent="{mass_exponent}"),
            look=Look(working=True, show="0.000"),
        ),
        Computed(
            "mid_temperature",
            "Middle of its temperatures",
            middle("{used_temperature_low}", "{used_temperature_high}", "degC"),
            look=Look(working=True, show="0.0"),
        ),
        Computed(
            "counts_used",
            "Range that counts",
            in_rows_with("species", first_said("{counts}", "{settings.range_choice}", '"reported"')),
            kind=text(),
            look=Look(working=True, width=11),
        ),
        Computed(
            "counts_no",
            "Its number",
            in_rows_with("species", position("{counts_used}", RANGE_CHOICES, otherwise="1")),
            look=Look(working=True, show="0"),
        ),
        *(beyond(p) for p in PARAMETERS),
        Computed(
            "beyond",
            "Own experience beyond",
            all_said([here(f"{key_}_beyond") for key_ in KEYS], "; "),
            kind=text(),
            look=Look(working=True, width=20),
        ),
        Computed(
            "reversed",
            "Ranges the wrong way round",
            joined(*(t for p in PARAMETERS for t in low_above_high(p)), between=", "),
            kind=text(),
            look=Look(working=True, width=20),
        ),
        Computed(
            "apart",
            "Used ranges that do not meet",
            joined(*((starred(WRONG_WAY, f"used_{p.key}"), quoted(p.label)) for p in PARAMETERS), between=", "),
            kind=text(),
            look=Look(working=True, width=20),
        ),
        Computed(
            "lacking",
            "Still unknown",
            in_rows_with(
                "species",
                joined(
                    ('{adult_length}=""', '"adult length"'),
                    ('AND({mass_typed}="",OR({mass_factor}="",{mass_exponent}=""))', '"body form"'),
                    ('{group_min}=""', '"smallest group"'),
                    ('{volume_min}=""', '"smallest tank"'),
                    ('{temper}=""', '"temper"'),
                    ('{mouth_share}=""', '"what it can swallow"'),
                    *((p.filled("COUNT({used_*_low},{used_*_high})<2"), quoted(f"{p.word} range")) for p in PARAMETERS),
                    between=", ",
                ),
            ),
            kind=text(),
            look=Look(working=True, width=20),
        ),
        *DERIVED,
        *FLAGS,
    ),
)

SHEET = Sheet(
    "Species",
    role="input",
    blocks=(SPECIES,),
    frozen_columns=1,
    purpose=(
        "What each species wants and does, as reported; "
        "beside it what you have seen yourself, and which of the two counts."
    ),
    notes=("Lengths are total lengths. Ranges in use follow the switch 'Which range counts', or the choice on Start.",),
)
