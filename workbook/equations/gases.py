"""Oxygen that water can hold and how long it lasts."""

from workbook.tables.formula import equation


@equation
def oxygen_saturation(temperature: str) -> str:
    """Oxygen in fresh water in balance with air at sea level.

    ln C = -139.34411 + 1.575701e5 / T - 6.642308e7 / T^2
           + 1.243800e10 / T^3 - 8.621949e11 / T^4

    temperature [degC]: 0 to 40 (T in kelvin inside)
    returns [mg/L]: saturation at 1 atm
    source: benson_1984, as given in Standard Methods 4500-O
    """
    kelvin = f"({temperature}+273.15)"
    powers = f"157570.1/{kelvin}-66423080/{kelvin}^2+12438000000/{kelvin}^3-862194900000/{kelvin}^4"
    return f"EXP(-139.34411+{powers})"


@equation
def pressure(altitude: str) -> str:
    """Air pressure at altitude.

    P = (1 - 2.25577e-5 * h)^5.25588

    altitude [m]: above sea level, -400 to 5000
    returns [atm]: mean pressure; weather moves it by about 3 %
    source: standard_atmosphere
    """
    return f"(1-0.0000225577*{altitude})^5.25588"


@equation
def oxygen_at_altitude(saturation: str, pressure: str, temperature: str) -> str:
    """Oxygen saturation at another air pressure.

    C = Cs * (P - Pw) / (1 - Pw);  Pw = exp(11.8571 - 3840.70 / T - 216961 / T^2), water vapour in atm

    saturation [mg/L]: at 1 atm
    pressure [atm]: at the altitude, 0.5 to 1.1
    temperature [degC]: 0 to 40 (T in kelvin inside)
    returns [mg/L]: saturation, good to 0.02 %; the plain product Cs * P gives 0.7 % more at 1600 m
    source: benson_1984, as given in Standard Methods 4500-O
    """
    kelvin = f"({temperature}+273.15)"
    vapour = f"EXP(11.8571-3840.7/{kelvin}-216961/{kelvin}^2)"
    return f"{saturation}*({pressure}-{vapour})/(1-{vapour})"


@equation
def oxygen_reserve(
    saturation: str,
    volume: str,
    draw: str,
    start: str = "{const.oxygen_start_share}",
    stop: str = "{const.oxygen_stop}",
) -> str:
    """Hours that the oxygen in the water lasts when aeration stops.

    t = max(0, Cs * start - stop) * V / MO2

    saturation [mg/L]: at the tank's temperature and altitude
    volume [L]: net volume
    draw [mg/h]: of animals and bacteria, above 0
    start [1]: share of saturation when aeration stops, 0.5 to 1
    stop [mg/L]: level at which animals are in danger, 2 to 5
    returns [h]: nothing counted through the surface; plants, mud and rotting food draw more
    source: mass_balance
    """
    return f"MAX(0,{saturation}*{start}-{stop})*{volume}/{draw}"
