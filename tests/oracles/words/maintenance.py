"""What the flags of tasks say."""

from tests.oracles import maintenance
from tests.oracles.words.saying import Says, day

DUE = day(maintenance.next_due)

SAYS = {
    "no_interval": Says(
        "watch",
        "Interval missing",
        "neither this row nor the task list says how often it is done, so it is never due",
        "Type every how many days, or pick a task of the list.",
    ),
    "very_late": Says(
        "watch",
        "Task very late",
        "it was due on {day}",
        "Do it today, or type the date you did it; lengthen the interval if it was never needed so often.",
        day=DUE,
    ),
    "late": Says(
        "watch",
        "Task late",
        "it was due on {day}",
        "Do it, then type the date under Last done.",
        day=DUE,
    ),
}
