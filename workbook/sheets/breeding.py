"""Breeding: what was spawned or born, when each stage comes, what to do next, and how many are likely to be raised."""

from dataclasses import replace

from workbook.equations import brine, rearing
from workbook.sheets import broods
from workbook.tables import (
    Charts,
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
    date,
    link,
    logic,
    number,
    text,
)
from workbook.tables.formula import Formula
from workbook.tables.idioms import (
    cell_of,
    first_known,
    in_rows_with,
    iso_date,
    joined,
    only_if,
    piece,
    piece_number,
    pieces,
    position,
)

EVENT, NEXT, DATES = Look("The event", 9, "0"), Look("What comes next", 11), Look("When", 11)
MANY, GROWN, HIDDEN, COUNT = Look("How many", 9, "0"), Look("Growing on", 10, "0.0"), Look(working=True, show="0.00"), Look(working=True, show="0")
DAY, WORDS, OWN = Look(working=True, width=11), Look(working=True, width=18), Look("Your own figures", 10, "0%")
YES_NO, SEPARATOR = choice("yes", "no"), "¦"
WAYS = ("egg scatterer", "plant layer", "cave layer", "flat layer", "bubble nest", "mouthbrooder", "livebearer", "egg carrier", "annual", "other")
CARE = (
    "eggs fall anywhere and are eaten: mesh, marbles or moss, then the adults out",
    "eggs hang on plants: move plants or mop to a tank of their own, or the adults out",
    "eggs in a cave: whoever guards them stays, no disturbance",
    "eggs on a leaf, stone or pane: watch whether they are guarded or eaten",
    "eggs in a nest of bubbles: the male guards, take the female out; lid on, warm air",
    "eggs in the mouth: no netting, quiet, little food until the young are let go",
    "no eggs: a birth; floating plants hide the young",
    "eggs under the tail: leave her in peace, a sponge over the filter inlet",
    "eggs lie in peat: take it out, store it damp and warm for the days of the species",
    "its own way: see the note of the species",
)
FOODS = ("infusoria", "nauplii", "fine dust", "algae film", "as adults")
FIRST_FOOD = ("infusoria", "newly hatched nauplii", "fine dust and nauplii", "algae film, soft greens", "what adults eat, crushed")
ON_FOOD_OF_ITS_OWN = '{first_food}<>"as adults"'
SECOND_FOOD = ("newly hatched nauplii", "fine dust and crushed food", "crushed adult food", "wafers and greens")


def picked(number_: str, words: tuple[str, ...]) -> Formula:
    """The words of a number."""
    quoted = ",".join(f'"{word}"' for word in words)
    return logic(f"CHOOSE({number_},{quoted})")


def stage(key_: str) -> Formula:
    """Days of a stage at the water's temperature; none for young that are born."""
    days = rearing.days_at(days=f"{{{key_}}}", pace="{pace}")
    return replace(days, text=f'IF({{born}}=1,0,IF(COUNT({{{key_}}},{{pace}})=2,{days.text},""))', needs=("born",))


def day_after(start: str, days: str, needs: tuple[str, ...] = ()) -> Formula:
    """The day so many days later, the part of a day left off: early enough to look."""
    return logic(f"{start}+INT(ROUND({days},6))", "date", needs=needs)


# What happens to a brood: the day, what to do, and when the step still counts.
STEPS = (
    ("infusoria", "infusoria_on", '"start an infusoria culture"', ""),
    ("adults", "adults_on", "{adults_do}", "{out}=0"),
    ("hatch", "hatch_on", "{hatch_do}", "{born}=0"),
    ("swim", "swim_on", '"first food: "&{first_food_is}', ""),
    ("second", "second_on", '"second food: "&{second_food_is}', ""),
    ("move", "move_on", '"move the young to "&{grow_tank}', ""),
    ("sale", "sale_on", '"large enough to part with: look for good homes"', ""),
)
DAILY = '"feed the young"&IF({litres_day}="","",", change "&{@words.litres_day}&" in "&{home})'


def left(step: str, day: str, still: str) -> Computed:
    """The day of a step that is still to be done."""
    also = f"{still}," if still else ""
    return Computed(f"left_{step}", f"Still to do: {step}", only_if(f"AND({also}{{going}}=1,{{{day}}}>{{done}})", logic(f"{{{day}}}", "date")), kind=date(), look=DAY)


