"""What needs attention in the tank on the card: act before watch before note, the tank before its animals."""

from tests.oracles import cards, tank_card, tank_card_residents
from tests.oracles.printed import broken
from tests.oracles.tools import Room


def _whole(room: Room) -> list[str]:
    tank = tank_card.chosen(room)
    if tank is None:
        return []
    return [text for level in range(3) for text in (*cards.of_tank(room, tank, level), *tank_card_residents.said_of(room, level))]  # fmt: skip


shown, text, cut, rest, left, head, spaces = broken(_whole, 10)
