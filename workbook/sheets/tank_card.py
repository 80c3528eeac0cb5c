"""Tank card: one page about the chosen tank, to pin up beside it."""

from workbook.sheets.chosen_tank import TANK
from workbook.sheets.in_view import tank_shown
from workbook.sheets.pages import (
    COUNT,
    INSIDE,
    KEPT,
    LINES,
    NUMBER,
    STRONG,
    TEXT,
    WORDS,
    bar,
    broken,
    by_line,
    drawn,
    facts,
    named,
    nth,
    number_by_line,
    or_unknown,
    over,
)
from workbook.sheets.parameters import KEYS, PARAMETERS
from workbook.tables import Computed, Look, Pulled, Sheet, Table, logic, row, text
from workbook.tables.completing import SEPARATOR, SYMBOLS
from workbook.tables.formula import filled
from workbook.tables.idioms import all_said, cell, joined
from workbook.tables.sheet import Band
from workbook.tables.template import WORDS as WORDS_OF
from workbook.tables.template import column, here, of, quoted, said

GRID = (14, 21, 11, 1.5, 17, 11, 24)

ACROSS = len(GRID)

THERE = "{tank_card.row}"

CHOICE = Table(
    "card_choice",
    title="Tank of this card",
    purpose="",
    row_name=("tank",),
    form=True,
    chosen=True,
    columns=tank_shown("Tank", "The page below follows; only the page is printed."),
)

HEAD = Table(
    "tank_card_head",
    title="",
    lines=1,
    row_name=("said",),
    purpose="",
    row_height=44,
    columns=(
        Computed(
            "said",
            "Name",
            logic('IF({tank_card.row}="","Choose a tank above",{tank_card.tank}&"")', copes=True),
            kind=text(),
            look=Look(style="page name", span=ACROSS),
        ),
    ),
)

SIZE = joined(
    *(
        (f'{side}<>""', said(f"tank_card.{key_}"))
        for key_ in ("length", "width", "height")
        for side in (of("tank_card", key_),)
    ),
    between=" × ",
)

THE_TANK = facts(
    "tank_card_facts",
    "The tank",
    THERE,
    (
        ("Stands", or_unknown("tank_card.place", "{tank_card.place}")),
        ("Shape", or_unknown("tank_card.shape", "{tank_card.shape}")),
        (
            "Size",
            filled('IF(COUNT({tank_card.length},{tank_card.width},{tank_card.height})=0,"unknown",{size})', size=SIZE),
        ),
        ("Net volume", or_unknown("tank_card.net_volume")),
        ("Set to", or_unknown("tank_card.temperature")),
        ("Filled from", or_unknown("tank_card.water", "{tank_card.water}")),
        ("Filter", or_unknown("tank_card.filter_flow")),
        ("Heater", or_unknown("tank_card.heater_size")),
        ("Filled mass", or_unknown("tank_card.filled_mass")),
    ),
    2,
)

RESIDENTS = Table(
    "tank_card_residents",
    title="Who lives in it",
    lines=13,
    row_name=("species",),
    purpose="",
    columns=(
        Pulled("animals", via="found", label="How many", look=NUMBER),
        Computed(
            "species",
            "Kind",
            named("tank_card_residents", "{tank_card.residents}", "{name}", "groups"),
            kind=text(),
            look=over(TEXT, 2),
        ),
        nth(
            "tank_card_residents",
            "{tank_card.residents}",
            "INDEX({roll.group[]},{tank_card.run_end}-{tank_card.residents}+{line})",
            row("livestock"),
        ),
        Pulled("name", via="found", of="species"),
        *(Pulled(f"{p.key}_{end}", via="found") for p in PARAMETERS for end in ("low", "high")),
        *(Pulled(f"said_{level}", via="found") for level in SYMBOLS),
        *(
            Computed(
                f"all_{level}",
                f"So far: {level}",
                logic(
                    '{above.all_*}&IF({said_*}="","",IF({above.all_*}="","",{mark})'
                    '&SUBSTITUTE({said_*},{symbol},{symbol}&{name}&": "))',
                    copes=True,
                    each=level,
                    mark=quoted(SEPARATOR),
                    symbol=quoted(f"{symbol} "),
                ),
                kind=text(),
                seed='""',
                look=WORDS,
            )
            for level, symbol in SYMBOLS.items()
        ),
    ),
)

ROUTINE = facts(
    "tank_card_routine",
    "What it gets",
    THERE,
    (
        ("Water change", f'{or_unknown("tank_card.change_share")}&" every "&{or_unknown("tank_card.change_interval")}'),
        ("That is", or_unknown("tank_card.litres")),
        ("Next by the log", 'IF({tank_card.next_change}="","no change in the log",{@words.tank_card.next_change})'),
        ("Food a day", or_unknown("tank_card.grams_day", '{@words.tank_card.grams_day}&" as fed"')),
        ("Meals", or_unknown("tank_card.meals")),
        ("Fasting days", or_unknown("tank_card.fasting_days", '{tank_card.fasting_days}&" a week"')),
        (
            "In a power cut",
            'IF({tank_card.reserve}="","hours of oxygen unknown","oxygen for "&{@words.tank_card.reserve})',
        ),
    ),
    2,
)

