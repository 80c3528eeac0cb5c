"""Plan areas, perimeters and volumes of tanks, and what takes the place of water."""

from workbook.tables.formula import equation


@equation
def box_area(length: str, width: str) -> str:
    """Plan area of a rectangular tank.

    A = L * W

    length [cm]: inside length, 1 to 500
    width [cm]: inside width, 1 to 300
    returns [cm2]: plan area
    source: plane_geometry
    """
    return f"{length}*{width}"


@equation
def cylinder_area(diameter: str) -> str:
    """Plan area of a round tank.

    A = pi / 4 * D^2

    diameter [cm]: inside diameter, 1 to 300
    returns [cm2]: plan area
    source: plane_geometry
    """
    return f"PI()/4*{diameter}^2"


@equation
def half_cylinder_area(diameter: str) -> str:
    """Plan area of a half-round tank.

    A = pi / 8 * D^2

    diameter [cm]: inside length of the flat side, 1 to 300
    returns [cm2]: plan area
    source: plane_geometry
    """
    return f"PI()/8*{diameter}^2"


@equation
def quarter_cylinder_area(radius: str) -> str:
    """Plan area of a quarter-round corner tank.

    A = pi / 4 * R^2

    radius [cm]: inside length of a flat side, 1 to 300
    returns [cm2]: plan area
    source: plane_geometry
    """
    return f"PI()/4*{radius}^2"


@equation
def hexagon_area(side: str) -> str:
    """Plan area of a regular six-sided tank.

    A = 3 sqrt(3) / 2 * s^2

    side [cm]: inside length of one of the equal sides, 1 to 200
    returns [cm2]: plan area
    source: plane_geometry
    """
    return f"3*SQRT(3)/2*{side}^2"


@equation
def octagon_area(side: str) -> str:
    """Plan area of a regular eight-sided tank.

    A = 2 (1 + sqrt(2)) * s^2

    side [cm]: inside length of one of the equal sides, 1 to 200
    returns [cm2]: plan area
    source: plane_geometry
    """
    return f"2*(1+SQRT(2))*{side}^2"


@equation
def trapezoid_area(long_side: str, short_side: str, width: str) -> str:
    """Plan area of a tank with two parallel sides of unlike length.

    A = (a + b) / 2 * W

    long_side [cm]: the longer of the two parallel sides, inside
    short_side [cm]: the shorter of the two parallel sides, inside
    width [cm]: distance between the parallel sides, inside
    returns [cm2]: plan area
    source: plane_geometry
    """
    return f"({long_side}+{short_side})/2*{width}"


@equation
def bow_radius(chord: str, bow: str) -> str:
    """Radius of the curved front pane of a bow-front tank.

    R = (c^2 / 4 + s^2) / (2 s)

    chord [cm]: straight distance between the ends of the curve, the inside length
    bow [cm]: how far the middle stands out, above 0, at most half the chord
    returns [cm]: radius
    source: plane_geometry
    """
    return f"({chord}^2/4+{bow}^2)/(2*{bow})"


@equation
def bow_segment(radius: str, bow: str) -> str:
    """Plan area between the curved front and the straight line across its ends.

    A = R^2 acos((R - s) / R) - (R - s) sqrt(2 R s - s^2)

    radius [cm]: radius of the curve, at least the bow
    bow [cm]: how far the middle stands out, above 0
    returns [cm2]: area of the segment
    source: plane_geometry
    """
    return f"{radius}^2*ACOS(({radius}-{bow})/{radius})-({radius}-{bow})*SQRT(2*{radius}*{bow}-{bow}^2)"


@equation
def bow_front_area(length: str, width: str, segment: str) -> str:
    """Plan area of a bow-front tank.

    A = L * W + segment

    length [cm]: inside length, 1 to 500
    width [cm]: inside width at the side panes, 1 to 300
    segment [cm2]: area that the curved front adds
    returns [cm2]: plan area
    source: plane_geometry
    """
    return f"{length}*{width}+{segment}"


@equation
def box_perimeter(length: str, width: str) -> str:
    """Perimeter of a rectangular tank.

    P = 2 (L + W)

    length [cm]: inside length, 1 to 500
    width [cm]: inside width, 1 to 300
    returns [cm]: way round the plan
    source: plane_geometry
    """
    return f"2*({length}+{width})"


@equation
def cylinder_perimeter(diameter: str) -> str:
    """Perimeter of a round tank.

    P = pi * D

    diameter [cm]: inside diameter, 1 to 300
    returns [cm]: way round the plan
    source: plane_geometry
    """
    return f"PI()*{diameter}"


@equation
def half_cylinder_perimeter(diameter: str) -> str:
    """Perimeter of a half-round tank, flat side included.

    P = (pi / 2 + 1) * D

    diameter [cm]: inside length of the flat side, 1 to 300
    returns [cm]: way round the plan
    source: plane_geometry
    """
    return f"(PI()/2+1)*{diameter}"


@equation
def quarter_cylinder_perimeter(radius: str) -> str:
    """Perimeter of a quarter-round corner tank, both flat sides included.

    P = (pi / 2 + 2) * R

    radius [cm]: inside length of a flat side, 1 to 300
    returns [cm]: way round the plan
    source: plane_geometry
    """
    return f"(PI()/2+2)*{radius}"


@equation
def hexagon_perimeter(side: str) -> str:
    """Perimeter of a regular six-sided tank.

    P = 6 s

    side [cm]: inside length of one of the equal sides, 1 to 200
    returns [cm]: way round the plan
    source: plane_geometry
    """
    return f"6*{side}"


