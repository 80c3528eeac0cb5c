"""Who of the residents of the chosen tank matters to a candidate, and what suits them."""

from workbook.sheets.filters import COUNT, HIDDEN, MERITS, WHO
from workbook.tables import Computed, logic, text
from workbook.tables.columns import Column
from workbook.tables.formula import filled
from workbook.tables.template import column, of, starred


def who(key: str, label: str, template: str, needs: tuple[str, ...] = ("row",)) -> Computed:
    """The name of someone who lives in the tank."""
    return Computed(key, label, logic(template, needs=needs), kind=text(), look=WHO)


def on_first_line(marked: str) -> str:
    """Formula text: who stands on the first of the lines that a column of residents notes."""
    return starred('IF(COUNT({residents.*[]})=0,"",INDEX({residents.species[]},MIN({residents.*[]})))', marked)


def first_of_some(marked: str) -> str:
    """Formula text: the first of whom a column of residents says that something holds."""
    return starred('IF(SUM({residents.*[]})=0,"",INDEX({residents.species[]},MATCH(1,{residents.*[]},0)))', marked)


def most_of(
    keys: tuple[str, str], label: str, residents: str, unit: str, *, least: bool = False
) -> tuple[Computed, Computed]:
    """The greatest or least of those who stay, and whose it is."""
    values, (key, whose) = column("residents", residents), keys
    extreme = filled("MIN({values})" if least else "MAX({values})", values=values)
    template = 'IF(COUNT({values})=0,"",{extreme})'
    return (
        Computed(key, label, logic(template, unit, needs=("row",), values=values, extreme=extreme), look=HIDDEN),
        Computed(
            whose,
            f"{label}: who",
            logic("INDEX({residents.species[]},MATCH({*},{values},0))", needs=("*",), each=key, values=values),
            kind=text(),
            look=WHO,
        ),
    )


def how_many(key: str, label: str, residents: str) -> Computed:
    """How many groups of those who stay."""
    return Computed(key, label, logic("SUM({residents.*[]})", "1", needs=("row",), each=residents), look=COUNT)


def next_to(key: str, label: str, residents: str, unit: str, function: str) -> Computed:
    """The second greatest or least of those who stay."""
    return Computed(
        key,
        label,
        logic(
            'IF(COUNT({values})<2,"",{next_one})',
            unit,
            needs=("row",),
            values=column("residents", residents),
            next_one=filled(function + "({values},2)", values=column("residents", residents)),
        ),
        look=HIDDEN,
    )


NEXT: tuple[Column, ...] = (
    next_to("mouthful_next", "Next mouthful", "gape", "cm", "LARGE"),
    next_to("victim_next", "Next smallest animal", "prey_length", "cm", "SMALL"),
    next_to("snail_gape_next", "Next mouthful of who eats snails", "snail_gape", "cm", "LARGE"),
    next_to("rough_next", "Next worst temper", "temper", "1", "LARGE"),
    next_to("next_gentle", "Next gentlest temper", "temper", "1", "SMALL"),
    Computed(
        "biters", "Groups that bite fins", logic("COUNT({residents.biter_line[]})", "1", needs=("row",)), look=COUNT
    ),
    Computed(
        "finned", "Groups with long fins", logic("COUNT({residents.finned_line[]})", "1", needs=("row",)), look=COUNT
    ),
    how_many("shrimps", "Groups of shrimp", "shrimp"),
)
WHO_LIVES_THERE: tuple[Column, ...] = (
    *most_of(("mouthful_max", "mouthful_who"), "Longest mouthful", "gape", "cm"),
    *most_of(("snail_gape_max", "cracks_who"), "Longest mouthful of who eats snails", "snail_gape", "cm"),
    *most_of(("bold_max", "bold_who"), "Longest of the bold", "bold_length", "cm"),
    *most_of(("victim_min", "victim_who"), "Smallest animal", "prey_length", "cm", least=True),
    *most_of(("temper_max", "temper_who"), "Worst temper", "temper", "1"),
    *most_of(("temper_min", "gentle_who"), "Gentlest temper", "temper", "1", least=True),
    *NEXT,
    who("first_biter", "First that bites fins", on_first_line("biter_line")),
    how_many("staying", "Groups that stay", "living"),
    how_many("hunters", "Groups that hunt shrimp", "hunter"),
    who("hunter_who", "First of them", first_of_some("hunter")),
    who("young_eater", "First that takes the young of shrimp", first_of_some("young_eater")),
    who(
        "shrimp_eater",
        "Eats shrimp or their young",
        'IF({hunters}>0,{hunter_who},{young_eater}&"")',
        needs=("hunters",),
    ),
    who("snail_eater", "First that eats snails", first_of_some("snail_eater")),
    Computed(
        "usual_tank", "Length that suits the tank", logic("{swim_length}/{const.choose_lengths}", "cm"), look=HIDDEN
    ),
    Computed(
        "usual_length",
        "Length that suits the company",
        logic(
            "IF(COUNT({residents.size[]})=0,{usual_tank},EXP(AVERAGE({residents.size[]})))",
            "cm",
            needs=("usual_tank",),
        ),
        look=HIDDEN,
    ),
    Computed(
        "usual_pace",
        "Pace of the company",
        logic('IF(COUNT({residents.pace[]})=0,"",AVERAGE({residents.pace[]}))', "1", needs=("row",)),
        look=HIDDEN,
    ),
    Computed(
        "usual_current",
        "Current that the company likes",
        logic('IF(COUNT({residents.current[]})=0,"",AVERAGE({residents.current[]}))', "1", needs=("row",)),
        look=HIDDEN,
    ),
    Computed(
        "from_lakes",
        "Groups from the rift lakes",
        logic('SUMIFS({residents.living[]},{residents.home[]},"rift lakes")', "1", needs=("row",)),
        look=COUNT,
    ),
    Computed(
        "livebearers",
        "Groups of livebearers",
        logic('SUMIFS({residents.living[]},{residents.spawning[]},"livebearer")', "1", needs=("row",)),
        look=COUNT,
    ),
    Computed(
        "weights",
        "All weights of merit",
        logic(
            "+".join(of("const", f"choose_{part}") for part in MERITS),
            "1",
            needs=("row", *(f"const.choose_{part}" for part in MERITS)),
        ),
        look=HIDDEN,
    ),
    who("first_finned", "First with long fins", on_first_line("finned_line")),
    who("second_finned", "First of another kind", on_first_line("other_finned_line")),
    who("second_biter", "Second kind that bites fins", on_first_line("other_biter_line")),
    who("shrimp_who", "First shrimp", first_of_some("shrimp")),
    who("snail_who", "First snail", first_of_some("snail")),
    Computed(
        "half_known",
        "Groups not fully known",
        logic("SUM({residents.half_known[]})", "1", needs=("row",)),
        look=COUNT,
    ),
)
