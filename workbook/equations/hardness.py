"""Hardness of water."""

from workbook.tables.formula import equation


@equation
def degrees_to_caco3(degrees: str) -> str:
    """Hardness in mg/L from German degrees.

    mg/L CaCO3 = 17.848 * degrees

    degrees [degH]: general or carbonate hardness, 0 to 50
    returns [mg/L]: as CaCO3
    source: german_degree, mg/L CaCO3 in a degree
    """
    return f"{degrees}*17.848"
