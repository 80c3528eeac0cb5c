"""Spreadsheet recipes that give the same answer in every office program."""

from dataclasses import replace

from workbook.tables.formula import NAME, Formula, operand


def iso_date(cell: str) -> str:
    """Formula text: a date as 2026-03-31; codes for dates differ by language, so they are not used."""
    return f'YEAR({cell})&"-"&TEXT(MONTH({cell}),"00")&"-"&TEXT(DAY({cell}),"00")'


def first_known(*names: str, unit: str = "") -> Formula:
    """The first of these numbers that is not blank; blank when all are."""
    text = '""'
    for name in reversed(names):
        text = f"IF(ISNUMBER({operand(name)}),{operand(name)},{text})"
    return Formula(text, unit, expects=_expects(names, unit), copes_with_blanks=True)


def first_said(*names: str) -> Formula:
    """The first of these words that is not blank."""
    text = f'{names[-1]}&""'
    for name in reversed(names[:-1]):
        text = f'IF({name}<>"",{name},{text})'
    return Formula(text, copes_with_blanks=True)


def in_rows_with(name: str, formula: Formula) -> Formula:
    """The formula as it copes with blanks, but only in rows where this name is known: ready rows stay blank."""
    return replace(formula, copes_with_blanks=False, needs=(name,))


def position(name: str, choices: tuple[str, ...], otherwise: str = '""') -> Formula:
    """Which of the choices stands in the cell: 1 for the first."""
    pairs = ",".join(f'"{choice}",{i}' for i, choice in enumerate(choices, 1))
    return Formula(f"_xlfn.SWITCH({name},{pairs},{otherwise})", "1", copes_with_blanks=True)


def only_if(test: str, formula: Formula, otherwise: str = '""') -> Formula:
    """The formula while a test holds, otherwise blank."""
    return replace(formula, text=f"IF({test},{formula.text},{otherwise})")


NUMERIC = ',">-1E+9"'


def counted(links: str, also: str = "", row: str = "{line}") -> str:
    """Formula text: how many rows point to this row.

    A sum of ones: ironcalc walks the whole sheet for each COUNTIFS, but only the range for a SUMIFS.
    """
    table = links.strip("{}").partition(".")[0]
    return f"SUMIFS({{{table}.one[]}},{links},{row}{',' + also if also else ''})"


def sum_of_rows(links: str, values: str, unit: str = "") -> Formula:
    """Sum over the rows of another table that point to this row, found by row number: no name can be a wildcard.

    0 when there are none; blank when there are some, but none of them is known.
    """
    known = f'IF({counted(links, values + NUMERIC)}=0,"",SUMIFS({values},{links},{{line}}))'
    return Formula(f"IF({counted(links)}=0,0,{known})", unit, expects=_expects((values,), unit))


def count_of_rows(links: str, also: str = "") -> Formula:
    """How many rows of another table point to this row."""
    return Formula(counted(links, also), "1")


# Down a table whose lines stand in runs: {same} is 1 where a line goes on with the run of the line above.


def running_sum(key: str, value: str, unit: str = "") -> Formula:
    """Sum of the run so far; blank until something of it is known."""
    text = f'IF(COUNT({value})+{{same}}*COUNT({{above.{key}}})=0,"",N({value})+{{same}}*N({{above.{key}}}))'
    return Formula(text, unit, needs=("same",))


def running_most(key: str, value: str, unit: str = "", *, least: bool = False) -> Formula:
    """Greatest (or least) cell of the run so far; blank until something of it is known."""
    above, cell, what = f"{{above.{key}}}", f"{{{value}}}", "MIN" if least else "MAX"
    text = f"IF({{same}}*COUNT({above})=0,{cell},{what}({above},{cell}))"
    return Formula(text, unit, expects=((value, unit),) if unit else (), needs=("same",))


def running_who(key: str, most: str, name: str) -> Formula:
    """The name in the first line of the run that holds the greatest (or least) so far."""
    text = f"IF(AND({{same}}=1,{{above.{most}}}={{{most}}}),{{above.{key}}},{name})"
    return Formula(text, needs=("same", most))


def running_count(key: str, test: str) -> Formula:
    """How many lines of the run so far pass a test."""
    return Formula(f"{{same}}*N({{above.{key}}})+IF({test},1,0)", "1", needs=("same",))


