"""Which species pass the filters, and in which order they stand."""

from workbook.sheets.candidate_load import ROW
from workbook.sheets.candidate_water import WIDTHS
from workbook.sheets.filters import COUNT, HIDDEN
from workbook.sheets.parameters import KEYS
from workbook.tables import Computed, Look, logic
from workbook.tables.template import for_each

AS_WIDE_AS_EASY = "ROUND({species.used_*_high}-{species.used_*_low},6)>={const.easy_*}"
PASSES = (
    'OR({sought.zone}="",{zone}={sought.zone},{zone}="all")',
    "SUM({adult_length})>{sought.length_over}",
    "SUM({adult_length})<={sought.length_most}",
    "SUM({temper})>{sought.temper_over}",
    "SUM({temper})<={sought.temper_most}",
    "SUM({easy})>={sought.easy}",
    'OR({sought.just}="",{line}={sought.just})',
    "{line}<>{sought.wanted}",
)
RANK = (
    Computed(
        "easy",
        "Easy kind",
        logic(
            "IF(AND({as_wide_as_an_easy_kind}),1,0)",
            "1",
            needs=WIDTHS[:-1],
            as_wide_as_an_easy_kind=for_each(KEYS[:-1], AS_WIDE_AS_EASY),
        ),
        look=COUNT,
    ),
    Computed(
        "passes",
        "Passes the filters",
        logic("IF(AND({every_filter}),1,0)", "1", needs=(ROW,), every_filter=PASSES),
        look=Look("The kind", 8, '[=1]"yes";"no"'),
    ),
    Computed(
        "never",
        "Can never fit",
        logic(
            'IF(OR({stop}="water",AND(COUNT({sought.swim_length})=1,SUM({adult_length})>{sought.swim_length})),1,0)',
            "1",
            needs=("verdict",),
        ),
        look=COUNT,
        help="Longer than the tank, or no water shared: not listed unless asked for by name.",
    ),
    Computed(
        "spare",
        "Never leads",
        logic(
            'IF(OR({species.spreads}="yes",SUM({present})>0,AND(COUNT({merit_peace})=1,SUM({merit_peace})=0)),1,0)',
            "1",
            needs=(ROW,),
        ),
        look=COUNT,
        help="Breeds without end, lives there already, or has no peace with who lives there.",
    ),
    Computed(
        "merit",
        "Within its verdict",
        logic(
            'IF({sought.wanted}="",SUM({keeping}),SUM({likeness})-IF({other_water},{const.choose_step},0))',
            "1",
            needs=(ROW, "const.choose_step"),
            other_water='SUBSTITUTE(SUBSTITUTE({outside},"temperature",""),"pH","")<>{outside}&""',
        ),
        look=HIDDEN,
        help=(
            "Likeness where a species is wanted, less where the tank's temperature or pH would have to change; "
            "otherwise what speaks for it."
        ),
    ),
    Computed(
        "step",
        "Step",
        logic(
            '_xlfn.IFS({stop}="water",0-2,{stop}="company",0,'
            '{stop}<>"",2-{spare}-MIN(2,{asks_min}-1)*{const.choose_step},'
            "{unknown}=1,10,1=1,10^2-10*{spare}-{care}*{const.choose_care}-SUM({strain})*{const.choose_step})",
            "1",
            needs=("verdict", "spare", "care", "const.choose_care", "const.choose_step"),
        ),
        look=HIDDEN,
        help="What fits, then what never leads, then what is not known, lacks room, or clashes.",
    ),
    Computed(
        "rank",
        "Order",
        logic(
            'IF(AND({passes}=1,OR({never}=0,{sought.just}<>"")),{step}+ROUND({merit},3)-{line}/10^9,"")',
            "1",
            needs=("passes", "step", "merit"),
        ),
        look=Look(working=True, show="0.000"),
        help="By its step, then as above; of equal ones the upper line.",
    ),
)
