"""From food to ammonia, nitrate and water changes."""

from workbook.tables.formula import equation


@equation
def ammonia_from_food(food: str, protein: str, yield_: str = "{const.ammonia_yield}") -> str:
    """Ammonia nitrogen that animals give off from their food.

    N = food * protein * yield

    food [g/day]: food, on the same basis as the protein share
    protein [1]: protein share of that food, 0.1 to 0.8
    yield_ [1]: ammonia nitrogen per mass of protein, 0.092 to 0.144
    returns [g/day]: total ammonia as nitrogen
    source: timmons_ebeling, ammonia from feed
    """
    return f"{food}*{protein}*{yield_}"


@equation
def with_fasting(ammonia: str, fasting_days: str) -> str:
    """Mean over the week when some days bring no food.

    mean = daily * (7 - fasting days) / 7

    ammonia [g/day]: on a feeding day, as nitrogen
    fasting_days [1]: days a week without food, 0 to 6
    returns [g/day]: mean of the week, as nitrogen; fasting animals still give off a little
    source: definition
    """
    return f"{ammonia}*(7-{fasting_days})/7"


@equation
def nitrate_rise(ammonia: str, days: str, volume: str, yield_: str = "{const.nitrate_yield}") -> str:
    """Rise of nitrate between two water changes.

    rise = N * 1000 * 4.4266 * yield * days / V

    ammonia [g/day]: mean of the week, as nitrogen
    days [day]: between two changes
    volume [L]: net volume, above 0
    yield_ [1]: share of the nitrogen that ends as nitrate in the water, 0 to 1
    returns [mg/L]: rise, as nitrate ion, before what plants take
    source: molar_masses, nitrate to nitrogen
    """
    return f"{ammonia}*1000*4.4266*{yield_}*{days}/{volume}"


@equation
def taken_by_plants(growth: str, area: str, volume: str, nitrogen: str = "{const.plant_nitrogen}") -> str:
    """Nitrate that growing plants take out of the water in a week.

    taken = growth * nitrogen * area / 10^4 * 1000 * 4.4266 * 7 / V

    growth [g/m2day]: dry matter that the planted floor puts on
    area [cm2]: floor of the tank, seen from above
    volume [L]: net volume, above 0
    nitrogen [1]: share of nitrogen in the dry matter of submerged plants, 0.01 to 0.05
    returns [mg/L]: in a week, as nitrate; an upper bound where they find ammonia first or lose leaves
    source: westlake_1963, growth a year; gerloff_1966, nitrogen in it; molar_masses, nitrate to nitrogen
    """
    return f"{growth}*{nitrogen}*{area}/10^4*1000*4.4266*7/{volume}"


@equation
def rise_after_plants(rise: str, uptake: str, days: str) -> str:
    """Rise of nitrate that plants leave over.

    left = max(0, rise - uptake * days / 7)

    rise [mg/L]: between two changes, as nitrate
    uptake [mg/L]: what plants take in a week, as nitrate
    days [day]: between two changes
    returns [mg/L]: rise left, never below 0
    source: mass_balance
    """
    return f"MAX(0,{rise}-{uptake}*{days}/7)"


@equation
def change_needed(rise: str, target: str, source: str) -> str:
    """Share of water to change each time so that nitrate ends at the target.

    f = d / (target - s)

    rise [mg/L]: between two changes, as nitrate
    target [mg/L]: highest level wanted, just before a change, above the source
    source [mg/L]: nitrate of the new water
    returns [1]: share to change; above 1 no change holds the target
    source: mass_balance, steady level before a change
    """
    return f"{rise}/({target}-{source})"


@equation
def level_before_change(rise: str, share: str, source: str) -> str:
    """Nitrate just before a change, after many equal changes.

    C* = s + d / f

    rise [mg/L]: between two changes, as nitrate
    share [1]: share changed each time, above 0 to 1
    source [mg/L]: nitrate of the new water
    returns [mg/L]: steady level before a change
    source: mass_balance, steady level before a change
    """
    return f"{source}+{rise}/{share}"


@equation
def level_after_change(before: str, share: str, source: str) -> str:
    """Level just after a water change.

    after = before * (1 - f) + f * s

    before [mg/L]: level before the change
    share [1]: share changed, 0 to 1
    source [mg/L]: level of the new water
    returns [mg/L]: level after the change
    source: mass_balance
    """
    return f"{before}*(1-{share})+{share}*{source}"


