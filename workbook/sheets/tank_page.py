"""Tank: one tank on one page, for a look before feeding and for the wall beside it."""

from workbook.sheets import tank_nitrate
from workbook.sheets.chosen_tank import TANK
from workbook.sheets.fullest import LABELS, MEASURES
from workbook.sheets.in_view import tank_shown
from workbook.sheets.log import MEASURED
from workbook.sheets.pages import (
    COUNT,
    KEY,
    NUMBER,
    STRONG,
    TEXT,
    WORDS,
    broken,
    by_line,
    facts,
    named,
    nth,
    or_unknown,
    over,
)
from workbook.sheets.tank_bars import SHARED, WATER
from workbook.sheets.tank_residents import RESIDENTS
from workbook.tables import Computed, Look, Pulled, Sheet, Table, logic, row, text
from workbook.tables.completing import SEPARATOR
from workbook.tables.formula import filled
from workbook.tables.idioms import all_said, cell, joined
from workbook.tables.sheet import Band
from workbook.tables.template import here, of, quoted, said

# Left: kind, how it fares, how many, a bar for each parameter. Right: a day or a label, a number, words.
GRID = (20, 36, 5, 13.5, 13.5, 13.5, 13.5, 1, 13, 9, 17)

LEFT = 7
ACROSS = len(GRID)
# Letters that fit on a line of the left part, with room to spare for wide ones.
LINE_LETTERS = 140

THERE = "{tank_card.row}"

CHOICE = Table(
    "card_choice",
    title="Tank of this page",
    purpose="",
    row_name=("tank",),
    form=True,
    chosen=True,
    columns=tank_shown("Tank", "The page below follows, and so do Overlap and Tankmates.")[:1],
)

SIZE = joined(
    *(
        (f'{side}<>""', said(f"tank_card.{key_}"))
        for key_ in ("length", "width", "height")
        for side in (of("tank_card", key_),)
    ),
    between=" × ",
)

HEAD = Table(
    "tank_card_head",
    title="",
    lines=1,
    row_name=("said",),
    purpose="",
    row_height=32,
    columns=(
        Computed(
            "said",
            "Name",
            logic('IF({tank_card.row}="","Choose a tank above",{tank_card.tank}&"")', copes=True),
            kind=text(),
            look=Look(style="page title", span=2),
        ),
        Computed(
            "about",
            "In short",
            logic(
                'IF({tank_card.row}="","",{volume}&" net, set to "&{temperature}&", "&{animals}&" animals; fullest by "'
                '&{binding}&IF({tank_card.place}="","",".  Stands: "&{tank_card.place}))',
                copes=True,
                volume=or_unknown("tank_card.net_volume"),
                temperature=or_unknown("tank_card.temperature"),
                animals=or_unknown("tank_card.animals"),
                binding=or_unknown(
                    "tank_card.binding_share", '{tank_card.binding}&" ("&{@words.tank_card.binding_share}&")"'
                ),
            ),
            kind=text(),
            look=Look(style="page aside", span=ACROSS - 2),
        ),
    ),
)


ROUTINE = facts(
    "tank_card_routine",
    "What it gets",
    THERE,
    (
        (
            "Water change",
            f'{or_unknown("tank_card.change_share")}&" ("&{or_unknown("tank_card.litres")}&") every "'
            f"&{or_unknown('tank_card.change_interval')}",
        ),
        (
            "Next change",
            'IF({tank_card.next_change}="","no interval known",{@words.tank_card.next_change}&", "&{tank_card.recipe})',
        ),
        ("Food a day", or_unknown("tank_card.grams_day", '{@words.tank_card.grams_day}&" as fed"')),
        (
            "Meals",
            f"{or_unknown('tank_card.meals')}"
            '&IF(SUM({tank_card.fasting_days})=0,"","; fasting "&{@words.tank_card.fasting_days}&" a week")',
        ),
        ("Nauplii", 'IF(SUM({tank_card.wanted})=0,"none",{@words.tank_card.wanted})'),
        (
            "In a power cut",
            'IF({tank_card.reserve}="","hours of oxygen unknown","oxygen for "&{@words.tank_card.reserve})',
        ),
    ),
    2,
)

