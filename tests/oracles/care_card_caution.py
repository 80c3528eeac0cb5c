"""What to beware of, and where the values come from."""

from tests.oracles import care_card
from tests.oracles.printed import broken
from tests.oracles.tools import Room


def _whole(room: Room) -> list[str]:
    at = care_card.chosen(room)
    if at is None:
        return []
    typed = room.species.iloc[at]
    words = (("Caution", "caution"), ("Source", "source"), ("Seen here", "own_note"))
    return [f"{word}: {typed[key]}" for word, key in words if typed[key]]


shown, text, cut, rest, left, head, spaces = broken(_whole, 4)
