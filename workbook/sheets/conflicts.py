"""Conflicts: what merged copies do not agree on, with room for a decision; there while there is something to decide."""

from workbook.sheets.first_steps import Step
from workbook.tables import Flag, Look, Sheet, Table, Typed, count, text

WHAT, WORKING = "What the copies do not agree on", Look("Used when this file comes back", working=True, width=12)

CONFLICTS = Table(
    "conflicts",
    title="Conflicts",
    told=True,
    row_name=("where", "row", "column", "whose"),
    purpose="One line for each version.",
    columns=(
        Typed("where", "Table", text(), locked=True, look=Look(WHAT, 16)),
        Typed("row", "Row", text(), locked=True, look=Look(WHAT, 36)),
        Typed("column", "Column", text(), locked=True, look=Look(WHAT, 20)),
        Typed("whose", "Whose version", text(), locked=True, look=Look(WHAT, 24)),
        Typed("says", "Version", text(), locked=True, look=Look(WHAT, 36)),
        Typed(
            "decision",
            "Decision",
            text(),
            look=Look("Yours to decide", 24),
            help=(
                "Type take beside the version that holds; or, in any of its lines: "
                "base, the name of a copy, or the value."
            ),
        ),
        Typed("stands", "Where it stands", text(), locked=True, look=Look("Where each version stands", 28)),
        Typed("table_key", "Key of the table", text(), locked=True, look=WORKING),
        Typed("row_key", "Key of the row", text(), locked=True, look=WORKING),
        Typed(
            "nth", "Which of that name", count(1, 100_000), locked=True, look=Look(WORKING.group, 12, "0", working=True)
        ),
        Typed("part", "Part of the row", text(), locked=True, look=WORKING),
        Typed("column_key", "Key of the column", text(), locked=True, look=WORKING),
        Typed("names", "Names of the copies", text(), locked=True, look=WORKING),
        Typed("sort", "Sort of value", text(), locked=True, look=WORKING),
        Typed("value", "Value", text(), locked=True, look=WORKING),
        # Said once for each point: the base's version is one of its lines.
        Flag(
            "undecided",
            "Copies do not agree",
            when='{whose}="base"',
            why="{column} is not the same in all copies; until you decide, the table holds what the base held",
            do="Type take beside the version that holds, then build this file anew.",
        ),
    ),
)

# The first of the first steps while there is something to decide.
DECIDE = Step(
    "Conflicts",
    "Copies that were merged do not agree: type take beside the version that holds; then build this file anew.",
    'IF(COUNTIF({conflicts.whose[]},"base")=0,1,0)',
)

SHEET = Sheet(
    "Conflicts",
    role="input",
    blocks=(CONFLICTS,),
    frozen_columns=0,
    purpose=(
        "Copies that were merged into this file do not agree here. "
        "Until you decide, the tables hold what the common base held."
    ),
    notes=(
        (
            "For each one, type take beside the version that holds. Or type in any of its lines: "
            "base, the name of a copy, or the value."
        ),
        (
            "For a value that stands in no line, type it into the table itself, and base here. "
            "Where one copy removed a row and another edited it, the row is kept."
        ),
        (
            "Then build this file anew, or merge with it: what is decided is carried out and leaves this list; "
            "what is not stays."
        ),
    ),
)
