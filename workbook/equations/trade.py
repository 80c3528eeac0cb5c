"""Stock of a shop: what a sale leaves, how long stock lasts, when to order and how much."""

from workbook.tables.formula import equation


@equation
def margin(price: str, cost: str) -> str:
    """What a sale leaves of its price once the goods are paid.

    margin = price - cost

    price [currency]: of one, without sales tax
    cost [currency]: of one, without sales tax
    returns [currency]: for one sold; below 0 each sale loses money
    source: definition
    """
    return f"{price}-{cost}"


@equation
def margin_share(price: str, cost: str) -> str:
    """Margin as a share of the price.

    share = (price - cost) / price

    price [currency]: of one, without sales tax, above 0
    cost [currency]: of one, without sales tax
    returns [1]: share of the price; not the mark-up, which is a share of the cost
    source: definition
    """
    return f"({price}-{cost})/{price}"


@equation
def value(pieces: str, each: str) -> str:
    """Money that lies in a number of pieces.

    value = n * each

    pieces [1]: how many
    each [currency]: cost or price of one
    returns [currency]: of all
    source: definition
    """
    return f"{pieces}*{each}"


@equation
def mean_cost(pieces: str, cost: str, bought: str, paid: str) -> str:
    """What a piece has cost in the mean: those counted at their cost, and all that came since at what was paid.

    mean = (n * cost + paid) / (n + bought)

    pieces [1]: counted
    cost [currency]: of one of them
    bought [1]: delivered since then; with those counted above 0
    paid [currency]: for all of these
    returns [currency]: of one, whichever of them is sold
    source: common_practice, weighted mean cost of a period
    """
    return f"({pieces}*{cost}+{paid})/({pieces}+{bought})"


@equation
def rate_of_sale(sold: str, days: str = "{const.sale_window}") -> str:
    """Pieces sold in a mean day.

    rate = sold / days

    sold [1]: in the days counted
    days [day]: over which sales are counted, above 0
    returns [1/day]: mean rate; a few sales in a month say little
    source: definition
    """
    return f"{sold}/{days}"


@equation
def days_of_pieces(pieces: str, rate: str) -> str:
    """Days that pieces on hand last at a rate of sale.

    days = n / rate

    pieces [1]: that may go
    rate [1/day]: sold in a mean day, above 0
    returns [day]: until the last one is sold
    source: definition
    """
    return f"{pieces}/{rate}"


@equation
def position(on_hand: str, incoming: str, reserved: str) -> str:
    """Stock that counts when ordering: what is here and on its way, less what is promised.

    position = on hand + incoming - reserved

    on_hand [1]: pieces here
    incoming [1]: pieces ordered, not yet here
    reserved [1]: pieces promised to buyers
    returns [1]: below 0 more is promised than will be there
    source: common_practice, inventory position of an order-up-to rule
    """
    return f"{on_hand}+{incoming}-{reserved}"


@equation
def order_up_to(target: str, position: str) -> str:
    """Pieces to order once the position has fallen below the minimum.

    order = max(0, target - position)

    target [1]: order-up-to level
    position [1]: on hand and incoming less reserved, below the minimum
    returns [1]: pieces, before the supplier's packs
    source: common_practice, order-up-to rule with a minimum
    """
    return f"MAX(0,{target}-{position})"


@equation
def reorder_point(rate: str, lead: str, safety: str = "{const.safety_days}") -> str:
    """Least stock at which to order, so that it lasts until the delivery.

    minimum = rate * (lead + safety)

    rate [1/day]: sold in a mean day
    lead [day]: from ordering to having it
    safety [day]: kept in hand against late deliveries and busy weeks
    returns [1]: pieces
    source: common_practice, reorder point as use over the lead time and a safety stock
    """
    return f"{rate}*({lead}+{safety})"


@equation
def loss_share(lost: str, sold: str, on_hand: str) -> str:
    """Share of a line that was lost in the days counted.

    share = lost / (lost + sold + on hand)

    lost [1]: died or spoilt in the days counted
    sold [1]: in the same days
    on_hand [1]: left today
    returns [1]: of all that were here in those days
    source: definition
    """
    return f"{lost}/({lost}+{sold}+{on_hand})"
