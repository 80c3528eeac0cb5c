"""Names that lead nowhere: each is told once, with the lists that hold it, however many rows do."""

from collections.abc import Mapping, Sequence

from workbook.tables.columns import Flag, Typed
from workbook.tables.formula import filled
from workbook.tables.template import column as names_of
from workbook.tables.template import here, quoted

# List, column, and the list whose rows it names, of every column of a list that does.
Links = Sequence[tuple[str, str, str]]


def not_known(table: str, column: Typed, titles: Mapping[str, str], links: Links) -> Flag:
    """A link that leads nowhere, and is none of the words that may stand in its place.

    A name that is gone stands in many rows; it is told in the first of them, with the lists that still hold it.
    """
    there = titles.get(column.kind.table, column.kind.table)
    alike = [(list_, key) for list_, key, to in links if to == column.kind.table]
    tests = ['{*}<>""', '{*_row}=""', *("{*}<>" + quoted(word) for word in column.kind.choices)]
    earlier = [holders(list_, key, column.key) for list_, key in alike[: _place(alike, table, column.key)]]
    earlier.append(
        filled("SUMPRODUCT(({names}={*})*({lines}<{line}))", each=column.key, names=names_of(table, column.key),
               lines=names_of(table, "line"))
    )  # fmt: skip
    held = {list_: [key for other, key in alike if other == list_] for list_, _ in alike or [(table, column.key)]}
    where = "&".join(
        filled('IF({many}=0,"",{title}&({many}))', title=quoted(f", {titles.get(list_, list_)} "),
               many="+".join(holders(list_, key, column.key) for key in keys or [column.key]))
        for list_, keys in held.items()
    )  # fmt: skip
    return Flag(
        f"unknown_{column.key}",
        f"{column.label} not known",
        seriousness="act",
        copes=True,
        when=filled("IF(AND({tests}),({earlier})=0,1=0)", tests=tests, earlier="+".join(earlier), each=column.key),
        why=filled(
            '="\'"&{*}&{nowhere}&MID({where},3,200)',
            each=column.key,
            nowhere=quoted(
                f"' does not stand in the list {there}, so what hangs on it is not reckoned; rows with it: "
            ),
            where=where,
        ),
        do=f"Pick a name from the dropdown, or add it to {there} first; a new name there is followed by "
        "'shoalbook build' on this file.",
    )


def _place(alike: Sequence[tuple[str, str]], table: str, key: str) -> int:
    return alike.index((table, key)) if (table, key) in alike else 0


def holders(table: str, key: str, name: str) -> str:
    """Formula text: in how many rows of a column a name of this row stands. It may hold signs of a pattern."""
    return filled("SUMPRODUCT(({names}={name})*1)", names=names_of(table, key), name=here(name))
