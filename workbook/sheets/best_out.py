"""Whether one of the best twenty would fit if a single resident went out, and which."""

from workbook.sheets.filters import TEXT, WHO
from workbook.tables import Computed, logic, text
from workbook.tables.columns import Column
from workbook.tables.formula import filled
from workbook.tables.template import here

# Who forbids it, by each test of company; blank where nobody does.
FORBIDDEN_BY = (
    *(here(key) for key in ("swallowed_by", "swallows", "cracked_by", "bitten_by", "bites")),
    'IF(SUM({temper_gap})>=SUM({const.temper_clash}),{temper_foe},"")',
    'IF(AND({kind}="shrimp",SUM({sought.hunters})>0),{hunted_by},"")',
    'IF({eats_shrimp}="yes",{hunts_shrimp},"")',
)
CLASHES = ">=SUM({const.temper_clash})"
# Whether another would forbid it still: the next longest mouth, the next smallest animal, and so on.
ANOTHER = (
    'AND({kind}<>"snail",COUNT({sought.mouthful_next})=1,ROUND(SUM({adult_length})-SUM({sought.mouthful_next}),6)<0)',
    "AND(COUNT({sought.victim_next})=1,ROUND(SUM({mouth_share})*SUM({adult_length})-SUM({sought.victim_next}),6)>0)",
    'AND({kind}="snail",COUNT({sought.snail_gape_next})=1,'
    "ROUND(SUM({adult_length})*2-SUM({sought.snail_gape_next}),6)<=0)",
    'AND({bitten_by}<>"",SUM({sought.biters})>1)',
    'AND({bites}<>"",SUM({sought.finned})>1)',
    'AND({kind}="shrimp",SUM({sought.hunters})>1)',
    'AND({eats_shrimp}="yes",SUM({sought.shrimps})>1)',
)
TEMPERS = (
    "AND({sought.temper_who}={objector},COUNT({sought.rough_next})=1,SUM({sought.rough_next})-SUM({temper}){clashes})",
    "AND({sought.temper_who}<>{objector},SUM({sought.temper_max})-SUM({temper}){clashes})",
    "AND({sought.gentle_who}={objector},COUNT({sought.next_gentle})=1,"
    "SUM({temper})-SUM({sought.next_gentle}){clashes})",
    "AND({sought.gentle_who}<>{objector},SUM({temper})-SUM({sought.temper_min}){clashes})",
)
STILL_CLASHES = filled(
    'AND({kind}="fish",COUNT({temper})=1,OR({tests}))', tests=[filled(test, clashes=CLASHES) for test in TEMPERS]
)
WHO_GOES: tuple[Column, ...] = (
    Computed(
        "objector",
        "Who forbids it",
        logic('_xlfn.IFS({names},1=1,"")', needs=("found",), names=[f'{name}<>"",{name}' for name in FORBIDDEN_BY]),
        kind=text(),
        look=WHO,
    ),
    Computed(
        "goes_out",
        "Fits if this one goes out",
        logic(
            'IF(AND({stop}="company",{objector}<>"",SUM({strain})<=2,SUM({unknown})=0,{nobody_else},'
            'IF(OR({another}),0,1)),{objector},"")',
            needs=("found",),
            nobody_else=[filled('OR({name}="",{name}={objector})', name=name) for name in FORBIDDEN_BY],
            another=[*ANOTHER, STILL_CLASHES],
        ),
        kind=text(),
        look=TEXT,
        help="Blank: more than one forbids it, or room or knowledge is lacking too.",
    ),
)