def in_week(said: str, daily: str) -> Formula:
    """Something about each job that begins within the week, joined: a blank day is text, and no text lies before a number."""
    jobs = [(f"{{left_{step}}}<{{week_end}}", said.replace("@", f"left_{step}").replace("WORDS", words)) for step, _, words, _ in STEPS]
    jobs.append(("{daily_from}<{week_end}", daily))
    return in_rows_with("species", joined(*jobs, between=SEPARATOR))


TYPED = (
    Typed("species", "Species", link("species"), required=True, look=Look("The event", 22)),
    Typed("tank", "Tank it happened in", link("tanks"), required=True, look=Look("The event", 18)),
    Typed("date", "Spawned or born on", date(), required=True, look=Look("The event", 11), help="A day to come for a spawning that you plan."),
    Typed("eggs", "Eggs or young", count(0, 1_000_000), unit="1", look=EVENT, help="As counted or guessed; blank where unknown."),
    Typed("water_temperature", "Water temperature", number(0, 40), unit="degC", look=Look("The event", 12, "0.0"), help="Of the eggs; blank: the tank's."),
    Typed("adults_out", "Adults out", YES_NO, look=Look("The event", 8), help="yes once those that would eat eggs or young are out."),
    Typed("adults_out_on", "Out on", date(), look=Look("The event", 11), help="Counts like a yes from that day on."),
    Typed("grow_tank", "Growing-on tank", link("tanks"), look=Look("The event", 18)),
    Typed("fry_counted", "Young counted", count(0, 1_000_000), unit="1", look=Look("The event", 9, "0"), help="The newest count; 0 when none is left: then nothing more is planned."),
    Typed("counted_on", "Counted on", date(), look=Look("The event", 11)),
    Typed("done_to", "Steps done up to", date(), look=Look("The event", 11), help="Steps of this day and before are ticked off."),
)

ANSWERS = (
    Computed("next_on", "Next on", logic(f'IF(COUNT({",".join(f"{{left_{s[0]}}}" for s in STEPS)})=0,"",MIN({",".join(f"{{left_{s[0]}}}" for s in STEPS)}))', "date", needs=("species",)), kind=date(), look=NEXT),
    Computed("next_do", "What to do", replace(joined(*((f"{{left_{step}}}={{next_on}}", words) for step, _, words, _ in STEPS)), copes_with_blanks=False, needs=("next_on",)), kind=text(), look=Look(NEXT.group, 46)),
    Said(look=Look("What it asks for", 66)),
    Computed("care", "Its way", picked("{way}", CARE), kind=text(), look=Look("What it asks for", 46)),
    Computed("hatch_on", "Hatching", day_after("{date}", "{hatch_days}"), kind=date(), look=DATES, help="The first day on which to look; the day of birth for young that are born."),
    Computed("swim_on", "Swimming free", day_after("{date}", "({hatch_days}+{swim_days})"), kind=date(), look=DATES, help="First food from this day on."),
    Computed("first_food_is", "First food", picked("{food_no}", FIRST_FOOD), kind=text(), look=Look(DATES.group, 22)),
    Computed("infusoria_on", "Start infusoria", logic('IF({food_no}=1,INT(ROUND({swim_on}-{const.infusoria_lead},6)),"")', "date"), kind=date(), look=DATES, help="Only for mouths too small for nauplii."),
    Computed("second_on", "Second food on", only_if(ON_FOOD_OF_ITS_OWN, day_after("{swim_on}", "IF({food_no}=1,{const.infusoria_days},{const.second_food_days})")), kind=date(), look=DATES),
    Computed("second_food_is", "Second food", only_if(ON_FOOD_OF_ITS_OWN, picked("{food_no}", SECOND_FOOD)), kind=text(), look=Look(DATES.group, 22)),
    Computed("adults_on", "Adults out on", logic('IF({eats_own_eggs}="yes",{date},IF(OR({spawning}="bubble nest",{spawning}="mouthbrooder"),{swim_on},""))', "date", needs=("date", "species_row")), kind=date(), look=DATES, help="Blank where they stay with their brood."),
    Computed("move_on", "Move on", only_if('AND({grow_tank}<>"",{grow_tank}<>{tank})', day_after("{swim_on}", "{const.move_days}")), kind=date(), look=DATES, help="To the growing-on tank."),
    Computed("sale_on", "To part with", day_after("{swim_on}", "{growth_days}"), kind=date(), look=DATES, help="When they have the length to part with; food, room and warmth move it a lot."),
    Computed("sale_early", "at the earliest", day_after("{swim_on}", "{growth_days}/{const.growth_spread}"), kind=date(), look=DATES),
    Computed("sale_late", "at the latest", day_after("{swim_on}", "{growth_days}*{const.growth_spread}"), kind=date(), look=DATES),
    Computed("hatched", "Hatch", logic("IF({born}=1,{eggs},{eggs}*{hatched_used})", "1"), look=MANY),
    Computed("swimming", "Swim", logic("IF({born}=1,{eggs},{hatched}*{swimming_used})", "1"), look=MANY),
    Computed("fry", "Reckoned with", first_known("{fry_counted}", "{swimming}", unit="1"), look=MANY, help="The count, or else what is reckoned to swim."),
    Computed("raised", "Raised", logic("{fry}*{raised_used}", "1"), look=MANY, help="A late count is on the safe side: its losses are behind it."),
    Computed("survived", "Counted of the eggs", only_if("{eggs}>0", logic("{fry_counted}/{eggs}", "1")), look=Look(MANY.group, 9, "0%")),
    Computed("litres_day", "Water to change a day", logic("{home_volume}*{const.fry_change_share}", "L"), look=GROWN, help="For young, of the tank they are in: the growing-on tank once the move is ticked off."),
    Computed("grow_wanted", "Growing-on tank wanted", rearing.room_for_young(young="{raised}", length="{sale_length_used}"), look=Look(GROWN.group, 10, "0"), help="For those raised, at the length to part with."),
    Computed("nauplii_day", "Nauplii a day", replace(brine.nauplii_of_fry(fry="{fry}", each="{each_used}", meals="{meals_used}"), needs=("nauplii_from", "fry", "each_used", "meals_used")), look=Look(GROWN.group, 10, "0")),
    Computed("nauplii_from", "from", logic('IF({first_food}="infusoria",{second_on},IF(OR({first_food}="nauplii",{first_food}="fine dust"),{swim_on},""))', "date", needs=("food_no", "swim_on")), kind=date(), look=Look(GROWN.group, 11)),
    Computed("nauplii_until", "until before", logic("{nauplii_from}+{const.nauplii_days}", "date"), kind=date(), look=Look(GROWN.group, 11)),
)

