"""Tanks: shape and filling of each tank, what it holds, weighs and needs, and the water it is kept at."""

from dataclasses import replace

from workbook.equations import conversions, geometry, heat, load
from workbook.sheets.parameters import PARAMETERS
from workbook.sheets.wishes import BACKGROUND, COVER, FLOW, GROUND, LIGHT
from workbook.tables import (
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
    key,
    link,
    logic,
    number,
    text,
)
from workbook.tables.columns import Column
from workbook.tables.formula import Formula
from workbook.tables.idioms import first_known, in_rows_with, joined, only_if, position
from workbook.tables.kinds import Value

SHAPES = ("box", "cylinder", "half cylinder", "quarter cylinder", "hexagon", "octagon", "trapezoid", "bow front")
SIZE, FILL, WATER, PLACE, CARE = (Look("Shape and size", 9, "0.0"), Look("Filling", 9, "0.0"), Look("Water it is kept at", 9, "0.0"),
                                  Look("Place for the animals", 10), Look("Care", 10, "0"))
HOLDS, WEIGHS, WORKS = Look("What it holds", 10, "0.0"), Look("What it weighs", 10, "0.0"), Look("Filter and heater", 10, "0.0")
HIDDEN, HIDDEN_TEXT = Look(working=True, show="0.00"), Look(working=True, width=22)
YES_NO = choice("yes", "no")


def by_shape(unit: str, *formulas: Formula) -> Formula:
    """The formula of the tank's shape, in the order of SHAPES."""
    return Formula(f"CHOOSE({{shape_no}},{','.join(f.text for f in formulas)})", unit,
                   tuple(dict.fromkeys(s for f in formulas for s in f.sources)), tuple(e for f in formulas for e in f.expects), copes_with_blanks=True)


def measures(length: str, width: str, second: str) -> str:
    """Formula text: 1 when every dimension that the shape needs is known and makes sense, otherwise 0."""
    long, wide, short = f"(N({length})>0)*1", f"(N({width})>0)", f"(N({second})>0)"
    by_shape_ = (f"{long}*{wide}", *(long,) * 5, f"{long}*{wide}*{short}*(N({second})<=N({length}))", f"{long}*{wide}*{short}*(2*N({second})<=N({length}))")
    return f'IF({{shape_no}}="",0,CHOOSE({{shape_no}},{",".join(by_shape_)}))'


def typed_sizes() -> str:
    """Formula text: 1 when every dimension that the shape needs was typed, otherwise 0."""
    return measures("{length}", "{width}", "{second_side}")


def plan(length: str, width: str, second: str, segment: str) -> Formula:
    """Plan area by shape; blank while a dimension is unknown."""
    return only_if("{measured_out}=1", by_shape("cm2", *areas(length, width, second, segment)))


def areas(length: str, width: str, second: str, segment: str) -> tuple[Formula, ...]:
    """Plan areas in the order of SHAPES."""
    g = geometry
    return (g.box_area(length=length, width=width), g.cylinder_area(diameter=length), g.half_cylinder_area(diameter=length),
            g.quarter_cylinder_area(radius=length), g.hexagon_area(side=length), g.octagon_area(side=length),
            g.trapezoid_area(long_side=length, short_side=second, width=width), g.bow_front_area(length=length, width=width, segment=segment))


def around() -> Formula:
    """Perimeter by shape; blank while a dimension is unknown."""
    g, length, width, second = geometry, "{inner_length}", "{inner_width}", "{inner_second}"
    return only_if("{measured_out}=1", by_shape("cm", g.box_perimeter(length=length, width=width), g.cylinder_perimeter(diameter=length),
        g.half_cylinder_perimeter(diameter=length), g.quarter_cylinder_perimeter(radius=length), g.hexagon_perimeter(side=length),
        g.octagon_perimeter(side=length), g.trapezoid_perimeter(long_side=length, short_side=second, width=width),
        g.bow_front_perimeter(length=length, width=width, radius="{bow_radius}")))


