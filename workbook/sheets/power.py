"""Power cut: which tank needs air first, and how fast each one cools; one page to keep by the fuse box."""

from workbook.equations import heat
from workbook.tables import Computed, Look, Pulled, Sheet, Table, Typed, logic, number, pulled, text
from workbook.tables.idioms import cell_of, first_known

COUNT, HIDDEN = Look(working=True, show="0"), Look(working=True, show="0.0")

OUTAGE = Table(
    "outage",
    title="When the power is out",
    purpose="",
    row_name=("air",),
    form=True,
    chosen=True,
    columns=(
        Typed(
            "air",
            "Air in the room",
            number(-20, 45),
            unit="degC",
            look=Look(width=12, show="0.0"),
            help="Blank: the coldest air of the room, from Start.",
        ),
        Computed(
            "air_used",
            "Reckoned with",
            first_known("{air}", "{settings.room_temperature}", unit="degC"),
            look=Look(width=12, show="0.0"),
        ),
    ),
)

COOLING = Table(
    "cooling",
    title="How each tank holds out",
    rows_of="tanks",
    row_name=("tank",),
    purpose="",
    columns=(
        Pulled("tank", via="tanks", look=Look(working=True, width=16)),
        Pulled("reserve", via="tanks", of="stocking.reserve"),
        *pulled("tanks", "animals", "net_volume", "temperature"),
        Pulled("coldest", via="tanks", of="overlap_detail.temperature_low", label="Cool end all share"),
        *pulled("tanks", "perimeter", "water_height", "plan_area", "top_flow"),
        Computed(
            "loss_per_degree",
            "Heat loss by each degree of difference",
            heat.heat_loss(
                side_area=logic("{perimeter}*{water_height}", "cm2"),
                plan_area="{plan_area}",
                rise="1",
                top="{top_flow}",
            ),
            look=HIDDEN,
        ),
        Computed(
            "time_constant",
            "Time constant",
            heat.cooling_constant(volume="{net_volume}", loss="{loss_per_degree}", rise="1"),
            look=HIDDEN,
        ),
        Computed(
            "rank",
            "Order of need",
            logic(
                'IF({reserve}<>"",{reserve}+{line}/10^6,IF(SUM({animals})>0,{line}/10^6-1,""))', "1", needs=("tank",)
            ),
            look=Look(working=True, show="0.000"),
        ),
    ),
)

POWER = Table(
    "power",
    title="In this order",
    lines=60,
    row_name=("tank",),
    purpose="Least oxygen first. No exchange at the surface is counted: never a reason to wait.",
    columns=(
        Computed(
            "tank", "Tank", cell_of("{cooling.tank[]}", "{found}"), kind=text(), look=Look("Help in this order", 22)
        ),
        Computed(
            "hours",
            "Oxygen lasts",
            logic(
                'IF(INDEX({cooling.reserve[]},{found})="","unknown: look first",INDEX({cooling.reserve[]},{found}))',
                "h",
            ),
            look=Look("Help in this order", 16, "0.0"),
        ),
        Computed(
            "animals",
            "Animals",
            cell_of("{cooling.animals[]}", "{found}", "1"),
            look=Look("Help in this order", 9, "0"),
        ),
        Computed(
            "net_volume",
            "Net volume",
            cell_of("{cooling.net_volume[]}", "{found}", "L"),
            look=Look("Help in this order", 10, "0"),
        ),
        Computed(
            "temperature",
            "It stands at",
            cell_of("{cooling.temperature[]}", "{found}", "degC"),
            look=Look("How it cools", 10, "0.0"),
        ),
        Computed(
            "after_four",
            "after 4 hours",
            heat.cooled(temperature="{temperature}", room="{outage.air_used}", hours="4", constant="{time_constant}"),
            look=Look("How it cools", 10, "0.0"),
        ),
        Computed(
            "after_twelve",
            "after 12 hours",
            heat.cooled(temperature="{temperature}", room="{outage.air_used}", hours="12", constant="{time_constant}"),
            look=Look("How it cools", 10, "0.0"),
        ),
        Computed(
            "coldest",
            "Cool end all share",
            cell_of("{cooling.coldest[]}", "{found}", "degC"),
            look=Look("How it cools", 10, "0.0"),
        ),
        Computed(
            "hours_to_cold",
            "Hours until then",
            logic(
                'IF({temperature}<={coldest},"at once",IF({coldest}<={outage.air_used},"stays above",{hours}))',
                "h",
                hours=heat.hours_to_cool(
                    temperature="{temperature}", room="{outage.air_used}", limit="{coldest}", constant="{time_constant}"
                ),
            ),
            look=Look("How it cools", 12, "0.0"),
        ),
        Computed("done", "Aerated", logic('IF({tank}="","","☐")', copes=True), kind=text(), look=Look("Tick", 9)),
        Computed(
            "found",
            "Row",
            logic(
                'IF({line}>COUNT({cooling.rank[]}),"",MATCH(SMALL({cooling.rank[]},{line}),{cooling.rank[]},0))',
                "1",
                copes=True,
            ),
            look=COUNT,
        ),
        Computed("time_constant", "Time constant", cell_of("{cooling.time_constant[]}", "{found}", "h"), look=HIDDEN),
    ),
)

SHEET = Sheet(
    "Power cut",
    role="reference",
    blocks=(POWER, COOLING),
    forms=(OUTAGE,),
    frozen_columns=0,
    purpose="Which tank needs air first, and how fast each one cools. Print it and keep it where the fuses are.",
    notes=(
        (
            "First: no feeding, battery air pumps in this order, or scoop and pour water by hand; "
            "cover and wrap the tanks against cold."
        ),
        "Never touch mains plugs with wet hands. Unplug heaters that may have fallen dry before the power comes back.",
        "Generators outdoors only: their exhaust kills.",
    ),
)
