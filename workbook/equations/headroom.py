"""What is left under the limits of a tank, in the measure of each."""

from workbook.tables.formula import equation


@equation
def nitrate_left(target: str, source: str, share: str, uptake: str, days: str, rise: str) -> str:
    """Nitrate that the planned changes and the plants carry beyond what is brought.

    left = (target - s) * f + uptake * days / 7 - rise

    target [mg/L]: highest level wanted, just before a change, as nitrate, above the source
    source [mg/L]: s, nitrate of the new water
    share [1]: f, changed each time as planned
    uptake [mg/L]: what plants take in a week, as nitrate
    days [day]: between two changes
    rise [mg/L]: between two changes by the animals already there, before what plants take, as nitrate
    returns [mg/L]: rise between two changes that may be added; below 0 the limit is already passed
    source: mass_balance, steady level before a change
    """
    return f"({target}-{source})*{share}+{uptake}*{days}/7-{rise}"


@equation
def oxygen_left(
    saturation: str,
    volume: str,
    draw: str,
    start: str = "{const.oxygen_start_share}",
    stop: str = "{const.oxygen_stop}",
    wanted: str = "{const.oxygen_reserve_wanted}",
) -> str:
    """Oxygen draw that the water carries for the hours wanted, beyond what is drawn.

    left = max(0, Cs * start - stop) * V / t - MO2

    saturation [mg/L]: Cs, at the tank's temperature and altitude
    volume [L]: V, net volume
    draw [mg/h]: MO2, of the animals already there and of the bacteria they feed
    start [1]: share of saturation when aeration stops, 0.5 to 1
    stop [mg/L]: level at which animals are in danger, 2 to 5
    wanted [h]: t, hours that the oxygen should last without aeration, above 0
    returns [mg/h]: draw that may be added; below 0 the limit is already passed
    source: mass_balance
    """
    return f"MAX(0,{saturation}*{start}-{stop})*{volume}/{wanted}-{draw}"


@equation
def bottom_left(area: str, wanted: str) -> str:
    """Floor that the bottom dwellers leave.

    left = A - wanted

    area [cm2]: A, plan area of the tank
    wanted [cm2]: by the bottom dwellers already there
    returns [cm2]: floor for more; below 0 the limit is already passed
    source: definition
    """
    return f"{area}-{wanted}"
