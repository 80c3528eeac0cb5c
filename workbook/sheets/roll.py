"""The roll: the groups of Livestock in the order of their tanks, so that what adds up in a tank adds up line by line.

Each tank reads the last line of its own groups. A sum over all of Livestock for every tank would cost tanks times
groups; down the roll each group is looked at once.
"""

from workbook.sheets import growing
from workbook.sheets.parameters import PARAMETERS
from workbook.sheets.wishes import WISHES, Wish
from workbook.tables import Computed, Look, Pulled, Table, logic, row, text
from workbook.tables.columns import Column
from workbook.tables.completing import ALSO
from workbook.tables.formula import filled
from workbook.tables.idioms import (
    cell,
    or_zero,
    running_count,
    running_first,
    running_last,
    running_most,
    running_names,
    running_sum,
    running_who,
)
from workbook.tables.template import column, quoted

HOUSED = "INDEX({company.run_end[]},ROWS({company.run_end[]}))"
HIDDEN, COUNT, WHO = Look(working=True, show="0.00"), Look(working=True, show="0"), Look(working=True, width=18)


def of_group(key_: str) -> str:
    """Formula text: the cell of Livestock in the row of this line's group."""
    return cell(column("livestock", key_), "{group}")


def summed(key_: str, unit: str, label: str, *, of: str = "") -> Computed:
    """Sum of a column of Livestock so far; the last line of a tank holds the sum of the tank."""
    return Computed(key_, label, running_sum(key_, of_group(of or key_), unit), look=HIDDEN)


def most(key_: str, of: str, unit: str, label: str, *, who: str = "", least: bool = False) -> tuple[Column, ...]:
    """Greatest or least of a column of Livestock so far, and whose it is."""
    found: tuple[Column, ...] = (
        Pulled(f"here_{of}", via="group", of=of),
        Computed(
            key_, label, running_most(key_, f"here_{of}", unit, least=least), look=COUNT if unit == "1" else HIDDEN
        ),
    )
    return (
        (*found, Computed(who, f"{label}: who", running_who(who, key_, "{species}"), kind=text(), look=WHO))
        if who
        else found
    )


def those(key_: str, label: str, test: str, *first: Computed) -> tuple[Column, ...]:
    """How many groups so far pass a test."""
    return (Computed(key_, label, running_count(key_, test), look=COUNT), *first)


def habit(key_: str, word: str) -> str:
    """Test: living animals with a habit."""
    return filled(
        "AND({habit}={word},{animals}>0)", habit=of_group(key_), word=quoted(word), animals=or_zero(of_group("living"))
    )


def named(key_: str, label: str, test: str) -> tuple[Column, ...]:
    """How many groups so far pass a test, and the first of them."""
    return those(
        f"{key_}s",
        label,
        test,
        Computed(key_, f"{label}: who", running_first(key_, f"{key_}s", "{species}"), kind=text(), look=WHO),
    )


def is_raised(*flags: str) -> str:
    """Test: the group of this line raises any of these flags."""
    return filled('{flags}<>""', flags="&".join(of_group(flag) for flag in flags))


def told(key_: str, label: str) -> tuple[Column, ...]:
    """What the flags of one matter say, group by group, and how many groups they are about."""
    said = of_group(f"{key_}_why")
    name = filled('{species}&": "&{said}', said=said)
    names = running_names(key_, f"{key_}_groups", filled('{said}<>""', said=said), name, ALSO)
    who = Computed(key_, f"{label}: what", names, kind=text(), look=WHO)
    return those(f"{key_}_groups", label, filled('{said}<>""', said=said), who)


def wished(wish: Wish) -> tuple[Column, ...]:
    """How many groups so far want each choice of a thing of their place, and who they are."""
    columns: list[Column] = []
    for choice, key_ in wish.keys:
        test = filled("{wish}={choice}", wish=of_group(wish.key), choice=quoted(choice))
        names = running_names(key_, f"{key_}_groups", test, "{species}")
        who = Computed(key_, f"{wish.label}: {choice}: who", names, kind=text(), look=WHO)
        columns += those(f"{key_}_groups", f"{wish.label}: {choice}", test, who)
    return tuple(columns)


WANTS_BOTTOM = filled("{wanted}>0", wanted=or_zero(of_group("bottom_wanted")))

