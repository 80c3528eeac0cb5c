"""What printed pages are made of: texts broken into lines, lists that end in how many more there are, bars of letters."""

from workbook.tables import Computed, Look, Table, logic, text
from workbook.tables.columns import Column
from workbook.tables.formula import Formula
from workbook.tables.kinds import Kind, number
from workbook.tables.schema import SEPARATOR

COUNT, WORDS = Look(working=True, show="0"), Look(working=True, width=18)
KEY, TEXT, STRONG, NUMBER, LINES = (Look(style=f"page {name}", show="0") for name in ("key", "text", "strong", "number", "lines"))
# Letters of a bar: what lies outside, inside, and the value kept; each as wide as the other.
OUTSIDE, INSIDE, KEPT = "·", "▒", "█"
LETTERS, MARGIN = 24, 3
# Room for the scale's end before a bar; a space as wide as a letter.
END_LETTERS, SPACE = 8, "\N{NO-BREAK SPACE}"
# Letters that fit on a line of a page, with room to spare for wide ones.
LINE_LETTERS = 120


def over(look: Look, columns: int) -> Look:
    """The look, for a text that runs over some columns of the page."""
    return Look(style=look.style, show=look.show, span=columns)


def or_unknown(name: str, said: str = "") -> str:
    """Formula text: a value in words, or the word unknown."""
    return f'IF({{{name}}}="","unknown",{said or f"{{@words.{name}}}"})'


def by_line(*texts: str) -> str:
    """Formula text: another one on each line."""
    return f"CHOOSE({{line}},{','.join(texts)})"


def facts(key_: str, title: str, there: str, pairs: tuple[tuple[str, str], ...], columns: int) -> Table:
    """What is known, one label and one text a line; blank while nothing is chosen."""
    labels = by_line(*(f'"{label}"' for label, _ in pairs))
    said = by_line(*(said for _, said in pairs))
    return Table(key_, title=title, lines=len(pairs), row_name=("label",), purpose="", columns=(
        Computed("label", "", logic(labels), kind=text(), look=KEY),
        Computed("said", "", logic(f'IF({there}="","",{said})', copes=True), kind=text(), look=over(TEXT, columns)),
    ))  # fmt: skip


def nth(key_: str, many: str, found: str, kind: Kind) -> Computed:
    """The row that stands on a line of a list; its last line is kept for how many more there are."""
    return Computed("found", "Its row", logic(f'IF(OR({{line}}>N({many}),{{line}}=ROWS({{{key_}.line[]}})),"",{found})', "1", copes=True), kind=kind, look=COUNT)


def named(key_: str, many: str, name: str, word: str) -> Formula:
    """The name on a line; on the last one, how many more there are."""
    return logic(f'IF({{line}}<ROWS({{{key_}.line[]}}),{name}&"",IF(N({many})<{{line}},"","and "&({many}-{{line}}+1)&" more {word}"))', copes=True)


def broken(key_: str, title: str, lines: int, whole: str, columns: int) -> Table:
    """Texts, joined by the mark that parts them, broken into lines at their spaces; three dots where they go on."""
    left = f'SEARCH("{SEPARATOR}",{{above.left}}&"{SEPARATOR}")'
    return Table(key_, title=title, lines=lines, row_name=("shown",), purpose="", columns=(
        Computed("shown", "", logic(f'LEFT({{text}},{{cut}})&IF(AND({{line}}=ROWS({{{key_}.line[]}}),{{rest}}&{{left}}<>"")," …","")', copes=True), kind=text(),
                 look=Look(style="page plain", span=columns)),
        Computed("text", "From here on", logic(f'IF({{above.rest}}="",TRIM(LEFT({{above.left}},{left}-1)),{{above.rest}})', copes=True), kind=text(), look=WORDS),
        Computed("head", "What could stand on a line and one letter more, a mark for each space", logic(f'LEFT(SUBSTITUTE({{text}}," ","{SEPARATOR}")&"{SEPARATOR}",{LINE_LETTERS + 1})', copes=True), kind=text(), look=WORDS),
        Computed("spaces", "Spaces in it", logic(f'LEN({{head}})-LEN(SUBSTITUTE({{head}},"{SEPARATOR}",""))', "1", copes=True), look=COUNT),
        Computed("cut", "Letters on this line", logic(f'IF({{spaces}}=0,LEN({{head}}),SEARCH(" ",SUBSTITUTE({{head}},"{SEPARATOR}"," ",{{spaces}})))-1', "1", copes=True), look=COUNT),
        Computed("rest", "Its rest", logic("TRIM(MID({text},{cut}+1,9999))", copes=True), kind=text(), seed='""', look=WORDS),
        Computed("left", "Texts after it", logic(f'IF({{above.rest}}="",MID({{above.left}},{left}+1,9999),{{above.left}})', copes=True), kind=text(), seed=whole, look=WORDS),
    ))  # fmt: skip


def cell(value: str) -> Formula:
    """The letter of a bar at which a value lies."""
    share = f"ROUND(({value}-{{start}})/({{end}}-{{start}})*({LETTERS}-2*{MARGIN})+{MARGIN},6)"
    return logic(f"IF({{end}}>{{start}},ROUND({share},0),{MARGIN})", "1")


def bar(*, kept: str = "") -> tuple[Column, ...]:
    """A range on a scale from start to end, drawn in letters, and the value kept in it."""
    dots = f'REPT("{OUTSIDE}",{{low_letter}}-1)&REPT("{INSIDE}",{{high_letter}}-{{low_letter}}+1)&REPT("{OUTSIDE}",{LETTERS}-{{high_letter}})'
    plain = Computed("plain", "The range", logic(f'IF({{high}}<{{low}},REPT("{OUTSIDE}",{LETTERS}),{dots})'), kind=text(), look=WORDS)
    ends = (Computed("low_letter", "Letter of its low end", cell("{low}"), look=COUNT), Computed("high_letter", "Letter of its high end", cell("{high}"), look=COUNT))
    if not kept:
        return (*ends, plain)
    return (*ends, Computed("kept_letter", "Letter of the value kept", cell(f"{{{kept}}}"), look=COUNT), plain)


def drawn(start: str, end: str, *, kept: bool = False) -> Formula:
    """The bar between the ends of its scale in words, with the value kept where that is known."""
    marked = f'LEFT({{plain}},{{kept_letter}}-1)&"{KEPT}"&MID({{plain}},{{kept_letter}}+1,999)'
    shown = f'IF({{kept_letter}}="",{{plain}},{marked})' if kept else "{plain}"
    return logic(f'{start}&REPT("{SPACE}",MAX(0,{END_LETTERS}-LEN({start})))&"{SPACE}"&{shown}&"{SPACE}"&{end}', needs=("plain",))


def number_by_line(key_: str, label: str, *texts: str) -> Computed:
    """A number of another kind on each line, in base units."""
    return Computed(key_, label, logic(by_line(*texts), "1", copes=True), kind=number(), look=Look(working=True, show="0.0"))
