"""Candidates: what else can go in a tank, how many, and what comes close to a fish that can't be had."""

from workbook.sheets.best import BEST
from workbook.sheets.candidate_load import LOAD
from workbook.sheets.candidate_verdict import COMPANY, LIKENESS, RANK, VERDICT, WHY
from workbook.sheets.candidate_water import WATER
from workbook.sheets.filters import CHOICE, COUNT, MEASURES, SENTENCE, WHO
from workbook.sheets.residents import RESIDENTS
from workbook.sheets.sought import SOUGHT
from workbook.tables import Computed, Look, Pulled, Sheet, Table, logic, text
from workbook.tables.template import quoted

JUDGED = (*VERDICT, *LIKENESS, *RANK)
# The order in which people read them; what they are reckoned from stands at the right.
CANDIDATES = Table(
    "candidates",
    title="The whole library",
    rows_of="species",
    row_name=("species",),
    purpose="",
    columns=(
        Pulled("species", via="species", look=Look("The kind", 24)),
        *(column for column in JUDGED if not column.look.working),
        *WHY,
        *LOAD,
        *WATER,
        *(Pulled(key, via="species") for key in ("kind", "adult_length", "group_min", "zone", "temper")),
        *COMPANY,
        *(column for column in JUDGED if column.look.working),
    ),
)

STOPS = Table(
    "candidates_stops",
    title="What stops them",
    lines=7,
    row_name=("stop",),
    purpose="",
    columns=(
        Computed(
            "stop",
            "Stopped by",
            logic(
                'CHOOSE({line},"water","company",{measures})',
                measures=[quoted(label) for _, label in MEASURES],
            ),
            kind=text(),
            look=WHO,
        ),
        Computed(
            "stopped",
            "How many",
            logic("SUMIFS({candidates.passes[]},{candidates.stop[]},{stop})", "1"),
            look=COUNT,
        ),
    ),
)

SHEET = Sheet(
    "Candidates",
    role="choice",
    blocks=(BEST, SOUGHT, RESIDENTS, STOPS),
    left=(CHOICE,),
    frozen_columns=2,
    purpose=(
        "What else can go in this tank, how many, and what is close to a fish that can't be had. "
        "All candidates says the same of the whole library, species by species."
    ),
    notes=(
        "Reckoned with grown animals: young ones may fit a mouth until they have grown. "
        "Estimates: add slowly, test the water, watch the animals; quarantine what is new.",
    ),
)
ASKED = Table(
    "candidates_asked",
    title="As chosen on Candidates",
    purpose="",
    row_name=("about",),
    form=True,
    columns=(
        Computed(
            "about",
            "The tank",
            logic('IF({sought.row}="","Choose a tank on Candidates.",{sought.about}&"")', copes=True),
            kind=text(),
            look=SENTENCE,
        ),
        Computed(
            "wanted",
            "Likeness to",
            logic(
                'IF({sought.wanted}="",{nothing},{candidates_choice.instead_of}&"")',
                copes=True,
                nothing=quoted("nothing: name a species under Instead of, on Candidates"),
            ),
            kind=text(),
            look=SENTENCE,
        ),
    ),
)
ALL_SHEET = Sheet(
    "All candidates",
    role="detail",
    blocks=(CANDIDATES,),
    on_paper=False,  # the best of them are printed on Candidates
    forms=(ASKED,),
    purpose=(
        "Every species of the library against the chosen tank: who objects, how many until which limit, the water left."
    ),
    notes=(
        "100 % is the limit. Blank: not known. "
        "Swim room and volume are the same for any number; the rest rise with each animal.",
    ),
)
