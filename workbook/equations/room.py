"""How many more animals a tank takes until a measure of Stocking reaches its limit."""

from workbook.tables.formula import equation


@equation
def animals_by_nitrate(target: str, source: str, share: str, uptake: str, days: str, rise: str, each: str) -> str:
    """How many more animals the planned water changes carry.

    n = ((target - s) * f + uptake * days / 7 - rise) / each

    target [mg/L]: highest level wanted, just before a change, as nitrate, above the source
    source [mg/L]: s, nitrate of the new water
    share [1]: f, changed each time as planned
    uptake [mg/L]: what plants take in a week, as nitrate
    days [day]: between two changes
    rise [mg/L]: between two changes by the animals already there, before what plants take, as nitrate
    each [mg/L]: the same by one animal more, above 0
    returns [1]: animals, not yet cut to a whole number; below 0 the limit is already passed
    source: mass_balance, steady level before a change
    """
    return f"(({target}-{source})*{share}+{uptake}*{days}/7-{rise})/{each}"


@equation
def animals_by_oxygen(
    saturation: str,
    volume: str,
    draw: str,
    each: str,
    start: str = "{const.oxygen_start_share}",
    stop: str = "{const.oxygen_stop}",
    wanted: str = "{const.oxygen_reserve_wanted}",
) -> str:
    """How many more animals the oxygen in the water carries for the hours wanted.

    n = (max(0, Cs * start - stop) * V / t - MO2) / each

    saturation [mg/L]: Cs, at the tank's temperature and altitude
    volume [L]: V, net volume
    draw [mg/h]: MO2, of the animals already there and of the bacteria they feed
    each [mg/h]: the same of one animal more, above 0
    start [1]: share of saturation when aeration stops, 0.5 to 1
    stop [mg/L]: level at which animals are in danger, 2 to 5
    wanted [h]: t, hours that the oxygen should last without aeration, above 0
    returns [1]: animals, not yet cut to a whole number; below 0 the limit is already passed
    source: mass_balance
    """
    return f"(MAX(0,{saturation}*{start}-{stop})*{volume}/{wanted}-{draw})/{each}"


@equation
def animals_by_bottom(area: str, wanted: str, each: str) -> str:
    """How many more bottom dwellers the floor carries.

    n = (A - wanted) / each

    area [cm2]: A, plan area of the tank
    wanted [cm2]: by the bottom dwellers already there
    each [cm2]: by one more, above 0
    returns [1]: animals, not yet cut to a whole number; below 0 the limit is already passed
    source: definition
    """
    return f"({area}-{wanted})/{each}"
