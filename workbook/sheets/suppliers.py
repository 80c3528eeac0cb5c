"""Suppliers: who delivers, how soon, and what the next order from each comes to."""

from workbook.tables import Computed, Flag, Look, Said, Sheet, Table, Typed, count, key, logic, number, text

WHO, NEXT = Look("The supplier", 12, "0"), Look("The next order", 12, "0.00")

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
        Said(look=Look(NEXT.group, 50)),
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
