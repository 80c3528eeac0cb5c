"""Care card: one page about the chosen species, and where it is kept here."""

from workbook.sheets.pages import (
    COUNT,
    INSIDE,
    LINES,
    NUMBER,
    STRONG,
    TEXT,
    WORDS,
    bar,
    broken,
    by_line,
    drawn,
    facts,
    named,
    nth,
    number_by_line,
    or_unknown,
    over,
)
from workbook.sheets.parameters import KEYS, PARAMETERS, Parameter
from workbook.sheets.tank_card import GRID, rows_before
from workbook.tables import Computed, Look, Pulled, Sheet, Table, Typed, link, logic, row, text
from workbook.tables.completing import SEPARATOR
from workbook.tables.formula import filled
from workbook.tables.idioms import all_said, row_of
from workbook.tables.sheet import Band
from workbook.tables.template import WORDS as WORDS_OF
from workbook.tables.template import here, of, quoted

ACROSS, THERE = len(GRID), "{care_card.row}"

CHOICE = Table(
    "care_choice",
    title="Species of this card",
    purpose="",
    row_name=("species",),
    form=True,
    chosen=True,
    columns=(
        Typed(
            "species",
            "Species",
            link("species"),
            look=Look(width=22),
            help="Pick one; the page below follows. Only the page is printed.",
        ),
    ),
)

WANTED = (
    "species",
    "scientific",
    "adult_length",
    "group_min",
    "group_best",
    "volume_min",
    "length_min",
    "temper",
    "lifespan_low",
    "lifespan_high",
    "zone",
    "swim",
    "bites_fins",
    "long_fins",
    "mouth_share",
    "eats_shrimp",
    "eats_snails",
    "eats_plants",
    "light",
    "cover",
    "ground",
    "background",
    "flow",
    "diet",
    "food_size",
    "spawning",
    "eats_own_eggs",
    "hatch_temperature",
    "days_to_hatch",
    "days_to_swim",
    "first_food",
    "confidence_size",
    "confidence_water",
    "confidence_keeping",
    "confidence_breeding",
    "source",
    "caution",
    "own_note",
    "counts_used",
    "kept",
)


ENDS = "{*_low},{*_high},{own_*_low},{own_*_high}"


def scale(p: Parameter, end: str) -> Computed:
    """One end of the scale on which the reported and the own range are drawn."""
    word, widest = ("from", "MIN({ends})") if end == "start" else ("to", "MAX({ends})")
    formula = p.logic(
        'IF(COUNT({ends})=0,"",{widest})', p.unit, copes=True, ends=ENDS, widest=filled(widest, ends=ENDS)
    )
    return Computed(f"{p.key}_{end}", f"{p.label}: scale {word}", formula, look=Look(working=True, show=p.show))


CARE = Table(
    "care_card",
    title="The chosen species",
    form=True,
    row_name=("row",),
    purpose="",
    columns=(
        Computed(
            "row", "Its row", row_of("{care_choice.species}", "{species.species[]}"), kind=row("species"), look=COUNT
        ),
        *(Pulled(key_, via="row") for key_ in WANTED),
        *(
            Pulled(f"{own}{p.key}_{end}", via="row")
            for p in PARAMETERS
            for own in ("", "own_")
            for end in ("low", "high")
        ),
        *(scale(p, end) for p in PARAMETERS for end in ("start", "end")),
        Computed(
            "swallows",
            "Swallows what is shorter than",
            logic("{mouth_share}*{adult_length}", "cm"),
            look=Look(working=True, show="0.0"),
        ),
        Computed(
            "gentlest", "Clashes with this temper and gentler", logic("{temper}-{const.temper_clash}", "1"), look=COUNT
        ),
        Computed(
            "small_ones",
            "Which means",
            logic('IF({swallows}=0,"swallows nothing whole","swallows under "&{@words.swallows})'),
            kind=text(),
            look=WORDS,
        ),
        Computed(
            "gentle_ones",
            "Which means",
            logic(
                'IF({gentlest}<1,"fits the gentlest","not with temper "&{gentlest}&IF({gentlest}>1," or gentler",""))'
            ),
            kind=text(),
            look=WORDS,
        ),
        Computed(
            "groups_before",
            "Groups of species above",
            logic(rows_before("{livestock.of_kind[]}", "{row}", "10^6"), "1"),
            look=COUNT,
        ),
        Computed(
            "groups",
            "Groups of it",
            logic(rows_before("{livestock.of_kind[]}", "({row}+1)", "10^6") + "-{groups_before}", "1"),
            look=COUNT,
        ),
    ),
)

HEAD = Table(
    "care_card_head",
    title="",
    lines=1,
    row_name=("said",),
    purpose="",
    row_height=44,
    columns=(
        Computed(
            "said",
            "Name",
            logic('IF({care_card.row}="","Choose a species above",{care_card.species}&"")', copes=True),
            kind=text(),
            look=Look(style="page name", span=ACROSS),
        ),
    ),
)


