"""What is said of a tank in one line: title by cause, causes and remedy as the flags gathered in it have them."""

from tests.oracles import matters
from tests.oracles.words.saying import Says, told

TITLES = {
    "cycling": "Ammonia, nitrite, cycling",
    "load": "Oxygen and floor",
    "carbonate": "Carbonate and gas",
    "water": "Water that suits all",
    "source": "Water it is filled with",
    "nitrate": "Nitrate",
    "gear": "Filter, heater, stand",
    "feeding": "Feeding plan",
    "data": "Not known of this tank",
}


def _gathered(cause: str, level: str) -> Says:
    why, do = (told(vars(matters)[f"{cause}_{part}"]) for part in ("why", "do"))
    return Says(level, TITLES[cause], "{causes}", "{remedy}", causes=why, remedy=do)


COMPANY = {"causes": told(matters.company_why), "remedy": told(matters.company_do)}
SIZE, QUARANTINE = (told(vars(matters)[key]) for key in ("size", "quarantine"))

SAYS = {
    f"{cause}_{level}": _gathered(cause, level)
    for cause, levels in matters.CAUSES.items()
    for level, flags in zip(matters.LEVELS, levels, strict=True)
    if flags
} | {
    # Eaten, bitten or beaten: animals die of it.
    "company_act": Says("act", "Company", "{causes}", "{remedy}", **COMPANY),
    "company_watch": Says("watch", "Company", "{causes}", "{remedy}", **COMPANY),
    "size_act": Says(
        "act",
        "Tank too small",
        "{who}",
        "Move them to a larger tank now; until then change water often and feed little.",
        who=SIZE,
    ),
    "size_watch": Says("watch", "Tank too small", "{who}", "Move them to a larger or longer tank.", who=SIZE),
    "quarantine_watch": Says(
        "watch",
        "Quarantine",
        "{who}",
        "A tank of its own until then; own net, own towels, wash hands between tanks. Illness: a veterinarian.",
        who=QUARANTINE,
    ),
    "quarantine_note": Says(
        "note",
        "Quarantine",
        "{who}",
        "Type the day until which it stays apart, or the day it came out.",
        who=QUARANTINE,
    ),
}
