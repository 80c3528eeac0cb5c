"""Start: what this file is, the room's settings, and the way to every sheet."""

from collections.abc import Sequence
from dataclasses import replace

from workbook.sheets.altitude import ALTITUDES
from workbook.sheets.first_steps import KEEPER_STEPS, Step, first_steps
from workbook.sheets.in_view import VIEW
from workbook.sheets.parameters import RANGE_CHOICES
from workbook.tables import Computed, Look, Sheet, Table, Typed, choice, count, date, logic, number, text
from workbook.tables.completing import handed_counts

SETTINGS = Table(
    "settings",
    title="Your room",
    form=True,
    row_name=("room_name",),
    purpose="",
    columns=(
        Typed("room_name", "Name of the room", text(), look=Look(width=22)),
        Typed("plan_date_typed", "Plan date", date(), help="The day everything is reckoned for. Blank: today."),
        Computed(
            "plan_date",
            "Reckoned for",
            logic("IF(SUM({plan_date_typed})>0,{plan_date_typed},TODAY())", "date", copes=True),
            kind=date(),
            help="The plan date, or today.",
        ),
        Typed(
            "altitude",
            "Altitude",
            number(*ALTITUDES),
            unit="m",
            look=Look(show="0"),
            help="High rooms hold less oxygen in the water.",
        ),
        Typed(
            "room_temperature",
            "Coldest air in the room",
            number(-10, 45),
            unit="degC",
            look=Look(show="0.0"),
            help="Heaters are sized for it.",
        ),
        Typed(
            "range_choice",
            "Which range counts",
            choice(*RANGE_CHOICES),
            look=Look(width=12),
            help=(
                "reported: as written of the species. own: your own experience where you have it. both: "
                "where the two meet. either: the wider. A species may choose for itself."
            ),
        ),
        Typed(
            "nitrate_target",
            "Nitrate target",
            number(0.5, 200),
            unit="mg/L",
            look=Look(show="0"),
            help="Highest level just before a water change. Ammonia and nitrite: zero.",
        ),
        Typed("nitrate_act", "Nitrate to act on", number(1, 500), unit="mg/L", look=Look(show="0")),
        Typed(
            "ammonia_kit",
            "Ammonia kit reads",
            choice("N", "NH3", "NH4"),
            look=Look(width=12),
            help="As nitrogen (N, also called TAN), as NH3 or as NH4: it stands on the kit's leaflet.",
        ),
        Typed(
            "yield_choice",
            "Nitrate yield",
            choice("room", "tank"),
            look=Look(width=12),
            help=(
                "room: the constant for all tanks. tank: "
                "each tank's own from the log, from enough pairs of readings on."
            ),
        ),
        Typed(
            "energy_price",
            "Price of electricity",
            number(0, 100),
            unit="a kWh",
            look=Look(show="0.00##"),
            help="In your currency.",
        ),
        Typed("currency", "Currency", text(), look=Look(width=12)),
        Typed("lead_days", "Days from ordering food to having it", count(0, 365), unit="day", look=Look(show="0")),
    ),
)

COUNTS = Table(
    "counts",
    title="What is in this file",
    form=True,
    row_name=("tanks",),
    purpose="",
    columns=(
        Computed(
            "verdict",
            "Attention",
            logic('{attention_summary.verdict}&""', copes=True),
            kind=text(),
            look=Look(width=22),
            help="Each point stands on Attention with why and what to do.",
        ),
        Computed("tanks", "Tanks", logic("SUM({tanks.stands_now[]})", "1"), look=Look(show="0")),
        Computed("animals", "Animals", logic("SUM({livestock.living[]})", "1"), look=Look(show="0")),
        Computed(
            "groups",
            "Groups of animals",
            logic("ROWS({livestock.species[]})-COUNTBLANK({livestock.species[]})", "1"),
            look=Look(show="0"),
        ),
        Computed(
            "species",
            "Species in the library",
            logic("ROWS({species.species[]})-COUNTBLANK({species.species[]})", "1"),
            look=Look(show="0"),
        ),
        Computed(
            "checks",
            "Self-test",
            logic(
                'IF({right}={values},"this program reckons all "&{values}&" published values right",'
                '"▲ "&({values}-{right})&" of "&{values}&" published values come out wrong: see Sources")',
                right="{check_summary.held}",
                values="{check_summary.of}",
            ),
            kind=text(),
            look=Look(width=22, status=True),
            help="Published numbers, reckoned anew by the program you have open.",
        ),
    ),
)

