"""What a buyer asks: the tank at home, its water and who lives there."""

from workbook.equations import feeding, geometry, metabolism, nitrogen
from workbook.sheets.altitude import saturation
from workbook.sheets.groups import offer_only
from workbook.sheets.parameters import KEYS, PARAMETERS
from workbook.tables import Computed, Look, Pulled, Table, Typed, count, link, logic, number, text
from workbook.tables.columns import Column
from workbook.tables.formula import Formula, filled
from workbook.tables.idioms import POSITIVE, cell, first_known, only_if, picked, row_of
from workbook.tables.kinds import row
from workbook.tables.template import column, for_each, of, quoted

LIVES, BEST = 6, 20

NUMBERS = tuple(str(n) for n in range(1, LIVES + 1))

COUNT, HIDDEN, WORDS = Look(working=True, show="0"), Look(working=True, show="0.000"), Look(working=True, width=20)

HOME, FIT, NOT = (
    Look("What lives there", 9, "0"),
    Look("What fits, best first", 9, "0"),
    Look("What does not fit, and why", 20),
)

FORM, WIDE, SENTENCE = Look(show="0.0"), Look(width=22), Look(width=22, runs_on=True)


def draw_each() -> Formula:
    """Oxygen that one animal and the bacteria behind it draw at the temperature asked about."""
    own = metabolism.routine_oxygen(
        resting=metabolism.resting_oxygen(mass="{adult_mass}", temperature="{question.temperature}")
    )
    food = feeding.ration(oxygen=own)
    bacteria = nitrogen.nitrification_oxygen(
        ammonia=nitrogen.ammonia_from_food(food=food, protein="{const.protein_default}")
    )
    return logic("{own}+{bacteria}", "mg/h", own=own, bacteria=bacteria)


QUESTION = Table(
    "question",
    title="The tank at home",
    form=True,
    row_name=("length",),
    purpose="",
    columns=(
        Typed(
            "length",
            "Length",
            number(2, 1000),
            unit="cm",
            look=FORM,
            help="Inside, up to the water line; leave what is not known blank.",
        ),
        Typed("width", "Width", number(2, 1000), unit="cm", look=FORM),
        Typed("height", "Water height", number(2, 1000), unit="cm", look=FORM),
        Typed("volume", "or its water", number(0.5, 50000), unit="L", look=FORM, help="Overrides the sides."),
        *(Typed(p.key, p.label, number(p.low, p.high), unit=p.unit, look=Look(show=p.show)) for p in PARAMETERS),
        offer_only(),
        Typed(
            "asked",
            "Asked about",
            link("species"),
            look=WIDE,
            help="A species, if the buyer has one in mind; the answer stands above.",
        ),
        *(
            made
            for n in range(1, LIVES + 1)
            for made in (
                Typed(f"kind_{n}", f"Lives there, kind {n}", link("species"), look=WIDE),
                Typed(f"number_{n}", "how many", count(0, 10_000), unit="1", look=Look(show="0")),
            )
        ),
    ),
)


def most(key_: str, label: str, of: str, unit: str, *, least: bool = False) -> tuple[Column, Column]:
    """The greatest or least among those that live there, and whose it is."""
    values = column("question_lives", of)
    extreme = "MIN({values})" if least else "MAX({values})"
    return (
        Computed(
            key_,
            label,
            logic(
                'IF(COUNT({values})=0,"",{extreme})',
                unit,
                copes=True,
                values=values,
                extreme=filled(extreme, values=values),
            ),
            look=HIDDEN,
        ),
        Computed(
            f"{key_}_who",
            f"{label}: who",
            logic("INDEX({question_lives.species[]},MATCH({*},{values},0))", needs=("*",), each=key_, values=values),
            kind=text(),
            look=WORDS,
        ),
    )


def living(key_: str, label: str) -> Computed:
    """How many kinds that live there have a habit."""
    return Computed(key_, label, logic("SUM({question_lives.*[]})", "1", each=key_), look=COUNT)


NOT_BECAUSE = (
    ("water", "the water"),
    ("tank", "the size of the tank"),
    ("number", "their number"),
    ("company", "the company"),
)

