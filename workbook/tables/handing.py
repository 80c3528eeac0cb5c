"""Tables that somebody hands out: what comes from there is locked, beside it is room for what a member knows better."""

from dataclasses import replace

from workbook.tables.columns import Column, Computed, Look, Typed
from workbook.tables.idioms import first_known, first_said, in_rows_with
from workbook.tables.table import Table
from workbook.tables.template import here


def handed_out(
    table: Table, overridable: tuple[str, ...], kept_in: str, yours: tuple[str, ...] = (), whose: str = "club"
) -> Table:
    """The table as a member gets it.

    Of each overridable column there are three: what was handed out, the member's own, and what counts, which keeps
    the key, so that everything that reckons with it goes on as it is. Other typed columns are locked, but for yours,
    and for those that were a person's own before, kept in a file of their own.
    """
    columns: list[Column] = []
    for column in table.columns:
        if not isinstance(column, Typed) or column.locked or column.kept_in or column.key in yours:
            columns.append(column)
        elif column.key in overridable:
            columns += _three(column, kept_in, whose, table.row_name[0])
        else:
            columns.append(replace(column, handed=True))
    often = (key for name in table.often for key in (beside_each(name, whose) if name in overridable else (name,)))
    return replace(table, columns=tuple(columns), often=tuple(often))


def beside_each(key: str, whose: str) -> tuple[str, str]:
    """What was handed out, and the member's own."""
    return f"{whose}_{key}", f"own_{key}"


def _three(column: Typed, kept_in: str, whose: str, name: str) -> tuple[Column, ...]:
    """What was handed out, the member's own, and what counts of the two."""
    theirs, own = beside_each(column.key, whose)
    names = here(own), here(theirs)
    formula = first_known(*names, unit=column.unit) if column.kind.is_number else in_rows_with(name, first_said(*names))
    beside = Look(column.look.group, max(column.look.width, 9), column.look.show)
    return (
        replace(
            column,
            key=theirs,
            label=f"{column.label}: {whose}",
            required=False,
            handed=True,
            filed=column.key,
            look=beside,
        ),
        replace(
            column,
            key=own,
            label=f"{column.label}: own",
            required=False,
            help=f"Blank: what the {whose} says counts.",
            kept_in=kept_in,
            look=beside,
        ),
        Computed(
            column.key,
            column.label,
            formula,
            help=f"Your own, or else what the {whose} says.",
            kind=column.kind,
            look=column.look,
        ),
    )
