"""What people type of a plan: animals that come, go or move, and a tank with other values."""

from workbook.equations import headroom
from workbook.sheets.tank_shapes import SHAPES
from workbook.tables import (
    Computed,
    Look,
    Pulled,
    Table,
    Typed,
    choice,
    count,
    date,
    link,
    logic,
    number,
    pulled,
    row,
    text,
)
from workbook.tables.columns import Column
from workbook.tables.formula import filled
from workbook.tables.idioms import in_rows_with, joined
from workbook.tables.template import here, quoted

LINES, OTHER_TANKS = 12, 2
DOING = ("add", "take out", "move")
WHAT = Look("What is to be done", 9)
COUNT, HIDDEN = Look(working=True, show="0"), Look(working=True, show="0.000000")
WORDS, PART = Look(working=True, width=18), Look(working=True, show="0.00%")
OTHER = Look("Only what is to be other than on Tanks", 9, "0.0")


RECKONED: tuple[Column, ...] = (
    Computed(
        "lacks",
        "Not typed yet",
        in_rows_with(
            "begun",
            joined(
                ('{do}=""', '"what to do"'),
                ("COUNT({number})=0", '"how many"'),
                ('{species_row}=""', '"which species"'),
                ('AND({do}<>"add",{from_tank_row}="")', '"from which tank"'),
                ('AND({do}<>"take out",{to_tank_row}="")', '"to which tank"'),
                between=", ",
            ),
        ),
        kind=text(),
        look=WORDS,
    ),
    Computed(
        "begun",
        "Begun",
        logic('IF(AND({do}="",{species}="",{from_tank}="",{to_tank}="",COUNT({number})=0),"",1)', "1", copes=True),
        look=COUNT,
    ),
    Computed(
        "from_there",
        "Goes from a tank",
        logic('IF(OR({do}="take out",{do}="move"),1,0)', "1", needs=("do",)),
        look=COUNT,
    ),
    Computed(
        "to_there", "Comes to a tank", logic('IF(OR({do}="add",{do}="move"),1,0)', "1", needs=("do",)), look=COUNT
    ),
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
    Computed("from_pair", "Tank it leaves, and species", logic("{from_row}+{species_row}/10^6", "1"), look=HIDDEN),
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
            come="SUMIFS({plan_lines.number[]},{plan_lines.to_pair[]},{from_pair})",
            gone_before=(
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
    Typed("do", "", choice(*DOING), look=Look(WHAT.group, 9)),
    Typed("number", "Number", count(1, 10_000), unit="1", look=Look(WHAT.group, 7, "0")),
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

HAS_PLACE = "ISNUMBER(MATCH({row},{plan_tanks.own_row[]},0))"
SAYS = Computed(
    "says",
    "Can it be done",
    logic(
        '_xlfn.IFS({lacks}<>"","still lacks "&{lacks},SUM({short})>0,"◆ only "&MAX(0,{there})&" are there",'
        'SUM({without_place})>0,{seventh},SUM({clashes})>0,"◆ clashes of its own, below: "&{clashes},'
        'AND({limit}<>"",SUM({most})=0),"◆ none, by "&{limit},'
        'AND({limit}<>"",SUM({most})<SUM({counted})),"◆ at most "&{most}&", by "&{limit},'
        'SUM({in_tank})>0,"◆ clashes in its tank, below: "&{in_tank},1=1,"can be done")',
        needs=("begun",),
        seventh=quoted("◆ a seventh tank: the plan reckons with six"),
    ),
    kind=text(),
    look=Look(style="page text", span=6),
)
TO_TYPE = Computed(
    "to_type",
    "What to type once it is done",
    logic(
        'IF({lacks}="","Livestock: "&{less}&IF({both}," and ","")&{more},"")',
        needs=("begun",),
        less=filled(
            'IF({there_from}=1,{from_tank}&" down to "&MAX(0,SUM({there})-SUM({counted})),"")',
            there_from="SUM({from_there})",
        ),
        both="SUM({from_there})+SUM({to_there})=2",
        more='IF(SUM({to_there})=1,"a row in "&{to_tank}&" with "&SUM({counted}),"")',
    ),
    kind=text(),
    look=Look(style="page text", span=8),
)
# What counts as no limit.
NO_LIMIT = "10^6"
RAISED = (("nitrogen", "water change"), ("oxygen", "oxygen"), ("bottom", "bottom room"))


def most_by(measure: str, label: str) -> Computed:
    """How many animals of the line the tank carries by one limit."""
    each, full = here(f"{measure}_each"), here(f"{measure}_full")
    left = headroom.animals_left(full=full, each=each)
    return Computed(
        f"most_{measure}",
        f"At most, by {label}",
        logic(
            "IF({by_one}>0,ROUNDDOWN(MIN({no_limit},MAX(0,ROUND({counted}+{left},6))),0),{no_limit})",
            "1",
            needs=("counted", f"{measure}_each", f"{measure}_full"),
            by_one=each,
            left=left,
            no_limit=NO_LIMIT,
        ),
        look=COUNT,
    )


MOST: tuple[Column, ...] = (
    Computed(
        "group",
        "Row of what it brings",
        logic('IF({to_row}="","",ROWS({plan_livestock.line[]})-ROWS({plan_lines.line[]})+{line})', "1", copes=True),
        kind=row("plan_livestock"),
        look=COUNT,
    ),
    *pulled("group", "living", "oxygen_draw", "nitrogen", "bottom_wanted"),
    Pulled("goal", via="group", of="tank_row"),
    Pulled("nitrogen_full", via="goal", of="plan_room.nitrogen_full"),
    Pulled("nitrogen_gross", via="goal", of="plan_room.nitrogen_gross"),
    Pulled("oxygen_full", via="goal", of="plan_stocking.oxygen_share"),
    Pulled("bottom_full", via="goal", of="plan_stocking.bottom_share"),
    Pulled("all_nitrogen", via="goal", of="plan_stocking.nitrogen"),
    Pulled("draw", via="goal", of="plan_stocking.draw"),
    Pulled("bacteria_draw", via="goal", of="plan_stocking.bacteria_draw"),
    Pulled("plan_area", via="goal"),
    Pulled("in_tank", via="goal", of="plan_full.new_here"),
    Computed("part", "Its part of the nitrogen", logic("{nitrogen}/{all_nitrogen}", "1"), look=PART),
    Computed("nitrogen_each", "Of the water change, each", logic("{part}*{nitrogen_gross}/{living}", "1"), look=PART),
    Computed(
        "oxygen_each",
        "Of the oxygen, each",
        logic("({oxygen_draw}+{bacteria_draw}*{part})/{draw}*{oxygen_full}/{living}", "1"),
        look=PART,
    ),
    Computed("bottom_each", "Of the bottom, each", logic("{bottom_wanted}/{living}/{plan_area}", "1"), look=PART),
    *(most_by(measure, label) for measure, label in RAISED),
    Computed(
        "most",
        "The largest number that can",
        logic("MIN({most_nitrogen},{most_oxygen},{most_bottom})", "1", needs=("most_oxygen",)),
        look=COUNT,
    ),
    Computed(
        "limit",
        "Then the limit is",
        logic(
            "CHOOSE(MATCH({most},{all_three},0),{words})",
            needs=("most",),
            all_three="{most_nitrogen}:{most_bottom}",
            words=[quoted(label) for _, label in RAISED],
        ),
        kind=text(),
        look=WORDS,
    ),
)
JUDGED: tuple[Column, ...] = (
    Computed(
        "short",
        "More than are there",
        logic("IF(AND({from_there}=1,SUM({number})>SUM({there})),1,0)", "1", needs=("from_there", "number")),
        look=COUNT,
    ),
    Computed(
        "without_place",
        "Names a tank too many",
        logic(
            "{from_missed}+{to_missed}",
            "1",
            copes=True,
            from_missed=filled('IF({from_row}="",0,IF({found},0,1))', found=filled(HAS_PLACE, row="{from_row}")),
            to_missed=filled('IF({to_row}="",0,IF({found},0,1))', found=filled(HAS_PLACE, row="{to_row}")),
        ),
        look=COUNT,
    ),
    Pulled("clashes", via="group", of="new_count"),
)

LINES_TABLE = Table(
    "plan_lines",
    title="Do",
    lines=LINES,
    chosen=True,
    listed=False,
    row_name=("do",),
    purpose="",
    columns=(*LINES_TYPED, SAYS, TO_TYPE, *RECKONED, *MOST, *JUDGED),
)

VALUES = Table(
    "plan_values",
    title="Other tank",
    lines=OTHER_TANKS,
    chosen=True,
    listed=False,
    row_name=("tank",),
    purpose="",
    columns=(
        Typed("tank", "", link("tanks"), help="One that stands, or is only planned."),
        Typed("shape", "Shape", choice(*SHAPES)),
        Typed("water", "Water", link("waters")),
        Typed("temperature", "Set to", number(0, 40), unit="degC", look=OTHER),
        Typed(
            "done",
            "Done",
            choice("yes"),
            look=Look(OTHER.group, 6),
            help="yes once it is done: 'shoalbook build FILE --carry-out' takes it over into Tanks.",
        ),
        Typed("length", "Long", number(2, 1000), unit="cm", look=OTHER),
        Typed("width", "Wide", number(2, 1000), unit="cm", look=OTHER),
        Typed("height", "High", number(2, 500), unit="cm", look=OTHER),
        Typed(
            "change_share",
            "Part",
            number(0.01, 1),
            unit="1",
            look=Look(OTHER.group, 9, "0%"),
            help="Share of the water changed each time.",
        ),
        Typed("change_interval", "every", number(0.25, 365), unit="day", look=Look(OTHER.group, 8, "0.#")),
        Typed("filter_flow", "Flow", number(0, 100000), unit="L/h", look=Look(OTHER.group, 9, "0")),
    ),
)
# What may be typed there, in the order of its columns.
OTHER_KEYS = tuple(c.key for c in VALUES.typed if c.key not in {"tank", "done"})
