"""Open flags of each tank: what Attention lists about it, and about all that lives, eats, grows or is due in it.

The one place where the flags of a tank are gathered: whatever says how a tank is, reads it here.
"""

from workbook.tables import Computed, Look, Pulled, Table, logic, text
from workbook.tables.formula import filled
from workbook.tables.idioms import cell
from workbook.tables.template import column, here, quoted

COUNT, WORDS = Look(working=True, show="0"), Look(working=True, width=18)
LEVELS = (
    ("act_lines", "acts", "To act on"),
    ("watch_lines", "watches", "To watch"),
    ("note_lines", "notes", "To note"),
)
MOST_NAMES = 4
MARKS = (". ", "; ", ", ", ": ")


def of_worst(key_: str) -> str:
    """Formula text: a column of Attention on the worst line of this tank."""
    return cell(column("attention", key_), "{worst_line}")


def first_clause(words: str, marks: tuple[str, ...] = MARKS) -> str:
    """Formula text: what to do in a few words, up to the first mark; those within a number are none."""
    ends = [
        filled("SEARCH({mark},{words}&{end})", words=words, mark=quoted(mark), end=quoted(f" {mark}")) for mark in marks
    ]
    return filled("TRIM(LEFT({words},MIN({ends})-1))", words=words, ends=ends)


OPEN = Table(
    "open_flags",
    title="Open flags of each tank",
    rows_of="tanks",
    row_name=("tank",),
    purpose="What Attention lists about each tank and all that is in it.",
    columns=(
        Pulled("tank", via="tanks", look=Look(working=True, width=16)),
        *(Pulled(f"open_{key_}", via="tanks", of=f"open_tanks.{lines}", label=label) for lines, key_, label in LEVELS),
        Computed("open_all", "All of them", logic("{open_acts}+{open_watches}+{open_notes}", "1"), look=COUNT),
        Pulled("worst_line", via="tanks", of="open_tanks.first", label="Line of the worst"),
        Computed(
            "worst_sign",
            "Its sign",
            logic("LEFT({serious},1)", needs=("worst_line",), serious=of_worst("serious")),
            kind=text(),
            look=WORDS,
        ),
        Computed(
            "worst_about", "What it is about", logic(of_worst("about"), needs=("worst_line",)), kind=text(), look=WORDS
        ),
        Computed("worst_what", "What", logic(of_worst("what"), needs=("worst_line",)), kind=text(), look=WORDS),
        Computed("worst_why", "Why", logic(of_worst("why"), needs=("worst_line",)), kind=text(), look=WORDS),
        Computed("worst_do", "What to do", logic(of_worst("do"), needs=("worst_line",)), kind=text(), look=WORDS),
        Computed(
            "worst_sentence",
            "The worst in full",
            logic(
                '{worst_sign}&" "&{worst_about}&{worst_what}&{colon}&{worst_why}&{arrow}&{worst_do}',
                needs=("worst_line",),
                colon=quoted(": "),
                arrow=quoted(" → "),
            ),
            kind=text(),
            look=WORDS,
        ),
        Computed(
            "all_lines",
            "All its lines in full",
            logic(
                "INDEX({attention.of_tank[]},{worst_line}+{open_all}-1)",
                needs=("worst_line", "open_all"),
            ),
            kind=text(),
            look=WORDS,
            help="Parted by ¦: the lines of one tank stand together on Attention.",
        ),
        Computed(
            "asking",
            "Tanks to act on so far",
            logic("{above.asking}+IF(SUM({open_acts})>0,1,0)", "1", copes=True),
            seed="0",
            look=COUNT,
        ),
        Computed(
            "asking_names",
            "Their names",
            logic(
                'IF(OR(SUM({open_acts})=0,{asking}>{most}),{names},{names}&IF({asking}=1,"",", ")&{tank})',
                copes=True,
                names=here("above.asking_names"),
                most=str(MOST_NAMES),
            ),
            kind=text(),
            seed='""',
            look=WORDS,
        ),
    ),
)
