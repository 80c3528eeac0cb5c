"""The names of a list in alphabetical order, for the dropdowns that offer them: letters as digits, places, names.

Programs do not agree which of two texts comes first where signs, accents or capitals stand in them. Of two texts of
digits they do, so each letter becomes its place in an alphabet. All that is compared with a whole column is one text:
a second comparison of 2,000 names took the engine of a build as long as a tenth of all else.
"""

from workbook.tables.columns import Computed, Look
from workbook.tables.formula import Formula, filled, logic
from workbook.tables.idioms import position, reckoned_in
from workbook.tables.kinds import text
from workbook.tables.table import Table
from workbook.tables.template import NAME, above, here, of, quoted
from workbook.tables.template import column as names_of

# In the order of a dictionary; upper and lower case are one. What stands nowhere here comes last.
LETTERS = " -'’.,&()/+0123456789AÀÁÂÃÄÅĄÆBCÇĆČDĎÐEÈÉÊËĘĚFGĞHIÌÍÎÏJKLŁMNÑŃŇOÒÓÔÕÖØŐŒPQRŘSŚŞŠTŤUÙÚÛÜŮŰVWXYÝZŹŻŽ"
# What follows the twenty-first letter is rarely needed to tell two names apart; the order of the list tells them then.
AT_ONCE, PARTS = 7, 3
NAMED, IN_ORDER, SORTED = "names_so_far", "in_order", "sorted_name"
LOOK = Look(group="In alphabetical order", working=True, width=9, show="0")
BY_GROUP, GROUP_OF_IT = "name_by_group", "group_by_group"
# Six digits for a place in the alphabet, in front of which no other stands yet.
NOWHERE = "100000"
GROUPED = Look(group="By group", working=True, width=9, show="0")


def sorted_names(table: str, key: str) -> list[Computed]:
    """The steps that put the names of a list in order, and in each row one of them, then blanks."""
    # The three stand for others in a search; the name of a cell that fails is offered to nobody.
    plain = logic(
        'IF(ISERROR({name}),"",SUBSTITUTE(SUBSTITUTE(SUBSTITUTE(TRIM({name}),"~","-"),"?","-"),"*","-"))',
        copes=True,
        name=here(key),
    )
    parts = [f"letters_{n + 1}" for n in range(PARTS)]
    # A letter before the digits, or a program might take them for a number; the line makes two of no names the same.
    whole = logic(
        'IF({plain_name}="","","k"&{parts}&(10^5+{line}))', copes=True, parts="&".join(here(part) for part in parts)
    )
    so_far = logic('{so_far}+IF({plain_name}="",0,1)', "1", copes=True, so_far=above(NAMED))
    # Counted from the end: for some programs the blanks of ready rows are less than any text, for some they are not.
    place = logic(
        'IF({sort_key}="","",{many}-COUNTIF({all},">"&{sort_key}))',
        "1",
        copes=True,
        many=of("@last", NAMED),
        all=names_of(table, "sort_key"),
    )
    row = logic(
        'IF({line}>{many},"",MATCH({line},{all},0))',
        "1",
        copes=True,
        many=of("@last", NAMED),
        all=names_of(table, IN_ORDER),
    )
    return [
        Computed("plain_name", "Name to sort by", plain, kind=text(), look=LOOK),
        *(
            Computed(
                part, f"Letters {n * AT_ONCE + 1} to {(n + 1) * AT_ONCE}", _as_digits(n), kind=text(), look=LOOK
            )
            for n, part in enumerate(parts)
        ),
        Computed(
            "sort_key", "Letters, and line", whole, kind=text(), look=LOOK,
            help="No two are the same: the line tells names of the same letters apart.",
        ),
        Computed(NAMED, "Names so far", so_far, seed="0", look=LOOK),
        Computed(IN_ORDER, "Place in the alphabet", place, look=LOOK),
        Computed("sorted_row", "Line of the name in order", row, look=LOOK),
        Computed(
            SORTED, "Names in order", reckoned_in(names_of(table, key), "{sorted_row}"), kind=text(), look=LOOK,
            help="What the dropdowns offer: not this row's name, but the first of all, the second and so on.",
        ),
    ]  # fmt: skip