def inner_length() -> Formula:
    """Inside length: less the pane at either end, or as the sides of a regular shape shrink."""
    given = {"length": "{length}", "glass": "{glass_off}"}
    plain = geometry.inner_from_outer(outer="{length}", glass="{glass_off}", panes="2")
    hexagon, octagon = (f(side=given["length"], glass=given["glass"]) for f in (geometry.hexagon_inner_side, geometry.octagon_inner_side))
    return replace(by_shape("cm", plain, plain, plain, plain, hexagon, octagon, plain, plain), copes_with_blanks=False)


TYPED: tuple[Column, ...] = (
    Typed("tank", "Tank", key(), required=True, look=Look("Tank", 20), help="A short name of your own, one for each tank."),
    Typed("place", "Where it stands", text(), look=Look("Tank", 18)),
    Said(look=Look("Tank", 50)),
    Typed("shape", "Shape", choice(*SHAPES), look=Look("Shape and size", 15)),
    Typed("measured", "Measured", choice("outside", "inside"), look=Look("Shape and size", 9), help="Outside: the glass is taken off. Inside: the numbers count as they are."),
    Typed("length", "Length", number(2, 1000), unit="cm", look=SIZE,
          help="Box, bow front: length. Cylinder, half cylinder: diameter. Quarter cylinder: radius. Hexagon, octagon: one side. Trapezoid: the long side."),
    Typed("width", "Width", number(2, 1000), unit="cm", look=SIZE, help="Front to back, for box, trapezoid and bow front (at its side)."),
    Typed("height", "Height", number(2, 500), unit="cm", look=SIZE, help="Floor to upper edge, without stand and lid."),
    Typed("second_side", "Short side or bow", number(0.5, 500), unit="cm", look=SIZE, help="Trapezoid: the short side. Bow front: how far the bow stands out."),
    Typed("glass", "Glass", number(0.1, 10), unit="cm", look=Look("Shape and size", 8, "0.0#"), help="Thickness of the panes; 8 mm are 0.8 cm. Measure at the upper edge."),
    Typed("water_below_rim", "Water below rim", number(0, 200), unit="cm", look=FILL, help="From the upper edge down to the water."),
    Typed("substrate_depth", "Substrate depth", number(0, 100), unit="cm", look=FILL, help="Mean depth of sand or gravel; 0 for a bare floor."),
    Typed("porosity", "Water in the substrate", number(0, 0.9), unit="1", look=Look("Filling", 9, "0%"), help="Share of the substrate that is water; blank: the constant."),
    Typed("rock", "Rock", number(0, 2000), unit="kg", look=FILL, help="0 for none."),
    Typed("wood", "Wood", number(0, 500), unit="kg", look=FILL, help="Soaked; 0 for none."),
    Typed("net_volume_measured", "Net volume measured", number(0.5, 50000), unit="L", look=FILL, help="Counted in buckets when filling; overrides the reckoned volume."),
    Typed("water", "Water it is filled with", link("waters"), look=Look("Water it is kept at", 16), help="A water of the sheet Waters, such as your tap; a blend if you mix."),
    Typed("temperature", "Set temperature", number(0, 40), unit="degC", look=Look(WATER.group, 12, "0.0"), help="What the heater is set to, or what the water stands at without one."),
    Typed("ph", "pH kept", number(3, 11), unit="1", look=WATER, help="Blank: as its source water."),
    Typed("gh", "GH kept", number(0, 60), unit="degH", look=WATER, help="Blank: as its source water."),
    Typed("kh", "KH kept", number(0, 60), unit="degH", look=WATER, help="Blank: as its source water."),
    Typed("lid", "Lid", YES_NO, look=Look("Care", 7), help="A covered top loses less heat: the heater is sized by it."),
    Typed("filter_flow", "Filter flow", number(0, 100000), unit="L/h", look=CARE, help="As it really flows; the figure on the box falls by a third to a half in use."),
    Typed("planted", "Planted", choice("none", "some", "dense"), look=CARE),
    Typed("plant_uptake", "Nitrate plants take in a week", number(0, 100), unit="mg/L", look=Look("Care", 10, "0.0"), help="Blank: the constant."),
    Typed("cycled", "Cycled", YES_NO, look=Look("Care", 8), help="no for a new tank; yes once ammonia and nitrite stay at zero, weeks later."),
    Typed("cycled_on", "Since", date(), look=Look("Care", 11)),
    Typed("change_share", "Water change", number(0.01, 1), unit="1", look=Look("Care", 8, "0%"), help="Share of the water changed each time, such as 25 %."),
    Typed("change_interval", "every", number(0.25, 365), unit="day", look=Look("Care", 8, "0.#"), help="Days from one water change to the next."),
    Typed("floor_checked", "Floor checked", YES_NO, look=Look("Care", 9), help="yes once someone qualified has judged floor and stand for the filled mass."),
    Typed("meals", "Meals a day", count(1, 24), unit="1/day", look=Look("Care", 8, "0"), help="The day's ration is shared out over them."),
    Typed("fasting_days", "Fasting days a week", count(0, 6), unit="1", look=Look("Care", 8, "0"), help="Days without food; 0 for none."),
    Typed("light", "Light", choice(*LIGHT.choices), look=PLACE),
    Typed("cover", "Cover", choice(*COVER.choices), look=PLACE),
    Typed("ground", "Ground", choice(*GROUND.choices), look=PLACE),
    Typed("background", "Background", choice(*BACKGROUND.choices), look=replace(PLACE, width=12)),
    Typed("flow", "Flow", choice(*FLOW.choices), look=PLACE),
    Typed("tank_note", "Note", text(), look=Look("Place for the animals", 40)),
)

