"""What animals breathe."""

from workbook.tables.formula import equation


@equation
def resting_oxygen(mass: str, temperature: str) -> str:
    """Oxygen that one resting animal takes from the water.

    ln R = 15.7 - 5020 / T  for 50 g, in mmol/h;  scaled by (W / 50)^0.80;  31.9988 mg/mmol

    mass [g]: live mass, 0.01 to 2000
    temperature [degC]: 0 to 30 (T in kelvin inside)
    returns [mg/h]: resting; larvae and animals that breathe air differ
    source: clarke_1999, abstract
    """
    return f"EXP(15.7-5020/({temperature}+273.15))*({mass}/50)^0.8*31.9988"


@equation
def routine_oxygen(resting: str, activity: str = "{const.activity}") -> str:
    """Oxygen that one animal takes in everyday activity.

    routine = resting * activity

    resting [mg/h]: resting draw
    activity [1]: everyday draw over resting draw, 1 to 3
    returns [mg/h]: everyday draw
    source: winberg_1956, rule of doubling
    """
    return f"{resting}*{activity}"


@equation
def of_group(each: str, animals: str) -> str:
    """Oxygen that a group takes from the water.

    all = each * n

    each [mg/h]: draw of one
    animals [1]: how many
    returns [mg/h]: draw of all
    source: definition
    """
    return f"{each}*{animals}"
