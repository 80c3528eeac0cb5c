"""Stocking: how full each tank is by every measure, as a share of its limit, and which measure binds."""

from dataclasses import replace

from workbook.equations import gases, mass, nitrogen, space
from workbook.sheets import growing
from workbook.sheets.altitude import saturation
from workbook.sheets.company import COMPANY, COUNT, HIDDEN, of_tank
from workbook.sheets.fullest import CHARTS, CHOICE, CHOSEN, FULLEST, LABELS, MEASURES
from workbook.tables import Computed, Flag, Look, Pulled, Said, Sheet, Table, logic, pulled, text
from workbook.tables.columns import Column
from workbook.tables.formula import Formula, filled
from workbook.tables.idioms import first_known, in_rows_with, only_if
from workbook.tables.template import here

LOAD = Look("Share of each limit", 10, "0%", measure="load")
FITS = Look("Share of each limit", 10, "0%", measure="fit")
SMALL_GROUPS = Look("Share of each limit", 9, "0")
RULE = Look("For comparison only", 10, "0%")
NITROGEN = Look("From food to water change", 11, "0.00")
CHANGE = replace(NITROGEN, width=10, show="0%")
OXYGEN = Look("Oxygen without aeration", 10, "0.00")
DENSITY = Look("How dense", 10, "0.00")
SHARE = Look(working=True, show="0%")

ALL_SHARES = filled("{first}:{last}", first=here(f"{MEASURES[0][0]}_share"), last=here(f"{MEASURES[-1][0]}_share"))
TARGET_CAN_BE_HELD = "{settings.nitrate_target}>{water_nitrate}"


def change_needed(rise: str) -> Formula:
    """Share of water that keeps nitrate at the target."""
    return nitrogen.change_needed(rise=rise, target="{settings.nitrate_target}", source="{water_nitrate}")


def held(needed: Formula) -> Formula:
    """The share of water that holds the target, or the words for where there is none."""
    return logic(
        'IF({target_can_be_held},IF({needed}>1,"none holds",{needed}),"none holds")',
        "1",
        target_can_be_held=TARGET_CAN_BE_HELD,
        needed=needed,
    )


def nitrate_rise(days: str) -> Formula:
    """What nitrate rises by in so many days, less what plants take."""
    rise = nitrogen.nitrate_rise(ammonia="{ammonia}", days=days, volume="{net_volume}", yield_="{yield_used}")
    return nitrogen.rise_after_plants(rise=rise, uptake="{uptake}", days=days)


# Nothing where there are none; blank where the planting is not known.
GROWTH = logic(
    '({planted}="some")*SUM({const.plants_some})+({planted}="dense")*SUM({const.plants_dense})'
    '+({planted}="dense, with CO2")*SUM({const.plants_fed})',
    "g/m2day",
    needs=("planted",),
)

VERDICT = (
    Pulled("tank", via="tanks", look=Look("Tank", 20)),
    Pulled("net_volume", via="tanks", look=Look("Tank", 16)),
    Computed("animals", "Animals", of_tank("animals", "1", "0"), look=Look("Tank", 8, "0")),
    Said(look=Look("Tank", 46)),
    Computed(
        "binding",
        "Binding measure",
        logic(
            'IF({animals}=0,"empty",CHOOSE(MATCH({binding_share},{all_shares},0),{labels}))',
            needs=("animals", "binding_share"),
            all_shares=ALL_SHARES,
            labels=LABELS,
        ),
        kind=text(),
        look=Look("Verdict", 14),
    ),
    Computed(
        "binding_share",
        "Its share",
        logic(
            'IF(COUNT({nitrogen_share},{oxygen_share})<2,"",MAX({all_shares}))', "1", copes=True, all_shares=ALL_SHARES
        ),
        look=Look("Verdict", 9, "0%", measure="fit"),
    ),
)