def word(key_: str) -> str:
    """Formula text: a typed word, or unknown."""
    return or_unknown(f"care_card.{key_}", of("care_card", key_))


def either(key_: str, *pairs: tuple[str, str]) -> str:
    """Formula text: for each typed word another phrase."""
    phrases = [f"{quoted(typed)},{quoted(phrase)}" for typed, phrase in pairs]
    typed = of("care_card", key_)
    return or_unknown(
        f"care_card.{key_}", filled("_xlfn.SWITCH({typed},{phrases},{typed})", typed=typed, phrases=phrases)
    )


def value(key_: str) -> str:
    """Formula text: a value with its unit, or unknown."""
    return or_unknown(f"care_card.{key_}")


def of_two(low: str, high: str, only_low: str, only_high: str, both: str) -> str:
    """Formula text: what two numbers say, and what one says while the other is unknown; @ and # stand for them."""
    one, other = of("care_card", low), of("care_card", high)
    phrases = (
        quoted(phrase).replace("@", f'"&{one}&"').replace("#", f'"&{other}&"')
        for phrase in ("unknown", only_low, only_high, both)
    )
    return filled("CHOOSE(1+COUNT({one})+2*COUNT({other}),{phrases})", one=one, other=other, phrases=phrases)


ANIMAL = facts(
    "care_card_animal",
    "The animal",
    THERE,
    (
        ("Scientific", word("scientific")),
        ("Adult length", value("adult_length")),
        ("Lives", of_two("lifespan_low", "lifespan_high", "at least @ years", "up to # years", "@ to # years")),
        ("Group", of_two("group_min", "group_best", "at least @", "best #", "at least @, best #")),
        ("Tank volume", or_unknown("care_card.volume_min", '{@words.care_card.volume_min}&" or more"')),
        ("Tank length", 'IF({care_card.length_min}="","see Livestock",{@words.care_card.length_min}&" or more")'),
        (
            "Swims",
            filled(
                'IF({care_card.zone}&{care_card.swim}="","unknown",{both})',
                both=all_said(["{care_card.zone}", "{care_card.swim}"], ", "),
            ),
        ),
        ("Temper", or_unknown("care_card.temper", '{@words.care_card.temper}&" (1 gentle to 5 hostile)"')),
    ),
    2,
)

PLACE = facts(
    "care_card_place",
    "Place and food",
    THERE,
    (
        ("Light", word("light")),
        ("Cover", word("cover")),
        ("Ground", word("ground")),
        ("Background", word("background")),
        ("Flow", word("flow")),
        ("Eats", word("diet")),
        ("Food up to", value("food_size")),
        ("Plants", either("eats_plants", ("yes", "eats them"), ("no", "leaves them alone"))),
    ),
    2,
)

NOT_WITH = facts(
    "care_card_not_with",
    "With others",
    THERE,
    (
        ("Small animals", word("small_ones")),
        ("Gentler kinds", word("gentle_ones")),
        ("Long fins", either("bites_fins", ("yes", "bites them"), ("no", "leaves them alone"))),
        ("Its own fins", either("long_fins", ("yes", "long: no fin biters"), ("no", "not long"))),
        (
            "Shrimp",
            either(
                "eats_shrimp", ("yes", "hunts grown ones"), ("young", "takes their young"), ("no", "leaves them alone")
            ),
        ),
        ("Snails", either("eats_snails", ("yes", "eats them"), ("no", "leaves them alone"))),
    ),
    2,
)

KEPT = Table(
    "care_card_kept",
    title="Kept here",
    lines=5,
    row_name=("tank",),
    purpose="",
    columns=(
        Pulled("animals", via="found", label="How many", look=NUMBER),
        Computed(
            "tank",
            "Tank",
            named("care_card_kept", "{care_card.groups}", "{name}", "groups"),
            kind=text(),
            look=over(TEXT, 2),
        ),
        nth(
            "care_card_kept",
            "{care_card.groups}",
            "SMALL({livestock.of_kind[]},{care_card.groups_before}+{line})-{care_card.row}*10^6",
            row("livestock"),
        ),
        Pulled("name", via="found", of="tank"),
        Computed(
            "home",
            "Row of its tank",
            logic("INDEX({livestock.lives_in[]},{found})", "1"),
            kind=row("tanks"),
            look=COUNT,
        ),
        Pulled("who", via="home", of="cards.who", label="All who live there"),
        Computed(
            "all",
            "So far",
            logic(
                '{above.all}&IF({who}="","",IF({above.all}="","",{mark})&{name}&": "&{who})',
                copes=True,
                mark=quoted(SEPARATOR),
            ),
            kind=text(),
            seed='""',
            look=WORDS,
        ),
    ),
)

