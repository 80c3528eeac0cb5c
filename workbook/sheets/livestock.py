"""Livestock: which animals live in which tank, what they weigh, breathe and eat, and who is at risk from whom."""

from workbook.equations import feeding, mass, metabolism, nitrogen, space
from workbook.sheets.parameters import KEYS, PARAMETERS, Parameter
from workbook.sheets.roll import ROLL
from workbook.sheets.wishes import FLOW, LIGHT, WISHES
from workbook.tables import (
    Computed,
    Flag,
    Look,
    Pulled,
    Said,
    Sheet,
    Table,
    Typed,
    count,
    date,
    link,
    logic,
    number,
    text,
)
from workbook.tables.idioms import all_said, first_known, in_rows_with, joined, position
from workbook.tables.template import for_each, quoted

GROUP, MODEL, VERDICT = (
    Look("The group", 10, "0.0"),
    Look("Length to mass to oxygen to food to nitrogen", 10, "0.00"),
    Look("Company and water", 26, status=True),
)
WIDER = Look("The ranges it brings", 12, "0.0")
RANGE, HIDDEN = Look("The ranges it brings", 8, "0.0"), Look(working=True, show="0.00")


def outside(p: Parameter) -> tuple[tuple[str, str], ...]:
    """Tests and words for a tank's value outside the species' range in use."""
    return (
        (
            p.filled("AND(COUNT({tank_*},{*_low})=2,{tank_*}<{*_low})"),
            p.filled('{name}&{@words.tank_*}&" below its "&{@words.*_low}', name=quoted(f"{p.word} ")),
        ),
        (
            p.filled("AND(COUNT({tank_*},{*_high})=2,{tank_*}>{*_high})"),
            p.filled('{name}&{@words.tank_*}&" above its "&{@words.*_high}', name=quoted(f"{p.word} ")),
        ),
    )


COMPARED = for_each(KEYS, "COUNT({tank_*})*COUNT({*_low},{*_high})", "+")