SHARES = (
    Computed(
        "nitrogen_share",
        "Water change",
        logic(
            "IF({animals}=0,0,IF({target_can_be_held},{needed}/{change_share},10^2))",
            "1",
            target_can_be_held=TARGET_CAN_BE_HELD,
            needed=change_needed("{nitrate_interval}"),
        ),
        look=LOAD,
        help="Share of water that must be changed against the share planned.",
    ),
    Computed(
        "oxygen_share",
        "Oxygen",
        logic(
            'IF({oxygen_draw}=0,0,IF({reserve}="","",{const.oxygen_reserve_wanted}/MAX({reserve},1/10^2)))',
            "1",
            needs=("oxygen_draw", "const.oxygen_reserve_wanted"),
        ),
        look=LOAD,
        help="Hours wanted without aeration against the hours there are.",
    ),
    Computed(
        "swim_share",
        "Swim room",
        logic("{length_wanted}*(1-{const.nominal_allowance})/{swim_length}", "1"),
        look=FITS,
        help="Length the longest swimmer wants against the tank's, with an allowance for nominal sizes.",
    ),
    Computed(
        "bottom_share",
        "Bottom room",
        logic("{bottom_wanted}/{plan_area}", "1"),
        look=LOAD,
        help="Floor the bottom dwellers want against the floor there is.",
    ),
    Computed(
        "volume_share",
        "Volume",
        logic("{volume_wanted}*(1-{const.nominal_allowance})/{net_volume}", "1"),
        look=FITS,
        help="Smallest tank a resident wants against the net volume, with an allowance for nominal sizes.",
    ),
    Computed(
        "small_groups",
        "Groups too small",
        of_tank("small_groups", "1", "0"),
        look=SMALL_GROUPS,
        help="Shown beside: more fish mend it, so it is no limit.",
    ),
    Computed(
        "rule_share",
        "Length rule",
        logic("{length_per_litre}/{const.rule_length_per_litre}", "1"),
        look=RULE,
        help=(
            "The old rule of body length by volume: too strict for tiny fish, far too lax for big ones. It never binds."
        ),
    ),
    Computed(
        "scaled_share",
        "Length rule scaled by breath",
        logic("{scaled_per_litre}/{const.rule_length_per_litre}", "1"),
        look=RULE,
        help="The same with each animal counted as the reference fish that breathe as much.",
    ),
)

FROM_FOOD_TO_CHANGE = (
    Computed(
        "oxygen_draw",
        "Oxygen draw of animals",
        of_tank("oxygen_draw", "mg/h", "0"),
        look=replace(NITROGEN, width=10, show="0.0"),
    ),
    Computed("food", "Dry food a day", of_tank("food", "g/day", "0"), look=replace(NITROGEN, show="0.000")),
    Pulled("protein", via="tanks", of="feeding_tanks.protein", label="Protein", look=NITROGEN),
    Computed(
        "ammonia",
        "Ammonia nitrogen a day",
        nitrogen.with_fasting(ammonia="{nitrogen}", fasting_days="{fasting_days}"),
        look=replace(NITROGEN, show="0.0000"),
        help="Mean of the week, fasting days counted as nothing from food; fish give some off even then.",
    ),
    Computed("nitrate_week", "Nitrate rise a week", nitrate_rise("7"), look=NITROGEN),
    Pulled("water_nitrate", via="tanks", label="Source nitrate", look=NITROGEN),
    Computed(
        "change_a_week",
        "Change needed a week",
        held(change_needed("{nitrate_week}")),
        look=CHANGE,
        help=(
            "Share a week that keeps nitrate at or under the target; "
            "none holds where it would be more than all the water."
        ),
    ),
    Computed("change_needed", "Change needed each time", held(change_needed("{nitrate_interval}")), look=CHANGE),
    Pulled("change_share", via="tanks", label="Change planned", look=NITROGEN),
    Pulled("change_interval", via="tanks", label="every", look=NITROGEN),
    Computed(
        "nitrate_peak",
        "Nitrate before a change, long run",
        nitrogen.level_before_change(rise="{nitrate_interval}", share="{change_share}", source="{water_nitrate}"),
        look=replace(NITROGEN, show="0.0"),
        help="Where it settles after many changes as planned.",
    ),
)

