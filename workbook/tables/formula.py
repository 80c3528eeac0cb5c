"""A formula: spreadsheet text in which names stand for cells, with its unit and its sources.

Kinds of name: {length} this row, {above.count} the cell above, {livestock.mass[]} a whole column,
{const.tan_share} and {settings.altitude} the one cell of a constant or of a form. {@words.length} and
{@words.settings.altitude} are the same as a sentence says them: rounded, with the unit that the file shows.
{species.length} in a table that mirrors Species: the same row of Species.
Two more serve the columns that follow from roles: {tanks.@key[]} the column by which tanks are known,
{@last.count} the lowest cell of a column.
"""

import functools
import inspect
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from workbook.tables.template import NAME, here, put, starred

ALONE = re.compile(NAME.pattern + r"|\d+(\.\d+)?")
# A name that something is divided by, or what stands in brackets there and is 0 where any name in it is.
DIVISOR = re.compile(r"/(\{[^{}]*\}|\([^()+\-]*\))")
OPERAND = re.compile(r"^(?P<name>\w+) \[(?P<unit>[^\]]*)\]: (?P<says>.+)$", re.MULTILINE)
SOURCE = re.compile(r"^source: (?P<key>\w+)(?P<where>.*)$", re.MULTILINE)


@dataclass(frozen=True)
class Formula:
    """Text with names; what the result is measured in; whose work it is; what each name must be measured in.

    A formula is blank while anything it names is blank, unless it copes with blanks itself, or says what it needs.
    decides: the text with units, such as [mg/L], in place of what is measured elsewhere: what is decided here.
    within: what its parts decide, each with its unit.
    """

    text: str
    unit: str = ""
    sources: tuple[str, ...] = ()
    expects: tuple[tuple[str, str], ...] = ()
    copes_with_blanks: bool = False
    needs: tuple[str, ...] = ()
    decides: str = ""
    within: tuple[tuple[str, str], ...] = ()

    @property
    def decisions(self) -> tuple[tuple[str, str], ...]:
        """What is decided in it, and in its parts, each with the unit that it must have; no science."""
        own = self.decides or self.text
        return self.within if own == f"[{self.unit}]" else ((own, self.unit), *self.within)

    @property
    def as_part(self) -> str:
        """What it is in the decision of a whole: its unit, where it has one."""
        return f"[{self.unit}]" if self.unit else self.decides or self.text

    @property
    def divisors(self) -> tuple[str, ...]:
        """Every name that something is divided by, but those that the formula itself compares with 0."""
        found = dict.fromkeys(name for part in DIVISOR.findall(self.text) for name in NAME.findall(part))
        return tuple(name for name in found if not re.search(re.escape(here(name)) + "(=|>|<>|<=)0", self.text))

    @property
    def names(self) -> tuple[str, ...]:
        """Every name in the text, once, in order."""
        return tuple(dict.fromkeys(NAME.findall(self.text)))


@dataclass(frozen=True)
class Equation:
    """What the docstring of an equation says, for the Sources sheet and for the tests."""

    module: str
    name: str
    summary: str
    form: str
    operands: tuple[tuple[str, str, str], ...]
    sources: tuple[tuple[str, str], ...]


REGISTRY: dict[str, Equation] = {}


Part = Formula | str | Iterable[Formula | str]


def _in_place(template: str, parts: Mapping[str, Sequence[Formula | str]], text_of: Callable[[Formula], str]) -> str:
    """The template with its parts in place; several stand as so many arguments."""
    return put(
        template,
        {
            name: ",".join(text_of(part) if isinstance(part, Formula) else part for part in several)
            for name, several in parts.items()
        },
    )


def _each_a_list(parts: Mapping[str, Part]) -> dict[str, list[Formula | str]]:
    return {name: [part] if isinstance(part, Formula | str) else list(part) for name, part in parts.items()}


def filled(template: str, *, each: str = "", **parts: Part) -> str:
    """Formula text: a template with its parts in place; a star in a name stands for `each`."""
    return starred(_in_place(template, _each_a_list(parts), lambda part: part.text), each)