FOODS = Table(
    "tank_card_foods",
    title="Each meal",
    lines=6,
    row_name=("food",),
    purpose="",
    columns=(
        Computed("grams", "As fed", logic("{@words.grams_meal}", needs=("grams_meal",)), kind=text(), look=STRONG),
        Computed("spoons", "Spoons", logic("{@words.spoons_meal}", needs=("spoons_meal",)), kind=text(), look=TEXT),
        Computed(
            "food", "Food", named("tank_card_foods", "{tank_card.foods}", "{name}", "foods"), kind=text(), look=TEXT
        ),
        nth(
            "tank_card_foods",
            "{tank_card.foods}",
            "SMALL({feeding.in_tank[]},{tank_card.foods_before}+{line})-{tank_card.row}*10^6",
            row("feeding"),
        ),
        Pulled("name", via="found", of="food"),
        Pulled("grams_meal", via="found"),
        Pulled("spoons_meal", via="found"),
    ),
)

TASKS = Table(
    "tank_card_tasks",
    title="What is due next",
    lines=6,
    row_name=("task",),
    purpose="",
    columns=(
        Pulled("next_due", via="found", label="On", look=NUMBER),
        Computed(
            "task",
            "Task",
            named("tank_card_tasks", "{tank_card.tasks}", "{name}", "tasks"),
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
    ),
)


def of_each(part: str, words: str = "") -> tuple[str, ...]:
    """A value of each of the four parameters, as the card's form holds it; or in words."""
    return tuple(here(f"{words}tank_card.{key_}_{part}") for key_ in KEYS)


SAID_AT = by_line(*(said(f"tank_card.{p.kept}") for p in PARAMETERS))

SAID_ENDS = filled(
    '{low}&" to "&{high}', low=by_line(*of_each("low", WORDS_OF)), high=by_line(*of_each("high", WORDS_OF))
)

LOW_BY, HIGH_BY = (by_line(*of_each(f"{end}_by")) for end in ("low", "high"))

WATER = Table(
    "tank_card_water",
    title="Water that suits all who live in it",
    lines=len(PARAMETERS),
    row_name=("name",),
    purpose="",
    row_height=34,
    columns=(
        Computed("name", "", logic(by_line(*(quoted(p.label) for p in PARAMETERS))), kind=text(), look=STRONG),
        Computed(
            "told",
            "From and to, kept at",
            logic(
                'IF({tank_card.row}="","",IF(COUNT({low},{high})<2,"unknown",IF({high}<{low},"nothing shared",{ends}))'
                '&CHAR(10)&IF({kept}="","kept at: unknown","kept at "&{said_kept}))',
                copes=True,
                ends=SAID_ENDS,
                said_kept=SAID_AT,
            ),
            kind=text(),
            look=LINES,
        ),
        Computed(
            "drawn",
            f"{INSIDE} suits all   {KEPT} kept at   · suits some",
            drawn(by_line(*of_each("start", WORDS_OF)), by_line(*of_each("end", WORDS_OF)), kept=True),
            kind=text(),
            look=Look(style="page bar", span=4),
        ),
        Computed(
            "set_by",
            "Ends set by",
            logic(
                'IF(COUNT({low},{high})<2,"","low: "&{low_by}&CHAR(10)&"high: "&{high_by})',
                copes=True,
                low_by=LOW_BY,
                high_by=HIGH_BY,
            ),
            kind=text(),
            look=LINES,
        ),
        number_by_line("low", "Shared from", *of_each("low")),
        number_by_line("high", "Shared to", *of_each("high")),
        number_by_line("kept", "Kept at", "{tank_card.temperature}", *of_each("used")[1:]),
        number_by_line("start", "Scale from", *of_each("start")),
        number_by_line("end", "Scale to", *of_each("end")),
        *bar(kept="kept"),
    ),
)


def of_residents(level: str) -> str:
    """Formula text: all that is said of the residents, from the last line of their list."""
    return cell(column("tank_card_residents", f"all_{level}"), "ROWS({tank_card_residents.line[]})")


FLAGS = broken(
    "tank_card_flags",
    "Needs attention (▲ act, ◆ watch, ○ note); all of it stands on Attention",
    10,
    all_said(
        [
            "{tank_card.said_now}",
            of_residents("act"),
            "{tank_card.said_soon}",
            of_residents("watch"),
            "{tank_card.said_too}",
            of_residents("note"),
        ],
        SEPARATOR,
    ),
    ACROSS,
)

CAUTIONS = Table(
    "tank_card_cautions",
    title="Always",
    lines=3,
    row_name=("said",),
    purpose="",
    columns=(
        Computed(
            "said",
            "",
            logic(
                by_line(
                    quoted(
                        "Electricity: residual-current (ground-fault) protection,"
                        " drip loops; unplug before hands go in. "
                        "Heavy when filled: never move it with water in."
                    ),
                    quoted(
                        "Gloves and covered cuts, never start a siphon by mouth, wash hands afterwards. "
                        "Chemicals and medicines: by their label and a veterinarian."
                    ),
                    quoted(
                        "Never release animals, plants or water. "
                        "Figures are planning estimates: test the water and watch the animals."
                    ),
                )
            ),
            kind=text(),
            look=Look(style="page small", span=ACROSS),
        ),
    ),
)

SHEET = Sheet(
    "Tank card",
    role="printable",
    portrait=True,
    forms=(CHOICE,),
    frozen_columns=0,
    grid=GRID,
    beside=(TANK,),
    bands=(
        Band(((HEAD,),)),
        Band(((THE_TANK, RESIDENTS), (ROUTINE, FOODS, TASKS)), (1, 5)),
        Band(((WATER,),)),
        Band(((FLAGS,),)),
        Band(((CAUTIONS,),)),
    ),
    purpose="One page about the chosen tank, to print and pin up beside it.",
)
