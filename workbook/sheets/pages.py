"""What printed pages are made of: texts broken into lines, lists that end in how many more, bars of letters."""

from workbook.tables import Computed, Look, Table, logic, text
from workbook.tables.columns import Column
from workbook.tables.completing import SEPARATOR
from workbook.tables.formula import Formula, Part, filled
from workbook.tables.kinds import Kind, number
from workbook.tables.template import column, here, quoted, said

# Columns of a page that stands upright: facts at its left, two lists at its right.
PORTRAIT_GRID = (14, 21, 11, 1.5, 17, 11, 24)
COUNT, WORDS = Look(working=True, show="0"), Look(working=True, width=18)
KEY, TEXT, STRONG, NUMBER, LINES = (
    Look(style=f"page {name}", show="0") for name in ("key", "text", "strong", "number", "lines")
)
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


def or_unknown(name: str, words: str = "") -> str:
    """Formula text: a value in words, or the word unknown."""
    # What is said of a cell as it is, is a number.
    test = filled('{value}=""' if words else "COUNT({value})=0", value=here(name))
    return filled('IF({test},"unknown",{words})', test=test, words=words or said(name))


def by_line(*texts: str) -> str:
    """Formula text: another one on each line."""
    return filled("CHOOSE({line},{texts})", texts=texts)


def facts(key_: str, title: str, there: str, pairs: tuple[tuple[str, str], ...], columns: int) -> Table:
    """What is known, one label and one text a line; blank while nothing is chosen."""
    labels, words = by_line(*(quoted(label) for label, _ in pairs)), by_line(*(words for _, words in pairs))
    return Table(
        key_,
        title=title,
        lines=len(pairs),
        row_name=("label",),
        purpose="",
        columns=(
            Computed("label", "", logic(labels), kind=text(), look=KEY),
            Computed(
                "said",
                "",
                logic('IF({there}="","",{words})', copes=True, there=there, words=words),
                kind=text(),
                look=over(TEXT, columns),
            ),
        ),
    )


def nth(key_: str, many: str, found: str, kind: Kind) -> Computed:
    """The row that stands on a line of a list; its last line is kept for how many more there are."""
    return Computed(
        "found",
        "Its row",
        logic(
            'IF(OR({line}>SUM({many}),{line}=ROWS({lines})),"",{found})',
            "1",
            copes=True,
            many=many,
            lines=column(key_, "line"),
            found=found,
        ),
        kind=kind,
        look=COUNT,
    )


def named(key_: str, many: str, name: str, word: str) -> Formula:
    """The name on a line; on the last one, how many more there are."""
    return logic(
        'IF({line}<ROWS({lines}),{name}&"",IF(SUM({many})<{line},"","and "&({many}-{line}+1)&{more}))',
        copes=True,
        lines=column(key_, "line"),
        name=name,
        many=many,
        more=quoted(f" more {word}"),
    )


PARTS_OF_LINES = {
    "mark": quoted(SEPARATOR),
    "at_mark": filled("SEARCH({mark},{above.left}&{mark})", mark=quoted(SEPARATOR)),
}
SPACES = (
    Computed(
        "spaces",
        "Spaces in it",
        logic('LEN({head})-LEN(SUBSTITUTE({head},{mark},""))', "1", copes=True, mark=quoted(SEPARATOR)),
        look=COUNT,
    ),
    Computed(
        "cut",
        "Letters on this line",
        logic(
            'IF({spaces}=0,LEN({head}),SEARCH(" ",SUBSTITUTE({head},{mark}," ",{spaces})))-1',
            "1",
            copes=True,
            mark=quoted(SEPARATOR),
        ),
        look=COUNT,
    ),
)


def working(key_: str, label: str, template: str, seed: str = "", **given: str) -> Computed:
    """A text from which the lines are cut."""
    parts = {name: part for name, part in PARTS_OF_LINES.items() if here(name) in template} | given
    return Computed(key_, label, logic(filled(template, **parts), copes=True), kind=text(), seed=seed, look=WORDS)


def broken(
    key_: str, title: str, lines: int, whole: Part, columns: int, *more: Column, letters: int = LINE_LETTERS
) -> Table:
    """Texts, joined by the mark that parts them, broken into lines at their spaces; three dots where they go on."""
    return Table(
        key_,
        title=title,
        lines=lines,
        row_name=("shown",),
        purpose="",
        columns=(
            Computed(
                "shown",
                "",
                logic(
                    'LEFT({text},{cut})&IF(AND({line}=ROWS({lines}),{rest}&{left}<>"")," …","")',
                    copes=True,
                    lines=column(key_, "line"),
                ),
                kind=text(),
                look=Look(style="page plain", span=columns),
            ),
            working("text", "From here on", 'IF({above.rest}="",TRIM(LEFT({above.left},{at_mark}-1)),{above.rest})'),
            working(
                "head",
                "What could stand on a line and one letter more, a mark for each space",
                'LEFT(SUBSTITUTE({text}," ",{mark})&{mark},{letters})',
                letters=str(letters + 1),
            ),
            *SPACES,
            working("rest", "Its rest", "TRIM(MID({text},{cut}+1,9999))", seed='""'),
            working(
                "left",
                "Texts after it",
                'IF({above.rest}="",MID({above.left},{at_mark}+1,9999),{above.left})',
                seed=filled("{whole}", whole=whole),
            ),
            *more,
        ),
    )


def letter(key_: str, label: str, value: str) -> Computed:
    """The letter of a bar at which a value lies."""
    formula = logic(
        "IF({end}>{start},"
        "ROUND(ROUND(({value}-{start})/({end}-{start})*({letters}-2*{margin})+{margin},6),0),{margin})",
        "1",
        value=here(value),
        letters=str(LETTERS),
        margin=str(MARGIN),
    )
    return Computed(key_, label, formula, look=COUNT)


def bar(*, kept: str = "") -> tuple[Column, ...]:
    """A range on a scale from start to end, drawn in letters, and the value kept in it."""
    return (
        letter("low_letter", "Letter of its low end", "low"),
        letter("high_letter", "Letter of its high end", "high"),
        *([letter("kept_letter", "Letter of the value kept", kept)] if kept else []),
        Computed(
            "plain",
            "The range",
            logic(
                "IF({high}<{low},REPT({outside},{letters}),REPT({outside},{low_letter}-1)"
                "&REPT({inside},{high_letter}-{low_letter}+1)&REPT({outside},{letters}-{high_letter}))",
                outside=quoted(OUTSIDE),
                inside=quoted(INSIDE),
                letters=str(LETTERS),
            ),
            kind=text(),
            look=WORDS,
        ),
    )


def drawn(start: str, end: str, *, kept: bool = False) -> Formula:
    """The bar between the ends of its scale in words, with the value kept where that is known."""
    marked = filled(
        'IF({kept_letter}="",{plain},LEFT({plain},{kept_letter}-1)&{mark}&MID({plain},{kept_letter}+1,999))',
        mark=quoted(KEPT),
    )
    return logic(
        "{start}&REPT({space},MAX(0,{room}-LEN({start})))&{space}&{bar}&{space}&{end}",
        needs=("plain",),
        start=start,
        end=end,
        space=quoted(SPACE),
        room=str(END_LETTERS),
        bar=marked if kept else "{plain}",
    )


def number_by_line(key_: str, label: str, *texts: str) -> Computed:
    """A number of another kind on each line, in base units: no one unit of them all."""
    return Computed(key_, label, logic(by_line(*texts), copes=True), kind=number(), look=Look(working=True, show="0.0"))
