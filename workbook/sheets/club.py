"""What a club hands out: its species, foods, tasks and constants, locked, with a member's own values beside them."""

from dataclasses import replace

from workbook.sheets import constants, foods, maintenance, species
from workbook.sheets.start import COUNTS, SETTINGS
from workbook.tables import Computed, Look, Sheet, Typed, logic, text
from workbook.tables.columns import Column
from workbook.tables.handing import handed_out
from workbook.tables.table import Table
from workbook.tables.template import for_each

SPECIES = handed_out(species.SPECIES, ("adult_length", "group_min", "volume_min", "temper"), "own_species")
FOODS = handed_out(
    foods.FOODS,
    ("protein", "dry_matter", "spoon_mass", "piece_mass", "particle"),
    "own_foods",
    yours=("stock", "pack_price", "pack_mass", "food_note"),
)
TASKS = replace(
    handed_out(maintenance.TASKS, ("usual_days", "usual_minutes", "usual_supplies"), "own_tasks"),
    purpose="What the club says; type your own beside it where that does not suit your room.",
)
CONSTANTS = replace(
    handed_out(constants.CONSTANTS, ("value",), "own_constants"),
    purpose="What the club says; type your own value beside it and everything that uses it follows.",
)
BODY_FORMS = handed_out(constants.BODY_FORMS, ("mass_factor", "mass_exponent"), "own_body_forms")
HEATER_SIZES = handed_out(constants.HEATER_SIZES, (), "")


def with_tables(sheet: Sheet, *tables: Table, **changes: object) -> Sheet:
    """The sheet with these tables in the place of those of the same key."""
    by_key = {table.key: table for table in tables}
    blocks = tuple(by_key.get(block.key, block) for block in sheet.blocks)
    return replace(sheet, blocks=blocks, **changes)  # type: ignore[arg-type]


LOCKED = (
    "A cell that the club filled asks before it takes anything else; your own value beside it counts instead. "
    "Rows may be sorted; the ready rows below take more of your own."
)
KEEPER = "Whoever keeps the library says yes to that question."
SPECIES_SHEET = with_tables(species.SHEET, SPECIES, notes=(*species.SHEET.notes, LOCKED, KEEPER))
FOODS_SHEET = with_tables(foods.SHEET, FOODS, notes=(LOCKED, KEEPER))
TASKS_SHEET = with_tables(maintenance.LIST_SHEET, TASKS)
CONSTANTS_SHEET = with_tables(
    constants.SHEET,
    CONSTANTS,
    BODY_FORMS,
    HEATER_SIZES,
    purpose="Numbers that the sheets reckon with: what the club says, your own beside it, and which of the two counts.",
)

PURPOSE = (
    "A planning workbook for the members of a club: your tanks and animals, "
    "with the library that the club keeps for all of you. Guidance says where to begin."
)


def _with_names(columns: tuple[Column, ...]) -> tuple[Column, ...]:
    names = (
        Typed("club_name", "Club", text(), look=Look(width=22)),
        Typed(
            "member_name", "Member", text(), look=Look(width=22), help="So that the club knows whose file came back."
        ),
    )
    return (*names, *columns)


OWN = {"own_species", "own_foods", "own_tasks", "own_constants", "own_body_forms"}
OWN_NUMBERS = tuple(
    f"{table.key}.{column.key}"
    for table in (SPECIES, FOODS, TASKS, CONSTANTS, BODY_FORMS)
    for column in table.typed
    if column.kept_in in OWN and column.kind.is_number
)

CLUB_SETTINGS = replace(SETTINGS, columns=_with_names(SETTINGS.columns))
CLUB_COUNTS = replace(
    COUNTS,
    columns=(
        *COUNTS.columns,
        Computed(
            "own_values",
            "Own values beside the club's",
            logic("COUNT({own_numbers})", "1", own_numbers=for_each(OWN_NUMBERS, "{*[]}")),
            look=Look(show="0"),
            help="Numbers of your own that count instead of the club's.",
        ),
        Computed(
            "proposed",
            "Species proposed",
            logic("ROWS({proposals.proposed[]})-COUNTBLANK({proposals.proposed[]})", "1"),
            look=Look(show="0"),
        ),
    ),
)
