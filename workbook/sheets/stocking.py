"""Stocking: how full each tank is by every measure, as a share of its limit, and which measure binds."""

from dataclasses import replace

from workbook.equations import gases, mass, nitrogen, space
from workbook.tables import (
    Chart,
    Charts,
    Computed,
    Flag,
    Look,
    Pulled,
    Said,
    Series,
    Sheet,
    Table,
    Typed,
    link,
    logic,
    text,
)
from workbook.tables.formula import Formula
from workbook.tables.idioms import counted, first_known, in_rows_with, of_run, only_if

MEASURE, NITROGEN, OXYGEN, DENSITY = (Look("Share of each limit", 10, "0%", measure="load"), Look("From food to water change", 11, "0.00"),
                                      Look("Oxygen without aeration", 10, "0.00"), Look("How dense", 10, "0.00"))
FITS = Look("Share of each limit", 10, "0%", measure="fit")
HIDDEN, WHO, COUNT = Look(working=True, show="0.00"), Look(working=True, width=18), Look(working=True, show="0")


def of_tank(column: str, unit: str = "", none: str = '""') -> Formula:
    """What the roll holds on the last line of the tank."""
    return of_run(f"{{roll.{column}[]}}", unit, none)


def number_of(key_: str, label: str) -> Computed:
    """How many groups of the tank the roll counts."""
    return Computed(key_, label, of_tank(key_, "1", "0"), look=COUNT)


def value_of(key_: str, unit: str, label: str) -> Computed:
    """Greatest or least among the residents."""
    return Computed(key_, label, of_tank(key_, unit), look=COUNT if unit == "1" else HIDDEN)


def who_of(key_: str, label: str) -> Computed:
    """Whose it is."""
    return Computed(key_, label, of_tank(key_), kind=text(), look=WHO)


COMPANY = Table("company", title="Who matters in each tank", rows_of="tanks", row_name=("tank",), purpose="", columns=(
    Pulled("tank", via="tanks", look=Look(working=True, width=16)),
    Computed("residents", "Groups", logic(counted("{livestock.lives_in[]}"), "1"), look=COUNT),
    Computed("run_end", "Its last line on the roll", logic("N({above.run_end})+N({residents})", "1", copes=True), look=COUNT),
    number_of("in_quarantine", "Groups in quarantine"),
    value_of("mouthful_max", "cm", "Longest mouthful"), who_of("mouthful_who", "Longest mouthful: who"),
    value_of("victim_min", "cm", "Smallest animal"), who_of("victim_who", "Smallest animal: who"),
    value_of("temper_max", "1", "Worst temper"), who_of("temper_who", "Worst temper: who"),
    number_of("biters", "Groups that bite fins"), who_of("first_biter", "First of them"), who_of("last_biter", "Last of them"),
    number_of("shrimp_hunters", "Groups that hunt shrimp"), who_of("shrimp_hunter", "Groups that hunt shrimp: who"),
    number_of("young_eaters", "Groups that take shrimp young"), who_of("young_eater", "Groups that take shrimp young: who"),
    number_of("snail_eaters", "Groups that eat snails"), who_of("snail_eater", "Groups that eat snails: who"),
    number_of("bottom_dwellers", "Groups that want bottom room"), who_of("first_bottom", "First of them"), who_of("last_bottom", "Last of them"),
    value_of("mouth_min", "mm", "Finest food wanted"), who_of("mouth_who", "Finest food wanted: who"),
))

MEASURES = (("nitrogen", "Water change"), ("oxygen", "Oxygen"), ("swim", "Swim room"), ("bottom", "Bottom room"), ("volume", "Volume"))
SHARES = f"{{{MEASURES[0][0]}_share}}:{{{MEASURES[-1][0]}_share}}"
PICKED = ",".join(f"INDEX({{stocking.{key}_share[]}},{{chosen_row}})" for key, _ in MEASURES)
LABELS = ",".join(f'"{label}"' for _, label in MEASURES)


HOLDS = "{settings.nitrate_target}>{water_nitrate}"
NEEDED, WEEKLY = (nitrogen.change_needed(rise=rise, target="{settings.nitrate_target}", source="{water_nitrate}") for rise in ("{nitrate_interval}", "{nitrate_week}"))


def held(needed: Formula) -> Formula:
    """The share of water that holds the target, or the words for where there is none."""
    return only_if(HOLDS, replace(needed, text=f'IF({needed.text}>1,"none holds",{needed.text})'), '"none holds"')