FIGURES = (
    Typed("hatched_share", "Share that hatches", number(0, 1), unit="1", look=OWN, help="Blank: the constant, for planning only."),
    Typed("swimming_share", "of these swim", number(0, 1), unit="1", look=OWN, help="Blank: the constant."),
    Typed("raised_share", "of these are raised", number(0, 1), unit="1", look=OWN, help="Blank: the constant."),
    Typed("sale_length", "Length to part with", number(0.2, 200), unit="cm", look=Look(OWN.group, 10, "0.0"), help="Blank: a share of the adult length, see Constants."),
    Typed("fry_meals", "Meals a day", count(1, 24), unit="1/day", look=Look(OWN.group, 8, "0"), help="Blank: the constant."),
    Typed("nauplii_each", "Nauplii each a meal", number(1, 10_000), unit="1", look=Look(OWN.group, 10, "0"), help="Blank: the constant."),
    Typed("breeding_note", "Note", text(), look=Look("Note", 36)),
)


def used(key_: str, typed: str, label: str, const: str, unit: str, show: str = "0%") -> Computed:
    """What is typed, or else the constant."""
    return Computed(f"{key_}_used", f"{label} reckoned with", in_rows_with("species", first_known(f"{{{typed}}}", f"{{const.{const}}}", unit=unit)), look=Look(working=True, show=show))


