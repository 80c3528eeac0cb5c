"""What the answers of Livestock follow from: traits of species and tank, and what they make of each group."""

from workbook.equations import mass, space
from workbook.sheets.constants import EXPONENTS
from workbook.sheets.parameters import KEYS, PARAMETERS, Parameter
from workbook.sheets.wishes import FLOW, LIGHT, WISHES
from workbook.tables import Computed, Look, Pulled, logic, pulled, text
from workbook.tables.formula import filled
from workbook.tables.idioms import POSITIVE, all_said, first_known, in_rows_with, joined, only_if, position, within
from workbook.tables.template import for_each, quoted

WIDER = Look("The ranges it brings", 12, "0.0")

FUSIFORM_FACTOR = 'INDEX({body_forms.mass_factor[]},MATCH("fusiform",{body_forms.form[]},0))'
FUSIFORM_EXPONENT = 'INDEX({body_forms.mass_exponent[]},MATCH("fusiform",{body_forms.form[]},0))'

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

RANGES = (
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
)

OF_SPECIES = (
    *pulled("species", "kind", "adult_length"),
    Pulled("weighed", via="species", of="mass_typed", label="Weighed adult"),
    *pulled("species", "mass_factor", "mass_exponent", "group_min", "volume_min", "length_min", "swim", "bottom_room"),
    *pulled("species", "temper", "bites_fins", "long_fins", "mouth_share", "eats_shrimp", "eats_snails", "food_size"),
    *pulled("species", *(wish.key for wish in WISHES)),
)

OF_TANK = (
    Pulled("tank_standing", via="tank", of="standing", label="Tank stands"),
    Pulled("tank_temperature", via="tank", of="temperature", label="Tank's temperature"),
    *(Pulled(f"tank_{p.key}", via="tank", of=p.kept, label=f"Tank's {p.label}") for p in PARAMETERS[1:]),
    *pulled("tank", "net_volume", "swim_length"),
    Pulled("protein", via="tank", of="feeding_tanks.protein", label="Protein of its food"),
    Pulled("residents", via="tank", of="company.residents", label="Groups in the tank"),
    Pulled("in_quarantine", via="tank", of="company.in_quarantine", label="Groups in quarantine"),
    *pulled("tank", "mouthful_max", "mouthful_who", "victim_min", "victim_who", table="company"),
    *pulled("tank", "temper_max", "temper_who", "biters", "first_biter", "last_biter", table="company"),
    *pulled("tank", "shrimp_hunters", "shrimp_hunter", "young_eaters", "young_eater", table="company"),
    *pulled("tank", "snail_eaters", "snail_eater", "bottom_dwellers", "first_bottom", "last_bottom", table="company"),
    Pulled("floor_wanted", via="tank", of="stocking.bottom_wanted", label="Bottom all want"),
    *pulled("tank", "plan_area"),
    *pulled(
        "tank",
        *(key_ for wish in (LIGHT, FLOW) for _, key_ in wish.keys if key_ != "light_medium"),
        table="comfort",
    ),
)

COUNTED = (
    Computed(
        "expected",
        "Not there yet",
        logic(
            'IF(OR({tank_standing}="no",AND(COUNT({date_in},{settings.plan_date})=2,'
            'SUM({date_in})>SUM({settings.plan_date}))),1,"")',
            "1",
            copes=True,
        ),
        look=Look(working=True, show="0"),
        help="1 where it comes in after the plan date, or its tank is only planned.",
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
        logic('IF(AND(COUNT({living})=1,SUM({living})=0),"",{tank_row})', "1", needs=("tank_row",)),
        look=Look(working=True, show="0"),
        help="Blank for a group that has come to an end, or has not arrived: 0 animals.",
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
        logic("SUMIFS({livestock.living[]},{livestock.pair[]},{pair})", "1"),
        look=Look(working=True, show="0"),
    ),
)

WANTED = (
    Computed(
        "small_group_no",
        "Group too small",
        logic("IF(AND({living}>0,{together}<{group_min}),1,0)", "1"),
        look=Look(working=True, show="0"),
    ),
    Computed("body_length", "Body length of all", logic("{length}*{living}", "cm"), look=HIDDEN),
    Computed(
        "scaled_length",
        "Body length by breath",
        only_if(
            filled(
                "AND({const.rule_reference_length}>0,COUNT({factor})=1,{factor}>0,{fits})",
                factor=FUSIFORM_FACTOR,
                fits=within(EXPONENTS, FUSIFORM_EXPONENT),
            ),
            space.scaled_length(
                mass_each="{mass_each}",
                animals="{living}",
                reference_mass=mass.from_length(
                    length="{const.rule_reference_length}", factor=FUSIFORM_FACTOR, exponent=FUSIFORM_EXPONENT
                ),
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
        first_known("{length_min}", "{swim_wanted}", unit="cm", test=POSITIVE),
        look=Look(working=True, show="0.0"),
    ),
    Computed(
        "bottom_factor",
        "Side of its square",
        logic(
            'IF({bottom_room}="holds ground",{const.bottom_holds},IF({bottom_room}="social",{const.bottom_social},0))',
            "1",
        ),
        look=HIDDEN,
    ),
    Computed(
        "bottom_wanted",
        "Bottom it wants",
        space.bottom_room(adult_length="{adult_length}", factor="{bottom_factor}", animals="{living}"),
        look=HIDDEN,
    ),
)

RISKS = (
    Computed(
        "mouthful",
        "Longest it can swallow",
        logic('IF({living}>0,ROUND({mouth_share}*{length},6),"")', "cm"),
        look=HIDDEN,
        help="To the sixth decimal: an inch typed is no round number of cm, and equal ones must stay equal.",
    ),
    Computed(
        "victim_length",
        "Length as prey",
        logic('IF(AND({living}>0,{kind}<>"snail"),ROUND({length},6),"")', "cm"),
        look=HIDDEN,
    ),
    Computed(
        "temper_counted",
        "Temper among fish",
        logic('IF(AND({living}>0,{kind}="fish"),{temper},"")', "1"),
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
        logic('IF(AND({bites_fins}="yes",{living}>0),{biters}-1,{biters})', "1"),
        look=Look(working=True, show="0"),
    ),
    Computed(
        "biter",
        "Who bites",
        logic('IF({first_biter}<>{species},{first_biter},IF({last_biter}<>{species},{last_biter},"another group"))'),
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
        "In the tank in view",
        logic('{above.in_overlap}+IF(AND({lives_in}<>"",{tank}={overlap_choice.in_view}),1,0)', "1", copes=True),
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
            'IF({first_bottom}<>{species},{first_bottom},IF({last_bottom}<>{species},{last_bottom},"another group"))'
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
)
