"""Plan: what is to come, go or move, and what that makes of each tank, kept apart from the living room."""

from workbook.sheets.groups import offer
from workbook.sheets.plan_answers import CARE, CARRIES, CLASHES, FULL, WATER
from workbook.sheets.plan_typed import LINES_TABLE, VALUES
from workbook.sheets.plan_workings import FOUND, MENTIONS, PLANNED
from workbook.tables import Sheet
from workbook.tables.sheet import Band

# What is typed of a line, then fourteen narrow columns for numbers.
GRID = (8, 8, 17.5, 12.5, 12.5, 10, 5.5, *[5.0] * 14)

SHEET = Sheet(
    "Plan",
    role="choice",
    bands=(
        Band(((LINES_TABLE,),)),
        Band(((FULL,),)),
        Band(((CLASHES,),)),
        Band(((CARE,),)),
        *(Band(((table,),)) for table in WATER),
        Band(((VALUES,),), (3,)),
    ),
    grid=GRID,
    forms=(offer("plan", "Only"),),
    frozen_columns=0,
    close=True,
    new_page_before=("plan_care",),
    purpose=(
        "What you think of doing, and what it would make of each tank: left as it is now, right as it would be. "
        "Nothing else moves with it."
    ),
)
DETAIL_SHEET = Sheet(
    "Plan in detail",
    role="detail",
    blocks=(MENTIONS, FOUND, *PLANNED.values(), CARRIES),
    on_paper=False,
    frozen_columns=0,
    purpose="How the tanks of the plan are reckoned: by the same formulas as the room, over what is planned.",
)
