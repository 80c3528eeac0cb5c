"""Carbonate hardness: the carbon dioxide that goes with it, and where it ends under routine changes."""

from workbook.tables.formula import equation


@equation
def carbon_dioxide(kh: str, ph: str, temperature: str) -> str:
    """Dissolved carbon dioxide from carbonate hardness, pH and temperature.

    CO2 = KH * 0.35665 * 44.0095 * 10^(pK1 - pH);
    pK1 = 356.3094 + 0.06091964 * T - 21834.37 / T - 126.8339 * log10 T + 1684915 / T^2

    kh [degH]: carbonate hardness, where carbonate is the only buffer, 0 to 10
    ph [1]: 5.5 to 8.3; an error of 0.1 is one of 26 %
    temperature [degC]: 0 to 40 (T in kelvin inside)
    returns [mg/L]: 2 to 13 % too much, most in hard water; far too much with phosphate, peat or tannins
    source: plummer_1982, first dissociation constant
    source: german_degree, meq/L in a degree
    """
    kelvin = f"({temperature}+273.15)"
    pk1 = f"356.3094+0.06091964*{kelvin}-21834.37/{kelvin}-126.8339*LOG10({kelvin})+1684915/{kelvin}^2"
    return f"{kh}*0.35665*44.0095*10^({pk1}-{ph})"


@equation
def trade_rule(kh: str, ph: str) -> str:
    """Dissolved carbon dioxide by the rule of the trade.

    CO2 = 3 * KH * 10^(7 - pH)

    kh [degH]: carbonate hardness, where carbonate is the only buffer
    ph [1]: 6 to 8
    returns [mg/L]: too little by up to a fifth at 20 to 26 degC
    source: common_practice
    """
    return f"3*{kh}*10^(7-{ph})"


@equation
def kh_level(source: str, loss: str, share: str) -> str:
    """Carbonate hardness just before a change, after many equal changes.

    KH* = s - loss / f

    source [degH]: carbonate hardness of the new water
    loss [degH]: carbonate hardness used up between two changes
    share [1]: share changed each time, above 0 to 1
    returns [degH]: steady level before a change; at or below 0 the buffer is used up and pH can fall suddenly
    source: mass_balance, steady level before a change
    """
    return f"{source}-{loss}/{share}"
