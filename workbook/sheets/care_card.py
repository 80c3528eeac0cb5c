"""Care card: one page about the chosen species, and where it is kept here."""

from workbook.sheets.care_facts import ACROSS, ANIMAL, BREEDING, CARE, NOT_WITH, PLACE, SURE
from workbook.sheets.groups import offer_only
from workbook.sheets.pages import (
    COUNT,
    INSIDE,
    LINES,
    NUMBER,
    STRONG,
    TEXT,
    WORDS,
    bar,
    broken,
    by_line,
    drawn,
    named,
    nth,
    number_by_line,
    over,
)
from workbook.sheets.pages import PORTRAIT_GRID as GRID
from workbook.sheets.parameters import KEYS, PARAMETERS
from workbook.tables import Computed, Look, Pulled, Sheet, Table, Typed, link, logic, row, text
from workbook.tables.completing import SEPARATOR
from workbook.tables.formula import filled
from workbook.tables.idioms import all_said
from workbook.tables.sheet import Band
from workbook.tables.template import WORDS as WORDS_OF
from workbook.tables.template import here, of, quoted

CHOICE = Table(
    "care_choice",
    title="Species of this card",
    purpose="",
    row_name=("species",),
    form=True,
    chosen=True,
    columns=(
        offer_only(),
        Typed(
            "species",
            "Species",
            link("species"),
            look=Look(width=22),
            help="Pick one; the page below follows. Only the page is printed.",
        ),
    ),
)

HEAD = Table(
    "care_card_head",
    title="",
    lines=1,
    row_name=("said",),
    purpose="",
    row_height=44,
    columns=(
        Computed(
            "said",
            "Name",
            logic('IF({care_card.row}="","Choose a species above",{care_card.species}&"")', copes=True),
            kind=text(),
            look=Look(style="page name", span=ACROSS),
        ),
    ),
)

KEPT = Table(
    "care_card_kept",
    title="Kept here",
    lines=5,
    row_name=("tank",),
    purpose="",
    columns=(
        Pulled("animals", via="found", of="living", label="How many", look=NUMBER),
        Computed(
            "tank",
            "Tank",
            named("care_card_kept", "{care_card.groups}", "{name}", "groups"),
            kind=text(),
            look=over(TEXT, 2),
        ),
        nth(
            "care_card_kept",
            "{care_card.groups}",
            "SMALL({livestock.of_kind[]},{care_card.groups_before}+{line})-{care_card.row}*10^6",
            row("livestock"),
        ),
        Pulled("name", via="found", of="tank"),
        Computed(
            "home",
            "Row of its tank",
            logic("INDEX({livestock.lives_in[]},{found})", "1"),
            kind=row("tanks"),
            look=COUNT,
        ),
        Pulled("who", via="home", of="cards.who", label="All who live there"),
        Computed(
            "all",
            "So far",
            logic(
                '{above.all}&IF({who}="","",IF({above.all}="","",{mark})&{name}&": "&{who})',
                copes=True,
                mark=quoted(SEPARATOR),
            ),
            kind=text(),
            seed='""',
            look=WORDS,
        ),
    ),
)


def of_scale(end: str, words: str = "") -> tuple[str, ...]:
    """An end of the scale, the same for the reported and for the own range."""
    return tuple(here(f"{words}care_card.{key_}_{end}") for key_ in KEYS for _ in range(2))


def of_ranges(end: str, words: str = "") -> tuple[str, ...]:
    """One end of each range: reported and own, parameter by parameter."""
    return tuple(here(f"{words}care_card.{own}{key_}_{end}") for key_ in KEYS for own in ("", "own_"))


SAID = filled(
    '{low}&" to "&{high}', low=by_line(*of_ranges("low", WORDS_OF)), high=by_line(*of_ranges("high", WORDS_OF))
)

RANGES = Table(
    "care_card_ranges",
    title="Water",
    lines=2 * len(PARAMETERS),
    row_name=("name",),
    purpose="",
    columns=(
        Computed(
            "name",
            "",
            logic(by_line(*(quoted(name) for p in PARAMETERS for name in (p.label, "")))),
            kind=text(),
            look=STRONG,
        ),
        Computed(
            "said",
            "From and to",
            logic(
                'IF({care_card.row}="","",IF(COUNT({low},{high})<2,"unknown",{from_and_to}))',
                copes=True,
                from_and_to=SAID,
            ),
            kind=text(),
            look=LINES,
        ),
        Computed(
            "drawn",
            f"{INSIDE} within the range, on the scale of both",
            drawn(by_line(*of_scale("start", WORDS_OF)), by_line(*of_scale("end", WORDS_OF))),
            kind=text(),
            look=Look(style="page bar", span=4),
        ),
        Computed(
            "which",
            "Whose range",
            logic(by_line(*('"as reported"', '"own experience"') * len(PARAMETERS))),
            kind=text(),
            look=TEXT,
        ),
        number_by_line("low", "From", *of_ranges("low")),
        number_by_line("high", "To", *of_ranges("high")),
        number_by_line("start", "Scale from", *of_scale("start")),
        number_by_line("end", "Scale to", *of_scale("end")),
        *bar(),
    ),
)

COMPANY = broken(
    "care_card_company",
    "Who lives where it is kept",
    7,
    "INDEX({care_card_kept.all[]},ROWS({care_card_kept.line[]}))",
    ACROSS,
)

CAUTION = broken(
    "care_card_caution",
    "Caution, and where the values come from",
    4,
    all_said(
        [
            filled('IF({note}="","",{heading}&{note})', note=of("care_card", key_), heading=quoted(f"{heading}: "))
            for key_, heading in (("caution", "Caution"), ("source", "Source"), ("own_note", "Seen here"))
        ],
        SEPARATOR,
    ),
    ACROSS,
)

ALWAYS = Table(
    "care_card_always",
    title="Always",
    lines=2,
    row_name=("said",),
    purpose="",
    columns=(
        Computed(
            "said",
            "",
            logic(
                by_line(
                    quoted(
                        "Check local lists of restricted species before you keep,"
                        " breed or pass it on; never release it. "
                        "Illness and medicines: a veterinarian, and the label."
                    ),
                    quoted(
                        "Lengths are total lengths of a typical adult. "
                        "Planning estimates: watch the animals, they overrule this card."
                    ),
                )
            ),
            kind=text(),
            look=Look(style="page small", span=ACROSS),
        ),
    ),
)

SHEET = Sheet(
    "Care card",
    role="reference",
    portrait=True,
    forms=(CHOICE,),
    frozen_columns=0,
    grid=GRID,
    beside=(CARE,),
    bands=(
        Band(((HEAD,),)),
        Band(((ANIMAL,), (PLACE,)), (1, 5)),
        Band(((RANGES,),)),
        Band(((NOT_WITH, KEPT), (BREEDING, SURE)), (1, 5)),
        Band(((COMPANY,),)),
        Band(((CAUTION,),)),
        Band(((ALWAYS,),)),
    ),
    purpose="One page about the chosen species, to print for the tank or for whoever takes some home.",
)
