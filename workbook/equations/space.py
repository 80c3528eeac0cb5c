"""Room to swim, room on the bottom, and counting by length."""

from workbook.tables.formula import equation


@equation
def swim_length(adult_length: str, multiple: str) -> str:
    """Least tank length for a swimmer.

    least = multiple * L

    adult_length [cm]: total length when grown
    multiple [1]: tank length over body length, 3 to 10
    returns [cm]: least inside length
    source: common_practice
    """
    return f"{multiple}*{adult_length}"


@equation
def bottom_room(adult_length: str, factor: str, animals: str) -> str:
    """Bottom that a group of bottom dwellers wants.

    room = n * (factor * L)^2

    adult_length [cm]: total length when grown
    factor [1]: side of the square of each over its length, 1 to 3
    animals [1]: how many
    returns [cm2]: bottom wanted
    source: common_practice
    """
    return f"{animals}*({factor}*{adult_length})^2"


@equation
def length_per_litre(length: str, volume: str) -> str:
    """Body length for each litre.

    l = L / V

    length [cm]: of all animals together
    volume [L]: net volume, above 0
    returns [cm/L]: too strict for tiny fish, far too lax for big ones; shown, never binding
    source: common_practice
    """
    return f"{length}/{volume}"


@equation
def inches_per_gallon(length: str, volume: str) -> str:
    """Body length in inches for each US gallon.

    l = (L / 2.54) / (V / 3.785411784)

    length [cm]: of all animals together
    volume [L]: net volume, above 0
    returns [in/gal]: as misleading as body length per litre
    source: nist_sp811, inch and US gallon
    """
    return f"({length}/2.54)/({volume}/3.785411784)"


@equation
def scaled_length(
    mass_each: str, reference_mass: str, animals: str, reference_length: str = "{const.rule_reference_length}"
) -> str:
    """Body length counted by what the animal breathes.

    L = n * L_ref * (W / W_ref)^0.80

    mass_each [g]: live mass of one
    reference_mass [g]: mass of a slim fish of the reference length, above 0
    animals [1]: how many
    reference_length [cm]: length at which the length rule fits, 3 to 8
    returns [cm]: length in fish of the reference size that breathe as much
    source: clarke_1999, exponent of body mass
    """
    return f"{animals}*{reference_length}*({mass_each}/{reference_mass})^0.8"
