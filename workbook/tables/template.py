"""Templates: formula text in which names stand in braces, and how parts are put into one.

A template is a plain string. {length} in it is a cell, as formula.py tells; where a part of that name is handed along,
the part is put there. A star in a name stands for the key that is handed as `each`: {*_low} with each="ph" is {ph_low}.
"""

import re
from collections.abc import Iterable, Mapping

NAME = re.compile(r"\{((?:@words\.)?@?[a-z][a-z0-9_]*(?:\.@?[a-z][a-z0-9_]*)?(?:\[\])?)\}")
WORDS = "@words."
# A text in quotes, a name, the unit of an equation, a number, a function, an operator, a bracket or a comma.
TOKEN = re.compile(
    r'"(?:[^"]|"")*"|\{[^{}]*\}|\[[^\[\]]*\]|\d+(?:\.\d+)?(?:E[+-]?\d+)?|[A-Za-z_][\w.]*|<>|<=|>=|[-+*/^&=<>%:(),]'
)
STARRED = re.compile(r"\{[^{}]*\*[^{}]*\}")
# How firmly an operator binds; a comma parts arguments, and what holds one bare can only stand as arguments.
BINDS = {
    ",": 0,
    "=": 1,
    "<>": 1,
    "<": 1,
    ">": 1,
    "<=": 1,
    ">=": 1,
    "&": 2,
    "+": 3,
    "-": 3,
    "*": 4,
    "/": 4,
    "^": 5,
    ":": 6,
}
ALONE = 7


def here(key: str) -> str:
    """The name of a column's cell in this row, for keys made in a loop."""
    return f"{{{key}}}"


def above(key: str) -> str:
    """The name of the cell above."""
    return f"{{above.{key}}}"


def of(table: str, key: str) -> str:
    """The name of the one cell of a form or a constant, or of the same row of a table that this one mirrors."""
    return f"{{{table}.{key}}}"


def column(table: str, key: str) -> str:
    """The name of a whole column."""
    return f"{{{table}.{key}[]}}"


def said(key: str) -> str:
    """The name of a cell in this row as a sentence says it, with its unit."""
    return f"{{{WORDS}{key}}}"


def quoted(words: str) -> str:
    """Words as formula text."""
    return '"' + words.replace('"', '""') + '"'


def starred(text: str, each: str) -> str:
    """The template with the key, if there is one, in place of the star in every name."""
    if not each:
        return text
    return STARRED.sub(lambda m: m[0].replace("*", each), text)


def for_each(keys: Iterable[str], text: str, between: str = ",") -> str:
    """The template once for each key, joined by an operator or as arguments."""
    return between.join(starred(text, key) for key in keys)


def _loosest(text: str) -> int:
    """How firmly the operator binds at which the text would fall apart."""
    depth, found = 0, ALONE
    for piece in TOKEN.findall(text):
        depth += (piece == "(") - (piece == ")")
        if not depth and piece in BINDS:
            found = min(found, BINDS[piece])
    return found


def _fitted(part: str, before: str, after: str) -> str:
    """The part as it can stand between two characters of a template: bracketed where it would fall apart."""
    whole = before in {"", "(", ","} and after in {"", ")", ","}
    loosest = ALONE if whole else _loosest(part)
    if loosest == 0:
        raise TypeError(f"{part} stands for several arguments, it cannot stand between '{before}' and '{after}'")
    held = loosest > BINDS.get(before, 0) or (loosest == BINDS["&"] and before == "&")
    return part if loosest == ALONE or (held and loosest >= BINDS.get(after, 0)) else f"({part})"


def put(text: str, parts: Mapping[str, str]) -> str:
    """The template with its parts in place."""
    if not parts:
        return text
    if missing := [name for name in parts if here(name) not in text]:
        raise TypeError(f"no place for {', '.join(missing)} in {text}")
    return NAME.sub(
        lambda m: _fitted(parts[m[1]], text[: m.start()][-1:], text[m.end() :][:1]) if m[1] in parts else m[0], text
    )
