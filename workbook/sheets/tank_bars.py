"""Bars of the page of one tank: the range of each parameter that all share, and that of each resident below it."""

from workbook.sheets.pages import COUNT, INSIDE, KEPT, OUTSIDE, TEXT, WORDS
from workbook.sheets.parameters import PARAMETERS, Parameter
from workbook.tables import Computed, Look, Table, logic, text
from workbook.tables.columns import Column
from workbook.tables.template import here, quoted, said

# Letters of a bar, and how many of them lie beyond the ends of its scale.
LETTERS, MARGIN = 13, 2
BAR = Look(style="page bar", show="0")


def place(value: str, p: Parameter) -> str:
    """Formula text: the letter at which a value lies, on the scale of the tank in view."""
    return p.filled(
        "IF({tank_card.*_end}>{tank_card.*_start},ROUND(ROUND(({value}-{tank_card.*_start})"
        "/({tank_card.*_end}-{tank_card.*_start})*({letters}-2*{margin})+{margin},6),0),{margin})",
        value=value,
        letters=str(LETTERS),
        margin=str(MARGIN),
    )


def letter(key: str, label: str, value: str, p: Parameter) -> Computed:
    """A column of such letters."""
    return Computed(key, f"{p.label}: {label}", logic(place(value, p), "1"), look=COUNT)


def plain(p: Parameter, low: str, high: str, low_letter: str, high_letter: str) -> Computed:
    """The letters from the low end to the high one, and those outside."""
    formula = p.logic(
        "IF({high}<{low},REPT({outside},{letters}),REPT({outside},{low_letter}-1)"
        "&REPT({inside},{high_letter}-{low_letter}+1)&REPT({outside},{letters}-{high_letter}))",
        high=high,
        low=low,
        low_letter=low_letter,
        high_letter=high_letter,
        outside=quoted(OUTSIDE),
        inside=quoted(INSIDE),
        letters=str(LETTERS),
    )
    return Computed(f"{p.key}_plain", f"{p.label}: the range", formula, kind=text(), look=WORDS)


def shown(p: Parameter, there: str) -> Computed:
    """The bar with what the tank is kept at; there: what stands in rows that have one."""
    formula = p.logic(
        'IF({there}="","",IF({*_plain}="","not known",IF({kept_letter}="",{*_plain},'
        "LEFT({*_plain},{kept_letter}-1)&{mark}&MID({*_plain},{kept_letter}+1,999))))",
        copes=True,
        there=there,
        kept_letter="{tank_card.*_kept_letter}".replace("*", p.key),
        mark=quoted(KEPT),
    )
    return Computed(f"{p.key}_bar", p.label, formula, kind=text(), look=BAR)


def of_resident(p: Parameter) -> tuple[Column, ...]:
    """The bar of each resident; its ends are columns of the same row."""
    low, high = here(f"{p.key}_low"), here(f"{p.key}_high")
    return (
        shown(p, "{found}"),
        letter(f"{p.key}_low_letter", "letter of its low end", low, p),
        letter(f"{p.key}_high_letter", "letter of its high end", high, p),
        plain(p, low, high, here(f"{p.key}_low_letter"), here(f"{p.key}_high_letter")),
    )


def of_the_tank(p: Parameter) -> tuple[Column, ...]:
    """Letters of what all share and of what the tank is kept at, as the form of the tank in view holds them."""
    return (
        letter(f"{p.key}_low_letter", "letter of the low end", here(f"{p.key}_low"), p),
        letter(f"{p.key}_high_letter", "letter of the high end", here(f"{p.key}_high"), p),
        letter(f"{p.key}_kept_letter", "letter of what it is kept at", here(p.kept), p),
    )


def in_words(p: Parameter) -> Computed:
    """What all share, what it is kept at, and from where to where the bars run."""
    low, high, start, end, kept = (
        said(f"tank_card.{key}") for key in (*(f"{p.key}_{part}" for part in ("low", "high", "start", "end")), p.kept)
    )
    formula = p.logic(
        'IF({tank_card.row}="","",CHOOSE({line},'
        'IF(COUNT({tank_card.*_low},{tank_card.*_high})<2,"unknown",'
        'IF({tank_card.*_high}<{tank_card.*_low},"nothing shared",{low}&" to "&{high})),'
        'IF({at}="","unknown",{kept}),'
        'IF(COUNT({tank_card.*_start},{tank_card.*_end})<2,"",{start}&" to "&{end})))',
        copes=True,
        at=here(f"tank_card.{p.kept}"),
        low=low,
        high=high,
        start=start,
        end=end,
        kept=kept,
    )
    return Computed(p.key, p.label, formula, kind=text(), look=TEXT)


WATER = Table(
    "tank_water",
    title="Who lives in it, and the water they want",
    lines=3,
    row_name=("name",),
    purpose="",
    columns=(
        Computed(
            "name",
            "",
            logic('CHOOSE({line},"All of them share","The tank is kept at","The bars run from")'),
            kind=text(),
            look=Look(style="page key", span=3),
        ),
        *(in_words(p) for p in PARAMETERS),
    ),
)

SHARED = Table(
    "tank_shared",
    title="",
    lines=1,
    row_name=("name",),
    purpose="",
    columns=(
        Computed(
            "name",
            "",
            logic(quoted(f"{INSIDE} suits all, below: suits it   {OUTSIDE} does not   {KEPT} the tank is kept at")),
            kind=text(),
            look=Look(style="page key", span=3),
        ),
        *(shown(p, "{tank_card.row}") for p in PARAMETERS),
        *(
            plain(p, *(here(f"tank_card.{p.key}_{part}") for part in ("low", "high", "low_letter", "high_letter")))
            for p in PARAMETERS
        ),
    ),
)