STOCKING = Table("stocking", title="Stocking", rows_of="tanks", row_name=("tank",), purpose="100 % is the limit; the greatest share binds.", columns=(
    Pulled("tank", via="tanks", look=Look("Tank", 20)),
    Pulled("net_volume", via="tanks", look=Look("Tank", 16)),
    Computed("animals", "Animals", of_tank("animals", "1", "0"), look=Look("Tank", 8, "0")),
    Said(look=Look("Tank", 46)),
    Computed("binding", "Binding measure", logic(f'IF({{animals}}=0,"empty",CHOOSE(MATCH({{binding_share}},{SHARES},0),{LABELS}))', needs=("animals", "binding_share")),
             kind=text(), look=Look("Verdict", 14)),
    Computed("binding_share", "Its share", logic(f'IF(COUNT({{nitrogen_share}},{{oxygen_share}})<2,"",MAX({SHARES}))', "1", copes=True), look=Look("Verdict", 9, "0%", measure="fit")),
    Computed("nitrogen_share", "Water change", logic(f"IF({{animals}}=0,0,IF({HOLDS},({NEEDED.text})/{{change_share}},10^2))", "1"), look=MEASURE,
             help="Share of water that must be changed against the share planned."),
    Computed("oxygen_share", "Oxygen", logic('IF({oxygen_draw}=0,0,IF({reserve}="","",{const.oxygen_reserve_wanted}/MAX({reserve},1/10^2)))', "1",
             needs=("oxygen_draw", "const.oxygen_reserve_wanted")), look=MEASURE, help="Hours wanted without aeration against the hours there are."),
    Computed("swim_share", "Swim room", logic("{length_wanted}*(1-{const.nominal_allowance})/{swim_length}", "1"), look=FITS, help="Length the longest swimmer wants against the tank's, with an allowance for nominal sizes."),
    Computed("bottom_share", "Bottom room", logic("{bottom_wanted}/{plan_area}", "1"), look=MEASURE, help="Floor the bottom dwellers want against the floor there is."),
    Computed("volume_share", "Volume", logic("{volume_wanted}*(1-{const.nominal_allowance})/{net_volume}", "1"), look=FITS, help="Smallest tank a resident wants against the net volume, with an allowance for nominal sizes."),
    Computed("small_groups", "Groups too small", of_tank("small_groups", "1", "0"), look=Look("Share of each limit", 9, "0"),
             help="Shown beside: more fish mend it, so it is no limit."),
    Computed("rule_share", "Length rule", logic("{length_per_litre}/{const.rule_length_per_litre}", "1"), look=Look("For comparison only", 10, "0%"),
             help="The old rule of body length by volume: too strict for tiny fish, far too lax for big ones. It never binds."),
    Computed("scaled_share", "Length rule scaled by breath", logic("{scaled_per_litre}/{const.rule_length_per_litre}", "1"), look=Look("For comparison only", 10, "0%"),
             help="The same with each animal counted as the reference fish that breathe as much."),
    Computed("oxygen_draw", "Oxygen draw of animals", of_tank("oxygen_draw", "mg/h", "0"), look=Look(NITROGEN.group, 10, "0.0")),
    Computed("food", "Dry food a day", of_tank("food", "g/day", "0"), look=Look(NITROGEN.group, 11, "0.000")),
    Pulled("protein", via="tanks", of="feeding_tanks.protein", label="Protein", look=NITROGEN),
    Computed("ammonia", "Ammonia nitrogen a day", nitrogen.with_fasting(ammonia="{nitrogen}", fasting_days="{fasting_days}"), look=Look(NITROGEN.group, 11, "0.0000"),
             help="Mean of the week, fasting days counted as nothing from food; fish give some off even then."),
    Computed("nitrate_week", "Nitrate rise a week", nitrogen.rise_after_plants(
        rise=nitrogen.nitrate_rise(ammonia="{ammonia}", days="7", volume="{net_volume}", yield_="{yield_used}"), uptake="{uptake}", days="7"), look=NITROGEN),
    Pulled("water_nitrate", via="tanks", label="Source nitrate", look=NITROGEN),
    Computed("change_a_week", "Change needed a week", held(WEEKLY), look=Look(NITROGEN.group, 10, "0%"),
             help="Share a week that keeps nitrate at or under the target; none holds where it would be more than all the water."),
    Computed("change_needed", "Change needed each time", held(NEEDED), look=Look(NITROGEN.group, 10, "0%")),
    Pulled("change_share", via="tanks", label="Change planned", look=NITROGEN),
    Pulled("change_interval", via="tanks", label="every", look=NITROGEN),
    Computed("nitrate_peak", "Nitrate before a change, long run", nitrogen.level_before_change(rise="{nitrate_interval}", share="{change_share}", source="{water_nitrate}"),
             look=Look(NITROGEN.group, 11, "0.0"), help="Where it settles after many changes as planned."),
    Computed("saturation", "Oxygen at saturation", gases.oxygen_at_altitude(saturation=gases.oxygen_saturation(temperature="{temperature}"),
        pressure=gases.pressure(altitude="{settings.altitude}"), temperature="{temperature}"), look=OXYGEN),
    Computed("bacteria_draw", "Oxygen draw of the filter", nitrogen.nitrification_oxygen(ammonia="{ammonia}"), look=OXYGEN),
    Computed("reserve", "Hours without aeration", only_if("{oxygen_draw}>0", gases.oxygen_reserve(saturation="{saturation}", volume="{net_volume}", draw="{draw}")),
             look=Look(OXYGEN.group, 10, "0.0"), help="From saturation down to the stop level, no exchange at the surface counted. Never a reason to delay aeration."),
    Computed("mass", "Mass of animals", of_tank("mass", "g", "0"), look=Look(DENSITY.group, 10, "0.0")),
    Computed("density", "Mass per litre", mass.density(mass="{mass}", volume="{net_volume}"), look=DENSITY),
    Computed("length_per_litre", "Length per litre", space.length_per_litre(length="{body_length}", volume="{net_volume}"), look=DENSITY),
    Computed("inches_per_gallon", "Inches per US gallon", space.inches_per_gallon(length="{body_length}", volume="{net_volume}"), look=DENSITY),
    Pulled("residents", via="tanks", of="company.residents"),
    Pulled("run_end", via="tanks", of="company.run_end"),
    Pulled("temperature", via="tanks"),
    Pulled("plan_area", via="tanks"),
    Pulled("swim_length", via="tanks"),
    Pulled("fasting_days", via="tanks"),
    Pulled("plant_uptake", via="tanks"),
    Pulled("yield_used", via="tanks", of="changes.yield_used"),
    Computed("uptake", "Plants take a week", in_rows_with("tank", first_known("{plant_uptake}", "{const.plant_uptake}", unit="mg/L")), look=HIDDEN),
    Computed("nitrogen", "Ammonia nitrogen, feeding day", of_tank("nitrogen", "g/day", "0"), look=Look(working=True, show="0.0000")),
    Computed("nitrate_interval", "Nitrate rise between changes", nitrogen.rise_after_plants(
        rise=nitrogen.nitrate_rise(ammonia="{ammonia}", days="{change_interval}", volume="{net_volume}", yield_="{yield_used}"), uptake="{uptake}", days="{change_interval}"), look=HIDDEN),
    Computed("draw", "Oxygen draw of all", logic("{oxygen_draw}+{bacteria_draw}", "mg/h"), look=HIDDEN),
    Computed("length_wanted", "Length wanted", of_tank("length_wanted", "cm", "0"), look=HIDDEN),
    Computed("volume_wanted", "Volume wanted", of_tank("volume_wanted", "L", "0"), look=HIDDEN),
    Computed("bottom_wanted", "Bottom wanted", of_tank("bottom_wanted", "cm2", "0"), look=HIDDEN),
    Computed("body_length", "Body length of all", of_tank("body_length", "cm", "0"), look=replace(HIDDEN, show="0.0")),
    Computed("scaled_length", "Scaled by breath", of_tank("scaled_length", "cm", "0"), look=HIDDEN),
    Computed("scaled_per_litre", "Scaled per litre", space.length_per_litre(length="{scaled_length}", volume="{net_volume}"), look=HIDDEN),
    Computed("weighed_groups", "Groups with a mass", of_tank("weighed", "1", "0"), look=COUNT),
    Computed("load_share", "What more animals would raise", logic("MAX({nitrogen_share},{oxygen_share},{bottom_share})", "1"), look=Look(working=True, show="0%")),
    Computed("rank", "Order of fullness", logic("{binding_share}-{line}/10^9", "1"), look=Look(working=True, show="0.000")),
    Flag("nothing_holds", "No water change holds the target", seriousness="act",
         when="AND({nitrate_week}>0,{water_nitrate}>={settings.nitrate_target})",
         why="the source water has {water_nitrate} of nitrate, the target is {settings.nitrate_target}", do="Blend with water that holds less, add fast plants, or set another target on Start."),
    Flag("nitrate_act", "Nitrate will climb high", seriousness="act", when="{nitrate_peak}>{settings.nitrate_act}",
         why="with the changes planned it settles at {nitrate_peak} before a change; above {settings.nitrate_act} is the time to act",
         do="Change more or more often, feed less, add plants, or move animals; Change needed says what holds the target."),
    Flag("nitrate_watch", "Nitrate will pass the target", seriousness="watch",
         when="AND(ROUND({nitrate_peak},0)>{settings.nitrate_target},{nitrate_peak}<={settings.nitrate_act})",
         why="nitrate rises {nitrate_week} a week; {change_share} every {change_interval} lets it settle at {nitrate_peak} before a change, the target is {settings.nitrate_target}",
         do="Change more or more often, feed less, add plants, or move animals."),
    Flag("short_of_oxygen", "Little oxygen in reserve", seriousness="act",
         when="{reserve}<{const.oxygen_reserve_wanted}", why="without aeration the oxygen lasts {reserve}; {const.oxygen_reserve_wanted} are wanted",
         do="Keep fewer or smaller animals, and have a battery air pump ready; after a failure aerate this tank first."),
    Flag("bottom_full", "Bottom crowded", seriousness="watch",
         when="{bottom_share}>1", why="its bottom dwellers want {bottom_wanted} of floor, there are {plan_area}", do="Move some, or choose a tank with a larger floor."),
    Flag("nearly_full", "Nearly full", seriousness="note",
         when="AND({load_share}>{const.nearly_full},{binding_share}<=1)", why="water change, oxygen or bottom room stands at {load_share} of its limit", do="Add nothing that raises it further."),
    Flag("mass_unknown", "Load understated", seriousness="note",
         when="{weighed_groups}<{residents}", why="{weighed_groups} of {residents} groups have a known mass, the others count for nothing", do="Type their length or body form."),
))

