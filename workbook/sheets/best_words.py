"""What speaks for one of the best twenty, in words; of a substitute what is alike and what is not."""

from workbook.sheets.filters import TEXT
from workbook.tables import Computed, Look, Pulled, logic, text
from workbook.tables.columns import Column
from workbook.tables.formula import filled
from workbook.tables.idioms import in_rows_with, joined, only_if
from workbook.tables.template import here, of, quoted

# Shares from which something is said: nearly all, or less than half.
GOOD, POOR = "1-1/10", "1/2"
WEIGHED = ("water", "niche", "size", "group", "ease", "offered", "home", "peace", "colour")
COMPARED = ("genus", "family", "taxon_order", "body_form", "role", "diet", "colour_group", "zone")
HABITS = ("eats_plants", "eats_shrimp", "bites_fins")


def good(key: str, words: str) -> tuple[str, str]:
    """Test and words for a share that speaks for it."""
    return filled("SUM({share})>={good}", share="{merit_" + key + "}", good=GOOD), quoted(words)


def poor(key: str, words: str) -> tuple[str, str]:
    """Test and words for a share that does not."""
    test = "AND(COUNT({share})=1,SUM({share})<{poor})"
    return filled(test, share="{merit_" + key + "}", poor=POOR), quoted(words)


def with_company(pair: tuple[str, str]) -> tuple[str, str]:
    """Said only where somebody lives there."""
    return filled("AND(SUM({sought.staying})>0,{test})", test=pair[0]), pair[1]


def known_same(key: str) -> str:
    """Formula text: whether both have the same word; two that are not known are not the same."""
    return filled('AND({own}<>"",{own}={theirs})', own=here(key), theirs=of("sought", f"like_{key}"))


def same(key: str, words: str) -> tuple[str, str]:
    """Test and words for a word that both have."""
    return known_same(key), quoted(words)


def line(key: str, label: str, *parts: tuple[str, str], only: str = "") -> Computed:
    """A list of words; blank in a line without a candidate, or where a test fails."""
    words = joined(*parts, between=", ")
    return Computed(key, label, in_rows_with("found", only_if(only, words) if only else words), kind=text(), look=TEXT)


SAME_GENUS, SAME_FAMILY, SAME_ORDER = (known_same(key) for key in ("genus", "family", "taxon_order"))
NEAREST_KIN = (
    filled("OR({tests})", tests=[SAME_GENUS, SAME_FAMILY, SAME_ORDER]),
    filled('_xlfn.IFS({genus},"genus",{family},"family",1=1,"order")', genus=SAME_GENUS, family=SAME_FAMILY),
)
LONGER = "{adult_length}>{sought.like_adult_length}"
SHORTER = "{adult_length}<={sought.like_adult_length}"
NOT_AS_LONG = "AND(COUNT({like_size})=1,SUM({like_size})<1-2/10)"


def other_habit(key: str, word: str, words: str) -> tuple[str, str]:
    """Test and words for a habit that the one wanted does not have."""
    own, theirs = "{" + key + "}", of("sought", f"like_{key}")
    return filled("AND({own}={word},{theirs}<>{word})", own=own, theirs=theirs, word=quoted(word)), quoted(words)


SPEAKS = Computed(
    "speaks",
    "What speaks for it",
    logic(
        'IF({sought.wanted}="",{for_it}&IF({against_it}="","","; but "&{against_it}),'
        'IF({alike}="","","same "&{alike})&REPT("; ",({alike}<>"")*({unlike}<>""))&{unlike})',
        needs=("found",),
    ),
    kind=text(),
    look=Look("Why", 48),
)
WORDS: tuple[Column, ...] = (
    *(Pulled(f"merit_{key}", via="found", of=f"candidates.merit_{key}", look=Look(working=True)) for key in WEIGHED),
    Pulled("like_size", via="found", of="candidates.like_size", look=Look(working=True)),
    Pulled("like_ranges", via="found", of="candidates.like_ranges", look=Look(working=True)),
    *(Pulled(key, via="found", look=Look(working=True)) for key in (*COMPARED, *HABITS[:1])),
    *(Pulled(key, via="found", look=Look(working=True)) for key in ("adult_length", "mid_temperature")),
    line(
        "for_it",
        "Speaks for it",
        with_company(good("niche", "a zone, a part and hours that nobody has")),
        good("size", "of a size that suits"),
        good("group", "room for its best group"),
        good("water", "water well inside its ranges"),
        with_company(good("home", "from where others come")),
        with_company(good("colour", "a new colour")),
        good("ease", "easy"),
        good("offered", "often offered"),
    ),
    line(
        "against_it",
        "Speaks against it",
        poor("peace", "a rival, relative or stranger to who lives there, or no life for it here"),
        poor("size", "of a size that does not suit"),
        poor("group", "its best group would crowd the tank"),
        poor("water", "water near the ends of its ranges"),
        poor("ease", "demanding"),
        poor("offered", "rarely offered"),
    ),
    line(
        "alike",
        "What is alike",
        NEAREST_KIN,
        ("SUM({like_size})>=1-2/10", '"size"'),
        same("body_form", "form"),
        same("zone", "zone"),
        same("role", "part in the tank"),
        same("diet", "diet"),
        same("colour_group", "colour"),
        ("AND(COUNT({temper},{sought.like_temper})=2,{temper}={sought.like_temper})", '"temper"'),
        ("SUM({like_ranges})>=1-2/10", '"water"'),
    ),
    line(
        "unlike",
        "What is not",
        (filled("AND({not_as_long},{longer})", not_as_long=NOT_AS_LONG, longer=LONGER), '"larger"'),
        (filled("AND({not_as_long},{shorter})", not_as_long=NOT_AS_LONG, shorter=SHORTER), '"smaller"'),
        ("AND(COUNT({temper},{sought.like_temper})=2,{temper}>{sought.like_temper})", '"rougher"'),
        ("AND(COUNT({temper},{sought.like_temper})=2,{temper}<{sought.like_temper})", '"gentler"'),
        (
            "AND(COUNT({mid_temperature},{sought.like_mid_temperature})=2,"
            "SUM({mid_temperature})-SUM({sought.like_mid_temperature})>=2)",
            '"warmer"',
        ),
        (
            "AND(COUNT({mid_temperature},{sought.like_mid_temperature})=2,"
            "SUM({sought.like_mid_temperature})-SUM({mid_temperature})>=2)",
            '"cooler"',
        ),
        ('AND({zone}<>"",{sought.like_zone}<>"",{zone}<>{sought.like_zone})', '"of another zone"'),
        other_habit("eats_plants", "yes", "it eats plants"),
        other_habit("eats_shrimp", "yes", "it eats shrimp"),
        other_habit("bites_fins", "yes", "it bites fins"),
        only='{sought.wanted}<>""',
    ),
)
