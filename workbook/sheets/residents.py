"""Who lives in the tank that was chosen on Candidates, group by group; who can't be had any more has left it."""

from workbook.sheets.filters import COUNT, HIDDEN, WHO
from workbook.tables import Computed, Pulled, Table, logic, pulled, row
from workbook.tables.idioms import cell_of

OF_KIND = (
    *(
        "kind",
        "adult_length",
        "group_min",
        "volume_min",
        "zone",
        "swim",
        "bites_fins",
        "long_fins",
        "eats_shrimp",
        "eats_snails",
    ),
    *("flow", "role", "active_at", "colour_group", "home", "family", "genus", "spawning", "lacking"),
)
OF_GROUP = ("temper_counted", "mouthful", "victim_length", "oxygen_draw", "nitrogen", "bottom_wanted", "length_wanted")


def group_number(key_: str, label: str, template: str) -> Computed:
    """A number of the group on this line; blank where there is none."""
    return Computed(key_, label, logic(template, "1", needs=("group",)), look=COUNT)


def marked(key_: str, label: str, test: str) -> Computed:
    """A one where something holds of a group that stays."""
    return group_number(key_, label, "IF(AND({living}=1," + test + "),1,0)")


def line_of(key_: str, label: str, test: str) -> Computed:
    """The line where something holds of a group that stays."""
    return group_number(key_, label, "IF(AND({living}=1," + test + '),{line},"")')


def staying(key_: str, label: str, of: str, unit: str) -> Computed:
    """A number of a group that stays."""
    return Computed(
        key_, label, logic('IF({living}=1,{of},"")', unit, needs=("living",), of="{" + of + "}"), look=HIDDEN
    )


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
        *pulled("species_row", *OF_KIND),
        *pulled("group", *OF_GROUP),
        group_number(
            "gone", "Of the kind that can't be had", 'IF(AND({species_row}<>"",{species_row}={sought.wanted}),1,0)'
        ),
        group_number("living", "Lives and stays", "IF(AND(SUM({animals})>0,{gone}=0),1,0)"),
        staying("temper", "Its temper", "temper_counted", "1"),
        staying("gape", "Its mouthful", "mouthful", "cm"),
        staying("prey_length", "Its length as prey", "victim_length", "cm"),
        Computed(
            "snail_gape",
            "Its mouthful, if it eats snails",
            logic('IF({eats_snails}="yes",{gape},"")', "cm", copes=True),
            look=HIDDEN,
        ),
        Computed(
            "bold_length",
            "Its length, if it is bold",
            logic('IF(AND({living}=1,SUM({temper})>=1+2),{adult_length},"")', "cm", copes=True),
            look=HIDDEN,
        ),
        staying("room_wanted", "Length it wants", "length_wanted", "cm"),
        staying("litres_wanted", "Volume it wants", "volume_min", "L"),
        line_of("finned_line", "Line, if its fins are long", '{long_fins}="yes"'),
        line_of(
            "other_finned_line",
            "Line, if another kind with long fins",
            '{long_fins}="yes",{species}<>{sought.first_finned}',
        ),
        line_of("biter_line", "Line, if it bites fins", '{bites_fins}="yes"'),
        line_of(
            "other_biter_line",
            "Line, if another kind that bites",
            '{bites_fins}="yes",{species}<>{sought.first_biter}',
        ),
        marked("shrimp", "Shrimp", '{kind}="shrimp"'),
        marked("snail", "Snails", '{kind}="snail"'),
        marked("hunter", "Hunts shrimp", '{eats_shrimp}="yes"'),
        marked("young_eater", "Takes the young of shrimp", '{eats_shrimp}="young"'),
        marked("snail_eater", "Eats snails", '{eats_snails}="yes"'),
        marked(
            "one_show",
            "Keeps rivals out",
            'SUM({group_min})<={const.choose_few},OR({role}="show",{role}="hunter",SUM({temper})>=1+2)',
        ),
        group_number(
            "size", "Logarithm of its length", 'IF(AND({living}=1,SUM({adult_length})>0),LN({adult_length}),"")'
        ),
        group_number("pace", "Pace", 'IF({living}=1,_xlfn.SWITCH({swim}&"","active",2,"calm",1,"sedentary",0,""),"")'),
        group_number(
            "current",
            "Current it likes",
            'IF({living}=1,_xlfn.SWITCH({flow}&"","still",0,"gentle",1,"medium",2,"strong",3,""),"")',
        ),
        group_number(
            "half_known",
            "Not fully known",
            'IF(OR({species_row}="",{lacking}<>"",{animals}="",{kind}=""),1,0)',
        ),
    ),
)
