"""Heat that a tank loses and the heater that makes it good."""

from workbook.tables.formula import equation


@equation
def heat_loss(
    side_area: str,
    plan_area: str,
    rise: str,
    top: str,
    side: str = "{const.u_glass}",
    floor: str = "{const.u_floor}",
) -> str:
    """Heat that flows from the tank to the room.

    Q = (U_side * A_side + (U_top + U_floor) * A_plan) / 10000 * dT

    side_area [cm2]: all side panes up to the water line
    plan_area [cm2]: plan area
    rise [K]: water warmer than the coldest air of the room, 0 to 25
    top [W/m2K]: heat flow through the top, covered or open
    side [W/m2K]: heat flow through a side pane
    floor [W/m2K]: heat flow through the floor, on a mat
    returns [W]: heat loss, an estimate to about a third
    source: heat_balance
    """
    return f"({side}*{side_area}+({top}+{floor})*{plan_area})/10000*{rise}"


@equation
def heater_wanted(loss: str, margin: str = "{const.heater_margin}") -> str:
    """Heater power that makes the loss good with a margin.

    P = Q * margin

    loss [W]: heat loss in the coldest room
    margin [1]: 1.25 to 2
    returns [W]: least heater power; take the next size sold
    source: common_practice
    """
    return f"{loss}*{margin}"


@equation
def daily_energy(loss: str) -> str:
    """Energy that the heater uses in a day.

    E = Q * 24 / 1000

    loss [W]: mean heat loss
    returns [kWh]: in a day, if the room stays that cold
    source: definition
    """
    return f"{loss}*24/1000"


@equation
def watts_per_gallon(power: str, volume: str) -> str:
    """Heater power for each US gallon.

    p = P / (V / 3.785411784)

    power [W]: of all heaters
    volume [L]: net volume, above 0
    returns [W/gal]: power per US gallon
    source: nist_sp811, US gallon
    """
    return f"{power}/({volume}/3.785411784)"
