"""Compatibility: a short list of species by each other, a sign for each pair, and the reasons with what to do."""

from workbook.sheets.groups import offer_only
from workbook.sheets.pairing import (
    COMPANY,
    COUNT,
    HIDDEN,
    PLACE,
    RANGES,
    TRAITS,
    WORDS,
    Judged,
    found,
    not_known,
    of_pair,
    paired,
    pairs,
    reasons,
)
from workbook.sheets.parameters import PARAMETERS
from workbook.sheets.wishes import FLOW, LIGHT
from workbook.tables import Computed, Look, Pulled, Sheet, Table, Typed, link, logic, text
from workbook.tables.idioms import cell, in_rows_with, joined, position
from workbook.tables.template import here, quoted

LISTED, REASONS_SHOWN = 30, 200
WHO, GRID = Look("Species to compare", 26), Look("Sign of each pair", 3.4, status=True, style="sign", upright=True)

SUMMARY = Table(
    "compared_summary",
    title="The short list",
    form=True,
    chosen=True,
    row_name=("paired",),
    purpose="",
    columns=(
        Computed(
            "paired",
            "Pairs",
            logic(paired("kinds", "both"), copes=True),
            kind=text(),
            look=Look(width=22),
            help=f"Pick up to {LISTED} species in the yellow cells below; only this sheet follows.",
        ),
        Computed(
            "found",
            "Reasons",
            logic(found("kinds", "kind_reasons"), copes=True),
            kind=text(),
            look=Look(width=22, runs_on=True),
        ),
        offer_only(),
    ),
)


def beside(k: int) -> Computed:
    """The sign of a species beside the k-th; the header names that one."""
    return Computed(
        f"with_{k}",
        str(k),
        logic(
            'IF({other_no}="","",IF({line}={k},"–",{sign_of_the_pair}))',
            needs=("no",),
            other_no=cell("{compared.no[]}", str(k)),
            k=str(k),
            sign_of_the_pair=of_pair("kinds.sign", "{line}", str(k)),
        ),
        kind=text(),
        look=GRID,
        seed=cell("{compared.name[]}", str(k)) + '&""',
    )


COMPARED = Table(
    "compared",
    title="Short list",
    lines=LISTED,
    chosen=True,
    row_name=("species",),
    purpose="Pick species in the yellow cells; the order is yours.",
    columns=(
        Typed("species", "Species", link("species"), look=WHO, help="Pick one of the library."),
        Computed(
            "fine_with",
            "Among the others",
            logic(
                'IF({no}="",IF({species}="","","◆ not in the library"),'
                'IF(COUNT({compared.no[]})=1,"alone on the list",'
                '"fine with "&COUNTIF({with_1}:{with_last},"·")&" of "&(COUNT({compared.no[]})-1)))',
                copes=True,
                with_last=here(f"with_{LISTED}"),
            ),
            kind=text(),
            look=Look(WHO.group, 24, status=True),
        ),
        Computed("no", "No", logic("{line}", "1", needs=("species_row",)), look=Look(WHO.group, 4, "0")),
        *(beside(k) for k in range(1, LISTED + 1)),
        Pulled("name", via="species", of="species"),
        *(
            Pulled(key, via="species")
            for key in (
                "kind",
                "bites_fins",
                "long_fins",
                "eats_shrimp",
                "eats_snails",
                "light",
                "flow",
                "temper",
                "adult_length",
                "mouth_share",
            )
        ),
        *(Pulled(key, via="species", of=f"used_{key}") for key in RANGES),
        Computed(
            "mouthful", "Longest it can swallow", logic("ROUND({mouth_share}*{adult_length},6)", "cm"), look=HIDDEN
        ),
        Computed(
            "victim_length", "Length as prey", logic('IF({kind}="snail","",ROUND({adult_length},6))', "cm"), look=HIDDEN
        ),
        Computed("temper_counted", "Temper among fish", logic('IF({kind}="fish",{temper},"")', "1"), look=COUNT),
        Computed("light_no", "Light it likes", in_rows_with("light", position("{light}", LIGHT.choices)), look=COUNT),
        Computed("flow_no", "Flow it likes", in_rows_with("flow", position("{flow}", FLOW.choices)), look=COUNT),
        Computed(
            "lacking",
            "Not known of it",
            in_rows_with(
                "no",
                joined(
                    ('{kind}=""', '"kind"'),
                    ('{adult_length}=""', '"length"'),
                    ('{mouth_share}=""', '"what it can swallow"'),
                    ('AND({temper}="",{kind}="fish")', '"temper"'),
                    ('{bites_fins}=""', '"whether it bites fins"'),
                    ('{long_fins}=""', '"whether it has long fins"'),
                    *((p.filled("COUNT({*_low},{*_high})<2"), quoted(f"{p.word} range")) for p in PARAMETERS),
                    ('{light}=""', '"light"'),
                    ('{flow}=""', '"flow"'),
                    between=", ",
                ),
            ),
            kind=text(),
            look=WORDS,
        ),
    ),
)

KINDS = pairs(
    "kinds",
    "Pairs of species",
    "compared",
    LISTED,
    Judged(
        (*TRAITS, *RANGES, "lacking"),
        (not_known("Species"), *COMPANY, *PLACE),
        (
            Pulled("first_no", via="first_place", of="no"),
            Computed("both", "Both are there", logic("1", "1", needs=("first_no", "second_no")), look=COUNT),
            Computed(
                "sign",
                "Sign",
                logic('IF({verdict}="fine","·",IF({verdict}="○ unknown","?",LEFT({verdict},1)))', needs=("both",)),
                kind=text(),
                look=COUNT,
            ),
        ),
        there="both",
    ),
)
REASONS = reasons("kind_reasons", "kinds", REASONS_SHOWN, widths=(12, 42, 92, 104))

SHEET = Sheet(
    "Compatibility",
    role="choice",
    blocks=(COMPARED, REASONS, KINDS),
    forms=(SUMMARY,),
    frozen_columns=0,
    large=True,
    new_page_before=("kind_reasons",),
    purpose=(
        "Which species of a short list get on, grown up and in one water: "
        "a sign for each pair, the reasons beside it. Prints on A3 or Tabloid."
    ),
    notes=(
        (
            "▲ not together   ◆ only with care   ○ take note   ? what matters is not known   "
            "· nothing known against it. "
            "Common practice, no published source: watch the animals. Room for all: see Stocking."
        ),
    ),
)
