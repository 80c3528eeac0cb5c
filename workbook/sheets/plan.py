"""Plan: what is to come, go or move, and what that makes of each tank, kept apart from the living room."""

from workbook.sheets.plan_typed import LINES_TABLE, VALUES
from workbook.sheets.plan_workings import FOUND, MENTIONS, PLANNED
from workbook.tables import Sheet

SHEET = Sheet(
    "Plan",
    role="choice",
    blocks=(LINES_TABLE, VALUES),
    purpose="What you think of doing, and what it would make of each tank. Nothing else in the file moves with it.",
)
DETAIL_SHEET = Sheet(
    "Plan in detail",
    role="detail",
    blocks=(MENTIONS, FOUND, *PLANNED.values()),
    on_paper=False,
    frozen_columns=0,
    purpose="How the tanks of the plan are reckoned: by the same formulas as the room, over what is planned.",
)
