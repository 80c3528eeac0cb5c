"""Order: what to order, supplier by supplier, to print or to send."""

from workbook.tables import Computed, Look, Sheet, Table, logic, text
from workbook.tables.idioms import cell_of
from workbook.tables.template import column

LINES = 400
LIST, WHY = Look("To order", 10, "0"), Look("Why", 9, "0")
COUNT = Look(working=True, show="0")


def of_line(key: str, label: str, look: Look, unit: str = "", of: str = "") -> Computed:
    """What the stock list says of the line."""
    made = cell_of(column("stock", of or key), "{row}", unit)
    return Computed(key, label, made, look=look) if unit else Computed(key, label, made, kind=text(), look=look)


ORDER = Table(
    "order",
    title="Order",
    lines=LINES,
    row_name=("code",),
    purpose="Supplier by supplier; within one as on Stock list.",
    columns=(
        Computed(
            "supplier",
            "Supplier",
            logic(
                'IF({row}="","",IF({supplier_no}>ROWS({suppliers.line[]}),"(no supplier)",'
                "INDEX({suppliers.supplier[]},{supplier_no})))",
                copes=True,
            ),
            kind=text(),
            look=Look("To order", 26),
        ),
        of_line("code", "Code", Look("To order", 12)),
        of_line("name", "What", Look("To order", 34)),
        of_line("to_order", "To order", LIST, "1"),
        Computed("tick", "Ordered", logic('IF({row}="","","☐")', copes=True), kind=text(), look=Look("To order", 8)),
        of_line("cost", "Cost of one", Look("To order", 10, "0.00"), "currency"),
        of_line("order_cost", "It costs", Look("To order", 11, "0.00"), "currency"),
        Computed(
            "subtotal",
            "Supplier in all",
            logic('IF({supplier_no}={next_no},"",{so_far})', "currency", needs=("so_far",)),
            look=Look("To order", 12, "0.00"),
            help="On the last line of each supplier; lines without a cost count for nothing.",
        ),
        of_line("on_hand", "On hand", WHY, "1", of="here"),
        of_line("reserved", "Reserved", WHY, "1", of="promised"),
        of_line("incoming", "Incoming", WHY, "1", of="coming"),
        of_line("minimum", "Minimum", WHY, "1"),
        of_line("order_up_to", "Order up to", WHY, "1"),
        of_line("sold", "Sold", WHY, "1", of="sold_lately"),
        Computed(
            "in_order",
            "In order",
            logic('IF({line}>COUNT({stock.order_key[]}),"",SMALL({stock.order_key[]},{line}))', "1", copes=True),
            look=COUNT,
        ),
        Computed(
            "row", "Row of Stock list", logic('IF({in_order}="","",MOD({in_order},10^6))', "1", copes=True), look=COUNT
        ),
        Computed("supplier_no", "Row of its supplier", logic("({in_order}-{row})/10^6", "1"), look=COUNT),
        Computed(
            "next_no",
            "of the next line",
            logic(
                "IF({line}<MIN(COUNT({stock.order_key[]}),ROWS({order.line[]})),"
                "INT(SMALL({stock.order_key[]},{line}+1)/10^6),0)",
                "1",
                needs=("row",),
            ),
            look=COUNT,
        ),
        Computed(
            "so_far",
            "Its supplier so far",
            logic(
                "SUM({order_cost})+IF({above.supplier_no}={supplier_no},SUM({above.so_far}),0)",
                "currency",
                needs=("row",),
            ),
            look=Look(working=True, show="0.00"),
        ),
    ),
)

SUMMARY = Table(
    "order_summary",
    title="The order at a glance",
    form=True,
    row_name=("lines",),
    purpose="",
    columns=(
        Computed("lines", "Lines to order", logic("COUNT({stock.order_key[]})", "1"), look=Look(show="0")),
        Computed(
            "cost",
            "They cost",
            logic("SUM({stock.order_cost[]})", "currency"),
            look=Look(show="0.00"),
            help="Lines without a cost count for nothing.",
        ),
        Computed(
            "unpriced",
            "Lines without a cost",
            logic('{lines}-SUMIFS({stock.orders[]},{stock.order_cost[]},">=0")', "1"),
            look=Look(show="0"),
        ),
        Computed(
            "shown",
            "Listed below",
            logic('IF({lines}>ROWS({order.line[]}),"◆ only the first "&ROWS({order.line[]})&" lines","all of them")'),
            kind=text(),
            look=Look(width=22, status=True),
        ),
    ),
)

SHEET = Sheet(
    "Order",
    role="printable",
    blocks=(ORDER,),
    forms=(SUMMARY,),
    frozen_columns=0,
    purpose=(
        "Every line of Stock list that has fallen below its minimum, up to its order-up-to level. "
        "When it is ordered, type it under Incoming, with its day: what is delivered is then taken off."
    ),
)
