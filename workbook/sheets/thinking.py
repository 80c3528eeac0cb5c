"""How this workbook thinks: the chain from length to water change on one page, with the values of a chosen tank."""

from workbook.sheets.in_view import tank_shown
from workbook.sheets.pages import COUNT, by_line, or_unknown
from workbook.tables import Computed, Look, Pulled, Sheet, Table, Typed, count, logic, row, text
from workbook.tables.formula import filled
from workbook.tables.idioms import row_of
from workbook.tables.kinds import Value
from workbook.tables.sheet import Band
from workbook.tables.template import NAME, quoted

CHOICE = Table(
    "chain_choice",
    title="Tank to follow",
    purpose="",
    row_name=("tank",),
    form=True,
    chosen=True,
    columns=tank_shown("Tank", "The page shows its values; only the page is printed."),
)

OF_TANK = ("temperature", "net_volume", "change_share", "change_interval")
OF_OTHERS = (
    "stocking.animals",
    "stocking.body_length",
    "stocking.mass",
    "stocking.oxygen_draw",
    "stocking.food",
    "stocking.protein",
    "stocking.ammonia",
    "stocking.nitrate_week",
    "stocking.water_nitrate",
    "stocking.change_needed",
    "stocking.nitrate_peak",
    "changes.yield_used",
)

CHAIN = Table(
    "chain_tank",
    title="The chosen tank",
    form=True,
    row_name=("row",),
    purpose="",
    columns=(
        Computed("row", "Its row", row_of("{chain_choice.in_view}", "{tanks.tank[]}"), kind=row("tanks"), look=COUNT),
        Pulled("tank", via="row"),
        *(Pulled(key, via="row") for key in OF_TANK),
        *(Pulled(name.partition(".")[2], via="row", of=name) for name in OF_OTHERS),
    ),
)

HEAD = Table(
    "chain_head",
    title="",
    lines=1,
    row_name=("said",),
    purpose="",
    row_height=40,
    columns=(
        Computed(
            "said",
            "What",
            logic(
                'IF({chain_tank.row}="","Choose a tank beside the page",'
                '"From length to water change: "&{chain_tank.tank})',
                copes=True,
            ),
            kind=text(),
            look=Look(style="page name", span=5),
        ),
    ),
)


def value(key: str) -> str:
    """Formula text: a value of the chosen tank with its unit, or that it is not known."""
    return or_unknown(f"chain_tank.{key}")


def sentence(template: str, **others: str) -> str:
    """Formula text: a template in which names stand for values of the chosen tank."""
    keys = (key for key in NAME.findall(template) if key not in others)
    return filled(template, **{key: value(key) for key in keys}, **others)


HERE = (
    sentence('{animals}&" animals, "&{body_length}&" of body in all"'),
    sentence('{mass}&" of animals"'),
    sentence(
        '{oxygen_draw}&" at "&{temperature}&", everyday draw "&{activity}&" times the resting one"',
        activity=or_unknown("const.activity"),
    ),
    sentence('{food}&" of dry food"'),
    sentence('{ammonia}&" as nitrogen, mean of the week, from food with "&{protein}&" protein in its dry matter"'),
    sentence('{nitrate_week}&" a week in "&{net_volume}&", with a yield of "&{yield_used}'),
    sentence(
        '"change needed: "&{needed}&"; planned: "&{change_share}&" every "&{change_interval}'
        '&", which settles at "&{nitrate_peak}&" before a change"',
        needed=filled(
            "IF(ISNUMBER({chain_tank.change_needed}),{@words.chain_tank.change_needed},{words_for_none})",
            words_for_none=or_unknown("chain_tank.change_needed", "{chain_tank.change_needed}"),
        ),
    ),
)

