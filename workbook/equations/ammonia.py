"""The toxic part of ammonia, what test kits call it, and what criteria say of ambient waters."""

from workbook.tables.formula import equation


@equation
def toxic_share(temperature: str, ph: str) -> str:
    """Share of the ammonia that is toxic, that is NH3 and not NH4.

    f = 1 / (1 + 10^(pKa - pH));  pKa = 0.09018 + 2729.92 / T

    temperature [degC]: 0 to 30 (T in kelvin inside)
    ph [1]: of the water at the same hour, 6 to 10
    returns [1]: toxic share; in hard tap water 8 to 9 % of it less, so on the safe side
    source: emerson_1975
    """
    return f"1/(1+10^(0.09018+2729.92/({temperature}+273.15)-{ph}))"


@equation
def toxic_amount(total: str, share: str) -> str:
    """Toxic ammonia in the water.

    toxic = total * share

    total [mg/L]: ammonia in both forms, as nitrogen
    share [1]: toxic share, 0 to 1
    returns [mg/L]: toxic ammonia (NH3), as nitrogen
    source: definition
    """
    return f"{total}*{share}"


@equation
def nitrogen_from_ammonia(reading: str) -> str:
    """Ammonia nitrogen from the reading of a kit that counts ammonia as NH3.

    N = NH3 / 1.2159

    reading [mg/L]: total ammonia, as NH3
    returns [mg/L]: total ammonia, as nitrogen
    source: molar_masses, ammonia to nitrogen
    """
    return f"{reading}/1.2159"


@equation
def nitrogen_from_ammonium(reading: str) -> str:
    """Ammonia nitrogen from the reading of a kit that counts ammonia as NH4.

    N = NH4 / 1.2879

    reading [mg/L]: total ammonia, as NH4
    returns [mg/L]: total ammonia, as nitrogen
    source: molar_masses, ammonium to nitrogen
    """
    return f"{reading}/1.2879"


def _between(low: str, high: str, turn: str, ph: str) -> str:
    """A level that goes from `high` in acid water to `low` in alkaline water, half way at the turning pH."""
    return f"{low}/(1+10^({turn}-{ph}))+{high}/(1+10^({ph}-{turn}))"


@equation
def acute_criterion(temperature: str, ph: str) -> str:
    """Ammonia that ambient waters with salmonids should not pass for an hour; a caution only.

    c = min(0.275 / (1 + 10^(7.204 - pH)) + 39 / (1 + 10^(pH - 7.204)), 0.7249 * (0.0114 / (1 + 10^(7.204 - pH))
        + 1.6181 / (1 + 10^(pH - 7.204))) * 23.12 * 10^(0.036 * (20 - T)))

    temperature [degC]: T, 0 to 30
    ph [1]: 6.5 to 9
    returns [mg/L]: total ammonia, as nitrogen, mean of an hour; an aquarium's own target is zero
    source: epa_2013, acute criterion with salmonids
    """
    fish = _between("0.275", "39", "7.204", ph)
    mussels = f"0.7249*({_between('0.0114', '1.6181', '7.204', ph)})*23.12*10^(0.036*(20-{temperature}))"
    return f"MIN({fish},{mussels})"


@equation
def chronic_criterion(temperature: str, ph: str) -> str:
    """Ammonia that ambient waters should not pass for a month; a caution only.

    c = 0.8876 * (0.0278 / (1 + 10^(7.688 - pH)) + 1.1994 / (1 + 10^(pH - 7.688)))
        * 2.126 * 10^(0.028 * (20 - max(T, 7)))

    temperature [degC]: T, 0 to 30
    ph [1]: 6.5 to 9
    returns [mg/L]: total ammonia, as nitrogen, mean of 30 days; an aquarium's own target is zero
    source: epa_2013, chronic criterion
    """
    mussels = _between("0.0278", "1.1994", "7.688", ph)
    return f"0.8876*({mussels})*2.126*10^(0.028*(20-MAX({temperature},7)))"
