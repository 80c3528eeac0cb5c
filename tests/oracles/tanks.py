"""Tanks: plan, volumes, mass, heat and filter of each, by corners and bowed sides instead of one formula a shape."""

import math
from typing import NamedTuple

import numpy as np
import pandas as pd
from shapely import MultiPoint, Polygon

from tests.oracles import stocking, waters
from tests.oracles.tools import Room, blank, folded, lookup, only_planned, remember, same

LITRES_OF_A_GALLON = 231 * 2.54**3 / 1000
SHAPES = (
    "box",
    "cylinder",
    "half cylinder",
    "quarter cylinder",
    "hexagon",
    "octagon",
    "trapezoid",
    "bow front",
)
WANTED = {"box": "lw", "trapezoid": "lws", "bow front": "lws"}  # length, width, second side; else the length
CORNERS = {"hexagon": 6, "octagon": 8}
NODES, WEIGHTS = np.polynomial.legendre.leggauss(60)


class Outline(NamedTuple):
    """Corners of a plan in order, and how far the side after each of them bulges outwards."""

    corners: list[tuple[float, float]]
    rises: list[float]

    def sides(self) -> list[tuple[float, float]]:
        """Chord and rise of each side."""
        after = [*self.corners[1:], self.corners[0]]
        return [(math.dist(a, b), r) for a, b, r in zip(self.corners, after, self.rises, strict=True)]


def half_angle(chord: float, rise: float) -> float:
    """Half the angle under which an arc is seen from its centre: the angle at its end to its top, doubled."""
    return 2 * math.atan2(2 * rise, chord)


def radius(chord: float, rise: float) -> float:
    """Radius of the arc through both ends and the top: chord and sine of the half angle."""
    return chord / 2 / math.sin(half_angle(chord, rise))


def bulge(chord: float, rise: float) -> float:
    """Area between arc and chord, integrated along the arc: height above the chord times step along it."""
    if rise == 0:
        return 0.0
    end, r = half_angle(chord, rise), radius(chord, rise)
    at = NODES * end
    heights = 2 * r * np.sin((end + at) / 2) * np.sin((end - at) / 2)
    return float(np.sum(WEIGHTS * heights * r * np.cos(at)) * end)


def arc(chord: float, rise: float) -> float:
    """Length of a side."""
    return chord if rise == 0 else 2 * half_angle(chord, rise) * radius(chord, rise)


def regular(corners: int, side: float) -> list[tuple[float, float]]:
    """Corners of a regular polygon round the origin."""
    r = side / 2 / math.sin(math.pi / corners)
    turns = [2 * math.pi * k / corners for k in range(corners)]
    return [(r * math.cos(t), r * math.sin(t)) for t in turns]


def drawn(shape: str, length: float, width: float, second: float) -> Outline:
    """The plan of a shape from its inside measures. Round shapes are corners with arcs of a quarter or an eighth."""
    r = length / 2
    if shape in CORNERS:
        return Outline(regular(CORNERS[shape], length), [0.0] * CORNERS[shape])
    if shape == "cylinder":
        return Outline([(r, 0), (0, r), (-r, 0), (0, -r)], [r - r / math.sqrt(2)] * 4)
    if shape == "half cylinder":
        return Outline([(-r, 0), (r, 0), (0, r)], [0.0, r - r / math.sqrt(2), r - r / math.sqrt(2)])
    if shape == "quarter cylinder":
        return Outline([(0, 0), (length, 0), (0, length)], [0.0, length - length / math.sqrt(2), 0.0])
    if shape == "trapezoid":
        return Outline([(-r, 0), (r, 0), (second / 2, width), (-second / 2, width)], [0.0] * 4)
    box = [(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)]
    return Outline(box, [second if shape == "bow front" else 0.0, 0.0, 0.0, 0.0])


def column(room: Room, key: str) -> pd.Series:
    """A typed column as numbers."""
    return room.tanks[key].reset_index(drop=True)


def shapes(room: Room) -> list[str]:
    return folded(room.tanks["shape"])


def each(values: list[float]) -> pd.Series:
    return pd.Series(values, dtype=float)


def setting(room: Room, key: str) -> float:
    """A number from Start; unknown when it is blank."""
    found = room.settings.get(key)
    return math.nan if found is None or found == "" else float(found)


# --- inside measures ---


@remember
def shape_no(room: Room) -> pd.Series:
    return each([SHAPES.index(s) + 1 if s in SHAPES else math.nan for s in shapes(room)])


