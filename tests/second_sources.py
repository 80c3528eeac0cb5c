"""What other libraries, data and plain simulation say the equations should give; no equation is used here."""

import math
from collections.abc import Callable

import gsw
import numpy as np
import pint
from periodictable import formula as compound
from phreeqpython import PhreeqPython
from scipy import integrate, optimize
from scipy.special import expit
from shapely import Point as Spot
from shapely import Polygon, box

from tests.formulas import Point

SOURCES: dict[str, Callable[[], list[Point]]] = {}
KELVIN = 273.15


def second_source(function: Callable[[], list[Point]]) -> Callable[[], list[Point]]:
    """Enter a second source, so that the sabotage knows of it."""
    SOURCES[function.__name__] = function
    return function


def _points(tolerance: str, source: str, *wanted: tuple[str, dict[str, float], float]) -> list[Point]:
    return [Point(equation, given, float(value), tolerance, source) for equation, given, value in wanted]


def disc(radius: float) -> Polygon:
    """A circle as a polygon of 8,000 corners."""
    return Spot(0, 0).buffer(radius, quad_segs=2000)


def regular(corners: int, side: float) -> Polygon:
    """A regular polygon walked side by side."""
    at, heading, walk = complex(0), complex(side), []
    for _ in range(corners):
        walk.append((at.real, at.imag))
        at += heading
        heading *= complex(math.cos(2 * math.pi / corners), math.sin(2 * math.pi / corners))
    return Polygon(walk)


def bow_circle(chord: float, bow: float) -> float:
    """Radius of the circle through the ends and the middle of a bowed pane, found by search."""
    return optimize.brentq(lambda r: math.hypot(chord / 2, r - bow) - r, bow / 2, 1e6, xtol=1e-10)


def bow_front(length: float, width: float, bow: float) -> tuple[Polygon, Polygon]:
    """Plan of a bow-front tank and the segment in front of its straight line, both cut out of a disc."""
    r = bow_circle(length, bow)
    circle = Polygon([(x + length / 2, y + width + bow - r) for x, y in disc(r).exterior.coords])
    segment = circle & box(-r, width, length + r, width + 2 * bow)
    return box(0, 0, length, width) | segment, segment


@second_source
def plans_by_polygons() -> list[Point]:
    """Areas and ways round of polygons in shapely."""
    points = []
    for size in (7.0, 40.0, 121.5):
        half = disc(size / 2) & box(-size, 0, size, size)
        quarter = disc(size) & box(0, 0, size, size)
        plans = {
            "cylinder": ({"diameter": size}, disc(size / 2)),
            "half_cylinder": ({"diameter": size}, half),
            "quarter_cylinder": ({"radius": size}, quarter),
            "hexagon": ({"side": size}, regular(6, size)),
            "octagon": ({"side": size}, regular(8, size)),
            "box": ({"length": size, "width": size / 3}, box(0, 0, size, size / 3)),
            "trapezoid": (
                {"long_side": size, "short_side": size * 0.6, "width": size * 0.5},
                Polygon([(0, 0), (size, 0), (size * 0.8, size * 0.5), (size * 0.2, size * 0.5)]),
            ),
        }
        for name, (given, plan) in plans.items():
            points += _points(
                "0.01%",
                "shapely polygon",
                (f"geometry.{name}_area", given, plan.area),
                (f"geometry.{name}_perimeter", given, plan.length),
            )
    return points


@second_source
def regular_plans_by_polygons() -> list[Point]:
    """Six- and eight-sided plans: panes moved inwards, and the two corners that lie farthest apart."""
    points = []
    for name, corners in (("hexagon", 6), ("octagon", 8)):
        for side, glass in ((30.0, 0.8), (12.5, 2.0)):
            outside = regular(corners, side)
            inside = outside.buffer(-glass, join_style="mitre")
            spots = [Spot(at) for at in outside.exterior.coords]
            farthest = max(a.distance(b) for a in spots for b in spots)
            points += _points(
                "0.001%",
                "shapely polygon",
                (f"geometry.{name}_inner_side", {"side": side, "glass": glass}, inside.length / corners),
                (f"geometry.{name}_longest", {"side": side}, farthest),
            )
    return points


