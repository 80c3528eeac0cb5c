"""The best twenty candidates, ranked, with reasons in words and what to do."""

from workbook.sheets.best_out import WHO_GOES
from workbook.sheets.best_words import SPEAKS, WORDS
from workbook.sheets.filters import COUNT, HIDDEN, MANY, TEXT
from workbook.sheets.parameters import PARAMETERS, Parameter
from workbook.tables import Computed, Look, Pulled, Table, logic, row, text
from workbook.tables.formula import filled
from workbook.tables.idioms import all_said, in_rows_with, joined
from workbook.tables.template import here, of, quoted

GRAVE, LIGHT = PARAMETERS[:2], PARAMETERS[2:]
TOO_FULL = {
    "water change": "change more water, or keep fewer",
    "oxygen": "keep fewer, or a larger tank",
    "swim room": "a longer tank",
    "bottom room": "a larger floor",
    "volume": "a larger tank",
}
MEND = filled(
    '_xlfn.SWITCH({limit},{mends},"")',
    mends=[f"{quoted(limit)},{quoted(mend)}" for limit, mend in TOO_FULL.items()],
)


def at_odds(p: Parameter) -> tuple[str, str]:
    """Test and words for a parameter of which nothing is shared, and with whom."""
    said = filled(
        '"no "&IF({alone},{left_to_share},{shared_with}&{who}&" (one of the two elsewhere)")',
        alone="OR(SUM({sought.*_width})<0,{used_*_low}>{used_*_high})",
        left_to_share=quoted(f"{p.word} left to share"),
        shared_with=quoted(f"shared {p.word} with "),
        who="CHOOSE(1+(SUM({*_low})>SUM({sought.*_high})),{sought.*_low_by},{sought.*_high_by})",
        each=p.key,
    )
    return p.filled("SUM({*_width})<0"), said


def off(p: Parameter) -> tuple[str, str]:
    """Test and words for a tank that is kept outside what would be shared."""
    test = p.filled(
        "AND(COUNT({kept},{*_width})=2,SUM({*_width})>=0,OR(SUM({kept})<SUM({*_low}),SUM({kept})>SUM({*_high})))",
        kept=of("sought", p.kept),
    )
    said = filled(
        '{bring_it_from}&{now}&" to between "&{@words.*_low}&" and "&{@words.*_high}&" first"',
        bring_it_from=quoted(f"bring {p.word} slowly from "),
        now=of("@words.sought", p.kept),
        each=p.key,
    )
    return test, said


def narrow(p: Parameter) -> tuple[str, str]:
    """Test and words for little water shared."""
    test = p.filled("AND(COUNT({*_width})=1,SUM({*_width})>=0,SUM({*_width})<SUM({sought.thin_*}))")
    said = filled(
        '"only "&{@words.*_low}&" to "&{@words.*_high}&{keep_it_steady}',
        keep_it_steady=quoted(f" of {p.word} shared: keep it steady"),
        each=p.key,
    )
    return test, said


def left(p: Parameter) -> str:
    """Formula text: the water left of one parameter."""
    return filled(
        '_xlfn.IFS({*_width}="","unknown",{*_width}<0,"none",1=1,{@words.*_low}&" to "&{@words.*_high})',
        each=p.key,
    )


def said(key: str, label: str, *parts: tuple[str, str], between: str = "; ") -> Computed:
    """A text of what holds; blank in a line without a candidate."""
    return Computed(key, label, in_rows_with("found", joined(*parts, between=between)), kind=text(), look=TEXT)


def of_row(key: str, label: str = "", look: Look | None = None) -> Pulled:
    """What stands in the row of the library that was found."""
    return Pulled(key, via="found", of=f"candidates.{key}", label=label, look=look or Look(working=True))


