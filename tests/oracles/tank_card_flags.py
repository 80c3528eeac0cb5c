"""What needs attention in the tank in view: act before watch before note, the tank before its animals and its foods."""

from tests.oracles import cards, tank_card, tank_card_foods, tank_card_residents
from tests.oracles.printed import broken
from tests.oracles.tools import Room


def _whole(room: Room) -> list[str]:
    tank = tank_card.chosen(room)
    if tank is None:
        return []
    found = [
        text
        for level in range(3)
        for said in (
            cards.of_tank(room, tank, level),
            tank_card_residents.said_of(room, level),
            tank_card_foods.said_of(room, level),
        )
        for text in said
    ]
    return found or ["Nothing."]


shown, text, cut, rest, left, head, spaces = broken(_whole, 10, 140)
