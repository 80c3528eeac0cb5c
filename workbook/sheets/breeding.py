"""Breeding: what was spawned or born, when each stage comes, what to do next, and how many are likely to be raised."""

from dataclasses import replace

from workbook.equations import brine, rearing
from workbook.sheets import broods
from workbook.sheets.breeding_flags import FLAGS
from workbook.sheets.breeding_jobs import JOBS
from workbook.sheets.breeding_workings import STEPS_BETWEEN
from workbook.sheets.brood_steps import (
    CARE,
    DATES,
    EVENT,
    FIRST_FOOD,
    GROWN,
    MANY,
    NEXT,
    ON_FOOD_OF_ITS_OWN,
    OWN,
    SECOND_FOOD,
    STEPS,
    YES_NO,
    day_after,
    picked,
)
from workbook.sheets.groups import offer
from workbook.sheets.so_far import running_list
from workbook.tables import Charts, Computed, Look, Said, Sheet, Table, Typed, count, date, link, logic, number, text
from workbook.tables.completing import ARROW
from workbook.tables.formula import filled
from workbook.tables.idioms import between, first_known, in_rows_with, joined, only_if
from workbook.tables.template import for_each, here, quoted, starred

TYPED = (
    Typed("species", "Species", link("species"), required=True, look=Look("The event", 22)),
    Typed("tank", "Tank it happened in", link("tanks"), required=True, look=Look("The event", 18)),
    Typed(
        "date",
        "Spawned or born on",
        date(),
        required=True,
        look=Look("The event", 11),
        help="A day to come for a spawning that you plan.",
    ),
    Typed(
        "eggs",
        "Eggs or young",
        count(0, 1_000_000),
        unit="1",
        look=EVENT,
        help="As counted or guessed; blank where unknown.",
    ),
    Typed(
        "water_temperature",
        "Water temperature",
        number(0, 40),
        unit="degC",
        look=Look("The event", 12, "0.0"),
        help="Of the eggs; blank: the tank's.",
    ),
    Typed(
        "adults_out",
        "Adults out",
        YES_NO,
        look=Look("The event", 8),
        help="yes once those that would eat eggs or young are out.",
    ),
    Typed("adults_out_on", "Out on", date(), look=Look("The event", 11), help="Counts like a yes from that day on."),
    Typed("grow_tank", "Growing-on tank", link("tanks"), look=Look("The event", 18)),
    Typed(
        "fry_counted",
        "Young counted",
        count(0, 1_000_000),
        unit="1",
        look=Look("The event", 9, "0"),
        help="The newest count; 0 when none is left: then nothing more is planned.",
    ),
    Typed("counted_on", "Counted on", date(), look=Look("The event", 11)),
    Typed(
        "done_to",
        "Steps done up to",
        date(),
        look=Look("The event", 11),
        help="Steps of this day and before are ticked off.",
    ),
)