FULL = Look("Room", 8, "0%", measure="fit")
SAID = (
    said("water_no", "Water forbids", *(at_odds(p) for p in GRAVE)),
    said(
        "company_no",
        "Company forbids",
        ('{swallowed_by}<>""', '{swallowed_by}&" could swallow it (only with smaller company)"'),
        ('{swallows}<>""', '"could swallow "&{swallows}&" (only with larger company)"'),
        (
            "SUM({temper_gap})>=SUM({const.temper_clash})",
            '"temper "&{temper}&" clashes with "&{temper_foe}&" (one of the two elsewhere)"',
        ),
        ('{bitten_by}<>""', '{bitten_by}&" would bite its long fins (part them)"'),
        ('{bites}<>""', '"would bite the long fins of "&{bites}&" (part them)"'),
        ('AND({kind}="shrimp",SUM({sought.hunters})>0)', '{hunted_by}&" hunts shrimp (a tank without hunters)"'),
        ('{cracked_by}<>""', '{cracked_by}&" would eat it whole (a tank without snail eaters)"'),
        ('AND({eats_shrimp}="yes",{hunts_shrimp}<>"")', '"hunts "&{hunts_shrimp}&" (a tank without shrimp)"'),
        ('{goes_out}<>""', '"it fits if "&{goes_out}&" goes out"'),
    ),
    said(
        "room_no",
        "Room forbids",
        (
            "AND(COUNT({more},{add_min})=2,SUM({more})<SUM({add_min}))",
            '_xlfn.IFS(SUM({strain})=1,"tight: "&{limit}&" at "&ROUND({asks_min}*10^2,0)&" %, within what the model is '
            'unsure of",SUM({strain})=2,"fits if "&{@words.change_to}&" are changed each time instead of "'
            "&{@words.sought.change_share},1=1,"
            '"room for "&IF({more}=0,"none",{more})&" of the "&{add_min}&" to add: "&{limit}&" ("&' + MEND + '&")")',
        ),
    ),
    said(
        "not_known",
        "Not known",
        ('{lacking}<>""', "{lacking}"),
        ('{kind}=""', '"its kind"'),
        ('AND({lacking}="",{swim}="")', '"how it swims"'),
        ('{bottom_room}=""', '"room on the bottom"'),
        ('AND({long_fins}="",{sought.first_biter}<>"")', '"whether its fins are long"'),
        ('AND({bites_fins}="",{sought.first_finned}<>"")', '"whether it bites fins"'),
        ('AND({eats_shrimp}="",{sought.shrimp_who}<>"")', '"whether it eats shrimp"'),
        ('AND({eats_snails}="",{sought.snail_who}<>"")', '"whether it eats snails"'),
        ('{sought.lacking}<>""', '"the tank (see above)"'),
        between=", ",
    ),
    said(
        "mind",
        "To mind",
        *(at_odds(p) for p in LIGHT),
        *(off(p) for p in PARAMETERS),
        *(narrow(p) for p in PARAMETERS),
        (
            "AND(SUM({temper_gap})>=SUM({const.temper_watch}),SUM({temper_gap})<SUM({const.temper_clash}))",
            '"temper "&{temper}&" beside "&{temper_foe}&": watch for chasing, give cover"',
        ),
        (
            'AND({kind}="shrimp",{hunted_by}<>"",SUM({sought.hunters})=0)',
            '{hunted_by}&" takes its young: give moss"',
        ),
        ('AND({kind}="snail",{hunted_by}<>"",{cracked_by}="")', '{hunted_by}&" eats snails: expect losses"'),
        ('AND({eats_shrimp}="young",{hunts_shrimp}<>"")', '"takes the young of "&{hunts_shrimp}&": give moss"'),
        ('{hunts_snails}<>""', '"eats "&{hunts_snails}&": expect losses"'),
        ('{sought.care}<>""', '"see above: mind first"'),
    ),
)

