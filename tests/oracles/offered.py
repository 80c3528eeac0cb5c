"""The names of a list as a dictionary orders them: what a dropdown offers, and each step on the way there.

Source: common practice, no published source. Blanks come before signs, signs before digits, digits before letters;
capitals are as good as small letters, and a letter with an accent follows the same letter without one.
"""

import itertools
import re
import string
import unicodedata
from collections.abc import Callable, Sequence

AT_ONCE, COMPARED = 7, 21
# Common practice, no published source: what a shop's shelves are parted by.
GROUPS = (
    "tetras and kin", "barbs and rasboras", "loaches", "catfish", "cichlids", "gouramis and kin", "livebearers",
    "killifish", "rainbowfish", "other fish", "shrimps", "snails", "other animals",
)  # fmt: skip
SIGNS = " -'’.,&()/+"
Rank = tuple[int, str, bool]
Differences = Callable[[str, list[object], list[object]], list[str]]


def _rank(letter: str) -> Rank:
    """How a letter compares with others."""
    plain = unicodedata.normalize("NFD", letter)[0].lower()
    if letter in SIGNS:
        return 0, f"{SIGNS.index(letter):02}", False
    if letter in string.digits:
        return 1, letter, False
    if plain in string.ascii_lowercase:
        return 2, plain, plain != letter.lower()
    return 3, "", False


def ranks(name: str) -> list[Rank]:
    """What two names are compared by; a short name as if blanks followed."""
    return [_rank(letter) for letter in name[:COMPARED].ljust(COMPARED)]


def in_order(names: Sequence[str]) -> list[int]:
    """The rows of the names, from 0, in alphabetical order; rows without a name are left out."""
    named = [row for row, name in enumerate(names) if name]
    return sorted(named, key=lambda row: (ranks(names[row]), row))


def wrong(
    table: str, names: Sequence[str], column: Callable[[str], list[str | float]], differ: Differences
) -> list[str]:
    """Every step, over all rows of a list, ready ones too: column gives what stands in one of them."""
    plain = [re.sub("[~?*]", "-", re.sub(" +", " ", name.strip(" "))) for name in names]
    order = in_order(plain)
    places = {row: place for place, row in enumerate(order, 1)}
    rest: list[object] = [""] * (len(names) - len(order))
    parts = [column(f"letters_{n}") for n in (1, 2, 3)]
    wanted: dict[str, list[object]] = {
        "plain_name": list(plain),
        "names_so_far": list(itertools.accumulate(1 if name else 0 for name in plain)),
        "sort_key": [
            f"k{''.join(str(part[row]) for part in parts)}{100_001 + row}" if name else ""
            for row, name in enumerate(plain)
        ],
        "in_order": [places.get(row, "") for row in range(len(names))],
        "sorted_row": [*(row + 1 for row in order), *rest],
        "sorted_name": [*(names[row] for row in order), *rest],
    }
    found = [line for key, values in wanted.items() for line in differ(f"{table}.{key}", list(column(key)), values)]
    for n, part in enumerate(parts):
        found += _wrong_letters(f"{table}.letters_{n + 1}", plain, n * AT_ONCE, [str(digits) for digits in part])
    return found


def wrong_by_group(
    table: str, names: Sequence[str], groups: Sequence[str], column: Callable[[str], list[str | float]],
    differ: Differences,
) -> list[str]:  # fmt: skip
    """The same names with those of one group side by side, the groups in the order in which they are offered."""
    plain = [re.sub("[~?*]", "-", re.sub(" +", " ", name.strip(" "))) for name in names]
    places = {row: place for place, row in enumerate(in_order(plain), 1)}
    numbers: list[int | str] = [GROUPS.index(group) + 1 if group else "" for group in groups]
    order = sorted(places, key=lambda row: (int(numbers[row]), places[row]))
    rest: list[object] = [""] * (len(names) - len(order))
    alphabet = [int(numbers[row]) for row in sorted(places, key=places.__getitem__)]
    firsts, back, so_far, nexts = [0] * len(GROUPS), [], [], []
    for place in range(len(alphabet), 0, -1):
        number = alphabet[place - 1]
        back.append(number)
        nexts.append(firsts[number - 1])
        firsts[number - 1] = place
        so_far.append("".join(f"1{first:05}" for first in firsts))
    way = [places[row] for row in order]
    wanted: dict[str, list[object]] = {
        "group_no": list(numbers),
        "group_back": [*back, *rest],
        "firsts": [*so_far, *[(so_far or ["100000" * len(GROUPS)])[-1]] * len(rest)],
        "next_of_group": [*nexts, *rest],
        "leads_to": [
            *(
                place if at and numbers[row] == numbers[order[at - 1]] else 0
                for at, (row, place) in enumerate(zip(order, way, strict=True))
            ),
            *rest,
        ],
        "place_by_group": [*way, *rest],
        "row_by_group": [*(row + 1 for row in order), *rest],
        "group_no_by_group": [*(numbers[row] for row in order), *rest],
        "group_by_group": [*(groups[row] for row in order), *rest],
        "name_by_group": [*(names[row] for row in order), *rest],
    }
    return [line for key, values in wanted.items() for line in differ(f"{table}.{key}", list(column(key)), values)]


def _wrong_letters(where: str, names: Sequence[str], skipped: int, digits: Sequence[str]) -> list[str]:
    """Texts of digits of one length, which compare as the letters do that they stand for."""
    form = rf"\d{{{3 * AT_ONCE}}}"
    found = [f"{where}: {text!r} for {name!r}" for name, text in zip(names, digits, strict=True)
             if not (re.fullmatch(form, text) if name else text == "")]  # fmt: skip
    pairs = [(ranks(name)[skipped : skipped + AT_ONCE], text) for name, text in zip(names, digits, strict=True) if name]
    texts = [text for _, text in sorted(pairs)]
    return found + ([] if texts == sorted(texts) else [f"{where}: not in the order of letters"])
