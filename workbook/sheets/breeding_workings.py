"""What the answers of Breeding follow from: traits, constants, what is still to do, and the jobs of the week."""

from workbook.equations import rearing
from workbook.sheets.brood_steps import (
    COUNT,
    DAILY,
    DAY,
    FOODS,
    HIDDEN,
    SEPARATOR,
    STEPS,
    WAYS,
    WORDS,
    in_week,
    left,
    stage,
)
from workbook.tables import Computed, Look, Pulled, date, logic, text
from workbook.tables.idioms import cell_of, first_known, in_rows_with, only_if, pieces, position
from workbook.tables.template import here, of


def used(key_: str, typed: str, label: str, const: str, unit: str, show: str = "0%") -> Computed:
    """What is typed, or else the constant."""
    return Computed(
        f"{key_}_used",
        f"{label} reckoned with",
        in_rows_with("species", first_known(here(typed), of("const", const), unit=unit)),
        look=Look(working=True, show=show),
    )


STEPS_BETWEEN: tuple[Pulled | Computed, ...] = (
    *(
        Pulled(key_, via="species")
        for key_ in (
            "spawning",
            "eats_own_eggs",
            "hatch_temperature",
            "days_to_hatch",
            "days_to_swim",
            "first_food",
            "adult_length",
        )
    ),
    Pulled("temperature_low", via="species", of="used_temperature_low"),
    Pulled("temperature_high", via="species", of="used_temperature_high"),
    Pulled("tank_temperature", via="tank", of="temperature", label="Tank's temperature"),
    Pulled("tank_volume", via="tank", of="net_volume", label="Tank's net volume"),
    Pulled("grow_volume", via="grow_tank", of="net_volume", label="Growing-on volume"),
    Pulled("grow_animals", via="grow_tank", of="animals", label="Animals in it"),
    Computed("way", "Number of its way", position("{spawning}", WAYS), look=COUNT),
    Computed("food_no", "Number of its first food", position("{first_food}", FOODS), look=COUNT),
    Computed("guards", "Guards its brood", logic("CHOOSE({way},0,0,1,1,1,1,0,0,0,0)", "1"), look=COUNT),
    Computed(
        "born", "Born, not hatched", logic('IF({spawning}="livebearer",1,0)', "1", needs=("species_row",)), look=COUNT
    ),
    Computed(
        "temperature",
        "Temperature reckoned with",
        first_known("{water_temperature}", "{tank_temperature}", unit="degC"),
        look=HIDDEN,
    ),
    Computed(
        "pace",
        "Times as long as the days known",
        only_if(
            "AND({temperature}>{const.hatch_zero},{hatch_temperature}>{const.hatch_zero})",
            rearing.pace(temperature="{temperature}", reference="{hatch_temperature}"),
        ),
        look=HIDDEN,
    ),
    Computed("hatch_days", "Days to hatch here", stage("days_to_hatch"), look=HIDDEN),
    Computed("swim_days", "Days to swim here", stage("days_to_swim"), look=HIDDEN),
    used("hatched", "hatched_share", "Share that hatches", "egg_survival", "1"),
    used("swimming", "swimming_share", "Share that swims", "larva_survival", "1"),
    used("raised", "raised_share", "Share raised", "fry_survival", "1"),
    used("meals", "fry_meals", "Meals a day", "fry_meals", "1/day", "0"),
    used("each", "nauplii_each", "Nauplii each a meal", "fry_nauplii", "1", "0"),
    Computed(
        "sale_length_used",
        "Length to part with",
        logic(
            "IF(COUNT({sale_length})=1,{sale_length},{const.sale_share}*{adult_length})",
            "cm",
            needs=("adult_length", "const.sale_share"),
        ),
        look=HIDDEN,
    ),
    Computed(
        "growth_days",
        "Days of growth",
        only_if(
            "AND({sale_length_used}<{adult_length},{sale_length_used}>{const.fry_length})",
            rearing.days_to_length(length="{sale_length_used}", adult="{adult_length}"),
        ),
        look=HIDDEN,
    ),
    Computed(
        "out",
        "Adults are out",
        logic(
            'IF(OR({adults_out}="yes",AND(COUNT({adults_out_on})=1,SUM({adults_out_on})<={settings.plan_date})),1,0)',
            "1",
            needs=("species", "settings.plan_date"),
        ),
        look=COUNT,
    ),
    Computed(
        "going",
        "Still going on",
        in_rows_with("species", logic("IF(AND(COUNT({fry})=1,SUM({fry})=0),0,1)", "1")),
        look=COUNT,
    ),
    Computed(
        "done",
        "Done up to",
        logic("IF(COUNT({done_to})=1,{done_to},{date}-10^3)", "date", needs=("species", "date")),
        kind=date(),
        look=DAY,
        help="Long before it, where nothing is ticked off.",
    ),
    Computed(
        "adults_do",
        "What to do about the adults",
        logic(
            '_xlfn.SWITCH({spawning}&"","bubble nest","take the male out as well",'
            '"mouthbrooder","take the mother out, let her feed up",'
            'IF({born}=1,"part the young from the adults","take the adults out"))',
            needs=("born",),
        ),
        kind=text(),
        look=WORDS,
    ),
    Computed(
        "hatch_do",
        "What to do at hatching",
        logic(
            'IF({spawning}="mouthbrooder","hatching in the mouth: leave her in peace",'
            'IF({eats_own_eggs}="no","look for hatching, leave whoever guards to it",'
            '"look for hatching, take white eggs out"))',
            needs=("species_row",),
        ),
        kind=text(),
        look=WORDS,
    ),
    Computed("what", "What is eaten", logic('IF({born}=1,"young","eggs and young")'), kind=text(), look=WORDS),
    Computed(
        "risk_until",
        "In danger until",
        logic("MAX(SUM({swim_on}),{date}+{const.egg_risk_days})", "date", needs=("date", "const.egg_risk_days")),
        kind=date(),
        look=DAY,
    ),
    Computed(
        "fry_row",
        "Row of the tank of the young",
        logic(
            "IF(AND(COUNT({move_on},{grow_tank_row})=2,{done}>=SUM({move_on})),{grow_tank_row},{tank_row})",
            "1",
            needs=("done",),
        ),
        look=COUNT,
    ),
    Computed("home", "Tank of the young", cell_of("{tanks.tank[]}", "{fry_row}"), kind=text(), look=WORDS),
    Computed("home_volume", "Its net volume", cell_of("{tanks.net_volume[]}", "{fry_row}", "L"), look=HIDDEN),
    Computed(
        "nauplii_now",
        "Nauplii today",
        logic(
            "IF(AND({going}=1,{settings.plan_date}>={nauplii_from},{settings.plan_date}<{nauplii_until}),"
            "{nauplii_day},0)",
            "1/day",
        ),
        look=COUNT,
    ),
    *(left(step, day, still) for step, day, _, still in STEPS),
    Computed(
        "daily_from",
        "Daily care from",
        only_if(
            "AND({going}=1,{settings.plan_date}<{sale_early})", logic("MAX({swim_on},{settings.plan_date})", "date")
        ),
        kind=date(),
        look=DAY,
    ),
    Computed("week_end", "Day after the week", logic("{settings.plan_date}+7", "date"), kind=date(), look=DAY),
    Computed(
        "jobs_said", "Jobs of the week", in_week([words for _, _, words, _ in STEPS], DAILY), kind=text(), look=WORDS
    ),
    Computed(
        "jobs_on",
        "Their days",
        in_week([here(f"left_{step}") for step, *_ in STEPS], "{daily_from}"),
        kind=text(),
        look=WORDS,
    ),
    Computed("jobs_every", "Their rhythm", in_week(["7"] * len(STEPS), "1"), kind=text(), look=WORDS),
    Computed(
        "jobs_run",
        "Jobs so far",
        logic("{above.jobs_run}+" + pieces("{jobs_on}", SEPARATOR), "1", copes=True),
        seed="0",
        look=COUNT,
    ),
    Computed(
        "in_chart",
        "In the chart",
        logic("{above.in_chart}+IF(AND(SUM({going})=1,COUNT({date})=1),1,0)", "1", copes=True),
        seed="0",
        look=COUNT,
    ),
)
