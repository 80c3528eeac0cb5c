"""For a buyer: which lines of the stock list fit the tank somebody has at home, how many, and why others do not."""

from workbook.equations import feeding, gases, geometry, headroom, metabolism, nitrogen
from workbook.sheets.parameters import KEYS, PARAMETERS, Parameter
from workbook.sheets.room_left import shared_out
from workbook.tables import Computed, Look, Pulled, Sheet, Table, Typed, count, link, logic, number, text
from workbook.tables.columns import Column
from workbook.tables.formula import Formula, filled
from workbook.tables.idioms import (
    all_said,
    cell,
    cell_of,
    first_known,
    in_rows_with,
    joined,
    middle,
    nth_row,
    only_if,
    row_of,
)
from workbook.tables.kinds import row
from workbook.tables.template import column, for_each, here, of, put, quoted, said

LIVES, BEST = 6, 20
NUMBERS = tuple(str(n) for n in range(1, LIVES + 1))
COUNT, HIDDEN, WORDS = Look(working=True, show="0"), Look(working=True, show="0.000"), Look(working=True, width=20)
HOME, FIT, NOT = (
    Look("What lives there", 9, "0"),
    Look("What fits, best first", 9, "0"),
    Look("What does not fit, and why", 20),
)
FORM, WIDE = Look(show="0.0"), Look(width=22)


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


# --- what is asked ---

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
        Typed(
            "asked",
            "Asked about",
            link("species"),
            look=WIDE,
            help="A species, if the buyer has one in mind; the answer stands below.",
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
        Computed("volume", "Water reckoned with", first_known("{question.volume}", "{by_sides}", unit="L"), look=FORM),
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
            look=WIDE,
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
            look=WIDE,
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
            look=WIDE,
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
            look=Look(width=22, status=True),
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
            "saturation",
            "Oxygen at saturation",
            gases.oxygen_at_altitude(
                saturation=gases.oxygen_saturation(temperature="{question.temperature}"),
                pressure=gases.pressure(altitude="{settings.altitude}"),
                temperature="{question.temperature}",
            ),
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
            logic('CHOOSE({line},{kinds})&""', copes=True, kinds=for_each(NUMBERS, "{question.kind_*}")),
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
        Computed("draw", "Oxygen draw", logic("{animals}*{draw_each}", "mg/h", draw_each=draw_each()), look=HIDDEN),
        is_so("biters", "Bites fins", '{bites_fins}="yes"'),
        is_so("veils", "Long fins", '{long_fins}="yes"'),
        is_so("shrimp_hunters", "Hunts shrimp", '{eats_shrimp}="yes"'),
        is_so("shrimp", "Shrimp", '{kind}="shrimp"'),
        is_so("snail_eaters", "Eats snails", '{eats_snails}="yes"'),
        is_so("snails", "Snails", '{kind}="snail"'),
    ),
)


# --- line by line ---


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


def near(p: Parameter) -> Computed:
    """How near to the middle of its range: 1 there, 0 at either end; blank where something is unknown."""
    nearness = p.logic(
        "1-ABS({question.*}-{middle})*2/({*_high}-{*_low})",
        "1",
        middle=middle(here(f"{p.key}_low"), here(f"{p.key}_high"), p.unit),
    )
    return Computed(
        f"{p.key}_near", f"{p.label} near its middle", only_if(p.filled("{*_high}>{*_low}"), nearness), look=HIDDEN
    )


def small(wanted: str, there: str, say: str) -> tuple[str, str]:
    """Test and words for a tank smaller than the species wants."""
    test = filled(
        "AND(COUNT({wanted},{there})=2,{there}<N({wanted})*(1-{const.nominal_allowance}))",
        wanted=here(wanted),
        there=of("question_answer", there),
    )
    return test, filled("{say}&{value}", say=quoted(f"{say} "), value=said(wanted))