ANSWERS = (
    Computed("gross_volume", "Water to the rim line", geometry.volume(area="{plan_area}", height="{water_height}"), look=HOLDS,
             help="Inside the glass up to the water line."),
    Computed("net_volume", "Net volume", logic('IF(ISNUMBER({net_volume_measured}),{net_volume_measured},IF(N({net_volume_reckoned})>0,{net_volume_reckoned},""))', "L", needs=("tank",)), look=HOLDS,
             help="What is left for water; all doses and loads go by it."),
    Computed("net_gallons", "Net volume", conversions.litre_to_gallon(value="{net_volume}"), look=replace(HOLDS, metric_only=True)),
    Computed("plan_area", "Water surface", plan("{inner_length}", "{inner_width}", "{inner_second}", "{bow_segment}"), look=Look("What it holds", 10, "0")),
    Computed("swim_length", "Longest swim", only_if("{measured_out}=1", by_shape("cm",
        logic("MAX({inner_length},{inner_width})"), logic("{inner_length}"), logic("{inner_length}"), logic("{inner_length}"),
        geometry.hexagon_longest(side="{inner_length}"), geometry.octagon_longest(side="{inner_length}"), logic("MAX({inner_length},{inner_width})"),
        logic("MAX({inner_length},{inner_width}+{inner_second})"))), look=HOLDS, help="The longer side, the diameter, or across the corners of a hexagon or octagon."),
    Computed("footprint", "Footprint", geometry.footprint(area="{plan_area}", perimeter="{perimeter}", glass="{glass}"), look=Look("What it weighs", 10, "0"), help="Floor it covers, panes counted."),
    Computed("filled_mass", "Filled mass", load.filled_mass(
        water=load.water_mass(volume="{net_volume}"), glass="{glass_mass}",
        substrate=load.substrate_mass(area="{plan_area}", depth="{substrate_depth}", porosity="{porosity_used}"), rock="{rock}", wood="{wood}"),
        look=Look("What it weighs", 10, "0"), help="Without the stand."),
    Computed("floor_load", "Load on its footprint", load.floor_load(mass="{filled_mass}", area="{footprint}"), look=Look("What it weighs", 10, "0")),
    Computed("turnover", "Filter turnover", logic("{filter_flow}/{net_volume}", "1/h"), look=WORKS),
    Computed("heat_loss", "Heat loss in the coldest room", heat.heat_loss(
        side_area=logic("{perimeter}*{water_height}", "cm2"), plan_area="{plan_area}", rise="{temperature_rise}", top="{top_flow}"), look=Look("Filter and heater", 10, "0")),
    Computed("heater_size", "Heater", logic(
        'IF({heater_wanted}=0,0,IF({heater_wanted}>MAX({heater_sizes.heater_power[]}),ROUNDUP(ROUND({heater_wanted}/MAX({heater_sizes.heater_power[]}),6),0)*MAX({heater_sizes.heater_power[]}),'
        'INDEX({heater_sizes.heater_power[]},COUNTIF({heater_sizes.heater_power[]},"<"&{heater_wanted})+1)))', "W"), look=Look("Filter and heater", 10, "0"),
        help="Next size sold; two heaters of half the size are safer than one. 0 heat loss needs none."),
    Computed("daily_energy", "Energy a day, coldest", heat.daily_energy(loss="{heat_loss}"), look=Look("Filter and heater", 10, "0.00")),
    Computed("monthly_energy_cost", "Energy cost a month", logic("{daily_energy}*{const.month_days}*{settings.energy_price}", "currency"),
             look=Look("Filter and heater", 10, "0.00"), help="In the room's currency, at the price on Start; for the coldest room air."),
)