CHOICE = Table("stocking_choice", title="Tank for the chart", purpose="", row_name=("tank",), form=True, columns=(
    Typed("tank", "Tank to draw", link("tanks"), look=Look(width=22), help="Pick one; the first chart follows."),
    Computed("title", "Chart", logic('"Share of each limit: "&{tank}'), kind=text(), look=Look(width=22)),
))
FULLEST = Table("fullest", title="Fullest tanks", lines=15, row_name=("place",), purpose="", columns=(
    Computed("found", "Row", logic('IF({line}>COUNT({stocking.rank[]}),"",MATCH(LARGE({stocking.rank[]},{line}),{stocking.rank[]},0))', "1", copes=True), look=COUNT),
    Computed("place", "Tank", logic('IF({found}="","",INDEX({stocking.tank[]},{found}))', copes=True), kind=text(), look=WHO),
    Computed("share", "Share", logic("INDEX({stocking.binding_share[]},{found})", "1"), look=Look(working=True, show="0%")),
    Computed("under", "Within the limit", logic("MIN(1,{share})", "1"), look=Look(working=True, show="0%")),
    Computed("over", "Over the limit", logic("MAX(0,{share}-1)", "1"), look=Look(working=True, show="0%")),
))
CHOSEN = Table("chosen_measures", title="Measures of the chosen tank", lines=len(MEASURES), row_name=("measure",), purpose="", columns=(
    Computed("chosen_row", "Row of the chosen tank", logic('IF({stocking_choice.tank}="","",IFERROR(MATCH({stocking_choice.tank},{tanks.tank[]},0),""))', "1", copes=True), look=COUNT),
    Computed("measure", "Measure", logic(f"CHOOSE({{line}},{LABELS})"), kind=text(), look=WHO),
    Computed("share", "Share", logic(f"CHOOSE({{line}},{PICKED})", "1"), look=Look(working=True, show="0%")),
    Computed("under", "Within the limit", logic("MIN(1,{share})", "1"), look=Look(working=True, show="0%")),
    Computed("over", "Over the limit", logic("MAX(0,{share}-1)", "1"), look=Look(working=True, show="0%")),
))
CHARTS = Charts("stocking_charts", (
    Chart("stocking_choice.title", axis="share of the limit, 100 % is full", percent=True, stacked=True, low=0, width=540, height=420,
          describes="Bars: each stocking measure of the chosen tank as a share of its limit.",
          series=(Series("Within the limit", "chosen_measures.measure", "chosen_measures.under", "range"), Series("Over the limit", "chosen_measures.measure", "chosen_measures.over", "limit"))),
    Chart("Fullest tanks", axis="share of the limit by the binding measure, 100 % is full", percent=True, low=0, stacked=True, width=540, height=420,
          describes="Bars: the binding measure of the fifteen fullest tanks as a share of its limit, fullest first; what is over the limit in another colour.",
          series=(Series("Within the limit", "fullest.place", "fullest.under", "range"), Series("Over the limit", "fullest.place", "fullest.over", "limit"))),
))

SHEET = Sheet(
    "Stocking", blocks=(STOCKING, CHARTS, COMPANY, FULLEST, CHOSEN), forms=(CHOICE,), frozen_columns=1,
    new_page_before=("stocking.oxygen_draw", "stocking_charts"),
    purpose="Five measures of how full a tank is, each as a share of its limit. One chain feeds them: length, mass, oxygen, food, ammonia, nitrate, water change.",
    notes=("Planning estimates, good to about a third: test the water and watch the animals.",),
)