READ = Table(
    "tank_read",
    title="Newest readings",
    lines=len(MEASURED),
    row_name=("name",),
    purpose="",
    columns=(
        Computed("name", "", logic(by_line(*(quoted(label) for _, label, *_ in MEASURED))), kind=text(), look=KEY),
        Computed(
            "told",
            "",
            logic(
                'IF({tank_card.row}="","",{words})',
                copes=True,
                words=by_line(*(or_unknown(f"tank_card.read_{key_}") for key_, *_ in MEASURED)),
            ),
            kind=text(),
            look=STRONG,
        ),
        Computed(
            "on",
            "on",
            logic(
                by_line(
                    *(
                        f'IF({here(day)}="","",{said(day)})'
                        for day in (f"tank_card.read_{key_}_on" for key_, *_ in MEASURED)
                    )
                ),
                copes=True,
            ),
            kind=text(),
            look=TEXT,
        ),
    ),
)

FOODS = Table(
    "tank_card_foods",
    title="Each meal",
    lines=4,
    row_name=("food",),
    purpose="",
    columns=(
        Computed("grams", "", logic("{@words.grams_meal}", needs=("grams_meal",)), kind=text(), look=STRONG),
        Computed("measured", "or about", logic("{measured_meal}", needs=("measured_meal",)), kind=text(), look=TEXT),
        Computed("food", "", named("tank_card_foods", "{tank_card.foods}", "{name}", "foods"), kind=text(), look=TEXT),
        nth(
            "tank_card_foods",
            "{tank_card.foods}",
            "SMALL({feeding.in_tank[]},{tank_card.foods_before}+{line})-{tank_card.row}*10^6",
            row("feeding"),
        ),
        Pulled("name", via="found", of="food"),
        Pulled("grams_meal", via="found"),
        Pulled("measured_meal", via="found", of="measured"),
    ),
)

TASKS = Table(
    "tank_card_tasks",
    title="Due next",
    lines=4,
    row_name=("task",),
    purpose="",
    columns=(
        Pulled("next_due", via="found", label="", look=NUMBER),
        Computed(
            "task",
            "",
            named(
                "tank_card_tasks",
                "{tank_card.tasks}",
                'IF(SUM({days_late})>0,{@words.days_late}&" late: ","")&{name}',
                "tasks",
            ),
            kind=text(),
            look=over(TEXT, 2),
        ),
        Computed(
            "place",
            "Its place in the order",
            logic(
                'IF(OR({line}>SUM({tank_card.tasks}),{line}=ROWS({tank_card_tasks.line[]})),"",'
                "SMALL({maintenance.in_tank[]},{tank_card.tasks_before}+{line}))",
                "1",
                copes=True,
            ),
            look=COUNT,
        ),
        Computed("found", "Its row", logic("{place}-INT({place}/10^5)*10^5", "1"), kind=row("maintenance"), look=COUNT),
        Pulled("name", via="found", of="task"),
        Pulled("days_late", via="found"),
    ),
)

DRAWN = logic('REPT("▒",MIN(10,ROUND({share}*10,0)))&IF({share}>1,"█","")', needs=("share",))

FULL = Table(
    "tank_full",
    title="How full by each measure",
    lines=len(MEASURES),
    row_name=("measure",),
    purpose="",
    columns=(
        Computed("measure", "", logic(by_line(*LABELS)), kind=text(), look=KEY),
        Computed("told", "", logic("{@words.share}", needs=("share",)), kind=text(), look=STRONG),
        Computed(
            "drawn",
            "",
            logic(
                'REPT("▒",MIN(10,ROUND({share}*10,0)))&IF({share}>1,"█","")'
                '&IF({tank_card.binding}={measure}," binds","")',
                needs=("share", "measure"),
            ),
            kind=text(),
            look=Look(style="page bar"),
        ),
        Computed(
            "share",
            "Share of the limit",
            logic(by_line(*(here(f"tank_card.{key}_share") for key, _ in MEASURES)), "1", needs=("tank_card.row",)),
            look=Look(working=True, show="0%"),
        ),
    ),
)

# How full it is today, some weeks on, and when its young animals are grown.
DAYS = (
    ("binding_share", '"Today"'),
    ("binding_share_later", 'IF(COUNT({const.growth_ahead})=0,"Some weeks on","In "&{@words.const.growth_ahead})'),
    ("binding_share_grown", '"All grown"'),
)
GROWTH = Table(
    "tank_growth",
    title="As young animals grow",
    lines=len(DAYS),
    row_name=("day",),
    purpose="",
    columns=(
        Computed("day", "", logic(by_line(*(words for _, words in DAYS)), copes=True), kind=text(), look=KEY),
        Computed("told", "", logic("{@words.share}", needs=("share",)), kind=text(), look=STRONG),
        Computed("drawn", "", DRAWN, kind=text(), look=Look(style="page bar")),
        Computed(
            "share",
            "Share of the limit",
            logic(by_line(*(here(f"tank_card.{key}") for key, _ in DAYS)), "1", needs=("tank_card.row",)),
            look=Look(working=True, show="0%"),
        ),
    ),
)


