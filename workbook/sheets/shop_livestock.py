"""Livestock of a shop: the animals of the stock list, seen as every other sheet sees livestock; nobody types here."""

from dataclasses import replace

from workbook.sheets import livestock
from workbook.tables import Pulled, Typed, logic
from workbook.tables.columns import Column

THERE_TODAY = logic('IF(SUM({expected})=1,0,IF({animals}="","",{animals}))', "1", copes=True)
# Where the stock list calls it otherwise.
THERE = {"date_in": "came_in", "origin": "supplier"}


def as_pulled(column: Column) -> Column:
    """A column that a keeper types, read from the same row of the stock list."""
    if not isinstance(column, Typed):
        return column
    return Pulled(column.key, via="stock", of=THERE.get(column.key, ""), label=column.label, look=column.look)


def as_counted(column: Column) -> Column | None:
    """A shop's stock list says how many there are; what a keeper counts and logs is none of it."""
    if column.key == "living":
        return replace(column, formula=THERE_TODAY, help="")  # type: ignore[arg-type]
    return None if column.key in {"counted_on", "counted_last", "since_then"} else as_pulled(column)


LIVESTOCK = replace(
    livestock.LIVESTOCK,
    rows_of="stock",
    mirrors=True,
    example={},
    columns=tuple(filter(None, map(as_counted, livestock.LIVESTOCK.columns))),
    purpose="One row for each line of the stock list; goods have no animals.",
)

SHEET = replace(
    livestock.SHEET,
    role="answer",
    blocks=(LIVESTOCK, *livestock.SHEET.blocks[1:]),
    forms=(),  # its species are picked on Stock list
    on_paper=False,  # line by line the same animals as Stock list
    purpose=(
        "The animals of the stock list where they live; "
        "beside them the chain from length to nitrogen, and who is at risk from whom. Type on Stock list."
    ),
)