@second_source
def bow_fronts_by_polygons() -> list[Point]:
    """Bow fronts cut out of discs in shapely, from a flat curve to a half circle."""
    points = []
    for length, width, bow in ((91.5, 30, 10), (120, 40, 15), (60, 20, 30), (150, 50, 5)):
        r = bow_circle(length, bow)
        plan, segment = bow_front(length, width, bow)
        points += _points(
            "0.1%",
            "shapely polygon",
            ("geometry.bow_radius", {"chord": length, "bow": bow}, r),
            ("geometry.bow_segment", {"radius": r, "bow": bow}, segment.area),
            (
                "geometry.bow_front_area",
                {"length": length, "width": width, "segment": segment.area},
                plan.area,
            ),
            ("geometry.bow_front_perimeter", {"length": length, "width": width, "radius": r}, plan.length),
        )
    return points


@second_source
def volumes_by_integration() -> list[Point]:
    """Volumes by numeric integration over the plan: a round tank, and a bed that slopes from 4 to 8 cm."""
    slices, _ = integrate.quad(lambda x: 2 * math.sqrt(max(0, 20**2 - x * x)) * 50, -20, 20)
    bed, _ = integrate.dblquad(lambda y, _: 4 + 4 * y / 30, 0, 60, 0, 30)
    sloping = {"area": 1800, "depth": 6, "porosity": 0.38}
    return _points(
        "0.1%",
        "numeric integration",
        ("geometry.volume", {"area": math.pi * 400, "height": 50}, slices / 1000),
        ("geometry.substrate_displacement", sloping, bed / 1000 * 0.62),
        ("load.substrate_mass", {**sloping, "density": 2.65}, bed / 1000 * 0.62 * 2.65),
    )


@second_source
def panes_by_difference() -> list[Point]:
    """Glass as the outside of the tank less its inside, corners exact; the equation is good to 0.5 % here."""
    points = []
    for length, width, height, glass in ((60, 30, 36, 0.6), (100, 40, 50, 1.0), (45, 45, 45, 0.5)):
        outside = box(0, 0, length, width)
        inside = outside.buffer(-glass, join_style="mitre")
        litres = (outside.area * height - inside.area * (height - glass)) / 1000
        given = {"perimeter": inside.length, "height": height, "area": outside.area, "glass": glass}
        points += _points("0.5%", "volume of panes", ("load.glass_mass", given, litres * 2.5))
    return points


@second_source
def water_density_by_gsw() -> list[Point]:
    """Density of fresh water at 25 degC by the equation of state TEOS-10."""
    kg_per_litre = gsw.rho(0, gsw.CT_from_t(0, 25, 0), 0) / 1000
    return _points("0.02%", "gsw, TEOS-10", ("load.water_mass", {"volume": 180}, 180 * kg_per_litre))


@second_source
def saturation_by_gsw() -> list[Point]:
    """Garcia & Gordon 1992 by gsw, umol/kg times density of fresh water."""
    points = []
    for t in (0, 5, 12, 15, 20, 25, 28, 30, 35):
        density = gsw.rho(0, gsw.CT_from_t(0, t, 0), 0) / 1000
        level = gsw.O2sol_SP_pt(0, t) * density * compound("O2").mass / 1000
        points += _points(
            "0.002", "Garcia & Gordon 1992, by gsw", ("gases.oxygen_saturation", {"temperature": t}, level)
        )
    return points


@second_source
def pressure_by_hydrostatics() -> list[Point]:
    """ISO 2533: weight of air integrated upwards, 288.15 K and 6.5 K/km, R = 287.05287, g = 9.80665."""
    points = []
    for h in (-300, 200, 500, 1000, 1600, 3000, 5000):
        exponent, _ = integrate.quad(lambda z: 9.80665 / 287.05287 / (288.15 - 0.0065 * z), 0, h)
        points += _points("0.01%", "ISO 2533, integrated", ("gases.pressure", {"altitude": h}, math.exp(-exponent)))
    return points


def vapour_pressure(t: float) -> float:
    """Wagner & Pruss 1993 (IAPWS saturation line), atm; coefficients from memory."""
    ratio = 647.096 / (t + KELVIN)
    tau = 1 - 1 / ratio
    terms = (
        (-7.85951783, 1), (1.84408259, 1.5), (-11.7866497, 3), (22.6807411, 3.5), (-15.9618719, 4), (1.80122502, 7.5),
    )  # fmt: skip
    return 22.064e6 * math.exp(ratio * sum(a * tau**n for a, n in terms)) / 101325


