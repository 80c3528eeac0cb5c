"""Every line of the stock list against a buyer's tank: whether it fits, how many, and why not."""

from workbook.equations import headroom
from workbook.sheets.buyer_question import COMPANY_THERE, COUNT, HIDDEN, NOT_BECAUSE, OF_SPECIES, WORDS, draw_each
from workbook.sheets.merits import comfort, eased, had, near
from workbook.sheets.parameters import KEYS, PARAMETERS, Parameter
from workbook.sheets.room_left import shared_out
from workbook.tables import Computed, Look, Pulled, Table, logic, text
from workbook.tables.columns import Column
from workbook.tables.formula import filled
from workbook.tables.idioms import all_said, in_rows_with, joined
from workbook.tables.template import column, for_each, here, of, put, quoted, said


def outside(p: Parameter) -> tuple[tuple[str, str], ...]:
    """Tests and words for water outside the range in use."""
    asked = of("question", p.key)
    return (
        (
            p.filled("AND(COUNT({asked},{*_low})=2,{asked}<{*_low})", asked=asked),
            p.filled("{wants}&{@words.*_low}", wants=quoted(f"wants {p.word} from ")),
        ),
        (
            p.filled("AND(COUNT({asked},{*_high})=2,{asked}>{*_high})", asked=asked),
            p.filled("{wants}&{@words.*_high}", wants=quoted(f"wants {p.word} up to ")),
        ),
    )


def comfortable(p: Parameter) -> Computed:
    """1 well inside its range, half at an end; blank where something is unknown."""
    asked, low, high = of("question", p.key), here(f"{p.key}_low"), here(f"{p.key}_high")
    return Computed(
        f"{p.key}_near",
        f"{p.label} comfortable",
        logic(
            "{comfort}",
            "1",
            needs=(f"question.{p.key}", f"{p.key}_low", f"{p.key}_high", "const.choose_edge"),
            comfort=comfort(asked, low, high),
        ),
        look=HIDDEN,
    )


def small(wanted: str, there: str, say: str) -> tuple[str, str]:
    """Test and words for a tank smaller than the species wants."""
    test = filled(
        "AND(COUNT({wanted},{there})=2,{there}<SUM({wanted})*(1-{const.nominal_allowance}))",
        wanted=here(wanted),
        there=of("question_answer", there),
    )
    return test, filled("{say}&{value}", say=quoted(f"{say} "), value=said(wanted))


COMPANY = (
    (
        'AND({kind}<>"snail",COUNT({length},{mouthful_max})=2,ROUND(SUM({length})-SUM({mouthful_max}),6)<0)',
        '"fits the mouth of "&{mouthful_max_who}',
    ),
    ("AND(COUNT({mouthful},{victim_min})=2,{mouthful}>{victim_min})", '"grown it swallows "&{victim_min_who}'),
    (
        'AND({kind}="fish",COUNT({temper},{temper_max})=2,SUM({temper_max})-SUM({temper})>={const.temper_clash})',
        '"too gentle for "&{temper_max_who}',
    ),
    (
        'AND({kind}="fish",COUNT({temper},{temper_min})=2,SUM({temper})-SUM({temper_min})>={const.temper_clash})',
        '"too rough for "&{temper_min_who}',
    ),
    ('AND({bites_fins}="yes",{veils}>0)', '"bites long fins"'),
    ('AND({long_fins}="yes",{biters}>0)', '"its fins would be bitten"'),
    ('AND({kind}="shrimp",{shrimp_hunters}>0)', '"would be hunted"'),
    ('AND({eats_shrimp}="yes",{shrimp}>0)', '"hunts shrimp"'),
    ('AND({kind}="snail",{snail_eaters}>0)', '"would be eaten"'),
    ('AND({eats_snails}="yes",{snails}>0)', '"eats snails"'),
)

OF_COMPANY = tuple(
    column.key
    for column in COMPANY_THERE.columns
    if column.key not in {"kinds", "counted", "asked_something", "asked_row"}
)


def with_company(template: str) -> str:
    """The template with what is known of those that live there in place of its names."""
    return put(template, {key_: column("question_company", key_) for key_ in OF_COMPANY if here(key_) in template})


WEIGHED = ("ease", "offered", "spreads")
UNKNOWN = for_each(KEYS, 'IF({*_near}="",1,0)', "+")

NEAR = for_each(KEYS, "{*_near}")
WEIGHTS = tuple(f"const.choose_{part}" for part in ("water", "size", "ease", "offered", "factor"))
SUITS = filled(
    "IF(COUNT({adult_length},{question_answer.usual_length})=2,{near},1/2)",
    near=near("{adult_length}", "{question_answer.usual_length}"),
)


def because(key_: str, label: str, *tests: tuple[str, str]) -> tuple[Column, Column]:
    """Why a line does not fit in one respect, and a one to count."""
    return (
        Computed(
            f"why_{key_}",
            f"Not for {label}",
            logic('IF({considered}=1,{reasons},"")', needs=("considered",), reasons=joined(*tests)),
            kind=text(),
            look=WORDS,
        ),
        Computed(
            f"no_{key_}",
            f"Not for {label}: count",
            logic('IF({why_*}="",0,1)', "1", needs=("considered",), each=key_),
            look=COUNT,
        ),
    )


