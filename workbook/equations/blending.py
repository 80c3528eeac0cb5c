"""Two waters poured together. pH is left out: it does not mix in proportion."""

from workbook.tables.formula import equation


@equation
def share_by_hardness(first: str, second: str, target: str) -> str:
    """Share of the first of two waters that gives a wanted hardness.

    x = (second - target) / (second - first)

    first [degH]: GH or KH of the first water
    second [degH]: the same of the second water, unlike the first
    target [degH]: wanted in the blend
    returns [1]: share of the first water; below 0 or above 1 these two waters cannot give it
    source: mass_balance
    """
    return f"({second}-{target})/({second}-{first})"


@equation
def blend_hardness(first: str, second: str, share: str) -> str:
    """Hardness of two waters poured together.

    blend = x * first + (1 - x) * second

    first [degH]: GH or KH of the first water
    second [degH]: the same of the second water
    share [1]: x, of the first water, 0 to 1
    returns [degH]: of the blend
    source: mass_balance
    """
    return f"{share}*{first}+(1-{share})*{second}"


@equation
def blend_nitrate(first: str, second: str, share: str) -> str:
    """Nitrate of two waters poured together; ammonia and dissolved salts mix alike.

    blend = x * first + (1 - x) * second

    first [mg/L]: of the first water
    second [mg/L]: of the second water
    share [1]: x, of the first water, 0 to 1
    returns [mg/L]: of the blend
    source: mass_balance
    """
    return f"{share}*{first}+(1-{share})*{second}"


@equation
def blend_temperature(first: str, second: str, share: str) -> str:
    """Temperature of two waters poured together.

    blend = x * first + (1 - x) * second

    first [degC]: of the first water
    second [degC]: of the second water
    share [1]: x, of the first water, 0 to 1
    returns [degC]: of the blend; glass, substrate and air not counted
    source: mass_balance, heat in the same way
    """
    return f"{share}*{first}+(1-{share})*{second}"


@equation
def largest_share(tank: str, water: str, step: str = "{const.temperature_step}") -> str:
    """Largest share to change at one go without too great a step of temperature.

    f = min(1, step / |T_tank - T_new|)

    tank [degC]: of the tank
    water [degC]: of the new water, unlike the tank's
    step [K]: greatest change of temperature that animals should meet, 0.5 to 5
    returns [1]: share, at most 1
    source: mass_balance, heat in the same way
    """
    return f"MIN(1,{step}/ABS({tank}-{water}))"
