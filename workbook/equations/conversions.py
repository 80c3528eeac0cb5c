"""Units that keepers use beside the metric ones; exact factors."""

from workbook.tables.formula import equation


@equation
def cm_to_inch(value: str) -> str:
    """Inches from centimetres.

    in = cm / 2.54

    value [cm]: any length
    returns [in]: length
    source: nist_sp811, inch
    """
    return f"{value}/2.54"


@equation
def inch_to_cm(value: str) -> str:
    """Centimetres from inches.

    cm = 2.54 * in

    value [in]: any length
    returns [cm]: length
    source: nist_sp811, inch
    """
    return f"{value}*2.54"


@equation
def litre_to_gallon(value: str) -> str:
    """US gallons from litres.

    gal = L / 3.785411784

    value [L]: any volume
    returns [gal]: volume in US gallons
    source: nist_sp811, US gallon
    """
    return f"{value}/3.785411784"


@equation
def gallon_to_litre(value: str) -> str:
    """Litres from US gallons.

    L = 3.785411784 * gal

    value [gal]: any volume in US gallons
    returns [L]: volume
    source: nist_sp811, US gallon
    """
    return f"{value}*3.785411784"


@equation
def celsius_to_fahrenheit(value: str) -> str:
    """Degrees Fahrenheit from degrees Celsius.

    F = 1.8 * C + 32

    value [degC]: a temperature, not a difference
    returns [degF]: temperature
    source: nist_sp811, degree Fahrenheit
    """
    return f"{value}*1.8+32"


@equation
def fahrenheit_to_celsius(value: str) -> str:
    """Degrees Celsius from degrees Fahrenheit.

    C = (F - 32) / 1.8

    value [degF]: a temperature, not a difference
    returns [degC]: temperature
    source: nist_sp811, degree Fahrenheit
    """
    return f"({value}-32)/1.8"


@equation
def kilogram_to_pound(value: str) -> str:
    """Pounds from kilograms.

    lb = kg / 0.45359237

    value [kg]: any mass
    returns [lb]: mass
    source: nist_sp811, pound
    """
    return f"{value}/0.45359237"


@equation
def pound_to_kilogram(value: str) -> str:
    """Kilograms from pounds.

    kg = 0.45359237 * lb

    value [lb]: any mass
    returns [kg]: mass
    source: nist_sp811, pound
    """
    return f"{value}*0.45359237"


@equation
def metre_to_foot(value: str) -> str:
    """Feet from metres.

    ft = m / 0.3048

    value [m]: any length
    returns [ft]: length
    source: nist_sp811, foot
    """
    return f"{value}/0.3048"


@equation
def foot_to_metre(value: str) -> str:
    """Metres from feet.

    m = 0.3048 * ft

    value [ft]: any length
    returns [m]: length
    source: nist_sp811, foot
    """
    return f"{value}*0.3048"