@second_source
def altitude_by_another_vapour_pressure() -> list[Point]:
    """Benson & Krause 1984 in full, with the non-ideal term and the vapour pressure of IAPWS."""
    points = []
    for t, saturation in ((5, 12.770), (15, 10.084), (25, 8.263), (30, 7.559), (35, 6.949)):
        theta = 0.000975 - 1.426e-5 * t + 6.436e-8 * t * t
        vapour = vapour_pressure(t)
        for p in (0.55, 0.8, 0.94213, 1.04):
            level = saturation * (p - vapour) * (1 - theta * p) / ((1 - vapour) * (1 - theta))
            given = {"saturation": saturation, "pressure": p, "temperature": t}
            points += _points("0.05%", "full form, IAPWS vapour", ("gases.oxygen_at_altitude", given, level))
    return points


@second_source
def reserve_by_small_steps() -> list[Point]:
    """Oxygen taken out second by second until the stop level."""
    points = []
    for level, share, stop, litres, draw in ((8.263, 1.0, 3.0, 20, 20.0), (7.828, 0.9, 4.0, 75, 60.0)):
        left, seconds = level * share, 0
        while left > stop:
            left -= draw / 3600 / litres
            seconds += 1
        given = {"saturation": level, "volume": litres, "draw": draw, "start": share, "stop": stop}
        points += _points("0.02%", "simulated by seconds", ("gases.oxygen_reserve", given, seconds / 3600))
    return points


@second_source
def units_by_pint() -> list[Point]:
    """Conversions, and equations that only change units, by pint."""
    u = pint.UnitRegistry()
    points = []
    for name, was, becomes in (
        ("litre_to_gallon", "L", "gallon"), ("celsius_to_fahrenheit", "degC", "degF"),
    ):  # fmt: skip
        points += _points(
            "0.000001%",
            "pint",
            *(
                (f"conversions.{name}", {"value": value}, u.Quantity(value, was).to(becomes).m)
                for value in (0.5, 24, 1234)
            ),
        )
    panes = u.Quantity(7.5, "W/m**2/K") * u.Quantity(5940, "cm**2")
    plan = (u.Quantity(20, "W/m**2/K") + u.Quantity(3, "W/m**2/K")) * u.Quantity(1800, "cm**2")
    lost = ((panes + plan) * u.Quantity(4, "K")).to("W").m
    heat = {"side_area": 5940, "plan_area": 1800, "rise": 4, "top": 20, "side": 7.5, "floor": 3}
    breath = u.Quantity(36.5, "mg/hour") * u.Quantity(13.56, "J/mg") / (0.7 * u.Quantity(18, "kJ/g"))
    cost = u.Quantity(1.7, "g/day") * u.Quantity(1, "year") / 12 / u.Quantity(250, "g") * 9.5
    return points + _points(
        "0.0001%",
        "pint",
        ("heat.heat_loss", heat, lost),
        ("heat.daily_energy", {"loss": 37}, (u.Quantity(37, "W") * u.Quantity(1, "day")).to("kWh").m),
        (
            "heat.watts_per_gallon",
            {"power": 150, "volume": 180},
            150 / u.Quantity(180, "L").to("gallon").m,
        ),
        (
            "load.floor_load",
            {"mass": 263, "area": 4000},
            (u.Quantity(263, "kg") / u.Quantity(4000, "cm**2")).to("kg/m**2").m,
        ),
        (
            "space.inches_per_gallon",
            {"length": 74, "volume": 68},
            u.Quantity(74 / 68, "cm/L").to("inch/gallon").m,
        ),
        ("feeding.ration", {"oxygen": 36.5}, breath.to("g/day").m),
        ("reorder.monthly_cost", {"use": 1.7, "price": 9.5, "pack": 250}, cost.to("").m),
    )