def running_first(key: str, count: str, name: str) -> Formula:
    """The name in the first line of the run that was counted."""
    begun = f"{{same}}*N({{above.{count}}})>0"
    # Before it has begun the count is 1 in the line that begins it, else 0.
    return Formula(f"IF({begun},{{above.{key}}},REPT({name},{{{count}}}))", needs=("same",))


def running_names(key: str, count: str, test: str, name: str) -> Formula:
    """The names in the first ten lines of the run that pass a test, as it was counted: more would grow without end."""
    before = f'IF({{same}}*N({{above.{count}}})>0,{{above.{key}}}&", ","")'
    kept = f'IF({{same}}=1,{{above.{key}}},"")'
    return Formula(f"IF(AND({test},{{{count}}}<=10),{before}&{name},{kept})", needs=("same",))


def running_last(key: str, test: str, name: str) -> Formula:
    """The name in the last line of the run so far that passes a test."""
    return Formula(f"IF({test},{name},REPT({{above.{key}}},{{same}}))", needs=("same",))


def of_run(column: str, unit: str = "", none: str = '""') -> Formula:
    """What the last line of this row's run holds; none: what stands where the run has no line."""
    text = f"IF({{residents}}=0,{none},INDEX({column},{{run_end}}))"
    return Formula(text, unit, expects=_expects((column,), unit), needs=("residents", "run_end"))


def nth_row(number: str, running: str) -> Formula:
    """The row in which a running count first reaches a number; blank when it never does."""
    return Formula(f'IF({number}>MAX({running}),"",MATCH({number},{running},0))', "1")


def cell_of(column: str, row: str, unit: str = "") -> Formula:
    """The cell of a column in a row; blank stays blank, a missing row gives blank."""
    text = f'IF({row}="","",IF(INDEX({column},{row})="","",INDEX({column},{row})))'
    return Formula(text, unit, copes_with_blanks=True)


def reckoned_in(column: str, row: str, unit: str = "") -> Formula:
    """The cell of a column of formulas in a row: their blank is a text, which INDEX gives back as it is."""
    return Formula(f'IF({row}="","",INDEX({column},{row}))', unit, copes_with_blanks=True)


def joined(*parts: tuple[str, str], between: str = "; ") -> Formula:
    """The texts whose conditions hold, joined; blank when none does. A text is formula text: quote words."""
    tests = "&".join(f'IF({when},"{between}"&{said},"")' for when, said in parts)
    return Formula(f"MID({tests},{len(between) + 1},999)", copes_with_blanks=True)


def all_said(names: list[str], between: str) -> Formula:
    """The texts that are not blank, joined. TEXTJOIN is not alike everywhere: some engines keep "" of a formula."""
    if not names:
        return Formula('""', copes_with_blanks=True)
    parts = "&".join(f'IF({name}="","","{between}"&{name})' for name in names)
    return Formula(f"MID({parts},{len(between) + 1},9999)", copes_with_blanks=True)


def pieces(said: str, separator: str) -> str:
    """Formula text: how many pieces a joined text holds."""
    return f'IF({said}="",0,LEN({said})-LEN(SUBSTITUTE({said},"{separator}",""))+1)'


def piece(said: str, number: str, separator: str) -> Formula:
    """One piece of a joined text."""
    padded = f'SUBSTITUTE({said},"{separator}",REPT(" ",LEN({said})))'
    return Formula(f"TRIM(MID({padded},({number}-1)*LEN({said})+1,LEN({said})))")


def piece_number(said: str, number: str, separator: str, unit: str = "1") -> Formula:
    """One piece of a joined text of numbers, as a number."""
    return Formula(f"VALUE({piece(said, number, separator).text})", unit)


def between(said: str, first: str, second: str) -> Formula:
    """The part of a text after the first mark and before the second."""
    after = f'SEARCH("{first}",{said})+{len(first)}'
    return Formula(f'MID({said},{after},SEARCH("{second}",{said})-{after.replace("+", "-")})')


def before(said: str, mark: str, skip: int) -> Formula:
    """The part of a text before a mark, without its first letters."""
    return Formula(f'MID({said},{skip + 1},SEARCH("{mark}",{said})-{skip + 1})')


def after(said: str, mark: str) -> Formula:
    """The part of a text after a mark."""
    return Formula(f'MID({said},SEARCH("{mark}",{said})+{len(mark)},999)')


def _expects(names: tuple[str, ...], unit: str) -> tuple[tuple[str, str], ...]:
    return tuple((m[1], unit) for name in names if unit and (m := NAME.fullmatch(name)))
