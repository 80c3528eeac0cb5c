"""Spreadsheet recipes that give the same answer in every office program."""

from collections.abc import Iterable
from dataclasses import replace
from functools import reduce

from workbook.tables.formula import Formula, Part, filled, logic
from workbook.tables.template import NAME, above, here, quoted


def iso_date(cell: str) -> str:
    """Formula text: a date as 2026-03-31; codes for dates differ by language, so they are not used."""
    return filled('YEAR({day})&"-"&TEXT(MONTH({day}),"00")&"-"&TEXT(DAY({day}),"00")', day=cell)


POSITIVE = "SUM({number})>0"


def within(limits: tuple[float, float], number: str = "{number}") -> str:
    """Test: a number is there, and in the limits of what can be."""
    low, high = (f"({limit:g})" if limit < 0 else f"{limit:g}" for limit in limits)
    return filled("AND(COUNT({x})=1,{x}>={low},{x}<={high})", x=number, low=low, high=high)


def first_known(*names: str, unit: str = "", test: str = "ISNUMBER({number})") -> Formula:
    """The first of these numbers that is not blank; blank when all are.

    test: which of them count as known, POSITIVE or those within limits.
    """
    text = reduce(
        lambda rest, name: filled(
            "IF({known},{number},{rest})", known=filled(test, number=name), number=name, rest=rest
        ),
        reversed(names),
        '""',
    )
    return Formula(text, unit, expects=_expects(names, unit), copes_with_blanks=True)


def middle(low: str, high: str, unit: str) -> Formula:
    """Half way between two measures, of which the sum may mean nothing: two temperatures."""
    made = logic("({low}+{high})/2", unit, low=low, high=high)
    return replace(made, expects=_expects((low, high), unit), decides=f"[{unit}]")


def taken_as(formula: Formula, unit: str) -> Formula:
    """The formula in another unit, because one of what lies between is meant: what is fed once a day is so much a day.

    Nothing is converted: this is for what is said in words beside it.
    """
    within = formula.decisions
    return replace(formula, unit=unit, decides=f"[{unit}]", within=within)


def first_said(*names: str) -> Formula:
    """The first of these words that is not blank."""
    *others, last = names
    text = reduce(
        lambda rest, name: filled('IF({words}<>"",{words},{rest})', words=name, rest=rest),
        reversed(others),
        f'{last}&""',
    )
    return Formula(text, copes_with_blanks=True)


def or_zero(number: str) -> str:
    """Formula text: a number, 0 while its cell is blank or holds words.

    Of a cell that is SUM, in templates too. N of a blank cell is an error in Gnumeric, and so is SUM of what INDEX
    found in ironcalc.
    """
    return (
        filled("SUM({*})", each=m[1]) if (m := NAME.fullmatch(number)) else filled("IF(COUNT({x})=1,{x},0)", x=number)
    )


def spoken(number: str, decimals: int) -> str:
    """Formula text: a number as words say it, rounded, without zeros at its end.

    Joined as it is, 6.093 reads 6.0930000000000000002 in Gnumeric; whole numbers read alike in every program.
    """
    rounded = filled("ROUND({number},{decimals})", number=number, decimals=str(decimals))
    if not decimals:
        return rounded
    fewer = "".join(
        filled("-(ROUND({number},{few})={rounded})", number=number, few=str(few), rounded=rounded)
        for few in range(decimals)
    )
    # What rounds to nothing from below would be said as -0. For TRUE, LibreOffice would save TRUE().
    return f"FIXED({rounded}+0,{decimals}{fewer},1)"


def picked(number: str, words: Iterable[str]) -> str:
    """Formula text: the words in one of several cells, none where it is blank: CHOOSE alone gives 0 in Gnumeric."""
    return filled("CHOOSE({number},{words})", number=number, words=[filled('{one}&""', one=one) for one in words])


def in_rows_with(name: str, formula: Formula) -> Formula:
    """The formula as it copes with blanks, but only in rows where this name is known: ready rows stay blank."""
    return replace(formula, copes_with_blanks=False, needs=(name,))


def position(name: str, choices: tuple[str, ...], otherwise: str = '""') -> Formula:
    """Which of the choices stands in the cell: 1 for the first."""
    pairs = [f"{quoted(choice)},{i}" for i, choice in enumerate(choices, 1)]
    # Words are compared with words: SWITCH of a number that somebody typed there is an error in LibreOffice.
    return logic(
        '_xlfn.SWITCH({cell}&"",{choices},{otherwise})', "1", copes=True, cell=name, choices=pairs, otherwise=otherwise
    )


def only_if(test: str, formula: Formula, otherwise: str = '""') -> Formula:
    """The formula while a test holds, otherwise blank."""
    return logic(
        "IF({test},{formula},{otherwise})",
        formula.unit,
        copes=formula.copes_with_blanks,
        needs=formula.needs,
        test=test,
        formula=formula,
        otherwise=otherwise,
    )


