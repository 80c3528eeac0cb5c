"""The first steps of a new user: which sheet comes next, what to type there, and what is done already."""

from collections.abc import Sequence
from dataclasses import dataclass

from workbook.tables import Computed, Look, Table, logic, text


@dataclass(frozen=True)
class Step:
    """One sheet to go to. typed: how much stands in its list, as formula text; nothing where one only looks."""

    sheet: str
    says: str
    typed: str = ""


WATERS = Step(
    "Waters",
    "Your tap water in one row: a name such as Tap, then pH, GH, KH and nitrate by a test or your supplier's report.",
    "ROWS({waters.water[]})-COUNTBLANK({waters.water[]})",
)
TANKS = Step(
    "Tanks",
    "A row for each tank, standing or planned: name, shape, sizes, filling, the water and temperature it is kept at.",
    "ROWS({tanks.tank[]})-COUNTBLANK({tanks.tank[]})",
)
LIVESTOCK = Step(
    "Livestock",
    "A row for each species in a tank: pick both, type how many. Animals you only plan are typed the same way.",
    "ROWS({livestock.tank[]})-COUNTBLANK({livestock.tank[]})",
)
READ = Step("Attention", "Read what does not fit and what to do; each line leads to its row.")
STOCKING = Step("Stocking", "How full each tank is, by five measures, and how much water to change.")
CANDIDATES = Step("Candidates", "Pick a tank: what else would go in, and how many.")
CARE = (
    Step(
        "Feeding",
        "Tank, food, and its share of the ration: 100 % where there is only one.",
        "ROWS({feeding.tank[]})-COUNTBLANK({feeding.tank[]})",
    ),
    Step(
        "Foods",
        "What you have on hand, to learn when to order. Foods you don't have may stay.",
        "COUNT({foods.stock[]})",
    ),
    Step(
        "Maintenance",
        "Pick tasks of the list; This week says what is due when.",
        "ROWS({maintenance.task[]})-COUNTBLANK({maintenance.task[]})",
    ),
    Step(
        "Log",
        "Readings and work with their day; Water changes draws them.",
        "ROWS({log.tank[]})-COUNTBLANK({log.tank[]})",
    ),
)

KEEPER_STEPS = (WATERS, TANKS, LIVESTOCK, READ, STOCKING, CANDIDATES, *CARE)
SHOP_STEPS = (
    WATERS,
    TANKS,
    Step(
        "Suppliers",
        "Whom you order from, and how many days a delivery takes.",
        "ROWS({suppliers.supplier[]})-COUNTBLANK({suppliers.supplier[]})",
    ),
    Step(
        "Stock list",
        "A row for each line: code, species and its tank, or goods; how many, cost, price.",
        "ROWS({stock.code[]})-COUNTBLANK({stock.code[]})",
    ),
    READ,
    Step("Order", "What to order, from whom, by when; print it."),
    Step("Labels", "Choose what a label says; then print the sheet of your label size."),
    Step("For a buyer", "A buyer's tank: what of your stock fits, and what does not."),
    *CARE,
)
CLUB_STEPS = (
    Step("Guidance", "Whose cell is whose: what the club hands out and what is yours."),
    *KEEPER_STEPS,
    Step("Compatibility", "Type a short list of species: which of them go together."),
    Step("Proposals", "A species that the library lacks: type it, and send the file to the club."),
)


def to_type(steps: Sequence[Step]) -> list[Step]:
    """The steps at which something is typed."""
    return [step for step in steps if step.typed]


def first_steps(steps: Sequence[Step]) -> Table:
    """The steps in their order, each a link that says whether it is done, next or later."""
    return Table(
        "first_steps",
        title="First steps",
        form=True,
        row_name=("step_1",),
        purpose="",
        columns=tuple(
            Computed(
                f"step_{i}",
                f"{i}  {step.sheet}",
                logic(
                    f'HYPERLINK("#\'{step.sheet}\'!A1",{_state(step, to_type(steps[: i - 1]))}&"{step.sheet}")',
                    copes=True,
                ),
                kind=text(),
                help=step.says,
                look=Look(link=True),
            )
            for i, step in enumerate(steps, 1)
        ),
    )


def _state(step: Step, earlier: Sequence[Step]) -> str:
    """Formula text: done, or next once all before it is typed, or later."""
    now = '"next: go to "' if step.typed else '"look: go to "'
    if earlier:
        now = f"""IF(MIN({",".join(before.typed for before in earlier)}),{now},"later: ")"""
    return f'IF({step.typed},"done: ",{now})' if step.typed else now
