"""What animals weigh."""

from workbook.tables.formula import equation


@equation
def from_length(length: str, factor: str, exponent: str) -> str:
    """Mass of one animal from its length.

    W = a * L^b

    length [cm]: total length, nose to tail tip, long fins left out, 0.5 to 200
    factor [g]: a, of the body form; mass of an animal of 1 cm
    exponent [1]: b, of the body form, 2.5 to 3.5
    returns [g]: live mass, good to about a third, to a factor two for the smallest
    source: froese_2014, equation 1
    """
    return f"{factor}*{length}^{exponent}"


@equation
def of_longer(mass: str, length: str, longer: str, exponent: str) -> str:
    """Mass of an animal of known mass once it is longer.

    W2 = W1 * (L2 / L1)^b

    mass [g]: W1, at the first length
    length [cm]: L1, above 0
    longer [cm]: L2
    exponent [1]: b, of the body form, 2.5 to 3.5
    returns [g]: live mass at the second length
    source: froese_2014, equation 1 at two lengths
    """
    return f"{mass}*({longer}/{length})^{exponent}"


@equation
def of_group(each: str, animals: str) -> str:
    """Mass of a group.

    all = each * n

    each [g]: mass of one
    animals [1]: how many
    returns [g]: mass of all
    source: definition
    """
    return f"{each}*{animals}"


@equation
def density(mass: str, volume: str) -> str:
    """Live mass for each litre of water.

    density = m / V

    mass [g]: of all animals in the tank
    volume [L]: net volume, above 0
    returns [g/L]: live mass per litre
    source: definition
    """
    return f"{mass}/{volume}"