LIVESTOCK = Table(
    "livestock",
    title="Livestock",
    row_name=("tank", "species"),
    spare_rows=2,
    purpose="One row for each group of one species in one tank.",
    example={"tank": "Window tank", "species": "Neon tetra", "animals": 12},
    columns=(
        Typed("tank", "Tank", link("tanks"), required=True, look=Look("The group", 20)),
        Typed("species", "Species", link("species"), required=True, look=Look("The group", 24)),
        Typed(
            "animals",
            "How many",
            count(0, 10_000),
            unit="1",
            required=True,
            look=Look("The group", 8, "0"),
            help="Living animals on the plan date.",
        ),
        Said(look=Look("The group", 54)),
        Typed(
            "length_now",
            "Length now",
            number(0.1, 200),
            unit="cm",
            look=GROUP,
            help="Snout to end of tail. Blank: reckoned as adult.",
        ),
        Typed(
            "feed_factor",
            "Feeding factor",
            number(0.1, 5),
            unit="1",
            look=GROUP,
            help="Blank: 1, keeping condition. 1.5 for growing on or conditioning.",
        ),
        Typed("males", "Males", count(0, 10_000), unit="1", look=Look("The group", 7, "0")),
        Typed("females", "Females", count(0, 10_000), unit="1", look=Look("The group", 8, "0")),
        Typed("date_in", "Came in", date(), look=Look("The group", 11)),
        Typed("origin", "From", text(), look=Look("The group", 20)),
        Typed("quarantine_until", "Quarantine until", date(), look=Look("The group", 11)),
        Typed("stock_note", "Note", text(), look=Look("The group", 30)),
        Computed(
            "length",
            "Length",
            first_known("{length_now}", "{adult_length}", unit="cm"),
            look=Look(MODEL.group, 8, "0.0"),
            help="As typed, or adult.",
        ),
        Computed(
            "mass_each",
            "Mass of one",
            logic('IF(AND({length_now}="",{weighed}<>""),{weighed},{mass_by_length})', "g", copes=True),
            look=MODEL,
        ),
        Computed("mass", "Mass of all", mass.of_group(each="{mass_each}", animals="{animals}"), look=MODEL),
        Computed(
            "oxygen_draw",
            "Oxygen draw",
            metabolism.of_group(
                each=metabolism.routine_oxygen(
                    resting=metabolism.resting_oxygen(mass="{mass_each}", temperature="{tank_temperature}")
                ),
                animals="{animals}",
            ),
            look=MODEL,
            help="Everyday activity at the tank's set temperature.",
        ),
        Computed(
            "food",
            "Dry food",
            feeding.with_growth(ration=feeding.ration(oxygen="{oxygen_draw}"), factor="{feed_factor_used}"),
            look=Look(MODEL.group, 10, "0.000"),
            help="On a feeding day.",
        ),
        Computed(
            "nitrogen",
            "Ammonia nitrogen",
            nitrogen.ammonia_from_food(food="{food}", protein="{protein}"),
            look=Look(MODEL.group, 11, "0.0000"),
            help="Given off on a feeding day.",
        ),
        Computed(
            "eaten_by",
            "Could be eaten by",
            logic('IF({victim_length}<{mouthful_max},{mouthful_who},"")'),
            kind=text(),
            look=Look("Company and water", 20),
        ),
        Computed(
            "could_eat",
            "Could eat",
            logic('IF({mouthful}>{victim_min},{victim_who},"")'),
            kind=text(),
            look=Look("Company and water", 20),
        ),
        Computed(
            "water_verdict",
            "Tank's water",
            logic(
                'IF({outside}<>"","◆ "&{outside},IF({compared}=0,"unknown","inside its ranges"))',
                needs=("tank_row", "species_row"),
                compared=COMPARED,
            ),
            kind=text(),
            look=VERDICT,
        ),
        Computed(
            "at_odds",
            "At odds over light, flow or floor",
            in_rows_with(
                "species_row",
                joined(
                    ('{light_unlike}<>""', '"light: "&{light_unlike}'),
                    ('{flow_unlike}<>""', '"flow: "&{flow_unlike}'),
                    ('{bottom_rival}<>""', '"floor: "&{bottom_rival}'),
                ),
            ),
            kind=text(),
            look=Look("Company and water", 36),
            help=(
                "Who in its tank likes light or flow quite otherwise, or shares a floor too small for all. "
                "Tankmates and Comfort say what helps."
            ),
        ),
        *(
            Pulled(
                f"{p.key}_{end}",
                via="species",
                of=f"used_{p.key}_{end}",
                look=WIDER if p.key == "temperature" else RANGE,
            )
            for p in PARAMETERS
            for end in ("low", "high")
        ),
        Pulled("kind", via="species"),
        Pulled("adult_length", via="species"),
        Pulled("weighed", via="species", of="mass_typed", label="Weighed adult"),
        Pulled("mass_factor", via="species"),
        Pulled("mass_exponent", via="species"),
        Pulled("group_min", via="species"),
        Pulled("volume_min", via="species"),
        Pulled("length_min", via="species"),
        Pulled("swim", via="species"),
        Pulled("bottom_room", via="species"),
        Pulled("temper", via="species"),
        Pulled("bites_fins", via="species"),
        Pulled("long_fins", via="species"),
        Pulled("mouth_share", via="species"),
        Pulled("eats_shrimp", via="species"),
        Pulled("eats_snails", via="species"),
        Pulled("food_size", via="species"),
        *(Pulled(wish.key, via="species") for wish in WISHES),
        Pulled("tank_temperature", via="tank", of="temperature", label="Tank's temperature"),
        *(Pulled(f"tank_{p.key}", via="tank", of=f"{p.key}_used", label=f"Tank's {p.label}") for p in PARAMETERS[1:]),
        Pulled("net_volume", via="tank"),
        Pulled("swim_length", via="tank"),
        Pulled("protein", via="tank", of="feeding_tanks.protein", label="Protein of its food"),
        Pulled("residents", via="tank", of="company.residents", label="Groups in the tank"),
        Pulled("in_quarantine", via="tank", of="company.in_quarantine", label="Groups in quarantine"),
        Pulled("mouthful_max", via="tank", of="company.mouthful_max"),
        Pulled("mouthful_who", via="tank", of="company.mouthful_who"),
        Pulled("victim_min", via="tank", of="company.victim_min"),
        Pulled("victim_who", via="tank", of="company.victim_who"),
        Pulled("temper_max", via="tank", of="company.temper_max"),
        Pulled("temper_who", via="tank", of="company.temper_who"),
        Pulled("biters", via="tank", of="company.biters"),
        Pulled("first_biter", via="tank", of="company.first_biter"),
        Pulled("last_biter", via="tank", of="company.last_biter"),
        Pulled("shrimp_hunters", via="tank", of="company.shrimp_hunters"),
        Pulled("shrimp_hunter", via="tank", of="company.shrimp_hunter"),
        Pulled("young_eaters", via="tank", of="company.young_eaters"),
        Pulled("young_eater", via="tank", of="company.young_eater"),
        Pulled("snail_eaters", via="tank", of="company.snail_eaters"),
        Pulled("snail_eater", via="tank", of="company.snail_eater"),
        Pulled("bottom_dwellers", via="tank", of="company.bottom_dwellers"),
        Pulled("first_bottom", via="tank", of="company.first_bottom"),
        Pulled("last_bottom", via="tank", of="company.last_bottom"),
        Pulled("floor_wanted", via="tank", of="stocking.bottom_wanted", label="Bottom all want"),
        Pulled("plan_area", via="tank"),
        *(
            Pulled(key_, via="tank", of=f"comfort.{key_}")
            for wish in (LIGHT, FLOW)
            for _, key_ in wish.keys
            if key_ != "light_medium"
        ),
        Computed(
            "mass_by_length",
            "Mass by length",
            mass.from_length(length="{length}", factor="{mass_factor}", exponent="{mass_exponent}"),
            look=Look(working=True, show="0.000"),
        ),
        Computed(
            "feed_factor_used",
            "Feeding factor reckoned with",
            logic('IF({feed_factor}="",1,{feed_factor})', "1", needs=("species",)),
            look=HIDDEN,
        ),
        Computed(
            "lives_in",
            "Row of the tank it lives in",
            logic('IF(AND(COUNT({animals})=1,N({animals})=0),"",{tank_row})', "1", needs=("tank_row",)),
            look=Look(working=True, show="0"),
            help="Blank for a group that has come to an end: 0 animals.",
        ),
        Computed(
            "place",
            "Tank and line",
            logic("{lives_in}*10^6+{line}", "1"),
            look=Look(working=True, width=11, show="0"),
            help="The order of the roll.",
        ),
        Computed(
            "of_kind",
            "Species and line",
            logic("{species_row}*10^6+{line}", "1", needs=("species_row", "lives_in")),
            look=Look(working=True, width=11, show="0"),
            help="The order of the care cards.",
        ),
        Computed(
            "pair",
            "Tank and species",
            logic("{tank_row}+{species_row}/10^6", "1"),
            look=Look(working=True, width=11, show="0.000000"),
        ),
        Computed(
            "together",
            "Of its kind in the tank",
            logic("SUMIFS({livestock.animals[]},{livestock.pair[]},{pair})", "1"),
            look=Look(working=True, show="0"),
        ),
        Computed(
            "small_group_no",
            "Group too small",
            logic("IF(AND({animals}>0,{together}<{group_min}),1,0)", "1"),
            look=Look(working=True, show="0"),
        ),
        Computed("body_length", "Body length of all", logic("{length}*{animals}", "cm"), look=HIDDEN),
        Computed(
            "scaled_length",
            "Body length by breath",
            space.scaled_length(
                mass_each="{mass_each}",
                animals="{animals}",
                reference_mass=mass.from_length(
                    length="{const.rule_reference_length}",
                    factor='INDEX({body_forms.mass_factor[]},MATCH("fusiform",{body_forms.form[]},0))',
                    exponent='INDEX({body_forms.mass_exponent[]},MATCH("fusiform",{body_forms.form[]},0))',
                ),
            ),
            look=HIDDEN,
        ),
        Computed(
            "swim_multiple",
            "Lengths it needs",
            logic(
                'IF({swim}="active",{const.swim_active},IF({swim}="calm",{const.swim_calm},{const.swim_sedentary}))',
                "1",
            ),
            look=HIDDEN,
        ),
        Computed(
            "swim_wanted",
            "Length by swimming",
            space.swim_length(adult_length="{adult_length}", multiple="{swim_multiple}"),
            look=HIDDEN,
        ),
        Computed(
            "length_wanted",
            "Shortest tank",
            first_known("{length_min}", "{swim_wanted}", unit="cm"),
            look=Look(working=True, show="0.0"),
        ),
        Computed(
            "bottom_factor",
            "Side of its square",
            logic(
                'IF({bottom_room}="holds ground",{const.bottom_holds},'
                'IF({bottom_room}="social",{const.bottom_social},0))',
                "1",
            ),
            look=HIDDEN,
        ),
        Computed(
            "bottom_wanted",
            "Bottom it wants",
            space.bottom_room(adult_length="{adult_length}", factor="{bottom_factor}", animals="{animals}"),
            look=HIDDEN,
        ),
        Computed(
            "mouthful",
            "Longest it can swallow",
            logic('IF({animals}>0,ROUND({mouth_share}*{length},6),"")', "cm"),
            look=HIDDEN,
            help="To the sixth decimal: an inch typed is no round number of cm, and equal ones must stay equal.",
        ),
        Computed(
            "victim_length",
            "Length as prey",
            logic('IF(AND({animals}>0,{kind}<>"snail"),ROUND({length},6),"")', "cm"),
            look=HIDDEN,
        ),
        Computed(
            "temper_counted",
            "Temper among fish",
            logic('IF(AND({animals}>0,{kind}="fish"),{temper},"")', "1"),
            look=Look(working=True, show="0"),
        ),
        Computed(
            "days_here",
            "Days since it came",
            logic("{settings.plan_date}-{date_in}", "day"),
            look=Look(working=True, show="0"),
        ),
        Computed(
            "waiting",
            "In quarantine",
            logic("IF({quarantine_until}>{settings.plan_date},1,0)", "1"),
            look=Look(working=True, show="0"),
        ),
        Computed(
            "other_biters",
            "Biters besides itself",
            logic('IF(AND({bites_fins}="yes",{animals}>0),{biters}-1,{biters})', "1"),
            look=Look(working=True, show="0"),
        ),
        Computed(
            "biter",
            "Who bites",
            logic(
                'IF({first_biter}<>{species},{first_biter},IF({last_biter}<>{species},{last_biter},"another group"))'
            ),
            kind=text(),
            look=Look(working=True, width=16),
        ),
        Computed(
            "outside",
            "Outside its ranges",
            joined(*(t for p in PARAMETERS for t in outside(p))),
            kind=text(),
            look=Look(working=True, width=20),
        ),
        Computed(
            "in_overlap",
            "In the tank chosen on Overlap",
            logic('{above.in_overlap}+IF(AND({lives_in}<>"",{tank}={overlap_choice.tank}),1,0)', "1", copes=True),
            seed="0",
            look=Look(working=True, show="0"),
        ),
        Computed(
            "light_no",
            "Light it likes",
            in_rows_with("light", position("{light}", LIGHT.choices)),
            look=Look(working=True, show="0"),
        ),
        Computed(
            "flow_no",
            "Flow it likes",
            in_rows_with("flow", position("{flow}", FLOW.choices)),
            look=Look(working=True, show="0"),
        ),
        Computed(
            "light_unlike",
            "Like other light",
            logic('CHOOSE({light_no},{light_bright},"",{light_dim})&""', needs=("light_no",)),
            kind=text(),
            look=Look(working=True, width=18),
            help="Two steps away: dim and bright.",
        ),
        Computed(
            "flow_unlike",
            "Like other flow",
            logic(
                'CHOOSE({flow_no},{medium_and_strong},{flow_strong},{flow_still},{still_and_gentle})&""',
                needs=("flow_no",),
                medium_and_strong=all_said(["{flow_medium}", "{flow_strong}"], ", "),
                still_and_gentle=all_said(["{flow_still}", "{flow_gentle}"], ", "),
            ),
            kind=text(),
            look=Look(working=True, width=18),
            help="Two steps away or more.",
        ),
        Computed(
            "bottom_other",
            "Another on the bottom",
            logic(
                "IF({first_bottom}<>{species},{first_bottom},"
                'IF({last_bottom}<>{species},{last_bottom},"another group"))'
            ),
            kind=text(),
            look=Look(working=True, width=16),
        ),
        Computed(
            "bottom_rival",
            "Shares a floor too small",
            logic('IF(AND({bottom_wanted}>0,{bottom_dwellers}>1,{floor_wanted}>{plan_area}),{bottom_other},"")'),
            kind=text(),
            look=Look(working=True, width=16),
        ),
        Flag(
            "eaten",
            "Can be eaten",
            seriousness="act",
            when='AND({animals}>0,{victim_length}<{mouthful_max},OR({kind}<>"shrimp",{shrimp_hunters}=0))',
            why="at {victim_length} it fits the mouth of {mouthful_who}, which can swallow {mouthful_max}",
            do="Part them, or raise these larger before they meet.",
        ),
        Flag(
            "clash_of_temper",
            "Temper clash",
            seriousness="act",
            when="{temper_max}-{temper_counted}>={const.temper_clash}",
            why=(
                "temper {temper_counted} beside {temper_who}, temper {temper_max} on the scale of 1 gentle to 5 hostile"
            ),
            do="House the gentler kind elsewhere.",
        ),
        Flag(
            "fins",
            "Fins at risk",
            seriousness="act",
            when='AND({long_fins}="yes",{other_biters}>0,{animals}>0)',
            why="its long fins will be bitten by {biter}",
            do="Part them; a larger group of the biter helps, but does not cure it.",
        ),
        Flag(
            "shrimp_hunted",
            "Shrimp hunted",
            seriousness="act",
            when='AND({kind}="shrimp",{shrimp_hunters}>0,{animals}>0)',
            why="{shrimp_hunter} hunts grown shrimp",
            do="Give the shrimp a tank without hunters.",
        ),
        Flag(
            "tiny_tank",
            "Tank far too small",
            seriousness="act",
            when="AND({animals}>0,{net_volume}<{volume_min}/2)",
            why="{net_volume} net, this species wants at least {volume_min}",
            do="Move it to a larger tank now; until then change water often and feed little.",
        ),
        Flag(
            "small_tank",
            "Tank too small",
            seriousness="watch",
            when=(
                "AND({animals}>0,{net_volume}<{volume_min}*(1-{const.nominal_allowance}),{net_volume}>={volume_min}/2)"
            ),
            why="{net_volume} net, this species wants at least {volume_min}",
            do="Move it to a larger tank.",
        ),
        Flag(
            "short_tank",
            "Tank too short",
            seriousness="watch",
            when="AND({animals}>0,{swim_length}<{length_wanted}*(1-{const.nominal_allowance}))",
            why="{swim_length} to swim in, this species wants {length_wanted}",
            do="Move it to a longer tank.",
        ),
        Flag(
            "small_group",
            "Group too small",
            seriousness="watch",
            when="{small_group_no}=1",
            why="{together} kept, this species wants at least {group_min}; fewer are shy, pale or nippy",
            do="Add animals of this species, or move these to a group.",
        ),
        Flag(
            "gap_of_temper",
            "Temper gap",
            seriousness="watch",
            when=(
                "AND({temper_max}-{temper_counted}>={const.temper_watch},"
                "{temper_max}-{temper_counted}<{const.temper_clash})"
            ),
            why="temper {temper_counted} beside {temper_who}, temper {temper_max}",
            do="Watch for chasing, torn fins and hiding; give broken lines of sight, or part them.",
        ),
        Flag(
            "snails_hunted",
            "Snails at risk",
            seriousness="watch",
            when='AND({kind}="snail",{snail_eaters}>0,{animals}>0)',
            why="{snail_eater} eats snails",
            do="Give the snails another tank, or accept the loss.",
        ),
        Flag(
            "not_apart",
            "Quarantine not apart",
            seriousness="watch",
            when="AND({animals}>0,{waiting}=1,{residents}>{in_quarantine})",
            why="in quarantine until {quarantine_until}, yet among animals that are not",
            do=(
                "Move it to a tank of its own until then; own net, own towels, wash hands between tanks. Illness: "
                "a veterinarian."
            ),
        ),
        Flag(
            "no_quarantine",
            "New, without a quarantine date",
            seriousness="note",
            copes=True,
            when=(
                'AND(N({animals})>0,{quarantine_until}="",COUNT({days_here},{const.quarantine_days})=2,'
                "N({days_here})<N({const.quarantine_days}))"
            ),
            why="it came in {date_in} and no end of quarantine is typed",
            do="Type the day until which it stays apart, or the day it came out.",
        ),
        Flag(
            "sexes",
            "Sexes do not add up",
            seriousness="note",
            when="{males}+{females}>{animals}",
            why="{males} males and {females} females are more than {animals}",
            do="Count again.",
        ),
        Flag(
            "shrimp_young",
            "Young shrimp will be eaten",
            seriousness="note",
            when='AND({kind}="shrimp",{young_eaters}>0,{shrimp_hunters}=0,{animals}>0)',
            why="grown shrimp are safe by size, but {young_eater} takes their young",
            do="Give moss and leaf litter, or a shrimp tank if you want them to multiply.",
        ),
        Flag(
            "no_mass",
            "Mass unknown",
            seriousness="note",
            copes=True,
            when='AND({species_row}<>"",{mass_each}="")',
            why="without length or body form its load counts for nothing in this tank",
            do="Type its length, or complete the species.",
        ),
    ),
)

SHEET = Sheet(
    "Livestock",
    role="input",
    blocks=(LIVESTOCK, ROLL),
    frozen_columns=2,
    new_page_before=("livestock.length",),
    purpose="Who lives where, and how many; beside it the chain from length to nitrogen, and who is at risk from whom.",
    notes=(
        (
            "Mass from length is good to about a third, a factor of two for tiny fish; weigh some if it matters. "
            "Watch the animals: they overrule any calm cell."
        ),
    ),
)