@second_source
def stoichiometry_by_molar_masses() -> list[Point]:
    """NH4+ + 2 O2 -> NO3- + H2O + 2 H+, and the German degree of 10 mg/L CaO, by periodictable."""
    nitrogen, carbonate = compound("N").mass, compound("CaCO3").mass
    degree = 10 * carbonate / compound("CaO").mass
    mg = 2500.0
    return [
        *_points(
            "0.01%",
            "molar masses by periodictable",
            (
                "nitrogen.nitrate_rise",
                {"ammonia": mg / 1000, "days": 3, "volume": 90, "yield_": 0.8},
                mg * compound("NO3").mass / nitrogen * 0.8 * 3 / 90,
            ),
            (
                "nitrogen.own_yield",
                {"measured": 31, "ammonia": mg / 1000, "days": 3, "volume": 90},
                31 * 90 / compound("NO3").mass / (mg / nitrogen * 3),
            ),
            (
                "nitrogen.taken_by_plants",
                {"growth": 1.6, "area": 4000, "volume": 150, "nitrogen": 0.03},
                1600 * 0.03 * 0.4 * 7 * compound("NO3").mass / nitrogen / 150,
            ),
            ("ammonia.nitrogen_from_ammonia", {"reading": 1.7}, 1.7 * nitrogen / compound("NH3").mass),
            ("ammonia.nitrogen_from_ammonium", {"reading": 1.7}, 1.7 * nitrogen / compound("NH4").mass),
            ("hardness.degrees_to_caco3", {"degrees": 12}, 12 * degree),
            # At 50 g the scaling drops out: the paper's mmol/h, and the mass of a mole of oxygen from the library.
            (
                "metabolism.resting_oxygen",
                {"mass": 50, "temperature": 25},
                math.exp(15.7 - 5020 / 298.15) * compound("O2").mass,
            ),
        ),
        *_points(
            "0.1%",
            "molar masses by periodictable",
            (
                "nitrogen.nitrification_oxygen",
                {"ammonia": mg / 1000},
                mg * 2 * compound("O2").mass / nitrogen / 24,
            ),
            (
                "nitrogen.alkalinity_used",
                {"ammonia": mg / 1000, "days": 3, "volume": 90},
                mg * carbonate / nitrogen * 3 / 90 / degree,
            ),
        ),
    ]


@second_source
def ammonia_by_its_four_steps() -> list[Point]:
    """Timmons & Ebeling: nitrogen in protein, assimilated, excreted, as ammonia; the book rounds to 0.092."""
    steps = 0.16 * 0.80 * 0.80 * 0.90
    return _points(
        "0.2%",
        "Timmons & Ebeling, the four steps; from memory",
        ("nitrogen.ammonia_from_food", {"food": 12, "protein": 0.42}, 12 * 0.42 * steps),
    )


def after_cycles(rise: float, share: float, tap: float, cycles: int = 500) -> tuple[float, float]:
    """Nitrate just before and just after the last of many changes, starting at 80 mg/L."""
    before = after = 80.0
    for _ in range(cycles):
        after = (1 - share) * before + share * tap
        before = after + rise
    return before, after


@second_source
def steady_nitrate_by_simulation() -> list[Point]:
    """Five hundred cycles of rise and change."""
    points = []
    for rise, share, tap in ((12.83, 0.25, 5.0), (2.21, 0.1, 20.0), (30.0, 0.8, 0.0), (0.7, 0.05, 2.0)):
        before, _ = after_cycles(rise, share, tap)
        _, after = after_cycles(rise, share, tap, 501)
        target = tap + rise * 2.5
        wanted = optimize.brentq(lambda f: after_cycles(rise, f, tap)[0] - target, 0.05, 1, xtol=1e-12)  # noqa: B023
        points += _points(
            "0.0001%",
            "simulation of 500 cycles",
            ("nitrogen.level_before_change", {"rise": rise, "share": share, "source": tap}, before),
            ("nitrogen.level_after_change", {"before": before, "share": share, "source": tap}, after),
            ("nitrogen.change_needed", {"rise": rise, "target": target, "source": tap}, wanted),
        )
    return points


@second_source
def weeks_day_by_day() -> list[Point]:
    """Feeding days, fasting days and plants counted day by day."""
    mean = np.mean([0.31] * 5 + [0.0] * 2)
    taken = sum(3.5 / 7 for _ in range(10))
    return _points(
        "0.0001%",
        "counted day by day",
        ("nitrogen.with_fasting", {"ammonia": 0.31, "fasting_days": 2}, mean),
        ("nitrogen.rise_after_plants", {"rise": 9.0, "uptake": 3.5, "days": 10}, 9.0 - taken),
    )


def at_fixed_ph(temperature: float, ph: float, **mmol: float) -> dict[str, float]:
    """Moles per kg of every dissolved species, by PHREEQC: dissociation, ion pairs and activities."""
    solution = PhreeqPython(database="phreeqc.dat").add_solution(
        {"units": "mmol/kgw", "temp": temperature, "pH": ph, **mmol}
    )
    return solution.species


@second_source
def toxic_share_by_phreeqc() -> list[Point]:
    """Ammonia in nearly pure water, by the dissociation constant of another compilation."""
    points = []
    for t, ph in ((10, 6.5), (15, 9.0), (20, 7.0), (25, 8.0), (28, 8.5), (30, 7.5)):
        species = at_fixed_ph(t, ph, **{"N(-3)": 0.01})
        share = species["NH3"] / (species["NH3"] + species["NH4+"])
        points += _points("0.6%", "PHREEQC", ("ammonia.toxic_share", {"temperature": t, "ph": ph}, share))
    return points


