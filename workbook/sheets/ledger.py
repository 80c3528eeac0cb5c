"""Sales and losses: a shop's ledger, one line an event; stock, sales, losses and money follow from it."""

from dataclasses import replace

from workbook.tables import (
    Computed,
    Flag,
    Look,
    Pulled,
    Said,
    Sheet,
    Table,
    Typed,
    choice,
    count,
    date,
    link,
    logic,
    number,
    pulled,
    text,
)
from workbook.tables.formula import Formula
from workbook.tables.idioms import position

# What can happen to pieces of a line, and what each of them does to the stock on hand.
EVENTS = {
    "sold": -1,
    "lost": -1,
    "dead on arrival": -1,
    "delivered": 1,
    "returned": 1,
    "own use": -1,
    "moved": -1,
    "counted": 0,
    "reserved": 0,
    "reservation ended": 0,
}
MOST = 1_000_000

EVENT, MONEY = Look("What happened", 10, "0"), Look("What happened", 11, "0.00")
COUNT = Look(working=True, show="0")


def told(key: str, label: str, shares: dict[str, int], help: str = "") -> Computed:  # noqa: A002
    """The pieces of a line that count, more or less by what happened; 0 where it was none of these."""
    signs = [str(shares.get(event, 0)).replace("-1", "(0-1)") for event in EVENTS]
    made = logic("CHOOSE({event_no},{signs})*{pieces}", "1", needs=("counts_on", "event_no", "pieces"), signs=signs)
    return Computed(key, label, made, help=help, look=COUNT)


def money(key: str, label: str, pieces: str, help: str) -> Computed:  # noqa: A002
    """What the pieces of a line come to; blank where there are none of these, or what one is worth is not known."""
    made = logic('IF({pieces}=0,"",{pieces}*{worth_each})', "currency", pieces=pieces)
    return Computed(key, label, made, help=help, look=Look("What follows", 10, "0.00"))


def _order_of_counts() -> Formula:
    return logic('IF({is_count}=1,{counts_on}*10^6+{line},"")', "1", needs=("is_count", "counts_on"))


