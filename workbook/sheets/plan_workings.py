"""What a plan leads to: the tanks it touches, reckoned by the columns of the living room over other rows."""

from workbook.sheets.company import COMPANY
from workbook.sheets.fullest import MEASURES
from workbook.sheets.livestock import LIVESTOCK
from workbook.sheets.overlap import DETAIL
from workbook.sheets.parameters import PARAMETERS
from workbook.sheets.plan_typed import LINES, OTHER_KEYS, OTHER_TANKS
from workbook.sheets.roll import ROLL
from workbook.sheets.stocking import STOCKING
from workbook.sheets.tanks import TANKS
from workbook.tables import Computed, Look, Pulled, Table, Typed, logic, number, row, text
from workbook.tables.clothing import Clothing
from workbook.tables.columns import Column
from workbook.tables.completing import ARROW, SEPARATOR, SYMBOLS
from workbook.tables.formula import filled
from workbook.tables.idioms import (
    POSITIVE,
    all_said,
    cell,
    first_known,
    first_said,
    joined,
    nth_row,
    pieces,
    reckoned_in,
    row_of,
)
from workbook.tables.kinds import Kind
from workbook.tables.template import column, for_each, here, quoted

TOUCHED, GROUPS = 6, 40
COUNT, WORDS = Look(working=True, show="0"), Look(working=True, width=16)
OUTSIDE, MEND = "Outside its water", "Choose another tank, or bring the water slowly into its range."
# What is told of a group before and after; what lasts, such as a young one's size, is no clash with others.
CLASHES = (
    "eaten",
    "clash_of_temper",
    "fins",
    "shrimp_hunted",
    "tiny_tank",
    "small_tank",
    "short_tank",
    "small_group",
    "gap_of_temper",
    "snails_hunted",
    "shrimp_young",
)

# Each tank that a line names, once: the least number of a row that is greater than the one above.
MENTIONS = Table(
    "plan_mentions",
    title="Tanks that are named",
    lines=2 * LINES + OTHER_TANKS,
    listed=False,
    row_name=("tank_row",),
    purpose="",
    columns=(
        Computed(
            "tank_row",
            "Row of the tank",
            logic(
                "IF({line}<={from_last},INDEX({plan_lines.from_row[]},{line}),"
                "IF({line}<={to_last},INDEX({plan_lines.to_row[]},{line}-{from_last}),"
                "INDEX({plan_values.tank_row[]},{line}-{to_last})))",
                "1",
                copes=True,
                from_last="ROWS({plan_lines.line[]})",
                to_last="ROWS({plan_lines.line[]})*2",
            ),
            look=COUNT,
        ),
    ),
)

FOUND = Table(
    "plan_found",
    title="Groups that the plan touches",
    rows_of="livestock",
    listed=False,
    row_name=("due",),
    purpose="",
    columns=(
        Computed(
            "due",
            "How many, once all are there",
            logic(
                'IF(COUNT({livestock.living})=0,"",IF(SUM({livestock.expected})=0,{livestock.living},'
                'IF(COUNT({livestock.animals})=1,{livestock.animals},"")))',
                "1",
                copes=True,
            ),
            look=COUNT,
            help="What is not there yet counts in a plan.",
        ),
        Computed(
            "in_plan",
            "Groups in tanks of the plan so far",
            logic(
                'SUM({above.in_plan})+IF(OR({livestock.tank_row}="",AND(COUNT({due})=1,SUM({due})=0)),0,'
                "IF(ISERROR(MATCH({livestock.tank_row},{plan_tanks.own_row[]},0)),0,1))",
                "1",
                copes=True,
            ),
            look=COUNT,
        ),
    ),
)

NEXT_TANK = Computed(
    "own_row",
    "Row of the tank",
    logic(
        'IF(AND({line}>1,SUM({above.own_row})=0),"",IF({greatest}<=SUM({above.own_row}),"",'
        'SMALL({mentions},COUNTIF({mentions},"<="&SUM({above.own_row}))+1)))',
        "1",
        copes=True,
        greatest=filled("MAX({mentions})", mentions="{plan_mentions.tank_row[]}"),
        mentions="{plan_mentions.tank_row[]}",
    ),
    kind=row("tanks"),
    look=COUNT,
)
VALUE_ROW = Computed(
    "value_row",
    "Row of its other values",
    logic(
        'IF({own_row}="","",IFERROR(MATCH({own_row},{plan_values.tank_row[]},0),""))',
        "1",
        copes=True,
    ),
    kind=row("plan_values"),
    look=COUNT,
)


BOX = ("shape", "length", "width", "height")


