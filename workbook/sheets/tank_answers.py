"""Answers of Tanks: what each tank holds, weighs and needs."""

from dataclasses import replace

from workbook.equations import conversions, geometry, heat, load
from workbook.tables import Computed, Look, logic
from workbook.tables.idioms import taken_as

HOLDS, WEIGHS, WORKS = (
    Look("What it holds", 10, "0.0"),
    Look("What it weighs", 10, "0.0"),
    Look("Filter and heater", 10, "0.0"),
)

ANSWERS = (
    Computed(
        "gross_volume",
        "Water to the rim line",
        geometry.volume(area="{plan_inside}", height="{water_height}"),
        look=HOLDS,
        help="Inside the glass up to the water line.",
    ),
    Computed(
        "net_volume",
        "Net volume",
        logic(
            "IF(SUM({net_volume_measured})>0,{net_volume_measured},"
            "IF(SUM({net_volume_reckoned})>0,{net_volume_reckoned},{net_volume_estimated}))",
            "L",
            needs=("tank",),
        ),
        look=HOLDS,
        help="What is left for water; all doses and loads go by it. An estimate until the details are typed.",
    ),
    Computed(
        "net_gallons",
        "Net volume",
        conversions.litre_to_gallon(value="{net_volume}"),
        look=replace(HOLDS, metric_only=True),
    ),
    Computed(
        "plan_area",
        "Water surface",
        logic(
            'IF(COUNT({plan_inside})=1,{plan_inside},IF(COUNT({glass_off})=1,"",{plan_typed}))', "cm2", needs=("tank",)
        ),
        look=Look("What it holds", 10, "0"),
    ),
    Computed(
        "swim_length",
        "Longest swim",
        logic(
            'IF(COUNT({swim_inside})=1,{swim_inside},IF(COUNT({glass_off})=1,"",{swim_typed}))', "cm", needs=("tank",)
        ),
        look=HOLDS,
        help="The longer side, the diameter, or across the corners of a hexagon or octagon.",
    ),
    Computed(
        "footprint",
        "Footprint",
        geometry.footprint(area="{plan_inside}", perimeter="{perimeter}", glass="{glass}"),
        look=Look("What it weighs", 10, "0"),
        help="Floor it covers, panes counted.",
    ),
    Computed(
        "filled_mass",
        "Filled mass",
        load.filled_mass(
            water=load.water_mass(volume="{net_volume}"),
            glass="{glass_mass}",
            substrate=load.substrate_mass(area="{plan_inside}", depth="{substrate_depth}", porosity="{porosity_used}"),
            rock="{rock}",
            wood="{wood}",
        ),
        look=Look("What it weighs", 10, "0"),
        help="Without the stand.",
    ),
    Computed(
        "floor_load",
        "Load on its footprint",
        load.floor_load(mass="{filled_mass}", area="{footprint}"),
        look=Look("What it weighs", 10, "0"),
    ),
    Computed("turnover", "Filter turnover", logic("{filter_flow}/{net_volume}", "1/h"), look=WORKS),
    Computed(
        "heat_loss",
        "Heat loss in the coldest room",
        heat.heat_loss(
            side_area=logic("{perimeter}*{water_height}", "cm2"),
            plan_area="{plan_inside}",
            rise="{temperature_rise}",
            top="{top_flow}",
        ),
        look=Look("Filter and heater", 10, "0"),
    ),
    Computed(
        "heater_size",
        "Heater",
        logic(
            "IF({heater_wanted}=0,0,"
            "IF({heater_wanted}>{heater_largest},"
            "ROUNDUP(ROUND({heater_wanted}/{heater_largest},6),0)*{heater_largest},"
            'INDEX({heater_sizes.heater_power[]},COUNTIF({heater_sizes.heater_power[]},"<"&{heater_wanted})+1)))',
            "W",
        ),
        look=Look("Filter and heater", 10, "0"),
        help="Next size sold; two heaters of half the size are safer than one. 0 heat loss needs none.",
    ),
    Computed(
        "daily_energy",
        "Energy a day, coldest",
        heat.daily_energy(loss="{heat_loss}"),
        look=Look("Filter and heater", 10, "0.00"),
    ),
    Computed(
        "monthly_energy_cost",
        "Energy cost a month",
        logic(
            "{energy_a_day}*{const.month_days}*{settings.energy_price}",
            "currency",
            energy_a_day=taken_as(logic("{daily_energy}", "kWh"), "kWh/day"),
        ),
        look=Look("Filter and heater", 10, "0.00"),
        help="In the room's currency, at the price on Start; for the coldest room air.",
    ),
)