LEDGER = Table(
    "ledger",
    example={"date": "2026-03-31", "code": "F-001", "event": "sold", "pieces": 6, "who": "Kim"},
    title="Sales and losses",
    row_name=("date", "code"),
    enough=("date", "code", "event", "pieces"),
    spare_rows=8,
    newest="date",
    every_line=True,
    first="name",
    answers=("stands", "taken", "paid", "claim"),
    purpose="One row for each event; of one day and article there may be several.",
    columns=(
        Typed("date", "Date", date(), required=True, look=replace(EVENT, width=11)),
        Typed(
            "code",
            "Article",
            link("stock"),
            required=True,
            look=replace(EVENT, width=16),
            help="Its code on Stock list: picked, typed or scanned.",
        ),
        Typed(
            "event",
            "What",
            choice(*EVENTS),
            required=True,
            look=replace(EVENT, width=17),
            help="Counted: what is there that evening, whatever else happened on the day. Returned: by a buyer.",
        ),
        Typed(
            "pieces",
            "How many",
            count(0, MOST),
            unit="1",
            required=True,
            look=replace(EVENT, width=9),
            help="Delivered: as on the delivery note; the dead among them once more as dead on arrival.",
        ),
        Said(look=Look("What happened", 46)),
        Typed(
            "each",
            "Price or cost of one",
            number(0, 1e6),
            unit="currency",
            look=MONEY,
            help="Only where it differs from Stock list: the price of what is sold, the cost of what is delivered.",
        ),
        Typed(
            "to_tank",
            "To tank",
            link("tanks"),
            look=replace(EVENT, width=16),
            help="Only of what is moved: it goes to the line of its species in that tank.",
        ),
        Typed("who", "Who", text(), look=replace(EVENT, width=12)),
        Typed("ledger_note", "Note", text(), look=Look("What happened", 36)),
        Computed(
            "event_no",
            "Number of what happened",
            position("{event}", tuple(EVENTS), otherwise='""'),
            look=COUNT,
        ),
        Computed(
            "counts_on",
            "Counts on",
            logic(
                'IF({date}<={settings.plan_date},{date},"")',
                "date",
                needs=("date", "code_row", "event_no", "pieces"),
            ),
            kind=date(),
            look=Look(working=True, width=11),
            help="Its day, in a row with all that it needs; blank while the day is still to come.",
        ),
        told("change", "Change of stock", EVENTS),
        told("went", "Sold less returned", {"sold": 1, "returned": -1}),
        told("died", "Lost", {"lost": 1, "dead on arrival": 1}, "Dead on arrival is lost, too."),
        Computed(
            "into_row",
            "Row of Stock list it moves to",
            logic(
                'IF({event}="moved",IFERROR(MATCH({to_tank_row}+{species_row}/10^6,{livestock.pair[]},0),""),"")',
                "1",
                needs=("counts_on", "to_tank_row", "species_row"),
            ),
            look=COUNT,
            help="The first line of its species in that tank.",
        ),
        told("promise", "Reserved", {"reserved": 1, "reservation ended": -1}),
        Computed(
            "is_count",
            "A count: 1",
            logic('IF({event}="counted",1,0)', "1", needs=("counts_on",)),
            look=COUNT,
        ),
        Computed(
            "count_order",
            "Order of counts",
            _order_of_counts(),
            look=Look(working=True, width=14, show="0"),
            help="By day, and of two counts on one day the lower row.",
        ),
        Pulled("name", via="code", label="What it is", look=Look("What happened", 24)),
        Pulled("stands", via="code", of="here", label="On hand now", look=Look("What follows", 9, "0")),
        *pulled("code", "price", "cost", "mean_cost", "supplier_row", "species_row"),
        Computed(
            "worth_each",
            "Worth of one",
            logic(
                "IF(COUNT({each})=1,{each},IF({sale},{price},{cost}))",
                "currency",
                needs=("counts_on",),
                sale='OR({event}="sold",{event}="returned")',
            ),
            look=Look(working=True, show="0.00"),
            help="As typed; else the price of what is sold, the cost of all else.",
        ),
        told("bought", "Delivered", {"delivered": 1}),
        told("dead", "Dead on arrival", {"dead on arrival": 1}),
        money("taken", "Takings", "{went}", "Of what is sold; less what comes back."),
        money("paid", "Delivered for", "{bought}", "At the cost typed here, or else on Stock list."),
        money("claim", "To claim", "{dead}", "Credit for what was dead on arrival; Suppliers adds up."),
        Computed(
            "went_cost",
            "Cost of what is sold",
            logic("{went}*{mean_cost}", "currency"),
            look=Look(working=True, show="0.00"),
            help="At its mean cost.",
        ),
        Computed(
            "died_cost",
            "Cost of what is lost",
            logic("{died}*{mean_cost}", "currency"),
            look=Look(working=True, show="0.00"),
        ),
        Flag(
            "moved_nowhere",
            "Moved to no line",
            seriousness="watch",
            copes=True,
            when='AND({event}="moved",COUNT({counts_on})=1,COUNT({into_row})=0)',
            why="{pieces} have left their line, but no line of Stock list is of that species in the tank they went to",
            do="Pick the tank; or add that line to Stock list, with 0 on hand.",
        ),
        Flag(
            "future",
            "Day still to come",
            seriousness="note",
            when="{date}>{settings.plan_date}",
            why="{date} lies after the plan date, so it does not count yet",
            do="Check the date.",
        ),
    ),
)

SHEET = Sheet(
    "Sales and losses",
    role="input",
    blocks=(LEDGER,),
    frozen_columns=2,
    purpose=(
        "What is sold, lost, delivered, returned, moved or counted: a line each. Stock list reckons with it at once."
    ),
    notes=(
        (
            "In any order; several people type in copies of their own, and 'shoalbook merge' puts all lines together. "
            "A mistake: correct the line, or clear it."
        ),
    ),
)