STEPS_BETWEEN: tuple[Pulled | Computed, ...] = (
    *(Pulled(key_, via="species") for key_ in ("spawning", "eats_own_eggs", "hatch_temperature", "days_to_hatch", "days_to_swim", "first_food", "adult_length")),
    Pulled("temperature_low", via="species", of="used_temperature_low"),
    Pulled("temperature_high", via="species", of="used_temperature_high"),
    Pulled("tank_temperature", via="tank", of="temperature", label="Tank's temperature"),
    Pulled("tank_volume", via="tank", of="net_volume", label="Tank's net volume"),
    Pulled("grow_volume", via="grow_tank", of="net_volume", label="Growing-on volume"),
    Pulled("grow_animals", via="grow_tank", of="animals", label="Animals in it"),
    Computed("way", "Number of its way", position("{spawning}", WAYS), look=COUNT),
    Computed("food_no", "Number of its first food", position("{first_food}", FOODS), look=COUNT),
    Computed("guards", "Guards its brood", logic("CHOOSE({way},0,0,1,1,1,1,0,0,0,0)", "1"), look=COUNT),
    Computed("born", "Born, not hatched", logic('IF({spawning}="livebearer",1,0)', "1", needs=("species_row",)), look=COUNT),
    Computed("temperature", "Temperature reckoned with", first_known("{water_temperature}", "{tank_temperature}", unit="degC"), look=HIDDEN),
    Computed("pace", "Times as long as the days known", only_if("AND({temperature}>{const.hatch_zero},{hatch_temperature}>{const.hatch_zero})", rearing.pace(temperature="{temperature}", reference="{hatch_temperature}")), look=HIDDEN),
    Computed("hatch_days", "Days to hatch here", stage("days_to_hatch"), look=HIDDEN),
    Computed("swim_days", "Days to swim here", stage("days_to_swim"), look=HIDDEN),
    used("hatched", "hatched_share", "Share that hatches", "egg_survival", "1"),
    used("swimming", "swimming_share", "Share that swims", "larva_survival", "1"),
    used("raised", "raised_share", "Share raised", "fry_survival", "1"),
    used("meals", "fry_meals", "Meals a day", "fry_meals", "1/day", "0"),
    used("each", "nauplii_each", "Nauplii each a meal", "fry_nauplii", "1", "0"),
    Computed("sale_length_used", "Length to part with", logic("IF(COUNT({sale_length})=1,{sale_length},{const.sale_share}*{adult_length})", "cm", needs=("adult_length", "const.sale_share")), look=HIDDEN),
    Computed("growth_days", "Days of growth", only_if("AND({sale_length_used}<{adult_length},{sale_length_used}>{const.fry_length})", rearing.days_to_length(length="{sale_length_used}", adult="{adult_length}")), look=HIDDEN),
    Computed("out", "Adults are out", logic('IF(OR({adults_out}="yes",AND(COUNT({adults_out_on})=1,N({adults_out_on})<={settings.plan_date})),1,0)', "1", needs=("species", "settings.plan_date")), look=COUNT),
    Computed("going", "Still going on", in_rows_with("species", logic("IF(AND(COUNT({fry})=1,N({fry})=0),0,1)", "1")), look=COUNT),
    Computed("done", "Done up to", logic("IF(COUNT({done_to})=1,{done_to},{date}-10^3)", "date", needs=("species", "date")), kind=date(), look=DAY, help="Long before it, where nothing is ticked off."),
    Computed("adults_do", "What to do about the adults", logic('_xlfn.SWITCH({spawning},"bubble nest","take the male out as well","mouthbrooder","take the mother out, let her feed up",IF({born}=1,"part the young from the adults","take the adults out"))', needs=("born",)), kind=text(), look=WORDS),
    Computed("hatch_do", "What to do at hatching", logic('IF({spawning}="mouthbrooder","hatching in the mouth: leave her in peace",IF({eats_own_eggs}="no","look for hatching, leave whoever guards to it","look for hatching, take white eggs out"))', needs=("species_row",)), kind=text(), look=WORDS),
    Computed("what", "What is eaten", logic('IF({born}=1,"young","eggs and young")'), kind=text(), look=WORDS),
    Computed("risk_until", "In danger until", logic("MAX(N({swim_on}),{date}+{const.egg_risk_days})", "date", needs=("date", "const.egg_risk_days")), kind=date(), look=DAY),
    Computed("fry_row", "Row of the tank of the young", logic("IF(AND(COUNT({move_on},{grow_tank_row})=2,{done}>=N({move_on})),{grow_tank_row},{tank_row})", "1", needs=("done",)), look=COUNT),
    Computed("home", "Tank of the young", cell_of("{tanks.tank[]}", "{fry_row}"), kind=text(), look=WORDS),
    Computed("home_volume", "Its net volume", cell_of("{tanks.net_volume[]}", "{fry_row}", "L"), look=HIDDEN),
    Computed("nauplii_now", "Nauplii today", logic("IF(AND({going}=1,{settings.plan_date}>={nauplii_from},{settings.plan_date}<{nauplii_until}),{nauplii_day},0)", "1/day"), look=COUNT),
    *(left(step, day, still) for step, day, _, still in STEPS),
    Computed("daily_from", "Daily care from", only_if("AND({going}=1,{settings.plan_date}<{sale_early})", logic("MAX({swim_on},{settings.plan_date})", "date")), kind=date(), look=DAY),
    Computed("week_end", "Day after the week", logic("{settings.plan_date}+7", "date"), kind=date(), look=DAY),
    Computed("jobs_said", "Jobs of the week", in_week("WORDS", DAILY), kind=text(), look=WORDS),
    Computed("jobs_on", "Their days", in_week("{@}", "{daily_from}"), kind=text(), look=WORDS),
    Computed("jobs_every", "Their rhythm", in_week("7", "1"), kind=text(), look=WORDS),
    Computed("jobs_run", "Jobs so far", logic("{above.jobs_run}+" + pieces("{jobs_on}", SEPARATOR), "1", copes=True), seed="0", look=COUNT),
    Computed("in_chart", "In the chart", logic("{above.in_chart}+IF(AND(N({going})=1,COUNT({date})=1),1,0)", "1", copes=True), seed="0", look=COUNT),
)

