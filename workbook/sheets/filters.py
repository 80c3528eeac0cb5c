"""What is sought: the form in which a tank and the filters are chosen, and what Candidates says of the result."""

from workbook.sheets.groups import offer_only
from workbook.sheets.in_view import tank_shown
from workbook.tables import Computed, Look, Table, Typed, choice, count, link, logic, number, text
from workbook.tables.formula import filled
from workbook.tables.template import quoted

HIDDEN, COUNT = Look(working=True, show="0.00"), Look(working=True, show="0")
WHO, TEXT = Look(working=True, width=18), Look(working=True, width=24)
MANY = Look(working=True, show='[>=1000000]"no limit";0')
SENTENCE, CHOSEN = Look(width=22, runs_on=True), Look(width=22)
VERDICTS = {
    "fits": "fits",
    "care": "◆ fits with care",
    "unknown": "○ unknown",
    "not": "▲ does not fit",
    "tight": "◆ tight",
    "change": "◆ with more change",
}
MERITS = {
    "water": "Water",
    "kin": "Water of the company",
    "niche": "Niche",
    "size": "Size",
    "temper": "Temper",
    "group": "Room for its group",
    "colour": "Colour",
    "ease": "Ease",
    "offered": "Offered",
    "home": "Home",
    "peace": "Peace",
}
MEASURES = (
    ("nitrogen", "water change"),
    ("oxygen", "oxygen"),
    ("swim", "swim room"),
    ("bottom", "bottom room"),
    ("volume", "volume"),
)
FIT, CARE, UNKNOWN, NOT, TIGHT, CHANGE = (
    filled("SUMIFS({candidates.passes[]},{candidates.verdict[]},{verdict})", verdict=quoted(verdict))
    for verdict in VERDICTS.values()
)


def nearest() -> str:
    """Formula text: the first three of the list, each with what stands in its way."""
    name, said = "INDEX({best.species[]},NTH)", '&" ("&INDEX({best.stop[]},NTH)&")"'
    others = f'IF({name}="","",", "&{name}{said})'
    near = "&".join(others.replace("NTH", nth) for nth in ("1", "2", "1+2"))
    return filled('IF({first}="","","Nearest: "&MID({near},3,999)&". ")', first=name.replace("NTH", "1"), near=near)


CHOICE = Table(
    "candidates_choice",
    title="What is sought",
    purpose="",
    row_name=("tank",),
    form=True,
    chosen=True,
    columns=(
        *tank_shown("Tank", "What else can go in this tank?"),
        offer_only(),
        Typed(
            "instead_of",
            "Instead of",
            link("species"),
            look=CHOSEN,
            help=(
                "A species that can't be had: what comes close to it stands first. "
                "Blank: what leaves most room and water."
            ),
        ),
        Typed(
            "zone",
            "Zone",
            choice("any", "top", "middle", "bottom"),
            look=CHOSEN,
            help="Kinds of all zones pass every choice. Blank: any.",
        ),
        Typed(
            "longest",
            "Longest",
            number(0.3, 200),
            unit="cm",
            look=Look(width=22, show="0.#"),
            help="When grown. Blank: any length.",
        ),
        Typed(
            "temper_most",
            "Worst temper",
            count(1, 5),
            unit="1",
            look=Look(width=22, show="0"),
            help="1 gentle to 5 hostile. Blank: any.",
        ),
        Typed(
            "easy",
            "Easy only",
            choice("yes", "no"),
            look=CHOSEN,
            help="yes: only kinds with wide ranges of temperature, pH and GH (how wide: Constants).",
        ),
        Typed(
            "just", "This kind only", link("species"), look=CHOSEN, help="To see what is said of one kind. Blank: all."
        ),
        Computed(
            "told",
            "Result",
            logic(
                'IF({sought.row}="","Choose a tank.",'
                'SUM({candidates.passes[]})&" of "&ROWS({species.species[]})-COUNTBLANK({species.species[]})'
                '&" kinds pass the filters: "'
                '&{fit}&" fit, "&{care}&" fit with care, "&{tight}+{change}&" tight or with more change, "'
                '&{do_not}&" do not fit, "&{unknown}&" unknown.")',
                copes=True,
                fit=FIT,
                care=CARE,
                tight=TIGHT,
                change=CHANGE,
                do_not=NOT,
                unknown=UNKNOWN,
            ),
            kind=text(),
            look=SENTENCE,
        ),
        Computed(
            "stopped",
            "Why none",
            logic(
                '_xlfn.IFS({fit}+{care}+{tight}+{change}>0,"",SUM({stopped})=0,"Nothing is known to fit.",'
                '1=1,"Nothing fits. "&{nearest}&"Most are stopped by "'
                "&INDEX({candidates_stops.stop[]},MATCH(MAX({stopped}),{stopped},0))"
                '&": "&MAX({stopped})&" of "&{do_not}&".")',
                needs=("sought.row",),
                fit=FIT,
                care=CARE,
                tight=TIGHT,
                change=CHANGE,
                do_not=NOT,
                nearest=nearest(),
                stopped="{candidates_stops.stopped[]}",
            ),
            kind=text(),
            look=SENTENCE,
        ),
        Computed("about", "The tank", logic('{sought.about}&""', copes=True), kind=text(), look=SENTENCE),
        Computed("mind", "Mind first", logic('{sought.mind}&""', copes=True), kind=text(), look=SENTENCE),
    ),
)