def other(typed: Typed) -> tuple[Column, ...]:
    """What a tank is to have in the place of what it has; blank: as it is."""
    if typed.key not in OTHER_KEYS:
        return (Pulled(typed.key, via="own_row"),)
    new, old = here(f"new_{typed.key}"), here(f"old_{typed.key}")
    known = POSITIVE if typed.kind.is_positive else "ISNUMBER({number})"
    made = first_known(new, old, unit=typed.unit, test=known) if typed.kind.is_number else first_said(new, old)
    return (
        Pulled(f"new_{typed.key}", via="value_row", of=typed.key),
        Pulled(f"old_{typed.key}", via="own_row", of=typed.key),
        Computed(typed.key, typed.label, made, kind=number() if typed.kind.is_number else text(), look=typed.look),
    )


BUCKETS = (
    Pulled("old_volume_measured", via="own_row", of="net_volume_measured"),
    Computed(
        "net_volume_measured",
        "Net volume measured",
        logic('IF({sizes}="",{old_volume_measured},"")', "L", copes=True, sizes=for_each(BOX, "{new_*}", "&")),
        look=Look(working=True, show="0.0"),
        help="Not where its sizes are to be others.",
    ),
)

TANK_COLUMNS: tuple[Column, ...] = (
    NEXT_TANK,
    VALUE_ROW,
    *(c for t in TANKS.typed if t.key != "net_volume_measured" for c in other(t)),
    *BUCKETS,
    Computed("water_row", "Row of its water", row_of("{water}", "{waters.water[]}"), kind=row("waters"), look=COUNT),
    Pulled("protein_fed", via="own_row", of="feeding_tanks.protein"),
    Pulled("yield_of_log", via="own_row", of="changes.yield_used"),
    Pulled("yield_by_log", via="own_row", of="changes.yield_is_own"),
)
BROUGHT = {
    "feeding_tanks.protein": "protein_fed",
    "changes.yield_used": "yield_of_log",
    "changes.yield_is_own": "yield_by_log",
}

OF_LIVESTOCK = ("length_now", "measured_on", "feed_factor")


def either(key: str, label: str, of_group: str, of_line: str, kind: Kind | None = None) -> Computed:
    """A number of the group that is there, or of the line of the plan that brings one."""
    there, brought = (filled("{*[]}", each=name) for name in (of_group, of_line))
    formula = logic(
        'IF({entry}="",{there},{brought})',
        "1",
        copes=True,
        there=reckoned_in(there, "{group}", "1"),
        brought=reckoned_in(brought, "{entry}", "1"),
    )
    return Computed(key, label, formula, kind=kind or number(), look=COUNT)


GROUP_COLUMNS: tuple[Column, ...] = (
    Computed(
        "entry",
        "Line of the plan",
        logic(
            'IF({line}>{groups},{line}-{groups},"")',
            "1",
            copes=True,
            groups="(ROWS({plan_livestock.line[]})-ROWS({plan_lines.line[]}))",
        ),
        kind=row("plan_lines"),
        look=COUNT,
    ),
    Computed(
        "group",
        "Row of the group",
        logic(
            'IF({entry}="",{nth},IF(COUNT({moved_from})=0,"",IFERROR(MATCH({moved_from},{livestock.pair[]},0),"")))',
            "1",
            copes=True,
            nth=nth_row("{line}", "{plan_found.in_plan[]}"),
            moved_from=cell("{plan_lines.moved_pair[]}", "{entry}"),
        ),
        kind=row("livestock"),
        look=COUNT,
        help="Below the groups stand the lines of the plan that bring animals; moved ones are as they were.",
    ),
    either("old_tank_row", "Row of its tank", "livestock.tank_row", "plan_lines.to_row"),
    Computed(
        "tank_row",
        "Row of its tank among those touched",
        logic('IF({old_tank_row}="","",IFERROR(MATCH({old_tank_row},{plan_tanks.own_row[]},0),""))', "1", copes=True),
        kind=row("plan_tanks"),
        look=COUNT,
    ),
    either("species_row", "Row of its species", "livestock.species_row", "plan_lines.brings", kind=row("species")),
    Pulled("tank", via="tank_row"),
    Computed(
        "species",
        "Species",
        logic(
            'IF({entry}="",{there},IF(INDEX({plan_lines.to_row[]},{entry})="","",'
            'INDEX({plan_lines.species[]},{entry})&""))',
            copes=True,
            there=reckoned_in("{livestock.species[]}", "{group}"),
        ),
        kind=text(),
        look=WORDS,
    ),
    Computed("one", "One", logic("1", "1", copes=True), look=COUNT),
    either("brought", "Before any is taken", "plan_found.due", "plan_lines.comes"),
    Computed(
        "pair_there",
        "Tank and species",
        logic("{old_tank_row}+{species_row}/10^6", "1"),
        look=Look(working=True, width=11, show="0.000000"),
    ),
    Computed(
        "taken",
        "Taken of its kind",
        logic(
            "IF(COUNT({pair_there})=1,SUMIFS({plan_lines.counted[]},{plan_lines.from_pair[]},{pair_there}),0)",
            "1",
            copes=True,
        ),
        look=COUNT,
    ),
    Computed(
        "above_it",
        "Of its kind on lines above",
        logic(
            "IF(COUNT({pair_there})=1,SUMIFS({plan_livestock.brought[]},{plan_livestock.pair_there[]},{pair_there},"
            '{plan_livestock.line[]},"<"&{line}),0)',
            "1",
            copes=True,
        ),
        look=COUNT,
    ),
    Computed(
        "living",
        "How many then",
        logic("MAX(0,{brought}-MAX(0,{taken}-{above_it}))", "1", needs=("brought", "tank_row")),
        look=COUNT,
        help="What is taken is taken from the first group of its kind.",
    ),
    *(Pulled(key, via="group") for key in OF_LIVESTOCK),
)