LINES = Table(
    "buyer_lines",
    title="Every line for this tank",
    rows_of="stock",
    row_name=("code",),
    purpose="",
    columns=(
        *(Pulled(key_, via="stock", look=WORDS) for key_ in ("code", "species", "species_row", "free")),
        *(
            Pulled(key_, via="stock", of=f"livestock.{key_}", look=Look(working=True, show="0.0"))
            for key_ in ("length", "length_wanted")
        ),
        *(
            Pulled(key_, via="species", look=WORDS)
            for key_ in (*OF_SPECIES, *WEIGHED, "group_min", "group_best", "volume_min")
        ),
        *(
            Pulled(f"{p.key}_{end}", via="species", of=f"used_{p.key}_{end}", look=HIDDEN)
            for p in PARAMETERS
            for end in ("low", "high")
        ),
        Computed(
            "considered",
            "Animals that may be sold",
            logic(
                'IF(AND({question_company.asked_something[]}=1,{species_row}<>"",SUM({free})>0),1,0)',
                "1",
                needs=("code",),
            ),
            look=COUNT,
        ),
        Computed(
            "mouthful", "Longest it swallows, grown", logic("ROUND({mouth_share}*{adult_length},6)", "cm"), look=HIDDEN
        ),
        Computed(
            "lives",
            "Of its kind there",
            logic("SUMIFS({question_lives.animals[]},{question_lives.species_row[]},{species_row})", "1"),
            look=COUNT,
        ),
        Computed("wanted", "How many it wants", logic("MAX(1,{group_min}-{lives})", "1"), look=COUNT),
        Computed("draw_each", "Oxygen draw of one, grown", draw_each(), look=HIDDEN),
        Computed(
            "by_oxygen",
            "As many as the oxygen carries",
            shared_out(
                headroom.draw_carried(saturation="{question_answer.saturation}", volume="{question_answer.volume}"),
                "{question_answer.draw}",
                "draw_each",
            ),
            look=COUNT,
        ),
        Computed(
            "at_most",
            "At most",
            logic(
                "MIN({free},MAX({wanted},{group_best}-{lives}),"
                "IF(COUNT({by_oxygen})=1,INT(ROUND({by_oxygen},6)),{free}))",
                "1",
                needs=("free", "wanted", "group_best", "lives"),
            ),
            look=COUNT,
        ),
        Computed(
            "how_many",
            "How many",
            logic('IF(SUM({at_most})>{wanted},{wanted}&" to "&{at_most},{wanted}&"")', needs=("wanted",)),
            kind=text(),
            look=WORDS,
        ),
        *because("water", "the water", *(t for p in PARAMETERS for t in outside(p))),
        *because(
            "tank",
            "the size of the tank",
            small("volume_min", "volume", "wants at least"),
            small("length_wanted", "swim_length", "wants a length of"),
            ("AND(COUNT({by_oxygen},{wanted})=2,{by_oxygen}<{wanted})", '"the oxygen does not carry its group"'),
        ),
        *because(
            "number",
            "their number",
            ("AND(COUNT({wanted})=1,SUM({free})<SUM({wanted}))", '"wants "&{wanted}&", free to sell "&{free}'),
        ),
        *because("company", "the company", *((with_company(test), with_company(words)) for test, words in COMPANY)),
        Computed(
            "why_not",
            "Why not",
            all_said([here(f"why_{key_}") for key_, _ in NOT_BECAUSE], "; "),
            kind=text(),
            look=WORDS,
        ),
        Computed(
            "fits", "Fits", logic('IF(AND({considered}=1,{why_not}=""),1,0)', "1", needs=("considered",)), look=COUNT
        ),
        *(comfortable(p) for p in PARAMETERS),
        Computed(
            "score",
            "How well",
            logic(
                "10^2*({near}/MAX(1,COUNT({all_near}))*{const.choose_water}+{size}*{const.choose_size}"
                "+{easy}*{const.choose_ease}+{often}*{const.choose_offered})"
                "/MAX({const.choose_water}+{const.choose_size}+{const.choose_ease}+{const.choose_offered},1/10^4)"
                '-{const.rank_water}*{unknown}-IF({spreads}="yes",10^2,0)',
                "1",
                needs=("considered", "const.rank_water", *WEIGHTS),
                near=f"SUM({NEAR})",
                all_near=NEAR,
                size=SUITS,
                easy=eased("{ease}"),
                often=had("{offered}"),
                unknown=UNKNOWN,
            ),
            look=HIDDEN,
        ),
        Computed(
            "rank",
            "Order",
            logic('IF({fits}=1,ROUND({score},3)-{line}/10^9,"")', "1", needs=("fits", "score")),
            look=HIDDEN,
        ),
        Computed(
            "not_no",
            "Lines that do not fit, so far",
            logic("SUM({above.not_no})+SUM({considered})-SUM({fits})", "1", copes=True),
            seed="0",
            look=COUNT,
        ),
        Computed(
            "is_asked",
            "Is what was asked about",
            logic(
                "IF(AND({considered}=1,{species}={question.asked}),1,0)",
                "1",
                needs=("considered", "species", "question.asked"),
            ),
            look=COUNT,
        ),
        Computed(
            "reasons",
            "It wants",
            in_rows_with(
                "code",
                joined(
                    *(
                        (
                            p.filled("COUNT({*_low},{*_high})=2"),
                            p.filled('{name}&{@words.*_low}&" to "&{@words.*_high}', name=quoted(f"{p.word} ")),
                        )
                        for p in PARAMETERS
                    ),
                    ('{volume_min}<>""', '"at least "&{@words.volume_min}'),
                    ("SUM({group_min})>1", '"a group of "&{group_min}'),
                ),
            ),
            kind=text(),
            look=WORDS,
        ),
    ),
)