BREEDING = facts(
    "care_card_breeding",
    "Breeding",
    THERE,
    (
        ("Spawning", word("spawning")),
        ("Parents", either("eats_own_eggs", ("yes", "eat eggs or young"), ("no", "spare their young"))),
        (
            "Hatching",
            or_unknown(
                "care_card.days_to_hatch",
                "{@words.care_card.days_to_hatch}"
                '&IF({care_card.hatch_temperature}="",""," at "&{@words.care_card.hatch_temperature})',
            ),
        ),
        ("Swimming free", or_unknown("care_card.days_to_swim", '{@words.care_card.days_to_swim}&" after that"')),
        ("First food", word("first_food")),
    ),
    2,
)

SURE = facts(
    "care_card_sure",
    "How sure this is",
    THERE,
    (
        ("Size", word("confidence_size")),
        ("Water", word("confidence_water")),
        ("Keeping", word("confidence_keeping")),
        ("Breeding", word("confidence_breeding")),
        ("Which counts", word("counts_used")),
    ),
    2,
)


def of_scale(end: str, words: str = "") -> tuple[str, ...]:
    """An end of the scale, the same for the reported and for the own range."""
    return tuple(here(f"{words}care_card.{key_}_{end}") for key_ in KEYS for _ in range(2))


def of_ranges(end: str, words: str = "") -> tuple[str, ...]:
    """One end of each range: reported and own, parameter by parameter."""
    return tuple(here(f"{words}care_card.{own}{key_}_{end}") for key_ in KEYS for own in ("", "own_"))


SAID = filled(
    '{low}&" to "&{high}', low=by_line(*of_ranges("low", WORDS_OF)), high=by_line(*of_ranges("high", WORDS_OF))
)
RANGES = Table(
    "care_card_ranges",
    title="Water",
    lines=2 * len(PARAMETERS),
    row_name=("name",),
    purpose="",
    columns=(
        Computed(
            "name",
            "",
            logic(by_line(*(quoted(name) for p in PARAMETERS for name in (p.label, "")))),
            kind=text(),
            look=STRONG,
        ),
        Computed(
            "said",
            "From and to",
            logic(
                'IF({care_card.row}="","",IF(COUNT({low},{high})<2,"unknown",{from_and_to}))',
                copes=True,
                from_and_to=SAID,
            ),
            kind=text(),
            look=LINES,
        ),
        Computed(
            "drawn",
            f"{INSIDE} within the range, on the scale of both",
            drawn(by_line(*of_scale("start", WORDS_OF)), by_line(*of_scale("end", WORDS_OF))),
            kind=text(),
            look=Look(style="page bar", span=4),
        ),
        Computed(
            "which",
            "Whose range",
            logic(by_line(*('"as reported"', '"own experience"') * len(PARAMETERS))),
            kind=text(),
            look=TEXT,
        ),
        number_by_line("low", "From", *of_ranges("low")),
        number_by_line("high", "To", *of_ranges("high")),
        number_by_line("start", "Scale from", *of_scale("start")),
        number_by_line("end", "Scale to", *of_scale("end")),
        *bar(),
    ),
)

COMPANY = broken(
    "care_card_company",
    "Who lives where it is kept",
    7,
    "INDEX({care_card_kept.all[]},ROWS({care_card_kept.line[]}))",
    ACROSS,
)
CAUTION = broken(
    "care_card_caution",
    "Caution, and where the values come from",
    4,
    all_said(
        [
            filled('IF({note}="","",{heading}&{note})', note=of("care_card", key_), heading=quoted(f"{heading}: "))
            for key_, heading in (("caution", "Caution"), ("source", "Source"), ("own_note", "Seen here"))
        ],
        SEPARATOR,
    ).text,
    ACROSS,
)

ALWAYS = Table(
    "care_card_always",
    title="Always",
    lines=2,
    row_name=("said",),
    purpose="",
    columns=(
        Computed(
            "said",
            "",
            logic(
                by_line(
                    quoted(
                        "Check local lists of restricted species before you keep,"
                        " breed or pass it on; never release it. "
                        "Illness and medicines: a veterinarian, and the label."
                    ),
                    quoted(
                        "Lengths are total lengths of a typical adult. "
                        "Planning estimates: watch the animals, they overrule this card."
                    ),
                )
            ),
            kind=text(),
            look=Look(style="page small", span=ACROSS),
        ),
    ),
)

SHEET = Sheet(
    "Care card",
    role="printable",
    portrait=True,
    forms=(CHOICE,),
    frozen_columns=0,
    grid=GRID,
    beside=(CARE,),
    bands=(
        Band(((HEAD,),)),
        Band(((ANIMAL,), (PLACE,)), (1, 5)),
        Band(((RANGES,),)),
        Band(((NOT_WITH, KEPT), (BREEDING, SURE)), (1, 5)),
        Band(((COMPANY,),)),
        Band(((CAUTION,),)),
        Band(((ALWAYS,),)),
    ),
    purpose="One page about the chosen species, to print for the tank or for whoever takes some home.",
)