OXYGEN_AND_DENSITY = (
    Computed(
        "saturation",
        "Oxygen at saturation",
        saturation("{temperature}"),
        look=OXYGEN,
    ),
    Computed(
        "bacteria_draw",
        "Oxygen draw of the filter",
        nitrogen.nitrification_oxygen(ammonia="{ammonia}"),
        look=OXYGEN,
    ),
    Computed(
        "reserve",
        "Hours without aeration",
        only_if(
            "{oxygen_draw}>0",
            gases.oxygen_reserve(saturation="{saturation}", volume="{net_volume}", draw="{draw}"),
        ),
        look=replace(OXYGEN, show="0.0"),
        help=(
            "From saturation down to the stop level, no exchange at the surface counted. "
            "Never a reason to delay aeration."
        ),
    ),
    Computed("mass", "Mass of animals", of_tank("mass", "g", "0"), look=replace(DENSITY, show="0.0")),
    Computed("density", "Mass per litre", mass.density(mass="{mass}", volume="{net_volume}"), look=DENSITY),
    Computed(
        "length_per_litre",
        "Length per litre",
        space.length_per_litre(length="{body_length}", volume="{net_volume}"),
        look=DENSITY,
    ),
    Computed(
        "inches_per_gallon",
        "Inches per US gallon",
        space.inches_per_gallon(length="{body_length}", volume="{net_volume}"),
        look=DENSITY,
    ),
)

WORKINGS: tuple[Column, ...] = (
    Pulled("residents", via="tanks", of="company.residents"),
    Pulled("run_end", via="tanks", of="company.run_end"),
    *pulled("tanks", "temperature", "plan_area", "swim_length", "fasting_days", "plant_uptake", "planted"),
    Pulled("yield_used", via="tanks", of="changes.yield_used"),
    Pulled("yield_is_own", via="tanks", of="changes.yield_is_own"),
    Computed("plant_growth", "Plants grow", GROWTH, look=HIDDEN),
    Computed(
        "plants_take",
        "Plants of this kind take a week",
        nitrogen.taken_by_plants(growth="{plant_growth}", area="{plan_area}", volume="{net_volume}"),
        look=HIDDEN,
    ),
    Computed(
        "by_planting",
        "or where that is not known",
        in_rows_with("tank", first_known("{plants_take}", "{const.plant_uptake}", unit="mg/L")),
        look=HIDDEN,
    ),
    Computed(
        "uptake",
        "Plants take a week",
        logic(
            'IF(COUNT({plant_uptake})=1,{plant_uptake},IF({yield_is_own}="yes",0,{by_planting}))',
            "mg/L",
            needs=("tank",),
        ),
        look=HIDDEN,
        help="As typed; else by how it is planted; nothing more where the tank's own yield has its plants in it.",
    ),
    Computed(
        "nitrogen",
        "Ammonia nitrogen, feeding day",
        of_tank("nitrogen", "g/day", "0"),
        look=replace(HIDDEN, show="0.0000"),
    ),
    Computed("nitrate_interval", "Nitrate rise between changes", nitrate_rise("{change_interval}"), look=HIDDEN),
    Computed("draw", "Oxygen draw of all", logic("{oxygen_draw}+{bacteria_draw}", "mg/h"), look=HIDDEN),
    Computed("length_wanted", "Length wanted", of_tank("length_wanted", "cm", "0"), look=HIDDEN),
    Computed("volume_wanted", "Volume wanted", of_tank("volume_wanted", "L", "0"), look=HIDDEN),
    Computed("bottom_wanted", "Bottom wanted", of_tank("bottom_wanted", "cm2", "0"), look=HIDDEN),
    Computed("body_length", "Body length of all", of_tank("body_length", "cm", "0"), look=replace(HIDDEN, show="0.0")),
    Computed("scaled_length", "Scaled by breath", of_tank("scaled_length", "cm", "0"), look=HIDDEN),
    Computed(
        "scaled_per_litre",
        "Scaled per litre",
        space.length_per_litre(length="{scaled_length}", volume="{net_volume}"),
        look=HIDDEN,
    ),
    Computed("weighed_groups", "Groups with a mass", of_tank("weighed", "1", "0"), look=COUNT),
    Computed(
        "load_share",
        "What more animals would raise",
        logic("MAX({nitrogen_share},{oxygen_share},{bottom_share})", "1"),
        look=SHARE,
    ),
    *(
        column
        for horizon, words in growing.HORIZONS
        for column in growing.tank_at(horizon, words, tuple(key for key, _ in MEASURES))
    ),
    Computed("rank", "Order of fullness", logic("{binding_share}-{line}/10^9", "1"), look=replace(SHARE, show="0.000")),
)

