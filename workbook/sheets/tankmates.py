"""Tankmates: the residents of a chosen tank by each other, a verdict for each pair, and the reasons with what to do."""

from workbook.sheets.in_view import as_on_its_page
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
    how_many,
    not_known,
    of_pair,
    paired,
    pairs,
    reasons,
)
from workbook.sheets.parameters import PARAMETERS
from workbook.tables import Computed, Flag, Look, Pulled, Sheet, Table, logic, row, text
from workbook.tables.formula import filled
from workbook.tables.idioms import cell, in_rows_with, joined, row_of
from workbook.tables.template import here, quoted

RESIDENTS = 16
WHO, GRID = Look("Who lives here", 22), Look("Verdict of each pair", 10, status=True)

CHOICE = Table(
    "mates_choice",
    title="Tank to look at",
    purpose="",
    row_name=("in_view",),
    form=True,
    chosen=True,
    columns=(
        *as_on_its_page("All of this sheet is about it."),
        # Each of these truths holds only where the one before it does, so that their number picks the words.
        Computed(
            "shown",
            "Who is shown",
            logic(
                'CHOOSE(1+({in_view}<>"")+(MAX({mates.chosen_row[]})>0)+({groups}>0)+({groups}>1)+({groups}>{lines}),'
                '"pick a tank on Tank","◆ no such tank stands on Tanks","no animals live in it",'
                '"a single group: there is nobody beside it",'
                '"all "&{groups}&" groups",'
                '"◆ the first "&{lines}&" of "&{groups}&" groups; "&({groups}-{lines})&" are left out")',
                copes=True,
                groups="MAX({mates.residents[]})",
                lines="ROWS({mates.line[]})",
            ),
            kind=text(),
            look=Look(width=22, status=True),
        ),
        Computed("paired", "Pairs", logic(paired("pairs"), copes=True), kind=text(), look=Look(width=22)),
        Computed(
            "found",
            "Reasons",
            logic(found("pairs", "reasons"), copes=True),
            kind=text(),
            look=Look(width=22, runs_on=True),
        ),
    ),
)

OF_EACH = (*TRAITS, "bottom_wanted", *RANGES, "lacking")


def beside(k: int) -> Computed:
    """The verdict of a resident beside the k-th; the header names that one."""
    return Computed(
        f"with_{k}",
        str(k),
        logic(
            'IF({k}>{residents},"",IF({line}={k},"itself",{verdict_of_the_pair}))',
            needs=("no",),
            k=str(k),
            verdict_of_the_pair=of_pair("pairs.verdict", "{line}", str(k)),
        ),
        kind=text(),
        look=GRID,
        seed=cell("{mates.name[]}", str(k)) + '&""',
    )


MATES = Table(
    "mates",
    title="Residents of the chosen tank",
    lines=RESIDENTS,
    row_name=("name",),
    purpose="",
    columns=(
        Computed(
            "name",
            "Resident",
            logic('IF({group}="","",IF({species}="","(no species)",{species}))', copes=True),
            kind=text(),
            look=WHO,
        ),
        Computed(
            "fine_with",
            "Among the others",
            logic(
                'IF(COUNT({mates.no[]})=1,"alone in it",'
                '"fine with "&COUNTIF({with_1}:{with_last},"fine")&" of "&(COUNT({mates.no[]})-1))',
                needs=("no",),
                with_last=here(f"with_{RESIDENTS}"),
            ),
            kind=text(),
            look=Look(WHO.group, 22),
        ),
        Pulled("animals", via="group", of="living", label="How many", look=Look(WHO.group, 6, "0")),
        Computed("no", "No", logic("{line}", "1", needs=("group",)), look=Look(WHO.group, 4, "0")),
        *(beside(k) for k in range(1, RESIDENTS + 1)),
        Computed(
            "chosen_row",
            "Row of the chosen tank",
            row_of("{mates_choice.in_view}", "{tanks.tank[]}"),
            kind=row("tanks"),
            look=COUNT,
        ),
        Pulled("residents", via="chosen_row", of="company.residents"),
        Pulled("run_end", via="chosen_row", of="company.run_end"),
        Pulled("plan_area", via="chosen_row"),
        Pulled("floor_wanted", via="chosen_row", of="stocking.bottom_wanted"),
        # The groups of a tank stand together on the roll, which ends at run_end.
        Computed(
            "group",
            "Row of the group",
            logic(
                'IF({line}>{residents},"",INDEX({roll.group[]},{run_end}-{residents}+{line}))',
                "1",
                needs=("residents", "run_end"),
            ),
            kind=row("livestock"),
            look=COUNT,
        ),
        Pulled("species", via="group"),
        *(Pulled(key, via="group") for key in OF_EACH if key not in {"name", "lacking"}),
        Pulled("temper", via="group"),
        Pulled("length", via="group"),
        Computed(
            "lacking",
            "Not known of it",
            in_rows_with(
                "group",
                joined(
                    ('{animals}=""', '"how many"'),
                    ('{kind}=""', '"kind"'),
                    ('{length}=""', '"length"'),
                    ('{mouthful}=""', '"what it can swallow"'),
                    ('AND({temper}="",{kind}="fish")', '"temper"'),
                    ('{bites_fins}=""', '"whether it bites fins"'),
                    ('{long_fins}=""', '"whether it has long fins"'),
                    *((p.filled("COUNT({*_low},{*_high})<2"), quoted(f"{p.word} range")) for p in PARAMETERS),
                    ('{light}=""', '"light"'),
                    ('{flow}=""', '"flow"'),
                    ('{bottom_wanted}=""', '"bottom room"'),
                    between=", ",
                ),
            ),
            kind=text(),
            look=WORDS,
        ),
    ),
)

