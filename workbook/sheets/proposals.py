"""Proposals: species that members want in the club's library, and what is still missing or odd about them."""

from workbook.sheets.parameters import PARAMETERS
from workbook.sheets.species import CONFIDENCE, SPECIES
from workbook.tables import Computed, Flag, Look, Said, Sheet, Table, Typed, choice, key, logic, text
from workbook.tables.columns import Column
from workbook.tables.formula import filled
from workbook.tables.idioms import in_rows_with, joined
from workbook.tables.kinds import Value
from workbook.tables.template import column, for_each, here, quoted, starred

WHO, ANIMAL, WATER, COMPANY, PLACE = ("Who and why", "The animal", "Water", "Company", "Place it likes")
# Taken over from Species, so that an accepted proposal can be copied cell by cell.
GROUPS = {
    ANIMAL: (
        "scientific",
        "kind",
        "adult_length",
        "body_form",
        "group_min",
        "group_best",
        "volume_min",
        "lifespan_low",
        "lifespan_high",
    ),
    WATER: tuple(f"{p.key}_{end}" for p in PARAMETERS for end in ("low", "high")),
    COMPANY: (
        "temper",
        "zone",
        "swim",
        "bottom_room",
        "bites_fins",
        "long_fins",
        "mouth_share",
        "eats_shrimp",
        "eats_snails",
        "eats_plants",
    ),
    PLACE: ("light", "cover", "ground", "background", "flow", "diet", "food_size", "spawning"),
}
NEEDED = (
    "scientific",
    "kind",
    "adult_length",
    "body_form",
    "group_min",
    "volume_min",
    "temper",
    "mouth_share",
    *(f"{p.key}_{end}" for p in PARAMETERS for end in ("low", "high")),
    "proposer",
    "why",
    "proposal_source",
    "sure",
)
WORDS = Look(working=True, width=20)
SURE = CONFIDENCE.choices


def as_on_species(key_: str, group: str) -> Typed:
    """The column of Species, in another group."""
    column = SPECIES[key_]
    if not isinstance(column, Typed):
        raise TypeError(key_)
    return Typed(
        key_,
        column.label if key_ != "lifespan_high" else "Lives to",
        column.kind,
        unit=column.unit,
        help=column.help,
        look=Look(group, max(column.look.width, 9), column.look.show),
    )


TAKEN = {key_: as_on_species(key_, group) for group, keys in GROUPS.items() for key_ in keys}
ENDS = (
    *((p.word, f"{p.key}_low", f"{p.key}_high") for p in PARAMETERS),
    ("life", "lifespan_low", "lifespan_high"),
    ("group", "group_min", "group_best"),
)


def known_by(key_: str, own: str) -> str:
    """Formula text: the row of the library in which this name stands; a name that could be a pattern leads nowhere."""
    return filled(
        'IF({own}="","",IFERROR(IF(INDEX({names},{found})={own},{found},""),""))',
        own=own,
        names=column("species", key_),
        found=filled("MATCH({own},{names},0)", own=own, names=column("species", key_)),
    )


def lacks(key_: str) -> tuple[str, str]:
    """A test for a blank cell, and its label."""
    label = "temper" if key_ == "temper" else next(c.label for c in (*TAKEN.values(), *PROPOSER) if c.key == key_)
    as_it_is = label.startswith(("pH", "GH", "KH"))
    return for_each([key_], '{*}=""'), quoted(label if as_it_is else label[0].lower() + label[1:])


PROPOSER = (
    Typed("proposer", "Proposed by", text(), look=Look(WHO, 18)),
    Typed("why", "Why", text(), look=Look(WHO, 34)),
    Typed(
        "proposal_source",
        "Source",
        text(),
        look=Look(WHO, 30),
        help="Where its figures are from: a paper or book, common practice, or your own tanks.",
    ),
    Typed("sure", "How sure", choice(*SURE), look=Look(WHO, 16)),
)


def beyond(key_: str) -> tuple[str, str]:
    """A test for a number that the rule of its cell forbids, pasted over it all the same; and its label."""
    kind = TAKEN[key_].kind
    test = filled(
        "AND(ISNUMBER({*}),OR({*}<{low},{*}>{high}))", each=key_, low=f"{kind.low:.12g}", high=f"{kind.high:.12g}"
    )
    return test, quoted(TAKEN[key_].label)


def above_all(key_: str, words: str) -> tuple[str, str]:
    """A test for more than any species of the library has, and words for it."""
    return (
        starred("AND(ISNUMBER({*}),COUNT({species.*[]})>0,{*}>MAX({species.*[]}))", key_),
        filled('{words}&{@words.*}&", more than any in the library"', each=key_, words=quoted(f"{words} ")),
    )


