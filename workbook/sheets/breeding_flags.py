"""What can be wrong with a brood, or must be done for it."""

from workbook.tables import Flag

SAFE = "AND({going}=1,{settings.plan_date}>={swim_on},{settings.plan_date}<{sale_early})"

FLAGS = (
    Flag(
        "eggs_at_risk",
        "Adults will eat the brood",
        seriousness="act",
        when=(
            'AND({eats_own_eggs}="yes",{out}=0,{going}=1,{date}<={settings.plan_date},'
            "{settings.plan_date}<{risk_until})"
        ),
        why="{species} eats its {what}, and the adults are still in {tank}",
        do="Take the adults out now, or eggs or young to a tank of their own; then type yes under Adults out.",
    ),
    Flag(
        "will_eat",
        "Adults will eat the brood to come",
        gathered=True,
        seriousness="watch",
        when='AND({eats_own_eggs}="yes",{out}=0,{date}>{settings.plan_date})',
        why="{species} eats its {what}, and a brood is planned for {date}",
        do=(
            "Ready mesh, moss or a second tank before that day, "
            "and take the adults out as soon as they have spawned or given birth."
        ),
    ),
    Flag(
        "infusoria_due",
        "Start infusoria now",
        gathered=True,
        seriousness="watch",
        when=(
            "AND({food_no}=1,{going}=1,{settings.plan_date}>={infusoria_on},"
            "{settings.plan_date}<{second_on},{done}<{infusoria_on})"
        ),
        why=(
            "its young swim on {swim_on} with mouths too small for nauplii, "
            "and a culture takes {const.infusoria_lead} to ripen"
        ),
        do=(
            "Start a culture today or ask for a ripe one; bridge the gap with the finest dust, very little at a time. "
            "Type the day under Steps done up to."
        ),
    ),
    Flag(
        "late_step",
        "Step of a brood late",
        gathered=True,
        seriousness="watch",
        when="{next_on}<{settings.plan_date}",
        why="due on {next_on}: {next_do}",
        do="Do it, then type the date under Steps done up to; 0 under Young counted if the brood is lost.",
    ),
    Flag(
        "guard_gone",
        "Guard taken away",
        seriousness="watch",
        when='AND({eats_own_eggs}="no",{out}=1,{going}=1,{guards}=1,{settings.plan_date}<{swim_on})',
        why="this species guards its brood until {swim_on}, and the adults are said to be out",
        do="Leave or put back whoever guards, or stand in: an air stone beside the eggs, white eggs out, each day.",
    ),
    Flag(
        "off_range",
        "Water outside the species' range",
        seriousness="watch",
        when="AND({going}=1,OR({temperature}<{temperature_low},{temperature}>{temperature_high}))",
        why="{temperature}, the range in use is {temperature_low} to {temperature_high}",
        do="Bring it back slowly: eggs and larvae bear less than adults.",
    ),
    Flag(
        "too_cold",
        "Too cold to develop",
        seriousness="watch",
        when="AND({born}=0,{going}=1,{temperature}<={const.hatch_zero})",
        why="at {temperature} eggs come to rest by the equation, so no date can be told",
        do="Warm the water slowly, or check the cell.",
    ),
    Flag(
        "grow_occupied",
        "Growing-on tank occupied",
        gathered=True,
        seriousness="watch",
        when="AND({going}=1,{grow_tank}<>{tank},{grow_animals}>0)",
        why="animals that live in {grow_tank}: {grow_animals}; most of them eat young or their food",
        do="Choose an empty tank, or wait until the young are too large to be eaten.",
    ),
    Flag(
        "grow_small",
        "Growing-on tank too small",
        gathered=True,
        seriousness="watch",
        when="AND({going}=1,{grow_volume}<{grow_wanted})",
        why="{raised} young of {sale_length_used} want {grow_wanted}, it holds {grow_volume}",
        do="Share them out over more tanks, part with some earlier, or raise fewer.",
    ),
    Flag(
        "no_grow_tank",
        "No growing-on tank",
        gathered=True,
        seriousness="note",
        copes=True,
        when='AND({species}<>"",{grow_tank}="",SUM({raised})>0,SUM({going})=1)',
        why="{raised} young are likely to be raised, and no tank is named for them",
        do="Name the tank in which they are to grow; it may be the one they hatched in.",
    ),
    Flag(
        "no_dates",
        "Breeding data missing",
        seriousness="note",
        copes=True,
        when=(
            'AND({species_row}<>"",{date}<>"",{swim_on}="",SUM({going})=1,'
            'OR({temperature}="",SUM({temperature})>{const.hatch_zero}))'
        ),
        why="days to hatch and to swim, or the water's temperature, are not known",
        do="Type them on Species from what you see at home, and the temperature here.",
    ),
    Flag(
        "far_off",
        "Dates are a guess",
        seriousness="note",
        when=(
            "AND({born}=0,{going}=1,{settings.plan_date}<{swim_on},"
            "ABS({temperature}-{hatch_temperature})>{const.hatch_far})"
        ),
        why="its days are known at {hatch_temperature}, the water has {temperature}",
        do="Look daily from now on; type on Species what you see.",
    ),
    Flag(
        "count_early",
        "Counted before it happened",
        seriousness="note",
        when="{counted_on}<{date}",
        why="the count of {counted_on} lies before {date}",
        do="Check the two dates.",
    ),
    Flag(
        "more_than_eggs",
        "More young than eggs",
        seriousness="note",
        when="{fry_counted}>{eggs}",
        why="{fry_counted} counted of {eggs}",
        do="Count again, or correct the eggs.",
    ),
    Flag(
        "daily_water",
        "Fresh water each day for the young",
        gathered=True,
        seriousness="note",
        when=SAFE,
        why="young foul their water fast and bear little",
        do=(
            "Change {litres_day} each day with water of the same warmth, siphon off what is left of the food, "
            "test ammonia and nitrite."
        ),
    ),
    Flag(
        "pass_on",
        "Large enough to part with",
        seriousness="note",
        when="AND({going}=1,{settings.plan_date}>={sale_on},{done}<{sale_on})",
        why="by growth since {swim_on} they measure about {sale_length_used}",
        do=(
            "Good homes, a club or a shop, by local law; never release one. "
            "Brother and sister are better not paired for long."
        ),
    ),
)