@remember
def glass_off(room: Room) -> pd.Series:
    """Measured inside, the numbers count as they are, whether the glass is known or not."""
    measured = room.tanks["measured"].reset_index(drop=True)
    found = column(room, "glass").where(same(measured, "outside"))
    return found.mask(same(measured, "inside"), 0.0).astype(float)


@remember
def inner_length(room: Room) -> pd.Series:
    """A pane at either end; a regular polygon keeps its centre, and each side moves towards it by a pane."""
    found = []
    for shape, outer, glass in zip(shapes(room), column(room, "length"), glass_off(room), strict=True):
        if shape not in SHAPES:
            found.append(math.nan)
        elif shape in CORNERS:
            slope = math.tan(math.pi / CORNERS[shape])
            from_centre = outer / 2 / slope
            found.append(2 * slope * (from_centre - glass))
        else:
            found.append(outer - glass - glass)
    return each(found)


@remember
def inner_width(room: Room) -> pd.Series:
    return column(room, "width") - 2 * glass_off(room)


@remember
def inner_second(room: Room) -> pd.Series:
    """The short side lies between two panes; a bow stands out alike on both faces of its pane."""
    second, glass = column(room, "second_side"), glass_off(room)
    second = second.where(second > 0)  # no side is 0 long: typed so, it is unknown
    less = second - 2 * glass
    found = [
        a if s == "trapezoid" else b if s and g == g else math.nan
        for s, a, b, g in zip(shapes(room), less, second, glass, strict=True)
    ]
    return each(found)


@remember
def water_height(room: Room) -> pd.Series:
    return column(room, "height") - column(room, "water_below_rim") - glass_off(room)


def fits(shape: str, length: float, width: float, second: float) -> bool:
    """Measures from which the shape can be drawn: something inside, the short side no longer than the long one, and
    a bow of half a circle at the most."""
    used = {"l": length, "w": width, "s": second}
    if shape not in SHAPES or not all(used[m] > 0 for m in WANTED.get(shape, "l")):
        return False
    return second <= {"trapezoid": length, "bow front": length / 2}.get(shape, math.inf) or shape not in {
        "trapezoid",
        "bow front",
    }


@remember
def outlines(room: Room) -> list[Outline | None]:
    """The plan of each tank; none while a measure is unknown or does not fit the shape."""
    measures = zip(shapes(room), inner_length(room), inner_width(room), inner_second(room), strict=True)
    return [drawn(*measured) if fits(*measured) else None for measured in measures]


@remember
def measured_out(room: Room) -> pd.Series:
    return each([float(outline is not None) for outline in outlines(room)]).mask(blank(word(room, "tank")))


def area(outline: Outline | None) -> float:
    """What an outline encloses."""
    return Polygon(outline.corners).area + sum(bulge(*s) for s in outline.sides()) if outline else math.nan


@remember
def plan_inside(room: Room) -> pd.Series:
    return each([area(outline) for outline in outlines(room)])


# --- by the sizes as they were typed, while nobody said how thick the glass is ---


@remember
def typed_outlines(room: Room) -> list[Outline | None]:
    """The plan of the outer box of each tank."""
    second = column(room, "second_side")
    sizes = zip(shapes(room), column(room, "length"), column(room, "width"), second.where(second > 0), strict=True)
    return [drawn(*typed) if fits(*typed) else None for typed in sizes]


@remember
def sizes_typed(room: Room) -> pd.Series:
    return each([float(outline is not None) for outline in typed_outlines(room)]).mask(blank(word(room, "tank")))


@remember
def plan_typed(room: Room) -> pd.Series:
    return each([area(outline) for outline in typed_outlines(room)])


@remember
def swim_typed(room: Room) -> pd.Series:
    return swim_in(room, typed_outlines(room))


def no_glass(room: Room) -> pd.Series:
    """Nobody said what has to be taken off."""
    return glass_off(room).isna()


@remember
def plan_area(room: Room) -> pd.Series:
    """Inside the glass; by the sizes as typed while the glass is unknown."""
    return plan_inside(room).fillna(plan_typed(room).where(no_glass(room))).mask(blank(word(room, "tank")))


@remember
def net_volume_estimated(room: Room) -> pd.Series:
    """A share of the box (common practice, no published source), as long as something is missing, nothing is at odds."""
    height = column(room, "height")
    fits_inside = no_glass(room) | (measured_out(room) == 1)
    some_water = water_height(room).isna() | (water_height(room) > 0)
    box = plan_typed(room) * height / 1000 * room.const["water_share"]
    missing = net_volume_reckoned(room).isna() & (lacking(room) != "")
    return box.where(missing & fits_inside & some_water)