STEPS = (
    (
        "Length",
        "The length of each animal now; the adult length of its species where none is typed.",
        "As good as the ruler. Grown animals of one species differ.",
        "Livestock and Species; each species says how sure its size is.",
    ),
    (
        "Mass",
        "mass = factor of the body form x length ^ exponent of the body form, for each animal; then all together",
        "Good to about a third, a factor of two for the smallest fish.",
        "Froese, Thorson and Reyes 2014, equation 1 (figures from memory)",
    ),
    (
        "Oxygen",
        (
            "resting draw = a curve of temperature for a fish of 50 g x (mass / 50 g) ^ 0.8; "
            "everyday draw = resting draw x activity"
        ),
        "Another published curve (Winberg 1956) gives the same within about a fifth; activity lies between 1 and 3.",
        "Clarke and Johnston 1999, abstract; activity: Winberg 1956, from memory",
    ),
    (
        "Food",
        (
            "dry food = oxygen of a day x energy set free by it / (share the animal can use x energy of dry food), "
            "x the feed factor"
        ),
        "Keeps the mass, growth not counted. Share and energy are typical values: trust the animal's shape more.",
        "Elliott and Davison 1975, energy for each mg of oxygen; share and energy of food from memory",
    ),
    (
        "Ammonia",
        (
            "ammonia nitrogen = food x protein share x nitrogen given off for each gram of protein; "
            "fasting days counted as none"
        ),
        "The last factor lies between 0.092 and 0.144, depending on what is digested and kept.",
        "Timmons and Ebeling, ammonia from feed",
    ),
    (
        "Nitrate",
        "rise = ammonia nitrogen x nitrate in each gram of nitrogen x yield x days / net volume, less what plants take",
        (
            "The yield is the least sure number here: half by default, all of it at the most. "
            "The Log can teach each tank its own."
        ),
        "molar masses; yield from memory, set against common practice",
    ),
    (
        "Water change",
        "share needed = rise between two changes / (target - nitrate of the source water)",
        "Sound arithmetic for water that mixes well; no surer than the rise that goes in.",
        "mass balance",
    ),
)
ROWS: list[dict[str, Value]] = [
    {"number": number, "step": step, "words": words, "sure": sure, "from": source}
    for number, (step, words, sure, source) in enumerate(STEPS, 1)
]

LINES, STRONG = Look(style="page lines"), Look(style="page strong")
PAGE = Table(
    "chain",
    title="Each step feeds the next",
    given=True,
    row_name=("step",),
    purpose="",
    row_height=74,
    columns=(
        Typed("step", "Step", text(), locked=True, look=STRONG),
        Typed("words", "How it is reckoned", text(), locked=True, look=LINES),
        Computed(
            "here",
            "In the chosen tank",
            logic('IF({chain_tank.row}="","",CHOOSE({number},{of_each_step}))', copes=True, of_each_step=HERE),
            kind=text(),
            look=Look(style="page fact"),
        ),
        Typed("sure", "How sure it is", text(), locked=True, look=LINES),
        Typed("from", "Where it is from", text(), locked=True, look=LINES),
        Typed("number", "Number", count(1, 9), locked=True, look=COUNT),
    ),
)

SAYS = (
    (
        "Oxygen also goes to the bacteria of the filter, which turn the ammonia into nitrate and use up carbonate "
        "(KH) on the way: see Stocking and Water changes."
    ),
    (
        "An error early in the chain goes through to its end: "
        "weigh some animals, read the food's label, log nitrate twice between two water changes."
    ),
    "All of this plans, none of it measures. Test the water and watch the animals: they overrule any calm cell.",
)
CLOSING = Table(
    "chain_closing",
    title="What to keep in mind",
    lines=len(SAYS),
    row_name=("said",),
    purpose="",
    columns=(
        Computed(
            "said",
            "",
            logic(by_line(*(quoted(said) for said in SAYS))),
            kind=text(),
            look=Look(style="page plain", span=5),
        ),
    ),
)

SHEET = Sheet(
    "How this workbook thinks",
    role="reference",
    frozen_columns=0,
    grid=(14, 37, 34, 34, 29),
    beside=(CHOICE, CHAIN),
    bands=(Band(((HEAD,),)), Band(((PAGE,),)), Band(((CLOSING,),))),
    purpose=(
        "One chain carries every answer about stocking, feeding and water: "
        "each step with its equation, its value in a tank of yours, how sure it is and where it is from."
    ),
)
