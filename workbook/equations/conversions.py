"""Units that keepers use beside the metric ones; exact factors."""

from workbook.tables.formula import equation


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
def celsius_to_fahrenheit(value: str) -> str:
    """Degrees Fahrenheit from degrees Celsius.

    F = 1.8 * C + 32

    value [degC]: a temperature, not a difference
    returns [degF]: temperature
    source: nist_sp811, degree Fahrenheit
    """
    return f"{value}*1.8+32"
