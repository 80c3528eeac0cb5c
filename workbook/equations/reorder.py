"""How long food lasts and what it costs."""

from workbook.tables.formula import equation


@equation
def days_of_stock(stock: str, use: str) -> str:
    """Days that the food on hand lasts.

    days = stock / use

    stock [g]: food on hand, as fed
    use [g/day]: mean use, as fed, above 0
    returns [day]: days until the pack is empty
    source: definition
    """
    return f"{stock}/{use}"


@equation
def monthly_cost(use: str, price: str, pack: str, month: str = "{const.month_days}") -> str:
    """What a food costs in a mean month.

    cost = use * days in a month * price / pack

    use [g/day]: mean use, as fed
    price [1]: of one pack, in the room's currency
    pack [g]: food in one pack, above 0
    month [day]: days in a mean month, 365.25 / 12
    returns [1]: a month, in the room's currency
    source: definition
    """
    return f"{use}*{month}*{price}/{pack}"