ANSWER = Table(
    "question_answer",
    title="In short",
    form=True,
    row_name=("volume",),
    purpose="",
    columns=(
        Computed(
            "volume",
            "Water reckoned with",
            first_known("{question.volume}", "{by_sides}", unit="L", test=POSITIVE),
            look=FORM,
        ),
        Computed(
            "fitting",
            "Lines that fit",
            logic(
                'IF({question_company.asked_something[]}=0,"type the tank or its water first",'
                'IF({fitting}>{listed},{fitting}&", the best "&{listed}&" below",{fitting}&" below"))',
                fitting="SUM({buyer_lines.fits[]})",
                listed="ROWS({buyer_list.line[]})",
            ),
            kind=text(),
            look=SENTENCE,
        ),
        Computed(
            "not_fitting",
            "Lines that do not",
            logic(
                '&", "&'.join(
                    filled("SUM({buyer_lines.no_*[]})&{by_it}", each=key_, by_it=quoted(f" by {words}"))
                    for key_, words in NOT_BECAUSE
                )
            ),
            kind=text(),
            look=SENTENCE,
            help="One line may fail by several.",
        ),
        Computed(
            "asked_says",
            "Asked about",
            logic(
                'IF({question.asked}="","",IF(COUNT({its_row})=0,"none of it may be sold now",'
                'IF({why_not}="","fits: "&{how_many},"does not fit: "&{why_not})))',
                copes=True,
                its_row="{question_company.asked_row[]}",
                why_not=cell("{buyer_lines.why_not[]}", "{question_company.asked_row[]}"),
                how_many=cell("{buyer_lines.how_many[]}", "{question_company.asked_row[]}"),
            ),
            kind=text(),
            look=SENTENCE,
        ),
        Computed(
            "untold",
            "Taken in",
            logic(
                'IF({typed}>{counted},"◆ "&({typed}-{counted})&" kinds lack their number or are not known",'
                '"all that was typed")',
                copes=True,
                typed="{question_company.kinds[]}",
                counted="{question_company.counted[]}",
            ),
            kind=text(),
            look=Look(width=22, status=True, runs_on=True),
        ),
        Computed(
            "by_sides",
            "Water by the sides",
            geometry.volume(
                area=geometry.box_area(length="{question.length}", width="{question.width}"), height="{question.height}"
            ),
            look=HIDDEN,
        ),
        Computed(
            "swim_length",
            "Longest swim",
            only_if("COUNT({question.length})=1", logic("MAX({question.length},{question.width})", "cm", copes=True)),
            look=HIDDEN,
        ),
        Computed(
            "usual_length",
            "Length that suits",
            logic(
                "IF(COUNT({question_lives.size[]})>0,EXP(AVERAGE({question_lives.size[]})),"
                'IF({swim_length}="","",{swim_length}/{const.choose_lengths}))',
                "cm",
                needs=("const.choose_lengths",),
            ),
            look=HIDDEN,
            help="That of those who live there, or of the tank.",
        ),
        Computed(
            "saturation",
            "Oxygen at saturation",
            saturation("{question.temperature}"),
            look=HIDDEN,
        ),
        Computed(
            "draw", "Oxygen draw of those that live there", logic("SUM({question_lives.draw[]})", "mg/h"), look=HIDDEN
        ),
    ),
)

