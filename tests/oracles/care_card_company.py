"""Who lives where the species on the card is kept."""

from tests.oracles import care_card_kept
from tests.oracles.printed import broken

shown, text, cut, rest, left, head, spaces = broken(
    lambda room: [told for told in care_card_kept.company(room) if told], 7
)
