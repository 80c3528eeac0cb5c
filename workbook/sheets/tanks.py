"""Tanks: shape and filling of each tank, what it holds, weighs and needs, and the water it is kept at."""

from dataclasses import replace

from workbook.sheets.tank_answers import ANSWERS
from workbook.sheets.tank_flags import FLAGS
from workbook.sheets.tank_shapes import SHAPES
from workbook.sheets.tank_workings import STEPS
from workbook.sheets.wishes import BACKGROUND, COVER, FLOW, GROUND, LIGHT
from workbook.tables import Look, Said, Sheet, Table, Typed, choice, count, date, key, link, number, text
from workbook.tables.columns import Column
from workbook.tables.kinds import Value

SIZE, FILL, WATER, PLACE, CARE = (
    Look("Shape and size", 9, "0.0"),
    Look("Filling", 9, "0.0"),
    Look("Water it is kept at", 9, "0.0"),
    Look("Place for the animals", 10),
    Look("Care", 10, "0"),
)

YES_NO = choice("yes", "no")

TYPED: tuple[Column, ...] = (
    Typed(
        "tank", "Tank", key(), required=True, look=Look("Tank", 20), help="A short name of your own, one for each tank."
    ),
    Typed("place", "Where it stands", text(), look=Look("Tank", 18)),
    Typed(
        "standing",
        "Stands",
        YES_NO,
        look=Look("Tank", 8),
        help="no for a tank that is only planned: nothing in it or about it counts yet. Blank: it stands.",
    ),
    Said(look=Look("Tank", 50)),
    Typed("shape", "Shape", choice(*SHAPES), look=Look("Shape and size", 15)),
    Typed(
        "measured",
        "Measured",
        choice("outside", "inside"),
        look=Look("Shape and size", 9),
        help="Outside: the glass is taken off. Inside: the numbers count as they are.",
    ),
    Typed(
        "length",
        "Length",
        number(2, 1000),
        unit="cm",
        look=SIZE,
        help=(
            "Box, bow front: length. Cylinder, half cylinder: diameter. Quarter cylinder: radius. Hexagon, octagon: "
            "one side. Trapezoid: the long side."
        ),
    ),
    Typed(
        "width",
        "Width",
        number(2, 1000),
        unit="cm",
        look=SIZE,
        help="Front to back, for box, trapezoid and bow front (at its side).",
    ),
    Typed("height", "Height", number(2, 500), unit="cm", look=SIZE, help="Floor to upper edge, without stand and lid."),
    Typed(
        "second_side",
        "Short side or bow",
        number(0.5, 500),
        unit="cm",
        look=SIZE,
        help="Trapezoid: the short side. Bow front: how far the bow stands out.",
    ),
    Typed(
        "glass",
        "Glass",
        number(0.1, 10),
        unit="cm",
        look=Look("Shape and size", 8, "0.0#"),
        help="Thickness of the panes. They are sold in mm: mind the unit. Measure at the upper edge.",
    ),
    Typed(
        "water_below_rim",
        "Water below rim",
        number(0, 200),
        unit="cm",
        look=FILL,
        help="From the upper edge down to the water.",
    ),
    Typed(
        "substrate_depth",
        "Substrate depth",
        number(0, 100),
        unit="cm",
        look=FILL,
        help="Mean depth of sand or gravel; 0 for a bare floor.",
    ),
    Typed(
        "porosity",
        "Water in the substrate",
        number(0, 0.9),
        unit="1",
        look=Look("Filling", 9, "0%"),
        help="Share of the substrate that is water; blank: the constant.",
    ),
    Typed("rock", "Rock", number(0, 2000), unit="kg", look=FILL, help="0 for none."),
    Typed("wood", "Wood", number(0, 500), unit="kg", look=FILL, help="Soaked; 0 for none."),
    Typed(
        "net_volume_measured",
        "Net volume measured",
        number(0.5, 50000),
        unit="L",
        look=FILL,
        help="Counted in buckets when filling; overrides the reckoned volume.",
    ),
    Typed(
        "water",
        "Water it is filled with",
        link("waters"),
        look=Look("Water it is kept at", 16),
        help="A water of the sheet Waters, such as your tap; a blend if you mix.",
    ),
    Typed(
        "temperature",
        "Set temperature",
        number(0, 40),
        unit="degC",
        look=Look(WATER.group, 12, "0.0"),
        help="What the heater is set to, or what the water stands at without one.",
    ),
    Typed("ph", "pH kept", number(3, 11), unit="1", look=WATER, help="Blank: as its source water."),
    Typed("gh", "GH kept", number(0, 60), unit="degH", look=WATER, help="Blank: as its source water."),
    Typed("kh", "KH kept", number(0, 60), unit="degH", look=WATER, help="Blank: as its source water."),
    Typed("lid", "Lid", YES_NO, look=Look("Care", 7), help="A covered top loses less heat: the heater is sized by it."),
    Typed(
        "filter_flow",
        "Filter flow",
        number(0, 100000),
        unit="L/h",
        look=CARE,
        help="As it really flows; the figure on the box falls by a third to a half in use.",
    ),
    Typed(
        "planted",
        "Planted",
        choice("none", "some", "dense", "dense, with CO2"),
        look=CARE,
        help="Sets what plants take of the nitrate, unless you know it or the tank's log has taught it.",
    ),
    Typed(
        "plant_uptake",
        "Nitrate plants take in a week",
        number(0, 100),
        unit="mg/L",
        look=Look("Care", 10, "0.0"),
        help="Blank: by how it is planted.",
    ),
    Typed(
        "cycled",
        "Cycled",
        YES_NO,
        look=Look("Care", 8),
        help="no for a new tank; yes once ammonia and nitrite stay at zero, weeks later.",
    ),
    Typed("cycled_on", "Since", date(), look=Look("Care", 11)),
    Typed(
        "change_share",
        "Water change",
        number(0.01, 1),
        unit="1",
        look=Look("Care", 8, "0%"),
        help="Share of the water changed each time, such as 25 %.",
    ),
    Typed(
        "change_interval",
        "every",
        number(0.25, 365),
        unit="day",
        look=Look("Care", 8, "0.#"),
        help="Days from one water change to the next.",
    ),
    Typed(
        "floor_checked",
        "Floor checked",
        YES_NO,
        look=Look("Care", 9),
        help="yes once someone qualified has judged floor and stand for the filled mass.",
    ),
    Typed(
        "meals",
        "Meals a day",
        count(1, 24),
        unit="1/day",
        look=Look("Care", 8, "0"),
        help="The day's ration is shared out over them.",
    ),
    Typed(
        "fasting_days",
        "Fasting days a week",
        count(0, 6),
        unit="1",
        look=Look("Care", 8, "0"),
        help="Days without food; 0 for none.",
    ),
    Typed("light", "Light", choice(*LIGHT.choices), look=PLACE),
    Typed("cover", "Cover", choice(*COVER.choices), look=PLACE),
    Typed("ground", "Ground", choice(*GROUND.choices), look=PLACE),
    Typed("background", "Background", choice(*BACKGROUND.choices), look=replace(PLACE, width=12)),
    Typed("flow", "Flow", choice(*FLOW.choices), look=PLACE),
    Typed("tank_note", "Note", text(), look=Look("Place for the animals", 40)),
)