ROLL = Table(
    "roll",
    title="Groups in the order of tanks",
    rows_of="livestock",
    row_name=("group",),
    purpose="Each tank reads the last line of its groups; where a name stands twice, the first counts.",
    columns=(
        Computed(
            "in_order",
            "In order",
            logic('IF({line}>{housed},"",SMALL({livestock.place[]},{line}))', "1", copes=True, housed=HOUSED),
            look=COUNT,
        ),
        Computed(
            "group",
            "Row of the group",
            logic('IF({in_order}="","",MOD({in_order},10^6))', "1", copes=True),
            kind=row("livestock"),
            look=COUNT,
        ),
        Computed("tank_no", "Row of its tank", logic("({in_order}-{group})/10^6", "1", needs=("group",)), look=COUNT),
        Computed(
            "same",
            "In the tank of the line above",
            logic("IF({tank_no}={above.tank_no},1,0)", "1", needs=("group",)),
            look=COUNT,
        ),
        Pulled("species", via="group"),
        Computed("groups", "Groups so far", logic("{same}*SUM({above.groups})+1", "1", needs=("same",)), look=COUNT),
        *those("in_quarantine", "Groups in quarantine", filled("{waiting}=1", waiting=or_zero(of_group("waiting")))),
        *those("small_groups", "Groups too small", filled("{small}=1", small=or_zero(of_group("small_group_no")))),
        *those("weighed", "Groups with a mass", filled("COUNT({mass})=1", mass=of_group("mass"))),
        summed("animals", "1", "Animals", of="living"),
        Computed(
            "kept",
            "Who, in words",
            logic(
                'IF({same}=1,{above.kept}&", ","")&IF({animals}="","some",{animals})&" "&{species}',
                needs=("same",),
                animals=of_group("living"),
            ),
            kind=text(),
            look=WHO,
        ),
        *told("company", "Groups in wrong company"),
        *those("company_now", "Of these in danger", is_raised("eaten", "fins", "shrimp_hunted")),
        *told("size", "Groups that want a larger tank"),
        *those("size_now", "Of these in one far too small", is_raised("tiny_tank")),
        *told("quarantine", "Groups not in proper quarantine"),
        *those("quarantine_now", "Of these not apart", is_raised("not_apart")),
        *those(
            "temper_groups",
            "Groups gentler than the rest",
            is_raised("clash_of_temper", "gap_of_temper"),
            Computed(
                "temper",
                "Who they are",
                running_names(
                    "temper",
                    "temper_groups",
                    is_raised("clash_of_temper", "gap_of_temper"),
                    filled('{species}&" ("&{number}&")"', number=of_group("temper_counted")),
                ),
                kind=text(),
                look=WHO,
            ),
        ),
        *those("temper_now", "Of these far gentler", is_raised("clash_of_temper")),
        summed("mass", "g", "Mass"),
        summed("oxygen_draw", "mg/h", "Oxygen draw"),
        summed("food", "g/day", "Dry food"),
        summed("nitrogen", "g/day", "Ammonia nitrogen"),
        *(summed(key_, unit, label) for key_, unit, label in growing.SUMMED),
        summed("body_length", "cm", "Body length"),
        summed("scaled_length", "cm", "Body length by breath"),
        summed("bottom_wanted", "cm2", "Bottom wanted"),
        *most("length_wanted", "length_wanted", "cm", "Length wanted"),
        *most("volume_wanted", "volume_min", "L", "Volume wanted"),
        *most("mouthful_max", "mouthful", "cm", "Longest mouthful", who="mouthful_who"),
        *most("victim_min", "victim_length", "cm", "Smallest animal", who="victim_who", least=True),
        *most("temper_max", "temper_counted", "1", "Worst temper", who="temper_who"),
        *most("mouth_min", "food_size", "mm", "Finest food wanted", who="mouth_who", least=True),
        *those(
            "biters",
            "Groups that bite fins",
            habit("bites_fins", "yes"),
            Computed(
                "first_biter",
                "First of them",
                running_first("first_biter", "biters", "{species}"),
                kind=text(),
                look=WHO,
            ),
            Computed(
                "last_biter",
                "Last of them",
                running_last("last_biter", habit("bites_fins", "yes"), "{species}"),
                kind=text(),
                look=WHO,
            ),
        ),
        *those(
            "bottom_dwellers",
            "Groups that want bottom room",
            WANTS_BOTTOM,
            Computed(
                "first_bottom",
                "First of them",
                running_first("first_bottom", "bottom_dwellers", "{species}"),
                kind=text(),
                look=WHO,
            ),
            Computed(
                "last_bottom",
                "Last of them",
                running_last("last_bottom", WANTS_BOTTOM, "{species}"),
                kind=text(),
                look=WHO,
            ),
        ),
        *(column for wish in WISHES for column in wished(wish)),
        *named("shrimp_hunter", "Groups that hunt shrimp", habit("eats_shrimp", "yes")),
        *named("young_eater", "Groups that take shrimp young", habit("eats_shrimp", "young")),
        *named("snail_eater", "Groups that eat snails", habit("eats_snails", "yes")),
        *(
            column
            for p in PARAMETERS
            for column in (
                *most(f"{p.key}_low", f"{p.key}_low", p.unit, f"{p.label}: shared from", who=f"{p.key}_low_by"),
                *most(
                    f"{p.key}_high",
                    f"{p.key}_high",
                    p.unit,
                    f"{p.label}: shared to",
                    who=f"{p.key}_high_by",
                    least=True,
                ),
                *those(
                    f"{p.key}_known", f"{p.label}: both ends known", p.filled("COUNT({here_*_low},{here_*_high})=2")
                ),
            )
        ),
    ),
)