COMPANY_THERE = Table(
    "question_company",
    title="Who lives there",
    lines=1,
    row_name=("mouthful_max",),
    purpose="",
    columns=(
        Computed(
            "kinds",
            "Kinds typed",
            logic(for_each(NUMBERS, '({question.kind_*}<>"")', "+"), "1", copes=True),
            look=COUNT,
        ),
        Computed(
            "counted",
            "of them counted",
            logic('SUMIFS({question_lives.one_of_them[]},{question_lives.animals[]},">=0")', "1"),
            look=COUNT,
        ),
        Computed(
            "asked_something",
            "Something is typed",
            logic(
                "IF(COUNT({question_answer.volume},{water_asked})>0,1,0)",
                "1",
                copes=True,
                water_asked=for_each(KEYS, "{question.*}"),
            ),
            look=COUNT,
        ),
        Computed(
            "asked_row",
            "Row of the species asked about",
            logic('IF(SUM({buyer_lines.is_asked[]})=0,"",MATCH(1,{buyer_lines.is_asked[]},0))', "1", copes=True),
            look=COUNT,
        ),
        *most("mouthful_max", "Longest mouthful", "mouthful", "cm"),
        *most("victim_min", "Smallest animal", "victim_length", "cm", least=True),
        *most("temper_max", "Worst temper", "temper_counted", "1"),
        *most("temper_min", "Gentlest temper", "temper_counted", "1", least=True),
        living("biters", "Kinds that bite fins"),
        living("veils", "Kinds with long fins"),
        living("shrimp_hunters", "Kinds that hunt shrimp"),
        living("shrimp", "Kinds of shrimp"),
        living("snail_eaters", "Kinds that eat snails"),
        living("snails", "Kinds of snails"),
    ),
)


def is_so(key_: str, label: str, test: str) -> Computed:
    """Whether animals that live there have a habit."""
    return Computed(key_, label, logic("IF(AND({animals}>0,{test}),1,0)", "1", test=test), look=COUNT)


def cell_of_form(key_: str) -> Formula:
    """The number typed for the kind of this line; blank stays blank."""
    names = [of("question", f"{key_}_{number}") for number in NUMBERS]
    return logic(
        'IF(CHOOSE({line},{counts})=0,"",CHOOSE({line},{typed}))',
        "1",
        copes=True,
        counts=[f"COUNT({name})" for name in names],
        typed=names,
    )


OF_SPECIES = (
    "adult_length",
    "adult_mass",
    "kind",
    "temper",
    "mouth_share",
    "bites_fins",
    "long_fins",
    "eats_shrimp",
    "eats_snails",
)

LIVE = Table(
    "question_lives",
    title="What lives there",
    lines=LIVES,
    row_name=("species",),
    purpose="Grown size counts.",
    columns=(
        Computed(
            "species",
            "Species",
            logic(picked("{line}", (of("question", f"kind_{number}") for number in NUMBERS)), copes=True),
            kind=text(),
            look=WORDS,
        ),
        Computed("species_row", "Its row", row_of("{species}", "{species.species[]}"), kind=row("species"), look=COUNT),
        Computed("animals", "How many", cell_of_form("number"), look=COUNT),
        *(Pulled(key_, via="species_row") for key_ in OF_SPECIES),
        Computed("one_of_them", "Known", logic('IF({species_row}="",0,1)', "1", copes=True), look=COUNT),
        Computed(
            "mouthful",
            "Longest it can swallow",
            logic('IF({animals}>0,ROUND({mouth_share}*{adult_length},6),"")', "cm"),
            look=HIDDEN,
        ),
        Computed(
            "victim_length",
            "Length as prey",
            logic('IF(AND({animals}>0,{kind}<>"snail"),ROUND({adult_length},6),"")', "cm"),
            look=HIDDEN,
        ),
        Computed(
            "temper_counted",
            "Temper among fish",
            logic('IF(AND({animals}>0,{kind}="fish"),{temper},"")', "1"),
            look=COUNT,
        ),
        Computed(
            "size",
            "Logarithm of its length",
            logic('IF(AND({animals}>0,SUM({adult_length})>0),LN({adult_length}),"")', "1", needs=("animals",)),
            look=HIDDEN,
        ),
        Computed("draw", "Oxygen draw", logic("{animals}*{draw_each}", "mg/h", draw_each=draw_each()), look=HIDDEN),
        is_so("biters", "Bites fins", '{bites_fins}="yes"'),
        is_so("veils", "Long fins", '{long_fins}="yes"'),
        is_so("shrimp_hunters", "Hunts shrimp", '{eats_shrimp}="yes"'),
        is_so("shrimp", "Shrimp", '{kind}="shrimp"'),
        is_so("snail_eaters", "Eats snails", '{eats_snails}="yes"'),
        is_so("snails", "Snails", '{kind}="snail"'),
    ),
)