# SUM: AND looks at all of its tests, and what is blank in converted cells is a text, from which nothing can be taken.
NARROW = tuple(
    (
        p.filled("AND(COUNT({*_low},{*_high})=2,{*_high}>={*_low},SUM({*_high})-SUM({*_low})<{narrow})"),
        quoted(f"hardly any range of {p.word}"),
    )
    for p in PARAMETERS
)
COLUMNS: tuple[Column, ...] = (
    Typed(
        "proposed", "Species proposed", key(), required=True, look=Look(WHO, 24), help="The name that members will see."
    ),
    Said(look=Look(WHO, 60)),
    Computed(
        "in_library",
        "In the library",
        logic(
            'IF(SUM({by_name})>0,"yes, as "&INDEX({species.species[]},{by_name}),'
            'IF(SUM({by_scientific})>0,"yes, as "&INDEX({species.species[]},{by_scientific}),"no"))',
            needs=("proposed",),
        ),
        kind=text(),
        look=Look(WHO, 24),
    ),
    Computed(
        "complete",
        "Filled",
        logic(
            "AVERAGE({ones_for_what_is_filled})",
            "1",
            needs=("proposed",),
            ones_for_what_is_filled=for_each(NEEDED, 'IF({*}="",0,1)'),
        ),
        look=Look(WHO, 8, "0%"),
        help="Of what the library needs to judge company and water.",
    ),
    *PROPOSER,
    *TAKEN.values(),
    Computed(
        "by_name",
        "Row of its name",
        logic(known_by("species", "{proposed}"), "1", copes=True),
        look=Look(working=True, show="0"),
    ),
    Computed(
        "by_scientific",
        "Row of its scientific name",
        logic(known_by("scientific", "{scientific}"), "1", copes=True),
        look=Look(working=True, show="0"),
    ),
    Computed(
        "missing",
        "Missing",
        in_rows_with("proposed", joined(*(lacks(key_) for key_ in NEEDED), between=", ")),
        kind=text(),
        look=WORDS,
    ),
    Computed(
        "reversed",
        "The wrong way round",
        in_rows_with(
            "proposed",
            joined(
                *(
                    (filled("AND(COUNT({low},{high})=2,{low}>{high})", low=here(low), high=here(high)), quoted(word))
                    for word, low, high in ENDS
                ),
                between=", ",
            ),
        ),
        kind=text(),
        look=WORDS,
    ),
    Computed(
        "beyond",
        "Beyond what the cells take",
        in_rows_with(
            "proposed", joined(*(beyond(key_) for key_, taken in TAKEN.items() if taken.kind.is_number), between=", ")
        ),
        kind=text(),
        look=WORDS,
    ),
    Computed(
        "odd",
        "Looks odd",
        in_rows_with(
            "proposed",
            joined(
                above_all("mouth_share", "swallows a share of"),
                above_all("adult_length", "grows to"),
                above_all("group_min", "a smallest group of"),
                *NARROW,
                between=", ",
            ),
        ),
        kind=text(),
        look=WORDS,
    ),
    Flag(
        "wrong_way",
        "Low above high",
        seriousness="act",
        when='{reversed}<>""',
        why="its low end is above its high end: {reversed}",
        do="Swap the two numbers.",
    ),
    Flag(
        "no_sense",
        "Number out of range",
        seriousness="act",
        when='{beyond}<>""',
        why="no cell of the library takes this: {beyond}",
        do=(
            "Check the unit; the message of the cell tells what it takes, "
            "such as a share of its own length from 0 to 0.8."
        ),
    ),
    Flag(
        "looks_odd",
        "Looks odd",
        seriousness="watch",
        when='{odd}<>""',
        why="{odd}",
        do="Check it against your source; keep it if it holds.",
    ),
    Flag(
        "already",
        "Already in the library",
        seriousness="watch",
        when='{in_library}<>"no"',
        why="it stands there: {in_library}",
        do="If it is wrong there, say so under Why; else clear this row.",
    ),
    Flag(
        "incomplete",
        "Proposal incomplete",
        seriousness="note",
        when='{missing}<>""',
        why="still missing: {missing}",
        do="Type what you know; leave blank what nobody knows.",
    ),
)

EXAMPLE: dict[str, Value] = {
    "proposed": "Reed tetra (invented)",
    "proposer": "your name",
    "why": "three of us keep it",
    "proposal_source": "own tanks, two years",
    "sure": "from memory",
    "scientific": "Genus species",
    "kind": "fish",
    "adult_length": 4,
    "body_form": "fusiform",
    "group_min": 6,
    "group_best": 10,
    "volume_min": 60,
    "lifespan_low": 3,
    "lifespan_high": 5,
    "temperature_low": 22,
    "temperature_high": 27,
    "ph_low": 6,
    "ph_high": 7.5,
    "gh_low": 2,
    "gh_high": 12,
    "kh_low": 1,
    "kh_high": 8,
    "temper": 1,
    "zone": "middle",
    "swim": "active",
    "bottom_room": "no",
    "bites_fins": "no",
    "long_fins": "no",
    "mouth_share": 0.1,
    "eats_shrimp": "young",
    "eats_snails": "no",
    "eats_plants": "no",
    "light": "dim",
    "cover": "much",
    "ground": "dark",
    "background": "dark",
    "flow": "gentle",
    "diet": "omnivore",
    "food_size": 0.8,
    "spawning": "egg scatterer",
}

PROPOSALS = Table(
    "proposals",
    example=EXAMPLE,
    title="Proposals",
    row_name=("proposed",),
    enough=("proposed", "why", "kind", "adult_length"),
    often=(
        "proposed",
        "proposer",
        "why",
        "proposal_source",
        "sure",
        "kind",
        "adult_length",
        "body_form",
        "group_min",
        "temper",
        "temperature_low",
        "temperature_high",
        "ph_low",
        "ph_high",
        "gh_low",
        "gh_high",
        "kh_low",
        "kh_high",
        "volume_min",
    ),
    purpose="One row for each species that you propose, or that should change.",
    columns=COLUMNS,
)

SHEET = Sheet(
    "Proposals",
    role="input",
    blocks=(PROPOSALS,),
    frozen_columns=1,
    purpose=(
        "Species that you want in the club's library: what you know of them, from where, and how sure you are. "
        "The club gathers all members' rows by merging their files."
    ),
    notes=(
        (
            "Only species that may be kept where you live. "
            "Never propose what is taken from the wild where that is forbidden or unknown; never release animals."
        ),
    ),
)
