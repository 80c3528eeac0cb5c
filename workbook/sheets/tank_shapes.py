"""Shapes of tanks: which dimensions each needs, and its area, perimeter and inside."""

from dataclasses import replace

from workbook.equations import geometry
from workbook.tables import logic
from workbook.tables.formula import Formula, filled
from workbook.tables.idioms import only_if

SHAPES = ("box", "cylinder", "half cylinder", "quarter cylinder", "hexagon", "octagon", "trapezoid", "bow front")


def by_shape(unit: str, *formulas: Formula) -> Formula:
    """The formula of the tank's shape, in the order of SHAPES."""
    return logic("CHOOSE({shape_no},{of_each_shape})", unit, copes=True, of_each_shape=formulas)


def measures(length: str, width: str, second: str) -> str:
    """Formula text: 1 when every dimension that the shape needs is known and makes sense, otherwise 0."""
    long, wide, short = f"(SUM({length})>0)*1", f"(SUM({width})>0)", f"(SUM({second})>0)"
    box, round_or_regular, three = f"{long}*{wide}", [long] * 5, f"{long}*{wide}*{short}"
    trapezoid, bow_front = f"{three}*(SUM({second})<=SUM({length}))", f"{three}*(2*SUM({second})<=SUM({length}))"
    return filled(
        'IF({shape_no}="",0,CHOOSE({shape_no},{of_each_shape}))',
        of_each_shape=[box, *round_or_regular, trapezoid, bow_front],
    )


def typed_sizes() -> str:
    """Formula text: 1 when every dimension that the shape needs was typed, otherwise 0."""
    return measures("{length}", "{width}", "{second_side}")


def plan(length: str, width: str, second: str, segment: str | Formula) -> Formula:
    """Plan area by shape."""
    return by_shape("cm2", *areas(length, width, second, segment))


def areas(length: str, width: str, second: str, segment: str | Formula) -> tuple[Formula, ...]:
    """Plan areas in the order of SHAPES."""
    g = geometry
    return (
        g.box_area(length=length, width=width),
        g.cylinder_area(diameter=length),
        g.half_cylinder_area(diameter=length),
        g.quarter_cylinder_area(radius=length),
        g.hexagon_area(side=length),
        g.octagon_area(side=length),
        g.trapezoid_area(long_side=length, short_side=second, width=width),
        g.bow_front_area(length=length, width=width, segment=segment),
    )


def longest(length: str, width: str, second: str) -> Formula:
    """The longest swim by shape."""
    g = geometry
    longer = logic("MAX({long},{wide})", "cm", long=length, wide=width)
    round_ = logic(length, "cm")
    with_bow = logic("MAX({long},{wide}+{bow})", "cm", long=length, wide=width, bow=second)
    regular = g.hexagon_longest(side=length), g.octagon_longest(side=length)
    return by_shape("cm", longer, round_, round_, round_, *regular, longer, with_bow)


def around() -> Formula:
    """Perimeter by shape; blank while a dimension is unknown."""
    g, length, width, second = geometry, "{inner_length}", "{inner_width}", "{inner_second}"
    return only_if(
        "{measured_out}=1",
        by_shape(
            "cm",
            g.box_perimeter(length=length, width=width),
            g.cylinder_perimeter(diameter=length),
            g.half_cylinder_perimeter(diameter=length),
            g.quarter_cylinder_perimeter(radius=length),
            g.hexagon_perimeter(side=length),
            g.octagon_perimeter(side=length),
            g.trapezoid_perimeter(long_side=length, short_side=second, width=width),
            g.bow_front_perimeter(length=length, width=width, radius="{bow_radius}"),
        ),
    )


def inner_length() -> Formula:
    """Inside length: less the pane at either end, or as the sides of a regular shape shrink."""
    given = {"length": "{length}", "glass": "{glass_off}"}
    plain = geometry.inner_from_outer(outer="{length}", glass="{glass_off}", panes="2")
    hexagon, octagon = (
        f(side=given["length"], glass=given["glass"])
        for f in (geometry.hexagon_inner_side, geometry.octagon_inner_side)
    )
    return replace(by_shape("cm", plain, plain, plain, plain, hexagon, octagon, plain, plain), copes_with_blanks=False)
