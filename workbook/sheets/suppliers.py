"""Suppliers: who delivers, how soon, and what the next order from each comes to."""

from dataclasses import replace

from workbook.equations import trade
from workbook.tables import Computed, Flag, Look, Said, Sheet, Table, Typed, count, date, key, logic, number, text
from workbook.tables.idioms import only_if
from workbook.tables.template import column

WHO, NEXT = Look("The supplier", 12, "0"), Look("The next order", 12, "0.00")

PAST = Look("Sales and losses of its lines", 9, "0")
# The ledger's lines about what it delivered, later than what is settled.
OPEN = '{ledger.supplier_row[]},{line},{ledger.counts_on[]},">"&SUM({settled_to})'


def of_lines(key_: str, label: str, help: str = "") -> Computed:  # noqa: A002
    """The same of all its lines of stock."""
    total = logic(
        "SUMIFS({values},{stock.supplier_row[]},{line})", "1", needs=("supplier",), values=column("stock", key_)
    )
    return Computed(key_, label, total, help=help, look=PAST)


SUPPLIERS = Table(
    "suppliers",
    example={"supplier": "River fish", "delivery_days": 4, "least_order": 150},
    title="Suppliers",
    row_name=("supplier",),
    purpose="One row for each supplier; Order follows their order.",
    spare_rows=0.25,
    columns=(
        Typed("supplier", "Supplier", key(), required=True, look=Look("The supplier", 28)),
        Typed(
            "delivery_days",
            "Days from order to delivery",
            count(0, 365),
            unit="day",
            look=WHO,
            help="Blank: the days typed on Start.",
        ),
        Typed(
            "least_order",
            "Smallest order",
            number(0, 1e6),
            unit="currency",
            look=Look("The supplier", 12, "0.00"),
            help="What an order must come to; blank if it does not matter.",
        ),
        Typed(
            "settled_to",
            "Credit settled up to",
            date(),
            look=replace(WHO, width=11),
            help="Later ones dead on arrival are still to be claimed. Blank: all of them.",
        ),
        Typed("supplier_note", "Note", text(), look=Look("The supplier", 44)),
        Computed(
            "lines_to_order",
            "Lines to order",
            logic("SUMIFS({stock.orders[]},{stock.supplier_row[]},{line})", "1", needs=("supplier",)),
            look=Look(NEXT.group, 9, "0"),
        ),
        Computed(
            "order_value",
            "It comes to",
            logic("SUMIFS({stock.order_cost[]},{stock.supplier_row[]},{line})", "currency", needs=("supplier",)),
            look=NEXT,
            help="Lines without a cost count for nothing.",
        ),
        of_lines("sold_lately", "Sold lately"),
        of_lines(
            "lost_lately", "Lost lately", "Died or spoilt, dead on arrival too, in the last 30 days (a constant)."
        ),
        of_lines("here", "On hand now"),
        Computed(
            "loss_share",
            "Share lost",
            only_if(
                "{lost_lately}+{sold_lately}+{here}>0",
                trade.loss_share(lost="{lost_lately}", sold="{sold_lately}", on_hand="{here}"),
            ),
            look=replace(PAST, show="0.0%"),
            help="Of all that were here in those days.",
        ),
        Computed(
            "dead",
            "Dead on arrival",
            logic("SUMIFS({ledger.dead[]},{open})", "1", needs=("supplier",), open=OPEN),
            look=PAST,
            help="Not yet settled.",
        ),
        Computed(
            "claim",
            "Credit to claim",
            logic("SUMIFS({ledger.claim[]},{open})", "currency", needs=("supplier",), open=OPEN),
            look=replace(PAST, width=10, show="0.00"),
            help="For them, at cost.",
        ),
        Said(look=Look(NEXT.group, 50)),
        Flag(
            "to_claim",
            "Credit to claim",
            seriousness="note",
            when="{dead}>0",
            why="{dead} were dead on arrival, which comes to {claim}",
            do="Claim it, with the day and pictures; then type the day up to which it is settled.",
        ),
        Flag(
            "small_order",
            "Order smaller than the supplier takes",
            seriousness="note",
            when="AND({lines_to_order}>0,{order_value}<{least_order})",
            why="what is to be ordered comes to {order_value}, the supplier wants {least_order}",
            do="Wait, fill it up with lines near their minimum, or agree on carriage.",
        ),
    ),
)

SHEET = Sheet(
    "Suppliers",
    role="input",
    blocks=(SUPPLIERS,),
    purpose=(
        "Who delivers, and how soon. What has to be ordered from each stands beside it and, line by line, on Order."
    ),
)
