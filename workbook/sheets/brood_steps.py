"""What happens to a brood: its steps with their days and words, and how long each takes."""

from collections.abc import Sequence

from workbook.equations import rearing
from workbook.tables import Computed, Look, choice, date, logic
from workbook.tables.formula import Formula, filled
from workbook.tables.idioms import in_rows_with, joined, only_if
from workbook.tables.template import here, quoted, starred

EVENT, NEXT, DATES = Look("The event", 9, "0"), Look("What comes next", 11), Look("When", 11)

MANY, GROWN, HIDDEN, COUNT = (
    Look("How many", 9, "0"),
    Look("Growing on", 10, "0.0"),
    Look(working=True, show="0.00"),
    Look(working=True, show="0"),
)

DAY, WORDS, OWN = Look(working=True, width=11), Look(working=True, width=18), Look("Your own figures", 10, "0%")

YES_NO, SEPARATOR = choice("yes", "no"), "¦"

WAYS = (
    "egg scatterer",
    "plant layer",
    "cave layer",
    "flat layer",
    "bubble nest",
    "mouthbrooder",
    "livebearer",
    "egg carrier",
    "annual",
    "other",
)

CARE = (
    "eggs fall anywhere and are eaten: mesh, marbles or moss, then the adults out",
    "eggs hang on plants: move plants or mop to a tank of their own, or the adults out",
    "eggs in a cave: whoever guards them stays, no disturbance",
    "eggs on a leaf, stone or pane: watch whether they are guarded or eaten",
    "eggs in a nest of bubbles: the male guards, take the female out; lid on, warm air",
    "eggs in the mouth: no netting, quiet, little food until the young are let go",
    "no eggs: a birth; floating plants hide the young",
    "eggs under the tail: leave her in peace, a sponge over the filter inlet",
    "eggs lie in peat: take it out, store it damp and warm for the days of the species",
    "its own way: see the note of the species",
)

FOODS = ("infusoria", "nauplii", "fine dust", "algae film", "as adults")

FIRST_FOOD = (
    "infusoria",
    "newly hatched nauplii",
    "fine dust and nauplii",
    "algae film, soft greens",
    "what adults eat, crushed",
)

ON_FOOD_OF_ITS_OWN = '{first_food}<>"as adults"'

SECOND_FOOD = ("newly hatched nauplii", "fine dust and crushed food", "crushed adult food", "wafers and greens")


def picked(number_: str, words: tuple[str, ...]) -> Formula:
    """The words of a number."""
    return logic("CHOOSE({number},{words})", number=number_, words=[quoted(each) for each in words])


def stage(key_: str) -> Formula:
    """Days of a stage at the water's temperature; none for young that are born."""
    return logic(
        'IF({born}=1,0,IF(COUNT({days_known},{pace})=2,{days_here},""))',
        "day",
        needs=("born",),
        days_known=here(key_),
        days_here=rearing.days_at(days=here(key_), pace="{pace}"),
    )


def day_after(start: str, days: str, needs: tuple[str, ...] = ()) -> Formula:
    """The day so many days later, the part of a day left off: early enough to look."""
    return logic("{start}+INT(ROUND({days},6))", "date", needs=needs, start=start, days=days)


# What happens to a brood: the day, what to do, and when the step still counts.
STEPS = (
    ("infusoria", "infusoria_on", '"start an infusoria culture"', ""),
    ("adults", "adults_on", "{adults_do}", "{out}=0"),
    # Looking for it is no work that stays undone: once its day is past the brood is at the next step.
    ("hatch", "hatch_on", "{hatch_do}", "AND({born}=0,{hatch_on}>={settings.plan_date})"),
    ("swim", "swim_on", '"first food: "&{first_food_is}', ""),
    ("second", "second_on", '"second food: "&{second_food_is}', ""),
    ("move", "move_on", '"move the young to "&{grow_tank}', ""),
    ("sale", "sale_on", '"large enough to part with: look for good homes"', ""),
)

DAILY = '"feed the young"&IF({litres_day}="","",", change "&{@words.litres_day}&" in "&{home})'


def left(step: str, day: str, still: str) -> Computed:
    """The day of a step that is still to be done."""
    tests = filled(
        "AND({still_counts})", still_counts=[*([still] if still else []), "{going}=1", f"{here(day)}>{here('done')}"]
    )
    return Computed(
        f"left_{step}", f"Still to do: {step}", only_if(tests, logic(here(day), "date")), kind=date(), look=DAY
    )


def in_week(of_steps: Sequence[str], of_daily_care: str) -> Formula:
    """Something about each job that begins within the week, joined.

    A blank day is text, and no text lies before a number.
    """
    jobs = [
        (starred("{left_*}<{week_end}", step), of_step) for (step, *_), of_step in zip(STEPS, of_steps, strict=True)
    ]
    jobs.append(("{daily_from}<{week_end}", of_daily_care))
    return in_rows_with("species", joined(*jobs, between=SEPARATOR))
