"""What the answers of Tanks follow from: inner dimensions, displacement, glass, heat, and what is still unknown."""

from workbook.equations import geometry, heat, load
from workbook.sheets.parameters import PARAMETERS
from workbook.sheets.tank_shapes import SHAPES, around, inner_length, longest, measures, plan, typed_sizes
from workbook.tables import Computed, Look, Pulled, logic, text
from workbook.tables.formula import filled
from workbook.tables.idioms import first_known, in_rows_with, joined, only_if, position
from workbook.tables.template import here

BOW_TYPED = geometry.bow_segment(radius=geometry.bow_radius(chord="{length}", bow="{second_side}"), bow="{second_side}")
HIDDEN, HIDDEN_TEXT = Look(working=True, show="0.00"), Look(working=True, width=22)

STEPS: tuple[Pulled | Computed, ...] = (
    Computed(
        "stands_now",
        "Stands today",
        logic('IF({standing}="no",0,1)', "1", needs=("tank",)),
        look=Look(working=True, show="0"),
        help="0 where it is only planned.",
    ),
    Pulled("water_temperature", via="water", of="temperature_used", label="Source temperature"),
    *(
        Pulled(f"water_{p.key}", via="water", of=p.key if p.key == "ph" else f"{p.key}_used", label=f"Source {p.label}")
        for p in PARAMETERS[1:]
    ),
    Pulled("water_nitrate", via="water", of="nitrate_used", label="Source nitrate"),
    *(
        Computed(
            f"{p.key}_used",
            f"{p.label} reckoned with",
            first_known(here(p.key), here(f"water_{p.key}"), unit=p.unit),
            look=Look(working=True, show="0.0"),
        )
        for p in PARAMETERS[1:]
    ),
    Computed(
        "heater_largest",
        "Largest heater sold",
        logic("MAX({heater_sizes.heater_power[]})", "W", needs=("tank",)),
        look=Look(working=True, show="0"),
    ),
    Computed("shape_no", "Number of its shape", position("{shape}", SHAPES), look=Look(working=True, show="0")),
    Computed(
        "glass_off",
        "Glass to take off",
        logic('IF({measured}="inside",0,IF({glass}="","",{glass}))', "cm", needs=("measured",)),
        look=HIDDEN,
    ),
    Computed("inner_length", "Inside length", inner_length(), look=HIDDEN),
    Computed(
        "inner_width",
        "Inside width",
        geometry.inner_from_outer(outer="{width}", glass="{glass_off}", panes="2"),
        look=HIDDEN,
    ),
    Computed(
        "inner_second",
        "Inside short side or bow",
        logic('IF({shape}="trapezoid",{second_side}-2*{glass_off},{second_side})', "cm"),
        look=HIDDEN,
    ),
    Computed(
        "water_height",
        "Water height",
        logic("{height}-{glass_off}-{water_below_rim}", "cm"),
        look=HIDDEN,
        help="Height less the floor pane and the gap below the rim.",
    ),
    Computed(
        "measured_out",
        "Dimensions complete",
        logic(measures("{inner_length}", "{inner_width}", "{inner_second}"), "1", needs=("tank",)),
        look=Look(working=True, show="0"),
    ),
    Computed(
        "bow_radius",
        "Radius of the bow",
        only_if(
            'AND({shape}="bow front",{measured_out}=1)',
            geometry.bow_radius(chord="{inner_length}", bow="{inner_second}"),
        ),
        look=HIDDEN,
    ),
    Computed(
        "bow_segment", "Area of the bow", geometry.bow_segment(radius="{bow_radius}", bow="{inner_second}"), look=HIDDEN
    ),
    Computed(
        "plan_inside",
        "Water surface inside the glass",
        only_if("{measured_out}=1", plan("{inner_length}", "{inner_width}", "{inner_second}", "{bow_segment}")),
        look=HIDDEN,
    ),
    Computed(
        "swim_inside",
        "Longest swim inside the glass",
        only_if("{measured_out}=1", longest("{inner_length}", "{inner_width}", "{inner_second}")),
        look=HIDDEN,
    ),
    Computed(
        "sizes_typed",
        "Sizes complete",
        logic(typed_sizes(), "1", needs=("tank",)),
        look=Look(working=True, show="0"),
    ),
    Computed(
        "plan_typed",
        "Surface by the sizes typed",
        only_if("{sizes_typed}=1", plan("{length}", "{width}", "{second_side}", BOW_TYPED)),
        look=HIDDEN,
        help="Glass counted in; reckoned with while nobody typed how thick it is.",
    ),
    Computed(
        "swim_typed",
        "Swim by the sizes typed",
        only_if("{sizes_typed}=1", longest("{length}", "{width}", "{second_side}")),
        look=HIDDEN,
    ),
    Computed("perimeter", "Round the inside", around(), look=HIDDEN),
    Computed(
        "porosity_used",
        "Water in the substrate",
        in_rows_with("tank", first_known("{porosity}", "{const.porosity}", unit="1")),
        look=HIDDEN,
    ),
    Computed(
        "net_volume_reckoned",
        "Net volume reckoned",
        geometry.net_volume(
            gross="{gross_volume}",
            substrate=geometry.substrate_displacement(
                area="{plan_inside}", depth="{substrate_depth}", porosity="{porosity_used}"
            ),
            rock=geometry.hardscape_displacement(mass="{rock}", density="{const.rock_density}"),
            wood=geometry.hardscape_displacement(mass="{wood}", density="{const.wood_density}"),
        ),
        look=HIDDEN,
    ),
    Computed(
        "net_volume_estimated",
        "Net volume estimated",
        only_if(
            'AND({lacking}<>"",COUNT({net_volume_reckoned})=0,OR(COUNT({glass_off})=0,{measured_out}=1),'
            "OR(COUNT({water_height})=0,SUM({water_height})>0))",
            logic(
                "{box}*{const.water_share}",
                "L",
                needs=("plan_typed", "height", "const.water_share"),
                box=geometry.volume(area="{plan_typed}", height="{height}"),
            ),
        ),
        look=Look(working=True, show="0.0"),
        help="A share of its outside box, until glass, water line, substrate, rock and wood are typed.",
    ),
    Computed(
        "glass_mass",
        "Glass",
        load.glass_mass(perimeter="{perimeter}", height="{height}", area="{plan_inside}", glass="{glass}"),
        look=HIDDEN,
    ),
    Computed(
        "top_flow",
        "Heat flow through the top",
        logic('IF({lid}="yes",{const.u_top_covered},{const.u_top_open})', "W/m2K"),
        look=HIDDEN,
    ),
    Computed(
        "temperature_rise",
        "Warmer than the room",
        logic("MAX(0,{temperature}-{settings.room_temperature})", "K"),
        look=HIDDEN,
    ),
    Computed("heater_wanted", "Heater power wanted", heat.heater_wanted(loss="{heat_loss}"), look=HIDDEN),
    Computed(
        "heater_density",
        "Heater by volume",
        heat.watts_per_gallon(power="{heater_size}", volume="{net_volume}"),
        look=Look(working=True, show="0.0"),
    ),
    Computed(
        "heater_by_volume",
        "Heater for its water",
        logic("{heater_size}/{net_volume}", "W/L"),
        look=Look(working=True, show="0.00"),
        help="The same in the units of the file.",
    ),
    Computed(
        "turnover_wanted",
        "Least turnover",
        logic('IF(OR({flow}="still",{flow}="gentle"),{const.turnover_gentle},{const.turnover_low})', "1/h"),
        look=HIDDEN,
    ),
    Computed(
        "animals",
        "Animals in it",
        in_rows_with("tank", logic("INDEX({stocking.animals[]},{line})", "1")),
        look=Look(working=True, show="0"),
    ),
    Computed(
        "lacking",
        "Still unknown",
        in_rows_with(
            "tank",
            joined(
                ('{shape}=""', '"shape"'),
                ('{measured}=""', '"measured outside or inside"'),
                (
                    filled(
                        'AND({shape}<>"",OR({typed_sizes}=0,AND({glass_off}<>"",{measured_out}=0)))',
                        typed_sizes=typed_sizes(),
                    ),
                    '"a dimension that fits the shape"',
                ),
                ("COUNT({glass})=0", '"glass"'),
                ("COUNT({height})=0", '"height"'),
                ("COUNT({water_below_rim})=0", '"water below rim"'),
                ("COUNT({substrate_depth})=0", '"substrate depth (0 for none)"'),
                ("COUNT({rock})=0", '"rock (0 for none)"'),
                ("COUNT({wood})=0", '"wood (0 for none)"'),
                between=", ",
            ),
        ),
        kind=text(),
        look=HIDDEN_TEXT,
    ),
    Computed(
        "heat_lacking",
        "Mass and heat still unknown",
        in_rows_with(
            "tank",
            joined(
                ('{lacking}<>""', "{lacking}"),
                ('{temperature}=""', '"set temperature"'),
                ('{lid}=""', '"lid (yes or no)"'),
                between=", ",
            ),
        ),
        kind=text(),
        look=HIDDEN_TEXT,
    ),
    Computed(
        "water_lacking",
        "Its water still unknown",
        in_rows_with(
            "tank", joined(('{ph_used}=""', '"pH"'), ('{gh_used}=""', '"GH"'), ('{kh_used}=""', '"KH"'), between=", ")
        ),
        kind=text(),
        look=HIDDEN_TEXT,
    ),
    Computed(
        "plan_lacking",
        "Plan still unknown",
        in_rows_with(
            "tank",
            joined(
                ('{water}=""', '"the water it is filled with"'),
                ('{temperature}=""', '"set temperature"'),
                ('{change_share}=""', '"water change share"'),
                ('{change_interval}=""', '"water change interval"'),
                ('{meals}=""', '"meals a day"'),
                ('{fasting_days}=""', '"fasting days (0 for none)"'),
                between=", ",
            ),
        ),
        kind=text(),
        look=HIDDEN_TEXT,
    ),
)