def outside_said(words: str) -> str:
    """Formula text: what is said of a group outside of its water, as a flag says it."""
    return filled(
        "{sign}&{words}&{do}", sign=quoted(f"{SYMBOLS['watch']} {OUTSIDE}: "), words=words, do=quoted(ARROW + MEND)
    )


def beside_now(key: str) -> str:
    """Formula text: what the living room says of the group in the same matter."""
    return cell(column("livestock", key), "{base_row}")


NEW = [(filled('AND({*}<>"",{now}="")', each=key, now=beside_now(key)), here(key)) for key in CLASHES]
GONE = [(filled('AND({*}="",{now}<>"")', each=key, now=beside_now(key)), beside_now(key)) for key in CLASHES]
NOW_OUTSIDE = filled('IF({lives}="","",{now})', lives=beside_now("lives_in"), now=beside_now("outside"))
COMPARED: tuple[Column, ...] = (
    Computed(
        "outside_then",
        "Outside its ranges then",
        logic('IF(OR({lives_in}="",{outside}=""),"",{outside})', copes=True),
        kind=text(),
        look=WORDS,
    ),
    Computed("base_row", "Row where it lives now", logic('IF({entry}="",{group},"")', "1", copes=True), look=COUNT),
    Computed(
        "outside_now",
        "Outside its ranges now",
        logic('IF({base_row}="","",{now})', copes=True, now=NOW_OUTSIDE),
        kind=text(),
        look=WORDS,
    ),
    Computed(
        "new",
        "What comes to speak against it",
        all_said(["{new_company}", "{new_water}"], SEPARATOR),
        kind=text(),
        look=WORDS,
    ),
    Computed(
        "new_company",
        "Of these, by company and room",
        logic('IF({base_row}="",{said},{unlike})', copes=True, unlike=joined(*NEW, between=SEPARATOR)),
        kind=text(),
        look=WORDS,
    ),
    Computed(
        "new_water",
        "Of these, by water",
        logic(
            'IF(AND({outside_then}<>"",{outside_then}<>{outside_now}),{said_of_it},"")',
            copes=True,
            said_of_it=outside_said("{outside_then}"),
        ),
        kind=text(),
        look=WORDS,
    ),
    Computed(
        "gone",
        "What ceases to",
        logic(
            'IF({base_row}="","",{unlike})',
            copes=True,
            unlike=joined(
                *GONE,
                ('AND({outside_then}="",{outside_now}<>"")', outside_said("{outside_now}")),
                between=SEPARATOR,
            ),
        ),
        kind=text(),
        look=WORDS,
    ),
    Computed("new_count", "How many come", logic(pieces("{new}", SEPARATOR), "1", copes=True), look=COUNT),
    Computed(
        "told_run",
        "Come or cease, so far",
        logic(
            "SUM({above.told_run})+{new_count}+{gone_count}", "1", copes=True, gone_count=pieces("{gone}", SEPARATOR)
        ),
        look=COUNT,
    ),
)

BASE = {t.key: t for t in (TANKS, LIVESTOCK, ROLL, COMPANY, STOCKING, DETAIL)}
CLOTHING = Clothing(BASE, "plan_", {"tanks": TANK_COLUMNS, "livestock": (*GROUP_COLUMNS, *COMPARED)}, BROUGHT)
WANTED = {
    "stocking": (
        "animals",
        *(f"{key}_share" for key, _ in MEASURES),
        "binding",
        "binding_share",
        "nitrate_peak",
        "change_needed",
        "uptake",
        "draw",
        "bacteria_draw",
        "nitrogen",
        "food",
        "reserve",
    ),
    "overlap_detail": tuple(
        f"{p.key}_{what}" for p in PARAMETERS for what in ("low", "high", "width", "low_by", "high_by", "lies")
    ),
    "tanks": ("net_volume", "filled_mass", "heater_size"),
    "livestock": (*CLASHES, "outside", "told_run"),
}
PLANNED = CLOTHING.clothed(WANTED, {"tanks": TOUCHED, "livestock": GROUPS + LINES})