BOTH_WANT_FLOOR = "{first_bottom_wanted}>0,{second_bottom_wanted}>0"
FLOOR = (
    Flag(
        "floor_short",
        "bottom",
        seriousness="watch",
        when=filled("AND({both_want_some},{both_want}>{plan_area})", both_want_some=BOTH_WANT_FLOOR),
        why=(
            "both keep to the bottom: {first_name} want {first_bottom_wanted} of floor, "
            "{second_name} {second_bottom_wanted}, there are {plan_area}"
        ),
        do=(
            "Move one of the two, keep fewer, or choose a tank with a larger floor; "
            "caves and broken lines of sight for each in the meantime."
        ),
    ),
    Flag(
        "floor_short_for_all",
        "bottom",
        seriousness="note",
        when=filled(
            "AND({both_want_some},{both_want}<={plan_area},{floor_wanted}>{plan_area})", both_want_some=BOTH_WANT_FLOOR
        ),
        why=(
            "there is floor enough for {first_name} and {second_name}, "
            "but all on the bottom together want {floor_wanted}, there are {plan_area}"
        ),
        do="Move one of the bottom dwellers, or keep fewer.",
    ),
)
TESTS = (not_known("Species, Livestock or Tanks"), *COMPANY, *FLOOR, *PLACE)

PAIRS = pairs(
    "pairs",
    "Pairs of residents",
    "mates",
    RESIDENTS,
    Judged(
        OF_EACH,
        TESTS,
        (
            Pulled("plan_area", via="second_place"),
            Pulled("floor_wanted", via="second_place"),
            Computed(
                "both_want",
                "Bottom both want",
                logic("{first_bottom_wanted}+{second_bottom_wanted}", "cm2"),
                look=HIDDEN,
            ),
        ),
        (('AND(SUM({both_want})>0,{plan_area}="")', '"the floor of the tank"'),),
    ),
)
# As wide as most sentences are long: a row of the grid keeps one line.
REASONS = reasons("reasons", "pairs", how_many(RESIDENTS), widths=(12, 42, 92, 104))

SHEET = Sheet(
    "Tankmates",
    role="detail",
    blocks=(MATES, REASONS, PAIRS),
    forms=(CHOICE,),
    frozen_columns=0,
    new_page_before=("reasons",),
    purpose="Who gets on with whom in the tank you choose: a verdict for each pair; the reasons stand beside the grid.",
    notes=(
        (
            "▲ act   ◆ watch   ○ note   ○ unknown: something that matters is not typed yet   fine: "
            "nothing speaks against it, as far as Species knows."
        ),
        (
            "Who gets on with whom is common practice, no published source. Watch the animals: "
            "they overrule any calm cell."
        ),
    ),
)
