"""The verdict on a species for the chosen tank: who objects, what is not known, and what would have to change."""

from dataclasses import replace

from workbook.sheets.candidate_load import ROW
from workbook.sheets.candidate_water import ALL_SHARED, ANY_NOT_SHARED
from workbook.sheets.filters import COUNT, VERDICTS, WHO
from workbook.sheets.parameters import KEYS, PARAMETERS
from workbook.tables import Computed, Look, logic, text
from workbook.tables.formula import Formula, filled
from workbook.tables.idioms import in_rows_with, joined
from workbook.tables.template import for_each, quoted

KIND = Look("The kind", 18)
FITS, CARE, UNKNOWN, NOT, TIGHT, CHANGE = (quoted(word) for word in VERDICTS.values())

# --- the company ---


def named(test: str, who: str) -> Formula:
    """The name of someone, where a test holds."""
    return logic('IF({test},{who},"")', needs=(ROW,), test=test, who=who)


def someone(key: str, label: str, formula: Formula) -> Computed:
    """A name that the company gives cause for."""
    return Computed(key, label, formula, kind=text(), look=WHO)


ABOVE_IT, BELOW_IT = "{sought.temper_max}-{temper}", "{temper}-{sought.temper_min}"
COMPANY = (
    someone(
        "swallowed_by",
        "Could be swallowed by",
        logic(
            'IF(AND({kind}<>"snail",ROUND({adult_length}-{sought.mouthful_max},6)<0),{sought.mouthful_who},"")',
        ),
    ),
    someone(
        "swallows",
        "Could swallow",
        logic('IF(ROUND({species.mouth_share}*{adult_length}-{sought.victim_min},6)>0,{sought.victim_who},"")'),
    ),
    Computed(
        "temper_gap",
        "Gap of temper",
        logic('IF({kind}="fish",MAX({above_it},{below_it}),"")', "1", above_it=ABOVE_IT, below_it=BELOW_IT),
        look=COUNT,
    ),
    someone(
        "temper_foe",
        "Gap to",
        logic(
            'IF({temper_gap}=0,"",IF({temper_gap}={above_it},{sought.temper_who},{sought.gentle_who}))',
            needs=("temper_gap",),
            above_it=ABOVE_IT,
        ),
    ),
    someone(
        "bitten_by",
        "Long fins bitten by",
        named(
            '{species.long_fins}="yes"',
            "IF({sought.first_biter}<>{species},{sought.first_biter},{sought.second_biter})",
        ),
    ),
    someone(
        "bites",
        "Bites the long fins of",
        named(
            '{species.bites_fins}="yes"',
            "IF({sought.first_finned}<>{species},{sought.first_finned},{sought.second_finned})",
        ),
    ),
    someone(
        "hunted_by",
        "Shrimp or snail hunted by",
        logic(
            '_xlfn.SWITCH({kind}&"","shrimp",{sought.shrimp_eater},"snail",{sought.snail_eater},"")',
            needs=(ROW,),
        ),
    ),
    someone(
        "hunts_shrimp",
        "Hunts the shrimp",
        named('OR({species.eats_shrimp}="yes",{species.eats_shrimp}="young")', "{sought.shrimp_who}"),
    ),
    someone(
        "cracked_by",
        "Snail swallowed by",
        named(
            'AND({kind}="snail",COUNT({adult_length},{sought.snail_gape_max})=2,'
            "ROUND(SUM({adult_length})*2-SUM({sought.snail_gape_max}),6)<=0)",
            "{sought.cracks_who}",
        ),
    ),
    someone("hunts_snails", "Hunts the snails", named('{species.eats_snails}="yes"', "{sought.snail_who}")),
)

# --- the verdict ---

