"""Guidance: one printed page for the members of a club."""

from workbook.tables import Look, Sheet, Table, Typed, text
from workbook.tables.kinds import Value
from workbook.tables.sheet import Band

SAYS = (
    (
        "What it is for",
        (
            "Plan your own tanks with the species, foods, tasks and constants that your club keeps for all of you, "
            "and send back what you learn."
        ),
    ),
    ("1  Start", "Type the name of your room, its coldest air, your nitrate target, what electricity costs."),
    (
        "2  Waters, Tanks",
        "Measure before you type: water from a test kit, tanks with a tape, inside or outside as the sheet asks.",
    ),
    (
        "3  Livestock",
        "One row for each group of animals in each tank, with how many. A length only where they are not grown.",
    ),
    (
        "4  Feeding, Maintenance",
        (
            "On Foods what you have on hand; on Feeding who gets which share; "
            "on Maintenance your tasks, picked from the list."
        ),
    ),
    (
        "5  Log",
        "A row for each test or water change. Two nitrate readings between two changes teach the sheets your tanks.",
    ),
    ("6  Attention", "Read it from the top: ▲ act today, ◆ watch, ○ note. Each line says why and what to do."),
    ("Yellow cells", "are yours. Blank means unknown; type 0 where there is none."),
    (
        "The club's cells",
        (
            "ask before they change, or are locked. If you know better, type beside them: "
            "own values and own ranges count in your file, and the club's stay readable. "
            "A food or species of your own may stand in the ready rows below."
        ),
    ),
    (
        "Proposals",
        (
            "A species that the library lacks, or has wrong: fill a row there, with your source and how sure you are. "
            "Flags say what is missing."
        ),
    ),
    (
        "Compatibility",
        "Pick up to thirty species and print the chart; it judges grown animals, common practice, nothing more.",
    ),
    (
        "Never change",
        (
            "formulas, header rows, the names of sheets, the order of columns. "
            "Add your own columns at the right of a table, or sheets of your own: they come along."
        ),
    ),
    (
        "To send it back",
        (
            "Save as .xlsx or .ods under your own name, leave the sheets as they are, "
            "and send the file as your club asks. It holds what you typed of your home: read it through first."
        ),
    ),
    (
        "Cautions",
        (
            "Electricity: residual-current (ground-fault) protection, drip loops, unplug before hands go in. "
            "Full tanks are heavy: floor and stand by someone qualified."
        ),
    ),
    (
        "",
        (
            "Chemicals and medicines: their label, a veterinarian, local law. Infections pass to people: "
            "gloves, cuts covered, no siphon by mouth, wash."
        ),
    ),
    (
        "",
        (
            "Never release animals, plants or water. Check local lists before you keep, breed, swap or pass on. "
            "Figures are estimates: test and watch."
        ),
    ),
)
ROWS: list[dict[str, Value]] = [{"head": head, "says": says} if head else {"says": says} for head, says in SAYS]

PAGE = Table(
    "guidance",
    title="For members",
    given=True,
    row_name=("head",),
    purpose="",
    row_height=40,
    columns=(
        Typed("head", "", text(), locked=True, look=Look(style="page strong")),
        Typed("says", "", text(), locked=True, look=Look(style="page fact")),
    ),
)

SHEET = Sheet(
    "Guidance",
    role="guide",
    portrait=True,
    frozen_columns=0,
    grid=(24, 82),
    bands=(Band(((PAGE,),)),),
    purpose=(
        "One page for members: what this file is for, what to fill in, what to leave alone, and how to send it back."
    ),
)