@equation
def nitrification_oxygen(ammonia: str) -> str:
    """Oxygen that bacteria use to turn ammonia into nitrate.

    O2 = N * 1000 * 4.57 / 24

    ammonia [g/day]: as nitrogen, all of it turned into nitrate
    returns [mg/h]: oxygen draw of the bacteria; 4.18 with their growth counted
    source: ebeling_2006, nitrification without cell growth
    """
    return f"{ammonia}*1000*4.57/24"


@equation
def alkalinity_used(ammonia: str, days: str, volume: str) -> str:
    """Fall of carbonate hardness as ammonia turns into nitrate.

    fall = N * 1000 * 7.14 * days / V / 17.848

    ammonia [g/day]: mean of the week, as nitrogen
    days [day]: between two changes
    volume [L]: net volume, above 0
    returns [degH]: fall of KH, an upper bound; plants and lack of oxygen in the bed give some back
    source: ebeling_2006, nitrification without cell growth
    source: german_degree, mg/L CaCO3 in a degree
    """
    return f"{ammonia}*1000*7.14*{days}/{volume}/17.848"


@equation
def level_after_changes(start: str, rise: str, share: str, source: str, number: str) -> str:
    """Nitrate just before a change, on the way to the steady level.

    C = C* + (C0 + d - C*) * (1 - f)^k;  C* = s + d / f

    start [mg/L]: C0, level one interval before the first change, as nitrate
    rise [mg/L]: d, between two changes, as nitrate
    share [1]: f, changed each time, above 0 to 1
    source [mg/L]: s, nitrate of the new water
    number [1]: k, changes already made, a whole number; 0 is just before the first change
    returns [mg/L]: level just before the next change
    source: mass_balance
    """
    # 0^0 is an error in some programs: a share of 1 must still have a level before the first change.
    left = f"IF({number}=0,1,(1-{share})^{number})"
    return f"{source}+{rise}/{share}+({start}+{rise}-{source}-{rise}/{share})*{left}"


@equation
def rise_a_day(rise: str, days: str) -> str:
    """Rise of nitrate in a day.

    a day = rise / days

    rise [mg/L]: between two changes, as nitrate
    days [day]: between two changes, above 0
    returns [mg/L/day]: rise in a day, as nitrate
    source: definition
    """
    return f"{rise}/{days}"


@equation
def days_to_reach(level: str, target: str, rise_day: str) -> str:
    """Days until nitrate reaches a level when no water is changed.

    days = (target - level) / rise a day

    level [mg/L]: now, as nitrate
    target [mg/L]: level to be reached, as nitrate
    rise_day [mg/L/day]: as nitrate, after what plants take, above 0
    returns [day]: from the day of the level; below 0 it has passed the target
    source: mass_balance
    """
    return f"({target}-{level})/{rise_day}"


@equation
def changes_to_reach(start: str, steady: str, target: str, share: str) -> str:
    """Which of many equal changes is the first that finds nitrate at or under the target.

    n = 1 + round up(ln((Ct - C*) / (C0 - C*)) / ln(1 - f)), rounded to 9 decimals before it is rounded up

    start [mg/L]: C0, level just before the first change, above the target
    steady [mg/L]: C*, steady level before a change, below the target
    target [mg/L]: Ct, level wanted just before a change
    share [1]: f, changed each time, above 0 and below 1
    returns [1]: number of that change, counted from 1
    source: mass_balance
    """
    # Rounded first: 3.0000000001 of float noise must not become 4.
    times = f"LN(({target}-{steady})/({start}-{steady}))/LN(1-{share})"
    return f"1+ROUNDUP(ROUND({times},9),0)"


@equation
def own_yield(measured: str, ammonia: str, days: str, volume: str) -> str:
    """Share of the nitrogen that ends as nitrate in this tank's water, from two readings without a change between.

    yield = rise * V / (N * 1000 * 4.4266 * days)

    measured [mg/L]: rise between the two readings, as nitrate
    ammonia [g/day]: mean of the week, as nitrogen, above 0
    days [day]: between the two readings, above 0
    volume [L]: net volume
    returns [1]: measured rise over the rise at a yield of 1; what plants take counts as lost
    source: molar_masses, nitrate to nitrogen
    """
    return f"{measured}*{volume}/({ammonia}*1000*4.4266*{days})"
