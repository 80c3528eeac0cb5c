"""The water that is left to share between the residents of the chosen tank and a species."""

from dataclasses import replace

from workbook.sheets.filters import HIDDEN, WHO
from workbook.sheets.parameters import KEYS, PARAMETERS, Parameter
from workbook.tables import Computed, Look, logic, text
from workbook.tables.columns import Column
from workbook.tables.formula import filled
from workbook.tables.template import for_each, of

WIDTHS = tuple(f"{key}_width" for key in KEYS)


def left(p: Parameter) -> tuple[Column, ...]:
    """What the residents and this species share of one parameter."""
    look = Look("Water left to share", 7, p.show)
    return (
        Computed(
            f"{p.key}_low",
            f"{p.label} from",
            p.logic("MAX({sought.*_low},{species.used_*_low})", p.unit, needs=("sought.row", "species.used_*_low")),
            look=replace(look, width=12) if p.is_wide else look,
        ),
        Computed(
            f"{p.key}_high",
            "to",
            p.logic("MIN({sought.*_high},{species.used_*_high})", p.unit, needs=("sought.row", "species.used_*_high")),
            look=look,
        ),
        Computed(
            f"{p.key}_width",
            "width",
            p.logic("{*_high}-{*_low}", p.step),
            look=Look(working=True, show=p.show),
            help="Below zero: nothing shared.",
        ),
    )


def outside(p: Parameter) -> str:
    """Formula text: the name of a parameter in which the tank is kept outside what is left."""
    return p.filled(
        'IF(({kept}<{*_low})+({kept}>{*_high})>0,{word_and_space},"")',
        kept=of("sought", p.kept),
        word_and_space=f'"{p.word} "',
    )


def amount(p: Parameter) -> str:
    """Formula text: 0 where nothing is shared, half for a width that counts as narrow, nearly 1 for a very wide one."""
    return p.filled("IF({*_width}>0,{*_width}/({*_width}+{narrow}),0)")


WATER = (
    *(column for p in PARAMETERS for column in left(p)),
    Computed(
        "outside",
        "Tank kept outside it in",
        logic(
            "TRIM({parameters})",
            needs=(*WIDTHS, *(f"sought.{p.kept}" for p in PARAMETERS)),
            parameters="&".join(outside(p) for p in PARAMETERS),
        ),
        kind=text(),
        look=WHO,
    ),
    Computed(
        "width",
        "Width of all four",
        logic("{amounts}/2/2", "1", needs=(*WIDTHS, "sought.ready"), amounts="+".join(amount(p) for p in PARAMETERS)),
        look=HIDDEN,
        help="0 to 1: half for a range as wide as what counts as narrow.",
    ),
)
ANY_NOT_SHARED = filled("OR({tests})", tests=for_each(KEYS, "SUM({*_width})<0"))
ALL_SHARED = filled("AND({tests})", tests=for_each(KEYS, "SUM({*_width})>=0"))
