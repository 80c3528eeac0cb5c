"""Livestock: which animals live in which tank, what they weigh, breathe and eat, and who is at risk from whom."""

from workbook.equations import feeding, mass, metabolism, nitrogen
from workbook.sheets import growing
from workbook.sheets.groups import offer
from workbook.sheets.livestock_flags import FLAGS, WHYS
from workbook.sheets.livestock_workings import COMPARED, COUNTED, OF_SPECIES, OF_TANK, RANGES, RISKS, WANTED
from workbook.sheets.roll import ROLL
from workbook.tables import Computed, Look, Said, Sheet, Table, Typed, count, date, link, logic, number, text
from workbook.tables.formula import filled
from workbook.tables.idioms import POSITIVE, first_known, in_rows_with, joined

GROUP, MODEL, VERDICT = (
    Look("The group", 10, "0.0"),
    Look("Length to mass to oxygen to food to nitrogen", 10, "0.00"),
    Look("Company and water", 26, status=True),
)

TYPED = (
    Typed("tank", "Tank", link("tanks"), required=True, look=Look("The group", 20)),
    Typed("species", "Species", link("species"), required=True, look=Look("The group", 24)),
    Typed(
        "animals",
        "How many",
        count(0, 10_000),
        unit="1",
        required=True,
        look=Look("The group", 8, "0"),
        help="Living animals when they were last counted.",
    ),
    Typed(
        "counted_on",
        "Counted on",
        date(),
        look=Look("The group", 11),
        help="From the day after it losses and arrivals in the Log count. Blank: from the day after it came in.",
    ),
    Said(look=Look("The group", 54)),
    Typed(
        "length_now",
        "Length now",
        number(0.1, 200),
        unit="cm",
        look=GROUP,
        help="Snout to end of tail. Blank: reckoned as adult.",
    ),
    Typed(
        "measured_on",
        "Measured on",
        date(),
        look=Look("The group", 11),
        help="Young animals grow from that day on. Blank: the length stands as typed.",
    ),
    Typed(
        "feed_factor",
        "Feeding factor",
        number(0.1, 5),
        unit="1",
        look=GROUP,
        help="Blank: 1, keeping condition. 1.5 for growing on or conditioning.",
    ),
    Typed("males", "Males", count(0, 10_000), unit="1", look=Look("The group", 7, "0")),
    Typed("females", "Females", count(0, 10_000), unit="1", look=Look("The group", 8, "0")),
    Typed(
        "date_in",
        "Came in",
        date(),
        look=Look("The group", 11),
        help="A day after the plan date: not there yet, so it counts for nothing until then.",
    ),
    Typed("origin", "From", text(), look=Look("The group", 20)),
    Typed("quarantine_until", "Quarantine until", date(), look=Look("The group", 11)),
    Typed("stock_note", "Note", text(), look=Look("The group", 30)),
)

# From what was counted to what lives now, by the log.
LOGGED = "{log.tank_row[]},{tank_row},{log.species_row[]},{species_row},{log.date[]},{later},{log.date[]},{by_now}"
LIVING = (
    Computed(
        "living",
        "How many now",
        logic(
            'IF(SUM({expected})=1,0,IF(COUNT({animals})=0,"",MAX(0,{animals}+SUM({since_then}))))',
            "1",
            needs=("tank", "species"),
        ),
        look=Look("The group", 8, "0"),
        help=(
            "As counted, less the losses and with the arrivals that the Log has had since: all is reckoned with it. "
            "0 until the day on which they come in."
        ),
    ),
    Computed(
        "counted_last",
        "Last counted on",
        logic("IF(COUNT({counted_on})=1,{counted_on},{date_in})", "date", needs=("tank",)),
        kind=date(),
        look=Look(working=True, width=11),
    ),
    Computed(
        "since_then",
        "Come less lost since then",
        logic(
            "IF(MATCH({pair},{livestock.pair[]},0)={line},"
            "SUMIFS({log.arrivals[]},{logged})-SUMIFS({log.losses[]},{logged}),0)",
            "1",
            needs=("pair", "counted_last", "settings.plan_date"),
            logged=filled(
                LOGGED,
                later=filled('">"&{day}', day="{counted_last}"),
                by_now=filled('"<="&{day}', day="{settings.plan_date}"),
            ),
        ),
        look=Look(working=True, show="0"),
        help="In the first of several rows of one kind in one tank.",
    ),
)

