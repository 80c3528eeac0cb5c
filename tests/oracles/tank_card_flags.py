"""What needs attention in the tank in view: its lines of Attention, whole and in that order."""

from tests.oracles import open_flags, tank_card
from tests.oracles.printed import broken
from tests.oracles.tools import Room


def _whole(room: Room) -> list[str]:
    tank = tank_card.chosen(room)
    if tank is None:
        return []
    return (open_flags.all_lines(room)[tank] or "Nothing.").split("¦")


shown, text, cut, rest, left, head, spaces = broken(_whole, 10, 140)