SAFE = "AND({going}=1,{settings.plan_date}>={swim_on},{settings.plan_date}<{sale_early})"
FLAGS = (
    Flag("eggs_at_risk", "Adults will eat the brood", seriousness="act", when='AND({eats_own_eggs}="yes",{out}=0,{going}=1,{date}<={settings.plan_date},{settings.plan_date}<{risk_until})',
         why="{species} eats its {what}, and the adults are still in {tank}", do="Take the adults out now, or eggs or young to a tank of their own; then type yes under Adults out."),
    Flag("will_eat", "Adults will eat the brood to come", seriousness="watch", when='AND({eats_own_eggs}="yes",{out}=0,{date}>{settings.plan_date})',
         why="{species} eats its {what}, and a brood is planned for {date}", do="Ready mesh, moss or a second tank before that day, and take the adults out as soon as they have spawned or given birth."),
    Flag("infusoria_due", "Start infusoria now", seriousness="watch", when="AND({food_no}=1,{going}=1,{settings.plan_date}>={infusoria_on},{settings.plan_date}<{second_on},{done}<{infusoria_on})",
         why="its young swim on {swim_on} with mouths too small for nauplii, and a culture takes {const.infusoria_lead} to ripen", do="Start a culture today or ask for a ripe one; bridge the gap with the finest dust, very little at a time. Type the day under Steps done up to."),
    Flag("late_step", "Step of a brood late", seriousness="watch", when="{next_on}<{settings.plan_date}", why="due on {next_on}: {next_do}", do="Do it, then type the date under Steps done up to; 0 under Young counted if the brood is lost."),
    Flag("guard_gone", "Guard taken away", seriousness="watch", when='AND({eats_own_eggs}="no",{out}=1,{going}=1,{guards}=1,{settings.plan_date}<{swim_on})',
         why="this species guards its brood until {swim_on}, and the adults are said to be out", do="Leave or put back whoever guards, or stand in: an air stone beside the eggs, white eggs out, each day."),
    Flag("off_range", "Water outside the species' range", seriousness="watch", when="AND({going}=1,OR({temperature}<{temperature_low},{temperature}>{temperature_high}))",
         why="{temperature}, the range in use is {temperature_low} to {temperature_high}", do="Bring it back slowly: eggs and larvae bear less than adults."),
    Flag("too_cold", "Too cold to develop", seriousness="watch", when="AND({born}=0,{going}=1,{temperature}<={const.hatch_zero})", why="at {temperature} eggs come to rest by the equation, so no date can be told", do="Warm the water slowly, or check the cell."),
    Flag("grow_occupied", "Growing-on tank occupied", seriousness="watch", when='AND({going}=1,{grow_tank}<>{tank},{grow_animals}>0)', why="animals that live in {grow_tank}: {grow_animals}; most of them eat young or their food", do="Choose an empty tank, or wait until the young are too large to be eaten."),
    Flag("grow_small", "Growing-on tank too small", seriousness="watch", when="AND({going}=1,{grow_volume}<{grow_wanted})", why="{raised} young of {sale_length_used} want {grow_wanted}, it holds {grow_volume}", do="Share them out over more tanks, part with some earlier, or raise fewer."),
    Flag("no_grow_tank", "No growing-on tank", seriousness="note", copes=True, when='AND({species}<>"",{grow_tank}="",N({raised})>0,N({going})=1)', why="{raised} young are likely to be raised", do="Name the tank in which they are to grow; it may be the one they hatched in."),
    Flag("no_dates", "Breeding data missing", seriousness="note", copes=True, when='AND({species_row}<>"",{date}<>"",{swim_on}="",N({going})=1,OR({temperature}="",N({temperature})>{const.hatch_zero}))', why="days to hatch and to swim, or the water's temperature, are not known", do="Type them on Species from what you see at home, and the temperature here."),
    Flag("far_off", "Dates are a guess", seriousness="note", when="AND({born}=0,{going}=1,{settings.plan_date}<{swim_on},ABS({temperature}-{hatch_temperature})>{const.hatch_far})", why="its days are known at {hatch_temperature}, the water has {temperature}", do="Look daily from now on; type on Species what you see."),
    Flag("count_early", "Counted before it happened", seriousness="note", when="{counted_on}<{date}", why="the count of {counted_on} lies before {date}", do="Check the two dates."),
    Flag("more_than_eggs", "More young than eggs", seriousness="note", when="{fry_counted}>{eggs}", why="{fry_counted} counted of {eggs}", do="Count again, or correct the eggs."),
    Flag("daily_water", "Fresh water each day for the young", seriousness="note", when=SAFE, why="young foul their water fast and bear little", do="Change {litres_day} each day with water of the same warmth, siphon off what is left of the food, test ammonia and nitrite."),
    Flag("pass_on", "Large enough to part with", seriousness="note", when="AND({going}=1,{settings.plan_date}>={sale_on},{done}<{sale_on})", why="by growth since {swim_on} they measure about {sale_length_used}", do="Good homes, a club or a shop, by local law; never release one. Brother and sister are better not paired for long."),
)