CHAIN = (
    Computed(
        "length",
        "Length",
        first_known("{length_by_now}", "{length_now}", "{adult_length}", unit="cm", test=POSITIVE),
        look=Look(MODEL.group, 8, "0.0"),
        help="As typed and grown since, or adult.",
    ),
    Computed(
        "mass_each",
        "Mass of one",
        logic("IF(AND(SUM({length_now})<=0,SUM({weighed})>0),{weighed},{mass_by_length})", "g", copes=True),
        look=MODEL,
    ),
    Computed("mass", "Mass of all", mass.of_group(each="{mass_each}", animals="{living}"), look=MODEL),
    Computed(
        "oxygen_draw",
        "Oxygen draw",
        metabolism.of_group(
            each=metabolism.routine_oxygen(
                resting=metabolism.resting_oxygen(mass="{mass_each}", temperature="{tank_temperature}")
            ),
            animals="{living}",
        ),
        look=MODEL,
        help="Everyday activity at the tank's set temperature.",
    ),
    Computed(
        "food",
        "Dry food",
        feeding.with_growth(ration=feeding.ration(oxygen="{oxygen_draw}"), factor="{feed_factor_used}"),
        look=Look(MODEL.group, 10, "0.000"),
        help="On a feeding day.",
    ),
    Computed(
        "nitrogen",
        "Ammonia nitrogen",
        nitrogen.ammonia_from_food(food="{food}", protein="{protein}"),
        look=Look(MODEL.group, 11, "0.0000"),
        help="Given off on a feeding day.",
    ),
)

COMPANY_AND_WATER = (
    Computed(
        "eaten_by",
        "Could be eaten by",
        logic('IF({victim_length}<{mouthful_max},{mouthful_who},"")'),
        kind=text(),
        look=Look("Company and water", 20),
    ),
    Computed(
        "could_eat",
        "Could eat",
        logic('IF({mouthful}>{victim_min},{victim_who},"")'),
        kind=text(),
        look=Look("Company and water", 20),
    ),
    Computed(
        "water_verdict",
        "Tank's water",
        logic(
            '_xlfn.IFS(SUM({expected})=1,"not there yet",{outside}<>"","◆ "&{outside},{compared}=0,"unknown",'
            '1=1,"inside its ranges")',
            needs=("tank_row", "species_row"),
            compared=COMPARED,
        ),
        kind=text(),
        look=VERDICT,
    ),
    Computed(
        "at_odds",
        "At odds over light, flow or floor",
        in_rows_with(
            "species_row",
            joined(
                ('{light_unlike}<>""', '"light: "&{light_unlike}'),
                ('{flow_unlike}<>""', '"flow: "&{flow_unlike}'),
                ('{bottom_rival}<>""', '"floor: "&{bottom_rival}'),
            ),
        ),
        kind=text(),
        look=Look("Company and water", 36),
        help=(
            "Who in its tank likes light or flow quite otherwise, or shares a floor too small for all. "
            "Tankmates and Comfort say what helps."
        ),
    ),
)

LIVESTOCK = Table(
    "livestock",
    title="Livestock",
    row_name=("tank", "species"),
    first="living",
    answers=(
        "water_verdict",
        "eaten_by",
        "could_eat",
        "at_odds",
        "length",
        "mass_each",
        "mass",
        "oxygen_draw",
        "food",
        "nitrogen",
    ),
    spare_rows=2,
    not_before="date_in",
    purpose="One row for each group of one species in one tank.",
    example={"tank": "Window tank", "species": "Neon tetra", "animals": 12},
    columns=(
        *TYPED,
        *LIVING,
        *CHAIN,
        *COMPANY_AND_WATER,
        *RANGES,
        *OF_SPECIES,
        *OF_TANK,
        *COUNTED,
        *growing.OF_GROUPS,
        *WANTED,
        *RISKS,
        *FLAGS,
        *WHYS,
    ),
)

SHEET = Sheet(
    "Livestock",
    role="input",
    blocks=(LIVESTOCK, ROLL),
    forms=(offer("livestock"),),
    frozen_columns=2,
    purpose="Who lives where, and how many; beside it the chain from length to nitrogen, and who is at risk from whom.",
    notes=(
        (
            "Mass from length is good to about a third, a factor of two for tiny fish; weigh some if it matters. "
            "Watch the animals: they overrule any calm cell."
        ),
    ),
)