FLAGS = (
    Flag(
        "nothing_holds",
        "No water change holds the target",
        gathered=True,
        seriousness="act",
        when="AND({nitrate_week}>0,{water_nitrate}>={settings.nitrate_target})",
        why="the source water has {water_nitrate} of nitrate, the target is {settings.nitrate_target}",
        do="Blend with water that holds less, add fast plants, or set another target on Start.",
    ),
    Flag(
        "nitrate_act",
        "Nitrate will climb high",
        gathered=True,
        seriousness="act",
        when="{nitrate_peak}>{settings.nitrate_act}",
        why=(
            "with the changes planned it settles at {nitrate_peak} before a change; "
            "above {settings.nitrate_act} is the time to act"
        ),
        do=(
            "Change more or more often, feed less, add plants, or move animals; "
            "Change needed says what holds the target."
        ),
    ),
    Flag(
        "nitrate_watch",
        "Nitrate will pass the target",
        gathered=True,
        seriousness="watch",
        when=(
            "AND({nitrate_peak}>{settings.nitrate_target}*(1+{const.nitrate_slack}),"
            "{nitrate_peak}<={settings.nitrate_act})"
        ),
        why=(
            "nitrate rises {nitrate_week} a week; {change_share} every {change_interval} lets it settle "
            "at {nitrate_peak} before a change, the target is {settings.nitrate_target}"
        ),
        do="Change more or more often, feed less, add plants, or move animals.",
    ),
    Flag(
        "short_of_oxygen",
        "Little oxygen in reserve",
        gathered=True,
        seriousness="act",
        when="{reserve}<{const.oxygen_reserve_wanted}",
        why="without aeration the oxygen lasts {reserve}; {const.oxygen_reserve_wanted} are wanted",
        do="Keep fewer or smaller animals, and have a battery air pump ready; after a failure aerate this tank first.",
    ),
    Flag(
        "bottom_full",
        "Bottom crowded",
        gathered=True,
        seriousness="watch",
        when="{bottom_share}>1",
        why="its bottom dwellers want {bottom_wanted} of floor, there are {plan_area}",
        do="Move some, or choose a tank with a larger floor.",
    ),
    Flag(
        "nearly_full",
        "Nearly full",
        gathered=True,
        seriousness="note",
        when="AND({load_share}>{const.nearly_full},{binding_share}<=1)",
        why="water change, oxygen or bottom room stands at {load_share} of its limit",
        do="Add nothing that raises it further.",
    ),
    Flag(
        "mass_unknown",
        "Load understated",
        gathered=True,
        seriousness="note",
        when="{weighed_groups}<{residents}",
        why="{weighed_groups} of {residents} groups have a known mass, the others count for nothing",
        do="Type their length or body form.",
    ),
)

STOCKING = Table(
    "stocking",
    title="Stocking",
    rows_of="tanks",
    row_name=("tank",),
    purpose="100 % is the limit; the greatest share binds.",
    columns=(*VERDICT, *SHARES, *FROM_FOOD_TO_CHANGE, *OXYGEN_AND_DENSITY, *WORKINGS, *FLAGS),
)

SHEET = Sheet(
    "Stocking",
    role="detail",
    blocks=(STOCKING, CHARTS, COMPANY, FULLEST, CHOSEN),
    forms=(CHOICE,),
    frozen_columns=1,
    purpose=(
        "Five measures of how full a tank is, each as a share of its limit. "
        "One chain feeds them: length, mass, oxygen, food, ammonia, nitrate, water change."
    ),
    notes=("Planning estimates, good to about a third: test the water and watch the animals.",),
)