ANSWERS = (
    Computed(
        "next_on",
        "Next on",
        logic(
            'IF(COUNT({days_left})=0,"",MIN({days_left}))',
            "date",
            needs=("species",),
            days_left=for_each((step for step, *_ in STEPS), "{left_*}"),
        ),
        kind=date(),
        look=NEXT,
    ),
    Computed(
        "next_do",
        "What to do",
        in_rows_with("next_on", joined(*((starred("{left_*}={next_on}", step), words) for step, _, words, _ in STEPS))),
        kind=text(),
        look=Look(NEXT.group, 46),
    ),
    Said(look=Look("What it asks for", 66)),
    Computed("care", "Its way", picked("{way}", CARE), kind=text(), look=Look("What it asks for", 46)),
    Computed(
        "hatch_on",
        "Hatching",
        day_after("{date}", "{hatch_days}"),
        kind=date(),
        look=DATES,
        help="The first day on which to look; the day of birth for young that are born.",
    ),
    Computed(
        "swim_on",
        "Swimming free",
        day_after("{date}", "({hatch_days}+{swim_days})"),
        kind=date(),
        look=DATES,
        help="First food from this day on.",
    ),
    Computed("first_food_is", "First food", picked("{food_no}", FIRST_FOOD), kind=text(), look=Look(DATES.group, 22)),
    Computed(
        "infusoria_on",
        "Start infusoria",
        logic('IF({food_no}=1,INT(ROUND({swim_on}-{const.infusoria_lead},6)),"")', "date"),
        kind=date(),
        look=DATES,
        help="Only for mouths too small for nauplii.",
    ),
    Computed(
        "second_on",
        "Second food on",
        only_if(
            ON_FOOD_OF_ITS_OWN,
            day_after("{swim_on}", "IF({food_no}=1,{const.infusoria_days},{const.second_food_days})"),
        ),
        kind=date(),
        look=DATES,
    ),
    Computed(
        "second_food_is",
        "Second food",
        only_if(ON_FOOD_OF_ITS_OWN, picked("{food_no}", SECOND_FOOD)),
        kind=text(),
        look=Look(DATES.group, 22),
    ),
    Computed(
        "adults_on",
        "Adults out on",
        logic(
            'IF({eats_own_eggs}="yes",{date},IF(OR({spawning}="bubble nest",{spawning}="mouthbrooder"),{swim_on},""))',
            "date",
            needs=("date", "species_row"),
        ),
        kind=date(),
        look=DATES,
        help="Blank where they stay with their brood.",
    ),
    Computed(
        "move_on",
        "Move on",
        only_if('AND({grow_tank}<>"",{grow_tank}<>{tank})', day_after("{swim_on}", "{const.move_days}")),
        kind=date(),
        look=DATES,
        help="To the growing-on tank.",
    ),
    Computed(
        "sale_on",
        "To part with",
        day_after("{swim_on}", "{growth_days}"),
        kind=date(),
        look=DATES,
        help="When they have the length to part with; food, room and warmth move it a lot.",
    ),
    Computed(
        "sale_early",
        "at the earliest",
        day_after("{swim_on}", "{growth_days}/{const.growth_spread}"),
        kind=date(),
        look=DATES,
    ),
    Computed(
        "sale_late",
        "at the latest",
        day_after("{swim_on}", "{growth_days}*{const.growth_spread}"),
        kind=date(),
        look=DATES,
    ),
    Computed("hatched", "Hatch", logic("IF({born}=1,{eggs},{eggs}*{hatched_used})", "1"), look=MANY),
    Computed("swimming", "Swim", logic("IF({born}=1,{eggs},{hatched}*{swimming_used})", "1"), look=MANY),
    Computed(
        "fry",
        "Reckoned with",
        first_known("{fry_counted}", "{swimming}", unit="1"),
        look=MANY,
        help="The count, or else what is reckoned to swim.",
    ),
    Computed(
        "raised",
        "Raised",
        logic("{fry}*{raised_used}", "1"),
        look=MANY,
        help="A late count is on the safe side: its losses are behind it.",
    ),
    Computed(
        "survived",
        "Counted of the eggs",
        only_if("{eggs}>0", logic("{fry_counted}/{eggs}", "1")),
        look=Look(MANY.group, 9, "0%"),
    ),
    Computed(
        "litres_day",
        "Water to change a day",
        logic("{home_volume}*{const.fry_change_share}", "L"),
        look=GROWN,
        help="For young, of the tank they are in: the growing-on tank once the move is ticked off.",
    ),
    Computed(
        "grow_wanted",
        "Growing-on tank wanted",
        rearing.room_for_young(young="{raised}", length="{sale_length_used}"),
        look=Look(GROWN.group, 10, "0"),
        help="For those raised, at the length to part with.",
    ),
    Computed(
        "nauplii_day",
        "Nauplii a day",
        replace(
            brine.nauplii_of_fry(fry="{fry}", each="{each_used}", meals="{meals_used}"),
            needs=("nauplii_from", "fry", "each_used", "meals_used"),
        ),
        look=Look(GROWN.group, 10, "0"),
    ),
    Computed(
        "nauplii_from",
        "from",
        logic(
            'IF({first_food}="infusoria",{second_on},'
            'IF(OR({first_food}="nauplii",{first_food}="fine dust"),{swim_on},""))',
            "date",
            needs=("food_no", "swim_on"),
        ),
        kind=date(),
        look=Look(GROWN.group, 11),
    ),
    Computed(
        "nauplii_until",
        "until before",
        logic("{nauplii_from}+{const.nauplii_days}", "date"),
        kind=date(),
        look=Look(GROWN.group, 11),
    ),
)