FLAGS = broken(
    "tank_card_flags",
    "Open here (▲ act, ◆ watch, ○ note), as on Attention",
    10,
    logic(
        'IF({tank_card.all_lines}="",IF({tank_card.row}="","",{nothing}),{tank_card.all_lines})',
        copes=True,
        nothing=quoted("Nothing."),
    ),
    LEFT,
    letters=LINE_LETTERS,
)

# So many reasons are told here; Tankmates has them all.
REASONS = 7
REASON = Computed(
    "told",
    "What speaks against a pair",
    logic(
        'IF({line}>ROWS({reasons.line[]}),"",IF({verdict}="","",{verdict}&": "&{who}&": "&{why}))',
        copes=True,
        verdict=cell("{reasons.verdict[]}", "{line}"),
        who=cell("{reasons.who[]}", "{line}"),
        why=cell("{reasons.why[]}", "{line}"),
    ),
    kind=text(),
    look=WORDS,
)
TOLD = [cell("{tank_pairs.told[]}", str(n)) for n in range(1, REASONS + 1)]
PAIRS = broken(
    "tank_pairs",
    "Who does not go with whom",
    REASONS,
    logic(
        'IF({tank_card.row}="","",IF({first}="",{summary},{all_of_them}))',
        copes=True,
        first=TOLD[0],
        summary='"Pairs: "&{mates_choice.paired}&"."',
        all_of_them=all_said(TOLD, SEPARATOR),
    ),
    LEFT,
    REASON,
    letters=LINE_LETTERS,
)

THE_TANK = facts(
    "tank_card_facts",
    "The tank itself",
    THERE,
    (
        (
            "Measures",
            filled(
                'IF(COUNT({tank_card.length},{tank_card.width},{tank_card.height})=0,"size unknown",{size})'
                '&", "&{shape}&"; filled mass "&{mass}',
                size=SIZE,
                shape=or_unknown("tank_card.shape", "{tank_card.shape}"),
                mass=or_unknown("tank_card.filled_mass"),
            ),
        ),
        (
            "Water and works",
            filled(
                '"filled from "&{water}&"; filter "&{filter}&"; heater "&{heater}',
                water=or_unknown("tank_card.water", "{tank_card.water}"),
                filter=or_unknown("tank_card.filter_flow"),
                heater=or_unknown("tank_card.heater_size"),
            ),
        ),
        ("Note", '{tank_card.tank_note}&""'),
    ),
    LEFT - 1,
)

CAUTIONS = Table(
    "tank_card_cautions",
    title="",
    lines=2,
    row_name=("said",),
    purpose="",
    columns=(
        Computed(
            "said",
            "",
            logic(
                by_line(
                    quoted(
                        "Residual-current (ground-fault) protection, drip loops; unplug before hands go in. Never move "
                        "a filled tank. Gloves and covered cuts, no siphon by mouth, wash hands."
                    ),
                    quoted(
                        "Chemicals and medicines by their label and a veterinarian. Never release animals, plants or "
                        "water. Planning estimates: test the water, watch the animals."
                    ),
                )
            ),
            kind=text(),
            look=Look(style="page plain", span=ACROSS),
        ),
    ),
)

SHEET = Sheet(
    "Tank",
    forms=(CHOICE,),
    frozen_columns=0,
    close=True,
    grid=GRID,
    beside=(TANK,),
    bands=(
        Band(((HEAD,),)),
        Band(
            (
                (FLAGS, WATER, SHARED, RESIDENTS, PAIRS, THE_TANK),
                (TASKS, FOODS, FULL, GROWTH, tank_nitrate.HEAD, tank_nitrate.CHART, ROUTINE, READ),
            ),
            (1, LEFT + 2),
        ),
        Band(((CAUTIONS,),)),
    ),
    purpose="The tank in view on one page: who lives in it, what is open, what to do and to feed. Pick another below.",
)
