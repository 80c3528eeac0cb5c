"""Dosing: what is put into the water, by its own label, for each change and each tank."""

from dataclasses import replace
from functools import partial

from workbook.equations import dosing
from workbook.tables import Computed, Look, Pulled, Said, Sheet, Table, Typed, choice, key, logic, number, text
from workbook.tables.formula import Formula, filled
from workbook.tables.idioms import cell, joined, only_if, position, spoken
from workbook.tables.template import column, here, quoted

LABEL, VIEW, HIDDEN = (
    Look("What the label says", 12),
    Look("For the tank in view", 14),
    Look(working=True, width=16),
)
KINDS = ("conditioner", "minerals", "bicarbonate", "salt", "fertiliser", "medicine", "other")
EACH_CHANGE, ALL_WATER = "each change", "all the water"
LISTED = 8  # products that the doses of every tank name

CARE = {
    "conditioner": "By its label; into the new water before it meets the fish.",
    "minerals": "Dissolve first; raise hardness over days, and measure.",
    "bicarbonate": "Dissolve first; a degree a day at most: pH follows. Never mix with acids.",
    "salt": "Not for plants, snails and loaches at the doses for others; it leaves only with changed water.",
    "fertiliser": "By its label, less at first; copper in it kills shrimps and snails.",
    "medicine": "By its label and a veterinarian, in a tank apart; aerate well, gloves, carbon out, local law.",
    "other": "By its label; gloves; never mix products.",
}


def told(amount: str, unit: str = "{dose_unit}") -> Formula:
    """An amount in words: the number and the label's own unit."""
    return logic('{number}&" "&{measure}', number=spoken(amount, 2), measure=unit)


def amount_for(litres: str) -> Formula:
    """The product's dose for so much water."""
    return dosing.amount(dose="{dose}", stated_for="{stated_for}", litres=litres)


DOSES = Table(
    "doses",
    title="Dosing",
    row_name=("product",),
    enough=("product", "dose_kind", "dose", "dose_unit", "stated_for"),
    often=("product", "dose_kind", "dose", "dose_unit", "stated_for", "dose_into"),
    purpose="One row for each product, its dose as its own label states it.",
    example={
        "product": "Water conditioner",
        "dose_kind": "conditioner",
        "dose": 10,
        "dose_unit": "mL",
        "stated_for": 40,
        "dose_into": EACH_CHANGE,
    },
    answers=("for_change", "for_all", "care"),
    columns=(
        Typed("product", "Product", key(), required=True, look=Look("What the label says", 24)),
        Typed("dose_kind", "Kind", choice(*KINDS), required=True, look=LABEL),
        Typed(
            "dose",
            "Dose",
            number(0, 100000),
            unit="1",
            look=Look(LABEL.group, 9, "0.0##"),
            help="From the label of your own pack; a medicine's from the label and a veterinarian.",
        ),
        Typed("dose_unit", "Measured in", choice("mL", "g", "drops", "tablets", "caps"), look=Look(LABEL.group, 8)),
        Typed("stated_for", "For so much water", number(0.1, 100000), unit="L", look=Look(LABEL.group, 9, "0.0")),
        Typed(
            "dose_into",
            "Goes into",
            choice(EACH_CHANGE, ALL_WATER),
            look=LABEL,
            help="each change: only the new water; all the water: when you choose to.",
        ),
        Typed("dose_note", "Note", text(), look=Look(LABEL.group, 30)),
        Said(look=Look(LABEL.group, 44)),
        Computed(
            "for_change",
            "One change",
            told("{change_amount}"),
            kind=text(),
            look=VIEW,
            help="For the new water of one change of the tank in view on Tank.",
        ),
        Computed(
            "for_all",
            "All its water",
            told("{all_amount}"),
            kind=text(),
            look=VIEW,
            help="For the net volume of the tank in view on Tank.",
        ),
        Computed(
            "care",
            "With care",
            logic("CHOOSE({kind_no},{words})", words=[quoted(words) for words in CARE.values()]),
            kind=text(),
            look=Look("With care", 60),
        ),
        Computed(
            "change_amount",
            "Amount for one change",
            only_if(
                filled("{dose_into}={each_change}", each_change=quoted(EACH_CHANGE)), amount_for("{tank_card.litres}")
            ),
            look=replace(HIDDEN, show="0.00"),
        ),
        Computed(
            "all_amount",
            "Amount for all its water",
            amount_for("{tank_card.net_volume}"),
            look=replace(HIDDEN, show="0.00"),
        ),
        Computed("kind_no", "Number of its kind", position("{dose_kind}", KINDS), look=HIDDEN),
    ),
)

