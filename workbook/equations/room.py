"""How much more a tank carries until a measure of Stocking reaches its limit."""

from workbook.tables.formula import equation


@equation
def nitrate_carried(target: str, source: str, share: str) -> str:
    """Rise of nitrate between two changes that the planned changes carry.

    d = (target - s) * f

    target [mg/L]: highest level wanted, just before a change, as nitrate
    source [mg/L]: s, nitrate of the new water; at or above the target nothing is carried
    share [1]: f, changed each time as planned
    returns [mg/L]: rise at which the level before a change settles at the target, as nitrate, after what plants take
    source: mass_balance, steady level before a change
    """
    return f"({target}-{source})*{share}"


@equation
def draw_carried(
    saturation: str,
    volume: str,
    start: str = "{const.oxygen_start_share}",
    stop: str = "{const.oxygen_stop}",
    wanted: str = "{const.oxygen_reserve_wanted}",
) -> str:
    """Oxygen draw that the water carries for the hours wanted when aeration stops.

    MO2 = max(0, Cs * start - stop) * V / t

    saturation [mg/L]: Cs, at the tank's temperature and altitude
    volume [L]: V, net volume
    start [1]: share of saturation when aeration stops, 0.5 to 1
    stop [mg/L]: level at which animals are in danger, 2 to 5
    wanted [h]: t, hours that the oxygen should last, above 0
    returns [mg/h]: of animals and bacteria together
    source: mass_balance
    """
    return f"MAX(0,{saturation}*{start}-{stop})*{volume}/{wanted}"


@equation
def by_nitrate(carried: str, taken: str, rise: str, each: str) -> str:
    """How many more animals the planned water changes carry.

    n = (carried + taken - rise) / each

    carried [mg/L]: rise of nitrate between two changes that they carry
    taken [mg/L]: by plants between two changes, as nitrate
    rise [mg/L]: by the animals already there, before what plants take
    each [mg/L]: rise by one animal more, above 0
    returns [1]: animals, not yet cut to a whole number; below 0 the limit is already passed
    source: mass_balance, steady level before a change
    """
    return f"({carried}+{taken}-{rise})/{each}"


@equation
def by_oxygen(carried: str, draw: str, each: str) -> str:
    """How many more animals the oxygen in the water carries.

    n = (carried - MO2) / each

    carried [mg/h]: draw that the water carries for the hours wanted
    draw [mg/h]: MO2, of the animals already there and of the bacteria they feed
    each [mg/h]: the same of one animal more, above 0
    returns [1]: animals, not yet cut to a whole number; below 0 the limit is already passed
    source: mass_balance
    """
    return f"({carried}-{draw})/{each}"


@equation
def by_bottom(area: str, wanted: str, each: str) -> str:
    """How many more bottom dwellers the floor carries.

    n = (A - wanted) / each

    area [cm2]: A, plan area of the tank
    wanted [cm2]: by the bottom dwellers already there
    each [cm2]: by one more, above 0
    returns [1]: animals, not yet cut to a whole number; below 0 the limit is already passed
    source: definition
    """
    return f"({area}-{wanted})/{each}"