@remember
def perimeter(room: Room) -> pd.Series:
    return each([sum(arc(*s) for s in o.sides()) if o else math.nan for o in outlines(room)])


@remember
def swim_length(room: Room) -> pd.Series:
    """Inside the glass; by the sizes as typed while the glass is unknown."""
    return swim_inside(room).fillna(swim_typed(room).where(no_glass(room))).mask(blank(word(room, "tank")))


@remember
def swim_inside(room: Room) -> pd.Series:
    return swim_in(room, outlines(room))


def swim_in(room: Room, plans: list[Outline | None]) -> pd.Series:
    """Tank length: the longer way along the walls, or from corner to farthest corner of a regular polygon."""
    found = []
    for shape, outline in zip(shapes(room), plans, strict=True):
        if outline is None:
            found.append(math.nan)
        elif shape in CORNERS:
            found.append(max(math.dist(a, b) for a in outline.corners for b in outline.corners))
        else:
            left, bottom, right, top = MultiPoint(outline.corners).bounds
            bow = outline.rises[0] if shape == "bow front" else 0.0
            found.append(max(right - left, top - bottom + bow))
    return each(found)


def bows(room: Room) -> list[tuple[float, float] | None]:
    """Chord and rise of each bowed front."""
    return [o.sides()[0] if o and s == "bow front" else None for s, o in zip(shapes(room), outlines(room), strict=True)]


@remember
def bow_radius(room: Room) -> pd.Series:
    return each([radius(*b) if b else math.nan for b in bows(room)])


@remember
def bow_segment(room: Room) -> pd.Series:
    return each([bulge(*b) if b else math.nan for b in bows(room)])


# --- what it holds ---


@remember
def gross_volume(room: Room) -> pd.Series:
    return plan_inside(room) * water_height(room) / 1000


@remember
def porosity_used(room: Room) -> pd.Series:
    return column(room, "porosity").fillna(room.const["porosity"]).mask(blank(word(room, "tank")))


@remember
def grains(room: Room) -> pd.Series:
    """Litres of solid substrate."""
    return plan_inside(room) * column(room, "substrate_depth") * (1 - porosity_used(room)) / 1000


@remember
def net_volume_reckoned(room: Room) -> pd.Series:
    rock = column(room, "rock") / room.const["rock_density"]
    wood = column(room, "wood") / room.const["wood_density"]
    return gross_volume(room) - (grains(room) + rock + wood)


@remember
def net_volume(room: Room) -> pd.Series:
    """As measured; otherwise as reckoned, where that leaves any water at all; otherwise as estimated."""
    reckoned = net_volume_reckoned(room)
    found = column(room, "net_volume_measured").fillna(reckoned.where(reckoned > 0))
    return found.fillna(net_volume_estimated(room)).mask(blank(word(room, "tank")))


@remember
def net_gallons(room: Room) -> pd.Series:
    return net_volume(room) / LITRES_OF_A_GALLON


# --- what it weighs ---


@remember
def glass_mass(room: Room) -> pd.Series:
    """Side panes of full height and one floor pane, in kg."""
    thick = column(room, "glass")
    litres = (perimeter(room) * thick * column(room, "height") + plan_inside(room) * thick) / 1000
    return litres * room.const["glass_density"]


@remember
def filled_mass(room: Room) -> pd.Series:
    parts = pd.DataFrame(
        {
            "water": net_volume(room) * room.const["water_density"],
            "glass": glass_mass(room),
            "substrate": grains(room) * room.const["grain_density"],
            "rock": column(room, "rock"),
            "wood": column(room, "wood"),
        }
    )
    bare = parts.sum(axis=1, skipna=False)
    return bare + bare * room.const["fittings_share"]


@remember
def footprint(room: Room) -> pd.Series:
    """The inside and a strip as wide as the panes round it."""
    return plan_inside(room) + column(room, "glass") * perimeter(room)


@remember
def floor_load(room: Room) -> pd.Series:
    return filled_mass(room) / (footprint(room) / 100**2)


# --- filter and heater ---


@remember
def turnover(room: Room) -> pd.Series:
    return column(room, "filter_flow") / net_volume(room).replace(0.0, math.nan)


def either(room: Room, said: pd.Series, test: pd.Series, yes: str, no: str) -> pd.Series:
    """One of two constants by what is said; blank where nothing is said, or one of them has no value."""
    found = test.map({True: room.const[yes], False: room.const[no]}).astype(float)
    return found.where(~blank(said) & ~math.isnan(room.const[yes] + room.const[no]))


