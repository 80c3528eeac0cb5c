"""One tank in view: what every chart, grid and card shows where its own sheet picks no other."""

from workbook.tables import Computed, Look, Table, Typed, link, logic, text
from workbook.tables.columns import Column

WIDE = Look(width=22)

VIEW = Table(
    "view",
    title="One tank in view",
    purpose="",
    row_name=("tank",),
    form=True,
    chosen=True,
    columns=(
        Typed(
            "tank",
            "Tank in view",
            link("tanks"),
            look=WIDE,
            help="Every chart, grid and card shows this tank; a sheet on which you pick another shows that one.",
        ),
    ),
)


def as_on_its_page(says: str) -> tuple[Column, ...]:
    """The tank of a sheet that holds the details of the page of one tank."""
    return (
        Computed(
            "in_view",
            "Tank shown",
            logic('{tank_card.in_view}&""', copes=True),
            kind=text(),
            look=WIDE,
            help=f"The one picked on Tank. {says}",
        ),
    )


def tank_shown(label: str, help_: str) -> tuple[Column, ...]:
    """The tank of one sheet: picked there, or the one in view."""
    return (
        Typed("tank", label, link("tanks"), look=WIDE, help=f"Blank: the tank in view, on Start. {help_}"),
        Computed(
            "in_view",
            "Tank shown",
            logic('IF({tank}="",{view.tank}&"",{tank})', copes=True),
            kind=text(),
            look=WIDE,
        ),
    )