def logic(
    template: str, unit: str = "", *, copes: bool = False, needs: tuple[str, ...] = (), each: str = "", **parts: Part
) -> Formula:
    """A decision or a choice between named cells: no science in it, so no source but those of its parts.

    parts: what stands in the template under a name: formula text, or formulas, which bring sources and units along;
    several stand as so many arguments.
    each: what a star in a name stands for, in parts and needs too.
    """
    given = _each_a_list(parts)
    formulas = [part for several in given.values() for part in several if isinstance(part, Formula)]
    return Formula(
        starred(_in_place(template, given, lambda part: part.text), each),
        unit,
        tuple(dict.fromkeys(source for part in formulas for source in part.sources)),
        tuple(dict.fromkeys(wanted for part in formulas for wanted in part.expects)),
        copes,
        tuple(name.replace("*", each) for name in needs),
        starred(_in_place(template, given, lambda part: part.as_part), each) if formulas else "",
        tuple(decided for part in formulas for decided in (part.decisions if part.unit else part.within)),
    )


def operand(given: Formula | str) -> str:
    """Text that can stand anywhere in a formula: bracketed unless it is a single name or number."""
    text = given.text if isinstance(given, Formula) else given
    return text if ALONE.fullmatch(text) else f"({text})"


def _read_docstring(function: Callable[..., str]) -> Equation:
    """The docstring as data; refuse one that does not name every operand, the result and a source."""
    doc = inspect.getdoc(function) or ""
    parameters = list(inspect.signature(function).parameters)
    operands = tuple((m["name"], m["unit"], m["says"]) for m in OPERAND.finditer(doc))
    sources = tuple((m["key"], m["where"].strip(" ,")) for m in SOURCE.finditer(doc))
    if [name for name, *_ in operands] != [*parameters, "returns"] or not sources:
        raise TypeError(
            f"{function.__module__}.{function.__name__}: the docstring must name "
            f"{', '.join([*parameters, 'returns'])} in this order and a source; "
            f"found {', '.join(name for name, *_ in operands) or 'no operand'} "
            f"and {', '.join(key for key, _ in sources) or 'no source'}"
        )
    paragraphs = doc.split("\n\n")
    module = function.__module__.rpartition(".")[2]
    form = " ".join(paragraphs[1].split()) if len(paragraphs) > 2 else ""
    return Equation(module, function.__name__, paragraphs[0].strip(), form, operands, sources)


def equation(function: Callable[..., str]) -> Callable[..., Formula]:
    """Turn a function of operand texts into one that returns a Formula.

    Units and source are read from its docstring, so that what a reader sees is what is checked.
    """
    said = _read_docstring(function)
    REGISTRY[f"{said.module}.{said.name}"] = said
    units = {name: unit for name, unit, _ in said.operands}
    defaults = {key: p.default for key, p in inspect.signature(function).parameters.items()}

    @functools.wraps(function)
    def build(**given: Formula | str) -> Formula:
        operands = defaults | given
        if missing := [key for key, value in operands.items() if value is inspect.Parameter.empty]:
            raise TypeError(f"{said.module}.{said.name}: {', '.join(missing)} not given")
        expects: list[tuple[str, str]] = []
        inner: list[str] = []
        within: list[tuple[str, str]] = []
        for key, value in operands.items():
            if isinstance(value, Formula):
                if value.unit != units[key]:
                    raise TypeError(f"{said.name}: {key} is wanted in [{units[key]}], found [{value.unit}]")
                expects += value.expects
                inner += value.sources
                within += value.decisions
            elif name := NAME.fullmatch(value):
                expects.append((name[1], units[key]))
        text = function(**{key: operand(value) for key, value in operands.items()})
        own = tuple(key for key, _ in said.sources)
        unit = units["returns"]
        return Formula(
            text, unit, tuple(dict.fromkeys((*own, *inner))), tuple(expects), decides=f"[{unit}]", within=tuple(within)
        )

    return build