@second_source
def criteria_by_logistic_curves() -> list[Point]:
    """US EPA 2013 as S-curves in pH and powers of e in temperature, cold and warm."""
    points = []
    for ph in (6.5, 7.0, 7.6, 8.3, 9.0):
        acid, base = expit(math.log(10) * (7.204 - ph)), expit(math.log(10) * (ph - 7.204))
        still, alkaline = expit(math.log(10) * (7.688 - ph)), expit(math.log(10) * (ph - 7.688))
        for t in (0.0, 4.0, 6.9, 7.1, 14.0, 21.0, 29.0):
            fish = 39.0 * acid + 0.275 * base
            mussels = (1.6181 * acid + 0.0114 * base) * 0.7249 * 23.12 * math.exp(math.log(10) * 0.036 * (20 - t))
            warmth = math.exp(math.log(10) * 0.028 * min(20 - t, 13))
            month = (1.1994 * still + 0.0278 * alkaline) * 0.8876 * 2.126 * warmth
            given = {"temperature": t, "ph": ph}
            points += _points(
                "0.000001%",
                "US EPA 2013, 822-R-13-001, as S-curves",
                ("ammonia.acute_criterion", given, min(fish, mussels)),
                ("ammonia.chronic_criterion", given, month),
            )
    return points


@second_source
def carbon_dioxide_by_phreeqc() -> list[Point]:
    """Sodium bicarbonate water up to 10 dKH, with the activities of ions that the equation leaves out."""
    milligrams, milliequivalents = 1000 * compound("CO2").mass, 20 / compound("CaO").mass
    points = []
    for kh, ph, t in ((1, 6.2, 25), (2, 6.5, 24), (4, 7.0, 20), (4, 6.6, 28), (8, 7.2, 25), (10, 7.6, 26)):
        alkalinity = kh * milliequivalents
        species = at_fixed_ph(t, ph, Alkalinity=alkalinity, Na=alkalinity)
        given = {"kh": kh, "ph": ph, "temperature": t}
        points += _points("8%", "PHREEQC", ("carbonate.carbon_dioxide", given, species["CO2"] * milligrams))
    return points


@second_source
def carbon_dioxide_of_hard_water_by_phreeqc() -> list[Point]:
    """Calcium bicarbonate water, as most taps give: ion pairs take a few per cent more. The rule of the trade too."""
    milligrams, milliequivalents = 1000 * compound("CO2").mass, 20 / compound("CaO").mass
    points = []
    for kh, ph, t in ((1, 6.5, 20), (4, 7.0, 20), (4, 6.6, 25), (8, 7.2, 25), (10, 7.5, 26)):
        alkalinity = kh * milliequivalents
        level = at_fixed_ph(t, ph, Alkalinity=alkalinity, Ca=alkalinity / 2)["CO2"] * milligrams
        given = {"kh": kh, "ph": ph}
        points += _points("13%", "PHREEQC", ("carbonate.carbon_dioxide", {**given, "temperature": t}, level))
        points += _points("20%", "PHREEQC", ("carbonate.trade_rule", given, level))
    return points


@second_source
def blends_poured_litre_by_litre() -> list[Point]:
    """Fifty pourings into one vessel, each mixed with what is there; and the share searched for."""
    points = []
    for name, first, second, parts in (
        ("hardness", 14.0, 0.14, 13), ("nitrate", 25.0, 2.5, 40), ("temperature", 12.0, 27.0, 8),
    ):  # fmt: skip
        level = first
        for poured in range(1, 50):
            level += ((first if poured < parts else second) - level) / (poured + 1)
        given = {"first": first, "second": second}
        points += _points(
            "0.000001%",
            "poured litre by litre",
            (f"blending.blend_{name}", {**given, "share": parts / 50}, level),
        )
        if name == "hardness":
            points += _points(
                "0.000001%",
                "poured litre by litre",
                ("blending.share_by_hardness", {**given, "target": level}, parts / 50),
            )
    for tank, water, step in ((26.0, 15.0, 2.0), (24.0, 29.0, 1.0), (20.0, 19.0, 3.0)):
        mixed = [(n * water + (10_000 - n) * tank) / 10_000 for n in range(10_001)]
        share = max(n for n, level in enumerate(mixed) if abs(level - tank) <= step + 1e-9) / 10_000
        given = {"tank": tank, "water": water, "step": step}
        points += _points("0.0001", "poured cup by cup", ("blending.largest_share", given, share))
    return points


