"""Residents of the tank in view, on its page: how each one fares in it, and the water it bears."""

from workbook.sheets.pages import NUMBER, STRONG, TEXT, WORDS, named, nth
from workbook.sheets.parameters import PARAMETERS
from workbook.sheets.tank_bars import of_resident
from workbook.tables import Computed, Pulled, Table, logic, row, text
from workbook.tables.columns import Column
from workbook.tables.idioms import joined
from workbook.tables.template import here, quoted

# What a resident may want otherwise than the others: column of Livestock, and the word for it.
UNLIKE = {"light_unlike": "light", "flow_unlike": "flow", "bottom_rival": "floor"}


def beyond(end: str, sign: str) -> Column:
    """The parameters in which the tank is kept above, or below, what a resident bears."""
    tests = (
        p.filled(
            "AND(COUNT({kept},{bears})=2,SUM({kept}){sign}SUM({bears}))",
            kept=here(f"tank_card.{p.kept}"),
            bears=here(f"{p.key}_{end}"),
            sign=sign,
        )
        for p in PARAMETERS
    )
    words = (quoted(p.word) for p in PARAMETERS)
    formula = joined(*zip(tests, words, strict=True), between=", ")
    return Computed(f"too_{end}", f"Too {end} for it", formula, kind=text(), look=WORDS)


COMPARED = "+".join(
    p.filled("COUNT({kept})*COUNT({*_low},{*_high})", kept=here(f"tank_card.{p.kept}")) for p in PARAMETERS
)
SUITS = logic(
    'IF({found}="","",IF({too_high}&{too_low}="",IF({compared}=0,"water not known","water suits it"),'
    '"◆ "&{high}&IF(AND({too_high}<>"",{too_low}<>""),"; ","")&{low}))',
    copes=True,
    compared=COMPARED,
    high='IF({too_high}="","",{too_high}&" high")',
    low='IF({too_low}="","",{too_low}&" low")',
)

RESIDENTS = Table(
    "tank_card_residents",
    title="",
    lines=14,
    row_name=("species",),
    purpose="",
    columns=(
        Computed(
            "species",
            "Kind",
            named("tank_card_residents", "{tank_card.residents}", "{name}", "groups"),
            kind=text(),
            look=STRONG,
        ),
        Computed(
            "fares",
            "How it fares",
            logic('{water}&IF({unlike}="","","; apart in "&{unlike})', copes=True),
            kind=text(),
            look=TEXT,
        ),
        Pulled("animals", via="found", of="living", label="", look=NUMBER),
        *(made for p in PARAMETERS for made in of_resident(p)),
        nth(
            "tank_card_residents",
            "{tank_card.residents}",
            "INDEX({roll.group[]},{tank_card.run_end}-{tank_card.residents}+{line})",
            row("livestock"),
        ),
        Pulled("name", via="found", of="species"),
        *(Pulled(key_, via="found") for key_ in UNLIKE),
        Computed("water", "Whether the water suits it", SUITS, kind=text(), look=WORDS),
        beyond("high", ">"),
        beyond("low", "<"),
        Computed(
            "unlike",
            "What others in it want otherwise",
            joined(*((f'{here(key_)}<>""', quoted(word)) for key_, word in UNLIKE.items()), between=", "),
            kind=text(),
            look=WORDS,
        ),
        *(Pulled(f"{p.key}_{end}", via="found") for p in PARAMETERS for end in ("low", "high")),
    ),
)
