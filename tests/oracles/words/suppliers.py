"""What the flags of suppliers say."""

from tests.oracles import suppliers
from tests.oracles.words.saying import Figure, Says, typed

SAYS = {
    "small_order": Says(
        "note",
        "Order smaller than the supplier takes",
        "what is to be ordered comes to {sum}, the supplier wants {least}",
        "Wait, fill it up with lines near their minimum, or agree on carriage.",
        sum=Figure(suppliers.order_value, "", 2),
        least=Figure(typed("suppliers", "least_order"), "", 2),
    ),
}
