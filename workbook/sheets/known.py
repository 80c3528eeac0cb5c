"""Known: lines of Attention that are set aside until a day, with the reason, while they grow no worse."""

from workbook.tables import Computed, Look, Said, Sheet, Table, Typed, choice, date, logic, text
from workbook.tables.columns import SERIOUSNESS
from workbook.tables.idioms import position
from workbook.tables.template import quoted

LINE, WHY, NOW = Look("The line", 40), Look("Why it may wait", 12), Look("What becomes of it", 26)


KNOWN = Table(
    "known",
    title="Known",
    row_name=("known_line",),
    spare_rows=1,
    # Its own flags show by its sign: Attention hangs on it, and no cell may look at itself.
    listed=False,
    purpose="A row is a line of Attention that you know of and let be for a while.",
    example={
        "known_line": "Rack B1: Nitrate",
        "until": "2026-12-31",
        "no_worse": "watch",
        "reason": "new plants settle in",
    },
    often=("known_line", "until", "no_worse", "reason"),
    columns=(
        Typed(
            "known_line",
            "Line of Attention",
            text("open_lines"),
            required=True,
            look=LINE,
            help="Where and what, as on Attention: pick it.",
        ),
        Typed("until", "Until", date(), required=True, look=WHY, help="The last day on which it may wait."),
        Typed(
            "no_worse",
            "While at most",
            choice(*SERIOUSNESS),
            required=True,
            look=WHY,
            help="How serious it is now: once it is worse it is listed again.",
        ),
        Typed("reason", "Reason", text(), required=True, look=Look(WHY.group, 60)),
        Said(look=Look("The line", 40)),
        Computed(
            "state",
            "Now",
            logic(
                '_xlfn.IFS({known_line}="","",{known_line_row}="",{settled},'
                'OR({until}="",{no_worse}="",{reason}=""),"not finished",{holds}<>"","set aside",'
                'SUM({until})<SUM({settings.plan_date}),"its day is past",1=1,"worse now")',
                settled=quoted("settled: clear this row"),
                copes=True,
            ),
            kind=text(),
            look=NOW,
        ),
        Computed(
            "at_most", "Seriousness at most", position("{no_worse}", SERIOUSNESS), look=Look(working=True, show="0")
        ),
        Computed(
            "holds",
            "Line that it sets aside",
            logic(
                'IF(OR({known_line_row}="",{at_most}="",{reason}="",SUM({until})<SUM({settings.plan_date})),"",'
                'IF(INDEX({open_lines.level_no[]},{known_line_row})<{at_most},"",{known_line_row}))',
                "1",
                copes=True,
            ),
            look=Look(working=True, show="0"),
        ),
    ),
    answers=("state",),
)

SHEET = Sheet(
    "Known",
    role="input",
    blocks=(KNOWN,),
    purpose=(
        "Lines of Attention that may wait: they leave its counts, and come back when their day is past "
        "or when they are worse."
    ),
)