BEST = Table(
    "best",
    title="The best twenty",
    lines=20,
    row_name=("species",),
    single=True,
    purpose="",
    columns=(
        Computed("place", "Place", logic("{line}", "1", needs=("found",)), look=Look("Candidates", 6, "0")),
        Pulled("species", via="found", look=Look("Candidates", 25)),
        of_row("verdict", look=Look("Candidates", 16, status=True)),
        of_row("likeness", look=Look("Candidates", 9, "0%")),
        of_row("more", look=Look("Room", 9, MANY.show)),
        of_row("limit", "Next limit", Look("Room", 13)),
        of_row("add_min", "Smallest group: add", Look("Room", 9, "0")),
        of_row("binding_min", "then full", FULL),
        of_row("add_best", "Best group: add", Look("Room", 8, "0")),
        of_row("binding_best", "then full", FULL),
        *(
            Computed(
                f"{p.key}_left",
                p.label,
                logic(left(p), needs=("found",)),
                kind=text(),
                look=Look("Water shared", 15),
            )
            for p in PARAMETERS
        ),
        SPEAKS,
        Computed(
            "reasons",
            "What to mind and to do",
            in_rows_with(
                "found",
                all_said(
                    [
                        "{there}",
                        "{water_no}",
                        "{company_no}",
                        "{room_no}",
                        "{lacks}",
                        "{mind}",
                        "{short_of_best}",
                        "{caution}",
                    ],
                    "; ",
                ),
            ),
            kind=text(),
            look=Look("Why", 110),
        ),
        Computed(
            "score",
            "Order",
            logic(
                'IF({line}>MIN(COUNT({candidates.rank[]}),MAX(1+2,{fitting})),"",LARGE({candidates.rank[]},{line}))',
                "1",
                copes=True,
                fitting='COUNTIFS({candidates.rank[]},">5")',
            ),
            look=HIDDEN,
            help="Of what does not fit at most the nearest three, and only while fewer than three fit.",
        ),
        Computed(
            "found",
            "Row in the library",
            logic("MATCH({score},{candidates.rank[]},0)", "1"),
            kind=row("species"),
            look=COUNT,
        ),
        *(
            of_row(key)
            for key in (
                "stop",
                "unknown",
                "strain",
                "asks_min",
                "change_to",
                "present",
                "swallowed_by",
                "swallows",
                "temper_gap",
                "temper_foe",
                "bitten_by",
                "bites",
                "hunted_by",
                "hunts_shrimp",
                "hunts_snails",
                "cracked_by",
            )
        ),
        *(of_row(f"{p.key}_{part}") for p in PARAMETERS for part in ("low", "high", "width")),
        *(Pulled(f"used_{p.key}_{end}", via="found") for p in PARAMETERS for end in ("low", "high")),
        *(
            Pulled(key, via="found")
            for key in (
                "kind",
                "temper",
                "swim",
                "bottom_room",
                "bites_fins",
                "long_fins",
                "eats_shrimp",
                "eats_snails",
                "lacking",
                "caution",
                "mouth_share",
                "group_best",
            )
        ),
        Computed(
            "water",
            "Water shared",
            logic(
                '&"; "&'.join(
                    filled(
                        'IF({left}="none",{none},{name}&{left})',
                        left=here(f"{p.key}_left"),
                        none=quoted(f"no shared {p.word}"),
                        name=quoted(f"{p.word} "),
                    )
                    for p in PARAMETERS
                ),
                needs=("found",),
            ),
            kind=text(),
            look=TEXT,
        ),
        *WORDS,
        *WHO_GOES,
        *SAID,
        said(
            "there",
            "There already",
            ('{verdict}="fits"', '"nothing speaks against it"'),
            (
                "SUM({present})>0",
                '"tops up the "&{present}&" there"&IF(AND(COUNT({add_best},{more})=2,{more}>={add_best},'
                'SUM({present})<SUM({group_best}))," to the best group of "&{group_best},"")',
            ),
        ),
        said("lacks", "Not known, as a sentence", ('{not_known}<>""', '"unknown: "&{not_known}')),
        said(
            "short_of_best",
            "No room for the best group",
            (
                "AND(COUNT({more},{add_best})=2,SUM({more})>=SUM({add_min}),SUM({more})<SUM({add_best}))",
                '"no room for the best group"',
            ),
        ),
    ),
)