NUMERIC = ',">-1E+9"'


def counted(links: str, also: str = "", row: str = "{line}") -> str:
    """Formula text: how many rows point to this row.

    A sum of ones: ironcalc walks the whole sheet for each COUNTIFS, but only the range for a SUMIFS.
    """
    ones = here(links.strip("{}").partition(".")[0] + ".one[]")
    tests = [links, row, *([also] if also else [])]
    return filled("SUMIFS({ones},{tests})", ones=ones, tests=tests)


def sum_of_rows(links: str, values: str, unit: str = "") -> Formula:
    """Sum over the rows of another table that point to this row, found by row number: no name can be a wildcard.

    0 when there are none; blank when there are some, but none of them is known.
    """
    made = logic(
        'IF({rows}=0,0,IF({known_rows}=0,"",SUMIFS({values},{links},{line})))',
        unit,
        rows=counted(links),
        known_rows=counted(links, values + NUMERIC),
        values=values,
        links=links,
    )
    return replace(made, expects=_expects((values,), unit))


def count_of_rows(links: str, also: str = "") -> Formula:
    """How many rows of another table point to this row."""
    return logic(counted(links, also), "1")


# Down a table whose lines stand in runs: {same} is 1 where a line goes on with the run of the line above.


def running_sum(key: str, value: str, unit: str = "") -> Formula:
    """Sum of the run so far; blank until something of it is known."""
    return logic(
        'IF(COUNT({value})+{same}*COUNT({so_far})=0,"",{counted}+{same}*SUM({so_far}))',
        unit,
        needs=("same",),
        value=value,
        counted=or_zero(value),
        so_far=above(key),
    )


def running_most(key: str, value: str, unit: str = "", *, least: bool = False) -> Formula:
    """Greatest (or least) cell of the run so far; blank until something of it is known."""
    most = "MIN({so_far},{value})" if least else "MAX({so_far},{value})"
    made = logic(
        "IF({same}*COUNT({so_far})=0,{value},{most})",
        unit,
        needs=("same",),
        so_far=above(key),
        value=here(value),
        most=filled(most, so_far=above(key), value=here(value)),
    )
    return replace(made, expects=((value, unit),) if unit else ())


def running_who(key: str, most: str, name: str) -> Formula:
    """The name in the first line of the run that holds the greatest (or least) so far."""
    return logic(
        "IF(AND({same}=1,{most_above}={most_here}),{who_above},{name})",
        needs=("same", most),
        most_above=above(most),
        most_here=here(most),
        who_above=above(key),
        name=name,
    )


def running_count(key: str, test: str) -> Formula:
    """How many lines of the run so far pass a test."""
    return logic("{same}*SUM({so_far})+IF({test},1,0)", "1", needs=("same",), so_far=above(key), test=test)


def running_first(key: str, count: str, name: str) -> Formula:
    """The name in the first line of the run that was counted."""
    # Before it has begun the count is 1 in the line that begins it, else 0.
    return logic(
        "IF({same}*SUM({count_above})>0,{first_above},REPT({name},{count_here}))",
        needs=("same",),
        count_above=above(count),
        first_above=above(key),
        name=name,
        count_here=here(count),
    )


def running_names(key: str, count: str, test: str, name: str, between: str = ", ") -> Formula:
    """The names in the first ten lines of the run that pass a test, as it was counted: more would grow without end."""
    return logic(
        'IF(AND({test},{count_here}<=10),IF({goes_on},{names}&{between},"")&{name},IF({same}=1,{names},""))',
        needs=("same",),
        between=quoted(between),
        test=test,
        count_here=here(count),
        goes_on=filled("{same}*SUM({count_above})>0", count_above=above(count)),
        names=above(key),
        name=name,
    )


def count_so_far(key: str, test: str) -> Formula:
    """How many rows down to this one pass a test, which copes with blanks."""
    return logic("SUM({so_far})+IF({test},1,0)", "1", copes=True, so_far=above(key), test=test)


def names_so_far(key: str, count: str, test: str, name: str, between: str) -> Formula:
    """The names in the first ten rows that pass a test, as it was counted, joined."""
    return logic(
        'IF(AND({test},{count_here}<=10),{names}&IF({count_here}>1,{between},"")&{name},{names}&"")',
        copes=True,
        between=quoted(between),
        count_here=here(count),
        names=above(key),
        test=test,
        name=name,
    )


def at_the_end(column: str, unit: str = "") -> Formula:
    """What stands in the last row of a column."""
    return logic("INDEX({column},ROWS({column}))", unit, column=column)


def as_sentence(words: str) -> Formula:
    """Words that begin with a capital."""
    return logic("UPPER(LEFT({words},1))&MID({words},2,999)", words=words)


