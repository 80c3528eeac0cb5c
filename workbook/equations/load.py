"""What a filled tank weighs and how it bears on the floor."""

from workbook.tables.formula import equation


@equation
def water_mass(volume: str, density: str = "{const.water_density}") -> str:
    """Mass of the water.

    m = V * density

    volume [L]: net volume
    density [kg/L]: of water, 0.995 to 1.000 from 0 to 30 degC
    returns [kg]: mass of the water
    source: iapws_97, water at 1 atm
    """
    return f"{volume}*{density}"


@equation
def glass_mass(perimeter: str, height: str, area: str, glass: str, density: str = "{const.glass_density}") -> str:
    """Mass of the panes: the sides and one bottom, open top.

    m = (P * h + A) * t / 1000 * density

    perimeter [cm]: way round the plan, inside
    height [cm]: height of the glass, outside
    area [cm2]: plan area, outside for the best estimate
    glass [cm]: thickness, the same for every pane, 0.2 to 3
    density [kg/L]: 2.5 for glass, 1.19 for acrylic
    returns [kg]: mass; all outside measures give 2 to 3 % too much, all inside ones as much too little
    source: plane_geometry
    """
    return f"({perimeter}*{height}+{area})*{glass}/1000*{density}"


@equation
def substrate_mass(area: str, depth: str, porosity: str, density: str = "{const.grain_density}") -> str:
    """Dry mass of the substrate.

    m = A * d / 1000 * (1 - porosity) * density

    area [cm2]: inside plan area
    depth [cm]: mean depth of the bed
    porosity [1]: share of the bed that is water between the grains, 0.3 to 0.6
    density [kg/L]: of the grains, not of the heap
    returns [kg]: dry mass
    source: definition
    """
    return f"{area}*{depth}/1000*(1-{porosity})*{density}"


@equation
def filled_mass(
    water: str, glass: str, substrate: str, rock: str, wood: str, fittings: str = "{const.fittings_share}"
) -> str:
    """Mass of the filled tank.

    m = (water + glass + substrate + rock + wood) * (1 + fittings)

    water [kg]: net water
    glass [kg]: panes
    substrate [kg]: dry substrate
    rock [kg]: rock
    wood [kg]: wood
    fittings [1]: lid, lamp, filter and frame as a share of the rest; the stand is not counted
    returns [kg]: mass without the stand
    source: definition
    """
    return f"({water}+{glass}+{substrate}+{rock}+{wood})*(1+{fittings})"


@equation
def floor_load(mass: str, area: str) -> str:
    """Mass for each square metre under the tank.

    load = m / (A / 10000)

    mass [kg]: of the filled tank
    area [cm2]: plan area of the tank or of its stand
    returns [kg/m2]: load below the tank; a reason to ask a structural professional, never a verdict
    source: definition
    """
    return f"{mass}*10000/{area}"
