"""Who lives in the tank that was chosen on Candidates, group by group."""

from workbook.sheets.filters import COUNT, WHO
from workbook.tables import Computed, Pulled, Table, logic, pulled, row
from workbook.tables.idioms import cell_of


def group_number(key_: str, label: str, template: str) -> Computed:
    """A number of the group on this line; blank where there is none."""
    return Computed(key_, label, logic(template, "1", needs=("group",)), look=COUNT)


RESIDENTS = Table(
    "residents",
    title="Who lives in it",
    purpose="",
    lines=40,
    row_name=("species",),
    columns=(
        Computed(
            "group",
            "Row of the group",
            logic(
                'IF({line}>SUM({sought.residents}),"",INDEX({roll.group[]},{end}-{sought.residents}+{line}))',
                "1",
                copes=True,
                end="{sought.run_end}",
            ),
            kind=row("livestock"),
            look=COUNT,
        ),
        Pulled("species", via="group", look=WHO),
        Pulled("animals", via="group", of="living"),
        Computed(
            "species_row",
            "Row of the species",
            cell_of("{livestock.species_row[]}", "{group}", "1"),
            kind=row("species"),
            look=COUNT,
        ),
        *pulled("species_row", "kind", "long_fins", "bites_fins", "lacking"),
        Pulled("temper", via="group", of="temper_counted"),
        group_number("living", "Lives", "IF(SUM({animals})>0,1,0)"),
        group_number(
            "finned_line",
            "Line, if its fins are long",
            'IF(AND({long_fins}="yes",{living}=1),{line},"")',
        ),
        group_number(
            "other_finned_line",
            "Line, if another kind with long fins",
            'IF(AND({long_fins}="yes",{living}=1,{species}<>{sought.first_finned}),{line},"")',
        ),
        group_number(
            "other_biter_line",
            "Line, if another kind that bites",
            'IF(AND({bites_fins}="yes",{living}=1,{species}<>{sought.first_biter}),{line},"")',
        ),
        group_number("shrimp", "Shrimp", 'IF(AND({kind}="shrimp",{living}=1),1,0)'),
        group_number("snail", "Snails", 'IF(AND({kind}="snail",{living}=1),1,0)'),
        group_number(
            "half_known",
            "Not fully known",
            'IF(OR({species_row}="",{lacking}<>"",{animals}="",{kind}=""),1,0)',
        ),
    ),
)