STEPS: tuple[Pulled | Computed, ...] = (
    Pulled("water_temperature", via="water", of="temperature_used", label="Source temperature"),
    *(Pulled(f"water_{p.key}", via="water", of=p.key if p.key == "ph" else f"{p.key}_used", label=f"Source {p.label}") for p in PARAMETERS[1:]),
    Pulled("water_nitrate", via="water", of="nitrate_used", label="Source nitrate"),
    *(Computed(f"{p.key}_used", f"{p.label} reckoned with", first_known(f"{{{p.key}}}", f"{{water_{p.key}}}", unit=p.unit),
               look=Look(working=True, show="0.0")) for p in PARAMETERS[1:]),
    Computed("shape_no", "Number of its shape", position("{shape}", SHAPES), look=Look(working=True, show="0")),
    Computed("glass_off", "Glass to take off", logic('IF({measured}="inside",0,IF({glass}="","",{glass}))', "cm", needs=("measured",)), look=HIDDEN),
    Computed("inner_length", "Inside length", inner_length(), look=HIDDEN),
    Computed("inner_width", "Inside width", geometry.inner_from_outer(outer="{width}", glass="{glass_off}", panes="2"), look=HIDDEN),
    Computed("inner_second", "Inside short side or bow", logic('IF({shape}="trapezoid",{second_side}-2*{glass_off},{second_side})', "cm"), look=HIDDEN),
    Computed("water_height", "Water height", logic("{height}-{glass_off}-{water_below_rim}", "cm"), look=HIDDEN,
             help="Height less the floor pane and the gap below the rim."),
    Computed("measured_out", "Dimensions complete", logic(measures("{inner_length}", "{inner_width}", "{inner_second}"), "1", needs=("tank",)), look=Look(working=True, show="0")),
    Computed("bow_radius", "Radius of the bow", only_if('AND({shape}="bow front",{measured_out}=1)', geometry.bow_radius(chord="{inner_length}", bow="{inner_second}")), look=HIDDEN),
    Computed("bow_segment", "Area of the bow", geometry.bow_segment(radius="{bow_radius}", bow="{inner_second}"), look=HIDDEN),
    Computed("perimeter", "Round the inside", around(), look=HIDDEN),
    Computed("porosity_used", "Water in the substrate", in_rows_with("tank", first_known("{porosity}", "{const.porosity}", unit="1")), look=HIDDEN),
    Computed("net_volume_reckoned", "Net volume reckoned", geometry.net_volume(gross="{gross_volume}",
        substrate=geometry.substrate_displacement(area="{plan_area}", depth="{substrate_depth}", porosity="{porosity_used}"),
        rock=geometry.hardscape_displacement(mass="{rock}", density="{const.rock_density}"),
        wood=geometry.hardscape_displacement(mass="{wood}", density="{const.wood_density}")), look=HIDDEN),
    Computed("glass_mass", "Glass", load.glass_mass(perimeter="{perimeter}", height="{height}", area="{plan_area}", glass="{glass}"), look=HIDDEN),
    Computed("top_flow", "Heat flow through the top", logic('IF({lid}="yes",{const.u_top_covered},{const.u_top_open})', "W/m2K"), look=HIDDEN),
    Computed("temperature_rise", "Warmer than the room", logic("MAX(0,{temperature}-{settings.room_temperature})", "K"), look=HIDDEN),
    Computed("heater_wanted", "Heater power wanted", heat.heater_wanted(loss="{heat_loss}"), look=HIDDEN),
    Computed("heater_density", "Heater by volume", heat.watts_per_gallon(power="{heater_size}", volume="{net_volume}"), look=Look(working=True, show="0.0")),
    Computed("turnover_wanted", "Least turnover", logic('IF(OR({flow}="still",{flow}="gentle"),{const.turnover_gentle},{const.turnover_low})', "1/h"), look=HIDDEN),
    Computed("animals", "Animals in it", in_rows_with("tank", logic("INDEX({stocking.animals[]},{line})", "1")), look=Look(working=True, show="0")),
    Computed("lacking", "Still unknown", in_rows_with("tank", joined(
        ('{shape}=""', '"shape"'), ('{measured}=""', '"measured outside or inside"'), (f"AND({{shape}}<>\"\",OR({typed_sizes()}=0,AND({{glass_off}}<>\"\",{{measured_out}}=0)))", '"a dimension that fits the shape"'), ('COUNT({glass})=0', '"glass"'), ('COUNT({height})=0', '"height"'), ('COUNT({water_below_rim})=0', '"water below rim"'),
        ('COUNT({substrate_depth})=0', '"substrate depth (0 for none)"'), ('COUNT({rock})=0', '"rock (0 for none)"'), ('COUNT({wood})=0', '"wood (0 for none)"'),
        between=", ")), kind=text(), look=HIDDEN_TEXT),
    Computed("heat_lacking", "Mass and heat still unknown", in_rows_with("tank", joined(
        ('{lacking}<>""', "{lacking}"), ('{temperature}=""', '"set temperature"'), ('{lid}=""', '"lid (yes or no)"'), between=", ")), kind=text(), look=HIDDEN_TEXT),
    Computed("water_lacking", "Its water still unknown", in_rows_with("tank", joined(
        ('{ph_used}=""', '"pH"'), ('{gh_used}=""', '"GH"'), ('{kh_used}=""', '"KH"'), between=", ")), kind=text(), look=HIDDEN_TEXT),
    Computed("plan_lacking", "Plan still unknown", in_rows_with("tank", joined(
        ('{water}=""', '"the water it is filled with"'), ('{temperature}=""', '"set temperature"'), ('{change_share}=""', '"water change share"'),
        ('{change_interval}=""', '"water change interval"'), ('{meals}=""', '"meals a day"'), ('{fasting_days}=""', '"fasting days (0 for none)"'),
        between=", ")), kind=text(), look=HIDDEN_TEXT),
)