def names_by_group(table: Table) -> list[Computed]:
    """The steps that put the names in order group by group, so that those of one stand side by side for a dropdown.

    Each place in the alphabet leads to the next one of its group, the last one to the first of the next group: no
    column is searched, for a second sorting of 2,000 names took a quarter of all that a build reckons.
    """
    group = table[table.grouped]
    if not isinstance(group, Computed):
        raise TypeError(f"{table.key}.{group.key}: names are grouped by what is reckoned, so that each has a group")
    groups, rows = group.kind.choices, names_of(table.key, "sorted_row")
    number = logic(
        "IF(ISERROR({group}),{last},{number})", "1", copes=True, group=here(group.key), last=str(len(groups)),
        number=position(here(group.key), groups),
    )  # fmt: skip
    steps = [
        Computed("group_no", "Its group", number, look=GROUPED),
        *_ways_through(table, len(groups)),
        Computed("row_by_group", "Line of the name", reckoned_in(rows, "{place_by_group}", "1"), look=GROUPED),
        Computed(
            "group_no_by_group", "Its group", reckoned_in(names_of(table.key, "group_no"), "{row_by_group}", "1"),
            seed="0", look=GROUPED,
        ),
    ]  # fmt: skip
    return [
        *steps,
        Computed(
            GROUP_OF_IT, "Groups in order", reckoned_in(names_of(table.key, group.key), "{row_by_group}"), kind=text(),
            look=GROUPED, help="Where one begins, and how many rows it has, is where its names begin and how many.",
        ),
        Computed(
            BY_GROUP, "Names by group", reckoned_in(names_of(table.key, table.row_name[0]), "{row_by_group}"),
            kind=text(), look=GROUPED,
            help="What dropdowns offer of one group: not this row's name, but the first of all, the second and so on.",
        ),
    ]  # fmt: skip


def _ways_through(table: Table, groups: int) -> list[Computed]:
    """From the end of the alphabet to its begin: the place that each leads to; then the places on that way."""
    parts = {
        "many": of("@last", NAMED),
        "nowhere": quoted(NOWHERE),
        "base": "10^5",
        "long": str(len(NOWHERE)),
        "at": filled("({long}*({group_back}-1)+1)", long=str(len(NOWHERE))),
        "numbers": names_of(table.key, "group_no"),
        "rows": names_of(table.key, "sorted_row"),
        "nexts": names_of(table.key, "next_of_group"),
        "all_firsts": of("@last", "firsts"),
    }

    def step(template: str, unit: str = "1") -> Formula:
        used = {key: part for key, part in parts.items() if key in NAME.findall(template)}
        return logic(filled(template, **used), unit, copes=True)

    return [
        Computed(
            "group_back", "Group, from the last name up",
            step('IF({line}>{many},"",INDEX({numbers},INDEX({rows},{many}+1-{line})))'), look=GROUPED,
        ),
        Computed(
            "firsts", "First of each group from there on",
            step(
                'IF({group_back}="",{above.firsts},LEFT({above.firsts},{at}-1)&({base}+{many}+1-{line})'
                "&MID({above.firsts},{at}+{long},999))",
                "",
            ),
            kind=text(), look=GROUPED, seed=f"REPT({quoted(NOWHERE)},{groups})",
            help="The place in the alphabet of the first name of each group, in six digits.",
        ),
        Computed(
            "next_of_group", "Next of the group",
            step('IF({group_back}="","",VALUE(MID({above.firsts},{at},{long}))-{base})'), look=GROUPED,
        ),
        Computed(
            "leads_to", "The one before leads to",
            step('IF({line}>{many},"",IF({line}=1,0,INDEX({nexts},{many}+1-{above.place_by_group})))'), look=GROUPED,
        ),
        Computed(
            "place_by_group", "Place in the alphabet",
            step(
                'IF({leads_to}="","",IF({leads_to}>0,{leads_to},VALUE(LEFT(SUBSTITUTE('
                'MID({all_firsts},{long}*{above.group_no_by_group}+1,999),{nowhere},""),{long}))-{base}))'
            ),
            seed="0", look=GROUPED,
        ),
    ]  # fmt: skip


def _as_digits(part: int) -> Formula:
    """A few letters of a name, each as three digits that tell its place in the alphabet; blanks follow the last one."""
    padded = filled("{plain_name}&REPT({blank},{most})", blank=quoted(" "), most=str(AT_ONCE * PARTS))
    letters = [
        filled("MID({name},{at},1)", name=padded, at=str(at))
        for at in range(part * AT_ONCE + 1, (part + 1) * AT_ONCE + 1)
    ]
    # Put behind the others, any letter is found.
    digits = [
        filled("(10^2+SEARCH({letter},{all}&{letter}))", letter=letter, all=quoted(LETTERS)) for letter in letters
    ]
    return logic('IF({plain_name}="","",{digits})', copes=True, digits="&".join(digits))