@second_source
def path_of_nitrate_by_simulation() -> list[Point]:
    """Rise and change one after another, from high and from low, and what stays when KH falls instead."""
    points = []
    for start, rise, share, tap in (
        (70.0, 12.83, 0.25, 5.0),
        (2.0, 6.0, 0.4, 3.0),
        (150.0, 4.0, 1.0, 10.0),
        (90.0, 1.5, 0.08, 0.0),
    ):
        readings, after = [], start
        for _ in range(40):
            readings.append(after + rise)
            after = readings[-1] * (1 - share) + share * tap
        for number in (0, 1, 2, 7, 39):
            given = {"start": start, "rise": rise, "share": share, "source": tap, "number": number}
            points += _points(
                "0.000001%", "simulated change by change", ("nitrogen.level_after_changes", given, readings[number])
            )
        if share < 1 and start > tap + rise / share:
            steady = after_cycles(rise, share, tap, 5000)[0]
            for target in (
                readings[1],
                (readings[2] + readings[3]) / 2,
                readings[6] * 0.999 + readings[7] * 0.001,
                readings[20] * 0.001 + readings[21] * 0.999,
            ):
                first = next(n for n, reading in enumerate(readings, 1) if reading <= target + 1e-9)
                given = {"start": readings[0], "steady": steady, "target": target, "share": share}
                points += _points("0.000001", "simulated change by change", ("nitrogen.changes_to_reach", given, first))
    for water, loss, share in ((8.0, 1.16, 0.25), (3.0, 0.4, 0.1)):
        given = {"source": water, "loss": loss, "share": share}
        points += _points(
            "0.0001%", "simulation of 500 cycles", ("carbonate.kh_level", given, after_cycles(-loss, share, water)[0])
        )
    minutes, level = 0, 12.0
    while level < 40.0:
        level += 1.833 / 1440
        minutes += 1
    given = {"level": 12.0, "target": 40.0, "rise_day": 1.833}
    return points + _points("0.001", "simulated minute by minute", ("nitrogen.days_to_reach", given, minutes / 1440))


@second_source
def cooling_by_integration() -> list[Point]:
    """Heat flowing out of the water, integrated; heat and density of water by TEOS-10."""
    points = []
    for litres, leak, start, room in ((180.0, 12.7, 26.0, 16.0), (12.0, 2.0, 28.0, 21.0), (60.0, 6.0, 14.0, 24.0)):
        held = litres * gsw.rho(0, 25, 0) / 1000 * gsw.cp_t_exact(0, 25, 0)  # J/K
        limit = room + (start - room) * 0.55

        def flow(_: float, now: np.ndarray, held: float = held, leak: float = leak, room: float = room) -> np.ndarray:
            return -leak * 3600 / held * (now - room)

        def at(level: float) -> Callable[[float, np.ndarray], float]:
            return lambda _, now: now[0] - level

        path = integrate.solve_ivp(
            flow, (0, 100), [start], events=[at(limit), at(room + (start - room) / math.e)], t_eval=[1, 5, 12], rtol=1e-10, atol=1e-10
        )  # fmt: skip
        reached, constant = (float(times[0]) for times in path.t_events)
        given = {"temperature": start, "room": room, "constant": constant}
        points += _points(
            "0.1%",
            "scipy solve_ivp, gsw",
            ("heat.cooling_constant", {"volume": litres, "loss": leak * 7, "rise": 7}, constant),
        )
        points += _points(
            "0.0001%",
            "scipy solve_ivp",
            ("heat.hours_to_cool", {**given, "limit": limit}, reached),
            *(("heat.cooled", {**given, "hours": t}, level) for t, level in zip(path.t, path.y[0], strict=True)),
        )
    return points


@second_source
def resting_oxygen_by_winberg() -> list[Point]:
    """Winberg 1956: 0.3 W^0.8 mL/h at 20 degC, 1.331 mg/mL; another compilation, so a fifth apart."""
    return _points(
        "20%",
        "Winberg 1956, from memory",
        *(
            ("metabolism.resting_oxygen", {"mass": w, "temperature": 20}, 0.3 * w**0.8 * 1.331)
            for w in (0.2, 1, 10, 50, 500)
        ),
    )


def all_points() -> list[Point]:
    """Every point of every second source."""
    return [point for source in SOURCES.values() for point in source()]
