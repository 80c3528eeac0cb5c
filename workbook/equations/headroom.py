"""How much a tank carries until a measure of Stocking reaches its limit, and how many more animals that means."""

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
def rise_taken(rise: str, uptake: str, days: str, carried: str) -> str:
    """Share of the rise that the planned changes carry which is taken already, with what plants take counted off.

    full = (d - u * t / 7) / carried

    rise [mg/L]: d, rise of nitrate between two changes before plants take any
    uptake [mg/L]: u, what plants take in a week, as nitrate
    days [day]: t, between two changes
    carried [mg/L]: rise at which the level before a change settles at the target, above 0
    returns [1]: 1 at the limit; below 0 where plants take more than comes
    source: mass_balance
    """
    return f"({rise}-{uptake}*{days}/7)/{carried}"


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
def animals_left(full: str, each: str) -> str:
    """How many more animals a measure carries until its limit.

    n = (1 - full) / each

    full [1]: share of the limit that the animals already there take; by water change or oxygen, or of the floor
    each [1]: share that one animal more takes, above 0
    returns [1]: animals, not yet cut to a whole number; below 0 the limit is already passed
    source: definition
    """
    return f"(1-{full})/{each}"