@equation
def octagon_perimeter(side: str) -> str:
    """Perimeter of a regular eight-sided tank.

    P = 8 s

    side [cm]: inside length of one of the equal sides, 1 to 200
    returns [cm]: way round the plan
    source: plane_geometry
    """
    return f"8*{side}"


@equation
def trapezoid_perimeter(long_side: str, short_side: str, width: str) -> str:
    """Perimeter of a tank with two parallel sides, its two slanting sides alike.

    P = a + b + 2 sqrt(W^2 + ((a - b) / 2)^2)

    long_side [cm]: the longer of the two parallel sides, inside
    short_side [cm]: the shorter of the two parallel sides, inside
    width [cm]: distance between the parallel sides, inside
    returns [cm]: way round the plan; too small if the slanting sides differ
    source: plane_geometry
    """
    return f"{long_side}+{short_side}+2*SQRT({width}^2+(({long_side}-{short_side})/2)^2)"


@equation
def bow_front_perimeter(length: str, width: str, radius: str) -> str:
    """Perimeter of a bow-front tank.

    P = L + 2 W + 2 R asin(L / (2 R));  asin(x) written as pi / 2 - acos(x)

    length [cm]: inside length, the chord of the curve, 1 to 500
    width [cm]: inside width at the side panes, 1 to 300
    radius [cm]: radius of the curve, at least half the length; curve at most a half circle
    returns [cm]: way round the plan
    source: plane_geometry
    """
    return f"{length}+2*{width}+{radius}*(PI()-2*ACOS(MIN(1,{length}/(2*{radius}))))"


@equation
def inner_from_outer(outer: str, glass: str, panes: str) -> str:
    """Inside measure from the outside one.

    inner = outer - panes * glass

    outer [cm]: measured outside
    glass [cm]: thickness of a pane, 0.2 to 3
    panes [1]: panes that the measure crosses: 2, 1 for a height or radius, 0 if measured inside
    returns [cm]: measured inside
    source: plane_geometry
    """
    return f"{outer}-{panes}*{glass}"


@equation
def footprint(area: str, perimeter: str, glass: str) -> str:
    """Floor that a tank covers, its panes counted.

    F = A + P g; what the corners add is left out

    area [cm2]: inside plan area
    perimeter [cm]: way round the inside
    glass [cm]: thickness of the panes, thin against the tank
    returns [cm2]: floor covered, under 0.5 % too small
    source: plane_geometry
    """
    return f"{area}+{perimeter}*{glass}"


@equation
def volume(area: str, height: str) -> str:
    """Volume of water that would stand in an empty tank.

    V = A * h / 1000

    area [cm2]: inside plan area
    height [cm]: height of the water, not of the glass
    returns [L]: gross volume
    source: plane_geometry
    """
    return f"{area}*{height}/1000"


@equation
def substrate_displacement(area: str, depth: str, porosity: str) -> str:
    """Water that the grains of the substrate take the place of.

    V = A * d / 1000 * (1 - porosity)

    area [cm2]: inside plan area
    depth [cm]: mean depth of the bed; for an even slope the mean of front and back
    porosity [1]: share of the bed that is water between the grains, 0.3 to 0.6
    returns [L]: water displaced
    source: plane_geometry
    """
    return f"{area}*{depth}/1000*(1-{porosity})"


@equation
def hardscape_displacement(mass: str, density: str) -> str:
    """Water that rock or wood takes the place of.

    V = m / density

    mass [kg]: mass, dry for rock, soaked for wood
    density [kg/L]: rock 1 to 3, wood that sinks 1 to 1.3
    returns [L]: water displaced, if wholly under water
    source: definition
    """
    return f"{mass}/{density}"


@equation
def net_volume(gross: str, substrate: str, rock: str, wood: str) -> str:
    """Water that is really in the tank.

    net = gross - substrate - rock - wood

    gross [L]: volume of the empty tank up to the water line
    substrate [L]: displaced by the substrate
    rock [L]: displaced by rock
    wood [L]: displaced by wood
    returns [L]: net volume; filter canisters and pipes not counted
    source: definition
    """
    return f"{gross}-{substrate}-{rock}-{wood}"


@equation
def hexagon_inner_side(side: str, glass: str) -> str:
    """Inside length of one side of a regular hexagon.

    s_in = s - 2 g / sqrt(3): each pane moves inwards by its thickness

    side [cm]: outside length of one side
    glass [cm]: thickness of the panes
    returns [cm]: inside length of one side
    source: definition, distance of the sides of a regular hexagon
    """
    return f"{side}-2*{glass}/SQRT(3)"


@equation
def octagon_inner_side(side: str, glass: str) -> str:
    """Inside length of one side of a regular octagon.

    s_in = s - 2 g / (1 + sqrt(2)): each pane moves inwards by its thickness

    side [cm]: outside length of one side
    glass [cm]: thickness of the panes
    returns [cm]: inside length of one side
    source: definition, distance of the sides of a regular octagon
    """
    return f"{side}-2*{glass}/(1+SQRT(2))"


@equation
def hexagon_longest(side: str) -> str:
    """Longest straight line in a regular hexagon.

    d = 2 s, corner to opposite corner

    side [cm]: inside length of one side
    returns [cm]: longest straight line
    source: definition, diagonal of a regular hexagon
    """
    return f"2*{side}"


@equation
def octagon_longest(side: str) -> str:
    """Longest straight line in a regular octagon.

    d = s sqrt(4 + 2 sqrt(2)), corner to opposite corner

    side [cm]: inside length of one side
    returns [cm]: longest straight line
    source: definition, diagonal of a regular octagon
    """
    return f"{side}*SQRT(4+2*SQRT(2))"
