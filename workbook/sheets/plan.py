"""Plan: what is to come, go or move, and what that makes of each tank, kept apart from the living room."""

from workbook.sheets.groups import offer
from workbook.sheets.plan_answers import CARE, CARRIES, CLASHES, FULL, WATER
from workbook.sheets.plan_typed import LINES_TABLE, VALUES
from workbook.sheets.plan_workings import FOUND, MENTIONS, PLANNED
from workbook.tables import Sheet
from workbook.tables.sheet import Band

# What is typed of a line, then fourteen narrow columns for numbers.
GRID = (8, 8, 20, 14, 14, 10.5, 6, *[5.4] * 14)

SHEET = Sheet(
    "Plan",
    role="choice",
    bands=(
        Band(((LINES_TABLE,),)),
        Band(((FULL,),)),
        Band(((CLASHES,),)),
        Band(((CARE,),)),
        Band(((WATER[0],),)),
        Band(((WATER[1],),)),
        Band(((VALUES,),), (3,)),
    ),
    grid=GRID,
    forms=(offer("plan", "Only"),),
    frozen_columns=0,
    close=True,
    purpose=(
        "What you think of doing, and what it would make of each tank. Nothing else in the file moves with it. "
        "What is on its way and tanks that are only planned count here. "
        "Of two numbers the left is now, the right is then."
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