# What a tank holds stands right of what it follows from; what it weighs and needs follows from all that is typed.
FILLED = next(i for i, column in enumerate(TYPED) if column.key == "water")

HELD = next(i for i, column in enumerate(ANSWERS) if column.look.group == "What it weighs")

EXAMPLE: dict[str, Value] = {
    "tank": "Window tank",
    "place": "living room",
    "shape": "box",
    "measured": "outside",
    "length": 80,
    "width": 35,
    "height": 45,
    "glass": 0.8,
    "water_below_rim": 3,
    "substrate_depth": 4,
    "rock": 2,
    "wood": 1,
    "water": "Tap",
    "temperature": 25,
    "lid": "yes",
    "filter_flow": 400,
    "planted": "some",
    "cycled": "no",
    "change_share": 0.25,
    "change_interval": 7,
    "floor_checked": "yes",
    "meals": 2,
    "fasting_days": 1,
    "light": "medium",
    "cover": "some",
    "ground": "any",
    "background": "any",
    "flow": "gentle",
}

TANKS = Table(
    "tanks",
    title="Tanks",
    row_name=("tank",),
    enough=("tank", "shape", "length", "width", "height", "water", "temperature"),
    often=(
        "tank",
        "shape",
        "length",
        "width",
        "height",
        "glass",
        "measured",
        "water_below_rim",
        "substrate_depth",
        "water",
        "temperature",
        "filter_flow",
        "planted",
        "lid",
        "change_share",
        "change_interval",
        "cycled",
        "net_volume_measured",
        "place",
        "tank_note",
    ),
    first="net_volume",
    answers=(
        "gross_volume",
        "plan_area",
        "swim_length",
        "footprint",
        "filled_mass",
        "floor_load",
        "turnover",
        "heat_loss",
        "heater_size",
        "daily_energy",
        "monthly_energy_cost",
    ),
    purpose="One row for each tank.",
    example=EXAMPLE,
    columns=(*TYPED[:FILLED], *ANSWERS[:HELD], *TYPED[FILLED:], *ANSWERS[HELD:], *STEPS, *FLAGS),
)

SHEET = Sheet(
    "Tanks",
    role="input",
    blocks=(TANKS,),
    frozen_columns=1,
    purpose="Shape, filling, water and care of each tank; beside it what it holds, weighs and needs.",
    notes=(
        (
            "Round tanks and trapezoids measured outside come out up to a few per cent too large: "
            "measure inside, or count the buckets."
        ),
        (
            "Masses and heaters are planning estimates. Floors and stands: someone qualified. Mains and water: "
            "residual-current (ground-fault) protection, drip loops, unplug before hands go in."
        ),
    ),
)