@remember
def turnover_wanted(room: Room) -> pd.Series:
    flow = room.tanks["flow"].reset_index(drop=True)
    calm = same(flow, "still") | same(flow, "gentle")
    return either(room, flow, calm, "turnover_gentle", "turnover_low")


@remember
def top_flow(room: Room) -> pd.Series:
    lid = room.tanks["lid"].reset_index(drop=True)
    return either(room, lid, same(lid, "yes"), "u_top_covered", "u_top_open")


@remember
def temperature_rise(room: Room) -> pd.Series:
    return (column(room, "temperature") - setting(room, "room_temperature")).clip(lower=0)


@remember
def heat_flow(room: Room) -> pd.Series:
    """Each face by its own flow, in W per degree; areas in m2."""
    sides = perimeter(room) * water_height(room) / 1e4 * room.const["u_glass"]
    floor = plan_inside(room) / 1e4 * room.const["u_floor"]
    top = plan_inside(room) / 1e4 * top_flow(room)
    return sides + floor + top


@remember
def heat_loss(room: Room) -> pd.Series:
    return heat_flow(room) * temperature_rise(room)


@remember
def heater_wanted(room: Room) -> pd.Series:
    return heat_loss(room) * room.const["heater_margin"]


def heater_largest(room: Room) -> pd.Series:
    return pd.Series(max(room.heater_sizes), index=range(len(room.tanks)), dtype=float).mask(blank(room.tanks["tank"]))


@remember
def heater_size(room: Room) -> pd.Series:
    """Next size sold; several of the largest where one does not do; none where no heat is lost."""
    sizes = sorted(room.heater_sizes)
    found = []
    for wanted in heater_wanted(room):
        if wanted != wanted:
            found.append(math.nan)
        elif wanted == 0:
            found.append(0.0)
        else:
            enough = [size for size in sizes if size >= wanted * (1 - 1e-12)]
            found.append(enough[0] if enough else math.ceil(round(wanted / sizes[-1], 6)) * sizes[-1])
    return each(found)


@remember
def heater_density(room: Room) -> pd.Series:
    return heater_size(room) / net_gallons(room).replace(0.0, math.nan)


@remember
def heater_by_volume(room: Room) -> pd.Series:
    return heater_size(room) / net_volume(room).replace(0.0, math.nan)


@remember
def daily_energy(room: Room) -> pd.Series:
    return heat_loss(room) / 1000 * 24


@remember
def monthly_energy_cost(room: Room) -> pd.Series:
    return daily_energy(room) * setting(room, "energy_price") * room.const["month_days"]


# --- water, animals, what is missing ---


@remember
def source(room: Room, parameter: str) -> pd.Series:
    """What the water it is filled with holds, measured or reckoned from its blend; of a blend pH can't be reckoned."""
    held = room.waters["ph"] if parameter == "ph" else getattr(waters, f"{parameter}_used")(room)
    return lookup(room.waters, "water", room.tanks["water"], held).astype(float)


@remember
def kept_or_source(room: Room, parameter: str) -> pd.Series:
    """As the tank is kept; where that is not said, as its source water."""
    return column(room, parameter).fillna(source(room, parameter))


@remember
def ph_used(room: Room) -> pd.Series:
    return kept_or_source(room, "ph")


@remember
def gh_used(room: Room) -> pd.Series:
    return kept_or_source(room, "gh")


@remember
def kh_used(room: Room) -> pd.Series:
    return kept_or_source(room, "kh")


@remember
def animals(room: Room) -> pd.Series:
    return stocking.animals(room)


def unknown(room: Room, *words: tuple[str, pd.Series]) -> pd.Series:
    """The words whose test holds, as a list."""
    rows = range(len(room.tanks))
    found = pd.Series([", ".join(word for word, test in words if test.iloc[i]) for i in rows], dtype=object)
    return found.mask(blank(word(room, "tank")), "")


def _no_plan_from_sizes(room: Room) -> pd.Series:
    """No plan can be drawn from the sizes as typed, or none inside the glass once it is known how thick that is."""
    typed = zip(shapes(room), column(room, "length"), column(room, "width"), column(room, "second_side"), strict=True)
    drawable = pd.Series([fits(*sizes) for sizes in typed], dtype=bool)
    return ~drawable | (glass_off(room).notna() & (measured_out(room) == 0))