ABOUT = Table(
    "about",
    title="About this file",
    form=True,
    told=True,
    chosen=True,
    row_name=("edition",),
    purpose="",
    columns=(
        Typed("edition", "Edition", text(), locked=True),
        Typed("units", "Units", text(), locked=True),
        Typed("version", "Made by shoalbook", text(), locked=True),
        Typed(
            "schema",
            "Schema",
            count(1, 9999),
            locked=True,
            look=Look(show="0"),
            help="Used when an edited copy comes back.",
        ),
        Typed(
            "stamp",
            "Stamp",
            text(),
            locked=True,
            help=(
                "Which hand-out this is: copies of it carry the same stamp, "
                "and merge finds by it what each copy was taken from."
            ),
        ),
        Typed(
            "made_from",
            "Made from",
            text(),
            locked=True,
            help="The stamp of the workbook that this one was made from.",
        ),
        Typed(
            "holds",
            "Copies in it",
            text(),
            locked=True,
            help="Marks of the copies that were merged into it, so that none counts twice.",
        ),
    ),
)

WHOSE_COPY = Table(
    "whose_copy",
    title="Whose copy this is",
    form=True,
    chosen=True,
    row_name=("who",),
    purpose="",
    columns=(
        Typed(
            "who",
            "Who types in this copy",
            text(),
            look=Look(width=22),
            help=(
                "Before several people type in copies of one file: a name, "
                "so that two copies with the same sales are told apart from one that was sent twice."
            ),
        ),
    ),
)

NOTES = (
    (
        "Yellow cells are yours to type in; everything else follows from them. Nothing is hidden: "
        "the steps stand at the right, those of a list on its sheet of workings at the end."
    ),
    (
        "Blank means unknown, never zero: type 0 where there is none. Every flag has a sign: ▲ act, ◆ watch, ○ note. "
        "Rows of lists may be sorted, put in and deleted."
    ),
    "Figures are planning estimates. Test the water, watch the animals; they overrule any calm cell.",
    "Electricity and water: residual-current (ground-fault) protection, drip loops, unplug before hands go in.",
    "Filled tanks are heavy: floor and stand by someone qualified.",
    (
        "Chemicals and medicines: their label, a veterinarian, local law; never mix acids and bleach. Infections: "
        "gloves, cover cuts, never siphon by mouth, wash."
    ),
    (
        "Never release animals, plants or water; "
        "check local lists of restricted species before you keep, breed or pass on."
    ),
)


PURPOSE = (
    "A planning workbook for a room of freshwater aquariums: what lives with what, how many, in which water, "
    "what to feed, change and clean."
)


# What one does on the sheets of each role, and how their tabs look: Start lists them in the order of the tabs.
GROUPS = {
    "guide": "Read first (dark tabs)",
    "answer": "Look (blue tabs)",
    "input": "Type (yellow tabs)",
    "choice": "Choose (orange tabs)",
    "printable": "Print (green tabs)",
    "reference": "Look up (grey tabs)",
    "detail": "Behind the answers, step by step (pale tabs)",
}


def ways_to(sheets: Sequence[Sheet]) -> tuple[Table, ...]:
    """Links to all sheets, in a list for each thing that one does there."""
    found = []
    for role, title in GROUPS.items():
        there = [sheet for sheet in sheets if sheet.role == role]
        links = tuple(
            Computed(
                f"go_{i}",
                sheet.title,
                logic(f'HYPERLINK("#\'{sheet.title}\'!A1","go to {sheet.title}")'),
                kind=text(),
                help=sheet.purpose,
                look=Look(link=True),
            )
            for i, sheet in enumerate(there, 1)
        )
        if links:
            found.append(Table(f"go_to_{role}", title=title, form=True, row_name=("go_1",), purpose="", columns=links))
    return tuple(found)


def start_sheet(
    others: tuple[Sheet, ...],
    settings: Table = SETTINGS,
    counts: Table = COUNTS,
    purpose: str = PURPOSE,
    steps: Sequence[Step] = KEEPER_STEPS,
) -> Sheet:
    """The first sheet, with the first steps and links to all others."""
    handed = handed_counts(table for sheet in others for table in sheet.tables)
    about = replace(ABOUT, columns=(*ABOUT.columns, *handed))
    return Sheet(
        "Start",
        role="guide",
        # Links, settings and a self-test: what is done with them is done on the screen.
        on_paper=False,
        forms=(VIEW, first_steps(steps), settings, counts, *ways_to(others), WHOSE_COPY, about),
        notes=NOTES,
        purpose=purpose,
    )
