"""The names of a list in alphabetical order, for the dropdowns that offer them: columns of numbers, then the names.

Programs do not agree which of two texts comes first where signs and accents stand in them, so letters are numbered
here; ranks of numbers take every program a tenth of the time that comparing texts does.
"""

from workbook.tables.columns import Computed, Look
from workbook.tables.formula import Formula, filled, logic
from workbook.tables.idioms import cell
from workbook.tables.kinds import text
from workbook.tables.template import column as names_of
from workbook.tables.template import here, quoted

# In the order of a dictionary; upper and lower case are one. What stands nowhere here comes last.
LETTERS = (
    " -'’.,&()/+0123456789AÀÁÂÃÄÅĄÆBCÇĆČDĎÐEÈÉÊËĘĚFGĞHIÌÍÎÏJKLŁMNÑŃŇOÒÓÔÕÖØŐŒPQRŘSŚŞŠTŤUÙÚÛÜŮŰVWXYÝZŹŻŽ"
)
# Seven letters of two digits each are as many digits as every program keeps; what follows the third seven is rarely
# needed to tell two names apart, and then the order of the list tells.
AT_ONCE, PARTS = 7, 3
IN_ORDER, SORTED = "in_order", "sorted_name"
LOOK = Look(group="In alphabetical order", working=True, width=9, show="0")


def sorted_names(table: str, key: str) -> list[Computed]:
    """The steps that put the names of a list in order, and in each row one of them: as many as there are, then blanks."""
    parts = [f"letters_{n + 1}" for n in range(PARTS)]
    # A name that is an error would make all others one; ~ is a sign of its own in a search.
    plain = logic('IF(ISERROR({name}),"",SUBSTITUTE(TRIM({name}),"~","-"))', copes=True, name=here(key))
    places = logic(
        'IF({plain_name}="","",{ranks})',
        "1",
        copes=True,
        ranks="+".join(
            filled("RANK({part},{all},1)", part=here(part), all=names_of(table, part)) + power
            for part, power in zip(parts, ("*10^10", "*10^5", ""), strict=True)
        ),
    )
    one_each = logic(
        'IF({plain_name}="","",RANK({place},{all},1)*10^5+{line})',
        "1",
        copes=True,
        place=here("places"),
        all=names_of(table, "places"),
    )
    line = filled("MOD(SMALL({all},{line}),10^5)", all=names_of(table, IN_ORDER))
    name = logic(
        'IF({line}>COUNT({all}),"",{name})',
        copes=True,
        all=names_of(table, IN_ORDER),
        name=cell(names_of(table, key), line),
    )
    return [
        Computed("plain_name", "Name to sort by", plain, kind=text(), look=LOOK),
        *(
            Computed(part, f"Letters {n * AT_ONCE + 1} to {(n + 1) * AT_ONCE}", _numbered(n * AT_ONCE), look=LOOK)
            for n, part in enumerate(parts)
        ),
        Computed("places", "Place by each of them", places, look=LOOK),
        Computed(
            IN_ORDER, "Place, and line", one_each, look=LOOK,
            help="The place of a name among all, followed by its line: no two are the same.",
        ),
        Computed(
            SORTED, "Names in order", name, kind=text(), look=LOOK,
            help="What the dropdowns offer: not this row's name, but the first, the second and so on.",
        ),
    ]  # fmt: skip


def _numbered(skipped: int) -> Formula:
    """The letters of a name after some of them as a number, two digits for each; blanks follow its last letter."""
    letters = [
        filled("MID({plain_name}&REPT({blank},{most}),{at},1)", blank=quoted(" "), most=str(AT_ONCE * PARTS), at=str(at))
        for at in range(skipped + 1, skipped + AT_ONCE + 1)
    ]
    # Put behind the others, any letter is found.
    numbers = [filled("SEARCH({letter},{all}&{letter})", letter=letter, all=quoted(LETTERS)) for letter in letters]
    powers = [f"*10^{2 * n}" if n else "" for n in reversed(range(AT_ONCE))]
    return logic(
        'IF({plain_name}="","",{number})',
        "1",
        copes=True,
        number="+".join(number + power for number, power in zip(numbers, powers, strict=True)),
    )