FLAGS = (
    Flag("not_cycled", "Animals in a tank not cycled", seriousness="act",
         when='AND({cycled}="no",{animals}>0)',
         why="animals in it: {animals}; until a tank is cycled ammonia and nitrite can rise",
         do="Test ammonia and nitrite daily, feed little, change water whenever either is above zero; add animals only once both stay at zero."),
    Flag("cycled_unknown", "Cycled or not?", seriousness="watch", copes=True,
         when='AND({cycled}="",N({animals})>0)', why="animals live in it, but nothing says whether the tank is cycled", do="Test ammonia and nitrite, then type yes or no under Cycled."),
    Flag("no_height", "No water left by the numbers", seriousness="act",
         when="{water_height}<=0", why="glass and water below the rim leave no height for water", do="Check height, glass and water below rim."),
    Flag("no_net_volume", "No water left by the numbers", seriousness="act",
         when="AND({water_height}>0,{net_volume_reckoned}<=0)", why="substrate, rock and wood take more room than there is", do="Check their depth and mass."),
    Flag("no_volume", "Net volume unknown", seriousness="watch", copes=True,
         when='AND({tank}<>"",{net_volume}="")', why='="without it nothing can be reckoned for this tank"&IF({lacking}="","","; missing: "&{lacking})',
         do="Type what is missing, or under Net volume measured what you counted in buckets."),
    Flag("no_filled_mass", "Mass and heat unknown", seriousness="note", copes=True,
         when='AND({net_volume}<>"",OR({filled_mass}="",{heat_loss}=""),{heat_lacking}<>"")', why="its mass, floor load or heater can't be reckoned; missing: {heat_lacking}", do="Type it, for the sake of floor and heater."),
    Flag("no_plan", "Plan not finished", seriousness="watch",
         when='AND({plan_lacking}<>"",{animals}>0)', why="missing: {plan_lacking}", do="Type it in the row of the tank; food, nitrate and water changes need it."),
    Flag("water_unknown", "Water not known", seriousness="watch",
         when='AND({water}<>"",{water_lacking}<>"",{animals}>0)', why="nothing says whether it suits who lives in it; missing: {water_lacking}",
         do="Test the tank or its source water, and type it on Waters or under what is kept here."),
    Flag("too_large", "Larger than most rooms can hold", seriousness="watch",
         when="{gross_volume}>{const.large_tank}", why="by the sizes typed it holds {gross_volume}", do="Check the unit above each size: 800 mm are 80 cm, or 31.5 in."),
    Flag("thick_glass", "Glass thicker than any pane", seriousness="watch",
         when="{glass}>{height}*{const.thick_glass}", why="{glass} of glass for a height of {height}", do="Check its unit: 8 mm are 0.8 cm, or 0.31 in."),
    Flag("slow_filter", "Filter too slow", seriousness="watch",
         when="{turnover}<{turnover_wanted}", why="the water passes the filter {turnover}, at least {turnover_wanted} is usual here",
         do="Clean the filter and hose, measure the flow, or add a second filter."),
    Flag("strong_filter", "Filter very strong", seriousness="note",
         when='AND({turnover}>{const.turnover_high},{flow}<>"strong")', why="the water passes the filter {turnover}", do="Break the flow with a spray bar or sponge if the animals shelter from it."),
    Flag("floor", "Floor and stand not checked", seriousness="watch", copes=True,
         when='IF(COUNT({filled_mass},{const.heavy_tank})<2,0-1,IF({floor_checked}="yes",0-1,{filled_mass}-{const.heavy_tank}))>=0',
         why="filled it weighs {filled_mass}, that is {floor_load} on its own footprint",
         do="Have floor and stand judged by someone qualified, more so upstairs, for racks and for rooms of tanks; local building codes decide. Then type yes under Floor checked."),
    Flag("big_heater", "Heater large for its water", seriousness="note",
         when="{heater_density}>{const.heater_caution}", why="a heater of {heater_size} is {heater_density}; stuck on, it could cook a tank this small",
         do="Use two smaller heaters or a separate thermostat; a lid or a warmer room asks for less. Residual-current protection, drip loops, unplug before hands go in."),
    Flag("too_much_measured", "Measured more than fits", seriousness="watch",
         when="{net_volume_measured}>{gross_volume}", why="the measured net volume {net_volume_measured} is more than the {gross_volume} inside the glass",
         do="Check the dimensions, or count the buckets again."),
)