COMPANY = (
    (
        'AND({kind}<>"snail",COUNT({length},{mouthful_max})=2,ROUND(N({length})-N({mouthful_max}),6)<0)',
        '"fits the mouth of "&{mouthful_max_who}',
    ),
    ("AND(COUNT({mouthful},{victim_min})=2,{mouthful}>{victim_min})", '"grown it swallows "&{victim_min_who}'),
    (
        'AND({kind}="fish",COUNT({temper},{temper_max})=2,N({temper_max})-N({temper})>={const.temper_clash})',
        '"too gentle for "&{temper_max_who}',
    ),
    (
        'AND({kind}="fish",COUNT({temper},{temper_min})=2,N({temper})-N({temper_min})>={const.temper_clash})',
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


UNKNOWN = for_each(KEYS, 'IF({*_near}="",1,0)', "+")
NEAR = for_each(KEYS, "{*_near}")


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
        *(Pulled(key_, via="species", look=WORDS) for key_ in (*OF_SPECIES, "group_min", "group_best", "volume_min")),
        *(
            Pulled(f"{p.key}_{end}", via="species", of=f"used_{p.key}_{end}", look=HIDDEN)
            for p in PARAMETERS
            for end in ("low", "high")
        ),
        Computed(
            "considered",
            "Animals that may be sold",
            logic(
                'IF(AND({question_company.asked_something[]}=1,{species_row}<>"",N({free})>0),1,0)',
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
            logic('IF(N({at_most})>{wanted},{wanted}&" to "&{at_most},{wanted}&"")', needs=("wanted",)),
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
            ("AND(COUNT({wanted})=1,N({free})<N({wanted}))", '"wants "&{wanted}&", free to sell "&{free}'),
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
        *(near(p) for p in PARAMETERS),
        Computed(
            "score",
            "How well",
            logic(
                "10^2*({near}/MAX(1,COUNT({all_near})))-{const.rank_water}*{unknown}",
                "1",
                needs=("considered", "const.rank_water"),
                near=f"SUM({NEAR})",
                all_near=NEAR,
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
            logic("N({above.not_no})+N({considered})-N({fits})", "1", copes=True),
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
                    ("N({group_min})>1", '"a group of "&{group_min}'),
                ),
            ),
            kind=text(),
            look=WORDS,
        ),
    ),
)


def of_line(key_: str, label: str, look: Look, found: str) -> Computed:
    """A text of the line that stands there."""
    return Computed(key_, label, cell_of(here(f"{found}[]"), "{found}"), kind=text(), look=look)


LIST = Table(
    "buyer_list",
    title="What fits",
    lines=BEST,
    row_name=("name",),
    purpose="What lies nearest to the middle of its ranges stands first.",
    columns=(
        of_line("name", "Species", Look("What fits, best first", 26), "stock.name"),
        of_line("reasons", "It wants", Look("What fits, best first", 62), "buyer_lines.reasons"),
        of_line("how_many", "How many", Look("What fits, best first", 10), "buyer_lines.how_many"),
        Computed(
            "price",
            "Each",
            cell_of("{stock.price[]}", "{found}", "currency"),
            look=Look("What fits, best first", 9, "0.00"),
        ),
        of_line("tank", "Stands in", Look("What fits, best first", 15), "stock.tank"),
        of_line("code", "Code", Look("What fits, best first", 9), "stock.code"),
        of_line("caution", "Tell the buyer", Look("What fits, best first", 40), "stock.caution"),
        Computed(
            "found",
            "Its row",
            logic(
                'IF({line}>COUNT({ranks}),"",MATCH(LARGE({ranks},{line}),{ranks},0))',
                "1",
                copes=True,
                ranks="{buyer_lines.rank[]}",
            ),
            kind=row("stock"),
            look=COUNT,
        ),
    ),
)
REFUSED = Table(
    "buyer_not",
    title="What does not fit",
    lines=BEST,
    row_name=("name",),
    purpose="The first lines of Stock list that may be sold, but not to this buyer.",
    columns=(
        of_line("name", "Species", Look("What does not fit, and why", 24), "stock.name"),
        of_line("why_not", "Why not", Look("What does not fit, and why", 70), "buyer_lines.why_not"),
        Computed("found", "Its row", nth_row("{line}", "{buyer_lines.not_no[]}"), kind=row("stock"), look=COUNT),
    ),
)

SHEET = Sheet(
    "For a buyer",
    blocks=(LIST, REFUSED, LIVE, COMPANY_THERE, LINES),
    forms=(QUESTION, ANSWER),
    frozen_columns=0,
    portrait=True,
    new_page_before=("buyer_not",),
    purpose=(
        "Type the buyer's tank, its water and who lives there; "
        "the sheet lists what may be sold today and fits, with how many and why."
    ),
    notes=(
        (
            "Judged by the same ranges, sizes, mouths, tempers and oxygen as every other sheet, grown size counted. "
            "What is not typed is not judged: ask."
        ),
        "A tank must be cycled before anything moves in. Planning estimates: they do not replace talking to the buyer.",
        "Restricted species: local law. Animals, plants and water are never released.",
    ),
)
