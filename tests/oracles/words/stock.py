"""What the flags of a shop's stock list say."""

from tests.oracles import stock
from tests.oracles.words.saying import Figure, Says, day, named, share, typed


def number(key: str) -> Figure:
    """Pieces, as typed."""
    return Figure(typed("stock", key))


def money(key: str) -> Figure:
    """In the shop's currency, which a sentence does not name."""
    return Figure(typed("stock", key), "", 2)


HERE, SOLD, AGO = Figure(stock.here), Figure(stock.sold_lately), Figure(stock.days_here, "days")

SAYS = {
    "below_zero": Says(
        "act",
        "Less than nothing",
        "a number of pieces is below zero",
        "Count again; each number is 0 or more.",
    ),
    "more_gone": Says(
        "watch",
        "More gone than there were",
        "{counted} were counted, and by Sales and losses more have gone since",
        "Count, and type a line 'counted' there; or correct the line that is wrong.",
        counted=Figure(stock.counted),
    ),
    "over_reserved": Says(
        "act",
        "More promised than there is",
        "{promised} are reserved, {here} are here",
        "Tell the buyers, or order; correct whichever number is wrong.",
        promised=Figure(stock.promised),
        here=HERE,
    ),
    "no_name": Says(
        "watch",
        "Neither species nor goods",
        "nothing says what this line is",
        "Pick a species, or type the goods.",
    ),
    "two_names": Says(
        "watch",
        "Species and goods",
        "it is called {species} and {goods}, so it is reckoned as animals",
        "Clear one of the two.",
        species=named(typed("stock", "species")),
        goods=named(typed("stock", "goods")),
    ),
    "no_tank": Says(
        "watch",
        "Animals without a tank",
        "{here} are here, but no display tank is typed, so they count for nothing in any tank",
        "Pick the tank that they are in.",
        here=HERE,
    ),
    "below_cost": Says(
        "watch",
        "Price below cost",
        "each sale at {price} loses money: it cost {cost}",
        "Correct the price or the cost; keep it only as a clearance you have decided on.",
        price=money("price"),
        cost=money("cost"),
    ),
    "many_lost": Says(
        "watch",
        "Many losses",
        "{lost} were lost, that is {share} of all that were here",
        "Stop selling this line until you know why: water, company, transport, illness. Tell the supplier; illness is "
        "for a veterinarian.",
        lost=Figure(stock.lost_lately),
        share=share(stock.loss_share),
    ),
    "overdue": Says(
        "watch",
        "Delivery overdue",
        "{coming} were due on {day}",
        "Ask the supplier, then type the new day; or book them in: delivered on Sales and losses.",
        coming=Figure(stock.coming),
        day=day(typed("stock", "incoming_on")),
    ),
    "dead_stock": Says(
        "watch",
        "Dead stock",
        "{here} here, none sold, and the newest delivery was {ago} ago",
        "Lower the price, move it where it is seen, or give it back; do not order it again.",
        here=HERE,
        ago=AGO,
    ),
    "minimum_high": Says(
        "watch",
        "Minimum above order up to",
        "the minimum of {least} is more than the {up_to} to order up to",
        "Set order up to above the minimum.",
        least=number("minimum"),
        up_to=number("order_up_to"),
    ),
    "slow": Says(
        "note",
        "Slow line",
        "{here} here, {sold} sold lately, and the newest delivery was {ago} ago",
        "Order less of it, show it better, or lower the price.",
        here=HERE,
        sold=SOLD,
        ago=AGO,
    ),
    "sold_out": Says(
        "note",
        "Sold out",
        "{sold} sold lately, none left and none on its way",
        "Order it, or take its label off the shelf.",
        sold=SOLD,
    ),
    "minimum_low": Says(
        "note",
        "Minimum lower than sales",
        "by its sales {go} go until a delivery is here, the minimum is {least}",
        "Raise the minimum, or accept that it runs out.",
        go=Figure(stock.least),
        least=number("minimum"),
    ),
    "not_all_known": Says(
        "note",
        "Numbers missing",
        "not typed: {which}",
        "Type them; what hangs on them stays blank until then.",
        which=named(stock.lacking),
    ),
}