FORBIDS = (
    '{swallowed_by}&{swallows}&{bitten_by}&{bites}&{cracked_by}<>""',
    "SUM({temper_gap})>={const.temper_clash}",
    'AND({kind}="shrimp",{sought.hunters}>0)',
    'AND({species.eats_shrimp}="yes",{hunts_shrimp}<>"")',
)
NOT_KNOWN = (
    '{species.lacking}&{sought.lacking}<>""',
    '{kind}=""',
    '{more}=""',
    '{add_min}=""',
    'AND({species.long_fins}="",{sought.first_biter}<>"")',
    'AND({species.bites_fins}="",{sought.first_finned}<>"")',
    'AND({species.eats_shrimp}="",{sought.shrimp_who}<>"")',
    'AND({species.eats_snails}="",{sought.snail_who}<>"")',
)
WANTS_CARE = (
    '{outside}&{hunted_by}&{hunts_shrimp}&{hunts_snails}&{species.caution}&{sought.care}<>""',
    "SUM({temper_gap})>={const.temper_watch}",
    for_each(KEYS, "{*_width}<{sought.thin_*}"),
)
TOO_FEW = "AND(COUNT({more},{add_min})=2,SUM({more})<SUM({add_min}))"
VERDICT = (
    Computed(
        "bars",
        "Company forbids",
        logic("IF(OR({any_forbids}),1,0)", "1", needs=("sought.ready",), any_forbids=FORBIDS),
        look=COUNT,
    ),
    Computed(
        "strain",
        "Strain",
        logic(
            "IF({too_few},_xlfn.IFS({asks_min}<={const.tight},1,"
            "AND({apart_min}<={const.tight},{change_to}<={const.change_most}),2,1=1,10),0)",
            "1",
            needs=("bars", "const.tight", "const.change_most"),
            too_few=TOO_FEW,
        ),
        look=COUNT,
        help="1 tight: over the limit by less than the model is sure of; 2 it fits with more change; 10 too much.",
    ),
    Computed(
        "stop",
        "Stopped by",
        logic(
            "_xlfn.IFS("
            'OR(SUM({temperature_width})<0,SUM({ph_width})<0),"water",'
            '{bars}=1,"company",'
            "SUM({strain})>2,{limit},"
            '1=1,"")',
            needs=("bars",),
        ),
        kind=text(),
        look=WHO,
    ),
    Computed(
        "unknown",
        "Not known enough",
        logic("IF(OR({any_not_known}),1,0)", "1", needs=(ROW,), any_not_known=NOT_KNOWN),
        look=COUNT,
    ),
    Computed(
        "care",
        "Wants care",
        logic("IF(OR({any_wants_care}),1,0)", "1", needs=("sought.ready",), any_wants_care=WANTS_CARE),
        look=COUNT,
    ),
    Computed(
        "verdict",
        "Verdict",
        logic(
            '_xlfn.IFS({stop}<>"",{says_not},{unknown}=1,{says_unknown},SUM({strain})=1,{says_tight},'
            "SUM({strain})=2,{says_change},{care}=1,{says_care},1=1,{says_fits})",
            needs=("bars", "unknown", "care"),
            says_not=NOT,
            says_unknown=UNKNOWN,
            says_tight=TIGHT,
            says_change=CHANGE,
            says_care=CARE,
            says_fits=FITS,
        ),
        kind=text(),
        look=replace(KIND, status=True),
    ),
)

# --- why, in few words ---


def where(test: str) -> str:
    """Formula text: the names of the parameters of which a test holds."""
    words = (p.filled('IF({test},{word_and_space},"")', test=test, word_and_space=f'"{p.word} "') for p in PARAMETERS)
    return filled('SUBSTITUTE(TRIM({words})," ",", ")', words="&".join(words))


LITTLE_SHARED = "AND(SUM({*_width})>=0,{*_width}<{sought.thin_*})"
WHY = (
    Computed(
        "objects",
        "Who objects",
        in_rows_with(
            "bars",
            joined(
                ('{swallowed_by}<>""', '{swallowed_by}&" (swallows it)"'),
                ('{swallows}<>""', '{swallows}&" (it swallows)"'),
                ("SUM({temper_gap})>={const.temper_watch}", '{temper_foe}&" (temper)"'),
                ('{bitten_by}<>""', '{bitten_by}&" (bites its fins)"'),
                ('{bites}<>""', '{bites}&" (it bites the fins)"'),
                ('{hunted_by}<>""', '{hunted_by}&" (eats it or its young)"'),
                ('{hunts_shrimp}<>""', '{hunts_shrimp}&" (it eats)"'),
                ('{hunts_snails}<>""', '{hunts_snails}&" (it eats)"'),
                between=", ",
            ),
        ),
        kind=text(),
        look=Look("Why", 40),
        help="Blank: nobody.",
    ),
    Computed(
        "why",
        "What else",
        in_rows_with(
            "bars",
            joined(
                (ANY_NOT_SHARED, '"no shared "&' + where("SUM({*_width})<0")),
                (
                    filled('AND({all_shared},{outside}<>"")', all_shared=ALL_SHARED),
                    '"tank kept outside in "&SUBSTITUTE({outside}," ",", ")',
                ),
                (
                    filled("OR({tests})", tests=for_each(KEYS, LITTLE_SHARED)),
                    '"little shared "&' + where(LITTLE_SHARED),
                ),
                (
                    TOO_FEW,
                    '"room for "&{more}&" of "&{add_min}&" ("&{limit}&")"'
                    '&IF(SUM({strain})=2,", all with "&ROUND({change_to}*10^2,0)&" % changed each time","")',
                ),
                (
                    "{unknown}=1",
                    '"not known: "&IF({species.lacking}="","room, fins, prey or the tank",{species.lacking})',
                ),
                ('{species.caution}<>""', '"see its caution"'),
                ('{sought.care}<>""', '"mind the tank first"'),
            ),
        ),
        kind=text(),
        look=Look("Why", 56),
    ),
)
