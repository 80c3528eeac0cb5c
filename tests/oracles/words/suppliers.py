"""What the flags of suppliers say."""

from tests.oracles import suppliers
from tests.oracles.words.saying import Figure, Says, typed

SAYS = {
    "to_claim": Says(
        "note",
        "Credit to claim",
        "{dead} were dead on arrival, which comes to {money}",
        "Claim it, with the day and pictures; then type the day up to which it is settled.",
        dead=Figure(suppliers.dead),
        money=Figure(suppliers.claim, "", 2),
    ),
    "small_order": Says(
        "note",
        "Order smaller than the supplier takes",
        "what is to be ordered comes to {sum}, the supplier wants {least}",
        "Wait, fill it up with lines near their minimum, or agree on carriage.",
        sum=Figure(suppliers.order_value, "", 2),
        least=Figure(typed("suppliers", "least_order"), "", 2),
    ),
}