FIGURES = (
    Typed(
        "hatched_share",
        "Share that hatches",
        number(0, 1),
        unit="1",
        look=OWN,
        help="Blank: the constant, for planning only.",
    ),
    Typed("swimming_share", "of these swim", number(0, 1), unit="1", look=OWN, help="Blank: the constant."),
    Typed("raised_share", "of these are raised", number(0, 1), unit="1", look=OWN, help="Blank: the constant."),
    Typed(
        "sale_length",
        "Length to part with",
        number(0.2, 200),
        unit="cm",
        look=Look(OWN.group, 10, "0.0"),
        help="Blank: a share of the adult length, see Constants.",
    ),
    Typed(
        "fry_meals",
        "Meals a day",
        count(1, 24),
        unit="1/day",
        look=Look(OWN.group, 8, "0"),
        help="Blank: the constant.",
    ),
    Typed(
        "nauplii_each",
        "Nauplii each a meal",
        number(1, 10_000),
        unit="1",
        look=Look(OWN.group, 10, "0"),
        help="Blank: the constant.",
    ),
    Typed("breeding_note", "Note", text(), look=Look("Note", 36)),
)

ROOM_WHY = Computed(
    "room_why",
    "What is wrong with its room",
    joined(
        *(
            (filled('{flag}<>""', flag=here(key)), between(here(key), ": ", ARROW))
            for key in ("grow_small", "grow_occupied", "no_grow_tank")
        ),
        between=", ",
    ),
    kind=text(),
    look=Look(working=True, width=18),
)
WAITING = (
    *running_list(
        "late_broods",
        "Waiting so far",
        'AND({late_step}&{infusoria_due}&{will_eat}<>"",{eggs_at_risk}="")',
        '{row_label}&": "&IF({will_eat}="",{next_do},{ready})',
        ready=quoted("ready mesh, moss or a second tank before it"),
    ),
    *running_list(
        "rearing",
        "Without room so far",
        '{grow_small}&{grow_occupied}&{no_grow_tank}<>""',
        '{row_label}&": "&{room_why}',
    ),
)


BREEDING = Table(
    "breeding",
    example={"species": "Bronze corydoras", "tank": "Window tank", "date": "2026-03-31", "eggs": 120},
    title="Breeding",
    row_name=("species", "date"),
    often=(
        "species",
        "tank",
        "date",
        "eggs",
        "adults_out",
        "adults_out_on",
        "grow_tank",
        "fry_counted",
        "counted_on",
        "done_to",
        "breeding_note",
    ),
    first="next_on",
    answers=(
        "next_do",
        "care",
        "hatch_on",
        "swim_on",
        "first_food_is",
        "second_on",
        "move_on",
        "sale_on",
        "fry",
        "raised",
        "litres_day",
        "nauplii_day",
    ),
    purpose="One row for each spawning or birth, planned ones too.",
    columns=(*TYPED, *ANSWERS, *FIGURES, *STEPS_BETWEEN, *FLAGS, ROOM_WHY, *WAITING),
)

SHEET = Sheet(
    "Breeding",
    role="input",
    blocks=(BREEDING, Charts("brood_charts", (broods.CHART,), columns=15, across=1), JOBS, broods.BARS),
    forms=(offer("breeding"),),
    frozen_columns=1,
    purpose=(
        "Spawnings and births: when eggs hatch and young swim, what they eat first and next, who must go out, "
        "when they are large enough to part with."
    ),
    notes=(
        (
            "Dates follow the water's temperature and are planning estimates: look at the brood. "
            "Survival is a share to plan with until you count."
        ),
        (
            "Never release animals; check local law before you breed or pass on. Illness, fungus and medicines: "
            "a veterinarian and the label. Wash hands after eggs, peat and live food."
        ),
    ),
)
