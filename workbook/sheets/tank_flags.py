"""What can be wrong with a tank."""

from workbook.tables import Flag
from workbook.tables.formula import filled
from workbook.tables.idioms import spoken

FLAGS = (
    Flag(
        "not_cycled",
        "Animals in a tank not cycled",
        gathered=True,
        seriousness="act",
        when='AND({cycled}="no",{animals}>0)',
        why="animals in it: {animals}; until a tank is cycled ammonia and nitrite can rise",
        do=(
            "Test ammonia and nitrite daily, feed little, change water whenever either is above zero; "
            "add animals only once both stay at zero."
        ),
    ),
    Flag(
        "cycled_unknown",
        "Cycled or not?",
        gathered=True,
        seriousness="watch",
        copes=True,
        when='AND({cycled}="",SUM({animals})>0)',
        why="animals live in it, but nothing says whether the tank is cycled",
        do="Test ammonia and nitrite, then type yes or no under Cycled.",
    ),
    Flag(
        "no_height",
        "No water left by the numbers",
        gathered=True,
        seriousness="act",
        when="{water_height}<=0",
        why="glass and water below the rim leave no height for water",
        do="Check height, glass and water below rim.",
    ),
    Flag(
        "no_net_volume",
        "No water left by the numbers",
        gathered=True,
        seriousness="act",
        when="AND({water_height}>0,{net_volume_reckoned}<=0)",
        why="substrate, rock and wood take more room than there is",
        do="Check their depth and mass.",
    ),
    Flag(
        "no_volume",
        "Net volume unknown",
        gathered=True,
        seriousness="watch",
        copes=True,
        when='AND({tank}<>"",{net_volume}="")',
        why='="without it nothing can be reckoned for this tank"&IF({lacking}="","","; missing: "&{lacking})',
        do="Type what is missing, or under Net volume measured what you counted in buckets.",
    ),
    Flag(
        "volume_estimated",
        "Net volume an estimate",
        seriousness="note",
        copes=True,
        when="AND(SUM({net_volume_measured})=0,COUNT({net_volume_estimated})=1)",
        why=filled(
            '="reckoned at "&{percent}&" % of the box that its sizes make, "&{@words.net_volume_estimated}'
            '&"; its mass, floor load and heater wait. Still to measure: "&{heat_lacking}',
            percent=spoken("{const.water_share}*10^2", 0),
        ),
        do="Type these, or under Net volume measured what you counted in buckets when filling.",
    ),
    Flag(
        "no_filled_mass",
        "Mass and heat unknown",
        gathered=True,
        seriousness="note",
        copes=True,
        when=(
            'AND({net_volume}<>"",OR(SUM({net_volume_measured})>0,COUNT({net_volume_estimated})=0),'
            'OR({filled_mass}="",{heat_loss}=""),{heat_lacking}<>"")'
        ),
        why="its mass, floor load or heater can't be reckoned; missing: {heat_lacking}",
        do="Type it, for the sake of floor and heater.",
    ),
    Flag(
        "no_plan",
        "Plan not finished",
        gathered=True,
        seriousness="watch",
        when='AND({plan_lacking}<>"",{animals}>0)',
        why="missing: {plan_lacking}",
        do="Type it in the row of the tank; food, nitrate and water changes need it.",
    ),
    Flag(
        "water_unknown",
        "Water not known",
        gathered=True,
        seriousness="watch",
        when='AND({water}<>"",{water_lacking}<>"",{animals}>0)',
        why="nothing says whether it suits who lives in it; missing: {water_lacking}",
        do="Test the tank or its source water, and type it on Waters or under what is kept here.",
    ),
    Flag(
        "too_large",
        "Larger than most rooms can hold",
        gathered=True,
        seriousness="watch",
        when="{gross_volume}>{const.large_tank}",
        why="by the sizes typed it holds {gross_volume}",
        do="Check the unit above each size: 800 mm are 80 cm, or 31.5 in.",
    ),
    Flag(
        "thick_glass",
        "Glass thicker than any pane",
        gathered=True,
        seriousness="watch",
        when="{glass}>{height}*{const.thick_glass}",
        why="{glass} of glass for a height of {height}",
        do="Check its unit: panes are sold in mm.",
    ),
    Flag(
        "slow_filter",
        "Filter too slow",
        gathered=True,
        seriousness="watch",
        when="{turnover}<{turnover_wanted}",
        why="the water passes the filter {turnover}, at least {turnover_wanted} is usual here",
        do="Clean the filter and hose, measure the flow, or add a second filter.",
    ),
    Flag(
        "strong_filter",
        "Filter very strong",
        gathered=True,
        seriousness="note",
        when='AND({turnover}>{const.turnover_high},{flow}<>"strong")',
        why="the water passes the filter {turnover}",
        do="Break the flow with a spray bar or sponge if the animals shelter from it.",
    ),
    Flag(
        "floor",
        "Floor and stand not checked",
        gathered=True,
        seriousness="watch",
        copes=True,
        when=(
            "IF(COUNT({filled_mass},{const.heavy_tank})<2,0-1,"
            'IF({floor_checked}="yes",0-1,{filled_mass}-{const.heavy_tank}))>=0'
        ),
        why="filled it weighs {filled_mass}, that is {floor_load} on its own footprint",
        do=(
            "Have floor and stand judged by someone qualified, more so upstairs, for racks and for rooms of tanks; "
            "local building codes decide. Then type yes under Floor checked."
        ),
    ),
    Flag(
        "big_heater",
        "Heater large for its water",
        gathered=True,
        seriousness="note",
        when="{heater_density}>{const.heater_caution}",
        why="a heater of {heater_size} is {heater_by_volume}; stuck on, it could cook a tank this small",
        do=(
            "Use two smaller heaters or a separate thermostat; a lid or a warmer room asks for less. "
            "Residual-current protection, drip loops, unplug before hands go in."
        ),
    ),
    Flag(
        "too_much_measured",
        "Measured more than fits",
        gathered=True,
        seriousness="watch",
        when="{net_volume_measured}>{gross_volume}",
        why="the measured net volume {net_volume_measured} is more than the {gross_volume} inside the glass",
        do="Check the dimensions, or count the buckets again.",
    ),
)
