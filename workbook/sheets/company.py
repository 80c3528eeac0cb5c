"""Company: who matters in each tank, as the roll counted them down to its last line."""

from workbook.tables import Computed, Look, Pulled, Table, logic, text
from workbook.tables.formula import Formula
from workbook.tables.idioms import counted, of_run
from workbook.tables.template import column

HIDDEN, WHO, COUNT = Look(working=True, show="0.00"), Look(working=True, width=18), Look(working=True, show="0")


def of_tank(key_: str, unit: str = "", none: str = '""') -> Formula:
    """What the roll holds on the last line of the tank."""
    return of_run(column("roll", key_), unit, none)


def number_of(key_: str, label: str) -> Computed:
    """How many groups of the tank the roll counts."""
    return Computed(key_, label, of_tank(key_, "1", "0"), look=COUNT)


def value_of(key_: str, unit: str, label: str) -> Computed:
    """Greatest or least among the residents."""
    return Computed(key_, label, of_tank(key_, unit), look=COUNT if unit == "1" else HIDDEN)


def who_of(key_: str, label: str) -> Computed:
    """Whose it is."""
    return Computed(key_, label, of_tank(key_), kind=text(), look=WHO)


COMPANY = Table(
    "company",
    title="Who matters in each tank",
    rows_of="tanks",
    row_name=("tank",),
    purpose="",
    columns=(
        Pulled("tank", via="tanks", look=Look(working=True, width=16)),
        Computed("residents", "Groups", logic(counted("{livestock.lives_in[]}"), "1"), look=COUNT),
        Computed(
            "run_end",
            "Its last line on the roll",
            logic("SUM({above.run_end})+SUM({residents})", "1", copes=True),
            look=COUNT,
        ),
        number_of("in_quarantine", "Groups in quarantine"),
        value_of("mouthful_max", "cm", "Longest mouthful"),
        who_of("mouthful_who", "Longest mouthful: who"),
        value_of("victim_min", "cm", "Smallest animal"),
        who_of("victim_who", "Smallest animal: who"),
        value_of("temper_max", "1", "Worst temper"),
        who_of("temper_who", "Worst temper: who"),
        number_of("biters", "Groups that bite fins"),
        who_of("first_biter", "First of them"),
        who_of("last_biter", "Last of them"),
        number_of("shrimp_hunters", "Groups that hunt shrimp"),
        who_of("shrimp_hunter", "Groups that hunt shrimp: who"),
        number_of("young_eaters", "Groups that take shrimp young"),
        who_of("young_eater", "Groups that take shrimp young: who"),
        number_of("snail_eaters", "Groups that eat snails"),
        who_of("snail_eater", "Groups that eat snails: who"),
        number_of("bottom_dwellers", "Groups that want bottom room"),
        who_of("first_bottom", "First of them"),
        who_of("last_bottom", "Last of them"),
        value_of("mouth_min", "mm", "Finest food wanted"),
        who_of("mouth_who", "Finest food wanted: who"),
    ),
)