def running_last(key: str, test: str, name: str) -> Formula:
    """The name in the last line of the run so far that passes a test."""
    return logic("IF({test},{name},REPT({so_far},{same}))", needs=("same",), test=test, name=name, so_far=above(key))


def of_run(column: str, unit: str = "", none: str = '""') -> Formula:
    """What the last line of this row's run holds; none: what stands where the run has no line."""
    made = logic(
        "IF({residents}=0,{none},INDEX({column},{run_end}))",
        unit,
        needs=("residents", "run_end"),
        none=none,
        column=column,
    )
    return replace(made, expects=_expects((column,), unit))


def nth_row(number: str, running: str) -> Formula:
    """The row in which a running count first reaches a number; blank when it never does."""
    return logic('IF({number}>MAX({running}),"",MATCH({number},{running},0))', "1", number=number, running=running)


def row_of(name: str, column: str) -> Formula:
    """The row of a list in which a name stands; blank where nothing is named, or nothing of that name is there."""
    return logic('IF({name}="","",IFERROR(MATCH({name},{column},0),""))', "1", copes=True, name=name, column=column)


def cell_of(column: str, row: str, unit: str = "") -> Formula:
    """The cell of a column in a row; blank stays blank, a missing row gives blank, and so do words for a number."""
    there = 'IF(COUNT({cell})=1,{cell},"")' if unit else 'IF({cell}="","",{cell})'
    return logic('IF({row}="","",{there})', unit, copes=True, row=row, there=filled(there, cell=cell(column, row)))


def reckoned_in(column: str, row: str, unit: str = "") -> Formula:
    """The cell of a column of formulas in a row: their blank is a text, which INDEX gives back as it is."""
    return logic('IF({row}="","",{cell})', unit, copes=True, row=row, cell=cell(column, row))


def cell(column: str, row: str) -> str:
    """Formula text: the cell of a column in a row that is there."""
    return filled("INDEX({column},{row})", column=column, row=row)


def joined(*parts: tuple[Part, Part], between: str = "; ", letters: int = 999) -> Formula:
    """The texts whose conditions hold, joined; blank when none does. A text is formula text: quote words.

    letters: as many as they may have, all together.
    """
    pieces_ = (
        filled('IF({when},{between}&{said},"")', when=when, between=quoted(between), said=said) for when, said in parts
    )
    return _without_first(pieces_, between, letters)


def all_said(names: Iterable[str], between: str) -> Formula:
    """The texts that are not blank, joined. TEXTJOIN is not alike everywhere: some engines keep "" of a formula."""
    pieces_ = (filled('IF({name}="","",{between}&{name})', between=quoted(between), name=name) for name in names)
    return _without_first(pieces_, between, 9999)


def _without_first(pieces_: Iterable[str], between: str, longest: int) -> Formula:
    """The pieces one after the other, without the mark that stands before the first of them."""
    text = "&".join(pieces_)
    return Formula(f"MID({text},{len(between) + 1},{longest})" if text else '""', copes_with_blanks=True)


def pieces(said: str, separator: str) -> str:
    """Formula text: how many pieces a joined text holds."""
    return filled(
        'IF({said}="",0,LEN({said})-LEN(SUBSTITUTE({said},{separator},""))+1)', said=said, separator=quoted(separator)
    )


def piece(said: str, number: str, separator: str) -> Formula:
    """One piece of a joined text."""
    return logic(
        'TRIM(MID(SUBSTITUTE({said},{separator},REPT(" ",LEN({said}))),({number}-1)*LEN({said})+1,LEN({said})))',
        said=said,
        separator=quoted(separator),
        number=number,
    )


def piece_number(said: str, number: str, separator: str, unit: str = "1") -> Formula:
    """One piece of a joined text of numbers, as a number."""
    return logic("VALUE({piece})", unit, piece=piece(said, number, separator))


def between(said: str, first: str, second: str) -> Formula:
    """The part of a text after the first mark and before the second."""
    return logic(
        "MID({said},SEARCH({first},{said})+{skip},SEARCH({second},{said})-SEARCH({first},{said})-{skip})",
        said=said,
        first=quoted(first),
        second=quoted(second),
        skip=str(len(first)),
    )


def before(said: str, mark: str, skip: int) -> Formula:
    """The part of a text before a mark, without its first letters."""
    return logic("MID({said},{start},SEARCH({mark},{said})-{start})", said=said, mark=quoted(mark), start=str(skip + 1))


def after(said: str, mark: str) -> Formula:
    """The part of a text after a mark."""
    return logic("MID({said},SEARCH({mark},{said})+{skip},999)", said=said, mark=quoted(mark), skip=str(len(mark)))


def _expects(names: tuple[str, ...], unit: str) -> tuple[tuple[str, str], ...]:
    return tuple((m[1], unit) for name in names if unit and (m := NAME.fullmatch(name)))
