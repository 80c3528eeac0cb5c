"""What people type of a plan: animals that come, go or move, and a tank with other values."""

from workbook.sheets.tank_shapes import SHAPES
from workbook.tables import Computed, Look, Table, Typed, choice, count, date, link, logic, number, text
from workbook.tables.columns import Column
from workbook.tables.formula import filled

LINES, OTHER_TANKS = 12, 2
DOING = ("add", "take out", "move")
WHAT, CAN = Look("What is to be done", 9), Look("Can it be done", 9, "0")
COUNT, HIDDEN = Look(working=True, show="0"), Look(working=True, show="0.000000")
OTHER = Look("Only what is to be other than on Tanks", 9, "0.0")


RECKONED: tuple[Column, ...] = (
    Computed(
        "from_there",
        "Goes from a tank",
        logic('IF(OR({do}="take out",{do}="move"),1,0)', "1", needs=("do",)),
        look=COUNT,
    ),
    Computed("to_there", "Comes to a tank", logic('IF(OR({do}="add",{do}="move"),1,0)', "1", needs=("do",)), look=COUNT),
    Computed(
        "from_row",
        "Row of the tank it leaves",
        logic('IF(SUM({from_there})=1,{from_tank_row},"")', "1", copes=True),
        look=COUNT,
    ),
    Computed(
        "to_row",
        "Row of the tank it comes to",
        logic('IF(SUM({to_there})=1,{to_tank_row},"")', "1", copes=True),
        look=COUNT,
    ),
    Computed(
        "from_pair", "Tank it leaves, and species", logic("{from_row}+{species_row}/10^6", "1"), look=HIDDEN
    ),
    Computed("to_pair", "Tank it comes to, and species", logic("{to_row}+{species_row}/10^6", "1"), look=HIDDEN),
    Computed(
        "moved_pair",
        "The same of what moves",
        logic('IF({do}="move",{from_pair},"")', "1", needs=("do", "from_pair")),
        look=HIDDEN,
    ),
    Computed(
        "there",
        "There to be taken",
        logic(
            "SUMIFS({plan_found.due[]},{livestock.pair[]},{from_pair})+{come}-{gone_before}",
            "1",
            come=filled("SUMIFS({plan_lines.number[]},{plan_lines.to_pair[]},{from_pair})"),
            gone_before=filled(
                'SUMIFS({plan_lines.number[]},{plan_lines.from_pair[]},{from_pair},{plan_lines.line[]},"<"&{line})'
            ),
            needs=("from_pair",),
        ),
        look=COUNT,
        help="As many as live there or are on their way, with what the plan brings, less what lines above take.",
    ),
    Computed(
        "counted",
        "Number reckoned with",
        logic(
            "IF({from_there}=1,IF(COUNT({there})=1,MAX(0,MIN({number},{there})),0),{number})",
            "1",
            needs=("number", "from_there", "species_row"),
        ),
        look=COUNT,
    ),
    Computed("comes", "Of these come", logic('IF({to_there}=1,{counted},"")', "1", needs=("to_row",)), look=COUNT),
    Computed(
        "brings", "Species that comes", logic('IF({to_there}=1,{species_row},"")', "1", needs=("to_row",)), look=COUNT
    ),
)

LINES_TYPED: tuple[Column, ...] = (
    Typed("do", "Do", choice(*DOING), look=Look(WHAT.group, 9)),
    Typed("number", "How many", count(1, 10_000), unit="1", look=Look(WHAT.group, 7, "0")),
    Typed("species", "Species", link("species"), look=Look(WHAT.group, 24)),
    Typed("from_tank", "From tank", link("tanks"), look=Look(WHAT.group, 18), help="For take out and move."),
    Typed("to_tank", "To tank", link("tanks"), look=Look(WHAT.group, 18), help="For add and move."),
    Typed("on_day", "On", date(), look=Look(WHAT.group, 11), help="The day on which it is to be done."),
    Typed(
        "done",
        "Done",
        choice("yes"),
        look=Look(WHAT.group, 6),
        help="yes once it is done: 'shoalbook build FILE --carry-out' takes it over into Livestock.",
    ),
)

LINES_TABLE = Table(
    "plan_lines",
    title="The plan",
    lines=LINES,
    chosen=True,
    listed=False,
    row_name=("do",),
    purpose="",
    columns=(*LINES_TYPED, *RECKONED),
)

VALUES = Table(
    "plan_values",
    title="A tank with other values",
    lines=OTHER_TANKS,
    chosen=True,
    listed=False,
    row_name=("tank",),
    purpose="",
    columns=(
        Typed("tank", "Tank", link("tanks"), look=Look("Which tank", 20), help="One that stands, or is only planned."),
        Typed("shape", "Shape", choice(*SHAPES), look=Look(OTHER.group, 12)),
        Typed("length", "Length", number(2, 1000), unit="cm", look=OTHER),
        Typed("width", "Width", number(2, 1000), unit="cm", look=OTHER),
        Typed("height", "Height", number(2, 500), unit="cm", look=OTHER),
        Typed("temperature", "Temperature", number(0, 40), unit="degC", look=Look(OTHER.group, 12, "0.0")),
        Typed("water", "Water", link("waters"), look=Look(OTHER.group, 16)),
        Typed("change_share", "Water change", number(0.01, 1), unit="1", look=Look(OTHER.group, 9, "0%")),
        Typed("change_interval", "every", number(0.25, 365), unit="day", look=Look(OTHER.group, 8, "0.#")),
        Typed("filter_flow", "Filter flow", number(0, 100000), unit="L/h", look=Look(OTHER.group, 9, "0")),
        Typed(
            "done",
            "Done",
            choice("yes"),
            look=Look(OTHER.group, 6),
            help="yes once it is done: 'shoalbook build FILE --carry-out' takes it over into Tanks.",
        ),
    ),
)
# What may be typed there, in the order of its columns.
OTHER_KEYS = tuple(c.key for c in VALUES.typed if c.key not in {"tank", "done"})