# The first products of the list, in lines that are always there.
LINES = Table(
    "dose_lines",
    title="First products",
    lines=LISTED,
    row_name=("product",),
    purpose="",
    columns=tuple(
        Computed(
            key_,
            label,
            logic(
                'IF({line}>ROWS({cells}),"",IF({found}="","",{found}))',
                unit,
                copes=True,
                cells=column("doses", key_),
                found=cell(column("doses", key_), "{line}"),
            ),
            look=HIDDEN,
            kind=number() if unit else text(),
        )
        for key_, label, unit in (
            ("product", "Product", ""),
            ("dose", "Dose", "1"),
            ("dose_unit", "Measured in", ""),
            ("stated_for", "For so much water", "L"),
            ("dose_into", "Goes into", ""),
        )
    ),
)


def of_line(number_: int, key_: str) -> str:
    """Formula text: what is known of one of the first products."""
    return cell(column("dose_lines", key_), str(number_))


def amount_of(number_: int) -> Formula:
    """What one of the first products makes for a tank: for one change, or for all its water."""
    of = partial(of_line, number_)
    return logic(
        'IF({lines}<{n},"",IF(AND(COUNT({dose},{stated_for},{litres})=3,SUM({stated_for})>0),{amount},""))',
        "1",
        copes=True,
        lines=filled("ROWS({products})", products=column("dose_lines", "product")),
        n=str(number_),
        dose=of("dose"),
        stated_for=of("stated_for"),
        litres=(litres := water_of(number_)),
        amount=dosing.amount(dose=of("dose"), stated_for=of("stated_for"), litres=litres).text,
    )


def water_of(number_: int) -> str:
    """The litres that one of the first products goes into."""
    return filled(
        "IF({into}={each_change},{change},{all})",
        into=of_line(number_, "dose_into"),
        each_change=quoted(EACH_CHANGE),
        change=here("litres"),
        all=here("net_volume"),
    )


def all_doses(into: str) -> Formula:
    """The amounts of the first products that go there, one after the other."""
    return joined(
        *(
            (
                filled(
                    "IF(COUNT({amount})=0,0,{into}={goes})",
                    amount=here(f"amount_{n}"),
                    into=of_line(n, "dose_into"),
                    goes=quoted(into),
                ),
                filled(
                    '{number}&" "&{unit}&" "&{product}',
                    number=spoken(here(f"amount_{n}"), 2),
                    unit=of_line(n, "dose_unit"),
                    product=of_line(n, "product"),
                ),
            )
            for n in range(1, LISTED + 1)
        ),
        between=" + ",
    )


TANKS = Table(
    "dose_tanks",
    title="Doses of every tank",
    rows_of="tanks",
    row_name=("tank",),
    purpose=f"The first {LISTED} products of Dosing, for each tank by its own water.",
    columns=(
        Pulled("tank", via="tanks", look=Look("The tank", 20)),
        Pulled("net_volume", via="tanks", look=Look("The tank", 10)),
        Pulled("litres", via="tanks", of="week_tanks.litres", label="One change", look=Look("The tank", 10)),
        Computed(
            "into_change",
            "Into each change",
            all_doses(EACH_CHANGE),
            kind=text(),
            look=Look("By the labels", 60),
        ),
        Computed(
            "into_all",
            "Into all its water, when you choose to",
            all_doses(ALL_WATER),
            kind=text(),
            look=Look("By the labels", 60),
        ),
        *(Computed(f"amount_{n}", f"Amount of product {n}", amount_of(n), look=HIDDEN) for n in range(1, LISTED + 1)),
    ),
)

SHEET = Sheet(
    "Dosing",
    role="reference",
    blocks=(DOSES,),
    purpose="The doses of your products as their labels state them, and what that makes for the tank in view on Tank.",
    notes=(
        "The label comes first: never more than it allows, never two products mixed.",
        "A medicine has no dose of ours: ask its label, a veterinarian and local law; "
        "treat in a tank apart, gloves on, and aerate.",
    ),
)
TANKS_SHEET = Sheet(
    "Doses by tank",
    role="detail",
    blocks=(TANKS, LINES),
    on_paper=False,
    purpose="What each product of Dosing makes for every tank: into each change, and into all its water.",
)
