"""What the flags of Tanks say."""

from tests.oracles import tanks
from tests.oracles.words.saying import Figure, Says, named, typed

SAYS = {
    # Fish breathe what they give off: in a filter without bacteria ammonia rises within days.
    "not_cycled": Says(
        "act",
        "Animals in a tank not cycled",
        "animals in it: {animals}; until a tank is cycled ammonia and nitrite can rise",
        "Test ammonia and nitrite daily, feed little, change water whenever either is above zero; add animals only "
        "once both stay at zero.",
        animals=Figure(tanks.animals),
    ),
    "cycled_unknown": Says(
        "watch",
        "Cycled or not?",
        "animals live in it, but nothing says whether the tank is cycled",
        "Test ammonia and nitrite, then type yes or no under Cycled.",
    ),
    "no_height": Says(
        "act",
        "No water left by the numbers",
        "glass and water below the rim leave no height for water",
        "Check height, glass and water below rim.",
    ),
    "no_net_volume": Says(
        "act",
        "No water left by the numbers",
        "substrate, rock and wood take more room than there is",
        "Check their depth and mass.",
    ),
    "no_volume": Says(
        "watch",
        "Net volume unknown",
        "without it nothing can be reckoned for this tank{gaps}",
        "Type what is missing, or under Net volume measured what you counted in buckets.",
        # Sizes that leave no water lack nothing.
        gaps=named(lambda room: [f"; missing: {gaps}" if gaps else "" for gaps in tanks.lacking(room)]),
    ),
    "volume_estimated": Says(
        "note",
        "Net volume an estimate",
        "reckoned at {percent} % of the box that its sizes make, {volume}; its mass, floor load and heater wait. "
        "Still to measure: {gaps}",
        "Type these, or under Net volume measured what you counted in buckets when filling.",
        percent=named(lambda room: [f"{round(100 * room.const['water_share'])}"] * len(room.tanks)),
        volume=Figure(tanks.net_volume_estimated, "L", 1),
        gaps=named(tanks.heat_lacking),
    ),
    "no_filled_mass": Says(
        "note",
        "Mass and heat unknown",
        "its mass, floor load or heater can't be reckoned; missing: {gaps}",
        "Type it, for the sake of floor and heater.",
        gaps=named(tanks.heat_lacking),
    ),
    "no_plan": Says(
        "watch",
        "Plan not finished",
        "missing: {gaps}",
        "Type it in the row of the tank; food, nitrate and water changes need it.",
        gaps=named(tanks.plan_lacking),
    ),
    "water_unknown": Says(
        "watch",
        "Water not known",
        "nothing says whether it suits who lives in it; missing: {gaps}",
        "Test the tank or its source water, and type it on Waters or under what is kept here.",
        gaps=named(tanks.water_lacking),
    ),
    "too_large": Says(
        "watch",
        "Larger than most rooms can hold",
        "by the sizes typed it holds {volume}",
        "Check the unit above each size: 800 mm are 80 cm, or 31.5 in.",
        volume=Figure(tanks.gross_volume, "L", 1),
    ),
    "thick_glass": Says(
        "watch",
        "Glass thicker than any pane",
        "{pane} of glass for a height of {height}",
        "Check its unit: panes are sold in mm.",
        pane=Figure(typed("tanks", "glass"), "cm", 2),
        height=Figure(typed("tanks", "height"), "cm", 1),
    ),
    "slow_filter": Says(
        "watch",
        "Filter too slow",
        "the water passes the filter {has}, at least {wants} is usual here",
        "Clean the filter and hose, measure the flow, or add a second filter.",
        has=Figure(tanks.turnover, "per hour", 1),
        wants=Figure(tanks.turnover_wanted, "per hour", 2),
    ),
    "strong_filter": Says(
        "note",
        "Filter very strong",
        "the water passes the filter {has}",
        "Break the flow with a spray bar or sponge if the animals shelter from it.",
        has=Figure(tanks.turnover, "per hour", 1),
    ),
    "floor": Says(
        "watch",
        "Floor and stand not checked",
        "filled it weighs {mass}, that is {load} on its own footprint",
        "Have floor and stand judged by someone qualified, more so upstairs, for racks and for rooms of tanks; local "
        "building codes decide. Then type yes under Floor checked.",
        mass=Figure(tanks.filled_mass, "kg"),
        load=Figure(tanks.floor_load, "kg/m²"),
    ),
    "big_heater": Says(
        "note",
        "Heater large for its water",
        "a heater of {size} is {dense}; stuck on, it could cook a tank this small",
        "Use two smaller heaters or a separate thermostat; a lid or a warmer room asks for less. Residual-current "
        "protection, drip loops, unplug before hands go in.",
        size=Figure(tanks.heater_size, "W"),
        dense=Figure(tanks.heater_by_volume, "W/L", 2),
    ),
    "too_much_measured": Says(
        "watch",
        "Measured more than fits",
        "the measured net volume {measured} is more than the {gross} inside the glass",
        "Check the dimensions, or count the buckets again.",
        measured=Figure(typed("tanks", "net_volume_measured"), "L", 1),
        gross=Figure(tanks.gross_volume, "L", 1),
    ),
}
