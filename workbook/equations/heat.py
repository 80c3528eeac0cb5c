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


@equation
def cooling_constant(volume: str, loss: str, rise: str, density: str = "{const.water_density}") -> str:
    """Time in which a tank without heat loses 63 % of its lead over the room.

    tau = V * density * 4.18 / (3.6 * Q / dT)

    volume [L]: net volume
    loss [W]: Q, heat loss at the rise given, above 0
    rise [K]: dT, water warmer than the room, at which the loss was reckoned
    density [kg/L]: of water, 0.995 to 1.000 from 0 to 30 degC
    returns [h]: time constant; glass and substrate hold heat too, so it cools a little more slowly
    source: newton_cooling
    source: iapws_97, heat of water 4.18 kJ per kg and K
    """
    return f"{volume}*{density}*4.18*{rise}/(3.6*{loss})"


@equation
def cooled(temperature: str, room: str, hours: str, constant: str) -> str:
    """Temperature of a tank some hours after its heat failed.

    T = T_room + (T0 - T_room) * exp(-t / tau)

    temperature [degC]: T0, when the heat failed
    room [degC]: air of the room, taken as steady
    hours [h]: t, since then
    constant [h]: tau, time constant of the tank, above 0
    returns [degC]: temperature then
    source: newton_cooling
    """
    return f"{room}+({temperature}-{room})*EXP(-{hours}/{constant})"


@equation
def hours_to_cool(temperature: str, room: str, limit: str, constant: str) -> str:
    """Hours until a tank without heat has cooled to a limit.

    t = tau * ln((T0 - T_room) / (T_limit - T_room))

    temperature [degC]: T0, when the heat failed, above the limit
    room [degC]: air of the room, taken as steady, below the limit
    limit [degC]: lowest temperature that is borne
    constant [h]: tau, time constant of the tank
    returns [h]: hours; if the room is no colder than the limit the tank never cools so far
    source: newton_cooling
    """
    return f"{constant}*LN(({temperature}-{room})/({limit}-{room}))"