@remember
def lacking(room: Room) -> pd.Series:
    no_shape = blank(room.tanks["shape"])
    return unknown(
        room,
        ("shape", no_shape),
        ("measured outside or inside", blank(room.tanks["measured"])),
        ("a dimension that fits the shape", ~no_shape.reset_index(drop=True) & _no_plan_from_sizes(room)),
        ("glass", blank(room.tanks["glass"])),
        ("height", blank(room.tanks["height"])),
        ("water below rim", blank(room.tanks["water_below_rim"])),
        ("substrate depth (0 for none)", blank(room.tanks["substrate_depth"])),
        ("rock (0 for none)", blank(room.tanks["rock"])),
        ("wood (0 for none)", blank(room.tanks["wood"])),
    )


@remember
def heat_lacking(room: Room) -> pd.Series:
    """What mass and heater want besides the volume."""
    more = unknown(
        room, ("set temperature", blank(room.tanks["temperature"])), ("lid (yes or no)", blank(room.tanks["lid"]))
    )
    both = zip(lacking(room), more, strict=True)
    return pd.Series([", ".join(part for part in parts if part) for parts in both], dtype=object)


def water_lacking(room: Room) -> pd.Series:
    return unknown(room, ("pH", ph_used(room).isna()), ("GH", gh_used(room).isna()), ("KH", kh_used(room).isna()))


def water_unknown(room: Room) -> pd.Series:
    return ~blank(word(room, "water")) & (water_lacking(room) != "") & (animals(room) > 0)


def too_large(room: Room) -> pd.Series:
    return gross_volume(room) > room.const["large_tank"]


def thick_glass(room: Room) -> pd.Series:
    return column(room, "glass") > column(room, "height") * room.const["thick_glass"]


def plan_lacking(room: Room) -> pd.Series:
    return unknown(
        room,
        ("the water it is filled with", blank(room.tanks["water"])),
        ("set temperature", blank(room.tanks["temperature"])),
        ("water change share", blank(room.tanks["change_share"])),
        ("water change interval", blank(room.tanks["change_interval"])),
        ("meals a day", blank(room.tanks["meals"])),
        ("fasting days (0 for none)", blank(room.tanks["fasting_days"])),
    )


# --- flags ---


def word(room: Room, key: str) -> pd.Series:
    return room.tanks[key].reset_index(drop=True)


@remember
def not_cycled(room: Room) -> pd.Series:
    return same(word(room, "cycled"), "no") & (animals(room) > 0)


@remember
def cycled_unknown(room: Room) -> pd.Series:
    return blank(word(room, "cycled")) & (animals(room) > 0)


@remember
def no_height(room: Room) -> pd.Series:
    return water_height(room) <= 0


@remember
def no_net_volume(room: Room) -> pd.Series:
    """A height that leaves no water is told of by itself."""
    return (net_volume_reckoned(room) <= 0) & (water_height(room) > 0)


@remember
def no_volume(room: Room) -> pd.Series:
    return ~blank(word(room, "tank")) & net_volume(room).isna()


@remember
def volume_estimated(room: Room) -> pd.Series:
    return net_volume_estimated(room).notna() & ~(column(room, "net_volume_measured") > 0)


@remember
def no_filled_mass(room: Room) -> pd.Series:
    """Its water is known, so that more than the volume is still wanted; not where other sheets lack something, nor
    where the estimate of its volume says so already."""
    unknown_ = filled_mass(room).isna() | heat_loss(room).isna()
    return net_volume(room).notna() & unknown_ & (heat_lacking(room) != "") & ~volume_estimated(room)


@remember
def no_plan(room: Room) -> pd.Series:
    return (plan_lacking(room) != "") & (animals(room) > 0)


@remember
def slow_filter(room: Room) -> pd.Series:
    return turnover(room) < turnover_wanted(room)


@remember
def strong_filter(room: Room) -> pd.Series:
    meant = same(word(room, "flow"), "strong")
    return (turnover(room) > room.const["turnover_high"]) & ~meant & ~blank(word(room, "flow"))


@remember
def floor(room: Room) -> pd.Series:
    """From the mass on that the constant names, unless somebody has judged floor and stand."""
    return (filled_mass(room) >= room.const["heavy_tank"]) & ~same(word(room, "floor_checked"), "yes")


@remember
def big_heater(room: Room) -> pd.Series:
    return heater_density(room) > room.const["heater_caution"]


@remember
def too_much_measured(room: Room) -> pd.Series:
    return column(room, "net_volume_measured") > gross_volume(room)


def stands_now(room):
    return (~only_planned(room)).astype(float).where(~blank(room.tanks["tank"]).reset_index(drop=True))