BREEDING = Table("breeding", example={"species": "Bronze corydoras", "tank": "Window tank", "date": "2026-03-31", "eggs": 120}, title="Breeding", row_name=("species", "date"), purpose="One row for each spawning or birth, planned ones too.", columns=(*TYPED, *ANSWERS, *FIGURES, *STEPS_BETWEEN, *FLAGS))


def of_event(column: str) -> str:
    """A column of Breeding in the row of the job's event."""
    return f"INDEX({{breeding.{column}[]}},{{event_row}})"


JOBS = Table("breeding_jobs", title="Jobs of the week", lines=40, row_name=("task",), purpose="What the broods ask for within seven days; This week shows it.", columns=(
    Computed("job_on", "From", piece_number(of_event("jobs_on"), "{job_no}", SEPARATOR, "date"), kind=date(), look=DAY),
    Computed("task", "Job", logic(f'{of_event("species")}&" of "&{iso_date(of_event("date"))}&": "&{piece(of_event("jobs_said"), "{job_no}", SEPARATOR).text}', needs=("job_no",)), kind=text(), look=Look(working=True, width=40)),
    Computed("tank", "Tank", cell_of("{breeding.tank[]}", "{event_row}"), kind=text(), look=WORDS),
    Computed("event_row", "Row of its event", logic('IF({line}>MAX({breeding.jobs_run[]}),"",SUMIFS({breeding.one[]},{breeding.jobs_run[]},"<"&{line})+1)', "1", copes=True), look=COUNT),
    Computed("job_no", "Which of its jobs", logic(f'{pieces(of_event("jobs_on"), SEPARATOR)}-({of_event("jobs_run")}-{{line}})', "1", needs=("event_row",)), look=COUNT),
    Computed("every_days", "Every", piece_number(of_event("jobs_every"), "{job_no}", SEPARATOR, "day"), look=COUNT),
    Computed("first_day", "First day", logic("MAX(0,{job_on}-{settings.plan_date})", "1"), look=COUNT),
    Computed("days_late", "Late by", logic("MAX(0,{settings.plan_date}-{job_on})", "day"), look=COUNT),
    Computed("order", "Order in the week", logic("{first_day}+1/10+{line}/10^6", "1"), look=Look(working=True, width=11, show="0.000000")),
))

SHEET = Sheet("Breeding", role="input", blocks=(BREEDING, Charts("brood_charts", (broods.CHART,), columns=15, across=1), JOBS, broods.BARS), frozen_columns=1,
              new_page_before=("breeding.attention", "breeding.hatch_on", "breeding.hatched", "brood_charts"),
              purpose="Spawnings and births: when eggs hatch and young swim, what they eat first and next, who must go out, when they are large enough to part with. A chart at the right draws the broods along the calendar.",
              notes=("Dates follow the water's temperature and are planning estimates: look at the brood. Survival is a share to plan with until you count.",
                     "Never release animals; check local law before you breed or pass on. Illness, fungus and medicines: a veterinarian and the label. Wash hands after eggs, peat and live food.",))
