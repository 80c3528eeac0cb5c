"""Stock list: every line of animals and goods that a shop has, what it is worth, and what has to be done about it."""

from dataclasses import replace

from workbook.equations import trade
from workbook.sheets.groups import offer
from workbook.sheets.stock_flags import FLAGS
from workbook.sheets.stock_now import NOW
from workbook.tables import (
    Computed,
    Look,
    Pulled,
    Said,
    Sheet,
    Table,
    Typed,
    choice,
    count,
    date,
    key,
    link,
    logic,
    number,
    text,
)
from workbook.tables.idioms import first_known, in_rows_with, joined, only_if
from workbook.tables.kinds import Value
from workbook.tables.template import for_each, quoted

MOST = 1_000_000

LINE, STOCK, MONEY, ORDER = (
    Look("The line", 20),
    Look("Stock", 9, "0"),
    Look("Money", 10, "0.00"),
    Look("Ordering", 9, "0"),
)

SALES, GROUP, WORDS = Look("Sales and losses", 9, "0"), Look("The animals", 10, "0.0"), Look("Words", 30)

COUNT, HIDDEN, HIDDEN_TEXT = Look(working=True, show="0"), Look(working=True, show="0.00"), Look(working=True, width=20)


def pieces(
    key_: str,
    label: str,
    look: Look,
    *,
    help: str = "",  # noqa: A002
    required: bool = False,
    adds_up: bool = False,
) -> Typed:
    """A number of pieces that a person counts."""
    return Typed(key_, label, count(0, MOST), unit="1", help=help, required=required, adds_up=adds_up, look=look)


def money(key_: str, label: str, help: str = "") -> Typed:  # noqa: A002
    """A sum of money for one piece."""
    return Typed(key_, label, number(0, 1e6), unit="currency", help=help, look=MONEY)


NOT_KNOWN = (
    ("promised", "reserved (0 for none)"),
    ("incoming", "incoming (0 for none)"),
    ("cost", "cost"),
    ("price", "price"),
    ("minimum", "minimum"),
    ("order_up_to", "order up to"),
    ("sold_lately", "sold (0 for none)"),
    ("lost_lately", "lost (0 for none)"),
)

LEAST = trade.reorder_point(rate="{rate}", lead="{lead}")

EXAMPLE: dict[str, Value] = {
    "code": "F-001",
    "species": "Neon tetra",
    "tank": "Display 1",
    "on_hand": 40,
    "reserved": 0,
    "label": 1,
    "cost": 1.2,
    "price": 2.9,
    "supplier": "River fish",
    "minimum": 20,
    "order_up_to": 60,
    "incoming": 0,
    "sold": 30,
    "lost": 0,
}