# What a tank holds stands right of what it follows from; what it weighs and needs follows from all that is typed.
FILLED = next(i for i, column in enumerate(TYPED) if column.key == "water")
HELD = next(i for i, column in enumerate(ANSWERS) if column.look.group == "What it weighs")
EXAMPLE: dict[str, Value] = {
    "tank": "Window tank", "place": "living room", "shape": "box", "measured": "outside", "length": 80, "width": 35, "height": 45, "glass": 0.8, "water_below_rim": 3,
    "substrate_depth": 4, "rock": 2, "wood": 1, "water": "Tap", "temperature": 25, "lid": "yes", "filter_flow": 400, "planted": "some", "cycled": "no", "change_share": 0.25,
    "change_interval": 7, "floor_checked": "yes", "meals": 2, "fasting_days": 1, "light": "medium", "cover": "some", "ground": "any", "background": "any", "flow": "gentle",
}  # fmt: skip

TANKS = Table("tanks", title="Tanks", row_name=("tank",), purpose="One row for each tank.", example=EXAMPLE, columns=(*TYPED[:FILLED], *ANSWERS[:HELD], *TYPED[FILLED:], *ANSWERS[HELD:], *STEPS, *FLAGS))

SHEET = Sheet(
    "Tanks", role="input", blocks=(TANKS,), frozen_columns=1,
    new_page_before=("tanks.gross_volume", "tanks.lid", "tanks.light"),
    purpose="Shape, filling, water and care of each tank; beside it what it holds, weighs and needs.",
    notes=("Round tanks and trapezoids measured outside come out up to a few per cent too large: measure inside, or count the buckets.",
           "Masses and heaters are planning estimates. Floors and stands: someone qualified. Mains and water: residual-current (ground-fault) protection, drip loops, unplug before hands go in.",),
)
