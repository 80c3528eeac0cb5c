"""Facts of the chosen species, as the care card says them."""

from workbook.sheets.chosen_tank import rows_before
from workbook.sheets.pages import COUNT, WORDS, facts, or_unknown
from workbook.sheets.pages import PORTRAIT_GRID as GRID
from workbook.sheets.parameters import PARAMETERS, Parameter
from workbook.tables import Computed, Look, Pulled, Table, logic, row, text
from workbook.tables.formula import filled
from workbook.tables.idioms import all_said, row_of, spoken
from workbook.tables.template import of, quoted

ACROSS, THERE = len(GRID), "{care_card.row}"

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


def word(key_: str) -> str:
    """Formula text: a typed word, or unknown."""
    return or_unknown(f"care_card.{key_}", of("care_card", key_))


def either(key_: str, *pairs: tuple[str, str]) -> str:
    """Formula text: for each typed word another phrase."""
    phrases = [f"{quoted(typed)},{quoted(phrase)}" for typed, phrase in pairs]
    typed = of("care_card", key_)
    return or_unknown(
        f"care_card.{key_}", filled('_xlfn.SWITCH({typed}&"",{phrases},{typed})', typed=typed, phrases=phrases)
    )


def value(key_: str) -> str:
    """Formula text: a value with its unit, or unknown."""
    return or_unknown(f"care_card.{key_}")


def of_two(low: str, high: str, only_low: str, only_high: str, both: str) -> str:
    """Formula text: what two numbers say, and what one says while the other is unknown; @ and # stand for them."""
    one, other = of("care_card", low), of("care_card", high)
    said_low, said_high = (spoken(name, 1) for name in (one, other))
    phrases = (
        quoted(phrase).replace("@", f'"&{said_low}&"').replace("#", f'"&{said_high}&"')
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