STOCK_LIST = Table(
    "stock",
    example=EXAMPLE,
    title="Stock list",
    row_name=("code", "name"),
    enough=("code", "species", "tank", "on_hand", "price"),
    often=(
        "code",
        "species",
        "goods",
        "goods_kind",
        "tank",
        "on_hand",
        "counted_on",
        "reserved",
        "price",
        "cost",
        "supplier",
        "minimum",
        "order_up_to",
        "incoming",
        "ordered_on",
        "incoming_on",
        "came_in",
        "quarantine_until",
        "sold",
        "lost",
        "label",
        "stock_note",
    ),
    first="here",
    not_before="came_in",
    answers=(
        "free",
        "sale",
        "to_order",
        "order_cost",
        "margin_share",
        "value_cost",
        "days_left",
        "sold_lately",
        "lost_lately",
        "loss_share",
        "least",
        "caution",
    ),
    purpose="One row for each line: a species in one tank, or goods.",
    columns=(
        Typed("code", "Code", key(), required=True, look=replace(LINE, width=11), help="Your own code; each one once."),
        Typed(
            "species",
            "Species",
            link("species"),
            look=replace(LINE, width=24),
            help="For animals: pick it from the library. Leave blank for goods.",
        ),
        Typed(
            "goods",
            "Goods",
            text(),
            look=replace(LINE, width=28),
            help="For plants, foods and dry goods: what it is. Leave blank for animals.",
        ),
        Typed("goods_kind", "Kind of goods", choice("plant", "food", "dry goods"), look=replace(LINE, width=11)),
        Typed(
            "tank",
            "Display tank",
            link("tanks"),
            look=replace(LINE, width=16),
            help="Where it stands; blank for the shelf.",
        ),
        pieces(
            "on_hand",
            "On hand",
            STOCK,
            required=True,
            adds_up=True,
            help="When it was counted: all pieces, those reserved and in quarantine too.",
        ),
        Typed(
            "counted_on",
            "Counted on",
            date(),
            look=Look("Stock", 11),
            help="From the day after it Sales and losses counts. Blank: all of its lines count.",
        ),
        pieces("reserved", "Reserved", STOCK, adds_up=True, help="Promised to buyers on that day; 0 for none."),
        Computed(
            "free",
            "Free to sell",
            logic("IF({waiting}=1,0,MAX(0,{here}-{promised}))", "1"),
            look=STOCK,
            help="On hand now less reserved; none while in quarantine.",
        ),
        Computed(
            "sale",
            "May be sold",
            logic(
                '_xlfn.IFS({waiting}=1,"◆ from "&{@words.quarantine_until},'
                '{here}<=0,"sold out",{free}=0,"all reserved",1=1,"now")',
                needs=("free",),
            ),
            kind=text(),
            look=Look("Stock", 17, status=True),
        ),
        Said(look=Look("Stock", 46)),
        Typed(
            "quarantine_until",
            "Quarantine until",
            date(),
            look=Look("Stock", 11),
            help="Until that day it is not for sale.",
        ),
        Typed("came_in", "Newest delivery", date(), look=Look("Stock", 11)),
        pieces("label", "Labels", STOCK, help="How many shelf labels to print; they stand on the Labels sheets."),
        money("cost", "Cost", "Of one piece. Cost and price both without sales tax, or the margin is wrong."),
        money("price", "Price", "Of one piece. Cost and price both without sales tax, or the margin is wrong."),
        Computed(
            "margin",
            "Margin",
            trade.margin(price="{price}", cost="{cost}"),
            look=MONEY,
            help="What one sale leaves once the piece is paid.",
        ),
        Computed(
            "margin_share",
            "of the price",
            only_if("{price}>0", trade.margin_share(price="{price}", cost="{cost}")),
            look=replace(MONEY, width=8, show="0%"),
        ),
        Computed("value_cost", "On hand at cost", trade.value(pieces="{here}", each="{mean_cost}"), look=MONEY),
        Computed("value_price", "On hand at price", trade.value(pieces="{here}", each="{price}"), look=MONEY),
        Typed("supplier", "Supplier", link("suppliers"), look=Look("Ordering", 24)),
        pieces(
            "minimum",
            "Minimum",
            ORDER,
            help="When on hand and incoming less reserved fall below it, Order lists the line.",
        ),
        pieces("order_up_to", "Order up to", ORDER),
        pieces("incoming", "Incoming", ORDER, adds_up=True, help="Ordered, not yet here; 0 for none."),
        Typed(
            "ordered_on",
            "Ordered on",
            date(),
            look=Look("Ordering", 11),
            help="What is delivered from that day on is taken off Incoming. Blank: Incoming stands as typed.",
        ),
        Typed("incoming_on", "Due on", date(), look=Look("Ordering", 11)),
        Computed(
            "to_order",
            "To order",
            only_if("{position}<{minimum}", trade.order_up_to(target="{order_up_to}", position="{position}"), "0"),
            look=ORDER,
            help="Order up to, less on hand and incoming, plus reserved; once below the minimum.",
        ),
        Computed(
            "order_cost",
            "It costs",
            trade.value(pieces="{to_order}", each="{cost}"),
            look=replace(MONEY, group="Ordering"),
        ),
        Computed(
            "least",
            "Minimum by sales",
            logic("ROUNDUP(ROUND({sales_until_then},6),0)", "1", sales_until_then=LEAST),
            look=ORDER,
            help="Sales until a delivery comes, with some days in hand: for comparison with your own minimum.",
        ),
        pieces("sold", "Sold", SALES, adds_up=True, help="In the 30 days (a constant) up to that count; 0 for none."),
        pieces("lost", "Lost", SALES, adds_up=True, help="Died or spoilt in the same days; 0 for none."),
        Computed(
            "days_left",
            "Days of stock",
            only_if("{rate}>0", trade.days_of_pieces(pieces="{unpromised}", rate="{rate}")),
            look=SALES,
            help="At the present rate of sale; blank where none was sold.",
        ),
        Computed("days_here", "Days since delivery", logic("{settings.plan_date}-{came_in}", "day"), look=SALES),
        Computed(
            "loss_share",
            "Share lost",
            only_if(
                "{lost_lately}+{sold_lately}+{here}>0",
                trade.loss_share(lost="{lost_lately}", sold="{sold_lately}", on_hand="{here}"),
            ),
            look=replace(SALES, show="0%"),
        ),
        Typed(
            "length_now",
            "Length now",
            number(0.1, 200),
            unit="cm",
            look=GROUP,
            help="Snout to end of tail, as sold. Blank: reckoned as adult.",
        ),
        Typed(
            "measured_on",
            "Measured on",
            date(),
            look=replace(GROUP, width=11),
            help="Young animals grow from that day on. Blank: the length stands as typed.",
        ),
        Typed("males", "Males", count(0, MOST), unit="1", look=replace(GROUP, width=7, show="0")),
        Typed("females", "Females", count(0, MOST), unit="1", look=replace(GROUP, width=8, show="0")),
        Typed(
            "feed_factor",
            "Feeding factor",
            number(0.1, 5),
            unit="1",
            look=GROUP,
            help="Blank: 1, keeping condition. 1.5 for growing on.",
        ),
        Pulled("caution", via="species", label="Tell the buyer", look=Look("Words", 70)),
        Typed("stock_note", "Note", text(), look=WORDS),
        Computed(
            "name",
            "Name",
            logic('IF({species}<>"",{species},{goods}&"")', needs=("code",)),
            kind=text(),
            look=HIDDEN_TEXT,
        ),
        Computed(
            "animals",
            "Animals",
            logic('IF({species}<>"",IF({here}="","",{here}),IF({code}="","",0))', "1", copes=True),
            look=COUNT,
            help="What the other sheets see: living animals; goods are none.",
        ),
        Computed(
            "waiting",
            "In quarantine",
            logic("IF(SUM({quarantine_until})>{settings.plan_date},1,0)", "1", needs=("code",)),
            look=COUNT,
        ),
        Computed("unpromised", "Not promised", logic("MAX(0,{here}-{promised})", "1"), look=COUNT),
        Computed("rate", "Sold a day", trade.rate_of_sale(sold="{sold_lately}"), look=HIDDEN),
        Pulled("delivery_days", via="supplier"),
        Computed(
            "lead",
            "Days to a delivery",
            in_rows_with("code", first_known("{delivery_days}", "{settings.lead_days}", unit="day")),
            look=COUNT,
        ),
        Computed(
            "position",
            "Stock that counts for ordering",
            trade.position(on_hand="{here}", incoming="{coming}", reserved="{promised}"),
            look=COUNT,
        ),
        Computed("orders", "Is to be ordered", logic("IF(SUM({to_order})>0,1,0)", "1", needs=("code",)), look=COUNT),
        Computed(
            "order_key",
            "Order on Order",
            logic(
                'IF({orders}=1,IF({supplier_row}="",ROWS({suppliers.line[]})+1,{supplier_row})*10^6+{line},"")',
                "1",
                needs=("orders",),
            ),
            look=replace(COUNT, width=11),
            help="Supplier first, in the order of Suppliers, then the order of this list.",
        ),
        Computed(
            "label_from",
            "Labels before it, and one",
            logic("SUM({above.label_from})+SUM({above.label})", "1", copes=True),
            seed="1",
            look=COUNT,
        ),
        Computed(
            "lacking",
            "Still unknown",
            in_rows_with(
                "code",
                joined(*((for_each([key_], '{*}=""'), quoted(words)) for key_, words in NOT_KNOWN), between=", "),
            ),
            kind=text(),
            look=HIDDEN_TEXT,
        ),
        *NOW,
        *FLAGS,
    ),
)

SHEET = Sheet(
    "Stock list",
    role="input",
    blocks=(STOCK_LIST,),
    forms=(offer("stock"),),
    frozen_columns=3,
    purpose=(
        "All that the shop has: animals by species and display tank, plants, foods and dry goods. Type it once; "
        "sales go on Sales and losses, and stock, orders, labels and tanks follow."
    ),
    notes=(
        (
            "A line of animals is one species in one tank; the same species in two tanks is two lines. What is sold, "
            "lost or delivered is a line of Sales and losses; On hand stays as it was counted."
        ),
        (
            "Restricted and protected species: local law decides what may be kept and sold. "
            "Tell buyers what it grows to, and never to release animals, plants or water."
        ),
    ),
)
